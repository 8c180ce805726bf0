//! `material-unsuited`: a material where a thing of its kind cannot be.

use super::uses::{Used, each_use_beside_surfaces, each_use_of};
use crate::findings::{Fix, Place, Severity};
use crate::model::{Surface, UsedAs};
use crate::rules::construction::is_in_checked_file;
use crate::rules::{Check, Context, Family, Found, Rule};
use crate::sources::Source;
use crate::vocabulary::{Role, Term};

/// A material where a thing of its kind cannot be.
pub(crate) static MATERIAL_UNSUITED: Rule = Rule {
    name: "material-unsuited",
    family: Family::Ordering,
    severity: Severity::Warning,
    looks_at: "What each layer, joint, border, edging, tread, riser, core of steps and part of a drain is made of, and whether a thing of that kind can be used so: gravel is no paving, a fabric no base.",
    reason: "Orders, hours and the other rules go by what a layer is. Gravel under paving is counted, laid and judged as slabs are.",
    remedy: "Put it under the key for what it is, name what lies there, or correct its kind.",
    limits: &[],
    sources: &[Source::COMMON_PRACTICE],
    breaks: "surface court
  build        gravel-court

build gravel-court
  paving       «pea-gravel», 50 mm, waste 5 %
  base         crushed-stone, 150 mm compacted, beyond 150 mm
",
    keeps: "surface court
  build        gravel-court

build gravel-court
  surfacing    pea-gravel, 50 mm, waste 5 %
  base         crushed-stone, 150 mm compacted, beyond 150 mm
",
    mended: Some(
        "surface court
  build        gravel-court

build gravel-court
  surfacing       pea-gravel, 50 mm, waste 5 %
  base         crushed-stone, 150 mm compacted, beyond 150 mm
",
    ),
    check: Check::SurfaceAndJob(of_surface, beside_surfaces),
};

/// Keys that are mistaken for one another: what is written, and what is meant.
const MISTAKEN: &[(Role, Role)] = &[
    (Role::Paving, Role::Slab),
    (Role::Paving, Role::Surfacing),
    (Role::Surfacing, Role::Paving),
    (Role::Fabric, Role::Membrane),
    (Role::Membrane, Role::Fabric),
    (Role::Bond, Role::Bed),
    (Role::Paving, Role::Fabric),
    (Role::Base, Role::Fabric),
];

fn of_surface(context: &Context<'_>, surface: &Surface, found: &mut Found) {
    each_use_of(surface, |used| look(context, &used, found));
}

fn beside_surfaces(context: &Context<'_>, found: &mut Found) {
    each_use_beside_surfaces(context.job, |used| look(context, &used, found));
}

fn look(context: &Context<'_>, used: &Used<'_>, found: &mut Found) {
    let Some(kind) = used.material.kind else {
        return;
    };
    if used.used.takes(kind) || !is_in_checked_file(used.at) {
        return;
    }
    let meant = meant(used);
    let what_to_do = match meant {
        Some((role, _)) => format!("Put it under {}", role.word()),
        None => "Name what belongs there, or correct its kind".to_owned(),
    };
    let (name, slot) = (&used.material.name, slot(context, used.used));
    let message = match kind.word().replace('-', " ") {
        kind if kind == *name => format!("{name} cannot be {slot}. {what_to_do}"),
        kind => format!("{name} is {kind} and cannot be {slot}. {what_to_do}"),
    };
    let mut finding = MATERIAL_UNSUITED.finding(used.at, message);
    if let Some((role, key)) = meant {
        let title = format!("Write {}", role.word());
        finding = finding.fix(Fix::judged(title, key, role.word()));
    }
    found.add(finding);
}

/// The key that was meant, and where the other stands.
fn meant(used: &Used<'_>) -> Option<(Role, Place)> {
    let UsedAs::Layer(written) = used.used else {
        return None;
    };
    let (kind, key) = (used.material.kind?, used.key?);
    let fits = |(own, role): &&(Role, Role)| *own == written && UsedAs::Layer(*role).takes(kind);
    let (_, role) = MISTAKEN.iter().find(fits)?;
    Some((*role, key))
}

/// What it is used as, in a sentence.
fn slot(context: &Context<'_>, used: UsedAs) -> String {
    let text = match used {
        UsedAs::Layer(Role::Paving) => "paving",
        UsedAs::Layer(Role::Surfacing) => "loose surfacing",
        UsedAs::Layer(Role::Bond) => "a bond coat",
        UsedAs::Layer(Role::Slurry) => "a slurry coat",
        UsedAs::Layer(Role::Bed) => "a bed",
        UsedAs::Layer(Role::Slab) => "a slab",
        UsedAs::Layer(Role::Base) => "a base",
        UsedAs::Layer(Role::Subbase) => {
            return format!("a {}", context.word(Term::Subbase));
        }
        UsedAs::Layer(Role::Membrane) => "a membrane",
        UsedAs::Layer(Role::Mesh) => "mesh",
        UsedAs::Layer(Role::Fabric) => "a fabric",
        UsedAs::Joint => "the filling of joints",
        UsedAs::Edging => "edging",
        UsedAs::Border => "a border",
        UsedAs::Tread => "a tread",
        UsedAs::Riser => "the face of a riser",
        UsedAs::Channel => return format!("a {}", context.word(Term::Channel)),
        UsedAs::Gully => return format!("a {}", context.word(Term::Gully)),
        UsedAs::Pipe => "a pipe",
        UsedAs::Wrapping => "the fabric round a drain",
        UsedAs::Footing => "what edging stands in",
        UsedAs::Core => "the core of steps",
        UsedAs::Bedding => "the bedding of a pipe",
        UsedAs::Filling => "the filling of a trench",
        UsedAs::Part => "part of a mix",
    };
    text.to_owned()
}
