//! Words that are spelled in two ways, and words that had another name once.

use std::borrow::Cow;

use crate::sources::Region;

/// British and American spellings, the language's own first.
const TWO_WAYS: &[(&str, &str)] = &[
    ("centre", "center"),
    ("colour", "color"),
    ("kerb", "curb"),
    ("mitred", "mitered"),
    ("labour", "labor"),
    ("aluminium", "aluminum"),
    ("polythene", "polyethylene"),
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

/// A name of the catalogue as it is spelled in a region.
pub fn spelled_in(region: Region, name: &str) -> Cow<'_, str> {
    match other_spelling(name).filter(|_| region == Region::Us) {
        Some(american) => Cow::Owned(american),
        None => Cow::Borrowed(name),
    }
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
    fn a_word_of_an_earlier_version_is_known() {
        assert_eq!(renamed("Advice"), Some("advisory"));
        assert_eq!(renamed("advisory"), None);
    }
}
