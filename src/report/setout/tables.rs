//! The tables of the sheet, for text and Markdown alike.

use super::words::{known, level, spot as spot_words, stands, tape};
use crate::geometry::Point;
use crate::model::Job;
use crate::quantities::{
    ArcFigures, Peg, PegOn, Reach, RodMark, RodTop, SettingOutFigures, Spot, SurfaceSettingOut,
    Taping, WorkOn, board_length,
};
use crate::report::columns::Side;
use crate::report::trade::UNKNOWN;
use crate::units::{System, show};
use crate::vocabulary::{compass_word, spelled_in};

/// A table with the words over it.
pub(in crate::report) struct Table {
    /// What it shows.
    pub title: String,
    /// The heads of its columns and the side of each.
    pub heads: Vec<(&'static str, Side)>,
    /// Its rows.
    pub rows: Vec<Vec<String>>,
}

/// What stands over the rod of a surface.
const RODS: &str = "Rod: below the string, the same at every peg";

/// What a crew writes into.
const BLANK: &str = "________";

/// The heads over how a point is found from the marks.
static TAPING: [(&str, Side); 5] = [
    ("east", Side::Right),
    ("north", Side::Right),
    ("from A", Side::Right),
    ("from B", Side::Right),
    ("side", Side::Right),
];

/// The most columns of levels beside one another.
const MOST_COLUMNS: usize = 7;

/// The tables of a surface, those with rows only.
pub(in crate::report) fn tables(
    job: &Job,
    found: &SettingOutFigures,
    own: &SurfaceSettingOut,
) -> Vec<Table> {
    let system = job.heading.system();
    let mut tables = vec![pegs(job, found, own), weak(found, own, system)];
    tables.push(rod(RODS, &own.rod, system));
    let borders = own.border_rods.iter();
    tables.extend(borders.map(|(name, marks)| {
        let title = format!("Rod in the {name}: below the string");
        rod(&title, marks, system)
    }));
    tables.extend([
        levels(job, own, system),
        boards(job, own, system),
        arcs(job, found, own),
    ]);
    tables.extend(own.arcs.iter().map(|arc| offsets(job, found, own, arc)));
    tables.push(checks(own, system));
    tables.extend(grid(own, system));
    tables.retain(|table| !table.rows.is_empty());
    tables
}

/// What stands over the points of drains, of steps and of shapes that come
/// again.
pub(in crate::report) fn spot_heading(found: &SettingOutFigures) -> &'static str {
    match found.spots.iter().all(is_of_a_row) {
        true => "Shapes that come again",
        false => "Drains and steps",
    }
}

fn is_of_a_row(spot: &Spot) -> bool {
    matches!(spot.on, WorkOn::Surface(_))
}

/// The points of drains and steps: nothing where there are none.
pub(in crate::report) fn spot_tables(job: &Job, found: &SettingOutFigures) -> Vec<Table> {
    let system = job.heading.system();
    let title = match found.spots.iter().all(is_of_a_row) {
        true => "Points: the middle of each",
        false => {
            "Points: drains by invert and grating, steps by foot and top; left and right as one goes up"
        }
    };
    let mut points = table(
        title,
        &[
            ("point", Side::Right),
            ("of", Side::Left),
            ("where", Side::Left),
        ],
    );
    let taping_heads = heads_of_taping(found);
    points.heads.extend(taping_heads);
    points.heads.push(("level", Side::Right));
    let has_gratings = found.spots.iter().any(|spot| spot.grating_m.is_some());
    if has_gratings {
        points.heads.push(("grating", Side::Right));
    }
    let mut weak = weak_table("point");
    for spot in &found.spots {
        let taping = spot.taping;
        let mut row = vec![
            starred(&spot.label, taping),
            spot.name.clone(),
            spot_words(spot.of),
        ];
        let taped = taped(spot.at, taping, system);
        row.extend(taped.into_iter().take(taping_heads.len()));
        row.push(known(spot.level_m, system, level));
        if has_gratings {
            let grating = spot.grating_m.map(|grating| level(grating, system));
            row.push(grating.unwrap_or_default());
        }
        points.rows.push(row);
        weak.rows
            .extend(taping.and_then(|taping| weak_row(&spot.label, &taping, system)));
    }
    let mut tables = vec![points, weak];
    tables.retain(|table| !table.rows.is_empty());
    tables
}

