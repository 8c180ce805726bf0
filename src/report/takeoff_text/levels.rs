//! The finished levels of a surface, and how it falls.

use super::sheet::{Sheet, labelled};
use crate::model::Surface;
use crate::quantities::SurfaceFigures;
use crate::report::trade::{UNKNOWN, area, length};
use crate::units::{System, show};

/// The area of a surface, its fall, its edges and the depth of its build.
pub(super) fn levels(sheet: &Sheet<'_>, own: &Surface, figures: &SurfaceFigures) -> String {
    [
        labelled("area", &size(figures, sheet.system)),
        labelled("fall", &fall(own, figures, sheet.system)),
        edges(sheet, figures),
        depth(figures, sheet.system),
    ]
    .concat()
}

fn size(figures: &SurfaceFigures, system: System) -> String {
    let of_shape = figures.shape.as_ref();
    let of_shape = of_shape.map_or(String::new(), |shape| format!(", of shape {shape}"));
    match (figures.area_m2, figures.perimeter_m) {
        (Some(inside), Some(edges)) => {
            let (inside, edges) = (area(inside, system), length(edges, system));
            format!("{inside} within {edges} of edge{of_shape}")
        }
        _ => UNKNOWN.to_owned(),
    }
}

fn fall(own: &Surface, figures: &SurfaceFigures, system: System) -> String {
    let fall = figures.fall.map_or_else(|| UNKNOWN.to_owned(), show::slope);
    let way = own.fall.as_ref().and_then(|fall| fall.away_from.as_ref());
    let way = way.map_or(String::new(), |(edge, _)| format!(" away from {edge}"));
    let drop = figures.drop_m.map(|drop| length(drop, system));
    let drop = drop.map_or(String::new(), |drop| format!("; the surface drops {drop}"));
    format!("{fall}{way}{drop}")
}

/// The levels of the high and of the low edge.
fn edges(sheet: &Sheet<'_>, figures: &SurfaceFigures) -> String {
    let system = sheet.system;
    let Some((high, low)) = figures.highest_m.zip(figures.lowest_m) else {
        return labelled("high edge", UNKNOWN) + &labelled("low edge", UNKNOWN);
    };
    let datum = sheet.analysis.job.site.datum.as_ref();
    let datum = datum.map_or(String::new(), |datum| format!(" ({})", datum.value));
    let step = figures.low_edge_step_m;
    let step = step.map_or(String::new(), |step| {
        format!("; {}", over_ground(step, system))
    });
    let (high, low) = (level(high, system), level(low, system));
    labelled("high edge", &(high + &datum)) + &labelled("low edge", &(low + &step))
}

/// The depth of the build, if it has one and that is known.
fn depth(figures: &SurfaceFigures, system: System) -> String {
    match figures.depth_m {
        Some(depth) => labelled(
            "build",
            &format!("{} from top to underside", length(depth, system)),
        ),
        None if figures.layers.is_empty() => String::new(),
        None => labelled("build", UNKNOWN),
    }
}

/// A level against the datum, in words.
fn level(metres: f64, system: System) -> String {
    let zero = length(0.0, system);
    match (length(metres.abs(), system), metres < 0.0) {
        (size, _) if size == zero => "at the datum".to_owned(),
        (size, true) => format!("{size} below the datum"),
        (size, false) => format!("{size} above the datum"),
    }
}

fn over_ground(step: f64, system: System) -> String {
    let zero = length(0.0, system);
    match (length(step.abs(), system), step < 0.0) {
        (size, _) if size == zero => "level with the ground there".to_owned(),
        (size, true) => format!("{size} below the ground there"),
        (size, false) => format!("a step of {size} above the ground there"),
    }
}
