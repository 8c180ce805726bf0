//! A mix: how much of it, in how many batches, of what.

use super::sheet::Sheet;
use crate::model::{Measure, Mix};
use crate::quantities::{FigureRef, Ingredient, MixFigures};
use crate::report::columns::{Columns, Side};
use crate::report::trade::{UNKNOWN, mass, needed, sold, volume, water};
use crate::report::words::listed;
use crate::units::show;

/// A mix over the whole job.
pub(super) fn text(sheet: &Sheet<'_>, index: usize, figures: &MixFigures) -> String {
    let own = sheet.analysis.job.mixes.get(figures.name.as_str());
    let mut text = format!("MIX {}\n", figures.name);
    if let Some(own) = own {
        text += &sheet.labelled("made of", &recipe(own));
    }
    text += &sheet.labelled("volume", &volumes(sheet, figures));
    if let (Some(batches), Some(own)) = (figures.batches, own) {
        let size = own
            .batch
            .as_ref()
            .map(|batch| volume(batch.value.si(), sheet.system));
        let size = size.map_or(String::new(), |size| {
            format!(" of {size}, the last perhaps not full")
        });
        text += &sheet.labelled("batches", &format!("{}{size}", show::number(batches)));
    }
    text += &ingredients(sheet, figures);
    text + &sheet.workings([FigureRef::Gauging(index), FigureRef::Mix(index)])
}

/// The parts and how they are mixed, in words.
fn recipe(own: &Mix) -> String {
    let parts = own.parts.iter();
    let parts: Vec<String> = parts
        .map(|part| {
            format!(
                "{} {}",
                show::number(part.amount.value.si()),
                part.name.value
            )
        })
        .collect();
    let measure = match own.measure {
        Measure::Volume => "by loose volume",
        Measure::Weight => "by weight",
    };
    let uses: Vec<&str> = own.uses.iter().map(|stated| stated.value.word()).collect();
    let uses = match uses.is_empty() {
        true => String::new(),
        false => format!(", for {}", listed(&uses)),
    };
    let wet = own
        .consistency
        .as_ref()
        .map(|stated| format!(", {}", stated.value.word()));
    match parts.is_empty() || own.are_parts_unread {
        true => UNKNOWN.to_owned(),
        false => format!(
            "{} {measure}{}{uses}",
            parts.join(" : "),
            wet.unwrap_or_default()
        ),
    }
}

fn volumes(sheet: &Sheet<'_>, figures: &MixFigures) -> String {
    match (figures.volume_m3, figures.mixed_m3) {
        (Some(0.0), _) => "none: nothing uses it".to_owned(),
        (Some(place), Some(mixed)) if mixed > place => {
            let (place, mixed) = (volume(place, sheet.system), volume(mixed, sheet.system));
            format!("{place} in place, {mixed} to be mixed with waste")
        }
        (Some(place), _) => format!("{} in place", volume(place, sheet.system)),
        _ => UNKNOWN.to_owned(),
    }
}

fn ingredients(sheet: &Sheet<'_>, figures: &MixFigures) -> String {
    let is_used = figures.volume_m3.is_none_or(|volume| volume > 0.0);
    if figures.ingredients.is_empty() || !is_used {
        return String::new();
    }
    let system = sheet.system;
    let mut columns = Columns::new(&[
        ("ingredient", Side::Left),
        ("mass", Side::Right),
        ("loose", Side::Right),
        ("in packs", Side::Right),
    ]);
    for ingredient in &figures.ingredients {
        let unknown = || UNKNOWN.to_owned();
        columns.row([
            sheet.marked(&ingredient.material),
            ingredient
                .mass_kg
                .map_or_else(unknown, |value| mass(value, system)),
            ingredient
                .loose_volume_m3
                .map_or_else(unknown, |value| volume(value, system)),
            packs(ingredient),
        ]);
    }
    let kilograms = figures.water_kg;
    columns.row([
        "water".to_owned(),
        kilograms.map_or_else(|| UNKNOWN.to_owned(), |value| mass(value, system)),
        kilograms.map_or_else(|| UNKNOWN.to_owned(), |value| water(value, system)),
    ]);
    format!("\n{}", columns.within(sheet.layout.width))
}

/// How many packs an ingredient comes to, not yet rounded up for the order.
fn packs(ingredient: &Ingredient) -> String {
    match (ingredient.packs, &ingredient.pack) {
        (Some(packs), Some(word)) => {
            let word = sold(2.0, word);
            let word = word.split_once(' ').map_or("", |(_, word)| word);
            format!("{} {word}", needed(packs))
        }
        _ => String::new(),
    }
}
