//! Figures held to what other libraries make of the same inputs: Shapely for
//! outlines, Pint for units, NumPy for planes and volumes, NetworkX for where
//! drains lead and for schedules, icalendar for these. What water does is in
//! `hydraulics.rs`.
//!
//! Each test writes its cases, with our figures, a line of JSON each, into
//! `target/outside`; a program under `tests/outside` works them out its own
//! way and tells of every difference. `tests/set-up` brings what they need.

use std::f64::consts::TAU;
use std::process::Command;

use drylay::geometry::{
    self, Edge, Loop, Outline, Plane, Point, Ribbon, Vector, difference_pieces, intersection,
    ribbon, union, volumes_between, widened,
};
use drylay::model::literal;
use drylay::units::{Number, UNITS};
use serde_json::{Value, json};

use crate::folder::{Folder, repository};
use crate::outlines::{outline, straight};
use crate::random::{Random, cases};
use crate::tools::python_with;

/// The programs, each with the libraries that it works with.
const PROGRAMS: &[(&str, &[&str])] = &[
    ("drains_check.py", &["networkx"]),
    ("catchment_check.py", &["numpy", "shapely"]),
    ("hydraulics_check.py", &["numpy"]),
    ("inflows_check.py", &["networkx"]),
    ("numpy_check.py", &["numpy", "shapely"]),
    ("pint_check.py", &["pint"]),
    ("schedule_check.py", &["networkx", "icalendar"]),
    ("shapely_check.py", &["shapely"]),
];

/// Lets a program work the cases of this name out its own way.
pub fn checked_by(program: &str, name: &str, cases: &[Value]) {
    let own = PROGRAMS.iter().find(|(own, _)| *own == program);
    let (_, libraries) = own.expect("a program that is known");
    let Some(python) = python_with(libraries) else {
        return;
    };
    let folder = repository().join("target/outside");
    std::fs::create_dir_all(&folder).expect("the folder can be made");
    let file = folder.join(name).with_extension("jsonl");
    let lines: Vec<String> = cases.iter().map(Value::to_string).collect();
    std::fs::write(&file, lines.join("\n") + "\n").expect("the cases can be written");
    let output = Command::new(python)
        .arg("-B")
        .arg(repository().join("tests/outside").join(program))
        .arg(&file)
        .output()
        .expect("the program can be started");
    let (reported, wrong) = (
        String::from_utf8_lossy(&output.stdout),
        String::from_utf8_lossy(&output.stderr),
    );
    assert!(output.status.success(), "{reported}\n{wrong}");
    let counted = format!("{} cases agree", cases.len());
    assert!(reported.trim_end().ends_with(&counted), "{reported}");
}

fn sides(boundary: &Loop) -> Value {
    let side = |edge: &Edge| json!([edge.start.x, edge.start.y, edge.bulge]);
    boundary.edges.iter().map(side).collect()
}

pub fn shape(outline: &Outline) -> Value {
    let holes: Vec<Value> = outline.holes.iter().map(sides).collect();
    json!({"outer": sides(&outline.outer), "holes": holes})
}

/// What is measured on each of some pieces.
fn measured(pieces: &[Outline]) -> Value {
    let figures = pieces.iter().map(|piece| [piece.area(), piece.perimeter()]);
    json!({"pieces": figures.collect::<Vec<_>>()})
}

#[test]
fn outlines_agree_with_shapely() {
    let mut random = Random::new("outlines");
    let mut cases_made = Vec::new();
    for _ in 0..cases(250) {
        let (a, b) = (outline(&mut random, 5.0), outline(&mut random, 4.0));
        cases_made.push(json!({
            "kind": "measure", "a": shape(&a), "found": measured(std::slice::from_ref(&a)),
        }));
        let common = intersection(&a, &b).expect("two outlines have a common part or none");
        cases_made.push(json!({
            "kind": "intersection", "a": shape(&a), "b": shape(&b), "found": measured(&common),
        }));
        let rest = difference_pieces(&a, &b).expect("what is left of an outline is known");
        cases_made.push(json!({
            "kind": "difference", "a": shape(&a), "b": shape(&b), "found": measured(&rest),
        }));
        let both = match union(&a, &b) {
            Ok(both) => measured(&[both]),
            Err(geometry::Fault::Split { pieces }) => json!({"count": pieces}),
            Err(geometry::Fault::Touching { .. }) => json!({"touching": true}),
            Err(fault) => panic!("{fault}: {}", shape(&a)),
        };
        cases_made.push(json!({"kind": "union", "a": shape(&a), "b": shape(&b), "found": both}));
    }
    checked_by("shapely_check.py", "outlines", &cases_made);
}

