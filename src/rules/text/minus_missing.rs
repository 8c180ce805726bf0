//! `minus-missing`: ground or damp course above the floor, where a minus was
//! most likely forgotten.

use crate::findings::{Finding, Fix, Severity};
use crate::model::Stated;
use crate::rules::{Check, Context, Family, Found, Rule};
use crate::sources::Source;
use crate::units::{Dimension, Quantity, show};

/// A level of the site above the floor.
pub static MINUS_MISSING: Rule = Rule {
    name: "minus-missing",
    family: Family::Text,
    severity: Severity::Warning,
    looks_at: "The stated levels of the ground and of the damp course, where they lie above the floor.",
    reason: "Without its minus the ground lies above the floor, and the dig comes out several times too large.",
    remedy: "Write a level below the datum with a minus.",
    limits: &[],
    sources: &[Source::computed("the levels of the spec itself")],
    breaks: "\
site
  datum        \"finished floor\"
  ground       «200 mm»
",
    keeps: "\
site
  datum        \"finished floor\"
  ground       -200 mm
",
    mended: Some(
        "\
site
  datum        \"finished floor\"
  ground       -200 mm
",
    ),
    check: Check::Job(check),
};

/// Levels closer than this, in metres, are one.
const SAME_LEVEL: f64 = 1e-3;

fn check(context: &Context<'_>, found: &mut Found) {
    let site = &context.job.site;
    let floor = match (&site.floor, &site.datum) {
        (Some(floor), _) => floor.value.si(),
        (None, None) => 0.0,
        // What lies above such a datum may well lie below the floor.
        (None, Some(_)) => return,
    };
    let is_above = |level: &Stated<Quantity>| level.value.si() > floor + SAME_LEVEL;
    if let Some(ground) = &site.ground
        && ground.levels.iter().all(is_above)
    {
        // Ground may rise from the building, but not lie above it everywhere.
        let falls = ground.falls || ground.levels.len() > 1;
        for level in &ground.levels {
            let finding = asked(context, "the ground", level, floor);
            found.add(match falls {
                true => finding.severity(Severity::Advisory),
                false => finding,
            });
        }
    }
    let damp_course = site.damp_course.iter();
    for level in damp_course.filter(|level| is_above(level)) {
        found.add(asked(context, "the damp course", level, floor));
    }
}

fn asked(context: &Context<'_>, what: &str, level: &Stated<Quantity>, floor: f64) -> Finding {
    let above = level.value.si() - floor;
    let shown = context.show_length(above);
    let message = format!("{what} lies {shown} above the floor. Is a minus missing?");
    let finding = MINUS_MISSING
        .finding(level.place, message)
        .found(shown, Quantity::near(above, Dimension::LENGTH));
    let positive = level.value.si() > 0.0 && -level.value.si() < floor;
    match level.value.negated().ok().filter(|_| positive) {
        Some(below) => {
            let below = show::quantity(&below, context.system());
            finding.fix(Fix::judged(format!("Write `{below}`"), level.place, below))
        }
        None => finding,
    }
}
