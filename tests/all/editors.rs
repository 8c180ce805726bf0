//! The files that editors colour by are what the vocabulary makes them.

use std::fs;

use drylay::report::editors::MADE;

use crate::folder::repository;

#[test]
fn the_words_of_every_editor_are_up_to_date() {
    let refresh = std::env::var_os("DRYLAY_REFRESH").is_some();
    let mut stale = Vec::new();
    for made in MADE {
        let path = repository().join("editors").join(made.path);
        let kept = fs::read_to_string(&path).unwrap_or_default();
        let anew = made.anew(&kept);
        for mark in made.between.into_iter().flatten() {
            assert!(kept.contains(mark), "{} has no `{mark}`", made.path);
        }
        if kept == anew {
            continue;
        }
        if refresh {
            fs::create_dir_all(path.parent().expect("it lies in a folder")).expect("the folder");
            fs::write(&path, &anew).expect("the file can be written");
        } else {
            stale.push(made.path);
        }
    }
    assert!(
        stale.is_empty(),
        "editors/{stale:?} differ from the vocabulary; DRYLAY_REFRESH=1 cargo test makes them again"
    );
}
