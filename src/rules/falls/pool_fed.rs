//! `pool-fed`: paving whose water runs into a pool or a light well.

use crate::findings::Severity;
use crate::geometry::{Edge, Outline};
use crate::model::{Job, Surface};
use crate::quantities::Fate;
use crate::rules::wording::{has_word, words};
use crate::rules::{Bound, Check, Context, Family, Found, Limit, Rule};
use crate::sources::Source;
use crate::units::{Number, Quantity};
use crate::vocabulary::Term;

/// Decks of public pools in one state of America.
const POOL_DECKS: Source = Source::second_hand(
    "US state rules for public pools (Idaho, 16.02.14)",
    "111, decks sloped so that what runs off them does not enter the pool; printed by a legal database",
);

/// Paving whose water runs into a pool or a light well.
pub(crate) static POOL_FED: Rule = Rule {
    name: "pool-fed",
    family: Family::Falls,
    severity: Severity::Warning,
    looks_at: "How much of a surface's water runs over its edges into a shape that is named for a pool, a spa or a light well. Not of a surface that says its water goes there.",
    reason: "Rain washes soil, sand and lime off paving into the pool, and fills a light well up to the window.",
    remedy: "Let the paving fall away from it, or put a channel along it.",
    limits: &[Limit::practice(
        "share",
        "the share of a surface's water that runs into a pool or a light well",
        Bound::Most,
        &["10 %"],
    )],
    sources: &[POOL_DECKS, Source::COMMON_PRACTICE],
    breaks: "\
shape pool
  rectangle    3 m by 1.5 m, at (1.5 m, 1 m)

shape court
  rectangle    6 m by 4 m
  cut          pool

surface court
  «fall         1:50 away from north»
",
    keeps: "\
shape pool
  rectangle    3 m by 1.5 m, at (1.5 m, 1 m)

shape court
  rectangle    6 m by 4 m
  cut          pool

surface court
  fall         1:50 away from north
  channel      along pool.north
",
    mended: None,
    check: Check::Job(check),
};

fn check(context: &Context<'_>, found: &mut Found) {
    let pits: Vec<Pit<'_>> = pits(context.job).collect();
    if pits.is_empty() {
        return;
    }
    let known = context.water();
    for (surface, water) in context.job.surfaces.iter().zip(&known.surfaces) {
        let Some(ways) = &water.ways else {
            continue;
        };
        for pit in &pits {
            let off = ways.iter().filter(|way| matches!(way.fate, Fate::Off));
            let shares = off.filter_map(|way| Some(way.share * beside(surface, way.edge?, pit)));
            told(context, surface, pit, shares.sum(), found);
        }
    }
}

fn told(context: &Context<'_>, surface: &Surface, pit: &Pit<'_>, share: f64, found: &mut Found) {
    let Some(limit) = context.limit(&POOL_FED, "share") else {
        return;
    };
    let water = surface.water.as_ref().and_then(|own| own.value.text());
    let is_meant = water.is_some_and(|text| has_word(text, &[pit.what.as_str()]));
    if limit.allows_si(share) || is_meant {
        return;
    }
    let shown = limit.beside_si(share, context.system());
    let message = format!(
        "{shown} of the water from {} runs into {}. {} is the most: let it fall away from it, or put a {} along it",
        surface.name.value,
        pit.name,
        limit.shown(context.system()),
        context.word(Term::Channel)
    );
    let place = surface.fall.as_ref().map(|fall| fall.place);
    found.add(
        POOL_FED
            .finding(place.unwrap_or(surface.name.place), message)
            .found(shown, Number::near(share).map(Quantity::proportion))
            .against(&limit, context),
    );
}

/// What water must not run into: a shape that nothing covers.
struct Pit<'a> {
    name: &'a str,
    /// The word that says what it is.
    what: String,
    outline: &'a Outline,
}

fn pits(job: &Job) -> impl Iterator<Item = Pit<'_>> {
    let is_covered = |name: &str| {
        let mut surfaces = job.surfaces.iter();
        surfaces.any(|own| {
            let shape = own.shape.as_ref();
            shape.is_some_and(|shape| shape.value.name.value == name)
        })
    };
    let shapes = job.shapes.values();
    shapes.filter_map(move |shape| {
        let name = shape.name.value.as_str();
        let what = pit(name).filter(|_| !is_covered(name))?;
        let outline = shape.outline.as_ref()?;
        Some(Pit {
            name,
            what,
            outline,
        })
    })
}

/// What holds bathing water.
const POOLS: &[&str] = &["pool", "spa", "tub", "plunge"];

/// What lies before a window below the ground.
const WELLS: &[&str] = &["lightwell", "areaway"];

/// The word by which a name is that of a pool or a light well: its last, so
/// that a `pool-house` is a house.
fn pit(name: &str) -> Option<String> {
    let mut words = words(name);
    while words.last()?.bytes().all(|letter| letter.is_ascii_digit()) {
        words.pop();
    }
    let last = words.pop()?;
    let before = words.last().map(String::as_str);
    let is_well = last == "well" && matches!(before, Some("light" | "window"));
    let is_pit = is_well || POOLS.contains(&last.as_str()) || WELLS.contains(&last.as_str());
    is_pit.then_some(last)
}

/// So many points along an edge are looked at.
const POINTS: u32 = 16;

/// How far past an edge, in metres, is still beside it.
const PAST: f64 = 0.02;

/// The part of a shape's edge over which water falls into a pit.
fn beside(surface: &Surface, edge: u32, pit: &Pit<'_>) -> f64 {
    let is_of_it = |stretch: &&Edge| {
        let side = surface.sides.get(stretch.tag as usize);
        side.is_some_and(|side| side.edge == edge) && surface.is_free(stretch.tag)
    };
    let (mut within, mut all) = (0.0, 0.0);
    for stretch in surface.edges().filter(is_of_it) {
        let length = stretch.length();
        let over = |point: u32| {
            let along = length * (f64::from(point) + 0.5) / f64::from(POINTS);
            let outward = stretch.direction_at(along).left() * -PAST;
            pit.outline.contains(stretch.point_at(along) + outward)
        };
        let count: f64 = (0..POINTS).filter(|point| over(*point)).map(|_| 1.0).sum();
        within += length * count / f64::from(POINTS);
        all += length;
    }
    if all > 0.0 { within / all } else { 0.0 }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn pools_are_known_by_the_last_word_of_their_name() {
        for (name, what) in [
            ("pool", Some("pool")),
            ("lap-pool", Some("pool")),
            ("pool-2", Some("pool")),
            ("hot-tub", Some("tub")),
            ("Window-well", Some("well")),
            ("lightwell", Some("lightwell")),
            ("pool-house", None),
            ("tree-well", None),
            ("poolside", None),
            ("2", None),
            ("", None),
        ] {
            assert_eq!(pit(name).as_deref(), what, "{name}");
        }
    }
}
