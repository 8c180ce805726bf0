//! `price-odd`: a price that no sand, stone, concrete or paving has.

use crate::findings::Severity;
use crate::materials::Kind;
use crate::model::{Material, Sold, Sourced};
use crate::rules::construction::is_in_checked_file;
use crate::rules::{Bound, Check, Context, Family, Found, Limit, Rule};
use crate::sources::Source;
use crate::units::{Dimension, Number, Quantity, System};
use crate::vocabulary::{Term, spelled_in};

/// A price that no sand, stone, concrete or paving has.
pub(crate) static PRICE_ODD: Rule = Rule {
    name: "price-odd",
    family: Family::Ordering,
    severity: Severity::Warning,
    looks_at: "The price of sand and stone by weight or volume, of concrete by volume and of paving by area or by the piece, in whatever money. Where it is only dear, an advisory, and not of gravel or jointing sand, which may be.",
    reason: "£24 a kilogram instead of a ton is a thousand times the cost.",
    remedy: "Check what the price is for: a ton, a bag, a kilogram.",
    limits: &[
        Limit::practice(
            "plain",
            "what a kilogram of sand or stone costs",
            Bound::Most,
            &["3"],
        ),
        Limit::practice(
            "volume",
            "what a cubic metre of sand, stone or concrete costs",
            Bound::Most,
            &["3000"],
        ),
        Limit::practice(
            "dear",
            "what a kilogram of stone for bases or sand for beds costs, unless it is dear",
            Bound::Most,
            &["0.3"],
        ),
        Limit::practice(
            "dear-volume",
            "what a cubic metre of the same or of concrete costs, unless it is dear",
            Bound::Most,
            &["700"],
        ),
        Limit::practice(
            "dear-area",
            "what a square metre of paving costs, unless it is dear",
            Bound::Most,
            &["1000"],
        ),
    ],
    sources: &[Source::COMMON_PRACTICE],
    breaks: "material crushed-stone
  sold         by t
  price        «£24/kg»
",
    keeps: "material crushed-stone
  sold         by t
  price        £24/t
",
    mended: None,
    check: Check::Material(check),
};

fn check(context: &Context<'_>, material: &Material, found: &mut Found) {
    let (Some(price), Some(kind)) = (&material.price, material.kind) else {
        return;
    };
    let money = price.value;
    if money.currency.is_none() || !is_in_checked_file(price.place) {
        return;
    }
    let is_loose = kind.is_aggregate() || kind.is_sand() || matches!(kind, Kind::Soil | Kind::Fill);
    // Pebbles for show and bagged sand for joints may cost ten times as much.
    let is_plain = is_loose && !matches!(kind, Kind::RoundedGravel | Kind::JointSand);
    let piece = piece_m2(material);
    let rows: &[(&str, bool)] = match money.dimension {
        Dimension::MONEY_PER_MASS => &[("plain", is_loose), ("dear", is_plain)],
        Dimension::MONEY_PER_VOLUME => &[
            ("volume", is_loose || kind.is_concrete()),
            ("dear-volume", is_plain || kind.is_concrete()),
        ],
        Dimension::MONEY_PER_AREA => &[("dear-area", kind.is_unit())],
        Dimension::MONEY => &[("dear-area", kind.is_unit() && piece.is_some())],
        _ => return,
    };
    let each = match (money.dimension, piece) {
        (Dimension::MONEY, Some(piece)) => money.si() / piece,
        _ => money.si(),
    };
    let held = rows.iter().filter(|(_, is_held)| *is_held);
    let mut limits = held.filter_map(|(row, _)| Some((*row, context.limit(&PRICE_ODD, row)?)));
    let Some((row, limit)) = limits.find(|(_, limit)| !limit.allows_si(each)) else {
        return;
    };
    let shown = limit.beside(&money, context.system());
    let name = &material.name;
    let message = match row {
        "plain" | "volume" => {
            let large = match (row, context.system()) {
                ("plain", _) => context.word(Term::Tonne),
                (_, System::Metric) => "cubic metre",
                (_, System::Imperial) => "cubic yard",
            };
            let large = spelled_in(context.region(), large);
            format!("{shown} is far too dear for {name}: is it for a {large}, or for a bag?")
        }
        _ => format!("{shown} is dear for {name}: is a point missing, or is it for another unit?"),
    };
    let finding = PRICE_ODD
        .finding(price.place, message)
        .found(shown, Number::near(each).map(Quantity::plain))
        .against(&limit, context);
    found.add(match row {
        "plain" | "volume" => finding,
        _ => finding.severity(Severity::Advisory),
    });
}

/// The face of one piece of what is sold by the piece, in square metres.
fn piece_m2(material: &Material) -> Option<f64> {
    let is_single = |sold: &Sourced<Sold>| sold.value == Sold::Each;
    let (length, width) = material.unit.as_ref()?;
    let face = length.value.si() * width.value.si();
    (material.sold.as_ref().is_some_and(is_single) && face > 0.0).then_some(face)
}
