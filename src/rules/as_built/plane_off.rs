//! `plane-off`: a surface that was built to another fall than its design.

use crate::findings::Severity;
use crate::geometry::Plane;
use crate::quantities::{MeasuredFigures, PointMeasured};
use crate::rules::{Bound, Check, Context, Family, Found, Limit, Rule};
use crate::sources::Source;
use crate::units::{Quantity, show};
use crate::vocabulary::compass_word;

use super::level_off::row;
use super::reading_unclear::is_unclear;
use super::{awaits_fall, is_read_again};

/// A surface that was built to another fall than its design.
pub(crate) static PLANE_OFF: Rule = Rule {
    name: "plane-off",
    family: Family::AsBuilt,
    severity: Severity::Warning,
    looks_at: "The plane nearest to the readings against the designed one: how far the two part per metre, direction included.",
    reason: "Each point may be near enough while the whole leans another way, so that water stands or runs to the house.",
    remedy: "Regrade before the next layer goes on; lift a finish and lay it again.",
    limits: &[Limit::practice(
        "plain",
        "the fall as built beside the designed one",
        Bound::Most,
        &["0.5 %"],
    )],
    sources: &[
        Source::COMMON_PRACTICE,
        Source::computed("the plane of least squares"),
    ],
    breaks: "measured «\"court\"»
  of           court
  level        -189 mm at (2 m, 3 m)
  level        -189 mm at (4 m, 3 m)
  level        -211 mm at (2 m, 1 m)
  level        -211 mm at (4 m, 1 m)
",
    keeps: "measured \"court\"
  of           court
  level        -180 mm at (2 m, 3 m)
  level        -180 mm at (4 m, 3 m)
  level        -219 mm at (2 m, 1 m)
  level        -221 mm at (4 m, 1 m)
",
    mended: None,
    check: Check::Job(check),
};

fn check(context: &Context<'_>, found: &mut Found) {
    let Some(limit) = context.limit(&PLANE_OFF, "plain") else {
        return;
    };
    let sections = context.job.measured.iter().zip(&context.figures.measured);
    for (section, own) in sections {
        let surface = own
            .surface
            .and_then(|index| context.job.surfaces.get(index));
        let design = surface.and_then(|surface| surface.plane);
        let (Some(built), Some(design)) = (own.plane, design) else {
            continue;
        };
        let apart = (built.gradient() - design.gradient()).length();
        let is_old = own
            .points
            .iter()
            .all(|own| is_read_again(context, section, own.at));
        if is_old || limit.allows_si(apart) || in_doubt(context, own) || awaits_fall(context, own) {
            continue;
        }
        let message = format!(
            "falls {} as built, and {} by design: {}",
            fall(&built),
            fall(&design),
            match row(own.top) {
                "finish" => "lift it and lay it again to its fall",
                _ => "regrade it before the next layer",
            }
        );
        found.add(
            PLANE_OFF
                .finding(section.what.place, message)
                .found(
                    limit.beside_si(apart, context.system()),
                    Quantity::near(apart, crate::units::Dimension::NONE),
                )
                .against(&limit, context),
        );
    }
}

/// Whether a reading that the plane hangs on is in doubt.
fn in_doubt(context: &Context<'_>, own: &MeasuredFigures) -> bool {
    let is_unclear = |point: &PointMeasured| is_unclear(context, point);
    own.points.iter().any(is_unclear)
}

/// A fall in words: `1.67 % (1:60) south`.
fn fall(plane: &Plane) -> String {
    let slope = show::slope(plane.slope());
    match plane.fall_direction() {
        Some(way) if plane.slope() > 1e-4 => format!("{slope} {}", compass_word(way.bearing())),
        _ => "nowhere".to_owned(),
    }
}
