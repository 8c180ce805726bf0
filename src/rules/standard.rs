//! Checking a practice's standard against the rules that there are.

use std::sync::Arc;

use super::acceptance::{ACCEPT_FIRM, ACCEPT_REASONLESS, LIMIT_UNKNOWN};
use super::{Bound, InForce, Limit, Limits, Rule, families, weight};
use crate::findings::{Finding, Fix, Place, Severity};
use crate::model::{Region, SetLimit, SetSeverity, Standard, Stated, literal, nearest};
use crate::units::{Kind, Quantity, System, show};

/// What is wrong with a standard: rules, rows and limits that do not exist,
/// values of another kind, and easing without a reason or of what the
/// standard itself or one further out holds firm.
pub fn check_standard<'a>(
    standard: &'a Standard,
    further_out: impl IntoIterator<Item = &'a Standard>,
) -> Vec<Finding> {
    let mut found = Vec::new();
    for set in &standard.limits {
        found.extend(check_limit(set));
    }
    found.extend(set_twice(standard));
    let eased = standard.severities.iter();
    let names = eased
        .map(|set| &set.rule)
        .chain(standard.off.iter().map(|(rule, _)| rule))
        .chain(&standard.firm);
    found.extend(
        names
            .filter(|name| families::find(&name.value).is_none())
            .map(unknown_rule),
    );
    found.extend(standard.severities.iter().filter_map(without_effect));
    for set in standard.severities.iter().filter(|set| set.eases) {
        if !weight::is_given(set.reason.as_deref()) {
            found.push(reasonless(set.place, &set.rule.value, "eased"));
        }
    }
    for (rule, reason) in &standard.off {
        if !weight::is_given(reason.as_deref()) {
            found.push(reasonless(rule.place, &rule.value, "switched off"));
        }
        let own = standard.firm.iter().find(|firm| firm.value == rule.value);
        if let Some(firm) = own {
            let message = format!(
                "{} is switched off and held firm at once: keep one of the two",
                rule.value
            );
            let finding = ACCEPT_FIRM.finding(rule.place, message);
            found.push(finding.related(firm.place, "held firm here"));
        }
    }
    let outer: Vec<&Standard> = further_out.into_iter().collect();
    for outer in &outer {
        found.extend(against_firm(standard, outer));
    }
    found.extend(kinder_than_firm(standard, &outer));
    found
}

/// A `raise` to the least severity or an `ease` to the gravest: no finding is
/// changed by it, whatever its own severity.
fn without_effect(set: &SetSeverity) -> Option<Finding> {
    let name = &set.rule.value;
    let message = match (set.eases, set.severity) {
        (false, Severity::Advisory) => format!(
            "nothing is less than an advisory, so this raises nothing: write `ease {name} to advisory, because` and why"
        ),
        (true, Severity::Error) => format!(
            "nothing is more than an error, so this eases nothing: write `raise {name} to error`"
        ),
        _ => return None,
    };
    Some(LIMIT_UNKNOWN.finding(set.place, message))
}

/// Limits, severities and rules off that the same standard has set before.
fn set_twice(standard: &Standard) -> Vec<Finding> {
    let mut found = Vec::new();
    for (index, set) in standard.limits.iter().enumerate() {
        let row =
            |set: &SetLimit| families::find(&set.rule.value).and_then(|rule| row_of(rule, set));
        let earlier = standard.limits.iter().take(index).find(|other| {
            other.rule.value == set.rule.value
                && other.region == set.region
                && row(set).is_some()
                && row(other) == row(set)
        });
        if let Some(earlier) = earlier {
            let message = "this limit is set above already, and only this line holds: keep one";
            found.push(
                Finding::new("entry-twice", set.place, message)
                    .related(earlier.place, "set here too"),
            );
        }
    }
    let severities = standard.severities.iter();
    let off = standard.off.iter().map(|(rule, _)| (rule, rule.place));
    let weighed: Vec<(&Stated<String>, Place)> = severities
        .map(|set| (&set.rule, set.place))
        .chain(off)
        .collect();
    for (index, (rule, place)) in weighed.iter().enumerate() {
        let mut earlier = weighed.iter().take(index);
        if let Some((_, other)) = earlier.find(|(other, _)| other.value == rule.value) {
            let message = format!(
                "the severity of {} is set twice: keep one of the two lines",
                rule.value
            );
            found
                .push(Finding::new("entry-twice", *place, message).related(*other, "set here too"));
        }
    }
    found
}

