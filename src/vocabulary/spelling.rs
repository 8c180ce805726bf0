//! Words that are spelled in two ways, and words that had another name once.

use std::borrow::Cow;

use crate::sources::Region;
use crate::text::capital;

/// British and American spellings, the language's own first.
const TWO_WAYS: &[(&str, &str)] = &[
    ("centre", "center"),
    ("centres", "centers"),
    ("colour", "color"),
    ("kerb", "curb"),
    ("mitred", "mitered"),
    ("labour", "labor"),
    ("aluminium", "aluminum"),
    ("polythene", "polyethylene"),
    ("grey", "gray"),
    ("neighbour", "neighbor"),
    ("metre", "meter"),
    ("millimetre", "millimeter"),
];

/// Words of the language that had another name in an earlier version, which
/// is read for ever: what it was, and what it is.
const RENAMED: &[(&str, &str)] = &[("advice", "advisory")];

/// Whether a word reads as a word of the language, in any case and in British
/// or American spelling: `Center` as `centre`, `stone-curb` as `stone-kerb`.
pub fn reads_as(written: &str, word: &str) -> bool {
    written.eq_ignore_ascii_case(word) || {
        let mut parts = written.split('-');
        let mut own = word.split('-');
        own.all(|own| parts.next().is_some_and(|part| is_spelled(part, own)))
            && parts.next().is_none()
    }
}

fn is_spelled(written: &str, word: &str) -> bool {
    written.eq_ignore_ascii_case(word)
        || TWO_WAYS.iter().any(|(british, american)| {
            (word == *british && written.eq_ignore_ascii_case(american))
                || (word == *american && written.eq_ignore_ascii_case(british))
        })
}

/// The other spelling of a name, if it has one: `aluminium-edge` of
/// `aluminum-edge`, and the other way round.
pub fn other_spelling(name: &str) -> Option<String> {
    let other = |part: &str| {
        let mut all = TWO_WAYS.iter();
        all.find_map(|(british, american)| match part {
            _ if part == *british => Some(*american),
            _ if part == *american => Some(*british),
            _ => None,
        })
    };
    let spelled: Vec<&str> = name
        .split('-')
        .map(|part| other(part).unwrap_or(part))
        .collect();
    let spelled = spelled.join("-");
    (spelled != name).then_some(spelled)
}

/// A name, or words that were not written for one region, as they are spelled
/// in one: `stone-curb`, `Concrete curbs or edging`.
pub fn spelled_in(region: Region, text: &str) -> Cow<'_, str> {
    let is_letter = |letter: char| letter.is_alphabetic();
    if region != Region::Us
        || !text
            .split(|c| !is_letter(c))
            .any(|word| american(word).is_some())
    {
        return Cow::Borrowed(text);
    }
    let pieces = text.split_inclusive(|letter| !is_letter(letter));
    let spelled = pieces.map(|piece| {
        let (word, end) = piece.split_at(piece.trim_end_matches(|c| !is_letter(c)).len());
        american(word).map_or_else(|| piece.to_owned(), |american| american + end)
    });
    Cow::Owned(spelled.collect())
}

/// The American spelling of a British word, its capital and its plural kept.
fn american(word: &str) -> Option<String> {
    TWO_WAYS.iter().find_map(|(british, american)| {
        let (stem, end) = match word.strip_suffix('s') {
            Some(stem) => (stem, "s"),
            None => (word, ""),
        };
        match stem {
            _ if stem == *british => Some(format!("{american}{end}")),
            _ if stem == capital(british) => Some(capital(american) + end),
            _ => None,
        }
    })
}

/// What a word of an earlier version is called now.
pub fn renamed(written: &str) -> Option<&'static str> {
    let mut all = RENAMED.iter();
    let (_, now) = all.find(|(before, _)| written.eq_ignore_ascii_case(before))?;
    Some(now)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn both_spellings_read_alike() {
        for (written, word, is_same) in [
            ("Center", "centre", true),
            ("centre", "centre", true),
            ("stone-curb", "stone-kerb", true),
            ("aluminum-edge", "aluminium-edge", true),
            ("stone", "stone-kerb", false),
            ("stone-kerb-low", "stone-kerb", false),
            ("centred", "centre", false),
        ] {
            assert_eq!(reads_as(written, word), is_same, "{written}");
        }
    }

    #[test]
    fn a_name_has_its_spelling_in_each_region() {
        for (name, other, us) in [
            ("aluminium-edge", Some("aluminum-edge"), "aluminum-edge"),
            ("stone-kerb", Some("stone-curb"), "stone-curb"),
            ("crushed-stone", None, "crushed-stone"),
        ] {
            assert_eq!(other_spelling(name).as_deref(), other);
            assert_eq!(spelled_in(Region::Us, name), us);
            assert_eq!(spelled_in(Region::Uk, name), name);
        }
    }

    #[test]
    fn words_are_spelled_as_in_their_region() {
        for (text, us) in [
            ("Concrete kerbs or edging", "Concrete curbs or edging"),
            ("Aluminium edging", "Aluminum edging"),
            ("Portland cement, grey", "Portland cement, gray"),
            ("centred on the middle", "centred on the middle"),
            ("in the neighbour's yard", "in the neighbor's yard"),
        ] {
            assert_eq!(spelled_in(Region::Us, text), us);
            assert_eq!(spelled_in(Region::Uk, text), text);
        }
    }

    #[test]
    fn a_word_of_an_earlier_version_is_known() {
        assert_eq!(renamed("Advice"), Some("advisory"));
        assert_eq!(renamed("advisory"), None);
    }
}
