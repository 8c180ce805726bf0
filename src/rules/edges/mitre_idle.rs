//! `mitre-idle`: a border that is mitred and has no corner to mitre.

use crate::findings::Severity;
use crate::geometry::{Edge, Outline, mitres};
use crate::model::Surface;
use crate::rules::{Check, Context, Family, Found, Rule};
use crate::sources::Source;

/// A border that is mitred and has no corner to mitre.
pub(crate) static MITRE_IDLE: Rule = Rule {
    name: "mitre-idle",
    family: Family::Edges,
    severity: Severity::Advisory,
    looks_at: "A mitred border, and whether two of its straight edges meet in a corner.",
    reason: "Along one edge, along edges that do not touch, or round a curve there is no corner to cut: whoever reads the line looks for mitres that are not there.",
    remedy: "Take `mitred` out, or run the border on along the edge that meets it.",
    limits: &[],
    sources: &[Source::computed(
        "the corners between the edges of the border",
    )],
    breaks: "surface court
  border       clay-paver, units 200 mm by 100 mm, along east and west, «mitred»
",
    keeps: "surface court
  border       clay-paver, units 200 mm by 100 mm, along east and west and south, mitred
",
    mended: None,
    check: Check::Surface(check),
};

fn check(_: &Context<'_>, surface: &Surface, found: &mut Found) {
    let mut around: &[Outline] = surface.outline.as_slice();
    for border in &surface.borders {
        let Some(left) = border.left.as_deref().filter(|_| border.is_placed) else {
            return;
        };
        let is_along = |edge: &Edge| border.along.contains(&edge.tag);
        let has_corner = around
            .iter()
            .any(|piece| !mitres(piece, &is_along).is_empty());
        if let Some(place) = border.mitred.filter(|_| !has_corner) {
            let message =
                "nothing to mitre: no two straight edges of this border meet. Take `mitred` out";
            found.add(MITRE_IDLE.finding(place, message));
        }
        around = left;
    }
}
