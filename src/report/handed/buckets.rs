//! A batch by the bucket: how often one bucket is filled with each thing, and
//! where its mark stands.

use super::plain;
use crate::quantities::MixFigures;
use crate::units::unit::{GALLON, LITRE, Unit};
use crate::units::{System, show};

/// The bucket of a building site, in litres and in gallons: common practice,
/// no source.
const LITRES: f64 = 14.0;
const GALLONS: f64 = 5.0;
/// The most fills of one thing that are told: more are counted by the barrow.
const MOST: f64 = 60.0;
/// How far a ratio of volumes may lie off whole fills.
const OFF: f64 = 0.01;
/// How fine a mark on a bucket is, litres or gallons: the first of which it
/// holds ten, so that rounding moves no batch by more than a twentieth.
const MARKS: [f64; 5] = [0.5, 0.25, 0.1, 0.05, 0.01];

/// The fills of a batch.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Fills {
    /// How often the bucket is filled with each ingredient, in their order.
    pub counts: Vec<u32>,
    /// What so many fills hold of each, by the mark that is told: `17 gal`.
    pub volumes: Vec<String>,
    /// How it is filled, in a sentence.
    pub words: String,
}

/// The fills of a batch that is a share of all that is mixed; `None` where a
/// volume is not known, or no mark on one bucket measures them all.
pub(crate) fn fills(figures: &MixFigures, share: f64, system: System) -> Option<Fills> {
    fills_of(&volumes(figures), share, system)
}

/// The loose volume of each ingredient, in cubic metres.
fn volumes(figures: &MixFigures) -> Vec<Option<f64>> {
    let ingredients = figures.ingredients.iter();
    ingredients.map(|own| own.loose_volume_m3).collect()
}

fn fills_of(volumes: &[Option<f64>], share: f64, system: System) -> Option<Fills> {
    let (unit, word, bucket, coarsest): (&Unit, _, _, _) = match system {
        System::Metric => (&LITRE, "L", LITRES, 0.5),
        System::Imperial => (&GALLON, "gal", GALLONS, 0.25),
    };
    let (part_m3, parts) = parts(volumes)?;
    let part = unit.from_base(part_m3 * share);
    let times = (part / bucket - 1e-9).ceil().max(1.0);
    let mark = part / times;
    let counts: Vec<f64> = parts.iter().map(|own| own * times).collect();
    if counts.iter().any(|count| *count > MOST) {
        return None;
    }
    // The mark may be rounded: it is the same for all, and so are the parts.
    let mut marks = MARKS.into_iter().filter(|round| *round <= coarsest);
    let round = marks.find(|round| mark >= 10.0 * round)?;
    let shown = (mark / round).round() * round;
    let amount = |volume: f64| format!("{} {word}", show::number(volume));
    let words = match (shown - bucket).abs() < 1e-9 {
        true => format!(
            "One bucket of {} for all, struck off at its rim.",
            amount(bucket)
        ),
        false => format!(
            "One bucket of {} for all, struck off at a mark at {}.",
            amount(bucket),
            amount(shown)
        ),
    };
    Some(Fills {
        volumes: counts.iter().map(|count| amount(count * shown)).collect(),
        counts: counts.into_iter().map(|count| count as u32).collect(),
        words: format!(
            "{words} The size of the bucket is assumed (common practice, no source); with another \
             one the parts stay, and only the batch grows or shrinks."
        ),
    })
}

/// The parts by volume, for a mix of which no batch is stated: whatever is
/// filled alike with each keeps them.
pub(crate) fn parts_in_words(figures: &MixFigures) -> Option<String> {
    let (_, parts) = parts(&volumes(figures))?;
    if parts.len() < 2 || parts.iter().any(|part| *part > MOST) {
        return None;
    }
    let all = parts.iter().zip(&figures.ingredients);
    let all: Vec<String> = all
        .map(|(part, own)| format!("{} {}", show::number(*part), plain(&own.material)))
        .collect();
    Some(format!(
        "By any bucket, filled alike each time: {}.",
        all.join(" to ")
    ))
}

/// What one part is in cubic metres of all that is mixed, and how many whole
/// parts of it each ingredient is; `None` where a volume is not known, or they
/// make no whole parts.
fn parts(volumes: &[Option<f64>]) -> Option<(f64, Vec<f64>)> {
    let volumes: Option<Vec<f64>> = volumes.iter().copied().collect();
    let volumes = volumes.filter(|all| !all.is_empty() && all.iter().all(|own| *own > 0.0))?;
    let least = volumes.iter().copied().fold(f64::INFINITY, f64::min);
    // So many parts of the least make whole parts of all.
    let times = (1..=4).map(f64::from).find(|times| {
        volumes.iter().all(|own| {
            let parts = own / least * times;
            (parts - parts.round()).abs() <= OFF * parts
        })
    })?;
    let part = least / times;
    let parts = volumes.iter().map(|own| (own / part).round());
    Some((part, parts.collect()))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn in_litres(litres: &[Option<f64>]) -> Vec<Option<f64>> {
        let cubic = |litres: &Option<f64>| litres.map(|litres| litres / 1000.0);
        litres.iter().map(cubic).collect()
    }

    fn counts(volumes: &[Option<f64>]) -> Option<Vec<u32>> {
        fills_of(&in_litres(volumes), 1.0, System::Metric).map(|fills| fills.counts)
    }

    #[test]
    fn whole_fills_of_one_bucket_keep_the_parts() {
        for (litres, expected) in [
            (vec![12.0, 48.0], vec![1, 4]),
            // Two fills of 10 L rather than a mark over the rim.
            (vec![20.0, 80.0], vec![2, 8]),
            (vec![14.0, 42.0], vec![1, 3]),
            // 1 : 2.5 is 2 : 5.
            (vec![12.0, 30.0], vec![2, 5]),
            (vec![10.0, 20.0, 40.0], vec![1, 2, 4]),
        ] {
            let litres: Vec<Option<f64>> = litres.into_iter().map(Some).collect();
            assert_eq!(counts(&litres), Some(expected), "{litres:?}");
        }
        for none in [
            vec![],
            vec![Some(12.0), None],
            vec![Some(12.0), Some(0.0)],
            vec![Some(12.0), Some(29.3)],
            vec![Some(0.01), Some(0.04)],
            vec![Some(1400.0), Some(5600.0)],
        ] {
            assert_eq!(counts(&none), None, "{none:?}");
        }
    }

    #[test]
    fn the_mark_is_said() {
        let described = |litres: f64| {
            let volumes = in_litres(&[Some(litres), Some(3.0 * litres)]);
            let found = fills_of(&volumes, 1.0, System::Metric);
            found.expect("fills").words
        };
        assert!(
            described(12.3)
                .starts_with("One bucket of 14 L for all, struck off at a mark at 12.5 L.")
        );
        assert!(described(14.0).starts_with("One bucket of 14 L for all, struck off at its rim."));
    }

    #[test]
    fn fills_hold_what_the_mark_says() {
        for (gallons, mark, expected) in [
            ([4.27, 17.08], "4.25 gal", ["4.25 gal", "17 gal"]),
            ([4.3, 12.9], "4.25 gal", ["4.25 gal", "12.75 gal"]),
            ([0.21, 0.63], "0.21 gal", ["0.21 gal", "0.63 gal"]),
        ] {
            let volumes = gallons.map(|gallons| Some(GALLON.size().to_f64() * gallons));
            let fills = fills_of(&volumes, 1.0, System::Imperial).expect("fills");
            assert_eq!(fills.volumes, expected);
            assert!(fills.words.contains(&format!("a mark at {mark}.")));
        }
    }
}
