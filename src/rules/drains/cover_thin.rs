//! `cover-thin`: a pipe with too little over it.

use super::documents::{AU_COVER, uk_cover};
use super::pipe_unsuited::is_collector;
use super::{readable, without_minus};
use crate::findings::{Finding, Fix, Severity};
use crate::model::{Drain, DrainBody, DrainKind, DrainLine, Invert, Outlet, Region, Use};
use crate::quantities::{Cover, DrainFigures};
use crate::rules::falls::is_piped;
use crate::rules::wording::{as_written, has_word};
use crate::rules::{Bound, Check, Context, Family, Found, Limit, Rule, Value};
use crate::sources::Source;
use crate::units::{Dimension, Quantity};

/// A pipe with too little over it.
pub(crate) static COVER_THIN: Rule = Rule {
    name: "cover-thin",
    family: Family::Drains,
    severity: Severity::Warning,
    looks_at: "How much ground or paving lies over a pipe, under what is driven on and elsewhere; not over one that is encased in concrete, nor where one comes out of the ground to the open. A soakaway, a gully, a channel or a trench that lies above the ground or the paving over it. And how much stone lies over the pipe in a trench.",
    reason: "A pipe near the surface is crushed by wheels, cut by a spade, and in frost it freezes.",
    remedy: "Lay it deeper, lead it another way, or encase it in concrete.",
    limits: &[
        Limit {
            row: "drive",
            of: "cover over a pipe under a drive or street",
            bound: Bound::Least,
            general: Value::practice(&["450 mm", "18 in"]),
            regions: &[(
                Region::Uk,
                Value {
                    written: &["900 mm"],
                    source: uk_cover("flexible pipes under light traffic, 0.9 m"),
                },
            )],
        },
        Limit {
            row: "plain",
            of: "cover over a pipe elsewhere",
            bound: Bound::Least,
            general: Value::practice(&["300 mm", "12 in"]),
            regions: &[
                (
                    Region::Uk,
                    Value {
                        written: &["600 mm"],
                        source: uk_cover("flexible pipes in fields and gardens, 0.6 m"),
                    },
                ),
                (
                    Region::Au,
                    Value {
                        written: &["100 mm"],
                        source: AU_COVER,
                    },
                ),
            ],
        },
        Limit::practice(
            "trench",
            "stone over the pipe in a trench",
            Bound::Least,
            &["50 mm", "2 in"],
        ),
    ],
    sources: &[
        uk_cover("cover of flexible pipes"),
        AU_COVER,
        Source::COMMON_PRACTICE,
    ],
    breaks: "\
drain side-pipe
  «pipe         plastic-pipe, 110 mm, from (0 m, -6 m) to (4 m, -6 m)»
  fall         1:80
  invert       -400 mm
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
        if drain.existing.is_some() {
            continue;
        }
        open_run(context, drain, figures, found);
        if is_encased(drain) || is_collector(context, drain) {
            continue;
        }
        pit(context, drain, figures, found);
        in_trench(context, drain, found);
        // Of each row the least.
        for is_driven in [true, false] {
            let row = if is_driven { "drive" } else { "plain" };
            let covers = covers(drain, figures);
            let own = covers.filter(|(cover, _)| self::is_driven(context, cover) == is_driven);
            let least = own.map(|(_, least)| least).reduce(f64::min);
            let (Some(least_m), Some(limit)) = (least, context.limit(&COVER_THIN, row)) else {
                continue;
            };
            if limit.allows_si(least_m) {
                continue;
            }
            let place = drain.body.as_ref().map_or(drain.place, |body| body.place);
            if let Some((invert, above)) = without_minus(drain, figures) {
                found.add(lacks_minus(context, drain, invert, above));
                break;
            }
            let shown = limit.beside_si(least_m, context.system());
            let least = limit.shown(context.system());
            let over = match (is_driven, least_m > 0.0) {
                (_, false) => format!(
                    "{} sticks out of the ground by {}",
                    drain.name.value,
                    context.show_length(-least_m)
                ),
                (true, true) => format!(
                    "only {shown} of cover over {} where wheels go",
                    drain.name.value
                ),
                (false, true) => format!("only {shown} of cover over {}", drain.name.value),
            };
            let message = match least_m > 0.0 {
                true => {
                    format!("{over}: {least} is the least. Lay it deeper, or encase it in concrete")
                }
                false => format!("{over}: lay it with {least} of cover, or encase it in concrete"),
            };
            found.add(
                COVER_THIN
                    .finding(place, message)
                    .found(shown, Quantity::near(least_m, Dimension::LENGTH))
                    .against(&limit, context),
            );
        }
    }
}

