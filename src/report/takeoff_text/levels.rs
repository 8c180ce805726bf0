//! The finished levels of a surface, and how it falls.

use indexmap::IndexMap;

use super::sheet::Sheet;
use crate::model::Surface;
use crate::quantities::{EdgeLevels, SurfaceFigures};
use crate::report::bearing::bearing;
use crate::report::trade::{UNKNOWN, area, length};
use crate::units::{System, show};
use crate::vocabulary::Term;

/// The area of a surface, its fall, its edges and the depth of its build.
pub(super) fn levels(sheet: &Sheet<'_>, own: &Surface, figures: &SurfaceFigures) -> String {
    [
        sheet.labelled("area", &size(figures, sheet.system)),
        repeat(sheet, figures),
        sheet.labelled("fall", &fall(own, figures, sheet.system)),
        edges(sheet, own, figures),
        named_edges(sheet, figures),
        depth(sheet, figures),
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

/// How many there are of a shape that comes again, and how far apart.
fn repeat(sheet: &Sheet<'_>, figures: &SurfaceFigures) -> String {
    let Some(repeat) = &figures.repeat else {
        return String::new();
    };
    let each = area(repeat.each_m2, sheet.system);
    let centres = length(repeat.centres_m, sheet.system);
    let centres = Term::spacing(&centres, sheet.analysis.job.heading.region());
    let gap = length(repeat.gap_m, sheet.system);
    let words = format!("{} of {each}, {centres}, {gap} between them", repeat.count);
    sheet.labelled("in all", &words)
}

fn fall(own: &Surface, figures: &SurfaceFigures, system: System) -> String {
    if let (Some(to), Some((drop, least, most))) = (&own.fall_to, own.falls_to_drain()) {
        let drop = figures.drop_m.unwrap_or(drop);
        let (least, most) = (show::slope(least), show::slope(most));
        let slopes = match least == most {
            true => least,
            false => format!("{least} to {most}"),
        };
        let drop = length(drop, system);
        let to = &to.drain.value;
        return format!("{slopes} from every edge to {to}; the surface drops {drop}");
    }
    let fall = figures.fall.map_or_else(|| UNKNOWN.to_owned(), show::slope);
    let way = way(own, figures).map_or(String::new(), |way| format!(" {way}"));
    let drop = figures.drop_m.map(|drop| length(drop, system));
    let drop = drop.map_or(String::new(), |drop| format!("; the surface drops {drop}"));
    format!("{fall}{way}{drop}")
}

/// Which way the surface falls: away from the edge that the spec names, else by
/// the compass.
fn way(own: &Surface, figures: &SurfaceFigures) -> Option<String> {
    let fall = own.fall.as_ref().filter(|fall| fall.cross.is_none());
    match fall.and_then(|fall| fall.away_from.as_ref()) {
        Some((edge, _)) => Some(format!("away from {edge}")),
        None => Some(format!("toward {}", bearing(figures.toward?))),
    }
}

/// The finished level at each named edge: one where it is level, else those at
/// its ends, and of a curve the lowest and the highest between them.
fn named_edges(sheet: &Sheet<'_>, figures: &SurfaceFigures) -> String {
    let mut edges: IndexMap<&str, Vec<EdgeLevels>> = IndexMap::new();
    for levels in &figures.edge_levels {
        join(edges.entry(&levels.edge).or_default(), levels);
    }
    let of_edge = |(edge, runs): (&str, Vec<EdgeLevels>)| {
        if runs.len() > MOST_RUNS {
            return format!("{edge} {}", all_along(&runs, sheet.system));
        }
        let runs: Vec<String> = runs.iter().map(|run| along(run, sheet.system)).collect();
        format!("{edge} {}", runs.join(", "))
    };
    let parts: Vec<String> = edges.into_iter().map(of_edge).collect();
    match parts.is_empty() {
        true => String::new(),
        false => sheet.labelled_parts("levels at", &parts),
    }
}

/// The most runs of one edge that are told of one by one: of more, as of the
/// holes that stepping stones leave, nobody reads each.
const MOST_RUNS: usize = 4;

/// The lowest and the highest level of many runs.
fn all_along(runs: &[EdgeLevels], system: System) -> String {
    let lowest = runs
        .iter()
        .map(|run| run.lowest_m)
        .fold(f64::INFINITY, f64::min);
    let highest = runs.iter().map(|run| run.highest_m);
    let highest = highest.fold(f64::NEG_INFINITY, f64::max);
    let (lowest, highest) = (signed(lowest, system), signed(highest, system));
    match lowest == highest {
        true => lowest,
        false => format!("{lowest} to {highest} over {} pieces", runs.len()),
    }
}

/// Adds a piece of an edge to the runs along it: what goes on where another
/// stops is one run with it.
fn join(runs: &mut Vec<EdgeLevels>, piece: &EdgeLevels) {
    let meets = |one: f64, other: f64| (one - other).abs() < 1e-9;
    for run in runs.iter_mut() {
        if meets(run.end_m, piece.start_m) {
            run.end_m = piece.end_m;
        } else if meets(piece.end_m, run.start_m) {
            run.start_m = piece.start_m;
        } else {
            continue;
        }
        run.lowest_m = run.lowest_m.min(piece.lowest_m);
        run.highest_m = run.highest_m.max(piece.highest_m);
        return;
    }
    runs.push(piece.clone());
}

/// The levels along a run, each as the trade rounds it.
fn along(run: &EdgeLevels, system: System) -> String {
    let shown = |level| signed(level, system);
    let (start, end) = (shown(run.start_m), shown(run.end_m));
    let (highest, lowest) = (shown(run.highest_m), shown(run.lowest_m));
    // Where a ring starts is no place that anybody named.
    if start == end && highest != start && lowest != start {
        return format!("{highest} at its highest, {lowest} at its lowest");
    }
    let mut text = match start == end {
        true => start.clone(),
        false => format!("{start} to {end}"),
    };
    for (level, which) in [(run.highest_m, "highest"), (run.lowest_m, "lowest")] {
        let level = shown(level);
        if level != start && level != end {
            text += &format!(" ({level} at its {which})");
        }
    }
    text
}

/// A level against the datum with its sign: `-70 mm`, `+1.2 m`, `0 mm`.
pub(super) fn signed(metres: f64, system: System) -> String {
    let size = length(metres.abs(), system);
    match metres {
        _ if size == length(0.0, system) => size,
        below if below < 0.0 => format!("-{size}"),
        _ => format!("+{size}"),
    }
}

/// The levels of the high and of the low edge.
fn edges(sheet: &Sheet<'_>, own: &Surface, figures: &SurfaceFigures) -> String {
    let system = sheet.system;
    let names = match (own.facets.is_empty(), own.is_border()) {
        (true, _) => ["high edge", "low edge"],
        (false, true) => ["edges", "at the field"],
        (false, false) => ["edges", "at the drain"],
    };
    let Some((high, low)) = figures.highest_m.zip(figures.lowest_m) else {
        return names.map(|name| sheet.labelled(name, UNKNOWN)).concat();
    };
    let datum = sheet.analysis.job.site.datum.as_ref();
    let datum = datum.map_or(String::new(), |datum| format!(" ({})", datum.value));
    let steps = figures.low_edge_steps_m;
    let step = steps.map_or(String::new(), |(least, most)| {
        let (from, to) = (over_ground(least, system), over_ground(most, system));
        match () {
            () if from == to => format!("; {from}"),
            () if least > 0.0 => {
                let (least, most) = (length(least, system), length(most, system));
                format!("; a step of {least} to {most} above the ground along it")
            }
            () => format!("; from {from} to {to}"),
        }
    });
    let (high, low) = (level(high, system), level(low, system));
    let [first, second] = names;
    match own.facets.is_empty() {
        true => sheet.labelled(first, &(high + &datum)) + &sheet.labelled(second, &(low + &step)),
        false => sheet.labelled(first, &(high + &datum + &step)) + &sheet.labelled(second, &low),
    }
}

/// The depth of the build, if it has one and that is known.
fn depth(sheet: &Sheet<'_>, figures: &SurfaceFigures) -> String {
    match figures.depth_m {
        Some(depth) => sheet.labelled(
            "build",
            &format!("{} from top to underside", length(depth, sheet.system)),
        ),
        None if figures.layers.is_empty() => String::new(),
        None => sheet.labelled("build", UNKNOWN),
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
