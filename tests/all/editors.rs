//! The files that editors colour by are what the vocabulary makes them.

use drylay::report::editors::MADE;

use crate::golden;

#[test]
fn the_words_of_every_editor_are_up_to_date() {
    for made in MADE {
        golden::made(&format!("editors/{}", made.path), |kept| {
            for mark in made.between.into_iter().flatten() {
                assert!(kept.contains(mark), "{} has no `{mark}`", made.path);
            }
            made.anew(kept)
        });
    }
}