/// A pipe that all but fills the trench that it lies in: water that is to soak
/// in from above and from the sides does not get at it.
fn in_trench(context: &Context<'_>, drain: &Drain, found: &mut Found) {
    let Some(DrainBody::Trench {
        deep: Some(deep),
        pipe: Some(pipe),
        ..
    }) = drain.body.as_ref().map(|body| &body.value)
    else {
        return;
    };
    let (Some(size), Some(limit)) = (&pipe.size, context.limit(&COVER_THIN, "trench")) else {
        return;
    };
    let over = deep.value.si() - size.value.si();
    // That the pipe does not go in at all is told of elsewhere.
    if over < -ABOVE || limit.allows_si(over) {
        return;
    }
    let shown = limit.beside_si(over.max(0.0), context.system());
    let message = format!(
        "only {shown} of stone over the pipe of {}: {} is the least, and more is usual. Dig the trench deeper",
        drain.name.value,
        limit.shown(context.system())
    );
    let finding = COVER_THIN
        .finding(deep.place, message)
        .found(shown, Quantity::near(over, Dimension::LENGTH))
        .against(&limit, context);
    found.add(finding.related(size.place, "the pipe in it"));
}

/// The stretches of a pipe with the cover that counts over each, in metres. One
/// that ends in the open comes out of the ground there, as it has to: its last
/// stretch is judged where it begins.
fn covers<'f>(
    drain: &Drain,
    figures: &'f DrainFigures,
) -> impl Iterator<Item = (&'f Cover, f64)> + use<'f> {
    let is_open = ends_in_the_open(drain);
    let last = figures.covers.len().saturating_sub(1);
    let covers = figures.covers.iter().enumerate();
    covers.map(move |(index, cover)| match is_open && index == last {
        true => (cover, cover.head_m),
        false => (cover, cover.least_m),
    })
}

/// Whether a drain comes out of the ground where it ends.
fn ends_in_the_open(drain: &Drain) -> bool {
    let to = drain.to.as_ref().and_then(|to| to.value.text());
    to.is_some_and(|text| has_word(text, OPEN) && !is_piped(text))
}

/// Where a pipe ends in the open.
const OPEN: &[&str] = &[
    "daylight", "bank", "slope", "ditch", "swale", "stream", "brook", "creek", "river", "pond",
    "headwall", "outfall", "pop-up", "lawn", "grass", "verge",
];

/// A drain that lies above the ground for want of a minus.
fn lacks_minus(context: &Context<'_>, drain: &Drain, invert: &Invert, above: f64) -> Finding {
    let shown = context.show_length(above);
    let message = format!(
        "{} lies {shown} above the {}. Is a minus missing?",
        drain.name.value,
        lies_under(drain)
    );
    let place = invert.level_place;
    let finding = COVER_THIN
        .finding(invert.value.place, message)
        .found(shown, Quantity::near(above, Dimension::LENGTH));
    let mirrored = invert.value.value.negated().ok();
    match mirrored.and_then(|mirrored| as_written(&mirrored, context)) {
        Some(text) => finding.fix(Fix::judged(format!("Write {text}"), place, text)),
        None => finding,
    }
}

/// What lies over a drain, in a word.
fn lies_under(drain: &Drain) -> &'static str {
    match drain.line.as_ref().map(|line| &line.value) {
        Some(DrainLine::Along { .. }) => "paving beside it",
        _ => "ground",
    }
}

