//! `choke-missing`: a bed on stone so open that it runs down into it.

use crate::findings::{Fix, Severity};
use crate::materials::Kind;
use crate::model::{Build, Layer, Surface};
use crate::rules::construction::{Binding, compacted_m, grain_m, is_base, is_in_checked_file};
use crate::rules::documents::{CMHA_ASSEMBLY, FILTER_LAYERS};
use crate::rules::wording::entry_before;
use crate::rules::{Check, Context, Family, Found, Rule};
use crate::vocabulary::{Role, Term};

/// A layer of open stone up to this, in metres, over another is a choke
/// course.
const CHOKE: f64 = 0.08;

/// Grains that are smaller than a fifth of the stones below fall between them.
const FALLS_BETWEEN: f64 = 5.0;

/// A bed on stone so open that it runs down into it.
pub(crate) static CHOKE_MISSING: Rule = Rule {
    name: "choke-missing",
    family: Family::Beds,
    severity: Severity::Warning,
    looks_at: "A bed of sand, or a surfacing of stone dust or decomposed granite, straight on open-graded stone, or a bed of chips straight on coarse stone such as permeable-ballast: no fabric between, and no thin choke course of smaller stone on top.",
    reason: "It runs down into the voids of the stone, and what lies on it follows.",
    remedy: "Lay a geotextile or a choke course between, bed on chips, or use a dense-graded base.",
    limits: &[],
    sources: &[CMHA_ASSEMBLY, FILTER_LAYERS],
    breaks: "build sand-set
  bed          «sharp-sand», 30 mm
  base         open-stone, 150 mm, beyond 150 mm
",
    keeps: "build sand-set
  bed          chip-stone, 40 mm
  base         open-stone, 150 mm, beyond 150 mm
",
    mended: Some(
        "build sand-set
  fabric       geotextile
  base         open-stone, 150 mm, beyond 150 mm
  fabric       geotextile, beyond 150 mm
",
    ),
    check: Check::Built(check),
};

fn check(context: &Context<'_>, surface: &Surface, build: &Build, found: &mut Found) {
    let of_role = |role| {
        build
            .layers
            .iter()
            .position(|layer| layer.role.value == role)
    };
    let Some(at) = of_role(Role::Bed).or_else(|| of_role(Role::Surfacing)) else {
        return;
    };
    let (Some(bed), Some(below)) = (build.layers.get(at), build.layers.get(at + 1..)) else {
        return;
    };
    let is_sand = match Binding::of(&bed.of.value) {
        // Gravel and stone with fines in it do not run, but their dust does.
        Binding::Loose if bed.role.value == Role::Surfacing => {
            let kind = bed.of.value.kind();
            kind.is_some_and(|kind| kind.is_sand() || kind == Kind::StoneDust)
        }
        // Chips bed on open stone as they are, and so does gravel.
        Binding::Loose => {
            let kind = bed.of.value.kind();
            kind.is_none_or(|kind| !kind.is_loose_stone())
        }
        Binding::Stabilised => true,
        _ => false,
    };
    let [base, rest @ ..] = below else { return };
    let is_over_voids = is_base(base) && is_open(base);
    let is_choke = compacted_m(base) <= CHOKE
        && rest
            .iter()
            .find(|layer| is_base(layer))
            .is_some_and(is_open);
    if context.is_misread(build.section) || bed.existing.is_some() {
        return;
    }
    if falls_between(bed, base) {
        let message = format!(
            "{} will run down between the stones of the {}: lay a course of open-stone between",
            bed.of.value.name(),
            base.of.value.name(),
        );
        found.add(
            CHOKE_MISSING
                .finding(context.at(surface, bed.of.place), message)
                .related(base.place, context.word(Term::OpenStone)),
        );
        return;
    }
    // What is too fine in a permeable build has a rule of its own.
    let is_permeable = build.permeable.is_some();
    if !is_sand || !is_over_voids || is_choke || is_permeable {
        return;
    }
    let remedy = match bed.role.value {
        Role::Surfacing => "",
        _ => ", or bed on chip-stone",
    };
    let message = format!(
        "{} will run down into the {}: lay a geotextile or a choke course between{remedy}",
        bed.of.value.name(),
        base.of.value.name(),
    );
    let finding = CHOKE_MISSING
        .finding(context.at(surface, bed.of.place), message)
        .related(base.place, context.word(Term::OpenStone));
    found.add(if is_in_checked_file(base.place) {
        finding.fix(Fix::judged(
            "Lay a geotextile between",
            base.place.start(),
            entry_before("fabric", "geotextile"),
        ))
    } else {
        finding
    });
}

/// Whether the largest stones of a bed are small enough to fall between those
/// below.
fn falls_between(bed: &Layer, base: &Layer) -> bool {
    let grain = |layer: &Layer| grain_m(layer.of.value.material()?);
    let both = grain(bed).zip(grain(base).filter(|_| is_base(base)));
    both.is_some_and(|(own, below)| below > FALLS_BETWEEN * own)
}

fn is_open(layer: &Layer) -> bool {
    layer.of.value.kind().is_some_and(Kind::is_open_graded)
}
