//! Lines, sections, and what stands where in them.

use super::dump::dump;
use crate::syntax::{LineKind, Tree};

fn kinds(text: &str) -> Vec<(LineKind, String, String)> {
    let tree = Tree::parse(text.into());
    assert_eq!(tree.to_text(), text);
    tree.lines()
        .map(|line| (line.line.kind, line.word().to_owned(), dump(line)))
        .collect()
}

#[test]
fn each_kind_of_line_is_known() {
    for (text, kind, word, rest) in [
        ("job \"Terrace\"", LineKind::Heading, "job", "text(Terrace)"),
        ("\u{FEFF}job", LineKind::Heading, "job", ""),
        ("  close\r\n", LineKind::Entry, "close", ""),
        ("\u{FEFF}\tclose", LineKind::Entry, "close", ""),
        (
            "  permeable, voids 40 %",
            LineKind::Entry,
            "permeable",
            "| voids 40~%",
        ),
        ("  centre(1, 2)", LineKind::Entry, "centre", "(1 | 2)"),
        ("  key: 3", LineKind::Entry, "key", "COLON 3"),
        ("  key=3", LineKind::Entry, "key", "EQUALS 3"),
        ("  - depth 3 in", LineKind::Entry, "depth", "3~in"),
        ("• depth 3 in", LineKind::Heading, "depth", "3~in"),
        ("# note", LineKind::Comment, "", ""),
        ("  #57 note\n", LineKind::Comment, "", ""),
        ("  \t\n", LineKind::Blank, "", ""),
        ("\u{FEFF}", LineKind::Blank, "", ""),
        ("\r", LineKind::Blank, "", ""),
        (
            "  12 ft wide # it\n",
            LineKind::Unread,
            "",
            "! unread 12 ft wide # it",
        ),
        ("-depth 3", LineKind::Unread, "", "! unread -depth 3"),
        ("  \"open, (\n", LineKind::Unread, "", "! unread \"open, ("),
        (")", LineKind::Unread, "", "! unread )"),
    ] {
        assert_eq!(
            kinds(text),
            [(kind, word.to_owned(), rest.to_owned())],
            "{text:?}"
        );
    }
}

#[test]
fn a_bullet_stands_between_indent_and_word() {
    let tree = Tree::parse("  - depth 3 in".into());
    let line = tree.line_at(0).unwrap();
    assert_eq!((line.line.indent.end, line.line.word.start), (2, 4));
}

#[test]
fn an_unread_line_keeps_its_comments() {
    let tree = Tree::parse("  12 \"#\" # why\n".into());
    let line = tree.line_at(0).unwrap();
    let comments = line
        .line
        .comments
        .iter()
        .map(|comment| line.text_of(*comment));
    assert_eq!(comments.collect::<Vec<_>>(), ["# why"]);
}

#[test]
fn a_line_that_goes_on_is_one_line() {
    let text = "job a, # one\n\n    # two\n  b (0,\n  1)\n  close\n";
    let tree = Tree::parse(text.into());
    let shown: Vec<_> = tree.lines().map(dump).collect();
    assert_eq!(shown, ["a | b (0 | 1)", ""]);
    let line = tree.line_at(0).unwrap();
    let comments = line
        .line
        .comments
        .iter()
        .map(|comment| line.text_of(*comment));
    assert_eq!(comments.collect::<Vec<_>>(), ["# one", "# two"]);
}

#[test]
fn a_comma_or_parenthesis_that_leads_nowhere_is_found_on_its_line() {
    let shown: Vec<_> = kinds("shape a (\n  start (0,\n  close,\nsite\n")
        .into_iter()
        .map(|(.., rest)| rest)
        .collect();
    assert_eq!(
        shown,
        [
            "a () ! group-open (",
            "(0 | ) ! group-open ( ! comma ,",
            "|  ! comma ,",
            ""
        ]
    );
}

#[test]
fn lines_too_deep_or_too_long_are_kept_unread() {
    let deep = format!("  key {}\n  close\n", "(".repeat(65));
    assert_eq!(
        kinds(&deep),
        [
            (LineKind::Unread, String::new(), "! too-deep (".to_owned()),
            (LineKind::Entry, "close".to_owned(), String::new()),
        ]
    );
    let fits = format!("  key {}{}", "(".repeat(64), ")".repeat(64));
    assert_eq!(kinds(&fits)[0].0, LineKind::Entry);
    let long = format!("  key {}\n  close\n", "a ".repeat(40_000));
    let tree = Tree::parse(long.as_str().into());
    let kinds: Vec<_> = tree.lines().map(|line| line.line.kind).collect();
    assert_eq!(kinds, [LineKind::Unread, LineKind::Entry]);
    assert_eq!(tree.to_text(), long);
}

#[test]
fn places_are_found() {
    let text = "# about\njob \"a\"\n  note x\n\n# of it\n# and\nsite\n  # soil\n  soil clay\n";
    let tree = Tree::parse(text.into());
    let starts: Vec<_> = tree.sections.iter().map(|placed| placed.start).collect();
    assert_eq!(starts, [0, 26]);
    let at = |offset| tree.line_at(offset).map(|line| line.text);
    assert_eq!(at(0), Some("# about\n"));
    assert_eq!(at(7), Some("# about\n"));
    assert_eq!(at(8), Some("job \"a\"\n"));
    assert_eq!(at(25), Some("\n"));
    assert_eq!(at(26), Some("# of it\n"));
    assert_eq!(at(text.len() as u32), None);
    assert_eq!(at(u32::MAX), None);
    assert_eq!(tree.section_at(text.len() as u32).unwrap().start, 26);
    let site = &tree.sections[1];
    assert_eq!(tree.find(site.id).unwrap().start, 26);
    let (heading, _) = site.section.heading().unwrap();
    assert_eq!(tree.description(site, heading), ["of it", "and"]);
    let soil = tree.lines_of(site).last().unwrap();
    assert_eq!(tree.description(site, soil.start - site.start), ["soil"]);
    assert_eq!(tree.description(site, heading - 6), ["of it"]);
    assert_eq!(tree.text_of(soil.in_file(soil.line.word)), "soil");
    assert_eq!(Tree::parse("job".into()).line_at(3).unwrap().text, "job");
    assert!(Tree::parse("".into()).section_at(0).is_none());
}