#[test]
fn widened_outlines_agree_with_shapely() {
    let mut random = Random::new("widened");
    let mut cases_made = Vec::new();
    for _ in 0..cases(200) {
        let beyond = random.between(0.02, 0.5);
        let whole = outline(&mut random, 5.0);
        let out = widened(&whole, beyond, &|_| true).expect("an outline can be widened");
        cases_made.push(json!({
            "kind": "outset", "a": shape(&whole), "by": beyond, "found": measured(&[out]),
        }));
        let inner = match geometry::inset(&whole, beyond) {
            Ok(inner) => measured(&[inner]),
            Err(geometry::Fault::Empty) => measured(&[]),
            Err(geometry::Fault::Split { pieces }) => json!({"count": pieces}),
            Err(geometry::Fault::Touching { .. }) => json!({"touching": true}),
            Err(fault) => panic!("{fault}: {}", shape(&whole)),
        };
        cases_made.push(json!({
            "kind": "inset", "a": shape(&whole), "by": beyond, "found": inner,
        }));
        let part = straight(&mut random, 5.0);
        let free: Vec<bool> = part
            .outer
            .edges
            .iter()
            .map(|_| !random.once_in(3))
            .collect();
        let is_free = |edge: &Edge| {
            let place = part.outer.edges.iter().position(|own| own == edge);
            place.is_none_or(|place| free[place])
        };
        let some = widened(&part, beyond, &is_free).expect("an outline can be widened");
        cases_made.push(json!({
            "kind": "widened", "a": shape(&part), "by": beyond, "free": free,
            "found": measured(&[some]),
        }));
    }
    checked_by("shapely_check.py", "widened", &cases_made);
}

#[test]
fn paths_with_a_width_agree_with_shapely() {
    let mut random = Random::new("ribbons");
    let mut cases_made = Vec::new();
    for _ in 0..cases(200) {
        let by = random.between(0.1, 0.8);
        let (mut at, mut bearing) = (Point::ORIGIN, 0.0);
        let mut corners = vec![at];
        for _ in 0..1 + random.below(6) {
            bearing += random.between(-2.2, 2.2);
            at = at + Vector::new(random.between(0.5, 4.0), 0.0).turned(bearing);
            corners.push(at);
        }
        let steps = corners.iter().zip(corners.iter().skip(1));
        let line: Vec<Edge> = steps.map(|(from, to)| Edge::line(*from, *to, 0)).collect();
        let sides = Ribbon {
            left: by,
            right: by,
            right_tag: 1,
            end_tags: [2, 3],
        };
        let found = match ribbon(&line, sides) {
            Ok(strip) => measured(&[strip]),
            Err(geometry::Fault::Crossed { .. }) => json!({"near": true}),
            Err(fault) => panic!("{fault}: {corners:?}"),
        };
        let corners: Vec<_> = corners.iter().map(|corner| [corner.x, corner.y]).collect();
        cases_made.push(json!({"kind": "ribbon", "line": corners, "by": by, "found": found}));
    }
    checked_by("shapely_check.py", "ribbons", &cases_made);
}

/// Quantities as the language writes them; the program has its own table of
/// what they are.
const WRITTEN: &[&str] = &[
    "24' 6 1/2\"",
    "24'-6½\"",
    "1-3/4 in",
    "1,200 mm",
    "150 lb/cu ft",
    "150 pcf",
    "1.35 t/m3",
    "30 lb/sq ft",
    "3.5 in/h",
    "50 mm/h",
    "1/4 in per ft",
    "1/2 in over 12'",
    "1:60",
    "2 %",
    "120 sq ft/ton",
    "40 °F",
    "5 °C",
    "-40 °F",
    "2 weeks + 3 days + 4 h + 5 min",
    "35.2°",
    "12 cu yd",
    "5 gal",
    "0.75 L",
    "94 lb / 1 cu ft",
    "3 m * 2 ft",
    "1 ton + 1 t + 1 kg + 1 g + 1 lb",
];

#[test]
fn units_agree_with_pint() {
    let mut made: Vec<Value> = UNITS
        .iter()
        .map(|unit| {
            json!({
                "kind": "unit", "symbol": unit.symbol,
                "numerator": unit.factor.numer().to_string(),
                "denominator": unit.factor.denom().to_string(),
            })
        })
        .collect();
    for text in WRITTEN {
        let quantity = literal(text).unwrap_or_else(|| panic!("{text} cannot be read"));
        let Number::Exact(exact) = quantity.number else {
            panic!("{text} is not read exactly");
        };
        made.push(json!({
            "kind": "quantity", "text": text,
            "numerator": exact.fraction().numer().to_string(),
            "denominator": exact.fraction().denom().to_string(),
        }));
    }
    checked_by("pint_check.py", "units", &made);
}

