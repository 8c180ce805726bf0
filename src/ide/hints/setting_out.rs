//! Lengths that set the job out.

use super::HintKind;
use super::collecting::{Collecting, HintOf};
use crate::findings::Place;
use crate::quantities::{self, BoardLies, BoardMark};
use crate::units::show;

/// How far the marks are apart, and in how many parts pegs part an edge.
pub(crate) fn add_lengths(hints: &mut Collecting<'_>) {
    let (analysis, system) = (hints.analysis, hints.system);
    let job = &analysis.job;
    let Some(own) = &job.setting_out else { return };
    let length = |metres: f64| show::length(metres, system);
    if let Some(marks) = &own.marks {
        let (first, second) = marks.value;
        hints.add(HintKind::Areas, HintOf::Itself, marks.place, || {
            Some(format!("{} apart", length(first.distance(second))))
        });
    }
    let mut entries: Vec<(Place, Vec<String>)> = Vec::new();
    for pegs in &own.pegs {
        let shape = job.surfaces.get(pegs.surface);
        let shape = shape.and_then(|surface| surface.shape.as_ref());
        let Some(outline) = shape.and_then(|shape| shape.value.outline.as_ref()) else {
            continue;
        };
        let edges = pegs.edges.iter().flat_map(|tag| outline.edges_tagged(*tag));
        let parts = edges.map(|edge| {
            let count = pegs.parts_of(edge.length());
            let each = length(edge.length() / f64::from(count));
            format!("{count} parts of {each}")
        });
        let parts: Vec<String> = parts.collect();
        let place = pegs.spacing.place;
        match entries.iter_mut().find(|(own, _)| *own == place) {
            Some((_, all)) => all.extend(parts),
            None => entries.push((place, parts)),
        }
    }
    for (place, parts) in entries {
        hints.add(HintKind::Areas, HintOf::Itself, place, || {
            Some(parts.join(" · "))
        });
    }
}

/// What the steepest fall of each surface comes to under the board.
pub(crate) fn add_board(hints: &mut Collecting<'_>) {
    let (analysis, system) = (hints.analysis, hints.system);
    let job = &analysis.job;
    let setting_out = job.setting_out.as_ref();
    if let Some(board) = setting_out.and_then(|own| own.board.as_ref()) {
        hints.add(HintKind::Falls, HintOf::Itself, board.place, || {
            let found = quantities::setting_out(job);
            let marks = found.surfaces.iter().filter_map(|surface| {
                // Of what falls to a drain, from the edge that lies farthest.
                let slope = |mark: &&BoardMark| mark.slope;
                let mark = match surface.boards.first()?.lies {
                    BoardLies::From(_) => {
                        let all = surface.boards.iter();
                        all.min_by(|a, b| slope(a).total_cmp(&slope(b)))?
                    }
                    _ => surface.boards.first()?,
                };
                let down = show::length(mark.down_m, system);
                let least = matches!(mark.lies, BoardLies::From(_)).then_some(" at least");
                Some(format!(
                    "{} {down} down{}",
                    surface.name,
                    least.unwrap_or_default()
                ))
            });
            let marks: Vec<String> = marks.collect();
            (!marks.is_empty()).then(|| marks.join(" · "))
        });
    }
}
