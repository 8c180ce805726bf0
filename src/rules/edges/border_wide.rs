//! `border-wide`: borders that leave no field, or none in a part.

use crate::findings::Severity;
use crate::geometry::{Edge, Loop, Outline, narrowed};
use crate::model::{Border, Surface};
use crate::rules::{Check, Context, Family, Found, Rule};
use crate::sources::Source;
use crate::units::{Dimension, Quantity};

/// Borders that leave no field.
pub(crate) static BORDER_WIDE: Rule = Rule {
    name: "border-wide",
    family: Family::Edges,
    severity: Severity::Error,
    looks_at: "The borders of a surface, and whether they leave a field inside; a warning where they leave none in a part of it.",
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
        let Some(width) = border.width_m() else {
            return;
        };
        if !left.is_empty() {
            if let Some(met) = met(around, left, border, width) {
                let shown = context.show_length(met);
                let message = format!(
                    "for {shown} this border meets another across the surface: no field is left between them, and units have to be cut lengthways. Take fewer courses or narrower units there"
                );
                let finding = BORDER_WIDE.finding(border.place, message);
                found.add(
                    finding
                        .severity(Severity::Warning)
                        .found(shown, Quantity::near(met, Dimension::LENGTH)),
                );
            }
            around = left;
            continue;
        }
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

/// What is missing of the inner line of a border may come of rounding, or of a
/// jog, up to this length in metres.
const JOG: f64 = 0.3;

/// How far the inner line of a border along a straight edge is missing, in
/// metres, where it is missing the most: there the border of another edge
/// comes up to it. `None` where it is whole.
fn met(around: &[Outline], left: &[Outline], border: &Border, width: f64) -> Option<f64> {
    let is_along = |edge: &Edge| border.along.contains(&edge.tag);
    let loops = around.iter().flat_map(Outline::loops);
    let sides = loops.flat_map(Loop::with_neighbours);
    let missing = sides.filter_map(|(before, edge, after)| {
        if edge.is_arc() || !is_along(edge) {
            return None;
        }
        let corners =
            lost(before, edge, width, is_along(before)) + lost(edge, after, width, is_along(after));
        let wanted = edge.length() - corners;
        let inner = left.iter().flat_map(Outline::edges).filter(|inner| {
            let off = edge.distance_to(inner.start);
            inner.tag == edge.tag && !inner.is_arc() && off > 0.5 * width
        });
        Some(wanted - inner.map(Edge::length).sum::<f64>())
    });
    let most = missing.reduce(f64::max)?;
    (most > JOG.max(width)).then_some(most)
}

/// How much shorter the inner line of a border is than its edge because of the
/// corner between two edges; `is_both` if the border goes round it.
fn lost(one: &Edge, next: &Edge, width: f64, is_both: bool) -> f64 {
    let turn = one.direction_at_end().angle_to(next.direction_at_start());
    let share = match is_both {
        true => (0.5 * turn).tan(),
        false => -1.0 / turn.tan(),
    };
    if turn <= 1e-6 || !share.is_finite() {
        return 0.0;
    }
    width * share.max(0.0)
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
