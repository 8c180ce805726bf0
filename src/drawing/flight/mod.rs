//! Each flight of steps from the side, cut along its climb: treads, risers,
//! core and base to scale, what lies at its foot and its top, and the level of
//! each nosing.

mod layout;
mod profile;
mod side;

use layout::Layout;
use profile::Profile;
use side::Side;

use super::figure::{Figure, MOST_FIGURES, Sketch};
use crate::analysis::Analysis;
use crate::geometry::Point;
use crate::text::capital;

/// The flights of a job, each in so much room; none where none is known.
pub(crate) fn flights(analysis: &Analysis, room: (f64, f64)) -> Vec<Figure> {
    let mut profiles = profiles(analysis);
    let more = profiles.split_off(profiles.len().min(MOST_FIGURES)).len();
    let layout = Layout::of(&profiles, analysis.job.heading.system(), room);
    let drawn = profiles.iter().map(|profile| {
        let mut sketch = Sketch::new(analysis);
        let own = profile.own;
        let name = capital(&own.name.value.replace('-', " "));
        sketch.heading(Some(own.place), &name, Point::ORIGIN, layout.width);
        Side::of(&layout, profile).draw(&mut sketch);
        unknown(&mut sketch, profile);
        if more > 0 {
            sketch.note(format!(
                "No more than {MOST_FIGURES} flights are drawn: {more} further down are not."
            ));
        }
        Figure {
            is_clear: layout.is_clear(&profiles),
            ..sketch.figure(&layout.scale)
        }
    });
    drawn.collect()
}

fn profiles(analysis: &Analysis) -> Vec<Profile<'_>> {
    let job = &analysis.job;
    let all = job.steps.iter().zip(analysis.figures.steps.iter());
    all.filter_map(|(own, figures)| Profile::of(job, own, figures))
        .collect()
}

/// What is stated of a flight and cannot be drawn, or is not stated at all.
fn unknown(sketch: &mut Sketch, profile: &Profile<'_>) {
    let own = profile.own;
    let stated = [
        ("treads", own.tread.is_some()),
        ("bed", own.bed.is_some()),
        ("risers", own.riser.is_some()),
        ("core", own.core.is_some()),
        ("base", own.base.is_some()),
    ];
    let is_drawn = |word: &str| profile.parts.iter().any(|part| part.word == word);
    let of = |wanted: bool| -> Vec<&str> {
        let left = stated.iter().filter(|(word, is_stated)| {
            let has_none = match *word {
                "treads" => profile.flight.treads() == 0,
                // Treads may lie on their core as they are.
                "bed" => !*is_stated,
                _ => false,
            };
            *is_stated == wanted && !is_drawn(word) && !has_none
        });
        left.map(|(word, _)| *word).collect()
    };
    let name = &own.name.value;
    let [_, behind] = &profile.ends;
    let tread = own.tread.as_ref();
    let nosing = tread.and_then(|tread| tread.nosing.as_ref());
    if nosing.is_some() && behind.surface.is_some() {
        sketch.note(format!(
            "{name}: how far {} stands out over the top riser is not stated; it is drawn flush.",
            behind.name
        ));
    }
    let (lost, missing) = (of(true), of(false));
    if !lost.is_empty() {
        let lost = lost.join(", ");
        sketch.note(format!("{name}: not drawn, for want of a size: {lost}."));
    }
    if !missing.is_empty() {
        let missing = missing.join(", ");
        sketch.note(format!("{name}: not stated, and not drawn: {missing}."));
    }
}
