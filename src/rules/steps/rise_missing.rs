//! `rise-missing`: steps that lead down, or nowhere.

use crate::findings::{Place, Severity};
use crate::model::{Ending, Steps};
use crate::rules::{Check, Context, Family, Found, Rule};
use crate::sources::Source;

/// Steps that lead down, or nowhere.
pub(crate) static RISE_MISSING: Rule = Rule {
    name: "rise-missing",
    family: Family::Steps,
    severity: Severity::Error,
    looks_at: "The levels at the foot and at the top of a flight, and whether it leads from one surface to another.",
    reason: "Steps climb from their foot to their top; where the foot lies as high or higher, a level is wrong or the two are swapped.",
    remedy: "Swap from and to, or look at the levels again.",
    limits: &[],
    sources: &[Source::computed(
        "the level of the top less that of the foot",
    )],
    breaks: "\
steps garden-steps
  from         «-100 mm»
  to           court
  at           (3 m, 0 m), climbing north
  width        1.2 m
  going        350 mm
  handrail     both sides
",
    keeps: "\
steps garden-steps
  from         -700 mm
  to           court
  at           (3 m, 0 m), climbing north
  width        1.2 m
  going        350 mm
  handrail     both sides
",
    mended: None,
    check: Check::Job(check),
};

fn check(context: &Context<'_>, found: &mut Found) {
    let all = context.job.steps.iter().zip(context.figures.steps.iter());
    for (own, figures) in all {
        if let Some((place, name)) = one_surface(own) {
            let message = format!(
                "these steps begin and end at {name}: one of the two is another surface, the ground or a level"
            );
            found.add(RISE_MISSING.finding(place, message));
            continue;
        }
        let Some(by) = figures.down_m else { continue };
        let place = own.from.as_ref().map_or(own.place, |from| from.place);
        let message = match by > 0.0005 {
            true => format!(
                "these steps lead down: their foot lies {} above their top. Swap `from` and `to`?",
                context.show_length(by)
            ),
            false => "these steps climb nothing: foot and top lie level".to_owned(),
        };
        found.add(RISE_MISSING.finding(place, message));
    }
}

/// The surface that a flight both begins and ends at, and where it says so.
fn one_surface(own: &Steps) -> Option<(Place, &str)> {
    let (from, to) = own.from.as_ref().zip(own.to.as_ref())?;
    match (&from.value, &to.value) {
        (Ending::Surface(one), Ending::Surface(other)) if one == other => Some((from.place, one)),
        _ => None,
    }
}
