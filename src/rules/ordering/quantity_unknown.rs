//! `quantity-unknown`: how much is wanted cannot be worked out.

use super::troubles::findings;
use crate::findings::Severity;
use crate::model::{Drain, DrainBody, Steps, Substance, Surface};
use crate::quantities::{DrainFigures, StepsFigures, Trouble, TroubleKind};
use crate::rules::construction::is_in_rings;
use crate::rules::{Check, Context, Family, Found, Rule};
use crate::sources::Source;
use crate::units::System;

/// How much is wanted cannot be worked out.
pub(crate) static QUANTITY_UNKNOWN: Rule = Rule {
    name: "quantity-unknown",
    family: Family::Ordering,
    severity: Severity::Warning,
    looks_at: "Joints between units or stones of unknown size, sheets that lap from rolls of unknown size, layers whose outline past the free edges cannot be drawn, the facing of risers of unknown thickness or with no room, and drains of unknown size.",
    reason: "What cannot be worked out is left out of the dig and the order.",
    remedy: "State the size: laid …, units 300 mm by 600 mm, or stones about 400 mm, or the material's unit; of a sheet its roll; of a drain how wide and how deep it is. Or a smaller margin.",
    limits: &[],
    sources: &[Source::computed(
        "joint share = 1 − a·b / ((a + joint)·(b + joint))",
    )],
    breaks: "surface court
  build        mortar-set
  laid         stack-bond
  «joint        10 mm, filled with joint-mix»
  weeps        every 600 mm
",
    keeps: "surface court
  build        mortar-set
  laid         stack-bond, units 300 mm by 600 mm
  weeps        every 600 mm
",
    mended: None,
    check: Check::Job(check),
};

fn check(context: &Context<'_>, found: &mut Found) {
    for (trouble, finding) in findings(&QUANTITY_UNKNOWN, context, |own| message(own, context)) {
        found.add(match rings(trouble, context) {
            true => finding.severity(Severity::Advisory),
            false => finding,
        });
    }
    for (steps, figures) in context.job.steps.iter().zip(context.figures.steps.iter()) {
        facing(context, steps, figures, found);
        no_face(context, steps, figures, found);
    }
    let drains = context.job.drains.iter();
    for (drain, figures) in drains.zip(context.figures.drains.iter()) {
        drain_size(context, drain, figures, found);
    }
}

fn message(trouble: &Trouble, context: &Context<'_>) -> Option<String> {
    let name = &trouble.name;
    Some(match &trouble.kind {
        // Stones of a course are of any length: the language knows none.
        TroubleKind::NoJointShare if is_laid(trouble, context, is_in_courses) => return None,
        TroubleKind::NoJointShare if rings(trouble, context) => format!(
            "{name} is laid in rings, whose joints taper, and what fills them cannot be worked out: order it as its maker's sheet says"
        ),
        TroubleKind::NoJointShare => format!(
            "no unit size for {name}, so its joints cannot be worked out: state it with laid, as in {}",
            match context.system() {
                System::Metric => "laid running-bond, units 600 mm by 300 mm",
                System::Imperial => "laid running-bond, units 24 in by 12 in",
            }
        ),
        TroubleKind::NoRollSize => format!(
            "{name} laps, and its laps cannot be counted without the size of its roll or sheet: \
             state it, as in {}",
            roll(context)
        ),
        TroubleKind::NoHeight => format!(
            "no height and width for {name}, so its concrete cannot be worked out: state its unit, as in {}",
            match context.system() {
                System::Metric => "unit 125 mm by 255 mm by 915 mm",
                System::Imperial => "unit 4 in by 8 in by 36 in",
            }
        ),
        TroubleKind::Outline(fault) => format!(
            "this layer cannot be drawn so far past the edges of {name}: {fault}. State a smaller margin"
        ),
        _ => return None,
    })
}

/// Whether it is about the joints of a surface that is laid in rings: no size
/// of a unit tells how wide those are.
fn rings(trouble: &Trouble, context: &Context<'_>) -> bool {
    trouble.kind == TroubleKind::NoJointShare && is_laid(trouble, context, is_in_rings)
}

/// Whether the surface that it is about is laid in such a way.
fn is_laid(trouble: &Trouble, context: &Context<'_>, way: fn(&Surface) -> bool) -> bool {
    let mut surfaces = context.job.surfaces.iter();
    surfaces.any(|own| own.name.value == trouble.name && way(own))
}