/// Limits that are kinder than those of a rule that a standard further out
/// holds firm, and so are not heard.
fn kinder_than_firm(standard: &Standard, outer: &[&Standard]) -> Vec<Finding> {
    let limits = Limits {
        standards: outer
            .iter()
            .map(|outer| Arc::new((*outer).clone()))
            .collect(),
    };
    let kinder = |set: &SetLimit| {
        let (place, firm) = limits.firm(&set.rule.value)?;
        let rule = families::find(&set.rule.value)?;
        let row = row_of(rule, set)?;
        let regions = match &set.region {
            Some(region) => std::slice::from_ref(region),
            None => Region::ALL,
        };
        let figure = set.value.value;
        let is_like = |held: &InForce| figure.compare(held.value).is_ok();
        let held = |row: &'static str| {
            let in_regions = regions.iter();
            let held = in_regions
                .filter_map(|region| Some((*region, limits.in_force(rule, row, *region)?)));
            held.filter(|(_, held)| is_like(held)).collect::<Vec<_>>()
        };
        let own = held(row);
        let (dropped, kept): (Vec<_>, Vec<_>) =
            own.iter().partition(|(_, held)| !held.allows(&figure));
        let (_, last) = dropped.last()?;
        // What is as strict as the firm limit changes nothing there.
        let counts = |held: &InForce| held.allows(&figure) && !is_same_figure(held, &figure);
        let others = rule.limits.iter().filter(|limit| {
            let is_for_all = set.row.is_none() && limit.bound == Bound::Least;
            is_for_all && limit.row != row
        });
        let counts_somewhere = kept.iter().any(|(_, held)| counts(held))
            || others
                .flat_map(|limit| held(limit.row))
                .any(|(_, held)| counts(&held));
        let (title, name) = (firm.title_in_words(), rule.name);
        let finding = match counts_somewhere {
            false => ACCEPT_FIRM.finding(
                set.place,
                format!(
                    "{title} holds {name} firm, so this more lenient limit does not count beside {}: remove the line",
                    last.shown(System::Metric)
                ),
            ),
            true => ACCEPT_FIRM
                .finding(
                    set.place,
                    format!(
                        "{title} holds {name} firm, so this counts only where it is stricter, and not for {row}, held at {}: name the row and the region that it is for",
                        last.shown(System::Metric)
                    ),
                )
                .severity(Severity::Advisory),
        };
        Some(finding.related(place, "held firm here"))
    };
    standard.limits.iter().filter_map(kinder).collect()
}

/// Whether a limit in force is this figure.
fn is_same_figure(held: &InForce, figure: &Quantity) -> bool {
    held.value.compare(*figure).ok() == Some(std::cmp::Ordering::Equal)
}

