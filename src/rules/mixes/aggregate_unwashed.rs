//! `aggregate-unwashed`: base stone as the aggregate of concrete.

use crate::findings::{Fix, Severity};
use crate::materials::Kind;
use crate::model::{Mix, MixUse, Region};
use crate::rules::construction::is_in_checked_file;
use crate::rules::{Check, Context, Family, Found, Rule};
use crate::sources::Source;

/// Base stone as the aggregate of concrete.
pub(crate) static AGGREGATE_UNWASHED: Rule = Rule {
    name: "aggregate-unwashed",
    family: Family::Mixes,
    severity: Severity::Warning,
    looks_at: "Stone graded to fines, stone dust, soil or mixed fill as a part of concrete for a slab; soil or mixed fill as a part of mortar. Fine sand as that of concrete; as that of a mortar bed an advisory: kiln-dried sand, and in the UK building sand.",
    reason: "Dust coats the stone and drinks the water: the concrete comes out weak and scales in frost.",
    remedy: "Use washed concrete stone and sand, or all-in ballast.",
    limits: &[],
    sources: &[Source::COMMON_PRACTICE],
    breaks: "surface court
  build        mortar-set

mix slab-mix
  parts        1 portland-cement : 2 sharp-sand : 4 «crushed-stone»
",
    keeps: "surface court
  build        mortar-set

mix slab-mix
  parts        1 portland-cement : 2 sharp-sand : 4 concrete-stone
",
    mended: Some(
        "surface court
  build        mortar-set

mix slab-mix
  parts        1 portland-cement : 2 sharp-sand : 4 concrete-stone
",
    ),
    check: Check::Mix(check),
};

fn check(context: &Context<'_>, mix: &Mix, found: &mut Found) {
    let is_concrete = mix.is_for(MixUse::Slab);
    let is_bound = mix.amount_of(Kind::is_binder) > 0.0;
    let is_mortar = is_bound && (mix.is_for(MixUse::Bed) || mix.is_for(MixUse::Joint));
    let is_unfit = |kind: Kind| match is_concrete {
        true => kind.is_unfit_for_concrete(),
        // Dust of stone makes a mortar, soil makes none.
        false => is_mortar && matches!(kind, Kind::Soil | Kind::Fill),
    };
    let kind_of = |part: &crate::model::MixPart| part.material.as_ref()?.kind;
    let has_sand = mix
        .parts
        .iter()
        .any(|part| kind_of(part).is_some_and(Kind::is_sand));
    fine_sand(context, mix, is_concrete, found);
    for part in &mix.parts {
        if !kind_of(part).is_some_and(is_unfit) {
            continue;
        }
        let name = &part.name.value;
        if !is_concrete {
            let message = format!("{name} keeps mortar from setting: use washed sand");
            found.add(AGGREGATE_UNWASHED.finding(part.name.place, message));
            continue;
        }
        let message = format!("{name} is full of dust and makes weak concrete: use washed stone");
        let finding = AGGREGATE_UNWASHED.finding(part.name.place, message);
        // Where no sand is named, the aggregate brings its own.
        let instead = match (has_sand, context.region()) {
            (true, _) => Some("concrete-stone"),
            (false, Region::Uk) => Some("all-in-ballast"),
            (false, _) => None,
        };
        let instead = instead.filter(|_| is_in_checked_file(part.name.place));
        found.add(match instead {
            Some(name) => {
                let title = format!("Use {name}");
                finding.fix(Fix::judged(title, part.name.place, name))
            }
            None => finding,
        });
    }
}

/// Tells of sand that is too fine for concrete or for a bed of mortar. American
/// beds are of mason sand, and a bed that is pointed with too is of the sand of
/// its joints.
fn fine_sand(context: &Context<'_>, mix: &Mix, is_concrete: bool, found: &mut Found) {
    let is_bed = mix.is_for(MixUse::Bed) && !mix.is_for(MixUse::Joint);
    let is_bound = mix.amount_of(Kind::is_binder) > 0.0;
    if mix.are_parts_unread || !(is_concrete || is_bed && is_bound) {
        return;
    }
    let is_fine = |kind: Kind| match kind {
        Kind::JointSand => true,
        Kind::MasonSand => is_concrete || context.region() == Region::Uk,
        _ => false,
    };
    let is_coarse = |kind: Kind| kind.is_sand() && !is_fine(kind);
    if mix.amount_of(is_coarse) > 0.0 {
        return;
    }
    for part in &mix.parts {
        let kind = part.material.as_ref().and_then(|own| own.kind);
        if !kind.is_some_and(is_fine) {
            continue;
        }
        let (what, severity) = match is_concrete {
            true => ("concrete", Severity::Warning),
            false => ("a bed of mortar", Severity::Advisory),
        };
        let message = format!(
            "{} is too fine for {what}: it shrinks and comes out weak. Use sharp sand",
            part.name.value
        );
        let finding = AGGREGATE_UNWASHED
            .finding(part.name.place, message)
            .severity(severity);
        let is_own = is_in_checked_file(part.name.place);
        found.add(match is_own {
            true => finding.fix(Fix::judged("Use sharp-sand", part.name.place, "sharp-sand")),
            false => finding,
        });
    }
}
