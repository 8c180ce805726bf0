//! Accepting: the findings that the designer accepts, with a reason, and what
//! is wrong with the acceptances themselves.

use std::sync::Arc;

use super::acceptance::{ACCEPT_EXPIRED, ACCEPT_FIRM, ACCEPT_IDLE, ACCEPT_REASONLESS, ACCEPT_WIDE};
use super::standard::{unknown_rule, wrong_dimension};
use super::wording::counted_days;
use super::{Bound, Context, JobFindings, Rule, families, weight};
use crate::findings::{Acceptance, Finding, Fix, Place, Severity};
use crate::model::{Accept, FileKind, literal};
use crate::units::{Day, Quantity};

/// An acceptance that runs out within so many days is worth a thought.
const NEAR_ITS_END: i64 = 30;

/// Whether an acceptance that holds until a day runs out soon after another
/// one, both as `2027-04-12`.
pub fn runs_out_soon_after(until: &str, today: &str) -> bool {
    let days = Day::read(until).zip(Day::read(today));
    days.is_some_and(|(until, today)| (0..=NEAR_ITS_END).contains(&until.since(today)))
}

/// The findings of a job with the acceptances that take them, and what is
/// wrong with the acceptances, in no order. `today` is written as
/// `2027-04-12`; on a day that is none, no acceptance has run out.
pub fn accepted(context: &Context<'_>, found: &JobFindings, today: &str) -> Vec<Arc<Finding>> {
    let all = found.own.iter().chain(&found.elsewhere);
    // What several surfaces say alike is accepted in each by itself.
    let mut findings: Vec<Arc<Finding>> = Vec::new();
    for finding in all {
        match &*finding.shares {
            [] => findings.push(Arc::clone(finding)),
            shares => findings.extend(shares.iter().cloned()),
        }
    }
    let today = Day::read(today);
    let accepts = &context.job.accepts;
    // The narrower acceptance goes first, so that a wide one beside it is
    // known to be idle.
    let inside = accepts.iter().filter(|accept| accept.inside_section);
    let at_margin = accepts.iter().filter(|accept| !accept.inside_section);
    for accept in inside.chain(at_margin) {
        let said = take(context, accept, &mut findings, today);
        findings.extend(said.into_iter().filter_map(|said| {
            let severity = context.limits.weigh(said.rule, said.severity?)?;
            Some(Arc::new(said.severity(severity)))
        }));
    }
    findings
}

/// Takes what an acceptance takes, and says what is wrong with it.
fn take(
    context: &Context<'_>,
    accept: &Accept,
    findings: &mut [Arc<Finding>],
    today: Option<Day>,
) -> Option<Finding> {
    let name = accept.rule.value.as_str();
    let Some(rule) = families::find(name) else {
        return Some(unknown_rule(&accept.rule));
    };
    if let Some((line, standard)) = context.limits.firm(name) {
        let message = format!(
            "{} holds {name} firm, so it cannot be accepted here: fix it",
            standard.title_in_words()
        );
        return Some(
            ACCEPT_FIRM
                .finding(accept.place, message)
                .related(line, "held firm here"),
        );
    }
    if !weight::is_given(accept.reason.as_deref()) {
        let message = format!("this gives no reason, so {name} is not accepted: add because \"…\"");
        return Some(ACCEPT_REASONLESS.finding(accept.place, message));
    }
    if let Some(found) = figure_of_other_kind(accept, rule) {
        return Some(found);
    }
    let (within, beyond) = reached(accept, rule, findings);
    let days_left = days_left(accept, today);
    if days_left.is_some_and(|days| days < 0) {
        return run_out(context, accept, &within, findings);
    }
    if within.is_empty() && beyond.is_empty() {
        return idle(context, accept, findings);
    }
    for index in beyond {
        stop_short(context, accept, findings, index);
    }
    let said = too_wide(accept, &within, findings).or_else(|| runs_out_soon(accept, days_left));
    let acceptance = Arc::new(acceptance(accept));
    for index in within {
        if let Some(finding) = findings.get_mut(index) {
            Arc::make_mut(finding).accepted = Some(Arc::clone(&acceptance));
        }
    }
    said
}

/// The findings that an acceptance is for, by index: those as far as its
/// figure, and those beyond it.
fn reached(accept: &Accept, rule: &Rule, findings: &[Arc<Finding>]) -> (Vec<usize>, Vec<usize>) {
    findings
        .iter()
        .enumerate()
        .filter(|(_, finding)| finding.accepted.is_none() && is_meant(accept, finding))
        .map(|(index, _)| index)
        .partition(|index| {
            let finding = findings.get(*index);
            finding.is_some_and(|finding| is_as_far_as(accept, rule, finding))
        })
}

