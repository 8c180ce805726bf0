use proptest::prelude::*;

use super::{Memory, formatted, on_type};
use crate::syntax::{LineKind, Tree};
use crate::text::{Edit, Span, Text, apply};
use crate::vocabulary::SECTIONS;

fn tree(text: &str) -> Tree {
    Tree::parse(Text::from(text))
}

fn laid(text: &str) -> String {
    formatted(&tree(text))
}

fn edits(tree: &Tree, range: Option<Span>) -> Vec<Edit> {
    Memory::default().edits(tree, range)
}

#[track_caller]
fn becomes(before: &str, after: &str) {
    assert_eq!(laid(before), after, "{before:?}");
    assert_eq!(laid(after), after, "a second time: {before:?}");
}

/// One entry of a surface or the like, before and after.
#[track_caller]
fn entry(kind: &str, before: &str, after: &str) {
    becomes(
        &format!("{kind}\n  {before}\n"),
        &format!("{kind}\n  {after}\n"),
    );
}

#[test]
fn values_start_in_one_column() {
    for (before, after) in [
        ("soil gravel", "soil          gravel"),
        ("soil\tgravel", "soil          gravel"),
        ("soil                gravel", "soil          gravel"),
        ("SOIL gravel  \t", "soil          gravel"),
        ("Datum \"Sill  ½\"", "datum         \"Sill  ½\""),
        ("note", "note"),
        ("frost 3' , wet", "frost         3', wet"),
        ("unheard of", "unheard       of"),
    ] {
        entry("site", before, after);
    }
    entry(
        "surface a",
        "isolation-joint   1/2 in",
        "isolation-joint 1/2 in",
    );
    entry("job \"A\"", "prepared-by   \"B\"", "prepared-by   \"B\"");
}

#[test]
fn values_are_written_plainly() {
    for (before, after) in [
        (
            "rectangle 24′ by 12’, at ( 0,-12' )",
            "24' by 12', at (0, -12')",
        ),
        ("rectangle 6½\" by 6 ½”", "6 1/2\" by 6 1/2\""),
        ("rectangle 24'6″ by 24’–6½''", "24' 6\" by 24'-6 1/2\""),
        ("rectangle 24ft 6in by 3M", "24 ft 6 in by 3 m"),
        ("rectangle 4x8 in", "4 by 8 in"),
        ("rectangle 4 m × 8 m", "4 m by 8 m"),
        ("rectangle 4 m x 8 m", "4 m by 8 m"),
        ("rectangle with× 8 m", "with × 8 m"),
        ("rectangle 150mm BY 1,200MM", "150 mm by 1,200 mm"),
        ("rectangle a+b by max( a,b )", "a + b by max(a, b)"),
        ("rectangle a*2 by (a+b) /2", "a * 2 by (a + b) / 2"),
        (
            "rectangle a − b by b, at (−b, –1 m)",
            "a - b by b, at (-b, -1 m)",
        ),
        ("rectangle a/2 by\u{A0}b", "a/2 by b"),
        ("rectangle 1 m by 1 m,Corners 2′", "1 m by 1 m, corners 2'"),
    ] {
        entry("shape a", before, &format!("rectangle     {after}"));
    }
    for (before, after) in [
        (
            "circle radius 8',Center (1', -1')",
            "circle        radius 8', centre (1', -1')",
        ),
        ("start(0,0)", "start         (0, 0)"),
        ("east 24',named  wall", "east          24', named wall"),
    ] {
        entry("shape a", before, after);
    }
    for (before, after) in [
        ("price $ 42 / TON", "price         $42/ton"),
        ("price 42usd", "price         42 USD"),
        ("price $24 / pallet", "price         $24/pallet"),
        ("density 1.35T/m³", "density       1.35 T/m3"),
        ("density 1.35 t/m³", "density       1.35 t/m3"),
        ("bulking 25%", "bulking       25 %"),
        ("called “no. 57 ½”", "called        \"no. 57 ½\""),
    ] {
        entry("material a", before, after);
    }
    entry("mix a", "parts 1 b:4  c", "parts         1 b : 4 c");
    entry("mix a", "parts 1 b : 4 x c", "parts         1 b : 4 x c");
    entry("site", "north 35 °", "north         35°");
    entry(
        "surface a",
        "fall 1:60 away  from wall",
        "fall          1:60 away from wall",
    );
    entry(
        "surface a",
        "fall 1/4in PER ft",
        "fall          1/4 in per ft",
    );
    becomes("LET a=-6in", "let a = -6 in");
    becomes("Job  \"A  b\"  ", "job \"A  b\"");
}

#[test]
fn what_is_in_doubt_is_left_alone() {
    for text in [
        "site\n  soil: gravel\n",
        "site\n  soil = gravel\n",
        "site\n  - soil gravel\n",
        "site\n  soil  gravel  @\n",
        "site\n  soil , gravel\n",
        "site\n  soil gravel\twet\n",
        "site\n  ground  3.6-0.15 m\n",
        "site\n  ground  24' -6\"\n",
        "site\n  datum  \"sill\n",
        "site\n  frost  50# bag  \n",
        "site\n   (well)   near\n",
        "site\n  frost   3',,wet\n",
        "material t\n  minimum   21e5 ton\n",
        "shape s\n  east   6mtr\n",
        "site\n  ground   (1',\n",
        "colour   blue\n",
    ] {
        becomes(text, text);
    }
    becomes(
        "site\n  ground        1,5 m\n",
        "site\n  ground        1,5 m\n",
    );
}

