//! The cards for the mixer: what goes into one batch, and how many there are.

use super::buckets::{fills, parts_in_words};
use super::plain;
use crate::analysis::Analysis;
use crate::drawing::{Block, Column, Holds, Row, Table, buckets, crosses};
use crate::model::Mix;
use crate::quantities::MixFigures;
use crate::report::trade::{UNKNOWN, WATER, mass, needed, sold, volume};
use crate::report::words::counted;
use crate::text::capital;
use crate::units::unit::{GALLON, LITRE, POUND};
use crate::units::{System, show};

/// More batches than this are not crossed off one by one.
const CROSSED: u32 = 60;

/// A card for each mix that something uses.
pub(crate) fn cards(analysis: &Analysis) -> Vec<Block> {
    let mixes = analysis.figures.mixes.iter();
    let used = mixes.filter(|mix| mix.volume_m3.is_none_or(|volume| volume > 0.0));
    let mut blocks = Vec::new();
    for figures in used {
        if blocks.is_empty() {
            blocks.push(Block::Chapter);
            blocks.push(Block::Heading("For the mixer".to_owned()));
        }
        let own = analysis.job.mixes.get(figures.name.as_str());
        blocks.push(Block::Together(card(
            figures,
            own.map(AsRef::as_ref),
            analysis.job.heading.system(),
        )));
    }
    blocks
}

fn card(figures: &MixFigures, own: Option<&Mix>, system: System) -> Vec<Block> {
    let batch = own.and_then(|own| own.batch.as_ref());
    let batch_m3 = batch.map(|batch| batch.value.si());
    let share = batch_m3.and_then(|size| figures.batch_share(size));
    let mut blocks = vec![Block::Subheading(capital(&plain(&figures.name)))];
    let all = figures.mixed_m3.map(|mixed| volume(mixed, system));
    let all = all.unwrap_or_else(|| UNKNOWN.to_owned());
    let count = figures.batches.map(|batches| {
        let size = batch_m3
            .map(|size| volume(size, system))
            .unwrap_or_default();
        let batches = counted(batches as usize, "batch", "batches");
        format!("{batches} of {size}, the last perhaps not full; {all} in all.")
    });
    blocks.push(Block::Text(count.unwrap_or_else(|| {
        format!("{all} in all. How large a batch is, is not stated, so the table is for all of it.")
    })));
    let fills = share.and_then(|share| fills(figures, share, system));
    if let Some(fills) = &fills {
        let names = figures.ingredients.iter().map(|own| plain(&own.material));
        let each: Vec<(u32, String)> = fills.counts.iter().copied().zip(names).collect();
        blocks.push(Block::Figure(Box::new(buckets(&each))));
    }
    let of = share.map_or("In all", |_| "A batch");
    let columns = [
        (of, 5.0, Holds::Words),
        ("by mass", 3.0, Holds::MoreFigures),
        ("by loose volume", 3.0, Holds::Figures),
        ("in packs", 3.0, Holds::MoreFigures),
    ];
    let by_bucket = fills.as_ref().map(|_| ("by bucket", 3.0, Holds::Figures));
    let columns = columns
        .into_iter()
        .chain(by_bucket)
        .map(|(heading, share, holds)| Column {
            heading: heading.to_owned(),
            share,
            holds,
        });
    let part = share.unwrap_or(1.0);
    let unknown = || UNKNOWN.to_owned();
    let mut rows: Vec<Vec<String>> = figures
        .ingredients
        .iter()
        .enumerate()
        .map(|(index, own)| {
            let counts = fills.as_ref().and_then(|own| own.counts.get(index));
            let by_bucket = counts.map(|count| counted(*count as usize, "fill", "fills"));
            let packs = own.packs.zip(own.pack.as_ref());
            let packs = packs.map(|(packs, word)| packs_in_words(packs * part, word));
            // By the mark of the bucket where there is one: the two are one measure.
            let filled = fills
                .as_ref()
                .and_then(|own| own.volumes.get(index).cloned());
            let loose = own.loose_volume_m3.map(|loose| small(loose * part, system));
            vec![
                capital(&plain(&own.material)),
                own.mass_kg
                    .map_or_else(unknown, |own| weighed(own * part, system)),
                filled.or(loose).unwrap_or_else(unknown),
                packs.unwrap_or_default(),
                by_bucket.unwrap_or_default(),
            ]
        })
        .collect();
    let litres = figures
        .water_kg
        .map(|own| small(own * part / WATER, system));
    rows.push(vec![
        "Water, to begin with".to_owned(),
        String::new(),
        litres.unwrap_or_else(unknown),
        String::new(),
        String::new(),
    ]);
    let rows = rows.into_iter().map(|cells| Row {
        cells,
        is_total: false,
    });
    blocks.push(Block::Table(Table {
        columns: columns.collect(),
        rows: rows.collect(),
    }));
    let words = match (fills, share) {
        (Some(fills), _) => Some(fills.words),
        (None, Some(_)) => None,
        (None, None) => parts_in_words(figures),
    };
    blocks.extend(words.map(Block::Quiet));
    let batches = figures.batches.map(|batches| batches as u32);
    if let Some(batches) = batches.filter(|count| (2..=CROSSED).contains(count)) {
        blocks.push(Block::Text("Cross off each batch:".to_owned()));
        blocks.push(Block::Figure(Box::new(crosses(batches))));
    }
    blocks
}

/// A volume that is measured out in buckets or jugs: litres or gallons.
fn small(cubic_metres: f64, system: System) -> String {
    match system {
        System::Imperial => measured_out(GALLON.from_base(cubic_metres), "gal"),
        System::Metric => measured_out(LITRE.from_base(cubic_metres), "L"),
    }
}

/// To a half from ten on, to a tenth below, and to a hundredth below one.
fn measured_out(amount: f64, word: &str) -> String {
    let steps = match amount {
        below if below < 0.995 => 100.0,
        below if below < 9.95 => 10.0,
        _ => 2.0,
    };
    format!("{} {word}", show::number((amount * steps).round() / steps))
}

/// A mass that is weighed out, below ten kilograms or pounds as finely as a
/// volume is measured.
fn weighed(kilograms: f64, system: System) -> String {
    match system {
        System::Imperial if POUND.from_base(kilograms) < 9.95 => {
            measured_out(POUND.from_base(kilograms), "lb")
        }
        System::Metric if kilograms < 9.95 => measured_out(kilograms, "kg"),
        _ => mass(kilograms, system),
    }
}

fn packs_in_words(packs: f64, word: &str) -> String {
    let many = sold(2.0, word);
    let many = many.split_once(' ').map_or("", |(_, many)| many);
    format!("{} {many}", needed(packs))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn small_amounts_are_measured_finely() {
        for (amount, shown) in [
            (0.014, "0.01 L"),
            (0.27, "0.27 L"),
            (4.27, "4.3 L"),
            (17.08, "17 L"),
            (17.3, "17.5 L"),
        ] {
            assert_eq!(measured_out(amount, "L"), shown);
        }
        assert_eq!(weighed(0.31, System::Metric), "0.31 kg");
        assert_eq!(weighed(42.4, System::Metric), "42 kg");
    }
}
