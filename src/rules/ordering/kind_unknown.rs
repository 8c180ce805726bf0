//! `kind-unknown`: a material of which nothing says what it is.

use std::collections::BTreeSet;

use crate::findings::{Fix, Place, Severity};
use crate::materials::other_name;
use crate::model::{Material, Substance};
use crate::rules::construction::is_in_checked_file;
use crate::rules::{Check, Context, Family, Found, Rule};
use crate::sources::Source;
use crate::vocabulary::Role;

/// A material of which nothing says what it is.
pub(crate) static KIND_UNKNOWN: Rule = Rule {
    name: "kind-unknown",
    family: Family::Ordering,
    severity: Severity::Warning,
    looks_at: "A material in a layer, joint, edging or mix that has neither `kind` nor a `like` that leads to one. Told once for each.",
    reason: "The rules go by what a thing is. Of a name alone they can say nothing, wrong or right.",
    remedy: "Say what it is with `kind`, or what it is `like`.",
    limits: &[],
    sources: &[Source::COMMON_PRACTICE],
    breaks: "build sand-set
  paving       concrete-paver, 60 mm, waste 5 %
  bed          sharp-sand, 30 mm
  base         local-stone, 150 mm compacted, lifts 2, beyond 150 mm

«material local-stone»
  density      1700 kg/m3 loose, 2100 kg/m3 compacted
  sold         by t
",
    keeps: "build sand-set
  paving       concrete-paver, 60 mm, waste 5 %
  bed          sharp-sand, 30 mm
  base         local-stone, 150 mm compacted, lifts 2, beyond 150 mm

material local-stone
  kind         dense-aggregate
  density      1700 kg/m3 loose, 2100 kg/m3 compacted
  sold         by t
",
    mended: Some(
        "build sand-set
  paving       concrete-paver, 60 mm, waste 5 %
  bed          sharp-sand, 30 mm
  base         local-stone, 150 mm compacted, lifts 2, beyond 150 mm

material local-stone
  kind         dense-aggregate
  density      1700 kg/m3 loose, 2100 kg/m3 compacted
  sold         by t
",
    ),
    check: Check::Job(check),
};

/// What a material may be, by what it is used for, the likeliest first.
#[derive(Clone, Copy)]
enum UsedAs {
    Layer(Role),
    Joint,
    Edging,
    Part,
}

impl UsedAs {
    fn kinds(self) -> &'static [&'static str] {
        match self {
            UsedAs::Layer(Role::Paving) => &[
                "concrete-paver",
                "concrete-flag",
                "natural-stone",
                "porcelain",
                "clay-paver",
            ],
            UsedAs::Layer(Role::Surfacing) => &["rounded-gravel", "open-aggregate"],
            UsedAs::Layer(Role::Bond) => &["bond-coat", "medium-bed-mortar"],
            UsedAs::Layer(Role::Slurry) => &["bond-coat"],
            UsedAs::Layer(Role::Bed) => &["bedding-sand", "open-aggregate", "bagged-mortar"],
            UsedAs::Layer(Role::Slab) => &["concrete", "bagged-concrete"],
            UsedAs::Layer(Role::Base | Role::Subbase) => &["dense-aggregate", "open-aggregate"],
            UsedAs::Layer(Role::Membrane) => &["membrane", "crack-membrane"],
            UsedAs::Layer(Role::Mesh) => &["mesh"],
            UsedAs::Layer(Role::Fabric) => &["fabric", "weed-fabric"],
            UsedAs::Joint => &["joint-sand", "bagged-mortar", "jointing-compound"],
            UsedAs::Edging => &["edging"],
            UsedAs::Part => &["bedding-sand", "cement", "open-aggregate"],
        }
    }
}

fn check(context: &Context<'_>, found: &mut Found) {
    let job = context.job;
    let mut told = BTreeSet::new();
    let mut look = |material: &Material, used: UsedAs, at: Place| {
        if material.kind.is_some() || !told.insert(material.name.clone()) {
            return;
        }
        let is_misread = material
            .section
            .is_some_and(|section| context.is_misread(section));
        if !is_misread {
            tell(material, used, at, found);
        }
    };
    for surface in job.surfaces.iter() {
        for layer in surface.build.iter().flat_map(|build| &build.value.layers) {
            if let Substance::Material(material) = &layer.of.value {
                look(material, UsedAs::Layer(layer.role.value), layer.of.place);
            }
        }
        let joint = surface.joint.as_ref();
        if let Some(filling) = joint.and_then(|joint| joint.filling.as_ref())
            && let Substance::Material(material) = &filling.value
        {
            look(material, UsedAs::Joint, filling.place);
        }
        for edging in &surface.edgings {
            if let Substance::Material(material) = &edging.material.value {
                look(material, UsedAs::Edging, edging.material.place);
            }
        }
    }
    for part in job.mixes.values().flat_map(|mix| &mix.parts) {
        if let Some(material) = &part.material {
            look(material, UsedAs::Part, part.name.place);
        }
    }
}

fn tell(material: &Material, used: UsedAs, at: Place, found: &mut Found) {
    let own = material.place.filter(|place| is_in_checked_file(*place));
    let at = Some(at).filter(|place| is_in_checked_file(*place));
    let Some(place) = own.or(at) else { return };
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
        let kinds = used.kinds().iter().map(|kind| ("kind", *kind));
        // Whoever uses another name for a thing of the catalogue means that.
        let meant = match known {
            Some(known) => vec![known],
            None => kinds.collect(),
        };
        for (key, of) in meant {
            finding = finding.fix(Fix::judged(
                format!("Take it for {of}"),
                place.end(),
                format!("\n  {key:<12} {of}"),
            ));
        }
    }
    found.add(finding);
}
