//! Words that are spelled in two ways, and words that had another name once.

/// British and American spellings, the language's own first.
const TWO_WAYS: &[(&str, &str)] = &[
    ("centre", "center"),
    ("colour", "color"),
    ("kerb", "curb"),
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
    fn a_word_of_an_earlier_version_is_known() {
        assert_eq!(renamed("Advice"), Some("advisory"));
        assert_eq!(renamed("advisory"), None);
    }
}
