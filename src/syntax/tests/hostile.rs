//! Texts that no one would write, and those that someone might write to harm.

use proptest::prelude::*;

use super::samples::{MISTAKES, PONTOON};
use crate::syntax::blank::is_blank;
use crate::syntax::open_ends::OpenEnds;
use crate::syntax::section_split::is_letter;
use crate::syntax::{FaultKind, Item, ItemKind, LineKind, Phrase, PlacedLine, Tree};
use crate::text::Span;

/// Checks that a tree is sound, whatever its text.
fn sound(text: &str) -> Result<(), TestCaseError> {
    let tree = Tree::parse(text.into());
    prop_assert_eq!(tree.to_text(), text);
    let mut end = 0;
    for placed in tree.sections.iter() {
        prop_assert_eq!(placed.start, end);
        prop_assert!(!placed.section.lines.is_empty());
        end = placed.span().end;
        let heads = placed
            .section
            .lines
            .iter()
            .filter(|(_, line)| line.kind == LineKind::Heading);
        prop_assert!(
            heads.count() <= 1,
            "a second heading in {:?}",
            tree.section_text(placed)
        );
        let mut before = placed
            .section
            .lines
            .iter()
            .take_while(|(_, line)| line.kind != LineKind::Heading);
        if placed.section.heading().is_some() && placed.start > 0 {
            prop_assert!(before.all(|(_, line)| line.kind == LineKind::Comment));
        }
    }
    prop_assert_eq!(end as usize, text.len());
    tree.lines().try_for_each(sound_line)
}

fn sound_line(placed: PlacedLine<'_>) -> Result<(), TestCaseError> {
    let line = placed.line;
    prop_assert!(line.length > 0);
    let inside = |span: Span| {
        placed
            .text
            .get(span.start as usize..span.end as usize)
            .is_some()
    };
    let mut spans = vec![line.indent, line.word];
    spans.extend(line.commas.iter().chain(&line.comments));
    spans.extend(line.faults.iter().map(|fault| fault.span));
    prop_assert!(spans.iter().all(|span| inside(*span)), "{:?}", line);
    for comment in &line.comments {
        prop_assert!(placed.text_of(*comment).starts_with('#'));
    }
    if line.kind == LineKind::Unread {
        prop_assert_eq!(line.faults.len(), 1);
        prop_assert!(line.phrases.is_empty());
        let why = line.faults[0].kind;
        let starts_with_word = placed
            .text
            .trim_start_matches(is_blank)
            .starts_with(is_letter);
        prop_assert!(
            why != FaultKind::Unread || !starts_with_word,
            "{:?}",
            placed.text
        );
    }
    if !line.phrases.is_empty() {
        prop_assert_eq!(line.phrases.len(), line.commas.len() + 1);
    }
    if line.kind != LineKind::Unread {
        sound_ends(placed)?;
    }
    // Whatever is no blank, comma or comment belongs to an item.
    if matches!(line.kind, LineKind::Heading | LineKind::Entry) {
        let mut covered: Vec<_> = line
            .phrases
            .iter()
            .flat_map(|phrase| &phrase.items)
            .map(|item| item.span)
            .collect();
        let free = |comment: &&Span| !covered.iter().any(|item| item.covers(**comment));
        let comments: Vec<_> = line.comments.iter().filter(free).copied().collect();
        covered.extend(line.commas.iter().chain([&line.word]).chain(&comments));
        covered.sort();
        let mut at = line.word.start;
        for span in covered {
            prop_assert!(
                span.start >= at,
                "two leaves share a place in {:?}",
                placed.text
            );
            let gap = placed.text_of(Span {
                start: at,
                end: span.start,
            });
            prop_assert!(
                gap.chars().all(is_gap),
                "{:?} is lost in {:?}",
                gap,
                placed.text
            );
            at = span.end;
        }
        let gap = placed.text_of(Span {
            start: at,
            end: line.length,
        });
        prop_assert!(
            gap.chars().all(is_gap),
            "{:?} is lost in {:?}",
            gap,
            placed.text
        );
    }
    line.phrases
        .iter()
        .try_for_each(|phrase| sound_phrase(placed, phrase))
}

fn is_gap(character: char) -> bool {
    is_blank(character) || matches!(character, '\n' | '\r')
}

fn sound_phrase(placed: PlacedLine<'_>, phrase: &Phrase) -> Result<(), TestCaseError> {
    let mut at = phrase.span.start;
    for item in &phrase.items {
        prop_assert!(item.span.start >= at && item.span.end <= phrase.span.end);
        prop_assert!(!placed.text_of(item.span).is_empty());
        at = item.span.end;
        sound_item(placed, item)?;
    }
    Ok(())
}

fn sound_item(placed: PlacedLine<'_>, item: &Item) -> Result<(), TestCaseError> {
    let whole = |span: Span| {
        item.span.start <= span.start
            && span.end <= item.span.end
            && placed
                .text
                .get(span.start as usize..span.end as usize)
                .is_some()
    };
    match &item.kind {
        ItemKind::Number { terms, currency } => {
            prop_assert!(!terms.is_empty());
            prop_assert!(
                terms
                    .iter()
                    .all(|term| whole(term.number) && term.unit.is_none_or(whole))
            );
            prop_assert!(currency.is_none_or(whole));
        }
        ItemKind::Group { phrases } | ItemKind::Call { phrases, .. } => {
            phrases
                .iter()
                .try_for_each(|phrase| sound_phrase(placed, phrase))?;
        }
        ItemKind::Ratio { left, right } => prop_assert!(whole(*left) && whole(*right)),
        ItemKind::Reference { owner, edge } => prop_assert!(whole(*owner) && whole(*edge)),
        ItemKind::Text { inner } => prop_assert!(whole(*inner)),
        ItemKind::Per { unit } => prop_assert!(whole(*unit)),
        _ => {}
    }
    Ok(())
}

