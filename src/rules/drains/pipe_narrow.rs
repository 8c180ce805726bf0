//! `pipe-narrow`: a pipe that leads into a narrower one.

use super::readable;
use crate::findings::Severity;
use crate::model::{Drain, Pipe, Stated};
use crate::rules::{Check, Context, Family, Found, Rule};
use crate::sources::Source;
use crate::units::Quantity;

/// Pipes of one size are called by their width outside or inside, and 110 mm
/// of plastic runs into 100 mm of clay: narrower is what is less by more.
const ALIKE: f64 = 0.9;

/// No pipe is reduced on its way.
const IPC_REDUCED: Source = Source::memory(
    "International Plumbing Code",
    "704.2, drainage piping is not reduced in size in the direction of the flow",
);

/// A pipe that leads into a narrower one.
pub(crate) static PIPE_NARROW: Rule = Rule {
    name: "pipe-narrow",
    family: Family::Drains,
    severity: Severity::Warning,
    looks_at: "A pipe against the next pipe that its water comes to, by itself or through gullies and pits: narrower is less than nine tenths as wide.",
    reason: "What the wide pipe carries lodges where it narrows, and the water stands behind it.",
    remedy: "Lay the lower pipe at least as wide as the one above, or the upper one narrower.",
    limits: &[],
    sources: &[IPC_REDUCED],
    breaks: "\
drain side-pipe
  pipe         plastic-pipe, 110 mm, from (0 m, -1 m) to (6 m, -1 m)
  fall         1:80
  invert       -700 mm
  bedded       in gravel, 75 mm round
  to           road-pipe

drain road-pipe
  pipe         plastic-pipe, «82 mm», from (6 m, -1 m) to (12 m, -1 m)
  fall         1:60
  bedded       in gravel, 75 mm round
  to           \"storm drain\"
",
    keeps: "\
drain side-pipe
  pipe         plastic-pipe, 110 mm, from (0 m, -1 m) to (6 m, -1 m)
  fall         1:80
  invert       -700 mm
  bedded       in gravel, 75 mm round
  to           road-pipe

drain road-pipe
  pipe         plastic-pipe, 100 mm, from (6 m, -1 m) to (12 m, -1 m)
  fall         1:60
  bedded       in gravel, 75 mm round
  to           \"storm drain\"
",
    mended: None,
    check: Check::Job(check),
};

fn check(context: &Context<'_>, found: &mut Found) {
    let mut reported = Vec::new();
    for (drain, _) in readable(context.job, context.figures) {
        let Some(wide) = pipe(drain).and_then(Pipe::inside) else {
            continue;
        };
        let Some((next, narrow)) = next_pipe(context, drain) else {
            continue;
        };
        if narrow.value.si() >= ALIKE * wide.value.si() || reported.contains(&narrow.place) {
            continue;
        }
        reported.push(narrow.place);
        let remedy = match next.existing {
            Some(_) => "Lead it to a wider drain, or renew this one",
            None => "Lay it as wide",
        };
        let message = format!(
            "{} is {} wide, and {} leads into it at {}: a pipe never narrows on its way. {remedy}",
            next.name.value,
            context.show(&narrow.value),
            drain.name.value,
            context.show(&wide.value)
        );
        found.add(
            PIPE_NARROW
                .finding(narrow.place, message)
                .found(context.show(&narrow.value), Some(narrow.value))
                .related(wide.place, format!("{} is wider", drain.name.value)),
        );
    }
}

fn pipe(drain: &Drain) -> Option<&Pipe> {
    drain.body.as_ref()?.value.pipe()
}

/// The next pipe on the way of a drain's water whose width is known.
fn next_pipe<'a>(
    context: &Context<'a>,
    drain: &Drain,
) -> Option<(&'a Drain, &'a Stated<Quantity>)> {
    let job = context.job;
    let mut next = job.drains.after(drain);
    // Drains may lead round in a circle.
    for _ in 0..job.drains.len() {
        let index = next?;
        let own = job.drains.get(index).filter(|own| !own.is_unread)?;
        if let Some(pipe) = pipe(own) {
            return Some((own, pipe.inside()?));
        }
        next = job.drains.next(index);
    }
    None
}
