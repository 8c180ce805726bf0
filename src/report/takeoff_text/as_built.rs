//! What was measured, beside what is designed.

use super::sheet::Sheet;
use crate::quantities::{FigureRef, MeasuredFigures, PointMeasured, Takes, Water};
use crate::report::columns::{Columns, Side};
use crate::report::trade::{UNKNOWN, volume};
use crate::report::words::wrapped;
use crate::rules::most_off;
use crate::units::{System, show};
use crate::vocabulary::{Top, compass_word};

/// Everything that was measured; empty if nothing was.
pub(super) fn text(sheet: &Sheet<'_>) -> String {
    let figures = sheet.analysis.figures.measured.iter().enumerate();
    let parts = figures.map(|(index, own)| {
        let on = sheet.analysis.job.measured.get(index);
        let on = on.and_then(|own| own.on.as_ref());
        let on = on.map_or(String::new(), |on| format!(", {}", on.value));
        let workings = sheet.workings([FigureRef::Measured(index)]);
        let head = format!("AS BUILT: {}{on}", own.what);
        let head = wrapped(&head, "", sheet.layout.width) + "\n";
        [
            head,
            sheet.labelled("of", &top_measured(own)),
            whole(sheet, own),
            points(sheet, own),
            workings,
        ]
        .concat()
    });
    let parts: Vec<String> = parts.collect();
    parts.join("\n")
}

/// Of which surface, and which top of it.
pub(in crate::report) fn top_measured(own: &MeasuredFigures) -> String {
    let name = match own.name.is_empty() {
        true => UNKNOWN,
        false => own.name.as_str(),
    };
    match own.top {
        Top::Finish => format!("{name}, finished surface"),
        Top::Dig => format!("{name}, bottom of the dig"),
        top => format!("{name}, top of the {}", top.word()),
    }
}

/// What holds of all the points together.
fn whole(sheet: &Sheet<'_>, own: &MeasuredFigures) -> String {
    let system = sheet.system;
    let mean = own.mean_m.map(|mean| off(mean, system));
    let mut text = sheet.labelled("on average", &mean.unwrap_or_else(|| UNKNOWN.to_owned()));
    let worst = own.worst_point();
    if let Some((point, worst)) = worst.filter(|_| own.points.len() > 1) {
        text += &sheet.labelled(
            "at worst",
            &format!("{} at {}", off(worst, system), at(point, system)),
        );
    }
    text += &sheet.labelled("falls as built", &fall_as_built(own));
    if own.top == Top::Finish {
        text += &sheet.labelled("water", &water_as_built(&own.water, system));
    }
    if let Some(takes) = &own.takes {
        text += &sheet.labelled("the next layer", &next_layer(takes, system));
    }
    text
}

/// How the plane through the points falls; a dash and why where there is none.
pub(in crate::report) fn fall_as_built(own: &MeasuredFigures) -> String {
    let Some(plane) = &own.plane else {
        return UNKNOWN.to_owned();
    };
    match plane.fall_direction() {
        Some(way) => format!(
            "{} {}",
            show::slope(plane.slope()),
            compass_word(way.bearing())
        ),
        None => "level".to_owned(),
    }
}

/// Whether water runs off between the readings.
pub(in crate::report) fn water_as_built(water: &Water, system: System) -> String {
    match water {
        Water::RunsOff => "runs off, from reading to reading".to_owned(),
        Water::Stands { at, depth_m } => format!(
            "stands at least {} deep at ({}, {})",
            show::read_off(*depth_m, system),
            show::read_off(at.x, system),
            show::read_off(at.y, system)
        ),
        Water::Unknown(why) => format!("{UNKNOWN} {why}"),
    }
}

/// What the next layer makes up.
pub(in crate::report) fn next_layer(takes: &Takes, system: System) -> String {
    let thick = |metres: f64| show::read_off(metres, system);
    let none = volume(0.0, system);
    let more = takes.more_m3.map(|more| match volume(more.abs(), system) {
        amount if amount == none => String::new(),
        amount if more > 0.0 => format!(", {amount} more of it"),
        amount => format!(", {amount} less of it"),
    });
    format!(
        "{} of {}, {} as designed, comes out {} on average, from {} to {}{}",
        takes.role.word(),
        takes.material,
        thick(takes.designed_m),
        thick(takes.mean_m),
        thick(takes.least_m),
        thick(takes.greatest_m),
        more.unwrap_or_default()
    )
}

fn points(sheet: &Sheet<'_>, own: &MeasuredFigures) -> String {
    let system = sheet.system;
    if own.points.is_empty() {
        return String::new();
    }
    let mut columns = Columns::new(&[
        ("at", Side::Left),
        ("level", Side::Right),
        ("design", Side::Right),
        ("off", Side::Right),
        ("to do", Side::Left),
    ]);
    let region = sheet.analysis.job.heading.region();
    let most = most_off(&sheet.analysis.limits, own.top, region).unwrap_or(0.0);
    for point in &own.points {
        let known = |value: Option<f64>| {
            value.map_or_else(|| UNKNOWN.to_owned(), |value| show::read_off(value, system))
        };
        columns.row([
            at(point, system),
            known(point.level_m),
            known(point.design_m),
            point
                .off_m
                .map_or_else(|| UNKNOWN.to_owned(), |own| off(own, system)),
            point
                .off_m
                .filter(|off| own.top != Top::Finish && off.abs() > most)
                .map_or_else(String::new, |off| to_do(own.top, off, system)),
        ]);
    }
    format!("\n{}", columns.within(sheet.layout.width))
}

fn at(point: &PointMeasured, system: System) -> String {
    let (east, north) = (
        show::read_off(point.at.x, system),
        show::read_off(point.at.y, system),
    );
    format!("({east}, {north})")
}

/// How far off: `8 mm high`, `1/4" low`, `as designed`.
fn off(metres: f64, system: System) -> String {
    let zero = show::read_off(0.0, system);
    match (show::read_off(metres.abs(), system), metres > 0.0) {
        (size, _) if size == zero => "as designed".to_owned(),
        (size, true) => format!("{size} high"),
        (size, false) => format!("{size} low"),
    }
}

/// What to do about it before the next layer: `lower 28 mm`, `raise 1/2"`.
/// Nobody puts ground back under a base, and of a finish, which is lifted only
/// where it is too far off, the findings tell.
fn to_do(top: Top, off: f64, system: System) -> String {
    let zero = show::read_off(0.0, system);
    match (show::read_off(off.abs(), system), off > 0.0) {
        (size, _) if size == zero => String::new(),
        (size, true) => format!("lower {size}"),
        (size, false) if top == Top::Dig => format!("make up {size} with base"),
        (size, false) => format!("raise {size}"),
    }
}
