//! `pattern-weak`: a laying pattern that cars push apart.

use crate::findings::Severity;
use crate::geometry::Vector;
use crate::model::{Build, Pattern, Surface, Use};
use crate::quantities::courses;
use crate::rules::construction::{Construction, slab, stated_courses, unit_kind};
use crate::rules::documents::PATTERNS_FOR_CARS;
use crate::rules::{Check, Context, Family, Found, Rule, slope};

/// A laying pattern that cars push apart.
pub(crate) static PATTERN_WEAK: Rule = Rule {
    name: "pattern-weak",
    family: Family::Units,
    severity: Severity::Warning,
    looks_at: "The pattern of units set on sand under cars: stack bond, basket weave, and running bond whose long joints run with the traffic; an advisory where nothing says which way they run and the plan has them so.",
    reason: "Turning and braking wheels push rows that nothing locks; long joints along the travel open into ruts.",
    remedy: "Lay herringbone, or running bond across the travel.",
    limits: &[],
    sources: PATTERNS_FOR_CARS,
    breaks: "surface court
  for          drive
  laid         «stack-bond», units 100 mm by 200 mm
  edging       concrete-kerb, along free
",
    keeps: "surface court
  for          drive
  laid         herringbone, units 100 mm by 200 mm
  edging       concrete-kerb, along free
",
    mended: None,
    check: Check::Built(check),
};

/// How much longer than wide a drive is whose travel is along its length.
const LONG: f64 = 1.2;
/// How nearly courses run the way that a surface falls.
const ALONG: f64 = 0.7;

fn check(_context: &Context<'_>, surface: &Surface, build: &Build, found: &mut Found) {
    let Some(laid) = &surface.laid else { return };
    let is_locked_below = slab(build).is_some();
    if !matches!(surface.used_for, Use::Drive | Use::Street)
        || is_locked_below
        || unit_kind(build).is_none()
        || Construction::of(build) != Construction::SandSet
    {
        return;
    }
    let is_stated = laid.along.is_some() || laid.angle.is_some();
    let (message, severity) = match laid.pattern.value {
        Pattern::StackBond => (
            "stack bond does not lock: cars will push the rows apart. Lay herringbone",
            Severity::Warning,
        ),
        Pattern::BasketWeave => (
            "basket weave hardly locks: cars will push it apart. Lay herringbone",
            Severity::Warning,
        ),
        Pattern::RunningBond
            if stated_courses(surface).is_some_and(|way| runs_with_traffic(surface, way)) =>
        {
            (
                "the long joints run the way the cars do and will open: turn the running bond across, or lay herringbone",
                Severity::Warning,
            )
        }
        Pattern::RunningBond if !is_stated && runs_with_traffic(surface, courses(surface)) => (
            "nothing says which way the long joints run; on the plan they run as the cars do, and would open. State along, across the travel",
            Severity::Advisory,
        ),
        _ => return,
    };
    let finding = PATTERN_WEAK
        .finding(laid.pattern.place, message)
        .severity(severity);
    found.add(match surface.used_for_place {
        Some(place) => finding.related(place, "cars drive here"),
        None => finding,
    });
}

/// Whether long joints that run one way lie along the length of the surface.
fn runs_with_traffic(surface: &Surface, direction: Vector) -> bool {
    let Some(outline) = &surface.outline else {
        return false;
    };
    let travels = outline.extent(direction) > LONG * outline.extent(direction.left());
    // Cars go up and down a drive that falls; one that is wider than it falls
    // may be a yard, and nobody knows how they turn there.
    let slope = slope::travel(surface).map(|travel| travel.down.dot(direction).abs());
    travels && slope.is_none_or(|along| along > ALONG)
}
