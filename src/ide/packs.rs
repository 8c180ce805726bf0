//! Packs in words.

use crate::units::show;

/// So many of a pack: `1 bag`, `6 bags`, `2 boxes`.
pub(crate) fn counted(packs: f64, word: &str) -> String {
    let ending = match word {
        _ if packs == 1.0 => "",
        word if word.ends_with(['s', 'x', 'z']) || word.ends_with("ch") || word.ends_with("sh") => {
            "es"
        }
        _ => "s",
    };
    format!("{} {word}{ending}", show::number(packs))
}

/// The number of packs begun. The last digits of a computed number do not
/// begin a pack.
pub(crate) fn begun(packs: f64) -> f64 {
    (packs - 1e-9 * packs.abs().max(1.0)).ceil()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn packs_are_counted_begun() {
        for (packs, word, shown) in [
            (0.2, "bag", "1 bag"),
            (1.0, "box", "1 box"),
            (1.000_000_000_01, "bag", "1 bag"),
            (1.01, "bag", "2 bags"),
            (1.01, "box", "2 boxes"),
            (1_200.5, "stick", "1,201 sticks"),
        ] {
            assert_eq!(counted(begun(packs), word), shown);
        }
    }
}