/// Whether a finding is of the accepted rule and stands, or was computed,
/// where the acceptance holds.
fn is_meant(accept: &Accept, finding: &Finding) -> bool {
    if finding.rule != accept.rule.value {
        return false;
    }
    let own = accept.place.section;
    if accept.inside_section {
        finding.place.section == own || finding.computed_from.contains(&own)
    } else {
        finding.place.section.file == own.file
    }
}

/// Whether a finding's figure is no worse than the accepted one.
fn is_as_far_as(accept: &Accept, rule: &Rule, finding: &Finding) -> bool {
    use std::cmp::Ordering::{Greater, Less};
    let Some(accepted) = &accept.figure else {
        return true;
    };
    let Some(figure) = finding.measured().figure else {
        return false;
    };
    let far = figure.compare(accepted.value).ok();
    match bound(rule, finding) {
        Some(Bound::Least) => far.is_some_and(|far| far != Less),
        Some(Bound::Most) => far.is_some_and(|far| far != Greater),
        None => false,
    }
}

/// Whether the limit that a finding missed is a least or a most; `None` if it
/// missed none.
pub fn bound_missed(finding: &Finding) -> Option<Bound> {
    bound(families::find(finding.rule)?, finding)
}

/// Whether the limit that was missed is a least or a most: as all of the
/// rule's limits are, else by the side on which the figure lies.
fn bound(rule: &Rule, finding: &Finding) -> Option<Bound> {
    let first = rule.limits.first()?.bound;
    if rule.limits.iter().all(|limit| limit.bound == first) {
        return Some(first);
    }
    let limit = finding.measured().limit.as_deref().and_then(literal)?;
    let figure = finding.measured().figure?;
    match figure.compare(limit).ok()? {
        std::cmp::Ordering::Greater => Some(Bound::Most),
        _ => Some(Bound::Least),
    }
}

/// An accepted figure that measures something other than the rule's limits.
fn figure_of_other_kind(accept: &Accept, rule: &Rule) -> Option<Finding> {
    let figure = accept.figure.as_ref()?;
    let limits: Vec<Quantity> = rule
        .limits
        .iter()
        .filter_map(|limit| limit.general.written.first().and_then(|text| literal(text)))
        .collect();
    let fits = limits
        .iter()
        .any(|limit| figure.value.compare(*limit).is_ok());
    if fits {
        return None;
    }
    match limits.first() {
        Some(limit) => Some(wrong_dimension(rule, figure, limit)),
        None => {
            let message = format!(
                "{} has no limit, so it is accepted without a figure: leave the figure out",
                rule.name
            );
            Some(super::acceptance::LIMIT_UNKNOWN.finding(figure.place, message))
        }
    }
}

fn days_left(accept: &Accept, today: Option<Day>) -> Option<i64> {
    let until = accept.until.as_deref().and_then(Day::read)?;
    Some(until.since(today?))
}

fn until(accept: &Accept) -> &str {
    accept.until.as_deref().unwrap_or_default()
}

/// An acceptance that no longer holds: it matters as what it took.
fn run_out(
    context: &Context<'_>,
    accept: &Accept,
    within: &[usize],
    findings: &[Arc<Finding>],
) -> Option<Finding> {
    let taken = within.iter().filter_map(|index| findings.get(*index));
    let Some(gravest) = taken.filter_map(|finding| finding.severity).max() else {
        return idle(context, accept, findings);
    };
    let message = format!(
        "the acceptance of {} ran out on {}: fix it, or look again and give a new day",
        accept.rule.value,
        until(accept)
    );
    let finding = ACCEPT_EXPIRED.finding(accept.place, message);
    Some(finding.severity(gravest))
}

fn runs_out_soon(accept: &Accept, days_left: Option<i64>) -> Option<Finding> {
    let days = days_left.filter(|days| *days <= NEAR_ITS_END)?;
    let when = match days {
        0 => "today".to_owned(),
        days => format!("on {}, in {}", until(accept), counted_days(days)),
    };
    let message = format!("the acceptance of {} runs out {when}", accept.rule.value);
    Some(
        ACCEPT_EXPIRED
            .finding(accept.place, message)
            .severity(Severity::Advisory),
    )
}

