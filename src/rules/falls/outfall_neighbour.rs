//! `outfall-neighbour`: water sent where it may not go.

use super::fall_missing::is_exempt;
use crate::findings::{Finding, Place, Severity};
use crate::model::{Outlet, Surface};
use crate::rules::documents::{APPROVED_H3_ORDER, HIGHWAYS_ACT};
use crate::rules::wording::{has_word, words};
use crate::rules::{Check, Context, Family, Found, Rule};
use crate::sources::{Region, Source};
use crate::vocabulary::{Term, spelled_in};

/// What becomes of rain in an Australian sewer.
const AU_SEWERS: Source = Source::read(
    "Australian councils' pages on stormwater and sewers",
    "stormwater may be led neither into the sewer nor into an overflow relief gully; it goes to the street, a stormwater drain or the ground",
);

/// Water sent to a neighbour, over a footway, under a building or into a foul
/// sewer.
pub(crate) static OUTFALL_NEIGHBOUR: Rule = Rule {
    name: "outfall-neighbour",
    family: Family::Falls,
    severity: Severity::Warning,
    looks_at: "Water that a surface, a drain or its overflow sends to a neighbour's land, over a footway or sidewalk, under a building or a deck, or into a foul sewer or septic tank; in Australia into any sewer but one for storm water.",
    reason: "Water that paving gathers may not be sent onto other people's land, and on a footway it freezes under their feet; under a floor it rots timber and softens the footings; rain that gets into a foul sewer floods somebody's cellar.",
    remedy: "Keep the water on the site: a bed, a lawn, a soakaway, a drain; or show the right to send it there. Local rules decide.",
    limits: &[],
    sources: &[HIGHWAYS_ACT, APPROVED_H3_ORDER, AU_SEWERS],
    breaks: "\
surface court
  «water        to \"the neighbour's drive\"»
",
    keeps: "\
surface court
  water        to \"border along the neighbour's fence\"
",
    mended: None,
    check: Check::SurfaceAndJob(surface, drains),
};

fn surface(context: &Context<'_>, surface: &Surface, found: &mut Found) {
    let Some(water) = surface.water.as_ref().filter(|_| !is_exempt(surface)) else {
        return;
    };
    // What a drain is led to is told of at the drain.
    let Outlet::Text(text) = &water.value else {
        return;
    };
    if let Some(taken_by) = TakenBy::of(text, context.region()) {
        let place = surface.entry("water").unwrap_or(water.place);
        found.add(finding(context, taken_by, place));
    }
}

fn drains(context: &Context<'_>, found: &mut Found) {
    let drains = context.job.drains.iter();
    for drain in drains.filter(|drain| drain.existing.is_none()) {
        // What runs over goes there in every storm beyond the one it is sized on.
        for (key, outlet) in [("to", &drain.to), ("overflow", &drain.overflow)] {
            let outlet = outlet.as_ref();
            let Some((outlet, text)) = outlet.and_then(|own| Some((own, own.value.text()?))) else {
                continue;
            };
            if let Some(taken_by) = TakenBy::of(text, context.region()) {
                let place = drain.entry(key).unwrap_or(outlet.place);
                found.add(finding(context, taken_by, place));
            }
        }
    }
}

fn finding(context: &Context<'_>, taken_by: TakenBy, place: Place) -> Finding {
    let soakaway = context.word(Term::Soakaway);
    let whose = match taken_by {
        TakenBy::Building => {
            let message = format!(
                "the water goes under a building or a deck: the ground there never dries, timber rots and footings settle. Lead it away, to a bed, a {soakaway} or a drain"
            );
            return OUTFALL_NEIGHBOUR.finding(place, message);
        }
        TakenBy::Neighbour => spelled_in(context.region(), "a neighbour's land").into_owned(),
        TakenBy::Footway => format!("the {}", context.word(Term::Footway)),
        TakenBy::FoulSewer => format!("a {} or septic tank", context.word(Term::FoulSewer)),
    };
    let message = format!(
        "the water goes to {whose}: it may not be sent there. Keep it on the site, in a bed, a {soakaway} or a drain"
    );
    OUTFALL_NEIGHBOUR.finding(place, message)
}

/// Where water goes that may not be sent there.
enum TakenBy {
    Neighbour,
    Footway,
    FoulSewer,
    Building,
}

