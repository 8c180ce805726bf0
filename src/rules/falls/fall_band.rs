//! `fall-band`: between the least fall and the most that is accessible there
//! is hardly room to build.

use super::fall_accessible::FALL_ACCESSIBLE;
use super::fall_flat::least_fall;
use super::fall_missing::is_exempt;
use crate::findings::Severity;
use crate::model::{Surface, Use};
use crate::rules::{Bound, Check, Context, Family, Found, Limit, Rule, Value, slope};
use crate::sources::Source;
use crate::units::show;
use crate::vocabulary::Term;

/// How much designers leave for the tolerance of building.
const BUILD_TOLERANCE: Source = Source::second_hand(
    "U.S. Access Board, a study of tolerances in building",
    "1.5 % designed where 2.08 % is the most",
);

/// An accessible surface whose fall has hardly any room.
pub(crate) static FALL_BAND: Rule = Rule {
    name: "fall-band",
    family: Family::Falls,
    severity: Severity::Advisory,
    looks_at: "The room between the least fall that drains an accessible surface and the most that a wheelchair takes, where the stated fall keeps both.",
    reason: "No crew lays true to a tenth of a per cent: in so narrow a band some of it comes out too flat or too steep.",
    remedy: "Take the water off with a channel so that less fall will do, or state in a note how true it must be laid.",
    limits: &[Limit {
        row: "plain",
        of: "the room between the least fall and the most",
        bound: Bound::Least,
        general: Value {
            written: &["0.5 %"],
            source: BUILD_TOLERANCE,
        },
        regions: &[],
    }],
    sources: &[BUILD_TOLERANCE],
    breaks: "\
surface court
  for          foot, «accessible»
",
    keeps: "\
build sand-set
  paving       sandstone, 50 mm, waste 10 %
  bed          sharp-sand, 40 mm

surface court
  for          foot, accessible
  fall         1:60 away from north
  laid         running-bond, units 300 mm by 600 mm
  joint        8 mm, filled with joint-sand
",
    mended: None,
    check: Check::Surface(check),
};

fn check(context: &Context<'_>, surface: &Surface, found: &mut Found) {
    let Some(accessible) = surface.accessible else {
        return;
    };
    if matches!(surface.used_for, Use::Ramp | Use::Landing) || is_exempt(surface) {
        return;
    }
    let (Some(downhill), Some(most), Some(limit)) = (
        slope::downhill(surface),
        context.limit(&FALL_ACCESSIBLE, "plain"),
        context.limit(&FALL_BAND, "plain"),
    ) else {
        return;
    };
    let (steepest, least) = (downhill.length(), least_fall(context, surface));
    let room = most.value.si() - least;
    let keeps_both = most.allows_si(steepest) && steepest >= least - slope::SAME_SLOPE;
    if !keeps_both || limit.allows_si(room) {
        return;
    }
    let shown = show::slope(room.max(0.0));
    let (least, most) = (show::slope(least), show::slope(most.value.si()));
    let band = match least == most {
        true => least,
        false => format!("{least} to {most}"),
    };
    let message = format!(
        "only {band} both drains and stays accessible, and no crew lays that true. Take the water off with a {}",
        context.word(Term::Channel)
    );
    found.add(
        FALL_BAND
            .finding(accessible, message)
            .found(shown, slope::as_quantity(room))
            .against(&limit, context),
    );
}
