//! Parts of answers, written as JSON without a detour.

use tower_lsp::lsp_types::{Position, Range};

/// Writes a number.
pub(crate) fn number(number: u32, to: &mut String) {
    if number >= 10 {
        self::number(number / 10, to);
    }
    to.push(char::from(b'0' + (number % 10) as u8));
}

/// Writes a text in quotes.
pub(crate) fn text(text: &str, to: &mut String) {
    let is_plain = |byte: u8| byte >= b' ' && byte != b'"' && byte != b'\\';
    if text.bytes().all(is_plain) {
        to.push('"');
        to.push_str(text);
        to.push('"');
    } else {
        to.push_str(&serde_json::to_string(text).unwrap_or_default());
    }
}

/// Writes a position.
pub(crate) fn position(at: Position, to: &mut String) {
    to.push_str(r#"{"line":"#);
    number(at.line, to);
    to.push_str(r#","character":"#);
    number(at.character, to);
    to.push('}');
}

/// Writes a range.
pub(crate) fn range(range: Range, to: &mut String) {
    to.push_str(r#"{"start":"#);
    position(range.start, to);
    to.push_str(r#","end":"#);
    position(range.end, to);
    to.push('}');
}

/// Writes an array, each member by `write`.
pub(crate) fn array<T>(
    members: impl IntoIterator<Item = T>,
    to: &mut String,
    mut write: impl FnMut(T, &mut String),
) {
    to.push('[');
    for (index, member) in members.into_iter().enumerate() {
        if index > 0 {
            to.push(',');
        }
        write(member, to);
    }
    to.push(']');
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        #[test]
        fn what_is_written_is_what_the_types_write(
            written in "[a\"\\\\\n\u{0}½𝄞]{0,6}", numbers in prop::array::uniform4(0u32..),
        ) {
            let mut own = String::new();
            text(&written, &mut own);
            prop_assert_eq!(own, serde_json::to_string(&written).unwrap());
            let [a, b, c, d] = numbers;
            let place = Range::new(Position::new(a, b), Position::new(c, d));
            let mut own = String::new();
            array([place, place], &mut own, range);
            prop_assert_eq!(own, serde_json::to_string(&[place, place]).unwrap());
        }
    }
}