impl TakenBy {
    fn of(text: &str, region: Region) -> Option<TakenBy> {
        // What stays on this side of the boundary, or is led away below it,
        // is named by its neighbour only.
        let is_kept = has_word(text, KEPT)
            || has_pair(text, &["dry"], &["well", "wells"])
            || has_pair(text, &["rain"], &["garden", "gardens"]);
        let is_led = has_word(text, LED);
        let is_foul = has_word(text, FOUL)
            || has_pair(text, WASTE, PIPE)
            || region == Region::Au && is_sewer_of_two(text);
        if is_foul && !is_kept {
            return Some(TakenBy::FoulSewer);
        }
        let is_neighbours = has_word(text, NEIGHBOUR)
            || has_pair(text, &["next"], DOOR)
            || has_pair(text, BESIDE, LAND)
            || is_over_boundary(text);
        match (is_kept || is_led, is_neighbours, has_word(text, FOOTWAY)) {
            (true, ..) => None,
            (_, true, _) => Some(TakenBy::Neighbour),
            (_, _, true) => Some(TakenBy::Footway),
            _ if has_word(text, BELOW_FLOOR) || has_pair(text, UNDER, HOUSE) => {
                Some(TakenBy::Building)
            }
            _ => None,
        }
    }
}

/// Whether a text names the sewer where foul water and rain have each their
/// own, or the gully through which the sewer spills.
fn is_sewer_of_two(text: &str) -> bool {
    let is_sewer = has_word(text, SEWER) || has_pair(text, RELIEF, &["gully", "gullies", "trap"]);
    is_sewer && !has_word(text, RAIN)
}

/// Whether a text says that water goes over the boundary, or names it alone.
fn is_over_boundary(text: &str) -> bool {
    let words = plain_words(text);
    let is_boundary = |words: &[String]| match words {
        [one, ..] if one == "boundary" => true,
        [one, two, ..] => matches!(one.as_str(), "lot" | "property") && two == "line",
        _ => false,
    };
    let is_alone = words.len() <= 2 && is_boundary(&words);
    is_alone
        || words.iter().enumerate().any(|(at, word)| {
            // `over the boundary`, `across the west boundary`.
            let rest = words.get(at + 1..).unwrap_or_default();
            let after_next = rest.get(1..).unwrap_or_default();
            OVER.contains(&word.as_str()) && (is_boundary(rest) || is_boundary(after_next))
        })
}

/// Whether one of some words is followed by one of others.
fn has_pair(text: &str, first: &[&str], second: &[&str]) -> bool {
    let words = plain_words(text);
    let mut pairs = words.iter().zip(words.iter().skip(1));
    pairs.any(|(one, two)| first.contains(&one.as_str()) && second.contains(&two.as_str()))
}

/// The words of a text without articles.
fn plain_words(text: &str) -> Vec<String> {
    let all = words(text).into_iter();
    all.filter(|word| !matches!(word.as_str(), "the" | "a" | "an"))
        .collect()
}

const FOUL: &[&str] = &[
    "foul", "sanitary", "septic", "cesspit", "cesspool", "sewage", "sewerage",
];

/// What in Australia is for foul water unless it is said to be for rain.
const SEWER: &[&str] = &["sewer", "sewers", "org"];

/// What the gully of an Australian house is called, through which the sewer
/// spills outside and not indoors.
const RELIEF: &[&str] = &["relief", "overflow", "sewer", "gully"];

const RAIN: &[&str] = &[
    "storm",
    "stormwater",
    "rain",
    "rainwater",
    "surface",
    "combined",
];

const DOOR: &[&str] = &["door", "door's", "doors"];

/// What carries foul water, and is called after it in two words.
const WASTE: &[&str] = &["soil", "waste"];

const PIPE: &[&str] = &["stack", "pipe", "pipes", "vent", "gully", "drain", "water"];

const UNDER: &[&str] = &["under", "below", "beneath", "underneath"];

const HOUSE: &[&str] = &["house", "floor", "building", "home", "kitchen", "extension"];

const BESIDE: &[&str] = &["adjacent", "adjoining", "abutting", "bordering", "next"];

const LAND: &[&str] = &[
    "property",
    "properties",
    "lot",
    "lots",
    "land",
    "garden",
    "gardens",
    "yard",
    "yards",
    "plot",
    "parcel",
    "owner",
    "owners",
];

