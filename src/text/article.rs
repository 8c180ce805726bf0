//! The indefinite article.

/// Words or a figure after `a` or `an`, by how they are read aloud: `a 90 mm`,
/// `an 80 mm`, `an 11 in`, `an error`.
pub fn with_article(words: &str) -> String {
    let is_figure = |letter: &char| letter.is_ascii_digit();
    let figure: String = words.chars().take_while(is_figure).collect();
    let is_vowel = |letter: char| "aeioAEIO".contains(letter);
    let begins_with_vowel =
        figure.starts_with('8') || figure == "11" || figure == "18" || words.starts_with(is_vowel);
    let article = if begins_with_vowel { "an" } else { "a" };
    format!("{article} {words}")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn figures_and_words_are_read_aloud() {
        for (words, article) in [
            ("80 mm slab", "an"),
            ("8 7/8\" lift", "an"),
            ("800 mm base", "an"),
            ("11 in base", "an"),
            ("18\" bed", "an"),
            ("11,000", "an"),
            ("90 mm slab", "a"),
            ("110 mm slab", "a"),
            ("180 mm slab", "a"),
            ("1 1/8\" bed", "a"),
            ("1' 8\" base", "a"),
            ("area", "an"),
            ("unit", "a"),
            ("warning", "a"),
            ("", "a"),
        ] {
            assert_eq!(with_article(words), format!("{article} {words}"));
        }
    }
}
