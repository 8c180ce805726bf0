//! A tree after edits is the tree of the whole text.

use std::collections::BTreeSet;

use proptest::prelude::*;

use super::samples::{MISTAKES, PONTOON};
use crate::syntax::{SectionId, Tree};

/// All of a tree but its names.
fn shown(tree: &Tree) -> Vec<(u32, String)> {
    tree.sections
        .iter()
        .map(|placed| (placed.start, format!("{:?}", placed.section)))
        .collect()
}

fn ids(tree: &Tree) -> Vec<u32> {
    tree.sections.iter().map(|placed| placed.id.0).collect()
}

#[test]
fn one_edited_line_is_read_again_alone() {
    let tree = Tree::parse(PONTOON.into());
    assert_eq!(tree.parsed_lines, tree.lines().count());
    let edited = tree.edited(PONTOON.replace("1:60 away", "1:80 away").into());
    assert_eq!(edited.parsed_lines, 1);
    assert_eq!(tree.edited(PONTOON.into()).parsed_lines, 0);
    let grown = format!("{}{PONTOON}", PONTOON.repeat(50));
    let large = Tree::parse(grown.as_str().into());
    let changed = grown.replacen("31.5 ft", "30 ft", 1);
    assert_eq!(large.edited(changed.into()).parsed_lines, 1);
}

#[test]
fn sections_keep_their_names() {
    let tree = Tree::parse("job\n  a\nsite\n  b\nshape\n  c\n".into());
    assert_eq!(ids(&tree), [0, 1, 2]);
    for (text, expected) in [
        ("job\n  a\nsite\n  x\nshape\n  c\n", vec![0, 1, 2]),
        ("shape\n  c\njob\n  a\n", vec![2, 0]),
        (
            "job\n  a\njob\n  a\nsite\n  b\nshape\n  c\n",
            vec![0, 3, 1, 2],
        ),
        ("# new\njob\n  a\nsite\n  b\nshape\n  c\n", vec![0, 1, 2]),
        ("job\n  a\nsite\n  b\n# c\nshape\n  c\n", vec![0, 1, 2]),
        ("job\n  a\nsite\n  b\n", vec![0, 1]),
        ("", vec![]),
    ] {
        let edited = tree.edited(text.into());
        assert_eq!(ids(&edited), expected, "{text:?}");
        for placed in edited.sections.iter() {
            assert_eq!(edited.find(placed.id).unwrap().start, placed.start);
        }
        assert!(edited.find(SectionId(99)).is_none());
    }
}

#[test]
fn no_name_is_given_twice() {
    let first = Tree::parse("job\nsite\n".into());
    let without = first.edited("job\n".into());
    let again = without.edited("job\nshape\n".into());
    assert_eq!(ids(&again), [0, 2]);
}

#[test]
fn an_edit_of_a_line_above_may_move_a_section() {
    for (before, after) in [
        ("a\nfoo\nb\nc\n", "a\n#foo\nb\nc\n"),
        ("a\n#foo\nb\nc\n", "a\nfoo\nb\nc\n"),
        ("a\nb\nc\n", "a b\nc\n"),
        ("a\r\nb", "a\rb"),
        ("a\rb", "a\r\nb"),
        ("a,\n#\nb\nc", "a,\n#\n b\nc"),
        ("a\nb", "a\n\u{FEFF}b"),
    ] {
        let edited = Tree::parse(before.into()).edited(after.into());
        assert_eq!(
            shown(&edited),
            shown(&Tree::parse(after.into())),
            "{before:?} to {after:?}"
        );
    }
}

/// Replaces a stretch of a text, both ends given in thousandths.
fn replaced(text: &str, from: usize, length: usize, with: &str) -> String {
    let start = text.floor_char_boundary(from * text.len() / 1000);
    let end = text.floor_char_boundary((start + length).min(text.len()));
    format!("{}{with}{}", &text[..start], &text[end..])
}

fn piece() -> impl Strategy<Value = String> {
    let pieces = [
        "\n",
        "\r",
        "\r\n",
        "\n  ",
        "\nsite",
        "# x",
        "#",
        ",",
        "(",
        ")",
        "\"",
        "“",
        "”",
        "'",
        "-",
        " ",
        "6",
        "½",
        "\u{FEFF}",
        "𝌆",
        "e\u{301}",
        "\0",
        "\\",
        "shape a\n",
        "  close\n",
        "",
    ];
    prop::sample::select(pieces.map(str::to_owned).to_vec())
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn any_chain_of_edits_gives_the_whole_tree(
        base in prop::sample::select(vec![PONTOON, MISTAKES, ""]),
        edits in prop::collection::vec((0usize..=1000, 0usize..60, piece()), 1..12),
    ) {
        let mut text = base.to_owned();
        let mut tree = Tree::parse(text.as_str().into());
        for (from, length, with) in edits {
            text = replaced(&text, from, length, &with);
            tree = tree.edited(text.as_str().into());
            prop_assert_eq!(tree.to_text(), text.as_str());
            prop_assert_eq!(shown(&tree), shown(&Tree::parse(text.as_str().into())));
            let names: BTreeSet<_> = ids(&tree).into_iter().collect();
            prop_assert_eq!(names.len(), tree.sections.len());
        }
    }
}