const OVER: &[&str] = &["over", "across", "beyond", "past"];

const NEIGHBOUR: &[&str] = &[
    "neighbour",
    "neighbours",
    "neighbour's",
    "neighbours'",
    "neighbor",
    "neighbors",
    "neighbor's",
    "neighbors'",
    "neighbouring",
    "neighboring",
];

/// What lies under a floor or a deck.
const BELOW_FLOOR: &[&str] = &[
    "void",
    "deck",
    "decking",
    "crawl",
    "crawlspace",
    "subfloor",
    "sub-floor",
    "underfloor",
    "cellar",
    "basement",
    "lightwell",
    "foundation",
    "foundations",
    "footing",
    "footings",
];

const FOOTWAY: &[&str] = &["footway", "footpath", "sidewalk", "sidewalks", "pavement"];

/// What takes water on the site.
const KEPT: &[&str] = &[
    "bed",
    "beds",
    "border",
    "borders",
    "planting",
    "planted",
    "planter",
    "planters",
    "strip",
    "tree",
    "trees",
    "shrubs",
    "soakaway",
    "soakwell",
    "soakage",
    "swale",
    "hedge",
    "drywell",
    "agreed",
    "agreement",
    "easement",
];

/// What leads water away below the ground.
const LED: &[&str] = &["drain", "drains", "channel", "gully", "sewer", "inlet"];

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn where_water_may_not_go_is_read_from_the_words() {
        for (text, taken) in [
            ("the neighbour's drive", "neighbour"),
            ("next door", "neighbour"),
            ("adjacent property over the lot line", "neighbour"),
            ("the adjoining lot", "neighbour"),
            ("over the property line", "neighbour"),
            ("across the west boundary", "neighbour"),
            ("Lot line", "neighbour"),
            ("public footway", "footway"),
            ("sanitary sewer", "foul"),
            ("the foul drain", "foul"),
            ("septic field", "foul"),
            ("soil stack", "foul"),
            ("the waste pipe gully", "foul"),
            ("under the house", "building"),
            ("the foundation", "building"),
            ("planter beside the sidewalk", ""),
            ("dry well by the sidewalk", ""),
            ("rain garden along the footpath", ""),
            ("street tree pit", ""),
            ("bed under the kitchen window", ""),
            ("bed along the neighbour's fence", ""),
            ("drain under the sidewalk", ""),
            ("ditch at the west boundary", ""),
            ("lawn along the lot line", ""),
            ("swale short of the septic field", ""),
            ("storm sewer", ""),
            ("surface-water sewer over the boundary, by easement", ""),
            ("adjacent lawn", ""),
            ("the next property", "neighbour"),
            ("next-door's garden", "neighbour"),
            ("bordering lots", "neighbour"),
            ("the next bed", ""),
            ("bed in the next garden", ""),
            ("the sewer", ""),
            ("the overflow", ""),
            ("the gully", ""),
            ("the void under the deck", "building"),
            ("crawl space", "building"),
            ("deck drain", ""),
            ("planting bed beside the decking", ""),
        ] {
            for region in [Region::Us, Region::Uk, Region::General] {
                assert_eq!(told(text, region), taken, "{text}");
            }
        }
    }

    #[test]
    fn an_australian_sewer_is_for_foul_water() {
        for (text, taken) in [
            ("the sewer", "foul"),
            ("the sewer gully", "foul"),
            ("the overflow relief gully", "foul"),
            ("the gully trap", "foul"),
            ("the ORG", "foul"),
            ("sewage pipe", "foul"),
            ("the stormwater drain", ""),
            ("storm sewer", ""),
            ("the surface-water sewer", ""),
            ("the gully", ""),
            ("the overflow", ""),
            ("swale above the sewer", ""),
            ("soakwell beside the footpath", ""),
            ("the kerb", ""),
            ("the neighbour's drive", "neighbour"),
        ] {
            assert_eq!(told(text, Region::Au), taken, "{text}");
        }
    }

    fn told(text: &str, region: Region) -> &'static str {
        match TakenBy::of(text, region) {
            Some(TakenBy::Neighbour) => "neighbour",
            Some(TakenBy::Footway) => "footway",
            Some(TakenBy::FoulSewer) => "foul",
            Some(TakenBy::Building) => "building",
            None => "",
        }
    }
}
