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
    looks_at: "Stone graded to fines, stone dust, soil or mixed fill as a part of concrete for a slab.",
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
    if !mix.is_for(MixUse::Slab) {
        return;
    }
    let kind_of = |part: &crate::model::MixPart| part.material.as_ref()?.kind;
    let has_sand = mix
        .parts
        .iter()
        .any(|part| kind_of(part).is_some_and(Kind::is_sand));
    for part in &mix.parts {
        if !kind_of(part).is_some_and(Kind::is_unfit_for_concrete) {
            continue;
        }
        let message = format!(
            "{} is full of dust and makes weak concrete: use washed stone",
            part.name.value
        );
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