#[test]
fn sections_are_parted_by_a_blank_line() {
    for (before, after) in [
        ("site\nshape a\n", "site\n\nshape a\n"),
        ("\n\n  \nsite\n\n\n\nshape a\n\n\n", "site\n\nshape a\n"),
        (
            "site\n# about a\n# it\nshape a",
            "site\n\n# about a\n# it\nshape a",
        ),
        ("# file  \n\n\n# a\nshape a", "# file\n\n# a\nshape a"),
        ("site\n # inside\nshape a", "site\n  # inside\n\nshape a"),
        (
            "let a = 1\nlet b = 2\nsite\n",
            "let a = 1\nlet b = 2\n\nsite\n",
        ),
        ("let a = 1\n\n\nlet b = 2\n", "let a = 1\n\nlet b = 2\n"),
        (
            "site\n\tsoil clay\n\n\n\n\tnote \"a\"\n",
            "site\n  soil          clay\n\n  note          \"a\"\n",
        ),
        ("site\nsoil clay\n", "site\nsoil clay\n"),
        ("", ""),
        (
            "\u{FEFF}site\n soil clay",
            "\u{FEFF}site\n  soil          clay",
        ),
        ("\u{FEFF}\n\nsite", "\u{FEFF}site"),
        ("\n\u{FEFF}site", "\n\u{FEFF}site"),
    ] {
        becomes(before, after);
    }
}

#[test]
fn line_ends_are_each_lines_own() {
    becomes(
        "site  \r\n soil clay\r note \"a\"\nshape a\r\n",
        "site\r\n  soil          clay\r  note          \"a\"\n\nshape a\r\n",
    );
    becomes("site\rshape a\r", "site\r\rshape a\r");
    becomes("site\r \n soil clay\n", "site\r \n  soil          clay\n");
    becomes("site\r\nshape a\r\n", "site\r\n\r\nshape a\r\n");
}

#[test]
fn comments_stay_where_they_are() {
    for (before, after) in [
        (
            "site\n soil clay # firm\n",
            "site\n  soil          clay  # firm\n",
        ),
        (
            "site\n soil clay# firm \n",
            "site\n  soil          clay  # firm\n",
        ),
        (
            "site\n  soil clay                        # firm\n",
            "site\n  soil          clay               # firm\n",
        ),
        ("site # here\n", "site  # here\n"),
        ("site\n\t# ½  firm \n", "site\n  # ½  firm\n"),
        (
            "site\n# at the margin\n  soil clay\n",
            "site\n# at the margin\n  soil          clay\n",
        ),
    ] {
        becomes(before, after);
    }
}

#[test]
fn what_goes_on_is_kept_so() {
    for (before, after) in [
        (
            "build a\n paving b,30 mm, # top\n\n   # and\n    waste 5%\n",
            "build a\n  paving        b, 30 mm,  # top\n\n                # and\n                waste 5 %\n",
        ),
        (
            "shape a\n  start (0,\n    0 )\n",
            "shape a\n  start         (0,\n                0)\n",
        ),
        (
            "build a\n    paving b,\n    bed c\n",
            "build a\n  paving b,\n  bed           c\n",
        ),
        (
            "build a\n paving b,\r\n  30 mm\n",
            "build a\n  paving        b,\r\n                30 mm\n",
        ),
    ] {
        becomes(before, after);
    }
}

#[test]
fn edits_leave_what_is_right() {
    let text = "site\n soil clay\n  frost         3'\nshape a\n start (0,0)\n";
    let tree = tree(text);
    let all = edits(&tree, None);
    assert_eq!(apply(text, &all), Some(formatted(&tree)));
    let second = Span::new(30, 32);
    assert!(second.slice(text).trim().is_empty() || edits(&tree, Some(second)).is_empty());
    let first = edits(&tree, Some(Span::at(7)));
    assert_eq!(
        apply(text, &first).as_deref(),
        Some("site\n  soil          clay\n  frost         3'\nshape a\n start (0,0)\n")
    );
}

#[test]
fn a_part_is_laid_out_with_its_section_where_lines_would_join() {
    let text = "build a\n paving b,\n bed c\n";
    let laid = edits(&tree(text), Some(Span::at(20)));
    let after = apply(text, &laid).unwrap();
    assert_eq!(tree(&after).lines().count(), 3, "{after}");
}