/// A channel or a trench whose bottom lies above what is to drain into it. One
/// that ends in the open comes out there, as it has to.
fn open_run(context: &Context<'_>, drain: &Drain, figures: &DrainFigures, found: &mut Found) {
    let Some((head, outlet)) = figures.depths_m else {
        return;
    };
    let least = match ends_in_the_open(drain) {
        true => head,
        false => head.min(outlet),
    };
    if least >= -ABOVE {
        return;
    }
    if let Some((invert, above)) = without_minus(drain, figures) {
        found.add(lacks_minus(context, drain, invert, above));
        return;
    }
    let invert = drain.inverts.first().map(|invert| invert.value.place);
    let body = drain.body.as_ref().map(|body| body.place);
    let (shown, over) = (context.show_length(-least), lies_under(drain));
    let message = format!(
        "the bottom of {} lies {shown} above the {over}: no water runs up there. Lower it",
        drain.name.value
    );
    found.add(
        COVER_THIN
            .finding(invert.or(body).unwrap_or(drain.place), message)
            .found(shown, Quantity::near(-least, Dimension::LENGTH)),
    );
}

/// A soakaway or a gully whose inlet lies above the ground over it: below a
/// soakaway's counts as storage what holds no water, and none runs into a
/// gully's.
fn pit(context: &Context<'_>, drain: &Drain, figures: &DrainFigures, found: &mut Found) {
    let Some(DrainLine::At(at)) = drain.line.as_ref().map(|line| &line.value) else {
        return;
    };
    let (Some(inlet), Some(ground)) = (figures.head_m, context.job.level_at(*at)) else {
        return;
    };
    let over = inlet - ground;
    let comes_from = |index: &usize| {
        let comes = context.job.drains.get(*index);
        comes.zip(context.figures.drains.get(*index))
    };
    // Where the pipe that leads to it lacks its minus, all comes of that.
    let before = context
        .job
        .drains
        .at(&Outlet::Drain(drain.name.value.clone()));
    let before = before.map_or(&[][..], |index| context.job.drains.before(index));
    let mut before = before.iter().filter_map(comes_from);
    if before.any(|(drain, figures)| without_minus(drain, figures).is_some()) {
        return;
    }
    if over <= ABOVE {
        return;
    }
    let (shown, name) = (context.show_length(over), &drain.name.value);
    let invert = drain.inverts.first().map(|invert| invert.value.place);
    let (place, message) = match (drain.kind(), invert) {
        (Some(DrainKind::Soakaway), _) => (
            drain.body.as_ref().map_or(drain.place, |body| body.place),
            format!(
                "the inlet of {name} lies {shown} above the ground: it will hold nothing. Lower it, and the pipe that leads to it"
            ),
        ),
        (Some(DrainKind::Gully), Some(invert)) => (
            invert,
            format!(
                "the invert of {name} lies {shown} above its grating: no water runs up there. Lower it, and the pipe that leads from it"
            ),
        ),
        _ => return,
    };
    found.add(
        COVER_THIN
            .finding(place, message)
            .found(shown, Quantity::near(over, Dimension::LENGTH)),
    );
}

/// How far, in metres, an inlet may lie above the ground, for rounding.
const ABOVE: f64 = 1e-6;

/// Whether a drain is laid in concrete.
pub(super) fn is_encased(drain: &Drain) -> bool {
    let Some(bedded) = &drain.bedded else {
        return false;
    };
    let of = &bedded.of.value;
    of.mix().is_some_and(|mix| mix.is_concrete())
        || of.kind().is_some_and(|kind| kind.is_concrete())
}

/// Whether what lies over a stretch of a pipe is driven on.
fn is_driven(context: &Context<'_>, cover: &Cover) -> bool {
    let surface = cover
        .under
        .and_then(|index| context.job.surfaces.get(index));
    surface.is_some_and(|surface| matches!(surface.used_for, Use::Drive | Use::Street))
}
