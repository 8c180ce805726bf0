//! The path that is being written after `use`, or after `like` in a standard.

use crate::analysis::Analysis;
use crate::text::Span;

/// A path that is being written.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct WrittenPath {
    /// What stands between the quotes, in bytes of the checked file; to the
    /// end of the line if they are not closed.
    pub span: Span,
    /// Whether it is that of a standard.
    pub is_standard: bool,
    /// Whether the closing quote is there.
    pub is_closed: bool,
}

/// The path that is being written at a byte of the checked file.
pub fn written_path(analysis: &Analysis, offset: u32) -> Option<WrittenPath> {
    let file = analysis.files.first()?;
    let text: &str = &file.tree.text;
    let line = file.lines.line_span(file.lines.line_of(offset));
    let offset = offset.clamp(line.start, line.end);
    let before = Span::new(line.start, offset).slice(text);
    let (key, quoted) = before.split_once('"')?;
    let is_standard = match key.trim() {
        "use" => false,
        "like" => true,
        _ => return None,
    };
    if quoted.contains('"') {
        return None;
    }
    let start = line.start + key.len() as u32 + 1;
    let rest = Span::new(start, line.end).slice(text);
    let end = rest.find('"');
    let length = end.unwrap_or(rest.trim_end().len().max(quoted.len()));
    Some(WrittenPath {
        span: Span::new(start, start + length as u32),
        is_standard,
        is_closed: end.is_some(),
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::ide::fixture::{analysed, marked};

    #[test]
    fn a_path_is_known_while_it_is_written() {
        for (text, path) in [
            ("use \"li¦b\"\n", Some(("lib", true))),
            ("use \"¦\"\n", Some(("", true))),
            ("job \"A\"\nuse \"of¦", Some(("of", false))),
            ("standard \"S\"\n  like \"¦", Some(("", false))),
            ("use \"lib\"¦\n", None),
            ("us¦e \"lib\"\n", None),
            ("job \"l¦ib\"\n", None),
            ("material a\n  like c¦\n", None),
        ] {
            let (text, at) = marked(text);
            let found = written_path(&analysed(&text), at);
            let found = found.map(|found| (found.span.slice(&text).to_owned(), found.is_closed));
            let path = path.map(|(path, is_closed)| (path.to_owned(), is_closed));
            assert_eq!(found, path, "{text}");
        }
    }
}
