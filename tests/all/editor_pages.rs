//! The pages on settings and commands are what the declarations make them.

use std::fs;

use drylay::server::PAGES;

use crate::folder::repository;

#[test]
fn the_pages_for_editors_are_up_to_date() {
    let refresh = std::env::var_os("DRYLAY_REFRESH").is_some();
    let mut stale = Vec::new();
    for page in PAGES {
        let path = repository().join("editors").join(page.name);
        let made = (page.make)();
        if fs::read_to_string(&path).unwrap_or_default() == made {
            continue;
        }
        if refresh {
            fs::write(&path, &made).expect("the page can be written");
        } else {
            stale.push(page.name);
        }
    }
    assert!(
        stale.is_empty(),
        "editors/{stale:?} differ from the declarations; DRYLAY_REFRESH=1 cargo test makes them again"
    );
}