/// The row of a rule that a line sets; `None` if there is no such row.
fn row_of(rule: &'static Rule, set: &SetLimit) -> Option<&'static str> {
    Some(rule.limit(rule.row_meant(set.row.as_ref()))?.row)
}

/// What a standard eases or switches off though one further out holds it firm.
fn against_firm(standard: &Standard, outer: &Standard) -> Vec<Finding> {
    let eased = standard.severities.iter().filter(|set| set.eases);
    let loosened = eased
        .map(|set| (&set.rule, "eased"))
        .chain(standard.off.iter().map(|(rule, _)| (rule, "switched off")));
    loosened
        .filter_map(|(rule, how)| {
            let firm = outer.firm.iter().find(|firm| firm.value == rule.value)?;
            let message = format!(
                "{} holds {} firm, so it cannot be {how} here: remove the line",
                outer.title_in_words(),
                rule.value
            );
            let finding = ACCEPT_FIRM.finding(rule.place, message);
            Some(finding.related(firm.place, "held firm here"))
        })
        .collect()
}

fn check_limit(set: &SetLimit) -> Option<Finding> {
    let Some(rule) = families::find(&set.rule.value) else {
        return Some(unknown_rule(&set.rule));
    };
    let Some(limit) = rule.limit(rule.row_meant(set.row.as_ref())) else {
        return Some(unknown_row(rule, &set.rule, set.row.as_ref()));
    };
    let usual = limit
        .general
        .written
        .first()
        .and_then(|text| literal(text))?;
    if set.value.value.compare(usual).is_err() {
        return Some(wrong_dimension(rule, &set.value, &usual));
    }
    if is_bare(&set.value.value, &usual) {
        return Some(bare_figure(rule, &set.value));
    }
    missed_rows(rule, limit, set)
}

/// That a most which is set without a row is for one row only, and that others
/// allow more: what they are for differs, so nobody but the writer knows
/// whether they were meant.
fn missed_rows(rule: &Rule, meant: &Limit, set: &SetLimit) -> Option<Finding> {
    if set.row.is_some() || meant.bound != Bound::Most {
        return None;
    }
    let region = set.region.unwrap_or_default();
    let allows_more = |limit: &&Limit| {
        let written = limit.value(region).written.first();
        let compared = written
            .and_then(|text| literal(text))
            .and_then(|usual| usual.compare(set.value.value).ok());
        limit.row != meant.row
            && limit.bound == Bound::Most
            && compared == Some(std::cmp::Ordering::Greater)
    };
    let rows: Vec<&str> = rule
        .limits
        .iter()
        .filter(allows_more)
        .map(|limit| limit.row)
        .collect();
    let (name, own, rows) = (rule.name, meant.row, (!rows.is_empty()).then_some(rows)?);
    let message = format!(
        "this sets the row {own} of {name} only; {} still allows more: name each row that you mean",
        rows.join(", ")
    );
    let finding = LIMIT_UNKNOWN
        .finding(set.rule.place, message)
        .severity(Severity::Advisory);
    Some(finding.fix(Fix::judged(
        format!("Name the row {own}"),
        set.rule.place.end(),
        format!(" {own}"),
    )))
}

pub(super) fn unknown_row(
    rule: &Rule,
    named: &Stated<String>,
    row: Option<&Stated<String>>,
) -> Finding {
    let rows: Vec<&str> = rule.limits.iter().map(|limit| limit.row).collect();
    let (name, listed) = (rule.name, rows.join(", "));
    match row {
        _ if rows.is_empty() => {
            let message = format!("{name} has no limit to set: remove the line");
            LIMIT_UNKNOWN.finding(named.place, message)
        }
        None => {
            let message = format!("{name} has a limit for each row: name one of {listed}");
            LIMIT_UNKNOWN.finding(named.place, message)
        }
        Some(row) => {
            let message = format!("{name} has no row {}: its rows are {listed}", row.value);
            let finding = LIMIT_UNKNOWN.finding(row.place, message);
            with_meant(finding, row, rows.into_iter())
        }
    }
}

/// A rule's name that is none.
pub(super) fn unknown_rule(named: &Stated<String>) -> Finding {
    let finding = LIMIT_UNKNOWN.finding(named.place, format!("there is no rule {}", named.value));
    with_meant(finding, named, families::all().map(|rule| rule.name))
}

/// The finding with the name that was most likely meant.
fn with_meant<'a>(
    mut finding: Finding,
    named: &Stated<String>,
    names: impl Iterator<Item = &'a str>,
) -> Finding {
    match nearest(&named.value, names) {
        Some(meant) => {
            finding.message = format!("{}: did you mean {meant}?", finding.message).into();
            finding.fix(Fix::judged(format!("Write {meant}"), named.place, meant))
        }
        None => finding,
    }
}

/// A figure that measures something other than a rule's limit does.
pub(super) fn wrong_dimension(rule: &Rule, figure: &Stated<Quantity>, limit: &Quantity) -> Finding {
    let message = format!(
        "this is {}, and the limit of {} is {}: write it as such",
        in_words(&figure.value),
        rule.name,
        in_words(limit)
    );
    LIMIT_UNKNOWN.finding(figure.place, message)
}

