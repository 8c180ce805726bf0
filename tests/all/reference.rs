//! The reference pages in the repository are what the tables make them.

use std::fs;
use std::path::Path;

use drylay::report::reference::PAGES;

#[test]
fn the_reference_pages_are_up_to_date() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("grammar");
    let refresh = std::env::var_os("DRYLAY_REFRESH").is_some();
    let mut stale = Vec::new();
    for page in PAGES {
        let path = folder.join(page.name);
        let made = (page.make)();
        let kept = fs::read_to_string(&path).unwrap_or_default();
        if kept == made {
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
        "grammar/{stale:?} differ from the tables; DRYLAY_REFRESH=1 cargo test makes them again"
    );
}
