//! Findings out of what the figures say they lack.

use rustc_hash::FxHashSet;

use crate::findings::{Finding, Place};
use crate::model::Job;
use crate::quantities::{Trouble, TroubleKind};
use crate::rules::construction::is_in_checked_file;
use crate::rules::{Context, Rule};

/// Findings about figures that cannot be known, each with its trouble; where the
/// line that is lacking may be one that could not be read, there is none.
pub(super) fn findings<'a>(
    rule: &Rule,
    context: &Context<'a>,
    message: impl Fn(&Trouble) -> Option<String>,
) -> Vec<(&'a Trouble, Finding)> {
    let troubles = &context.figures.troubles;
    if troubles.is_empty() {
        return Vec::new();
    }
    let lost = Lost::of(context);
    let told = troubles.iter().filter(|trouble| !lost.may_say(trouble));
    let told = told.filter_map(|trouble| {
        let finding = finding(rule, trouble, message(trouble)?, context.job)?;
        Some((trouble, finding))
    });
    told.collect()
}

/// What has a line that could not be read.
struct Lost<'a> {
    /// Surfaces and materials, by name.
    names: FxHashSet<&'a str>,
    /// Whether any surface has: it may give what is laid its size.
    is_of_a_surface: bool,
}

impl<'a> Lost<'a> {
    fn of(context: &Context<'a>) -> Lost<'a> {
        let surfaces = context.job.surfaces.iter();
        let surfaces = surfaces.filter(|own| own.laid_unread || context.is_misread(own.section));
        let mut names: FxHashSet<&str> = surfaces.map(|own| own.name.value.as_str()).collect();
        let is_of_a_surface = !names.is_empty();
        let materials = context.job.materials.values();
        let materials = materials.filter(|own| {
            let section = own.section;
            section.is_some_and(|section| context.is_misread(section))
        });
        names.extend(materials.map(|own| own.name.as_str()));
        Lost {
            names,
            is_of_a_surface,
        }
    }

    /// Whether a line of it may say what a figure lacks.
    fn may_say(&self, trouble: &Trouble) -> bool {
        let is_of_what_is_laid = matches!(trouble.kind, TroubleKind::NoUnitSize);
        is_of_what_is_laid && self.is_of_a_surface || self.names.contains(trouble.name.as_str())
    }
}

/// A finding about a figure that cannot be known: at the line that is the
/// cause if it stands in the checked file, else at the first use there.
/// `None` where nothing of the checked file takes part.
fn finding(rule: &Rule, trouble: &Trouble, message: String, job: &Job) -> Option<Finding> {
    let ours = |place: &&Place| is_in_checked_file(**place);
    // A price of a library in another money is the job's own doing.
    let currency = job.heading.currency.as_ref().map(|stated| &stated.place);
    let currency = currency.filter(|_| matches!(trouble.kind, TroubleKind::Currency { .. }));
    let at = std::iter::once(&trouble.place)
        .chain(&trouble.uses)
        .chain(currency)
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
