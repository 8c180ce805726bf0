//! A flight of steps: how it climbs, what it is built of, its dig.

use super::levels::signed;
use super::sheet::Sheet;
use super::surface::dig_words;
use crate::model::Steps;
use crate::quantities::{FigureRef, Flight, StepsFigure, StepsFigures, StepsPart};
use crate::report::columns::{Columns, Side};
use crate::report::trade::{UNKNOWN, area, length, mass, volume};
use crate::report::words::counted;
use crate::units::{System, show};
use crate::vocabulary::Handrail;

/// A flight of steps.
pub(super) fn text(sheet: &Sheet<'_>, index: usize, figures: &StepsFigures) -> String {
    let of = |figure| FigureRef::Steps {
        steps: index,
        figure,
    };
    let system = sheet.system;
    let mut text = format!("STEPS {}\n", figures.name);
    match &figures.flight {
        Some(flight) => text += &flight_text(sheet, figures, flight),
        None => text += &sheet.labelled("flight", UNKNOWN),
    }
    text += &sheet.workings([of(StepsFigure::Flight)]);
    text += &parts(sheet, figures);
    let own = sheet.analysis.job.steps.get(index).map(AsRef::as_ref);
    let tread = tread_words(own, figures.treads.as_ref(), system);
    if !tread.is_empty() {
        text += &sheet.labelled_parts("each tread", &tread);
    }
    if let Some(words) = riser_words(figures, system) {
        text += &sheet.labelled("risers", &words);
    }
    text += &own.map_or_else(String::new, |own| beside(sheet, own));
    if figures.base.is_some() {
        text += &match &figures.dig {
            Some(dig) => {
                let region = sheet.analysis.job.heading.region();
                sheet.labelled_parts("dig", &dig_words(dig, system, region))
            }
            None => sheet.labelled("dig", UNKNOWN),
        };
    }
    let built = StepsFigure::ALL.into_iter().skip(1).map(of);
    text + &sheet.workings(built)
}

fn flight_text(sheet: &Sheet<'_>, figures: &StepsFigures, flight: &Flight) -> String {
    let system = sheet.system;
    let shown = |metres| length(metres, system);
    let count = counted(flight.risers as usize, "riser", "risers");
    let assumed = match flight.is_count_assumed {
        true => ", the fewest that the limits allow",
        false => "",
    };
    let mut text = sheet.labelled_parts(
        "risers",
        &[
            format!("{count} of {}{assumed}", shown(flight.riser_m)),
            format!("{} in all", shown(flight.rise_m)),
        ],
    );
    // Less than half a millimetre is no mark of the tape.
    if flight.odd_m >= 5e-4 {
        let mut words = format!("{} more, taken up by its bed", shown(flight.odd_m));
        if let Some((higher, riser)) = flight.shared_out(system) {
            let (others, low) = (flight.risers - higher, shown(flight.riser_m));
            words += &format!(
                "; or share it out: {higher} of {} and {others} of {low}",
                shown(riser)
            );
        }
        text += &sheet.labelled("lowest riser", &words);
    }
    text += &sheet.labelled_parts(
        "levels",
        &[
            format!("foot {}", signed(flight.foot_m, system)),
            format!("top {}", signed(flight.top_m, system)),
        ],
    );
    text += &sheet.labelled_parts(
        "going",
        &[
            format!(
                "{} of {}, run {}",
                counted(flight.treads() as usize, "tread", "treads"),
                shown(flight.going_m),
                shown(flight.run_m)
            ),
            format!("{} wide", shown(flight.width_m)),
        ],
    );
    text += &sheet.labelled_parts(
        "pitch",
        &[
            show::angle(flight.pitch_degrees),
            format!("two risers and a going make {}", shown(flight.stride_m)),
        ],
    );
    let surfaces = &sheet.analysis.job.surfaces;
    let on = figures.stands_on.iter().filter_map(|(index, covered)| {
        let name = &surfaces.get(*index)?.name.value;
        Some(format!("{} of {name}", area(*covered, system)))
    });
    let on: Vec<String> = on.collect();
    match on.is_empty() {
        true => text,
        false => text + &sheet.labelled_parts("stands on", &on),
    }
}