/// An acceptance that takes nothing. Where the text cannot be read it is not
/// known what it would take, so nothing is said.
fn idle(context: &Context<'_>, accept: &Accept, findings: &[Arc<Finding>]) -> Option<Finding> {
    // What a library accepts is found in the jobs that use it.
    let is_for_jobs = accept.inside_section && context.job.kind == FileKind::Library;
    if is_for_jobs || context.is_any_misread() {
        return None;
    }
    let name = accept.rule.value.as_str();
    let taken = findings
        .iter()
        .any(|finding| finding.accepted.is_some() && is_meant(accept, finding));
    if let Some(elsewhere) = of_the_job(context, accept, findings).filter(|_| !taken) {
        // To take it out is to lose its reason.
        let message = format!(
            "{name} comes from the whole job and not from this section, so this accepts nothing: move it to where it comes from, or to the margin"
        );
        let finding = ACCEPT_IDLE.finding(accept.place, message);
        return Some(finding.related(elsewhere, "it comes from here"));
    }
    let message = match (taken, accept.inside_section) {
        (true, _) => format!("{name} is accepted here already: remove this one"),
        (false, true) => {
            format!("no {name} comes from this section, so this accepts nothing: remove it")
        }
        (false, false) => format!("nothing here breaks {name}, so this accepts nothing: remove it"),
    };
    // Somebody agreed to it: it is never taken out unseen.
    let finding = ACCEPT_IDLE.finding(accept.place, message);
    Some(finding.fix(Fix::judged("Remove the acceptance", accept.place, "")))
}

/// Where a finding stands that an acceptance in a section most likely means and
/// does not reach: in a section of which a job has only one.
fn of_the_job(context: &Context<'_>, accept: &Accept, findings: &[Arc<Finding>]) -> Option<Place> {
    let job = context.job;
    let own = accept.place.section;
    let wholes = [
        job.site.place,
        job.heading.place,
        job.work.as_ref().map(|work| work.place),
        job.budget.as_ref().map(|budget| budget.place),
    ];
    let is_whole = |place: Place| {
        wholes
            .iter()
            .flatten()
            .any(|own| own.section == place.section)
    };
    let mut all = findings.iter().filter(|finding| {
        finding.accepted.is_none()
            && finding.rule == accept.rule.value
            && finding.place.section != own
            && is_whole(finding.place)
    });
    let found = all.next().filter(|_| accept.inside_section)?;
    Some(found.place)
}

/// An acceptance at the margin that takes what lies in several sections.
fn too_wide(accept: &Accept, within: &[usize], findings: &[Arc<Finding>]) -> Option<Finding> {
    if accept.inside_section {
        return None;
    }
    let taken = within.iter().filter_map(|index| findings.get(*index));
    let mut said: Vec<(Place, &str)> = taken
        .map(|finding| (finding.place, &*finding.message))
        .collect();
    said.dedup();
    let places: Vec<Place> = said.into_iter().map(|(place, _)| place).collect();
    let first = places.first()?;
    let other = places.iter().find(|place| place.section != first.section)?;
    let message = format!(
        "this accepts {} findings of {} in more than one section: write it into each section that it is meant for",
        places.len(),
        accept.rule.value
    );
    Some(
        ACCEPT_WIDE
            .finding(accept.place, message)
            .related(*first, "it accepts this")
            .related(*other, "and this"),
    )
}

/// Says on a finding beyond the accepted figure how far it is accepted.
fn stop_short(context: &Context<'_>, accept: &Accept, findings: &mut [Arc<Finding>], index: usize) {
    let Some(finding) = findings.get_mut(index) else {
        return;
    };
    if let Some(figure) = &accept.figure {
        Arc::make_mut(finding)
            .related
            .push(crate::findings::Related {
                place: accept.place,
                message: format!("accepted only as far as {}", context.show(&figure.value)).into(),
            });
    }
}

fn acceptance(accept: &Accept) -> Acceptance {
    Acceptance {
        reason: accept.reason.clone().unwrap_or_default(),
        by: accept.by.clone(),
        until: accept.until.clone(),
        place: accept.place,
    }
}

#[cfg(test)]
mod tests {
    use std::sync::Arc;

    use super::*;
    use crate::findings::{FileId, SectionRef};
    use crate::model::{Job, Standard, Stated};
    use crate::quantities::Figures;
    use crate::rules::Limits;
    use crate::syntax::SectionId;
    use crate::text::Span;

    const TODAY: &str = "2027-04-12";

    fn place(section: u32) -> Place {
        Place {
            section: SectionRef {
                file: FileId(0),
                section: SectionId(section),
            },
            span: Span::new(0, 4),
        }
    }

    /// An acceptance in section 1, or at the margin in a section of its own.
    fn accept(rule: &str, inside_section: bool) -> Accept {
        let place = place(if inside_section { 1 } else { 9 });
        Accept {
            rule: Stated::new(rule.to_owned(), place),
            figure: None,
            reason: Some("it drains to gravel".to_owned()),
            by: None,
            until: None,
            place,
            inside_section,
        }
    }

    fn until(day: &str) -> Accept {
        Accept {
            until: Some(day.to_owned()),
            ..accept("fall-flat", true)
        }
    }

    fn as_far_as(figure: &str) -> Accept {
        Accept {
            figure: literal(figure).map(|figure| Stated::new(figure, place(1))),
            ..accept("fall-flat", true)
        }
    }