/// The grammar and the search for line ends must agree on what is text, what
/// a comment is and which parentheses stay open.
fn sound_ends(placed: PlacedLine<'_>) -> Result<(), TestCaseError> {
    let line = placed.line;
    let (mut start, mut depth) = (0, 0);
    for physical in placed.text.split_inclusive(['\n', '\r']) {
        let content = physical.trim_end_matches(['\n', '\r']);
        depth = OpenEnds::of(content, depth).depth;
        for (at, _) in content.match_indices('#') {
            let is_comment = line
                .comments
                .iter()
                .any(|comment| comment.start as usize == start + at);
            prop_assert_eq!(
                is_comment,
                !ends_in_text(&content[..at]),
                "{:?}",
                placed.text
            );
            if is_comment {
                break;
            }
        }
        start += physical.len();
    }
    let open = line
        .faults
        .iter()
        .filter(|fault| fault.kind == FaultKind::GroupOpen)
        .count();
    prop_assert_eq!(open, depth as usize, "{:?}", placed.text);
    Ok(())
}

/// True if a parenthesis put at the end of a line would be text.
fn ends_in_text(content: &str) -> bool {
    let depth = |text: &str| OpenEnds::of(text, 0).depth;
    depth(&format!("{content}(")) == depth(content)
}

fn piece() -> impl Strategy<Value = &'static str> {
    prop::sample::select(vec![
        "\n",
        "\r",
        "\r\n",
        "\n  ",
        "\n\t",
        " ",
        "\u{A0}",
        "\u{2009}",
        "\t",
        "#",
        "# ",
        ",",
        "(",
        ")",
        "\"",
        "“",
        "”",
        "″",
        "''",
        "'",
        "’",
        "\\",
        "\\\"",
        "-",
        "–",
        "−",
        " - ",
        "--",
        "6",
        "1/2",
        "½",
        "1,200",
        "24'",
        "6\"",
        "2027-04-12",
        "1:60",
        "1:1:6",
        "$",
        "£4",
        " USD",
        " in",
        "ft2",
        "m",
        "²",
        " per ",
        "over",
        "/",
        "*",
        "×",
        "x",
        "=",
        ":",
        ".",
        "a",
        "Ölberg",
        "bed-mix",
        "min",
        "area(",
        "key ",
        "job ",
        "\u{FEFF}",
        "𝌆",
        "e\u{301}",
        "\u{301}",
        "\0",
        "_",
        "%",
        "°F",
        "°",
        "@",
        ";",
        "٣",
        "\u{2028}",
        "\u{200D}",
        "- ",
        "• ",
    ])
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 400, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn any_pieces_make_a_sound_tree(pieces in prop::collection::vec(piece(), 0..60)) {
        sound(&pieces.concat())?;
        sound(&format!("  key {}", pieces.concat()))?;
    }

    #[test]
    fn any_characters_make_a_sound_tree(text in "\\PC*[\\x00-\\x20]{0,4}\\PC*") {
        sound(&text)?;
    }

    #[test]
    fn any_change_of_a_sample_makes_a_sound_tree(
        sample in prop::sample::select(vec![PONTOON, MISTAKES]),
        at in 0usize..=1000,
        length in 0usize..20,
        with in piece(),
    ) {
        let start = sample.floor_char_boundary(at * sample.len() / 1000);
        let end = sample.floor_char_boundary((start + length).min(sample.len()));
        sound(&format!("{}{with}{}", &sample[..start], &sample[end..]))?;
    }
}

#[test]
fn a_sound_spec_has_no_faults() {
    let tree = Tree::parse(PONTOON.into());
    let faults: Vec<_> = tree.lines().flat_map(|line| &line.line.faults).collect();
    assert_eq!(faults, [] as [&crate::syntax::Fault; 0]);
    let strays = format!("{:?}", tree.sections).matches("Stray").count();
    assert_eq!(strays, 0);
}

#[test]
fn large_and_hostile_texts_are_read_to_their_end() {
    let ramp: String = (1..400)
        .map(|n| format!("{}a (\n", " ".repeat(n)))
        .collect();
    for text in [
        "(".repeat(10_000),
        format!("  key {}", "f(".repeat(10_000)),
        "  key (\n".repeat(5_000),
        "  key a,\n".repeat(5_000),
        format!("  key a,\n{}", "    b,\n".repeat(20_000)),
        ramp.repeat(2),
        "a".repeat(10_000_000),
        "-".repeat(60_000),
        format!("  key {}", "-".repeat(60_000)),
        format!("  key {}", "1in--".repeat(12_000)),
        format!("  key {}", "1 ".repeat(10_000)),
        format!("  key {}", "\"".repeat(60_000)),
        format!("  key 1{}x", " ".repeat(60_000)),
        format!("  key {}", "a.".repeat(30_000)),
        format!("  key {}", "1,200".repeat(6_000)),
        "\r".repeat(20_000),
        "#\n".repeat(100_000),
        "job\n".repeat(10_000),
    ] {
        sound(&text).unwrap();
    }
}
