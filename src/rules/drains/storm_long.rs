//! `storm-long`: pipes and channels that are judged by the mean of a long storm.

use crate::findings::Severity;
use crate::model::DrainKind;
use crate::rules::{Bound, Check, Context, Family, Found, Limit, Rule, Value};
use crate::sources::{Region, Source};
use crate::units::{Dimension, Quantity, show};

/// Pipes and channels that are judged by the mean of a long storm.
pub(crate) static STORM_LONG: Rule = Rule {
    name: "storm-long",
    family: Family::Drains,
    severity: Severity::Advisory,
    looks_at: "How long the storm lasts by which pipes and channels are judged, the hardest of those that are stated.",
    reason: "A patio drains in a few minutes, and in a storm of an hour it rains two or three times as hard for so long. By the mean of the hour every pipe is large enough.",
    remedy: "State a short storm as well, a line each: storm 75 mm/h for 5 min.",
    limits: &[Limit {
        row: "plain",
        of: "how long the storm lasts by which pipes and channels are judged",
        bound: Bound::Most,
        general: Value::practice(&["15 min"]),
        regions: &[(
            Region::Us,
            Value {
                written: &["60 min"],
                source: Source::read(
                    "International Plumbing Code 2018, Appendix B",
                    "rain of an hour once in 100 years, by which its tables size drains",
                ),
            },
        )],
    }],
    sources: &[Source::COMMON_PRACTICE],
    breaks: "\
site
  «storm        30 mm in 1 h»

drain foot-channel
  channel      polymer-channel, 100 mm by 80 mm clear, along court.south
  bedded       in concrete, 100 mm round
  fall         1:500 toward east
  to           \"storm drain\"
",
    keeps: "\
site
  storm        30 mm in 1 h
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
    let site = &context.job.site;
    let Some(fiercest) = site
        .fiercest()
        .filter(|_| !context.is_misread_at(site.place))
    else {
        return;
    };
    let mut storms = site.storms.iter();
    let storm = storms.find(|storm| storm.place == fiercest.place);
    let lasts = storm.and_then(|storm| storm.duration_s());
    let limit = context.limit(&STORM_LONG, "plain");
    let Some((lasts, limit)) = lasts.zip(limit) else {
        return;
    };
    let is_judged = |kind| matches!(kind, Some(DrainKind::Pipe | DrainKind::Channel));
    let mut drains = context.job.drains.iter();
    if limit.allows_si(lasts) || !drains.any(|drain| is_judged(drain.kind())) {
        return;
    }
    let shown = show::time(lasts);
    let message = format!(
        "pipes and channels are judged by the mean of {shown}, and for a few minutes of that it rains far harder; {} is about the longest to go by. State a short storm too",
        limit.shown(context.system())
    );
    found.add(
        STORM_LONG
            .finding(fiercest.place, message)
            .found(shown, Quantity::near(lasts, Dimension::TIME))
            .against(&limit, context),
    );
}
