//! `drain-small`: more water comes than a pipe or a channel carries.

use super::{ROUNDING, with_water};
use crate::findings::Severity;
use crate::rules::{Check, Context, Family, Found, Rule};
use crate::sources::Source;
use crate::units::show;

/// More water comes than a pipe or a channel carries.
pub(crate) static DRAIN_SMALL: Rule = Rule {
    name: "drain-small",
    family: Family::Drains,
    severity: Severity::Warning,
    looks_at: "The water that comes to a pipe or a channel in the hardest storm stated, against what it carries.",
    reason: "What it cannot carry floods over the grating and runs to where it was meant to be kept out.",
    remedy: "Use a wider or a deeper one, lay it steeper, or share the water between two.",
    limits: &[],
    sources: &[Source::computed(
        "the rational method beside Manning's formula, or spatially varied flow in a channel",
    )],
    breaks: "\
site
  storm        75 mm/h for 5 min

drain foot-channel
  «channel      polymer-channel, 30 mm by 30 mm clear, along court.south»
  bedded       in concrete, 100 mm round
  fall         1:500 toward east
  to           \"storm drain\"
",
    keeps: "\
site
  storm        75 mm/h for 5 min

drain foot-channel
  channel      polymer-channel, 100 mm by 80 mm clear, along court.south
  bedded       in concrete, 100 mm round
  fall         1:500 toward east
  to           \"storm drain\"
",
    mended: None,
    check: Check::Job(check),
};

fn check(context: &Context<'_>, found: &mut Found) {
    for (drain, figures, comes) in with_water(context.job, context.figures) {
        let (Some(flow), Some(carries)) = (comes.flow, figures.carries_m3s) else {
            continue;
        };
        if flow <= carries * ROUNDING {
            continue;
        }
        let system = context.system();
        let (shown, least) = (show::flow(flow, system), show::flow(carries, system));
        let name = &drain.name.value;
        let message = format!(
            "too small: {name} carries {least}, and {shown} comes to it. Use a larger one, or lay it steeper"
        );
        let place = drain.body.as_ref().map_or(drain.place, |body| body.place);
        let mut finding = DRAIN_SMALL.finding(place, message).found(shown, None);
        if let Some(rate) = context.job.site.fiercest() {
            finding = finding.related(rate.place, "the hardest rain stated");
        }
        found.add(finding);
    }
}
