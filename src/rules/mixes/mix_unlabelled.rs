//! `mix-unlabelled`: parts of which nothing says what they are.

use crate::findings::{Fix, Severity};
use crate::model::{Mix, MixUse};
use crate::rules::{Check, Context, Family, Found, Rule};
use crate::sources::Source;
use crate::units::Quantity;

/// Parts of which nothing says what they are.
pub(crate) static MIX_UNLABELLED: Rule = Rule {
    name: "mix-unlabelled",
    family: Family::Mixes,
    severity: Severity::Error,
    looks_at: "Parts of a mix written as bare numbers, 1:4 or 1:1:6.",
    reason: "One trade means cement, lime, sand and the next cement, sand, stone. Nothing can be ordered from bare numbers either.",
    remedy: "Name each part: 1 portland-cement : 4 sharp-sand.",
    limits: &[],
    sources: &[Source::COMMON_PRACTICE],
    breaks: "mix bed-mix
  parts        «1:4»
",
    keeps: "mix bed-mix
  parts        1 portland-cement : 4 sharp-sand
",
    mended: Some(
        "mix bed-mix
  parts        1 portland-cement : 4 sharp-sand
",
    ),
    check: Check::Mix(check),
};

fn check(context: &Context<'_>, mix: &Mix, found: &mut Found) {
    let Some(unlabelled) = &mix.unlabelled else {
        return;
    };
    let amounts: Vec<String> = unlabelled
        .value
        .iter()
        .map(|amount| shown(amount, context))
        .collect();
    let message = format!(
        "the parts {} are not named: write 1 portland-cement : 4 sharp-sand",
        amounts.join(":")
    );
    let finding = MIX_UNLABELLED.finding(unlabelled.place, message);
    let readings = readings(mix, amounts.len());
    // `4:1` is sand before cement: the binder is the least of two.
    let first = unlabelled.value.first().zip(unlabelled.value.last());
    let is_turned = amounts.len() == 2 && first.is_some_and(|(first, last)| first.si() > last.si());
    found.add(readings.iter().fold(finding, |finding, names| {
        let names: Vec<&str> = match is_turned {
            true => names.iter().rev().copied().collect(),
            false => names.to_vec(),
        };
        let parts: Vec<String> = amounts
            .iter()
            .zip(names)
            .map(|(amount, name)| format!("{amount} {name}"))
            .collect();
        let text = parts.join(" : ");
        finding.fix(Fix::judged(
            format!("Read it as {text}"),
            unlabelled.place,
            text,
        ))
    }));
}

fn shown(amount: &Quantity, context: &Context<'_>) -> String {
    context.show(amount)
}

/// What so many bare parts are commonly meant to be, the likeliest first.
fn readings(mix: &Mix, count: usize) -> &'static [&'static [&'static str]] {
    match (count, mix.is_for(MixUse::Slab)) {
        (2, _) => &[&["portland-cement", "sharp-sand"]],
        (3, true) => &[&["portland-cement", "sharp-sand", "gravel"]],
        (3, false) => &[
            &["portland-cement", "hydrated-lime", "sharp-sand"],
            &["portland-cement", "sharp-sand", "gravel"],
        ],
        _ => &[],
    }
}
