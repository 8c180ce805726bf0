//! Text inside XML.

/// The text as it may stand in an attribute or between tags: with what XML
/// gives a meaning written as entities, and what it may not hold (XML 1.0,
/// section 2.2) left out.
pub(super) fn xml(text: &str) -> String {
    let mut safe = String::with_capacity(text.len());
    for character in text.chars() {
        match character {
            '&' => safe.push_str("&amp;"),
            '<' => safe.push_str("&lt;"),
            '>' => safe.push_str("&gt;"),
            '"' => safe.push_str("&quot;"),
            '\n' => safe.push_str("&#10;"),
            '\t' => safe.push_str("&#9;"),
            '\u{fffe}' | '\u{ffff}' => {}
            _ if character.is_control() => {}
            _ => safe.push(character),
        }
    }
    safe
}

#[cfg(test)]
mod tests {
    use super::xml;

    #[test]
    fn text_means_nothing_to_xml() {
        for (text, safe) in [
            ("6\" <b> & 'c'", "6&quot; &lt;b&gt; &amp; 'c'"),
            ("a\u{0}\u{1b}b\nc", "ab&#10;c"),
            ("½ – …", "½ – …"),
        ] {
            assert_eq!(xml(text), safe);
        }
    }
}
