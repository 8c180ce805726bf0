//! `build-missing`: a surface of which nothing says what it is made of.

use crate::findings::Severity;
use crate::model::Surface;
use crate::rules::{Check, Context, Family, Found, Rule};
use crate::sources::Source;

/// A surface of which nothing says what it is made of.
pub(crate) static BUILD_MISSING: Rule = Rule {
    name: "build-missing",
    family: Family::Ordering,
    severity: Severity::Warning,
    looks_at: "A surface that states no build.",
    reason: "Nothing of it is dug, ordered, timed or judged, and the sheets go on as if it cost nothing.",
    remedy: "Name its build, and say there what lies under the finish.",
    limits: &[],
    sources: &[Source::computed("the entries of the surface")],
    breaks: "\
surface «court»
  # no build
",
    keeps: "\
surface court
  build        sand-set
",
    mended: None,
    check: Check::Surface(check),
};

fn check(context: &Context<'_>, surface: &Surface, found: &mut Found) {
    let is_stated = surface.build.is_some() || surface.entry("build").is_some();
    let is_unclear = surface.is_build_lost() || context.is_misread(surface.section);
    if is_stated || is_unclear || surface.is_border() {
        return;
    }
    let message = format!(
        "nothing says what {} is built of: none of it is dug, ordered or judged. Name its build",
        surface.name.value
    );
    found.add(BUILD_MISSING.finding(surface.name.place, message));
}
