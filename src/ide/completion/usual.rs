//! Values that are usual where the job lies: its currency, a fall that drains
//! there, a level below the floor.

use super::starters::least_fall;
use super::{Completion, CompletionKind, quantities};
use crate::analysis::Analysis;
use crate::ide::writing::Rest;
use crate::model::Region;
use crate::units::{Currency, System};
use crate::vocabulary::ValueKind;

/// The currencies, those of the job's region first.
pub(crate) fn currencies(analysis: &Analysis) -> Vec<Completion> {
    let of_region: &[Currency] = match analysis.job.heading.region() {
        Region::Us => &[Currency::Usd],
        Region::Uk => &[Currency::Gbp],
        Region::Au => &[Currency::Aud, Currency::Nzd],
        Region::General => &[Currency::Eur],
    };
    let mut all: Vec<Currency> = Currency::ALL
        .into_iter()
        .filter(|currency| *currency != Currency::Dollar)
        .collect();
    all.sort_by_key(|currency| !of_region.contains(currency));
    let offer = |currency: Currency| {
        Completion::new(currency.code(), CompletionKind::Choice, currency.symbol())
    };
    all.into_iter().map(offer).collect()
}

/// What may stand where a quantity belongs, the usual figure first.
pub(crate) fn with_figures(analysis: &Analysis, rest: &Rest, kind: ValueKind) -> Vec<Completion> {
    [figures(analysis, rest), quantities::offers(analysis, kind)].concat()
}

/// The figure that a level or a fall of a surface usually has, where nothing
/// is written of it yet.
fn figures(analysis: &Analysis, rest: &Rest) -> Vec<Completion> {
    if rest.phrase > 0 || !rest.items.is_empty() || rest.row.kind.word != "surface" {
        return Vec::new();
    }
    let heading = &analysis.job.heading;
    let is_metric = heading.system() == System::Metric;
    let (value, detail) = match rest.row.word() {
        "fall" => {
            let usual = if is_metric { "1:60" } else { "1/4 in per ft" };
            let fall = least_fall(&analysis.limits, heading.region(), usual);
            (fall, "what drains where the job lies")
        }
        "level" => {
            let usual = if is_metric { "-150 mm" } else { "-6 in" };
            (usual.to_owned(), "below the floor")
        }
        _ => return Vec::new(),
    };
    vec![Completion::new(value, CompletionKind::Choice, detail)]
}
