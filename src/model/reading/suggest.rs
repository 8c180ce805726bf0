//! Did you mean: the words that may have been meant by another.

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
