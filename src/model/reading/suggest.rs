//! Did you mean: the words that may have been meant by another.

use crate::vocabulary::is_plain;

/// So many letters of a longer word stand for it: `dig` for `digging`.
const WHOLE: usize = 3;

/// The word of `among` that is nearest to `word`, if one is near enough to
/// be a slip of the hand.
pub fn nearest<'a>(word: &str, among: impl IntoIterator<Item = &'a str>) -> Option<&'a str> {
    if word.len() > 64 {
        return None;
    }
    let length = word.chars().count();
    let most = (length / 3).clamp(1, 3);
    // What is much longer or shorter cannot be near, and need not be measured.
    let may_be_near = |other: &&str| {
        other.len() + 4 * most >= word.len() && other.chars().count().abs_diff(length) <= most
            || word.len() >= WHOLE && other.starts_with(word)
    };
    among
        .into_iter()
        .filter(may_be_near)
        .map(|other| (strsim::osa_distance(word, other), other))
        .filter(|(distance, other)| {
            *distance <= most || (word.len() >= WHOLE && other.starts_with(word))
        })
        .min_by_key(|(distance, _)| *distance)
        .map(|(_, other)| other)
}

/// The word of the language that is nearest to `word`, in lower case; of one
/// that means itself, only another form of it. Who writes `cutting` does not
/// mean `carting`, though he may mean `cut`.
pub(crate) fn slip_of<'a>(word: &str, among: impl IntoIterator<Item = &'a str>) -> Option<&'a str> {
    let parts = || crate::materials::materials().flat_map(|own| own.name.split('-'));
    let means_itself = is_plain(word) || parts().any(|part| part == word);
    let is_alike = |other: &&str| !means_itself || is_form_of(word, other);
    nearest(word, among.into_iter().filter(is_alike))
}

/// Whether two words are forms of one: `dig` and `digging`, `paver` and
/// `paving`; or one is a part of the other: `isolation` of `isolation-joint`.
fn is_form_of(word: &str, other: &str) -> bool {
    const ENDINGS: &[&str] = &["ings", "ing", "ers", "ed", "er", "es", "al", "e", "s", "y"];
    /// So many letters stay of a word without its ending.
    const STEM: usize = 3;
    let stem = |word: &str| {
        let mut stems = ENDINGS
            .iter()
            .filter_map(|ending| word.strip_suffix(ending));
        let stem = stems.find(|stem| stem.chars().count() >= STEM);
        let mut letters: Vec<char> = stem.unwrap_or(word).chars().collect();
        if let [.., before, last] = letters.as_slice()
            && before == last
        {
            letters.pop();
        }
        letters
    };
    let is_part = |long: &str, short: &str| {
        let rest = long.strip_prefix(short);
        rest.is_some_and(|rest| rest.starts_with('-'))
    };
    let (bare, own) = (word.replace('-', ""), other.replace('-', ""));
    let are_one = |one: &str, many: &str| many.strip_suffix('s') == Some(one);
    stem(word) == stem(other)
        || is_part(word, other)
        || is_part(other, word)
        || bare == own
        || are_one(word, other)
        || are_one(other, word)
}

/// The names of which `word` is the last part: of `sand`, `sharp-sand` and
/// `mason-sand`.
pub(crate) fn ending_in<'a>(word: &str, among: impl IntoIterator<Item = &'a str>) -> Vec<&'a str> {
    let mut found: Vec<&str> = among
        .into_iter()
        .filter(|name| {
            name.strip_suffix(word)
                .is_some_and(|before| before.ends_with('-'))
        })
        .collect();
    found.sort_unstable();
    found.dedup();
    found
}

/// The longest name that a word has at its end, or else at its beginning: of
/// `grey-york-stone`, `york-stone`; of `porcelain-tile`, `porcelain`.
pub(crate) fn held_in<'a>(word: &str, among: impl IntoIterator<Item = &'a str>) -> Option<&'a str> {
    let place = |name: &str| {
        let before = word
            .strip_suffix(name)
            .is_some_and(|before| before.ends_with('-'));
        let after = word
            .strip_prefix(name)
            .is_some_and(|after| after.starts_with('-'));
        (name.len() > 3 && (before || after)).then_some((before, name.len()))
    };
    let held = among
        .into_iter()
        .filter_map(|name| Some((place(name)?, name)));
    held.max_by_key(|(place, _)| *place).map(|(_, name)| name)
}

/// The word that two make together: of `damp` and `course`, `damp-course`.
pub(crate) fn joined<'a>(
    first: &str,
    second: &str,
    among: impl IntoIterator<Item = &'a str>,
) -> Option<&'a str> {
    let together = [format!("{first}-{second}"), format!("{first}{second}")];
    among.into_iter().find(|word| {
        together
            .iter()
            .any(|together| word.eq_ignore_ascii_case(together))
    })
}

