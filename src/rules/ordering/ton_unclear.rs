//! `ton-unclear`: `ton` or `gal` where they are not the local measures.

use crate::findings::{Change, Fix, Severity};
use crate::model::Region;
use crate::rules::{Check, Context, Family, Found, Rule};
use crate::sources::Source;
use crate::units::System;

/// `ton` or `gal` where they are not the local measures.
pub(crate) static TON_UNCLEAR: Rule = Rule {
    name: "ton-unclear",
    family: Family::Ordering,
    severity: Severity::Warning,
    looks_at: "`ton` and `gal` in a British or Australian job, or a metric one. They are read as the US ton of 2,000 lb and the US gallon of 231 cu in.",
    reason: "The US ton is a tenth under a tonne, the US gallon a sixth under the British one: the supplier then sends another amount.",
    remedy: "Write t for tonnes and L for litres, or make it a US job.",
    limits: &[],
    sources: &[Source::memory(
        "NIST Handbook 44",
        "Appendix C, short ton, long ton, tonne and gallon",
    )],
    breaks: "material crushed-stone
  sold         by «ton»
",
    keeps: "material crushed-stone
  sold         by t
",
    mended: Some(
        "material crushed-stone
  sold         by t
",
    ),
    check: Check::Job(check),
};

fn check(context: &Context<'_>, found: &mut Found) {
    let is_abroad = matches!(context.region(), Region::Uk | Region::Au);
    if !is_abroad && context.system() != System::Metric {
        return;
    }
    // Where something is called by a unit's name, that comes first.
    let is_taken_for_a_name = context
        .job
        .findings
        .iter()
        .any(|finding| finding.rule == "name-reserved");
    for written in &context.job.written_tons {
        let (read_as, likely, other) = if written.value == "gal" {
            ("US gallon of 231 cu in", "L", "litres")
        } else {
            ("US ton of 2,000 lb", "t", "tonnes of 1,000 kg")
        };
        let message = format!(
            "{} is read as the {read_as}: write {likely} if {other} are meant",
            written.value
        );
        let mut finding = TON_UNCLEAR.finding(written.place, message);
        if is_taken_for_a_name {
            found.add(finding);
            continue;
        }
        finding = finding.fix(Fix::judged(
            format!("Write {likely}, for {other}"),
            written.place,
            likely,
        ));
        if let Some(fix) = american(context, read_as) {
            finding = finding.fix(fix);
        }
        found.add(finding);
    }
}

/// Keeps the measure and makes the job one that uses it: by its region, its
/// units or both, where it states them.
fn american(context: &Context<'_>, read_as: &str) -> Option<Fix> {
    let heading = &context.job.heading;
    let (mut stated, mut changes) = (Vec::new(), Vec::new());
    if matches!(context.region(), Region::Uk | Region::Au) {
        let place = heading.region.as_ref()?.place;
        stated.push("region us");
        changes.push(Change {
            place,
            text: "us".into(),
        });
    }
    if context.system() == System::Metric {
        let place = heading.units.as_ref()?.place;
        stated.push("units imperial");
        changes.push(Change {
            place,
            text: "imperial".into(),
        });
    }
    Some(Fix {
        title: format!("Keep the {read_as} and state {}", stated.join(" and ")).into(),
        safe: false,
        changes,
    })
}
