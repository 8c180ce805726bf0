//! Findings out of what the figures say they lack.

use crate::findings::{Finding, Place};
use crate::quantities::{Trouble, TroubleKind};
use crate::rules::construction::is_in_checked_file;
use crate::rules::{Context, Rule};

/// Whether the section of what a trouble is about, a surface or a material, has
/// a line that could not be read.
fn is_misread(trouble: &Trouble, context: &Context<'_>) -> bool {
    let (job, name) = (context.job, trouble.name.as_str());
    let material = job.materials.get(name).and_then(|own| own.section);
    let mut surfaces = job.surfaces.iter();
    // What is laid has its size from the surface, too.
    if matches!(trouble.kind, TroubleKind::NoUnitSize) && surfaces.clone().any(|own| own.is_misread)
    {
        return true;
    }
    let surface = surfaces.find(|own| own.name.value == name);
    let sections = material.into_iter().chain(surface.map(|own| own.section));
    sections
        .into_iter()
        .any(|section| context.is_misread(section))
}

/// A finding about a figure that cannot be known: at the line that is the
/// cause if it stands in the checked file, else at the first use there.
/// `None` where nothing of the checked file takes part, or what is lacking may
/// be said by a line that could not be read.
pub(super) fn finding(
    rule: &Rule,
    trouble: &Trouble,
    message: String,
    context: &Context<'_>,
) -> Option<Finding> {
    let job = context.job;
    if is_misread(trouble, context) {
        return None;
    }
    let ours = |place: &&Place| is_in_checked_file(**place);
    let at = std::iter::once(&trouble.place)
        .chain(&trouble.uses)
        .chain(&job.heading.place)
        .find(ours)?;
    let mut finding = rule.finding(*at, message);
    if *at != trouble.place {
        finding = finding.related(trouble.place, "stated here");
    }
    for used in &trouble.uses {
        if used != at {
            finding = finding.related(*used, "used here");
        }
    }
    Some(finding)
}
