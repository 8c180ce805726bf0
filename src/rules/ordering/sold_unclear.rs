//! `sold-unclear`: something is sold by what its use cannot be told in.

use super::troubles::finding;
use crate::findings::Severity;
use crate::quantities::{Trouble, TroubleKind};
use crate::rules::{Check, Context, Family, Found, Rule};
use crate::sources::Source;

/// Something is sold by what its use cannot be told in.
pub static SOLD_UNCLEAR: Rule = Rule {
    name: "sold-unclear",
    family: Family::Ordering,
    severity: Severity::Warning,
    looks_at: "A material that is sold by the piece with no size known, or by something that its use cannot be turned into; and loads, steps and least orders in another measure than what is sold.",
    reason: "An order that cannot be worked out is left open in the take-off, and its cost is missing from the total.",
    remedy: "State the size of a unit, or sell it by what it is used by.",
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
    for trouble in &context.figures.troubles {
        let message = message(trouble);
        let finding =
            message.and_then(|message| finding(&SOLD_UNCLEAR, trouble, message, context.job));
        if let Some(finding) = finding {
            found.add(finding);
        }
    }
}

fn message(trouble: &Trouble) -> Option<String> {
    let name = &trouble.name;
    Some(match &trouble.kind {
        TroubleKind::NoUnitSize => format!(
            "{name} is sold by the piece and the size of one is not known, so that none can be counted: state its unit"
        ),
        TroubleKind::NotConvertible { sold, .. } => format!(
            "{name} is sold by {sold}, and nothing known turns what is used into that: sell it by what it is used by"
        ),
        TroubleKind::Terms { what, stated, sold } => {
            format!("`{what}` of {name} is {stated}, and it is sold by {sold}: state it in {sold}")
        }
        _ => return None,
    })
}
