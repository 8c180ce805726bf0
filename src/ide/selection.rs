//! How a selection grows: word, value or clause, entry, section.

use super::cursor::Cursor;
use crate::analysis::Analysis;
use crate::findings::FileId;
use crate::syntax::LineKind;
use crate::text::Span;

/// The stretches around a byte of the checked file, each inside the next;
/// the last is the whole file.
pub fn selections(analysis: &Analysis, offset: u32) -> Vec<Span> {
    let Some(file) = analysis.files.first() else {
        return Vec::new();
    };
    let text: &str = &file.tree.text;
    let mut spans = Vec::new();
    if let Some(cursor) = Cursor::at(file, FileId(0), offset) {
        let line = cursor.line;
        if cursor.is_on_word() {
            spans.push(cursor.in_file(line.word));
        }
        spans.extend(cursor.item().map(|item| cursor.in_file(item.span)));
        spans.extend(
            cursor
                .phrase()
                .map(|(_, phrase)| cursor.in_file(phrase.span)),
        );
        let written = line.phrases.iter().map(|phrase| phrase.span);
        let entry = written.fold(line.word, Span::join);
        if !line.word.is_empty() && cursor.touches(entry) {
            spans.push(cursor.in_file(entry));
        }
    }
    if let Some(placed) = file.tree.section_at(offset) {
        let lines = file.tree.lines_of(placed);
        let written = lines.filter(|line| {
            matches!(
                line.line.kind,
                LineKind::Heading | LineKind::Entry | LineKind::Unread
            )
        });
        let section = written
            .map(|line| {
                let text = line.text.trim_end();
                Span::new(line.start, line.start + text.len() as u32)
            })
            .reduce(Span::join);
        spans.extend(section);
    }
    spans.push(Span::from(0..text.len()));
    // Only what grows, and holds the place, is a step.
    let mut steps: Vec<Span> = Vec::new();
    for span in spans {
        let grows = steps
            .last()
            .is_none_or(|last| span.covers(*last) && span != *last);
        if grows && span.touches(offset) {
            steps.push(span);
        }
    }
    steps
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::ide::fixture::{analysed, marked};

    #[test]
    fn a_selection_grows_from_the_word_to_the_file() {
        let (text, at) = marked(
            "let a = 1 m\n# b\nbuild b\n  base stone, 5 cm com¦pacted, lifts 2 # c\n\nlet d = 2 m\n",
        );
        let grown: Vec<&str> = selections(&analysed(&text), at)
            .iter()
            .map(|span| span.slice(&text))
            .collect();
        assert_eq!(
            grown,
            [
                "compacted",
                "5 cm compacted",
                "base stone, 5 cm compacted, lifts 2",
                "build b\n  base stone, 5 cm compacted, lifts 2 # c",
                text.as_str(),
            ]
        );
    }

    #[test]
    fn every_step_holds_the_one_before() {
        let text = "shape a\n  start (0, (1 m + 2 m))\n\n# c\nwhat\n  \"x\n";
        for offset in 0..=text.len() as u32 {
            let steps = selections(&analysed(text), offset);
            assert!(steps.windows(2).all(|pair| pair[1].covers(pair[0])));
            assert_eq!(steps.last(), Some(&Span::from(0..text.len())));
        }
    }
}
