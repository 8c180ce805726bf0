//! `border-wide`: borders that leave no field.

use crate::findings::Severity;
use crate::geometry::{Edge, Outline, narrowed};
use crate::model::{Border, Surface};
use crate::rules::{Check, Context, Family, Found, Rule};
use crate::sources::Source;
use crate::units::{Dimension, Quantity};

/// Borders that leave no field.
pub(crate) static BORDER_WIDE: Rule = Rule {
    name: "border-wide",
    family: Family::Edges,
    severity: Severity::Error,
    looks_at: "The borders of a surface, and whether they leave a field inside.",
    reason: "Borders that meet in the middle leave no field to lay and cannot all be built.",
    remedy: "Take fewer courses or narrower units, or pave the whole with one of them.",
    limits: &[],
    sources: &[Source::computed(
        "the outline, moved in by the width of the border",
    )],
    breaks: "surface court
  «border       clay-paver, 30 courses, units 200 mm by 100 mm, along east and west and south»
",
    keeps: "surface court
  border       clay-paver, 2 courses, units 200 mm by 100 mm, along east and west and south
",
    mended: None,
    check: Check::Surface(check),
};

fn check(context: &Context<'_>, surface: &Surface, found: &mut Found) {
    let mut around: &[Outline] = surface.outline.as_slice();
    for border in &surface.borders {
        let Some(left) = border.left.as_deref() else {
            return;
        };
        if !left.is_empty() {
            around = left;
            continue;
        }
        let Some(width) = border.width_m() else {
            return;
        };
        let most = context.show_length((greatest(around, border, width) * 1000.0).floor() / 1000.0);
        let shown = context.show_length(width);
        let message = format!(
            "a border {shown} wide leaves no field; {most} is the most: take fewer courses or narrower units"
        );
        found.add(
            BORDER_WIDE
                .finding(border.place, message)
                .found(shown, Quantity::near(width, Dimension::LENGTH)),
        );
        return;
    }
}

/// The greatest width that leaves a field, found by halving.
fn greatest(around: &[Outline], border: &Border, width: f64) -> f64 {
    let free = |edge: &Edge| border.along.contains(&edge.tag);
    let leaves = |by: f64| {
        let mut pieces = around.iter();
        pieces.any(|piece| narrowed(piece, by, &free).is_ok_and(|left| !left.is_empty()))
    };
    let (mut least, mut most) = (0.0, width);
    for _ in 0..24 {
        let middle = 0.5 * (least + most);
        match leaves(middle) {
            true => least = middle,
            false => most = middle,
        }
    }
    least
}
