//! `invert-missing`: a drain of which nothing says how deep it lies.

use super::readable;
use crate::findings::Severity;
use crate::model::{Drain, DrainKind};
use crate::quantities::DrainFigures;
use crate::rules::{Check, Context, Family, Found, Rule};
use crate::sources::Source;
use crate::units::System;

/// A drain of which nothing says how deep it lies.
pub(crate) static INVERT_MISSING: Rule = Rule {
    name: "invert-missing",
    family: Family::Drains,
    severity: Severity::Warning,
    looks_at: "A pipe with no invert, and a drain that has a level at one end only and no fall; one along a level edge that falls, and does not say which way.",
    reason: "Without its levels nobody knows how deep to dig, how much cover a pipe has, or whether water gets through.",
    remedy: "State an invert at one end and the fall, or an invert at each end; and the way that it falls.",
    limits: &[],
    sources: &[Source::computed(
        "of a fall and two inverts any two give the third",
    )],
    breaks: "\
drain side-pipe
  «pipe         plastic-pipe, 110 mm, from (0 m, -6 m) to (4 m, -6 m)»
  fall         1:80
  bedded       in gravel, 75 mm round
  to           \"storm drain\"
",
    keeps: "\
drain side-pipe
  pipe         plastic-pipe, 110 mm, from (0 m, -6 m) to (4 m, -6 m)
  fall         1:80
  invert       -620 mm
  bedded       in gravel, 75 mm round
  to           \"storm drain\"
",
    mended: None,
    check: Check::Job(check),
};

fn check(context: &Context<'_>, found: &mut Found) {
    for (drain, figures) in readable(context.job, context.figures) {
        let Some(body) = &drain.body else { continue };
        way(drain, figures, found);
        let Some(lacks) = lacks(drain, figures) else {
            continue;
        };
        let as_in = match context.system() {
            System::Metric => "invert -600 mm",
            System::Imperial => "invert -24 in",
        };
        let name = &drain.name.value;
        let message = match lacks {
            Lacks::Invert => format!(
                "nothing says how deep {name} lies, so its dig is not known: state its invert, as in {as_in}"
            ),
            Lacks::Fall => format!(
                "{name} has a level at one end only: state its fall, as in fall 1:80, or the invert at its other end"
            ),
        };
        found.add(INVERT_MISSING.finding(body.place, message));
    }
}

/// Tells of a drain along a level edge of which nothing says to which end it
/// falls.
fn way(drain: &Drain, figures: &DrainFigures, found: &mut Found) {
    let Some(fall) = drain.fall.as_ref().filter(|_| drain.existing.is_none()) else {
        return;
    };
    if !figures.is_way_assumed {
        return;
    }
    let name = &drain.name.value;
    let message = format!(
        "to which end does {name} fall? The edge beside it is level: say the way, as in fall 1:200 toward east"
    );
    let finding = INVERT_MISSING.finding(fall.place, message);
    found.add(finding.severity(Severity::Advisory));
}

enum Lacks {
    Invert,
    Fall,
}

/// What a new drain lacks to have its levels. A channel and a trench take
/// theirs from the finish beside them, gullies and soakaways from the pipes
/// that meet them.
fn lacks(drain: &Drain, figures: &DrainFigures) -> Option<Lacks> {
    let has_level = figures.head_m.is_some() || figures.outlet_m.is_some();
    if drain.existing.is_some() || figures.head_at.is_none() {
        return None;
    }
    match drain.kind()? {
        DrainKind::Pipe if !has_level => Some(Lacks::Invert),
        kind if kind.is_run() && has_level && figures.fall.is_none() => Some(Lacks::Fall),
        _ => None,
    }
}
