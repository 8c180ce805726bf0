//! JSON as it is written everywhere: indented, and nothing in it is `-0.0`.

use serde::Serialize;

/// A document with a line end. Strings and numbers under keys that are strings
/// always serialise.
pub(crate) fn written(document: &impl Serialize) -> String {
    let text = serde_json::to_string_pretty(document).unwrap_or_default();
    let mut signless = String::with_capacity(text.len() + 1);
    for line in text.lines() {
        // A number ends its line, or the comma behind it does; a string ends
        // with a quotation mark, whatever it says.
        let (number, comma) = match line.strip_suffix(',') {
            Some(number) => (number, ","),
            None => (line, ""),
        };
        match number.strip_suffix(" -0.0") {
            Some(before) => signless.extend([before, " 0.0", comma]),
            None => signless.push_str(line),
        }
        signless.push('\n');
    }
    signless
}

#[cfg(test)]
mod tests {
    use super::written;

    #[test]
    fn nothing_has_no_sign() {
        let document = serde_json::json!({
            "none": -0.0, "less": -0.5, "all": [1, -0.0], "last": "it says: -0.0",
        });
        let plain = serde_json::json!({
            "none": 0.0, "less": -0.5, "all": [1, 0.0], "last": "it says: -0.0",
        });
        let pretty = serde_json::to_string_pretty(&plain).unwrap() + "\n";
        assert_eq!(written(&document), pretty);
    }
}
