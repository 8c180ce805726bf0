//! `region-unstated`: a job whose units or money point to a region that it
//! does not state.

use crate::findings::{Fix, Severity};
use crate::model::Region;
use crate::rules::{Check, Context, Family, Found, Rule};
use crate::sources::Source;
use crate::units::{Currency, System};
use crate::vocabulary::entry;

/// A job whose units or money point to a region that it does not state.
pub(crate) static REGION_UNSTATED: Rule = Rule {
    name: "region-unstated",
    family: Family::Ordering,
    severity: Severity::Advisory,
    looks_at: "A job with `units imperial` or a currency, and no region.",
    reason: "Falls, levels at the building and beds have limits by region. Without one the general limits apply, which are no country's.",
    remedy: "State the region whose limits apply: us, uk, au or general.",
    limits: &[],
    sources: &[Source::COMMON_PRACTICE],
    breaks: "job \"Example court\"
  # no region
  currency     «GBP»
",
    keeps: "job \"Example court\"
  region       general
",
    mended: Some(
        "job \"Example court\"
  currency     GBP
  region       uk
",
    ),
    check: Check::Job(check),
};

fn check(context: &Context<'_>, found: &mut Found) {
    let heading = &context.job.heading;
    if heading.region.is_some() || context.is_misread_at(heading.place) {
        return;
    }
    let imperial = heading
        .units
        .as_ref()
        .filter(|stated| stated.value == System::Imperial);
    let currency = heading.currency.as_ref();
    let (place, what, written) = match (currency, imperial) {
        (Some(stated), _) => (stated.place, "currency", stated.value.code()),
        (None, Some(stated)) => (stated.place, "units", "imperial"),
        (None, None) => return,
    };
    let region = match currency.map(|stated| stated.value) {
        Some(Currency::Gbp) => Region::Uk,
        Some(Currency::Aud | Currency::Nzd) => Region::Au,
        Some(Currency::Usd) | None => Region::Us,
        Some(Currency::Dollar | Currency::Cad | Currency::Eur) => Region::General,
    };
    let message = match region {
        Region::General => {
            "no region: the general limits apply. State region general if they are meant".to_owned()
        }
        region => format!(
            "no region: the general limits apply. With {what} {written}, is region {} meant?",
            region.word()
        ),
    };
    found.add(REGION_UNSTATED.finding(place, message).fix(Fix::judged(
        format!("State region {}", region.word()),
        place.end(),
        format!("\n  {}", entry("region", region.word())),
    )));
}