    /// A fall of 1:75 in a section.
    fn flat(section: u32) -> Finding {
        Finding::new("fall-flat", place(section), "too flat")
            .severity(Severity::Warning)
            .found("1:75", literal("1:75"))
    }

    /// How many findings were taken, and what is said of the acceptances.
    fn outcome(
        accepts: Vec<Accept>,
        found: Vec<Finding>,
        standards: Vec<Standard>,
    ) -> (usize, String) {
        let job = Job {
            kind: FileKind::Spec,
            accepts,
            ..Job::default()
        };
        let limits = Limits {
            standards: standards.into_iter().map(Arc::new).collect(),
        };
        let figures = Figures::default();
        let context = Context::new(&job, &figures, &limits);
        let found = JobFindings {
            own: found.into_iter().map(Arc::new).collect(),
            elsewhere: Vec::new(),
        };
        let all = accepted(&context, &found, TODAY);
        let taken = all
            .iter()
            .filter(|finding| finding.accepted.is_some())
            .count();
        let said = all.iter().filter(|finding| finding.rule != "fall-flat");
        let said = said.map(|said| format!("{} {}", said.rule, said.severity.unwrap()));
        (taken, said.collect::<Vec<_>>().join(", "))
    }

    #[test]
    fn an_acceptance_takes_what_it_is_for() {
        let wide = || accept("fall-flat", false);
        let near = || accept("fall-flat", true);
        let unsaid = Accept {
            reason: None,
            ..near()
        };
        for (accepts, found, taken, said) in [
            (vec![near()], vec![flat(1)], 1, ""),
            (vec![near()], vec![flat(2)], 0, "accept-idle advisory"),
            (vec![wide()], vec![flat(1)], 1, ""),
            (
                vec![wide()],
                vec![flat(1), flat(2)],
                2,
                "accept-wide advisory",
            ),
            (vec![wide()], vec![], 0, "accept-idle advisory"),
            (
                vec![wide(), near()],
                vec![flat(1)],
                1,
                "accept-idle advisory",
            ),
            (vec![wide(), near()], vec![flat(1), flat(2)], 2, ""),
            (vec![unsaid], vec![flat(1)], 0, "accept-reasonless error"),
            (
                vec![accept("fall-flt", true)],
                vec![flat(1)],
                0,
                "limit-unknown error",
            ),
            (
                vec![accept("kerb-low", true)],
                vec![flat(1)],
                0,
                "limit-unknown error",
            ),
        ] {
            assert_eq!(outcome(accepts, found, vec![]), (taken, said.to_owned()));
        }
    }

    #[test]
    fn what_was_computed_from_a_section_may_be_accepted_in_it() {
        let mut elsewhere = flat(2);
        elsewhere.computed_from = vec![place(1).section];
        let accepts = vec![accept("fall-flat", true)];
        assert_eq!(
            outcome(accepts, vec![elsewhere], vec![]),
            (1, String::new())
        );
    }

    #[test]
    fn an_acceptance_holds_as_far_as_its_figure() {
        for (figure, taken, said) in [
            ("1:100", 1, ""),
            ("1:75", 1, ""),
            ("1:74", 0, ""),
            ("75 mm", 0, "limit-unknown error"),
        ] {
            let found = outcome(vec![as_far_as(figure)], vec![flat(1)], vec![]);
            assert_eq!(found, (taken, said.to_owned()), "{figure}");
        }
    }

    #[test]
    fn an_acceptance_runs_out() {
        for (day, found, taken, said) in [
            ("2027-04-11", vec![flat(1)], 0, "accept-expired warning"),
            ("2027-04-12", vec![flat(1)], 1, "accept-expired advisory"),
            ("2027-05-12", vec![flat(1)], 1, "accept-expired advisory"),
            ("2027-05-13", vec![flat(1)], 1, ""),
            ("2027-04-11", vec![], 0, "accept-idle advisory"),
        ] {
            let outcome = outcome(vec![until(day)], found, vec![]);
            assert_eq!(outcome, (taken, said.to_owned()), "{day}");
        }
    }

    #[test]
    fn soon_is_within_thirty_days() {
        for (until, soon) in [
            ("2027-04-11", false),
            ("2027-04-12", true),
            ("2027-05-12", true),
            ("2027-05-13", false),
            ("2027-02-30", false),
        ] {
            assert_eq!(runs_out_soon_after(until, TODAY), soon, "{until}");
        }
    }

    #[test]
    fn what_is_held_firm_is_not_accepted() {
        let firm = Standard {
            firm: vec![Stated::new("fall-flat".to_owned(), place(0))],
            ..Standard::default()
        };
        let accepts = vec![accept("fall-flat", true)];
        let wanted = (0, "accept-firm error".to_owned());
        assert_eq!(outcome(accepts, vec![flat(1)], vec![firm]), wanted);
    }
}
