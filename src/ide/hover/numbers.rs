//! Numbers, in both systems of units.

use crate::ide::cursor::Cursor;
use crate::model::literal;
use crate::syntax::{Item, ItemKind};
use crate::text::Span;
use crate::units::{Dimension, Quantity, System, show};
use crate::vocabulary::ValueKind;

/// The number under the pointer with its unit: where it stands in the line,
/// and what it comes to in the units of the other system; a slope in per cent
/// and as one in so many.
pub(crate) fn card(cursor: &Cursor<'_>, item: &Item) -> Option<(Span, String)> {
    if !matches!(item.kind, ItemKind::Number { .. } | ItemKind::Ratio { .. }) {
        return None;
    }
    let span = cursor.with_unit_after(item);
    let written = cursor.slice(span);
    let value = literal(written)?;
    let is_slope = cursor.kinds().contains(&ValueKind::Slope);
    let shown = match cursor.system_of(item) {
        _ if value.dimension == Dimension::NONE => is_slope.then(|| show::slope(value.si())),
        Some(System::Metric) => Some(show::quantity(&value, System::Imperial)),
        Some(System::Imperial) => Some(metric(&value)),
        None => Some(in_both_systems(&value)),
    };
    let shown = shown.filter(|shown| shown != written)?;
    Some((span, format!("**{written}** = {shown}")))
}

/// A value in both systems of units: `10 mm = 3/8"`; once if both show the
/// same.
pub(crate) fn in_both_systems(value: &Quantity) -> String {
    let metric = metric(value);
    let imperial = show::quantity(value, System::Imperial);
    match metric == imperial {
        true => metric,
        false => format!("{metric} = {imperial}"),
    }
}

/// A value in metric units, a length in millimetres, and from a metre on in
/// metres before.
fn metric(value: &Quantity) -> String {
    let shown = show::quantity(value, System::Metric);
    if value.dimension != Dimension::LENGTH {
        return shown;
    }
    let millimetres = (value.si() * 100_000.0).round() / 100.0;
    let millimetres = format!("{} mm", show::number(millimetres));
    match value.si().abs() < 1.0 {
        true => millimetres,
        false => format!("{shown} = {millimetres}"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::findings::FileId;
    use crate::ide::fixture::{analysed, marked};

    fn described(text: &str) -> Option<String> {
        let (text, at) = marked(text);
        let analysis = analysed(&text);
        let cursor = Cursor::at(&analysis.files[0], FileId(0), at)?;
        Some(card(&cursor, cursor.item()?)?.1)
    }

    #[test]
    fn a_number_is_told_in_both_systems() {
        for (text, both) in [
            ("let a = 1¦2 in\n", "**12 in** = 304.8 mm"),
            (
                "let a = 16' 6 1/2¦\"\n",
                "**16' 6 1/2\"** = 5.042 m = 5,041.9 mm",
            ),
            ("let a = 1¦50 mm\n", "**150 mm** = 5 7/8\""),
            ("let a = 2¦ t/m3\n", "**2 t/m3** = 124.9 lb/cu ft"),
            ("let a = 1¦00 lb\n", "**100 lb** = 45.4 kg"),
            (
                "surface a\n  fall 2¦ % away from x\n",
                "**2 %** = 2 % (1:50)",
            ),
            (
                "surface a\n  fall 1:¦50 away from x\n",
                "**1:50** = 2 % (1:50)",
            ),
        ] {
            let reported = described(text).unwrap_or_else(|| panic!("{text}"));
            assert_eq!(reported, both, "{text}");
        }
    }

    #[test]
    fn a_bare_count_has_no_other_form() {
        for text in [
            "let a = 5¦\n",
            "let ¦a = 5 m\n",
            "let a = \"5¦ m\"\n",
            "build a\n  bed b, 1 in, waste 5¦ %\n",
        ] {
            assert_eq!(described(text), None, "{text}");
        }
    }
}
