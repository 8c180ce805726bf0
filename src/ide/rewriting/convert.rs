//! A value in the units of the other system.

use super::{Rewriting, RewritingKind, edit};
use crate::analysis::Analysis;
use crate::findings::FileId;
use crate::ide::cursor::Cursor;
use crate::model::literal;
use crate::text::Span;
use crate::units::{Dimension, show};

/// The value at a place in feet and pounds where it is written in metres and
/// kilograms, and the other way round.
pub(crate) fn converted(analysis: &Analysis, wanted: Span) -> Option<Rewriting> {
    let file = analysis.files.first()?;
    let cursor = Cursor::at(file, FileId(0), wanted.start)?;
    let item = cursor.item()?;
    let system = cursor.system_of(item)?;
    let span = cursor.with_unit_after(item);
    let written = cursor.slice(span);
    let value = literal(written)?;
    if value.dimension == Dimension::NONE || value.dimension.money != 0 {
        return None;
    }
    let shown = show::quantity(&value, system.other());
    let read = literal(&shown).filter(|read| read.dimension == value.dimension)?;
    let about = if read.si() == value.si() {
        ""
    } else {
        "about "
    };
    (shown != written).then(|| Rewriting {
        title: format!("Write `{written}` as {about}`{shown}`"),
        kind: RewritingKind::Rewrite,
        finding: None,
        cursor: None,
        edits: vec![edit(cursor.in_file(span), shown)],
    })
}

#[cfg(test)]
mod tests {
    use super::super::tests::rewritten;

    #[test]
    fn a_value_is_written_in_the_other_units() {
        for (before, after) in [
            ("let a = 1¦2 in\n", "let a = 305 mm\n"),
            ("let a = 3 m¦ + 1 m\n", "let a = 9' 10 1/8\" + 1 m\n"),
            ("let a = 1¦00 kg\n", "let a = 220 lb\n"),
            ("let a = 2¦ t/m3\n", "let a = 124.9 lb/cu ft\n"),
        ] {
            assert_eq!(
                rewritten(before, "Write").as_deref(),
                Some(after),
                "{before}"
            );
        }
    }

    #[test]
    fn what_has_no_other_units_is_left() {
        for text in [
            "let a = 2¦ %\n",
            "let a = $4¦2/ton\n",
            "let a = 5¦\n",
            "let ¦a = 2 h\n",
            "let a = 2¦ h\n",
        ] {
            assert_eq!(rewritten(text, "Write"), None, "{text}");
        }
    }
}
