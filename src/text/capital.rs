//! How a sentence begins.

/// A text that begins with a capital.
pub fn capital(text: &str) -> String {
    let mut letters = text.chars();
    let first = letters.next().into_iter().flat_map(char::to_uppercase);
    first.chain(letters).collect()
}

#[cfg(test)]
mod tests {
    use super::capital;

    #[test]
    fn a_text_begins_with_a_capital() {
        for (text, begun) in [("", ""), ("the setting out", "The setting out"), ("é", "É")] {
            assert_eq!(capital(text), begun);
        }
    }
}
