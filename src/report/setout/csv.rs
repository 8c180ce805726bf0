//! The setting out as a table for a spreadsheet or a total station: one point a
//! line, in metres and as the job's tape reads.

use super::words::{level, spot, stands, tape};
use crate::analysis::Analysis;
use crate::geometry::Point;
use crate::quantities::{Peg, Taping, WorkOn, setting_out};
use crate::report::Summary;
use crate::report::takeoff_csv::{harmless, number};
use crate::units::System;

/// The heads of the columns.
const HEADS: [&str; 18] = [
    "point",
    "number",
    "surface",
    "where",
    "east m",
    "north m",
    "level m",
    "from A m",
    "from B m",
    "side",
    "tapes cross deg",
    "east",
    "north",
    "level",
    "from A",
    "from B",
    "tapes fix it",
    "read",
];

/// A point of the table.
struct Line<'a> {
    kind: &'static str,
    number: String,
    surface: &'a str,
    stands: String,
    at: Point,
    level_m: Option<f64>,
    taping: Option<Taping>,
}

/// How a job is set out, as comma-separated values: the marks, the pegs of each
/// surface and its grid of levels, and the points of drains and steps, whose
/// names stand in the column of surfaces; a point with a grating has a line for
/// its invert and one for the grating. The first line has the heads, the next how
/// many errors the check finds. What is not known is left empty; so is what is
/// read on site.
pub fn setout_csv(analysis: &Analysis) -> String {
    let system = analysis.job.heading.system();
    let found = setting_out(&analysis.job);
    let mut table = csv::Writer::from_writer(Vec::new());
    // Writing into memory never fails.
    let _ = table.write_record(HEADS);
    let errors = Summary::standing(analysis).errors.to_string();
    let mut check = ["check", &errors, "", "errors"].to_vec();
    check.resize(HEADS.len(), "");
    let _ = table.write_record(check);
    let mut lines = Vec::new();
    let marks = found.marks.iter();
    for (name, at) in marks.flat_map(|marks| [("A", marks.first), ("B", marks.second)]) {
        lines.push(Line {
            kind: "mark",
            number: name.to_owned(),
            surface: "",
            stands: String::new(),
            at,
            level_m: None,
            taping: None,
        });
    }
    for own in &found.surfaces {
        let peg =
            |number: u32| -> Option<&Peg> { found.pegs.get((number as usize).checked_sub(1)?) };
        let pegs = own.pegs.iter().filter_map(|on| {
            let peg = peg(on.peg)?;
            Some(Line {
                kind: "peg",
                number: on.peg.to_string(),
                surface: &own.name,
                stands: stands(on, &analysis.job),
                at: peg.at,
                level_m: on.level_m,
                taping: peg.taping,
            })
        });
        lines.extend(pegs);
        lines.extend(own.grid.iter().map(|one| Line {
            kind: "level",
            number: String::new(),
            surface: &own.name,
            stands: format!("{} along", tape(one.along_m, system)),
            at: one.at,
            level_m: Some(one.level_m),
            taping: None,
        }));
    }
    for own in &found.spots {
        let kind = match own.on {
            WorkOn::Steps(_) => "steps",
            WorkOn::Surface(_) => "repeat",
            WorkOn::Drain(_) => "drain",
        };
        let levels = [(kind, own.level_m), ("grating", own.grating_m)].into_iter();
        let levels = levels.filter(|(kind, level)| *kind != "grating" || level.is_some());
        lines.extend(levels.map(|(kind, level_m)| Line {
            kind,
            number: own.label.clone(),
            surface: &own.name,
            stands: spot(own.of),
            at: own.at,
            level_m,
            taping: own.taping,
        }));
    }
    for line in lines {
        let _ = table.write_record(cells(&line, system).map(|cell| harmless(&cell)));
    }
    let bytes = table.into_inner().unwrap_or_default();
    String::from_utf8(bytes).unwrap_or_default()
}

fn cells(line: &Line<'_>, system: System) -> [String; 18] {
    let known = |value: Option<f64>| value.map_or_else(String::new, number);
    let taped = |of: fn(&Taping) -> f64| line.taping.as_ref().map(of);
    let shown = |value: Option<f64>, shown: fn(f64, System) -> String| {
        value.map_or_else(String::new, |value| shown(value, system))
    };
    let (first, second) = (
        taped(|taping| taping.from_first_m),
        taped(|taping| taping.from_second_m),
    );
    let crossing = line.taping.and_then(|taping| taping.crossing_degrees);
    let aside = line.taping.map(|taping| taping.aside.word().to_owned());
    let fixes = line.taping.map(|taping| match taping.is_weak() {
        true => "no".to_owned(),
        false => "yes".to_owned(),
    });
    [
        line.kind.to_owned(),
        line.number.clone(),
        line.surface.to_owned(),
        line.stands.clone(),
        number(line.at.x),
        number(line.at.y),
        known(line.level_m),
        known(first),
        known(second),
        aside.unwrap_or_default(),
        known(crossing),
        tape(line.at.x, system),
        tape(line.at.y, system),
        shown(line.level_m, level),
        shown(first, tape),
        shown(second, tape),
        fixes.unwrap_or_default(),
        String::new(),
    ]
}