fn table(title: &str, heads: &[(&'static str, Side)]) -> Table {
    Table {
        title: title.to_owned(),
        heads: heads.to_vec(),
        rows: Vec::new(),
    }
}

/// The heads of how a point is found: without marks there is nothing to tape
/// from.
fn heads_of_taping(found: &SettingOutFigures) -> &'static [(&'static str, Side)] {
    let (from_the_datum, _) = TAPING.split_at(2);
    match found.marks {
        Some(_) => &TAPING,
        None => from_the_datum,
    }
}

/// How a point is found from the marks, under [`TAPING`].
fn taped(at: Point, taping: Option<Taping>, system: System) -> [String; 5] {
    [
        tape(at.x, system),
        tape(at.y, system),
        known(taping.map(|taping| taping.from_first_m), system, tape),
        known(taping.map(|taping| taping.from_second_m), system, tape),
        taping
            .map_or(UNKNOWN, |taping| taping.aside.word())
            .to_owned(),
    ]
}

/// The name of a point, with a star where two tapes do not fix it.
fn starred(name: &str, taping: Option<Taping>) -> String {
    let is_weak = taping.is_some_and(|taping| taping.is_weak());
    format!("{name}{}", if is_weak { "*" } else { "" })
}

fn pegs_of<'a>(
    found: &'a SettingOutFigures,
    own: &SurfaceSettingOut,
) -> Vec<(String, &'a Peg, PegOn)> {
    let pegs = own.pegs.iter().filter_map(|on| {
        let peg = found.pegs.get((on.peg as usize).checked_sub(1)?)?;
        Some((on.peg.to_string(), peg, on.clone()))
    });
    pegs.collect()
}

fn pegs(job: &Job, found: &SettingOutFigures, own: &SurfaceSettingOut) -> Table {
    let system = job.heading.system();
    let mut table = table("Pegs", &[("peg", Side::Right), ("where", Side::Left)]);
    let taping = heads_of_taping(found);
    table.heads.extend(taping);
    for (number, peg, on) in pegs_of(found, own) {
        let mut row = vec![starred(&number, peg.taping), stands(&on, job)];
        let taped = taped(peg.at, peg.taping, system);
        row.extend(taped.into_iter().take(taping.len()));
        table.rows.push(row);
    }
    table
}

/// The pegs that two tapes do not fix, by the line of the marks instead.
fn weak(found: &SettingOutFigures, own: &SurfaceSettingOut, system: System) -> Table {
    let mut table = weak_table("peg");
    for (number, peg, _) in pegs_of(found, own) {
        let taping = peg.taping.as_ref();
        table
            .rows
            .extend(taping.and_then(|taping| weak_row(&number, taping, system)));
    }
    table
}

fn weak_table(what: &'static str) -> Table {
    table(
        "* Two tapes do not fix these: they cross under 30° or over 150°. Measure along the line \
         from A, then square out.",
        &[
            (what, Side::Right),
            ("tapes cross at", Side::Right),
            ("along from A", Side::Right),
            ("square out", Side::Right),
            ("side", Side::Right),
        ],
    )
}

/// The row of a point that two tapes do not fix; nothing if they do.
fn weak_row(name: &str, taping: &Taping, system: System) -> Option<Vec<String>> {
    taping.is_weak().then(|| {
        let angle = taping.crossing_degrees.unwrap_or_default();
        vec![
            name.to_owned(),
            format!("{}°", show::number(angle.round())),
            tape(taping.along_m, system),
            tape(taping.out_m, system),
            taping.aside.word().to_owned(),
        ]
    })
}