#[test]
fn a_new_line_is_indented_as_it_will_be() {
    for (before, after) in [
        ("site\n|", "site\n  |"),
        ("site\n  soil clay\n|", "site\n  soil clay\n  |"),
        (
            "site\n  soil clay\n|  frost 3'",
            "site\n  soil clay\n|  frost 3'",
        ),
        ("site\n  # a\n|", "site\n  # a\n  |"),
        ("# a\n|", "# a\n|"),
        ("let a = 1\n|", "let a = 1\n|"),
        (
            "build a\n  paving b,\n|",
            "build a\n  paving b,\n                |",
        ),
        (
            "build a\n  paving b, # c\n|",
            "build a\n  paving b, # c\n                |",
        ),
        (
            "shape a\n  start (0\n|",
            "shape a\n  start (0\n                |",
        ),
        (
            "build a\n  paving b,\n|  30 mm",
            "build a\n  paving b,\n                |30 mm",
        ),
        ("site\n  \n  |", "site\n\n|"),
        ("site\n\n|", "site\n\n|"),
        ("site\n|shape a", "site\n|shape a"),
        ("|", "|"),
    ] {
        let at = before.find('|').unwrap();
        let text = before.replace('|', "");
        let edits = on_type(&tree(&text), at as u32);
        let now = apply(&text, &edits).unwrap();
        assert_eq!(now, after.replace('|', ""), "{before:?}");
    }
}

/// Bits of specs that are joined at random.
const PIECES: &[&str] = &[
    "site",
    "soil",
    "shape a",
    "rectangle",
    "let b",
    "=",
    "12'",
    "6½\"",
    "24'-6\"",
    "x",
    "×",
    "by",
    "(",
    ")",
    ",",
    ",",
    " ",
    "  ",
    "\t",
    "\n",
    "\n",
    "\r\n",
    "\r",
    "\n  ",
    "\n ",
    "\n    ",
    "# c",
    "#",
    "\"t\"",
    "“t”",
    "\"",
    "″",
    "1:60",
    ":",
    "-",
    " - ",
    "–",
    "+",
    "/",
    "/ton",
    "per",
    "$42",
    "1,5",
    "2 %",
    "m²",
    "MM",
    "T",
    "clay",
    "max(",
    "a.b",
    "2027-04-12",
    "@",
    "\u{FEFF}",
    "\u{A0}",
    "at",
    "centre",
    "Center",
    "°",
    "- ",
    "½",
    "½ in",
    "word",
    "\\",
];

/// The same, and every example of the vocabulary.
fn any_text() -> impl Strategy<Value = String> {
    let keys = SECTIONS.iter().flat_map(|kind| kind.keys);
    let examples: Vec<&str> = keys.map(|key| key.example).collect();
    let piece = prop_oneof![
        4 => prop::sample::select(PIECES),
        1 => prop::sample::select(examples),
    ];
    prop::collection::vec(piece, 0..24).prop_map(|parts| parts.concat())
}

fn comments(tree: &Tree) -> Vec<String> {
    tree.lines()
        .flat_map(|line| {
            let own = line.line.comments.iter();
            own.map(|comment| {
                let written = line.text_of(*comment);
                written
                    .trim_end_matches(super::columns::is_blank)
                    .to_owned()
            })
            .collect::<Vec<_>>()
        })
        .collect()
}

fn unread(tree: &Tree) -> Vec<String> {
    let lines = tree
        .lines()
        .filter(|line| line.line.kind == LineKind::Unread);
    lines
        .map(|line| line.text.trim_start_matches('\u{FEFF}').to_owned())
        .collect()
}

/// The words, values and marks as one run of characters that layout keeps.
fn shape(tree: &Tree) -> Vec<(LineKind, usize, usize, bool)> {
    let spoken = tree
        .lines()
        .filter(|line| line.line.kind != LineKind::Blank);
    spoken
        .map(|line| {
            let items = line.line.phrases.iter().map(|phrase| phrase.items.len());
            let line = line.line;
            (
                line.kind,
                line.phrases.len(),
                items.sum(),
                line.faults.is_empty(),
            )
        })
        .collect()
}

proptest! {
    #[test]
    fn whatever_the_text_it_says_the_same_and_stays(text in any_text()) {
        let before = tree(&text);
        let once = formatted(&before);
        let after = tree(&once);
        prop_assert_eq!(&after.to_text(), &once);
        prop_assert_eq!(formatted(&after), once.clone());
        prop_assert_eq!(comments(&before), comments(&after));
        prop_assert_eq!(unread(&before), unread(&after));
        prop_assert_eq!(shape(&before), shape(&after));
        prop_assert_eq!(apply(&text, &edits(&before, None)), Some(once));
    }

    #[test]
    fn a_part_says_the_same(text in any_text(), from in 0u32..60, length in 0u32..20) {
        let before = tree(&text);
        let some = edits(&before, Some(Span::new(from, from + length)));
        let after = tree(&apply(&text, &some).unwrap());
        prop_assert_eq!(shape(&before), shape(&after));
        prop_assert_eq!(comments(&before), comments(&after));
    }

    #[test]
    fn a_new_line_is_indented_and_nothing_else(text in any_text(), at in 0u32..60) {
        let some = on_type(&tree(&text), at);
        let after = apply(&text, &some).unwrap();
        let words = |text: &str| text.replace(super::columns::is_blank, "");
        prop_assert_eq!(words(&text), words(&after));
    }
}
