//! `sold-unclear`: something is sold by what its use cannot be told in.

use super::troubles::findings;
use crate::findings::{Finding, Fix, Severity};
use crate::model::Surface;
use crate::quantities::{Trouble, TroubleKind};
use crate::rules::construction::is_in_rings;
use crate::rules::{Check, Context, Family, Found, Rule};
use crate::sources::Source;
use crate::units::{Dimension, System};
use crate::vocabulary::{Role, Term};

/// Something is sold by what its use cannot be told in.
pub(crate) static SOLD_UNCLEAR: Rule = Rule {
    name: "sold-unclear",
    family: Family::Ordering,
    severity: Severity::Warning,
    looks_at: "A material sold by the piece with no size, or by what its use cannot be turned into, such as a bag of 50 of no unit; and loads, steps and minimums in another measure than the sale.",
    reason: "What cannot be ordered is left open in the take-off, and its cost is missing from the total.",
    remedy: "State the size of a piece, or sell it by what it is used by.",
    limits: &[],
    sources: &[Source::computed(
        "the dimensions of what is used and of what is sold",
    )],
    breaks: "material concrete-paver
  «sold         by m»
",
    keeps: "material concrete-paver
  sold         by m2
",
    mended: None,
    check: Check::Job(check),
};

fn check(context: &Context<'_>, found: &mut Found) {
    let singly = context.word(Term::Singly);
    for (trouble, finding) in findings(&SOLD_UNCLEAR, context, |own| message(own, singly, context))
    {
        let finding = with_units(finding, trouble, context.system());
        found.add(match lies_in_rings(trouble, context) {
            true => finding.severity(Severity::Advisory),
            false => finding,
        });
    }
}

/// The units that the content of a pack may have been meant in, those of the
/// job first.
fn with_units(finding: Finding, trouble: &Trouble, system: System) -> Finding {
    let TroubleKind::BareContent { used, .. } = &trouble.kind else {
        return finding;
    };
    let [imperial, metric] = match *used {
        Dimension::MASS => ["lb", "kg"],
        Dimension::VOLUME => ["cu ft", "m3"],
        Dimension::AREA => ["sq ft", "m2"],
        _ => ["ft", "m"],
    };
    let units = match system {
        System::Imperial => [imperial, metric],
        System::Metric => [metric, imperial],
    };
    units.into_iter().fold(finding, |finding, unit| {
        let title = format!("Write {unit} after the number");
        finding.fix(Fix::judged(title, trouble.place.end(), format!(" {unit}")))
    })
}

/// Whether it is about paving that is laid in rings: its size, stated or not,
/// does not tell how many there are.
fn lies_in_rings(trouble: &Trouble, context: &Context<'_>) -> bool {
    let is_of_it = |own: &Surface| {
        let build = own.build.as_ref();
        let paving = build.and_then(|build| build.value.layer(Role::Paving));
        paving.is_some_and(|paving| paving.of.value.name() == trouble.name)
    };
    let mut surfaces = context.job.surfaces.iter();
    trouble.kind == TroubleKind::NoUnitSize && surfaces.any(|own| is_in_rings(own) && is_of_it(own))
}

/// Whether it is about bricks before risers whose size is known, and what is
/// not is how high a course of them is.
fn lacks_courses(trouble: &Trouble, context: &Context<'_>) -> bool {
    let mut facings = context
        .job
        .steps
        .iter()
        .filter_map(|own| own.riser.as_ref());
    facings.any(|facing| {
        let material = facing.of.value.material();
        let is_it = material.is_some_and(|own| own.name == trouble.name && own.unit.is_some());
        is_it && (facing.courses.is_none() || facing.flat.is_none())
    })
}

/// What to say of it; `singly` is how the region says "one by one".
fn message(trouble: &Trouble, singly: &str, context: &Context<'_>) -> Option<String> {
    let name = &trouble.name;
    Some(match &trouble.kind {
        TroubleKind::NoUnitSize if lies_in_rings(trouble, context) => format!(
            "{name} is laid in rings, whose joints taper, and cannot be counted: sell it by area, as in sold by {}",
            match context.system() {
                System::Metric => "m2",
                System::Imperial => "sq ft",
            }
        ),
        TroubleKind::NoUnitSize if lacks_courses(trouble, context) => format!(
            "no courses for {name} in front of the risers, so it cannot be counted: state them, as in riser {name}, flat, courses {}",
            match context.system() {
                System::Metric => "75 mm",
                System::Imperial => "2 5/8 in",
            }
        ),
        TroubleKind::NoUnitSize => format!(
            "{name} is sold {singly} but has no size, so it cannot be counted: state its unit"
        ),
        TroubleKind::NotConvertible { sold, .. } => format!(
            "{name} is sold by {sold}, and nothing turns its use into that: sell it by what it is used by"
        ),
        TroubleKind::BareContent { pack, .. } => format!(
            "a {pack} of how much? {name} is not used by the piece: put a unit to what the {pack} holds"
        ),
        TroubleKind::Terms { what, stated, sold } => {
            format!("`{what}` of {name} is {stated}, but it is sold by {sold}: state it in {sold}")
        }
        _ => return None,
    })
}