fn rod(title: &str, marks: &[RodMark], system: System) -> Table {
    let mut table = table(
        title,
        &[
            ("mark", Side::Left),
            ("of", Side::Left),
            ("below the string", Side::Right),
        ],
    );
    for mark in marks {
        let of = match &mark.top {
            RodTop::Layer(_, material) => material.clone(),
            _ => String::new(),
        };
        table.rows.push(vec![
            mark.top.words(),
            of,
            known(mark.below_m, system, level),
        ]);
    }
    table
}

fn levels(job: &Job, own: &SurfaceSettingOut, system: System) -> Table {
    let datum = job.site.datum.as_ref();
    let datum = datum.map_or(String::new(), |datum| {
        format!(" from the datum ({})", datum.value)
    });
    // A border on a build of its own is dug to another depth.
    let dug = match own.border_rods.is_empty() {
        true => "dig",
        false => "dig of the field",
    };
    let mut table = table(
        &format!("Levels{datum}"),
        &[
            ("peg", Side::Right),
            ("finish", Side::Right),
            ("string", Side::Right),
            (dug, Side::Right),
            ("read", Side::Left),
        ],
    );
    let finish = own.rod.first().and_then(|mark| mark.below_m);
    let dig = own.rod.last().filter(|_| own.rod.len() > 1);
    let dig = dig.and_then(|mark| mark.below_m);
    for on in &own.pegs {
        let string = on.level_m.zip(finish).map(|(at, above)| at + above);
        let bottom = string.zip(dig).map(|(string, below)| string - below);
        table.rows.push(vec![
            on.peg.to_string(),
            known(on.level_m, system, level),
            known(string, system, level),
            known(bottom, system, level),
            BLANK.to_owned(),
        ]);
    }
    table
}

fn boards(job: &Job, own: &SurfaceSettingOut, system: System) -> Table {
    let mut table = table(
        "Under a level board",
        &[
            ("along", Side::Left),
            ("fall", Side::Right),
            ("mark", Side::Left),
            ("toward", Side::Left),
        ],
    );
    let board = board_length(job).map(|board| board.value);
    for mark in &own.boards {
        let at = known(mark.at_m.or(board), system, tape);
        let (down, toward) = match mark.toward_degrees {
            Some(bearing) => (
                format!("{} down at {at}", level(mark.down_m, system)),
                compass_word(bearing),
            ),
            None => ("level".to_owned(), ""),
        };
        table.rows.push(vec![
            mark.lies.words(str::to_owned),
            show::slope(mark.slope),
            down,
            toward.to_owned(),
        ]);
    }
    table
}

fn arcs(job: &Job, found: &SettingOutFigures, own: &SurfaceSettingOut) -> Table {
    let system = job.heading.system();
    let pegs = pegs_of(found, own);
    let mut table = table(
        "Arcs",
        &[
            ("arc", Side::Left),
            ("radius", Side::Right),
            ("chord", Side::Right),
            ("height", Side::Right),
            ("length", Side::Right),
            ("set out from", Side::Left),
        ],
    );
    for arcs in own.arcs.chunk_by(|one, next| one.makes_a_circle_with(next)) {
        let Some(arc) = arcs.first() else { continue };
        let is_circle = arcs.len() > 1;
        let name = if is_circle { "circle: " } else { "" };
        let of_arc = |metres: f64| match is_circle {
            true => String::new(),
            false => tape(metres, system),
        };
        table.rows.push(vec![
            format!("{name}{}", arc.name),
            tape(arc.radius_m, system),
            of_arc(arc.chord_m),
            of_arc(arc.height_m),
            tape(arcs.iter().map(|own| own.length_m).sum(), system),
            set_out_from(job, &pegs, arc),
        ]);
    }
    table
}

/// The peg at a point.
fn peg_at<'p>(pegs: &'p [(String, &Peg, PegOn)], at: Point) -> Option<&'p str> {
    let there = pegs.iter().find(|(_, peg, _)| peg.at.distance(at) < 1e-3);
    there.map(|(number, ..)| number.as_str())
}

