//! Each flight of steps from the side, cut along its climb: treads, risers,
//! core and base to scale, what lies at its foot and its top, and the level of
//! each nosing.

mod layout;
mod profile;
mod side;

use layout::Layout;
use profile::Profile;
use side::Side;

use super::display_list::Drawing;
use super::further::Further;
use super::sheet::Sheet;
use super::surround::About;
use crate::analysis::Analysis;
use crate::geometry::Point;
use crate::text::capital;

/// How many sheets the flights of a job take.
pub(crate) fn count(analysis: &Analysis, sheet: &Sheet) -> usize {
    let profiles = profiles(analysis);
    Layout::of(&profiles, analysis, sheet).pages.len()
}

/// The flights of a job on sheets like the plan's; none where none is known.
/// `before` sheets come before them, and there are `count` in all.
pub(crate) fn flights(
    analysis: &Analysis,
    source: &str,
    sheet: &Sheet,
    (before, count): (usize, usize),
) -> Vec<Drawing> {
    let profiles = profiles(analysis);
    let layout = Layout::of(&profiles, analysis, sheet);
    let drawn = layout.pages.iter().enumerate().map(|(index, blocks)| {
        let mut further = Further::new(analysis);
        for block in blocks {
            let own = block.profile.own;
            let corner = Point::new(layout.left, block.top);
            let name = capital(&own.name.value.replace('-', " "));
            further.heading(Some(own.place), &name, corner, layout.width);
            Side::of(&layout, block).draw(&mut further);
            unknown(&mut further, block.profile);
        }
        if sheet.is_bare {
            further.say_legend();
        }
        let about = About {
            source,
            drawing: "Steps, cut along their climb",
            scale: &layout.scale,
            sheet,
            number: (before + index + 1, count),
            has_levels: true,
        };
        further.finish(analysis, &about, "steps")
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
fn unknown(further: &mut Further, profile: &Profile<'_>) {
    let own = profile.own;
    let stated = [
        ("treads", own.tread.is_some()),
        ("risers", own.riser.is_some()),
        ("core", own.core.is_some()),
        ("base", own.base.is_some()),
    ];
    let is_drawn = |word: &str| profile.parts.iter().any(|part| part.word == word);
    let of = |wanted: bool| -> Vec<&str> {
        let left = stated.iter().filter(|(word, is_stated)| {
            let has_none = *word == "treads" && profile.flight.treads() == 0;
            *is_stated == wanted && !is_drawn(word) && !has_none
        });
        left.map(|(word, _)| *word).collect()
    };
    let name = &own.name.value;
    let (lost, missing) = (of(true), of(false));
    if !lost.is_empty() {
        let lost = lost.join(", ");
        further.note(format!("{name}: not drawn, for want of a size: {lost}."));
    }
    if !missing.is_empty() {
        let missing = missing.join(", ");
        further.note(format!("{name}: not stated, and not drawn: {missing}."));
    }
}
