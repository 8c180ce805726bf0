//! `crew-short`: work that the crew cannot man, or cannot finish in a day.

use crate::findings::Severity;
use crate::quantities::Fault;
use crate::rules::{Check, Context, Family, Found, Rule};
use crate::sources::Source;
use crate::units::show;
use crate::vocabulary::Task;

/// Work that the crew cannot man, or cannot finish in a day.
pub(crate) static CREW_SHORT: Rule = Rule {
    name: "crew-short",
    family: Family::Work,
    severity: Severity::Error,
    looks_at: "The hands that each kind of work takes against those of the crew, and the length of a pour against a working day.",
    reason: "Work without the hands for it never begins, and concrete left overnight sets with a cold joint through it.",
    remedy: "Take on more hands, state a rate for fewer of them, or part the slab into bays that are poured on different days.",
    limits: &[],
    sources: &[Source::computed("hands at the work less hands of the crew")],
    breaks: "work
  crew         2
  rate         laying 2 m2 per h each, crew «3»
",
    keeps: "work
  crew         3
  rate         laying 2 m2 per h each, crew 3
",
    mended: None,
    check: Check::Job(check),
};

fn check(context: &Context<'_>, found: &mut Found) {
    let Some(schedule) = &context.figures.schedule else {
        return;
    };
    let work = context.job.work.as_ref();
    if work.is_some_and(|work| !work.unread.is_empty()) {
        return;
    }
    for fault in &schedule.faults {
        match fault {
            Fault::TooManyHands(place, hands, name) => {
                let crew = match schedule.crew {
                    1 => "is one person".to_owned(),
                    crew => format!("has {crew}"),
                };
                let message = format!(
                    "{name} takes {hands} hands and the crew {crew}: take on more, or do it with fewer"
                );
                found.add(CREW_SHORT.finding(*place, message));
            }
            Fault::LongerThanDay(place, minutes, name) => {
                let takes = show::time(*minutes as f64 * 60.0);
                let message = format!(
                    "{name} takes {takes} at a stretch, longer than a working day: take on more hands, or pour it in bays"
                );
                let finding = CREW_SHORT.finding(*place, message);
                found.add(match is_rated(context) {
                    true => finding,
                    false => finding.severity(Severity::Warning),
                });
            }
            _ => {}
        }
    }
}

/// Whether the time of a pour rests on a rate that is stated: one that is only
/// usual may be wrong, and makes no error.
fn is_rated(context: &Context<'_>) -> bool {
    let work = context.job.work.as_ref();
    work.is_some_and(|work| work.rate(Task::Pouring, |_| true).is_some())
}
