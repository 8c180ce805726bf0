//! `care-cement`: wet cement and lime.

use super::caution::{HARMLESS, built_layers, say};
use crate::findings::Severity;
use crate::model::Surface;
use crate::rules::construction::is_mortar;
use crate::rules::documents::{OSHA_CEMENT, WET_MORTAR};
use crate::rules::{Check, Context, Family, Found, Rule};

/// Wet cement and lime.
pub(crate) static CARE_CEMENT: Rule = Rule {
    name: "care-cement",
    family: Family::Cautions,
    severity: Severity::Advisory,
    looks_at: "Mortar, concrete, bond coats and anything else with cement or lime.",
    reason: "Wet cement is caustic: burns come late and do not hurt at first, and its chromium gives lasting skin disease.",
    remedy: "Wear waterproof gloves, boots and eye protection, never kneel in wet mix, and wash splashes off at once with clean water.",
    limits: &[],
    sources: &[OSHA_CEMENT, WET_MORTAR],
    breaks: "job «\"Example court\"»
  units        metric

surface court
  build        mortar-set
",
    keeps: HARMLESS,
    mended: None,
    check: Check::JobWith {
        holds: has_cement,
        unless: None,
        check,
    },
};

/// Whether mortar or concrete is in a layer or a joint.
fn has_cement(surface: &Surface) -> bool {
    let joint = surface.joint.as_ref();
    let filling = joint.and_then(|joint| joint.filling.as_ref());
    built_layers(surface).any(|layer| is_mortar(&layer.of.value))
        || filling.is_some_and(|filling| is_mortar(&filling.value))
}

fn check(context: &Context<'_>, found: &mut Found) {
    say(
        &CARE_CEMENT,
        "wet cement burns skin and eyes: wear waterproof gloves, boots and goggles, and wash splashes off at once",
        context,
        found,
    );
}