fn set_out_from(job: &Job, pegs: &[(String, &Peg, PegOn)], arc: &ArcFigures) -> String {
    let middle = spelled_in(job.heading.region(), "centre");
    match (arc.reach, peg_at(pegs, arc.centre)) {
        (Reach::Open, Some(number)) if pegs.iter().any(|(_, _, on)| on.nth.is_some()) => {
            format!("peg {number}; of the others, their own {middle}s")
        }
        (Reach::Open, Some(number)) => format!("peg {number}"),
        (Reach::Open, None) => format!("its {middle}, a peg"),
        _ if arc.offsets.is_empty() => UNKNOWN.to_owned(),
        _ => "its chord".to_owned(),
    }
}

fn offsets(
    job: &Job,
    found: &SettingOutFigures,
    own: &SurfaceSettingOut,
    arc: &ArcFigures,
) -> Table {
    let system = job.heading.system();
    let middle = spelled_in(job.heading.region(), "centre");
    let why = match arc.reach {
        Reach::BehindBuilding => format!("its {middle} lies behind the building"),
        _ => format!("its {middle} is more than a tape away"),
    };
    let pegs = pegs_of(found, own);
    // An outline runs anticlockwise, and the pegs the other way.
    let ends = [arc.edge.end, arc.edge.start].map(|at| peg_at(&pegs, at));
    let between = match ends {
        [Some(first), Some(last)] => format!(", from peg {first} to peg {last}"),
        _ => String::new(),
    };
    let mut table = table(
        &format!(
            "Offsets of {} from its chord{between}, the same both ways from the middle: {why}",
            arc.name
        ),
        &[
            ("from the middle", Side::Right),
            ("square out", Side::Right),
        ],
    );
    for offset in &arc.offsets {
        table.rows.push(vec![
            tape(offset.from_middle_m, system),
            tape(offset.offset_m, system),
        ]);
    }
    table
}

fn checks(own: &SurfaceSettingOut, system: System) -> Table {
    let title = match own.checks.as_slice() {
        [one, other] if (one.distance_m - other.distance_m).abs() < 5e-4 => {
            "Diagonals: equal when it is square"
        }
        [_, _] => "Diagonals",
        _ => "Checks across, from corner to corner",
    };
    let mut table = table(
        title,
        &[
            ("from", Side::Right),
            ("to", Side::Right),
            ("apart", Side::Right),
            ("read", Side::Left),
        ],
    );
    for check in &own.checks {
        table.rows.push(vec![
            check.from.to_string(),
            check.to.to_string(),
            tape(check.distance_m, system),
            BLANK.to_owned(),
        ]);
    }
    table
}

/// The grid of levels, a row for each distance out of the line of the marks, in
/// blocks of as many columns as a page holds.
fn grid(own: &SurfaceSettingOut, system: System) -> Vec<Table> {
    let mut columns: Vec<f64> = own.grid.iter().map(|level| level.along_m).collect();
    columns.sort_by(f64::total_cmp);
    columns.dedup_by(|one, other| (*one - *other).abs() < 1e-9);
    let blocks = columns.chunks(MOST_COLUMNS);
    let tables = blocks.map(|block| {
        let mut heads = vec![("", Side::Left)];
        heads.extend(block.iter().map(|_| ("", Side::Right)));
        let first = block.iter().map(|along| tape(*along, system));
        let mut rows = vec![
            std::iter::once("along from A".to_owned())
                .chain(first)
                .collect::<Vec<_>>(),
        ];
        for row in own.grid.chunk_by(|one, next| one.out_m == next.out_m) {
            let cells = block.iter().map(|along| {
                let mut levels = row.iter();
                let own = levels.find(|level| (level.along_m - along).abs() < 1e-9);
                own.map_or(String::new(), |own| level(own.level_m, system))
            });
            let out = row.first().map_or(0.0, |level| level.out_m);
            let side = match out {
                out if out > 0.0 => " left",
                out if out < 0.0 => " right",
                _ => "",
            };
            let label = format!("out {}{side}", tape(out.abs(), system));
            let cells: Vec<String> = std::iter::once(label).chain(cells).collect();
            if cells.iter().skip(1).any(|cell| !cell.is_empty()) {
                rows.push(cells);
            }
        }
        Table {
            title: "Grid of finished levels".to_owned(),
            heads,
            rows,
        }
    });
    tables.collect()
}
