//! The reference pages in the repository are what the tables make them.

use drylay::report::reference::PAGES;

use crate::golden;

#[test]
fn the_reference_pages_are_up_to_date() {
    for page in PAGES {
        golden::made(&format!("grammar/{}", page.name), |_| (page.make)());
    }
}
