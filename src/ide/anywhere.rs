//! No request at any place of any text fails: every one is asked all over
//! the specs of this repository, damaged at random.

use std::sync::LazyLock;

use proptest::prelude::*;

use super::fixture::{COURT, analysed};
use super::*;
use crate::text::{Edit, Span, apply};
use crate::vocabulary::SECTIONS;

/// What is put into a spec to damage it.
const PIECES: &[&str] = &[
    "\n",
    "\r\n",
    "  ",
    "\t",
    "(",
    ")",
    "\"",
    ",",
    ":",
    "=",
    "/",
    " per ",
    " x ",
    "#",
    ".",
    "-",
    "1e30",
    "0",
    "½",
    "𝄞",
    "e\u{301}",
    "24' 6\"",
    "sq",
    "surface",
    "let a = a",
    "build b",
    "edge ",
    "accept ",
    "court.",
    "area(",
    "length(court.",
    "use \"x\"",
    "\u{feff}",
    "\\",
];

/// The same and every example of the vocabulary, on a line of its own.
static ALL_PIECES: LazyLock<Vec<String>> = LazyLock::new(|| {
    let keys = SECTIONS.iter().flat_map(|kind| kind.keys);
    let examples = keys.map(|key| format!("\n  {}\n", key.example));
    let sections = SECTIONS.iter().map(|kind| format!("\n{}\n", kind.example));
    let pieces = PIECES.iter().map(|piece| (*piece).to_owned());
    pieces.chain(examples).chain(sections).collect()
});

/// What is damaged.
const SPECS: &[&str] = &[
    COURT,
    include_str!("../../specs/bakehouse-yard.patio"),
    include_str!("../../specs/chapel-forecourt.patio"),
    include_str!("../../specs/orchard-terrace.patio"),
    include_str!("../../specs/office/standard.patio"),
];

fn nearest(text: &str, mut at: usize) -> u32 {
    at = at.min(text.len());
    while !text.is_char_boundary(at) {
        at -= 1;
    }
    at as u32
}

/// Asks everything at a place.
fn ask(analysis: &crate::analysis::Analysis, at: u32) {
    let text = analysis.own_text();
    let is_sound = |span: Span| text.get(span.start as usize..span.end as usize).is_some();
    if let Some(found) = completions(analysis, at) {
        assert!(is_sound(found.span));
        for offer in found.offers.iter().take(3) {
            documentation(analysis, &offer.about);
        }
    }
    signature(analysis, at);
    hover(analysis, at, &|_| false);
    assert!(
        definitions(analysis, at)
            .iter()
            .all(|(file, span)| *file != 0 || is_sound(*span))
    );
    if renamable(analysis, at).is_ok_and(|span| span.is_some()) {
        let edits = rename(analysis, at, "quite-new").unwrap_or_default();
        assert!(edits.iter().all(|edit| is_sound(edit.span)));
    }
    assert!(selections(analysis, at).iter().all(|span| is_sound(*span)));
    for offered in rewritings(analysis, Span::at(at)) {
        let edits = offered.edits.into_iter();
        let edits: Vec<Edit> = edits.map(|edit| Edit::new(edit.span, edit.text)).collect();
        assert!(
            apply(text, &edits).is_some(),
            "{}: {edits:?}",
            offered.title
        );
    }
    actions(analysis, Span::at(at));
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 24, ..ProptestConfig::default() })]

    #[test]
    fn no_request_fails_anywhere(
        which in any::<prop::sample::Index>(),
        cuts in prop::collection::vec((any::<prop::sample::Index>(), 0usize..30, any::<prop::sample::Index>()), 1..6),
        places in prop::collection::vec(any::<prop::sample::Index>(), 24),
    ) {
        let mut text = SPECS[which.index(SPECS.len())].to_owned();
        let mut near = Vec::new();
        for (from, length, piece) in cuts {
            let at = from.index(text.len() + 1);
            let span = Span::new(nearest(&text, at), nearest(&text, at + length));
            let piece = piece.get(&ALL_PIECES);
            text = apply(&text, &[Edit::new(span, piece.as_str())]).expect("a sound span");
            near.push(span.start + piece.len() as u32);
        }
        let analysis = analysed(&text);
        let whole = Span::from(0..text.len());
        let tokens = Colours::default().within(&analysis.files[0], whole);
        prop_assert!(tokens.windows(2).all(|pair| pair[0].span.end <= pair[1].span.start));
        folds(&analysis.files[0].tree);
        links(&analysis);
        lenses(&analysis);
        symbols(&analysis);
        let edits: Vec<Edit> = all_fixes(&analysis)
            .into_iter()
            .map(|edit| Edit::new(edit.span, edit.text))
            .collect();
        prop_assert!(apply(&text, &edits).is_some(), "{edits:?}");
        let places = places.iter().map(|place| place.index(text.len() + 3) as u32);
        for at in places.chain(near) {
            ask(&analysis, at);
        }
    }
}
