//! Did you mean: the nearest of some words.

/// The word of `among` that is nearest to `word`, if one is near enough to
/// be a slip of the hand.
pub fn nearest<'a>(word: &str, among: impl IntoIterator<Item = &'a str>) -> Option<&'a str> {
    if word.len() > 64 {
        return None;
    }
    let most = (word.chars().count() / 3).clamp(1, 3);
    among
        .into_iter()
        .map(|other| (strsim::osa_distance(word, other), other))
        .filter(|(distance, other)| {
            *distance <= most || (word.len() > 3 && other.starts_with(word))
        })
        .min_by_key(|(distance, _)| *distance)
        .map(|(_, other)| other)
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
            ("garden", None),
            ("x", None),
        ] {
            assert_eq!(nearest(word, words), expected, "{word}");
        }
    }
}
