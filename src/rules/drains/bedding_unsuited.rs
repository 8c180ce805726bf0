//! `bedding-unsuited`: a pipe laid in what breaks it or lets it sink.

use super::readable;
use crate::findings::Severity;
use crate::materials::Kind;
use crate::model::{DrainKind, Region};
use crate::rules::{Check, Context, Family, Found, Rule};
use crate::sources::Source;

/// A pipe laid in what breaks it or lets it sink.
pub(crate) static BEDDING_UNSUITED: Rule = Rule {
    name: "bedding-unsuited",
    family: Family::Drains,
    severity: Severity::Warning,
    looks_at: "What pipes, channels and gullies are bedded in: soil and rubble; in the UK, round a pipe, stone with fines for bases as well.",
    reason: "Rubble presses on the pipe in points and breaks it; soil settles, and the pipe with it, so that water stands in the hollow.",
    remedy: "Bed it in pea gravel or sharp sand, or in concrete.",
    limits: &[],
    sources: &[
        Source::memory("BS EN 1610", "bedding of small granular material or sand"),
        Source::COMMON_PRACTICE,
    ],
    breaks: "\
drain side-pipe
  pipe         plastic-pipe, 110 mm, from (0 m, -1 m) to (6 m, -1 m)
  fall         1:80
  invert       -700 mm
  bedded       in «hardcore», 75 mm round
  to           \"storm drain\"
",
    keeps: "\
drain side-pipe
  pipe         plastic-pipe, 110 mm, from (0 m, -1 m) to (6 m, -1 m)
  fall         1:80
  invert       -700 mm
  bedded       in gravel, 75 mm round
  to           \"storm drain\"
",
    mended: None,
    check: Check::Job(check),
};

fn check(context: &Context<'_>, found: &mut Found) {
    for (drain, _) in readable(context.job, context.figures) {
        let what = drain
            .kind()
            .unwrap_or(DrainKind::Pipe)
            .called_in(context.region());
        let Some(bedded) = &drain.bedded else {
            continue;
        };
        let why = match bedded.of.value.kind() {
            Some(Kind::Soil) => format!("settles, and the {what} with it"),
            Some(Kind::Fill) => format!("presses on a {what} in points and breaks it"),
            Some(Kind::DenseAggregate)
                if context.region() == Region::Uk && drain.kind() == Some(DrainKind::Pipe) =>
            {
                "has stones up to 40 mm, which press on a pipe, and does not flow under it"
                    .to_owned()
            }
            _ => continue,
        };
        let message = format!(
            "{} {why}: bed {} in pea gravel or coarse sand",
            bedded.of.value.name(),
            drain.name.value
        );
        found.add(BEDDING_UNSUITED.finding(bedded.of.place, message));
    }
}
