//! `locate-stale`: buried services that were located too long ago, or too late.

use crate::findings::Severity;
use crate::quantities::LOCATE_SERVICES;
use crate::rules::work::first_dig;
use crate::rules::{Bound, Check, Context, Family, Found, Limit, Rule};
use crate::sources::Source;
use crate::units::{Day, Dimension, Quantity};

/// Buried services that were located too long ago, or too late.
pub(crate) static LOCATE_STALE: Rule = Rule {
    name: "locate-stale",
    family: Family::Ground,
    severity: Severity::Warning,
    looks_at: "The days from when buried services were located to the first dig of the schedule; without one to the date of the spec or, where it has none, to today. An error where the dig begins before they are located.",
    reason: "Marks wash out, tickets run out, and somebody else may have dug there since.",
    remedy: "Have services located again just before the dig, and state the new date.",
    limits: &[Limit::practice(
        "plain",
        "the days since services were located",
        Bound::Most,
        &["28 days"],
    )],
    sources: &[LOCATE_SERVICES, Source::COMMON_PRACTICE],
    breaks: "\
job \"Example court\"
  date         2027-04-12

site
  services     located «2026-11-02»
",
    keeps: "\
job \"Example court\"
  date         2027-04-12

site
  services     located 2027-04-02
",
    mended: None,
    check: Check::Job(check),
};

fn check(context: &Context<'_>, found: &mut Found) {
    let job = context.job;
    let (Some(located), Some(limit)) = (
        &job.site.services_located,
        context.limit(&LOCATE_STALE, "plain"),
    ) else {
        return;
    };
    let schedule = context.figures.schedule.as_deref();
    let dig = schedule.and_then(|schedule| schedule.day(first_dig(schedule)?));
    let date = job.heading.date.as_ref();
    if dig.is_none() && date.is_none() && context.is_misread_at(job.heading.place) {
        return;
    }
    let dated = date.map_or(context.today, |date| Day::read(&date.value));
    let day = dig.or(dated);
    let Some(days) = day
        .zip(Day::read(&located.value))
        .map(|(day, on)| day.since(on))
    else {
        return;
    };
    if dig.is_some() && days < 0 {
        let late = -days;
        let day = if late == 1 { "day" } else { "days" };
        let message = format!(
            "the dig begins {late} {day} before services are located: have them located first"
        );
        found.add(
            LOCATE_STALE
                .finding(located.place, message)
                .severity(Severity::Error),
        );
        return;
    }
    let seconds = days as f64 * 86_400.0;
    if limit.allows_si(seconds) {
        return;
    }
    let when = match dig {
        Some(_) => "before the dig",
        None => "ago",
    };
    let message = format!(
        "services were located {days} days {when}: marks wash out. {} is the most. Have them located again before the dig",
        limit.shown(context.system())
    );
    found.add(
        LOCATE_STALE
            .finding(located.place, message)
            .found(
                format!("{days} days"),
                Quantity::near(seconds, Dimension::TIME),
            )
            .against(&limit, context),
    );
}
