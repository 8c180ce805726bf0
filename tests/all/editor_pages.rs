//! The pages on settings and commands are what the declarations make them.

use drylay::server::PAGES;

use crate::golden;

#[test]
fn the_pages_for_editors_are_up_to_date() {
    for page in PAGES {
        golden::made(&format!("editors/{}", page.name), |_| (page.make)());
    }
}
