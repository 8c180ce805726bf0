//! Numbers, in both systems of units.

use crate::ide::cursor::Cursor;
use crate::model::literal;
use crate::syntax::{Item, ItemKind};
use crate::text::Span;
use crate::units::{Dimension, Quantity, System, show};

/// The number under the pointer with its unit: where it stands in the line,
/// and what it comes to in feet and inches and in millimetres, or in whatever
/// both systems measure it in.
pub fn card(cursor: &Cursor<'_>, item: &Item) -> Option<(Span, String)> {
    if !matches!(item.kind, ItemKind::Number { .. } | ItemKind::Ratio { .. }) {
        return None;
    }
    let span = cursor.with_unit_after(item);
    let written = cursor.slice(span);
    let others: Vec<String> = in_both(&literal(written)?)
        .into_iter()
        .filter(|shown| shown != written)
        .collect();
    (!others.is_empty()).then(|| (span, format!("**{written}** = {}", others.join(" = "))))
}

/// A value in both systems of units: `10 mm = 3/8"`.
pub fn in_both_systems(value: &Quantity) -> String {
    in_both(value).join(" = ")
}

/// A value in metric and in imperial units; once if both show the same.
fn in_both(value: &Quantity) -> Vec<String> {
    let metric = show::quantity(value, System::Metric);
    let imperial = show::quantity(value, System::Imperial);
    let mut shown = vec![metric];
    if value.dimension == Dimension::LENGTH {
        let millimetres = (value.si() * 10_000.0).round() / 10.0;
        shown.push(format!("{} mm", show::number(millimetres)));
    }
    shown.push(imperial);
    shown.dedup();
    shown
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::findings::FileId;
    use crate::ide::fixture::{analysed, marked};

    fn told(text: &str) -> Option<String> {
        let (text, at) = marked(text);
        let analysis = analysed(&text);
        let cursor = Cursor::at(&analysis.files[0], FileId(0), at)?;
        Some(card(&cursor, cursor.item()?)?.1)
    }

    #[test]
    fn a_number_is_told_in_both_systems() {
        for (text, both) in [
            ("let a = 1¦2 in\n", "**12 in** = 305 mm = 304.8 mm = 1'"),
            (
                "let a = 16' 6 1/2¦\"\n",
                "**16' 6 1/2\"** = 5.042 m = 5,041.9 mm",
            ),
            ("let a = 1¦50 mm\n", "**150 mm** = 5 7/8\""),
            (
                "let a = 2¦ t/m3\n",
                "**2 t/m3** = 2,000 kg/m³ = 124.9 lb/cu ft",
            ),
            ("let a = 1¦00 lb\n", "**100 lb** = 45.4 kg"),
            ("let a = 2¦ %\n", "**2 %** = "),
            ("let a = 1:¦50\n", "**1:50** = 2 %"),
        ] {
            let told = told(text).unwrap_or_else(|| panic!("{text}"));
            assert!(told.starts_with(both), "{text}: {told}");
        }
    }

    #[test]
    fn a_bare_count_has_no_other_form() {
        for text in ["let a = 5¦\n", "let ¦a = 5 m\n", "let a = \"5¦ m\"\n"] {
            assert_eq!(told(text), None, "{text}");
        }
    }
}
