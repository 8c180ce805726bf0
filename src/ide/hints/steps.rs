//! What a flight of steps comes to.

use super::HintKind;
use super::collecting::{Collecting, HintOf};
use crate::quantities::{FigureRef, StepsFigure, StepsFigures, StepsPart};
use crate::units::{System, show};

/// At the heading of a flight its risers, its run and how steep it is.
pub(crate) fn add_flights(hints: &mut Collecting<'_>) {
    let (analysis, system) = (hints.analysis, hints.system);
    let all = analysis.job.steps.iter().zip(analysis.figures.steps.iter());
    for (steps, (own, figures)) in all.enumerate() {
        let of = HintOf::Figure(FigureRef::Steps {
            steps,
            figure: StepsFigure::Flight,
        });
        hints.add(HintKind::Areas, of, own.place, || in_short(figures, system));
    }
}

/// `3 risers of 150 mm · run 700 mm · 23.2°`.
fn in_short(figures: &StepsFigures, system: System) -> Option<String> {
    let flight = figures.flight.as_ref()?;
    let risers = match flight.risers {
        1 => "1 riser".to_owned(),
        more => format!("{more} risers"),
    };
    Some(format!(
        "{risers} of {} · run {} · {}",
        show::length(flight.riser_m, system),
        show::length(flight.run_m, system),
        show::angle(flight.pitch_degrees)
    ))
}

/// At what a flight is built of: pieces, mass and volume.
pub(crate) fn add_parts(hints: &mut Collecting<'_>) {
    let (analysis, system) = (hints.analysis, hints.system);
    let all = analysis.job.steps.iter().zip(analysis.figures.steps.iter());
    for (steps, (own, figures)) in all.enumerate() {
        for (figure, part) in [
            (StepsFigure::Treads, &figures.treads),
            (StepsFigure::Bed, &figures.bed),
            (StepsFigure::Facing, &figures.facing),
            (StepsFigure::Core, &figures.core),
            (StepsFigure::Base, &figures.base),
        ] {
            let Some(part) = part else { continue };
            let of = HintOf::Figure(FigureRef::Steps { steps, figure });
            let place = figure.place(own);
            hints.add(HintKind::Layers, of, place, || label(part, system));
        }
    }
}

fn label(part: &StepsPart, system: System) -> Option<String> {
    let pieces = part.pieces.map(|pieces| {
        let noun = if pieces == 1.0 { "piece" } else { "pieces" };
        format!("{} {noun}", show::number(pieces))
    });
    let mass = part.mass_kg.map(|mass| show::mass(mass, system));
    let loose = part.loose_volume_m3;
    let loose = loose.map(|loose| format!("{} loose", show::volume(loose, system)));
    let volume = part.volume_m3.map(|volume| show::volume(volume, system));
    let area = part.area_m2.filter(|_| part.volume_m3.is_none());
    let area = area.map(|area| show::area(area, system));
    let parts = [pieces, mass, loose.or(volume), area].into_iter().flatten();
    let parts: Vec<String> = parts.collect();
    (!parts.is_empty()).then(|| parts.join(" · "))
}