/// Words with commas, as many as anybody reads; the first of them if they are
/// more than that.
pub(super) fn as_many_as_are_read<'w>(words: impl Iterator<Item = &'w str>) -> String {
    /// The longest that the list may get, in characters.
    const LONGEST: usize = 130;
    let mut list = String::new();
    for word in words {
        if list.len() + word.len() > LONGEST {
            return list + " and others";
        }
        if !list.is_empty() {
            list += ", ";
        }
        list += word;
    }
    list
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::find_unit;
    use crate::vocabulary::{SECTIONS, Task, other_words};

    #[test]
    fn slips_are_mended_and_other_words_are_not() {
        let words = ["shape", "surface", "fall", "isolation-joint"];
        for (word, expected) in [
            ("shpae", Some("shape")),
            ("surfaces", Some("surface")),
            ("fal", Some("fall")),
            ("isolation", Some("isolation-joint")),
            ("iso", Some("isolation-joint")),
            ("garden", None),
            ("x", None),
        ] {
            assert_eq!(nearest(word, words), expected, "{word}");
        }
    }

    /// Words that stand in the help of the table and are no slips: plain English,
    /// with which nothing is to be guessed.
    fn words_of_the_help() -> impl Iterator<Item = String> {
        let keys = SECTIONS.iter().flat_map(|kind| kind.keys);
        let texts = keys.flat_map(|key| {
            let clauses = key.clauses.iter().map(|clause| clause.help);
            clauses.chain([key.help])
        });
        let words = texts.flat_map(|text| text.split(|c: char| !c.is_alphabetic() && c != '-'));
        words.map(str::to_owned)
    }

    /// Each list of words of which one may be meant: the kinds of section, the
    /// keys of each, the words and the choices of each entry.
    fn lists() -> Vec<(String, Vec<&'static str>)> {
        let mut lists = vec![(
            "kinds".to_owned(),
            SECTIONS.iter().map(|kind| kind.word).collect(),
        )];
        for kind in SECTIONS {
            let keys = kind.keys.iter().map(|key| key.word).collect();
            lists.push((format!("keys of {}", kind.word), keys));
            for key in kind.keys {
                let clauses = key
                    .clauses
                    .iter()
                    .flat_map(|clause| clause.parsed().words());
                let words = key.parsed().words().chain(clauses).collect();
                lists.push((format!("words of {}", key.word), words));
            }
        }
        lists
    }

    #[test]
    fn no_word_of_the_language_or_its_help_is_taken_for_another() {
        let own = lists().into_iter().flat_map(|(_, words)| words);
        let others = SECTIONS
            .iter()
            .map(|kind| kind.word)
            .chain(["clause", "kind-of-work", ""])
            .flat_map(other_words)
            .map(|(other, _)| other);
        let words = own.chain(others).map(str::to_owned);
        // Codes, and the signs of units, are read as what they are.
        let is_word = |word: &String| {
            let is_plain = word.chars().all(|letter| !letter.is_uppercase());
            word.len() > 2 && is_plain && find_unit(word).is_none()
        };
        let words = words.chain(words_of_the_help()).filter(is_word);
        let words: std::collections::BTreeSet<String> = words.collect();
        assert!(words.len() > 700, "{}", words.len());
        let mut wrong = Vec::new();
        for (name, list) in lists() {
            for word in words.iter().filter(|word| !list.contains(&word.as_str())) {
                if let Some(near) = slip_of(word, list.iter().copied())
                    && !is_form_of(word, near)
                {
                    wrong.push(format!("{word} in the {name}: {near}"));
                }
            }
        }
        assert!(wrong.is_empty(), "add to the plain words: {wrong:#?}");
    }

    #[test]
    fn a_plain_word_is_no_slip_and_a_letter_wrong_is() {
        let tasks = || Task::ALL.iter().map(|task| task.word());
        for (word, expected) in [
            ("cutting", None),
            ("bedding", None),
            ("loading", None),
            ("spreading", None),
            ("mixing", None),
            ("cartng", Some("carting")),
            ("edgign", Some("edging")),
            ("lining", Some("lining")),
            ("compaction", None),
            ("joint", Some("jointing")),
            ("compacted", Some("compacting")),
        ] {
            assert_eq!(slip_of(word, tasks()), expected, "{word}");
        }
        let materials = ["sandstone", "slate", "clay-brick"];
        assert_eq!(slip_of("sand", materials), None);
        assert_eq!(slip_of("sandston", materials), Some("sandstone"));
        assert_eq!(slip_of("clay", materials), Some("clay-brick"));
    }

    #[test]
    fn kinds_of_a_thing_are_found_by_its_last_word() {
        let names = [
            "sharp-sand",
            "sandstone",
            "mason-sand",
            "sharp-sand",
            "sand",
        ];
        assert_eq!(ending_in("sand", names), ["mason-sand", "sharp-sand"]);
        assert!(ending_in("stone", names).is_empty());
    }

    #[test]
    fn a_name_is_found_in_a_longer_one() {
        let names = [
            "geotextile",
            "stone",
            "york-stone",
            "porcelain",
            "tile",
            "sand",
        ];
        for (word, expected) in [
            ("separation-geotextile", Some("geotextile")),
            ("grey-york-stone", Some("york-stone")),
            ("porcelain-slabs", Some("porcelain")),
            ("porcelain-tile", Some("tile")),
            ("sandstone", None),
            ("geotextiles", None),
        ] {
            assert_eq!(held_in(word, names), expected, "{word}");
        }
    }

    #[test]
    fn words_that_stand_apart_are_joined() {
        let words = ["damp-course", "subbase", "fall"];
        assert_eq!(joined("Damp", "course", words), Some("damp-course"));
        assert_eq!(joined("sub", "base", words), Some("subbase"));
        assert_eq!(joined("damp", "proof", words), None);
    }
}
