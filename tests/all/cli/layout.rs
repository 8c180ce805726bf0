//! `drylay fmt`: what is written where, and how it ends.

use std::fs;

use super::*;

const ROUGH: &str = "site\n soil clay\r\nshape a\n";
const LAID: &str = "site\n  soil          clay\r\n\r\nshape a\n";

#[test]
fn files_are_laid_out_where_they_lie() {
    let folder = folder(&[("a.patio", ROUGH), ("b/c.patio", LAID), ("d.txt", ROUGH)]);
    let at = |name: &str| fs::read_to_string(folder.path().join(name)).unwrap();
    let run = |arguments: &[&str]| run_in(folder.path(), arguments);

    let said = run(&["fmt", "--check"]);
    assert_eq!(
        (said.status.code(), text(&said.stdout)),
        (Some(1), "a.patio\n".to_owned())
    );
    let shown = run(&["fmt", "--diff", "a.patio"]);
    assert_eq!(shown.status.code(), Some(1));
    assert!(text(&shown.stdout).contains("\n+  soil          clay"));
    assert_eq!(at("a.patio"), ROUGH);

    let done = run(&["fmt"]);
    assert_eq!(
        (done.status.code(), text(&done.stdout)),
        (Some(0), String::new())
    );
    assert_eq!(
        (at("a.patio"), at("d.txt")),
        (LAID.to_owned(), ROUGH.to_owned())
    );
    for arguments in [&["fmt", "--check"][..], &["fmt", "--diff"], &["fmt"]] {
        let again = run(arguments);
        assert_eq!(again.status.code(), Some(0), "{arguments:?}");
        assert_eq!(
            (text(&again.stdout), text(&again.stderr)),
            Default::default()
        );
    }
}

#[test]
fn standard_input_goes_to_standard_output() {
    let folder = folder(&[("other.patio", ROUGH)]);
    for (arguments, status, written) in [
        (&["fmt", "-"][..], 0, LAID),
        (&["fmt", "--stdin-path", "other.patio"], 0, LAID),
        (
            &["fmt", "--stdin-path", "other.patio", "--check"],
            1,
            "other.patio\n",
        ),
    ] {
        let output = run_with_input(folder.path(), arguments, ROUGH.as_bytes());
        assert_eq!(output.status.code(), Some(status), "{arguments:?}");
        assert_eq!(text(&output.stdout), written, "{arguments:?}");
    }
    let kept = fs::read_to_string(folder.path().join("other.patio")).unwrap();
    assert_eq!(kept, ROUGH);
}

#[test]
fn a_file_that_cannot_be_read_stops_no_other() {
    let folder = folder(&[("a.patio", ROUGH)]);
    fs::write(folder.path().join("bad.patio"), b"site\n\xff").unwrap();
    let output = run_in(
        folder.path(),
        &["fmt", "missing.patio", "bad.patio", "a.patio"],
    );
    assert_eq!(output.status.code(), Some(2));
    let reported = text(&output.stderr);
    assert!(
        reported.contains("missing.patio: there is no such file"),
        "{reported}"
    );
    assert!(
        reported.contains("bad.patio: it is not UTF-8 text"),
        "{reported}"
    );
    assert_eq!(
        fs::read_to_string(folder.path().join("a.patio")).unwrap(),
        LAID
    );
}