fn plane(random: &mut Random) -> Plane {
    let gradient = Vector::new(random.between(-0.1, 0.1), random.between(-0.1, 0.1));
    let at = Point::new(random.between(-5.0, 5.0), random.between(-5.0, 5.0));
    Plane::through(random.between(-0.5, 0.5), at, gradient)
}

fn point(random: &mut Random) -> Point {
    Point::new(random.between(-9.0, 9.0), random.between(-9.0, 9.0))
}

#[test]
fn planes_and_volumes_agree_with_numpy() {
    let mut random = Random::new("planes");
    let mut made = Vec::new();
    for _ in 0..cases(300) {
        let three = [0; 3].map(|_| (point(&mut random), random.between(-1.0, 1.0)));
        if let Some(found) = Plane::from_points(&three) {
            let probe = point(&mut random);
            made.push(json!({
                "kind": "plane",
                "points": three.map(|(at, level)| [at.x, at.y, level]),
                "probe": [probe.x, probe.y], "level": found.level_at(probe),
                "slope": found.slope(),
            }));
        }
        let (over, upper, lower) = (
            outline(&mut random, 5.0),
            plane(&mut random),
            plane(&mut random),
        );
        let (lowest, highest) = upper.levels_over(&over);
        let volumes = volumes_between(&over, &upper, &lower);
        let levels = |plane: &Plane| {
            let gradient = plane.gradient();
            [plane.level_at(Point::ORIGIN), gradient.x, gradient.y]
        };
        made.push(json!({
            "kind": "volume", "a": shape(&over),
            "upper": levels(&upper), "lower": levels(&lower),
            "lowest": lowest, "highest": highest,
            "above": volumes.above, "below": volumes.below,
        }));
    }
    for _ in 0..cases(60) {
        made.push(job(&mut random));
    }
    checked_by("numpy_check.py", "planes", &made);
}

/// A whole job of one rectangle against a building, with random levels, falls
/// and layers, and its figures.
fn job(random: &mut Random) -> Value {
    let mut millimetres = |low: f64, high: f64| random.step(low, high, 10.0);
    let (width, depth) = (millimetres(2000.0, 9000.0), millimetres(2000.0, 7000.0));
    let (paving, base) = (millimetres(30.0, 80.0), millimetres(80.0, 300.0));
    let beyond = millimetres(0.0, 300.0);
    let (level, ground) = (millimetres(-250.0, -50.0), millimetres(-500.0, 50.0));
    let (fall, cross) = (random.step(0.5, 4.0, 0.1), random.step(0.0, 2.0, 0.1));
    let (bearing, slope) = (random.step(0.0, 359.0, 1.0), random.step(0.0, 5.0, 0.1));
    let text = format!(
        "\
job \"Trial\"
  units metric
  region general

site
  soil clay
  datum \"floor\"
  ground {ground} mm at (1 m, -1 m)
  ground {east:.9} m at (2 m, -1 m)
  ground {north:.9} m at (1 m, 0)

shape court
  rectangle {width} mm by {depth} mm, at (0, -{depth} mm)

surface court
  shape court
  meets north
  level {level} mm at (0, 0)
  fall {fall:.1} % away from north, cross {cross:.1} % toward east
  build layers

build layers
  paving sandstone, {paving} mm
  base crushed-stone, {base} mm, beyond {beyond} mm
",
        // The ground falls by `slope` toward the bearing.
        east = ground / 1e3 - slope / 100.0 * (bearing / 360.0 * TAU).sin(),
        north = ground / 1e3 - slope / 100.0 * (bearing / 360.0 * TAU).cos(),
    );
    let analysis =
        Folder::with([("/site/trial.patio", text.as_str())]).analysis("/site/trial.patio");
    let court = analysis.figures.surface("court").expect("the court");
    let dig = court
        .dig
        .as_ref()
        .unwrap_or_else(|| panic!("no dig:\n{text}"));
    let layer = court.layers.last().expect("the base");
    json!({
        "kind": "job", "text": text,
        "width": width / 1e3, "depth": depth / 1e3, "beyond": beyond / 1e3,
        "layers": (paving + base) / 1e3, "base": base / 1e3,
        "level": level / 1e3, "ground": ground / 1e3,
        "fall": fall / 100.0, "cross": cross / 100.0,
        "bearing": bearing, "slope": slope / 100.0,
        "found": {
            "area": layer.area_m2, "volume": layer.volume_m3, "steepest": court.fall,
            "drop": court.drop_m, "lowest": court.lowest_m,
            "bank": dig.bank_m3, "loose": dig.loose_m3, "fill": dig.fill_m3,
        },
    })
}
