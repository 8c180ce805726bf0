//! `level-missing`: paving of which nothing says how high it lies.

use crate::findings::Severity;
use crate::model::Surface;
use crate::rules::{Check, Context, Family, Found, Rule};
use crate::sources::Source;

/// Paving of which nothing says how high it lies.
pub(crate) static LEVEL_MISSING: Rule = Rule {
    name: "level-missing",
    family: Family::Levels,
    severity: Severity::Warning,
    looks_at: "Paving with no level at all, where a datum or the ground's level is stated.",
    reason: "Without one level nothing is known of the dig, the damp course, the door or the low edge, and no rule can look at them.",
    remedy: "State the finished level at one edge, as in level -150 mm at house.",
    limits: &[],
    sources: &[Source::computed("the levels of the spec itself")],
    breaks: "\
surface «court»
  # no level
",
    keeps: "\
surface court
  level        -160 mm at north
",
    mended: None,
    check: Check::Surface(check),
};

fn check(context: &Context<'_>, surface: &Surface, found: &mut Found) {
    let is_built = surface.outline.is_some() && surface.build.is_some() && !surface.is_border();
    let is_read = !surface.has_lost_line && !context.is_misread(surface.section);
    // A job without levels says what is built, and nothing of how high it lies.
    let site = &context.job.site;
    let has_levels = site.ground.is_some() || site.datum.is_some();
    if is_built && is_read && has_levels && surface.entry("level").is_none() {
        let message = "no level: the dig, the step at the door and the low edge stay unknown. State the finished level at one edge";
        found.add(LEVEL_MISSING.finding(surface.name.place, message));
    }
}