/// What the flight is built of as a table; empty if nothing is stated.
fn parts(sheet: &Sheet<'_>, figures: &StepsFigures) -> String {
    let mut columns = Columns::new(&[
        ("part", Side::Left),
        ("of", Side::Left),
        ("area", Side::Right),
        ("thickness", Side::Right),
        ("in place", Side::Right),
        ("loose", Side::Right),
        ("mass", Side::Right),
        ("pieces", Side::Right),
    ]);
    let all: Vec<(&str, &StepsPart)> = figures.parts().collect();
    if all.is_empty() {
        return String::new();
    }
    for (word, part) in all {
        columns.row(cells(sheet, word, part));
    }
    format!("\n{}\n", columns.within(sheet.layout.width))
}

fn cells(sheet: &Sheet<'_>, word: &str, part: &StepsPart) -> [String; 8] {
    let system = sheet.system;
    let known = |value: Option<f64>, shown: fn(f64, System) -> String| {
        value.map_or_else(|| UNKNOWN.to_owned(), |value| shown(value, system))
    };
    let if_any = |value: Option<f64>, shown: fn(f64, System) -> String| {
        value.map_or_else(String::new, |value| shown(value, system))
    };
    let is_core = word == "core";
    [
        word.to_owned(),
        sheet.marked(&part.material),
        match is_core {
            true => String::new(),
            false => known(part.area_m2, area),
        },
        if_any(part.thickness_m, length),
        known(part.volume_m3, volume),
        if_any(part.loose_volume_m3, volume),
        known(part.mass_kg, mass),
        part.pieces.map_or_else(String::new, show::number),
    ]
}

/// `pieces of 1200 mm by 375 mm, 48 kg each`, and how it falls.
fn tread_words(own: Option<&Steps>, part: Option<&StepsPart>, system: System) -> Vec<String> {
    let piece = part.and_then(|part| {
        let (along, deep) = part.piece_m?;
        let [along, deep] = show::sides([along, deep], system);
        let each = part
            .piece_kg
            .map(|one| format!(", {} each", mass(one, system)));
        Some(format!(
            "pieces of {along} by {deep}{}",
            each.unwrap_or_default()
        ))
    });
    let fall = own.and_then(|own| own.fall.as_ref());
    let fall = fall.map(|fall| format!("falls {} to its front", show::slope(fall.value.si())));
    piece.into_iter().chain(fall).collect()
}

/// How much of a riser shows, and the rises that whole courses make where
/// what is built is none of them.
fn riser_words(figures: &StepsFigures, system: System) -> Option<String> {
    let (part, flight) = (figures.facing.as_ref()?, figures.flight.as_ref()?);
    let shown = length(part.shown_m?, system);
    let built = length(flight.riser_m, system);
    let fitting = part.fitting_m.map(|(under, over)| {
        let (under, over) = (length(under, system), length(over, system));
        match built == under || built == over {
            true => ", in whole courses".to_owned(),
            false => format!("; whole courses make a rise of {under} or {over}"),
        }
    });
    Some(format!("{shown} shows{}", fitting.unwrap_or_default()))
}

/// The handrail, and the notes.
fn beside(sheet: &Sheet<'_>, own: &Steps) -> String {
    let handrail = own.handrail.as_ref().map(|handrail| match handrail.value {
        Handrail::Both => "both sides".to_owned(),
        side => format!("{} side", side.word()),
    });
    let handrail = handrail.map(|words| sheet.labelled("handrail", &words));
    let notes = own
        .notes
        .iter()
        .map(|note| sheet.labelled("note", &note.value));
    handrail.into_iter().chain(notes).collect()
}