/// Whether a figure is a bare number where a limit is a slope or a share: 70
/// may be meant for 1 in 70, or for 70 %.
pub(super) fn is_bare(figure: &Quantity, limit: &Quantity) -> bool {
    limit.kind == Kind::Proportion && limit.dimension.is_none() && figure.kind == Kind::Plain
}

fn bare_figure(rule: &Rule, figure: &Stated<Quantity>) -> Finding {
    let number = show::number(figure.value.si());
    let ratio = (figure.value.si() >= 10.0).then(|| format!("1:{number}"));
    let readings = ratio.into_iter().chain([format!("{number} %")]);
    let message = format!(
        "a bare {number} is no limit of {}: write it in per cent, or as a ratio such as `1:60`",
        rule.name
    );
    let finding = LIMIT_UNKNOWN.finding(figure.place, message);
    readings.fold(finding, |finding, text| {
        finding.fix(Fix::judged(format!("Write `{text}`"), figure.place, text))
    })
}

/// What a quantity measures, in words.
pub(super) fn in_words(quantity: &Quantity) -> String {
    match quantity.kind {
        Kind::Proportion if quantity.dimension.is_none() => "a slope or a share".to_owned(),
        _ => quantity.dimension.to_string(),
    }
}

fn reasonless(place: Place, rule: &str, how: &str) -> Finding {
    let message = format!("this gives no reason, so {rule} is not {how}: add because \"…\"");
    ACCEPT_REASONLESS.finding(place, message)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::findings::{FileId, SectionRef, Severity};
    use crate::model::SetSeverity;
    use crate::syntax::SectionId;
    use crate::text::Span;

    const PLACE: Place = Place {
        section: SectionRef {
            file: FileId(1),
            section: SectionId(0),
        },
        span: Span::new(0, 4),
    };

    fn named(name: &str) -> Stated<String> {
        Stated::new(name.to_owned(), PLACE)
    }

    fn limit(rule: &str, row: Option<&str>, value: &str) -> Standard {
        Standard {
            limits: vec![SetLimit {
                rule: named(rule),
                row: row.map(named),
                value: Stated::new(literal(value).unwrap(), PLACE),
                region: None,
                place: PLACE,
            }],
            ..Standard::default()
        }
    }

    fn ease(reason: Option<&str>) -> Standard {
        Standard {
            severities: vec![SetSeverity {
                rule: named("fall-flat"),
                severity: Severity::Advisory,
                eases: true,
                reason: reason.map(str::to_owned),
                place: PLACE,
            }],
            ..Standard::default()
        }
    }

    fn said(standard: &Standard, outer: &[Standard]) -> String {
        let found = check_standard(standard, outer);
        let messages = found
            .into_iter()
            .map(|found| format!("{}: {}", found.rule, found.message));
        messages.collect::<Vec<_>>().join("\n")
    }

    #[test]
    fn limits_must_exist_and_measure_the_same() {
        for (standard, wanted) in [
            (limit("fall-flat", None, "1:60"), ""),
            (limit("fall-flat", Some("pavers"), "2 %"), ""),
            (
                limit("fall-flt", None, "1:60"),
                "limit-unknown: there is no rule fall-flt: did you mean fall-flat?",
            ),
            (
                limit("fall-flat", Some("paver"), "1:60"),
                "limit-unknown: fall-flat has no row paver: its rows are plain, drive, walk, building, pavers, brick, rough: did you mean pavers?",
            ),
            (
                limit("fall-flat", None, "60 mm"),
                "limit-unknown: this is a length, and the limit of fall-flat is a slope or a share: write it as such",
            ),
            (
                limit("fall-flat", None, "70"),
                "limit-unknown: a bare 70 is no limit of fall-flat: write it in per cent, or as a ratio such as `1:60`",
            ),
            (
                limit("fall-missing", None, "1:60"),
                "limit-unknown: fall-missing has no limit to set: remove the line",
            ),
        ] {
            assert_eq!(said(&standard, &[]), wanted);
        }
    }

    #[test]
    fn easing_wants_a_reason_and_a_rule_that_is_not_firm() {
        let firm = Standard {
            firm: vec![named("fall-flat")],
            ..Standard::default()
        };
        assert_eq!(said(&ease(Some("gardens drain")), &[]), "");
        assert!(said(&ease(None), &[]).starts_with("accept-reasonless"));
        assert!(said(&ease(Some("gardens drain")), &[firm]).starts_with("accept-firm"));
    }

    #[test]
    fn a_severity_that_changes_nothing_is_told() {
        let set = |eases, severity| Standard {
            severities: vec![SetSeverity {
                eases,
                severity,
                ..ease(Some("gardens drain")).severities.remove(0)
            }],
            ..Standard::default()
        };
        for (eases, severity, wanted) in [
            (
                false,
                Severity::Advisory,
                "raises nothing: write `ease fall-flat to advisory",
            ),
            (false, Severity::Warning, ""),
            (false, Severity::Error, ""),
            (true, Severity::Advisory, ""),
            (true, Severity::Warning, ""),
            (
                true,
                Severity::Error,
                "eases nothing: write `raise fall-flat to error`",
            ),
        ] {
            let said = said(&set(eases, severity), &[]);
            assert!(
                said.contains(wanted) && said.is_empty() == wanted.is_empty(),
                "{said}"
            );
        }
    }

    #[test]
    fn what_is_set_twice_is_told() {
        let both = |one: Standard, other: Standard| Standard {
            limits: [one.limits, other.limits].concat(),
            severities: [one.severities, other.severities].concat(),
            off: [one.off, other.off].concat(),
            ..Standard::default()
        };
        let plain = |value| limit("fall-flat", None, value);
        let of_uk = || {
            let mut standard = plain("1:60");
            standard
                .limits
                .iter_mut()
                .for_each(|set| set.region = Some(Region::Uk));
            standard
        };
        let off = || Standard {
            off: vec![(named("fall-flat"), Some("gardens drain".to_owned()))],
            ..Standard::default()
        };
        for (standard, is_told) in [
            (plain("1:60"), false),
            (both(plain("1:60"), plain("1:70")), true),
            (
                both(plain("1:60"), limit("fall-flat", Some("plain"), "1:70")),
                true,
            ),
            (
                both(plain("1:60"), limit("fall-flat", Some("brick"), "1:70")),
                false,
            ),
            (both(plain("1:60"), of_uk()), false),
            (both(of_uk(), of_uk()), true),
            (both(ease(Some("gardens drain")), off()), true),
            (both(plain("1:60"), off()), false),
        ] {
            let reported = said(&standard, &[]);
            assert_eq!(reported.starts_with("entry-twice: "), is_told, "{reported}");
        }
    }

    #[test]
    fn a_limit_kinder_than_one_that_is_firm_is_told() {
        let firm = |value: &str| Standard {
            firm: vec![named("fall-flat")],
            ..limit("fall-flat", None, value)
        };
        for (value, outer, is_told) in [
            ("1:80", firm("1:60"), true),
            ("1:60", firm("1:60"), false),
            ("1:50", firm("1:60"), false),
            ("1:80", limit("fall-flat", None, "1:60"), false),
            // What is not set further out is the built-in limit.
            (
                "1:200",
                Standard {
                    limits: vec![],
                    ..firm("1:60")
                },
                true,
            ),
            // It is dropped in some regions and for some rows, and counts for
            // others: that is told too.
            (
                "1:90",
                Standard {
                    limits: vec![],
                    ..firm("1:60")
                },
                true,
            ),
            ("60 mm", firm("1:60"), false),
        ] {
            let reported = said(&limit("fall-flat", None, value), &[outer]);
            assert_eq!(
                reported.contains("accept-firm: "),
                is_told,
                "{value}: {reported}"
            );
        }
    }

    #[test]
    fn a_limit_without_a_row_is_for_the_plain_or_the_first() {
        for (rule, row, meant) in [
            ("fall-flat", None, "plain"),
            ("fall-flat", Some("brick"), "brick"),
            ("base-thin", None, "foot"),
            ("base-thin", Some("clay"), "clay"),
        ] {
            let standard = limit(rule, row, "6 in");
            let rule = families::find(rule).unwrap();
            let set = standard.limits.first().unwrap();
            assert_eq!(
                rule.row_meant(set.row.as_ref()),
                meant,
                "{} {row:?}",
                rule.name
            );
        }
    }
}