/// Whether a surface is laid in courses that state how wide they are.
fn is_in_courses(surface: &Surface) -> bool {
    let laid = surface.laid.as_ref();
    laid.is_some_and(|laid| laid.wide.is_some())
}

/// The facing of risers of which nothing says how thick it is.
fn facing(context: &Context<'_>, steps: &Steps, figures: &StepsFigures, found: &mut Found) {
    let (Some(riser), Some(part)) = (&steps.riser, &figures.facing) else {
        return;
    };
    let is_unread = riser.thickness.is_none() && !matches!(riser.of.value, Substance::Material(_));
    let section = riser.of.value.material().and_then(|own| own.section);
    let is_misread = section.is_some_and(|section| context.is_misread(section));
    if part.volume_m3.is_some() || part.area_m2.is_none() || is_unread || is_misread {
        return;
    }
    let of = riser.of.value.name();
    let message = format!(
        "no thickness for {of} in front of the risers: state it, as in riser {of}, 100 mm, or state the size of a brick with unit"
    );
    found.add(QUANTITY_UNKNOWN.finding(riser.of.place, message));
}

/// Where risers are lower, in metres, levels are wrong and not the treads.
const LEAST_RISER: f64 = 0.1;

/// Treads that with their bed are as thick as the risers are high: nothing is
/// left to be faced.
fn no_face(context: &Context<'_>, steps: &Steps, figures: &StepsFigures, found: &mut Found) {
    let (Some(tread), Some(flight)) = (&steps.tread, &figures.flight) else {
        return;
    };
    let thick = figures.unfaced_m(steps);
    let Some(thick) = thick.filter(|_| flight.riser_m >= LEAST_RISER) else {
        return;
    };
    let bed = steps.bed.as_ref().map(|bed| (bed.place, thick));
    let own = tread.thickness.as_ref().map_or(0.0, |own| own.value.si());
    let place = match bed {
        Some((place, thick)) if thick > 2.0 * own => place,
        _ => tread.place,
    };
    let treads = match bed {
        Some(_) => "treads with their bed",
        None => "treads",
    };
    let message = format!(
        "{treads} are {} thick, and a riser of {} has nothing left to be faced: thin them, or leave the facing out",
        context.show_length(thick),
        context.show_length(flight.riser_m)
    );
    let finding = QUANTITY_UNKNOWN.finding(place, message);
    found.add(finding.severity(Severity::Error));
}

/// A drain of which nothing says how wide or how deep it is, so that it is
/// neither dug nor filled nor judged.
fn drain_size(context: &Context<'_>, drain: &Drain, figures: &DrainFigures, found: &mut Found) {
    let Some(body) = &drain.body else { return };
    let fill = figures.fill.as_ref().map(|fill| fill.volume_m3);
    let is_filled = fill.is_none_or(|volume| volume.is_some());
    let is_known = drain.is_unread || figures.dig.is_some() && is_filled;
    if drain.existing.is_some() || is_known {
        return;
    }
    let (lacks, loses, metric, imperial) = match &body.value {
        DrainBody::Pipe(pipe) if pipe.size.is_none() => {
            ("outside width", "dig", "pipe …, 110 mm", "pipe …, 4 1/2 in")
        }
        DrainBody::Trench { deep: None, .. } => {
            ("depth", "dig and stone", "600 mm deep", "24 in deep")
        }
        DrainBody::Soakaway { deep: None, .. } => {
            ("depth", "dig and what it holds", "1 m deep", "3' deep")
        }
        DrainBody::Channel { clear: None, .. } => (
            "inside size",
            "dig and what it carries",
            "100 mm by 80 mm clear",
            "4 in by 3 in clear",
        ),
        _ => return,
    };
    let name = &drain.name.value;
    let as_in = match context.system() {
        System::Metric => metric,
        System::Imperial => imperial,
    };
    let message = format!(
        "no {lacks} for {name}, so its {loses} cannot be worked out: state it, as in {as_in}"
    );
    found.add(QUANTITY_UNKNOWN.finding(body.place, message));
}

/// The size of a usual roll, in the job's units.
fn roll(context: &Context<'_>) -> &'static str {
    match context.system() {
        System::Imperial => "roll 15 ft by 300 ft",
        System::Metric => "roll 4.5 m by 100 m",
    }
}
