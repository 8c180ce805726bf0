//! Texts that are kept beside the tests and looked at when they change.
//!
//! `DRYLAY_REFRESH=1 cargo test --test all` writes them anew; the difference
//! is then to be read before it is kept.

use std::path::Path;

use crate::folder::repository;

/// Holds a text to what is kept under `tests/golden` by this name.
pub fn check(name: &str, text: &str) {
    made(&format!("tests/golden/{name}"), |_| text.to_owned());
}

/// Holds a file of the repository to what is made of it from what it holds.
pub fn made(name: &str, anew: impl FnOnce(&str) -> String) {
    let path = repository().join(name);
    let kept = std::fs::read_to_string(&path).unwrap_or_default();
    let text = anew(&kept);
    if kept == text {
        return;
    }
    if std::env::var_os("DRYLAY_REFRESH").is_some() {
        let folder = path.parent().unwrap_or(Path::new("."));
        std::fs::create_dir_all(folder).expect("the folder can be made");
        std::fs::write(&path, text).expect("the text can be kept");
        return;
    }
    let first = kept
        .lines()
        .zip(text.lines())
        .position(|(kept, text)| kept != text)
        .unwrap_or_else(|| kept.lines().count().min(text.lines().count()));
    let line = |text: &str| text.lines().nth(first).unwrap_or("nothing").to_owned();
    panic!(
        "{name}, line {}: kept\n{}\nand now\n{}\nIf that is right, run with DRYLAY_REFRESH=1",
        first + 1,
        line(&kept),
        line(&text),
    );
}
