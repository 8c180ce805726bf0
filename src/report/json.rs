//! JSON as it is written everywhere: indented, and nothing in it is `-0.0`.

use std::io::{self, Write};

use serde::Serialize;
use serde_json::Serializer;
use serde_json::ser::{Formatter, PrettyFormatter};

/// A document with a line end. Strings and numbers under keys that are strings
/// always serialise.
pub(crate) fn written(document: &impl Serialize) -> String {
    let mut bytes = Vec::new();
    if write(document, &mut bytes).is_err() {
        return "\n".to_owned();
    }
    let text = String::from_utf8(bytes).unwrap_or_default();
    text + "\n"
}

/// Writes a document, with no line end after it.
pub fn write(document: &impl Serialize, out: impl Write) -> serde_json::Result<()> {
    document.serialize(&mut Serializer::with_formatter(out, Signless::default()))
}

/// Indented as usual; a number of which there is nothing has no sign.
#[derive(Default)]
struct Signless<'a>(PrettyFormatter<'a>);

impl Formatter for Signless<'_> {
    fn write_f64<W: Write + ?Sized>(&mut self, out: &mut W, value: f64) -> io::Result<()> {
        self.0.write_f64(out, value + 0.0)
    }

    fn begin_array<W: Write + ?Sized>(&mut self, out: &mut W) -> io::Result<()> {
        self.0.begin_array(out)
    }

    fn end_array<W: Write + ?Sized>(&mut self, out: &mut W) -> io::Result<()> {
        self.0.end_array(out)
    }

    fn begin_array_value<W: Write + ?Sized>(&mut self, out: &mut W, first: bool) -> io::Result<()> {
        self.0.begin_array_value(out, first)
    }

    fn end_array_value<W: Write + ?Sized>(&mut self, out: &mut W) -> io::Result<()> {
        self.0.end_array_value(out)
    }

    fn begin_object<W: Write + ?Sized>(&mut self, out: &mut W) -> io::Result<()> {
        self.0.begin_object(out)
    }

    fn end_object<W: Write + ?Sized>(&mut self, out: &mut W) -> io::Result<()> {
        self.0.end_object(out)
    }

    fn begin_object_key<W: Write + ?Sized>(&mut self, out: &mut W, first: bool) -> io::Result<()> {
        self.0.begin_object_key(out, first)
    }

    fn begin_object_value<W: Write + ?Sized>(&mut self, out: &mut W) -> io::Result<()> {
        self.0.begin_object_value(out)
    }

    fn end_object_value<W: Write + ?Sized>(&mut self, out: &mut W) -> io::Result<()> {
        self.0.end_object_value(out)
    }
}

#[cfg(test)]
mod tests {
    use super::written;

    #[test]
    fn nothing_has_no_sign() {
        let document = serde_json::json!({ "none": -0.0, "less": -0.5, "all": [1, -0.0] });
        let plain = serde_json::json!({ "none": 0.0, "less": -0.5, "all": [1, 0.0] });
        let pretty = serde_json::to_string_pretty(&plain).unwrap() + "\n";
        assert_eq!(written(&document), pretty);
    }
}
