//! `pipe-unsuited`: a pipe with holes where it must be tight, or without where
//! it has to take water in.

use super::{passes_through, readable};
use crate::findings::{Fix, Severity};
use crate::model::{Drain, DrainBody, Pipe, Substance};
use crate::rules::construction::is_open_graded;
use crate::rules::{Check, Context, Family, Found, Rule};
use crate::sources::Source;

/// A pipe with holes where it must be tight, or without where it has to take
/// water in.
pub(crate) static PIPE_UNSUITED: Rule = Rule {
    name: "pipe-unsuited",
    family: Family::Drains,
    severity: Severity::Warning,
    looks_at: "Pipes of the catalogue: plain ones in a trench of stone, and perforated ones that run by themselves; not those bedded in clean stone or laid under permeable paving.",
    reason: "A plain pipe takes in no water from the stone round it; a perforated one loses on the way what it is to carry, or brings ground water with it.",
    remedy: "Lay perforated pipe in a trench, with the holes down, and plain pipe everywhere else.",
    limits: &[],
    sources: &[Source::COMMON_PRACTICE],
    breaks: "\
drain side-drain
  trench       300 mm wide, 450 mm deep, along court.south
  pipe         «plastic-pipe», 110 mm
  filled       open-stone, voids 40 %
  fall         1:100 toward east
  to           \"ditch\"
",
    keeps: "\
drain side-drain
  trench       300 mm wide, 450 mm deep, along court.south
  pipe         perforated-pipe, 110 mm
  filled       open-stone, voids 40 %
  fall         1:100 toward east
  to           \"ditch\"
",
    mended: Some(
        "\
drain side-drain
  trench       300 mm wide, 450 mm deep, along court.south
  pipe         perforated-pipe, 110 mm
  filled       open-stone, voids 40 %
  fall         1:100 toward east
  to           \"ditch\"
",
    ),
    check: Check::Job(check),
};

fn check(context: &Context<'_>, found: &mut Found) {
    for (drain, _) in readable(context.job, context.figures) {
        let Some(body) = drain.body.as_ref().filter(|_| drain.existing.is_none()) else {
            continue;
        };
        let (pipe, message, wanted) = match &body.value {
            DrainBody::Trench {
                pipe: Some(pipe), ..
            } if is_perforated(pipe) == Some(false) => (
                pipe,
                "takes no water out of the stone round it: lay perforated pipe in a trench",
                "perforated-pipe",
            ),
            DrainBody::Pipe(pipe)
                if is_perforated(pipe) == Some(true) && !gathers(context, drain) =>
            {
                (
                    pipe,
                    "loses water on the way, or brings ground water along: lay plain pipe where no stone is round it",
                    "plastic-pipe",
                )
            }
            _ => continue,
        };
        let message = format!("{} {message}", pipe.of.value.name());
        found.add(
            PIPE_UNSUITED
                .finding(pipe.of.place, message)
                .fix(Fix::judged(
                    format!("Write {wanted}"),
                    pipe.of.place,
                    wanted,
                )),
        );
    }
}

/// Whether a pipe of the catalogue has holes; `None` of any other, and of
/// those that are laid with open joints as well as tight.
pub(super) fn is_perforated(pipe: &Pipe) -> Option<bool> {
    let Substance::Material(material) = &pipe.of.value else {
        return None;
    };
    match material.stock? {
        "perforated-pipe" | "coiled-pipe" => Some(true),
        "plastic-pipe" => Some(false),
        _ => None,
    }
}

/// Whether a pipe has water to take in on its way: out of the open stone that
/// it is bedded in, or out of permeable paving over it.
fn gathers(context: &Context<'_>, drain: &Drain) -> bool {
    let is_in_stone = drain
        .bedded
        .as_ref()
        .is_some_and(|bedded| is_open_graded(&bedded.of.value));
    is_in_stone || lies_under_permeable(context, drain)
}

/// Whether a drain is a perforated pipe in the base of permeable paving, which
/// takes the water that the ground does not.
pub(in crate::rules) fn is_collector(context: &Context<'_>, drain: &Drain) -> bool {
    let body = drain.body.as_ref();
    let pipe = body.and_then(|body| body.value.pipe());
    pipe.and_then(is_perforated) == Some(true) && lies_under_permeable(context, drain)
}

fn lies_under_permeable(context: &Context<'_>, drain: &Drain) -> bool {
    context.job.surfaces.iter().any(|own| {
        let build = own.build.as_ref();
        build.is_some_and(|build| build.value.permeable.is_some()) && passes_through(drain, own)
    })
}
