//! `pattern-weak`: a laying pattern that cars push apart.

use crate::findings::Severity;
use crate::model::{Build, Pattern, Surface, Use};
use crate::rules::construction::{Construction, slab, stated_courses, unit_kind};
use crate::rules::documents::PATTERNS_FOR_CARS;
use crate::rules::{Check, Context, Family, Found, Rule, slope};

/// A laying pattern that cars push apart.
pub(crate) static PATTERN_WEAK: Rule = Rule {
    name: "pattern-weak",
    family: Family::Units,
    severity: Severity::Warning,
    looks_at: "The pattern of units set on sand under cars: stack bond, basket weave, and running bond whose long joints run with the traffic.",
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
    let message = match laid.pattern.value {
        Pattern::StackBond => {
            "stack bond does not lock: cars will push the rows apart. Lay herringbone"
        }
        Pattern::BasketWeave => {
            "basket weave hardly locks: cars will push it apart. Lay herringbone"
        }
        Pattern::RunningBond if runs_with_traffic(surface) => {
            "the long joints run the way the cars do and will open: turn the running bond across, or lay herringbone"
        }
        _ => return,
    };
    let finding = PATTERN_WEAK.finding(laid.pattern.place, message);
    found.add(match surface.used_for_place {
        Some(place) => finding.related(place, "cars drive here"),
        None => finding,
    });
}

/// Whether the long joints, as far as the text states how they run, lie along
/// the length of the surface.
fn runs_with_traffic(surface: &Surface) -> bool {
    let (Some(direction), Some(outline)) = (stated_courses(surface), &surface.outline) else {
        return false;
    };
    let travels = outline.extent(direction) > LONG * outline.extent(direction.left());
    // Cars go up and down a drive that falls; one that is wider than it falls
    // may be a yard, and nobody knows how they turn there.
    let slope = slope::travel(surface).map(|travel| travel.down.dot(direction).abs());
    travels && slope.is_none_or(|along| along > ALONG)
}
