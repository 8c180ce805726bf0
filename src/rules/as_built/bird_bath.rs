//! `bird-bath`: a hollow in the finish in which water stands.

use crate::findings::Severity;
use crate::quantities::{PointMeasured, Water};
use crate::rules::{Bound, Check, Context, Family, Found, Limit, Rule};
use crate::sources::Source;
use crate::units::{Dimension, Quantity};
use crate::vocabulary::Top;

use super::reading_unclear::is_unclear;

/// A hollow in the finish in which water stands.
pub(crate) static BIRD_BATH: Rule = Rule {
    name: "bird-bath",
    family: Family::AsBuilt,
    severity: Severity::Warning,
    looks_at: "A finished point that lies lower than every reading round it.",
    reason: "Water that cannot leave stands until it dries: algae in summer, ice in winter, and a dark patch for good.",
    remedy: "Lift the paving there, or lower what lies between it and the edge.",
    limits: &[Limit::practice(
        "plain",
        "water standing on a finish",
        Bound::Most,
        &["3 mm", "1/8 in"],
    )],
    sources: &[Source::COMMON_PRACTICE],
    breaks: "measured \"court\"
  of           court
  level        -160 mm at (0, 4 m)
  level        -160 mm at (6 m, 4 m)
  «level        -209 mm at (3 m, 2 m)»
  level        -200 mm at (0, 2 m)
  level        -200 mm at (6 m, 2 m)
  level        -203 mm at (3 m, 1500 mm)
  level        -240 mm at (0, 0)
  level        -240 mm at (6 m, 0)
",
    keeps: "measured \"court\"
  of           court
  level        -160 mm at (0, 4 m)
  level        -160 mm at (6 m, 4 m)
  level        -200 mm at (3 m, 2 m)
  level        -200 mm at (0, 2 m)
  level        -200 mm at (6 m, 2 m)
  level        -210 mm at (3 m, 1500 mm)
  level        -240 mm at (0, 0)
  level        -240 mm at (6 m, 0)
",
    mended: None,
    check: Check::Job(check),
};

fn check(context: &Context<'_>, found: &mut Found) {
    let Some(limit) = context.limit(&BIRD_BATH, "plain") else {
        return;
    };
    for own in &context.figures.measured {
        let Water::Stands { at, depth_m } = own.water else {
            continue;
        };
        let in_doubt = |point: &PointMeasured| is_unclear(context, point);
        if own.top != Top::Finish || limit.allows_si(depth_m) || own.points.iter().any(in_doubt) {
            continue;
        }
        let Some(point) = own.points.iter().find(|point| point.at == at) else {
            continue;
        };
        let shown = limit.beside_si(depth_m, context.system());
        let message = format!(
            "water will stand at least {shown} deep here: every reading round it is higher. Lift it, or lower the way to the edge"
        );
        found.add(
            BIRD_BATH
                .finding(point.place, message)
                .found(shown, Quantity::near(depth_m, Dimension::LENGTH))
                .against(&limit, context),
        );
    }
}
