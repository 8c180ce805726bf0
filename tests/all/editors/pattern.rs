//! The patterns of numbers and names, in the dialect of regular expressions
//! that the grammars of VS Code and Kate share. They follow `patio.pest`.

use super::words::{currencies, longest_first, units};

/// A fraction in one character.
const VULGAR: &str = "[½¼¾⅛⅜⅝⅞⅓⅔]";

/// What a name ends before: nothing that it could go on with.
pub const END: &str = r"(?![\p{L}\p{M}\p{N}_]|-+[\p{L}\p{N}_])";

/// A name.
pub const NAME: &str = r"\p{L}(?:[\p{L}\p{M}\p{N}_]|-+(?=[\p{L}\p{M}\p{N}_]))*";

/// Year, month and day.
pub const DATE: &str = r"\b\d{4}-\d{2}-\d{2}(?![\p{L}\p{N}_-])";

/// Any of these words, no other and no part of one.
pub fn any_of(words: impl IntoIterator<Item = &'static str>) -> String {
    format!("(?:{})", longest_first(words).join("|"))
}

/// A number as it is written: whole and fraction, fraction, or decimal.
pub fn figure() -> String {
    let fraction = r"\d+/\d+(?![/.]?\d)";
    format!(
        r"(?:[1-9]\d{{0,2}}(?:,\d{{3}})+(?!\d)(?:\.\d+)?|\d+\.\d+|{fraction}|\d+(?:[\s-]{fraction}|\s*{VULGAR})?|\.\d+|{VULGAR})"
    )
}

/// A unit, and nothing that it could go on with.
pub fn unit() -> String {
    let spellings: Vec<String> = units()
        .iter()
        .map(|unit| unit.replace(' ', r"\s+"))
        .collect();
    format!(
        r"(?:{})(?![\p{{L}}\p{{M}}\p{{N}}_²³(]|-+[\p{{L}}\p{{N}}_])",
        spellings.join("|")
    )
}

/// What measures a number: a mark, a sign, a unit or a code of money.
pub fn measure() -> String {
    format!(
        r"(?:''|’’|['’′″”%]|°\s*[CF]?(?![\p{{L}}])|\x22|(?:{}){END}|{})",
        currencies().join("|"),
        unit()
    )
}
