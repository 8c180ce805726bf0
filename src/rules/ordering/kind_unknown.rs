//! `kind-unknown`: a material of which nothing says what it is.

use std::collections::BTreeSet;

use super::uses::each_use;
use crate::findings::{Fix, Place, Severity};
use crate::materials::other_name;
use crate::model::{Material, UsedAs};
use crate::rules::construction::{is_in_checked_file, is_pedestal};
use crate::rules::{Check, Context, Family, Found, Rule};
use crate::sources::Source;
use crate::vocabulary::{Role, entry};

/// A material of which nothing says what it is.
pub(crate) static KIND_UNKNOWN: Rule = Rule {
    name: "kind-unknown",
    family: Family::Ordering,
    severity: Severity::Warning,
    looks_at: "A material in a layer, joint, border, edging, step, drain or mix that has neither `kind` nor a `like` that leads to one. Told once for each.",
    reason: "The rules go by what a thing is. Of a name alone they can say nothing, wrong or right.",
    remedy: "Say what it is with `kind`, or what it is `like`.",
    limits: &[],
    sources: &[Source::COMMON_PRACTICE],
    breaks: "build sand-set
  base         local-stone, 150 mm compacted, lifts 2, beyond 150 mm

«material local-stone»
  density      1700 kg/m3 loose, 2100 kg/m3 compacted
  sold         by t
",
    keeps: "build sand-set
  base         local-stone, 150 mm compacted, lifts 2, beyond 150 mm

material local-stone
  kind         dense-aggregate
  density      1700 kg/m3 loose, 2100 kg/m3 compacted
  sold         by t
",
    mended: Some(
        "build sand-set
  base         local-stone, 150 mm compacted, lifts 2, beyond 150 mm

material local-stone
  kind         dense-aggregate
  density      1700 kg/m3 loose, 2100 kg/m3 compacted
  sold         by t
",
    ),
    check: Check::Job(check),
};

fn check(context: &Context<'_>, found: &mut Found) {
    // Every use is looked at only where there is something to ask: this is
    // called at every edit.
    let mut materials = context.job.materials.values();
    if materials.all(|material| material.kind.is_some()) {
        return;
    }
    let mut seen = BTreeSet::new();
    each_use(context.job, |used| {
        let material = used.material;
        if material.kind.is_some() || !seen.insert(&material.name) {
            return;
        }
        let is_misread = material
            .section
            .is_some_and(|section| context.is_misread(section));
        if !is_misread {
            tell(material, used.used, used.at, found);
        }
    });
}

fn tell(material: &Material, used: UsedAs, at: Place, found: &mut Found) {
    let own = material.place.filter(|place| is_in_checked_file(*place));
    let at = Some(at).filter(|place| is_in_checked_file(*place));
    let Some(place) = own.or(at) else { return };
    if used == UsedAs::Layer(Role::Bed) && is_pedestal(&material.name) {
        let message = "slabs on pedestals have no bed: leave this line out and the joints open, and order the pedestals as an item of the budget";
        found.add(KIND_UNKNOWN.finding(at.unwrap_or(place), message));
        return;
    }
    let message = format!(
        "what is {}? With no kind, no rule can judge it: state its kind, or what it is like",
        material.name
    );
    let mut finding = KIND_UNKNOWN.finding(place, message);
    if let Some(at) = at.filter(|at| *at != place) {
        finding = finding.related(at, "used here");
    }
    if own.is_some() {
        let known = other_name(&material.name.to_lowercase());
        let known = known.map(|name| ("like", name));
        let kinds = used.kinds().iter().map(|kind| ("kind", kind.word()));
        // Whoever uses another name for a thing of the catalogue means that.
        let meant = match known {
            Some(known) => vec![known],
            None => kinds.collect(),
        };
        for (key, of) in meant {
            finding = finding.fix(Fix::judged(
                format!("Take it for {of}"),
                place.end(),
                format!("\n  {}", entry(key, of)),
            ));
        }
    }
    found.add(finding);
}
