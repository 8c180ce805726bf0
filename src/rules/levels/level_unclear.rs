//! `level-unclear`: a level of which it is not plain whether it lies above or
//! below the datum.

use super::{SAME_LEVEL, floor_m, is_garage_drive};
use crate::findings::{Finding, Fix, Severity};
use crate::model::Stated;
use crate::rules::wording::{as_written, has_word};
use crate::rules::{Check, Context, Family, Found, Rule};
use crate::sources::Source;
use crate::units::{Dimension, Quantity};

/// A level that may lack its minus, or has one too many.
pub(crate) static LEVEL_UNCLEAR: Rule = Rule {
    name: "level-unclear",
    family: Family::Levels,
    severity: Severity::Error,
    looks_at: "The ground, the damp course, vents and weep holes, where they are stated above the floor; a floor below a damp course that is the datum; and a negative level below datum, anywhere.",
    reason: "A minus forgotten turns a cut into a fill: the dig comes out three times too large, or not at all.",
    remedy: "Write a level below the datum with a minus, or for paving as below datum.",
    limits: &[],
    sources: &[Source::computed("the levels of the spec itself")],
    breaks: "\
site
  ground       «200 mm»
",
    keeps: "\
site
  ground       -200 mm
",
    mended: Some(
        "\
site
  ground       -200 mm
",
    ),
    check: Check::Job(check),
};

fn check(context: &Context<'_>, found: &mut Found) {
    let site = &context.job.site;
    let Some(floor) = floor_m(site) else {
        return;
    };
    // Ground stands against the walls of a cellar.
    let datum = site.datum.as_ref().map_or("", |datum| datum.value.as_str());
    if has_word(datum, &["basement", "cellar", "lower"]) {
        return;
    }
    let one = |level: &'_ Option<Stated<Quantity>>| level.clone().into_iter().collect::<Vec<_>>();
    let ground = site.ground.as_ref().map(|ground| ground.levels.clone());
    // That of a garage lies above its floor.
    let mut surfaces = context.job.surfaces.iter();
    let is_of_garage = surfaces.any(|own| is_garage_drive(site, own));
    let damp_course = match is_of_garage {
        true => Vec::new(),
        false => one(&site.damp_course),
    };
    let all = [
        ("the ground lies", ground.unwrap_or_default()),
        ("the damp course lies", damp_course),
        ("the vents lie", one(&site.vents)),
        ("the weep holes lie", one(&site.weep_holes)),
    ];
    if !is_of_garage {
        found.findings.extend(floor_below(context));
    }
    for (what, levels) in all {
        // Ground that is stated above and below the floor slopes through it.
        let is_above = |level: &Stated<Quantity>| level.value.si() > floor.max(0.0) + SAME_LEVEL;
        let Some(first) = levels.first().filter(|_| levels.iter().all(is_above)) else {
            continue;
        };
        let above = first.value.si() - floor;
        let shown = context.show_length(above);
        let message = format!("{what} {shown} above the floor. Is a minus missing?");
        let mut finding = LEVEL_UNCLEAR
            .finding(first.place, message)
            .severity(Severity::Warning)
            .found(shown, Quantity::near(above, Dimension::LENGTH));
        if let Some(floor) = &site.floor {
            finding = finding.related(floor.place, "the floor, as stated here");
        }
        let mirrored = first.value.negated().ok();
        let text = mirrored.and_then(|mirrored| as_written(&mirrored, context));
        if let (Some(text), [_]) = (text, levels.as_slice()) {
            finding = finding.fix(Fix::judged(format!("Write {text}"), first.place, text));
        }
        found.add(finding);
    }
}

/// A floor below a damp course that is the datum.
fn floor_below(context: &Context<'_>) -> Option<Finding> {
    let site = &context.job.site;
    let (floor, datum) = site.floor.as_ref().zip(site.datum.as_ref())?;
    let damp_course = site.damp_course.as_ref()?;
    let below = -floor.value.si();
    if damp_course.place != datum.place || below <= SAME_LEVEL {
        return None;
    }
    let shown = context.show_length(below);
    let message =
        format!("the floor lies {shown} below the damp course. Is there a minus too many?");
    let finding = LEVEL_UNCLEAR
        .finding(floor.place, message)
        .severity(Severity::Warning)
        .found(shown, Quantity::near(below, Dimension::LENGTH))
        .related(datum.place, "the damp course, as stated here");
    let raised = floor.value.negated().ok();
    let text = raised.and_then(|raised| as_written(&raised, context));
    Some(match text {
        Some(text) => finding.fix(Fix::judged(format!("Write {text}"), floor.place, text)),
        None => finding,
    })
}
