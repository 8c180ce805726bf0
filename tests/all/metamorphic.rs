//! Jobs that are written, placed or drawn otherwise and must come to the same
//! figures: in other units, moved, turned, mirrored, and to another scale.

mod beginners;
mod changes;
mod garbled;
mod lent;
mod mistyped;
mod turned_specs;
mod typing;
mod unindented;

use std::f64::consts::TAU;
use std::sync::Arc;

use drylay::analysis::{Analyser, Analysis};
use drylay::syntax::{ItemKind, Phrase, Tree};
use drylay::text::{Span, Text};
use drylay::units::{Dimension, LONGEST_NUMBER, Number, Quantity, System, find_unit, read_number};
use proptest::prelude::*;

use crate::folder::{Folder, TODAY};
use crate::random::Random;
use crate::same::{Grows, figures, findings, ground};

/// A spec with every length, area, volume and mass that is written as a
/// number with its unit written in another one, exactly.
fn in_other_units(text: &str) -> String {
    let tree = Tree::parse(Text::from(text));
    let mut changes: Vec<(Span, String)> = Vec::new();
    for placed in tree.sections.iter() {
        for (start, line) in &placed.section.lines {
            for phrase in &line.phrases {
                rewrite(text, placed.start + start, phrase, &mut changes);
            }
        }
    }
    let mut changed = text.to_owned();
    for (span, new) in changes.into_iter().rev() {
        changed.replace_range(span.start as usize..span.end as usize, &new);
    }
    changed
}

fn rewrite(text: &str, start: u32, phrase: &Phrase, changes: &mut Vec<(Span, String)>) {
    for item in &phrase.items {
        match &item.kind {
            ItemKind::Number {
                terms,
                currency: None,
            } => {
                let mut written = None;
                let sum = terms.iter().try_fold(None, |sum: Option<Quantity>, term| {
                    let number = read_number(term.number.shift(start).slice(text)).ok()?;
                    let unit = match term.unit?.shift(start).slice(text) {
                        "'" => find_unit("ft")?,
                        "\"" => find_unit("in")?,
                        word => find_unit(word)?,
                    };
                    let quantity = Quantity::of(number, unit)?;
                    written = unit.system;
                    Some(Some(match sum {
                        Some(sum) => sum.plus(quantity).ok()?,
                        None => quantity,
                    }))
                });
                if let Some(Some(quantity)) = sum
                    && let Some(new) = otherwise(quantity, written)
                {
                    changes.push((item.span.shift(start), new));
                }
            }
            ItemKind::Group { phrases } | ItemKind::Call { phrases, .. } => {
                for inner in phrases {
                    rewrite(text, start, inner, changes);
                }
            }
            _ => {}
        }
    }
}

/// A quantity in a unit of the other system, as a fraction of whole numbers.
fn otherwise(quantity: Quantity, written: Option<System>) -> Option<String> {
    let (metric, imperial) = match quantity.dimension {
        Dimension::LENGTH => ("mm", "in"),
        Dimension::AREA => ("m2", "sq ft"),
        Dimension::VOLUME => ("L", "cu ft"),
        Dimension::MASS => ("kg", "lb"),
        _ => return None,
    };
    let unit = match written? {
        System::Imperial => metric,
        System::Metric => imperial,
    };
    let Number::Exact(exact) = quantity.in_unit(find_unit(unit)?)? else {
        return None;
    };
    let exact = exact.fraction();
    let new = format!("{}/{} {unit}", exact.numer(), exact.denom());
    // As far as a number may have digits.
    let digits = new.bytes().filter(u8::is_ascii_digit).count();
    (digits <= LONGEST_NUMBER).then_some(new)
}

/// The first two that are not the same.
fn different<T: Clone + PartialEq>(some: &[T], others: &[T]) -> Option<(T, T)> {
    let pair = some.iter().zip(others).find(|(one, other)| one != other);
    pair.map(|(one, other)| (one.clone(), other.clone()))
}

#[test]
fn specs_in_other_units_come_to_the_same() {
    let folder = Folder::of_specs();
    let mut rewritten = 0;
    // `1 in 100` among the mistakes is no inch.
    let sound = |path: &String| !path.contains("/mistakes/");
    for path in folder.paths().into_iter().filter(sound) {
        let text = folder.text(&path);
        let changed = in_other_units(&text);
        rewritten += usize::from(*changed != *text);
        let mut other = folder.clone();
        other.0.insert(path.clone(), changed.as_str().into());
        let (before, after) = (folder.analysis(&path), other.analysis(&path));
        let apart = different(&figures(&after), &figures(&before));
        assert_eq!(apart, None, "{path}:\n{changed}");
        let apart = different(&ground(&after), &ground(&before));
        assert_eq!(apart, None, "{path}:\n{changed}");
        assert_eq!(findings(&after), findings(&before), "{path}:\n{changed}");
    }
    assert!(rewritten >= 10, "only {rewritten} specs have lengths");
}

/// A court of random corners, some sides bowed, on sloping ground.
#[derive(Debug, Clone)]
struct Court {
    /// East and north in whole centimetres, and for a bow its height over the
    /// chord.
    corners: Vec<(i32, i32, Option<i32>)>,
    /// Which side meets the building.
    wall: usize,
    bearing: f64,
    fall: u32,
    paving: u32,
    base: u32,
    beyond: u32,
    ground: [i32; 3],
    /// The corner at which the level is stated.
    level_at: usize,
}

/// How a court is placed on the plan.
struct Placed {
    turned: f64,
    mirrored: bool,
    moved: (f64, f64),
    scaled: f64,
}

const AS_DRAWN: Placed = Placed {
    turned: 0.0,
    mirrored: false,
    moved: (0.0, 0.0),
    scaled: 1.0,
};

impl Placed {
    fn point(&self, (x, y): (f64, f64)) -> (f64, f64) {
        let x = if self.mirrored { -x } else { x };
        let (sin, cos) = self.turned.sin_cos();
        let turned = (x * cos - y * sin, x * sin + y * cos);
        (
            turned.0 * self.scaled + self.moved.0,
            turned.1 * self.scaled + self.moved.1,
        )
    }

    fn bearing(&self, degrees: f64) -> f64 {
        let degrees = if self.mirrored { -degrees } else { degrees };
        (degrees - self.turned / TAU * 360.0).rem_euclid(360.0)
    }
}

impl Court {
    /// The job as text; `length` writes metres.
    fn text(&self, placed: &Placed, length: &dyn Fn(f64) -> String) -> String {
        let metres = |(x, y): (i32, i32)| (f64::from(x) / 100.0, f64::from(y) / 100.0);
        let point = |at: (f64, f64)| {
            let (x, y) = placed.point(at);
            format!("({}, {})", length(x), length(y))
        };
        let corner = |number: usize| {
            let (x, y, _) = self.corners[number % self.corners.len()];
            metres((x, y))
        };
        let mut steps = format!("  start {}\n", point(corner(0)));
        for (number, (_, _, bow)) in self.corners.iter().enumerate() {
            let (from, to) = (corner(number), corner(number + 1));
            let name = if number == self.wall {
                ", named wall"
            } else {
                ""
            };
            match bow {
                Some(height) if number != self.wall => {
                    let chord = (to.0 - from.0).hypot(to.1 - from.1);
                    let height = f64::from(*height) / 1000.0;
                    // Outside lies on the right of the way round.
                    let top = (
                        f64::midpoint(from.0, to.0) + height * (to.1 - from.1),
                        f64::midpoint(from.1, to.1) - height * (to.0 - from.0),
                    );
                    assert!(chord > 0.0);
                    steps += &format!("  curve to {}, through {}\n", point(to), point(top));
                }
                _ => steps += &format!("  to {}{name}\n", point(to)),
            }
        }
        let scaled = |millimetres: u32| length(f64::from(millimetres) / 1000.0 * placed.scaled);
        let [first, second, third] = self.ground.map(|level| length(f64::from(level) / 1000.0));
        format!(
            "\
job \"Trial\"
  units metric
  region general

site
  soil loam
  datum \"floor\"
  ground {first} at {a}
  ground {second} at {b}
  ground {third} at {c}

shape court
{steps}
surface court
  shape court
  meets wall
  level {level} at {start}
  fall {fall} % toward bearing {bearing:.9}°
  build layers
  laid running-bond, units 100 mm by 200 mm
  joint 4 mm, filled with joint-sand
  edging steel-edge, along free

build layers
  paving concrete-paver, {paving}
  bed sharp-sand, 30 mm
  base crushed-stone, {base}, beyond {beyond}
",
            a = point((0.0, 0.0)),
            b = point((10.0, 0.0)),
            c = point((0.0, 10.0)),
            level = length(-0.2),
            start = point(corner(self.level_at)),
            fall = f64::from(self.fall) / 10.0,
            bearing = placed.bearing(self.bearing),
            paving = length(f64::from(self.paving) / 1000.0),
            base = length(f64::from(self.base) / 1000.0),
            beyond = scaled(self.beyond),
        )
    }

    /// The same court, its outline begun at another corner. Its level stays
    /// where it was.
    fn begun_at(&self, first: usize) -> Court {
        let count = self.corners.len();
        let mut other = self.clone();
        other.corners.rotate_left(first % count);
        other.wall = (self.wall + count - first % count) % count;
        other.level_at = (self.level_at + count - first % count) % count;
        other
    }

    fn analysis(&self, placed: &Placed, length: &dyn Fn(f64) -> String) -> (String, Arc<Analysis>) {
        let text = self.text(placed, length);
        let folder = Folder::with([("/site/trial.patio", text.as_str())]);
        let analysis = folder.analysis("/site/trial.patio");
        (text, analysis)
    }
}

/// A wall in three pieces of one name, the middle one set back, level or not:
/// where the outline begins, its level holds or is told of alike.
#[test]
fn a_level_at_a_stepped_wall_holds_wherever_the_outline_begins() {
    let sides = [
        "to (0 m, 0 m)",
        "to (6 m, 0 m)",
        "to (6 m, 4 m)",
        "to (4 m, 4 m), named wall",
        "to (4 m, 5 m)",
        "to (2 m, 5 m), named wall",
        "to (2 m, 4 m)",
        "to (0 m, 4 m), named wall",
    ];
    for (fall, holds) in [
        ("1:50 toward south", false),
        ("1:50 toward east", false),
        ("0 % toward south", true),
    ] {
        let mut levels = Vec::new();
        for first in 0..sides.len() {
            let before = sides[(first + sides.len() - 1) % sides.len()];
            let start = &before["to ".len()..=before.find(')').expect("a point")];
            let steps: Vec<&str> = (0..sides.len())
                .map(|step| sides[(first + step) % sides.len()])
                .collect();
            let text = format!(
                "shape yard\n  start {start}\n  {}\n\nsurface yard\n  shape yard\n  level -160 mm at wall\n  fall {fall}\n",
                steps.join("\n  ")
            );
            let folder = Folder::with([("/site/yard.patio", text.as_str())]);
            let analysis = folder.analysis("/site/yard.patio");
            let reported = analysis.findings.iter();
            let reported = reported
                .filter(|finding| finding.rule == "levels-disagree")
                .count();
            assert_eq!(reported == 0, holds, "{text}");
            levels.push(
                analysis
                    .figures
                    .surfaces
                    .iter()
                    .next()
                    .and_then(|own| own.lowest_m),
            );
        }
        assert!(
            levels.windows(2).all(|pair| pair[0] == pair[1]),
            "{fall}: {levels:?}"
        );
        assert_eq!(levels[0].is_some(), holds, "{fall}");
    }
}

/// Corners at growing bearings round a point, so that no sides cross.
fn court() -> impl Strategy<Value = Court> {
    let corner = (0.1..0.9f64, 0.5..1.0f64, prop::option::of(20..180i32));
    (
        prop::collection::vec(corner, 3..8),
        (0..8usize, 0..3600u32, 5..40u32),
        (40..90u32, 80..300u32, 0..300u32),
        [-500..-250i32, -500..-250i32, -500..-250i32],
    )
        .prop_map(
            |(corners, (wall, bearing, fall), (paving, base, beyond), ground)| {
                let count = corners.len();
                let place = |number: usize, part: f64, far: f64| {
                    let angle = (number as f64 + part) / count as f64 * TAU;
                    let at = |along: f64| (400.0 * far * along) as i32;
                    (at(angle.cos()), at(angle.sin()))
                };
                let corners = corners
                    .into_iter()
                    .enumerate()
                    .map(|(number, (part, far, bow))| {
                        let (x, y) = place(number, part, far);
                        (x, y, bow)
                    })
                    .collect();
                Court {
                    corners,
                    wall: wall % count,
                    bearing: f64::from(bearing) / 10.0,
                    fall,
                    paving,
                    base,
                    beyond,
                    ground,
                    level_at: 0,
                }
            },
        )
}

fn in_metres(metres: f64) -> String {
    format!("{metres:.9} m")
}

/// Whether two lists of figures are the same to seven places, what grows with
/// the plan by so much more.
fn agree(
    drawn: &[(String, Grows, Option<f64>)],
    placed: &[(String, Grows, Option<f64>)],
    scale: f64,
) -> Result<(), String> {
    if drawn.len() != placed.len() {
        return Err(format!("{} figures and {}", drawn.len(), placed.len()));
    }
    for ((name, grows, one), (_, _, other)) in drawn.iter().zip(placed) {
        let factor = match grows {
            Grows::Not => 1.0,
            Grows::Length => scale,
            Grows::Area => scale * scale,
        };
        let same = match (one, other) {
            (Some(one), Some(other)) => {
                let wanted = one * factor;
                (wanted - other).abs() <= 1e-7 * wanted.abs().max(1.0)
            }
            (None, None) => true,
            _ => false,
        };
        if !same {
            return Err(format!("{name}: {one:?} and {other:?}"));
        }
    }
    Ok(())
}

/// The text with its surfaces in another order, each where one stood.
fn with_surfaces_shuffled(text: &str, random: &mut Random) -> String {
    let mut sections = vec![String::new()];
    for line in text.lines() {
        if line.starts_with(|first: char| first.is_ascii_alphabetic()) {
            sections.push(String::new());
        }
        let section = sections.last_mut().expect("a section");
        section.push_str(line);
        section.push('\n');
    }
    let is_surface = |index: &usize| sections[*index].starts_with("surface ");
    let places: Vec<usize> = (0..sections.len()).filter(is_surface).collect();
    for at in (1..places.len()).rev() {
        sections.swap(places[at], places[random.below(at + 1)]);
    }
    sections.concat()
}

/// Pads with gaps between them that their bases, some deeper than others,
/// meet in or pass.
fn pads(random: &mut Random) -> String {
    let mut text = "job \"Pads\"\n  units metric\n  region uk\n\nsite\n  soil clay\n  datum \"sill\"\n  ground -100 mm\n".to_owned();
    for (deep, beyond) in [(150, 150), (150, 300), (250, 150), (200, 0)] {
        text += &format!(
            "\nbuild b{deep}-{beyond}\n  paving slate, 30 mm\n  base gravel, {deep} mm, beyond {beyond} mm\n"
        );
    }
    for pad in 0..4 {
        let (east, north) = (pad % 2, pad / 2);
        let at = |count: usize, random: &mut Random| 1400 * count + random.below(300);
        let (east, north) = (at(east, random), at(north, random));
        let build = random.pick(&["b150-150", "b150-300", "b250-150", "b200-0"]);
        let turned = random.pick(&["", ", turned 10°"]);
        text += &format!(
            "\nshape pad-{pad}\n  rectangle 1 m by 1 m, at ({east} mm, {north} mm){turned}\n\n\
             surface pad-{pad}\n  shape pad-{pad}\n  level -100 mm\n  build {build}\n"
        );
    }
    text
}

/// What each surface comes to, and each order, hangs neither on the order of
/// the sections nor on which of two neighbours comes first.
#[test]
fn shuffled_surfaces_come_to_the_same() {
    let folder = Folder::of_specs();
    let mut random = Random::new("shuffled surfaces");
    let own = folder.paths().into_iter();
    let own = own.filter(|path| !path.contains("/mistakes/"));
    let mut texts: Vec<(String, String)> = own
        .map(|path| (path.clone(), folder.text(&path).to_string()))
        .collect();
    let sound = crate::sound::specs().into_iter();
    texts.extend(sound.map(|(name, text)| (format!("/specs/{name}.patio"), text)));
    texts.extend((0..60).map(|_| ("/specs/pads.patio".to_owned(), pads(&mut random))));
    let (mut shuffled, mut known) = (0, 0);
    for (path, text) in texts {
        let sorted = |text: &str| {
            let analysis = Analyser::new().analyse(&path, Text::from(text), &folder, TODAY);
            let mut all = figures(&analysis);
            all.extend(ground(&analysis));
            all.sort_by(|(one, _, _), (other, _, _)| one.cmp(other));
            all
        };
        let first = sorted(&text);
        if path.contains("pads") {
            known += usize::from(
                first
                    .iter()
                    .filter(|(name, _, _)| name.contains("of base"))
                    .all(|(_, _, figure)| figure.is_some()),
            );
        }
        for _ in 0..2 {
            let other = with_surfaces_shuffled(&text, &mut random);
            if other == text {
                continue;
            }
            shuffled += 1;
            let same = agree(&first, &sorted(&other), 1.0);
            assert!(same.is_ok(), "{path}: {same:?}\n{other}");
        }
    }
    assert!(
        shuffled > 60 && known > 30,
        "{shuffled} shuffled, {known} pads known"
    );
}

proptest! {
    #![proptest_config(ProptestConfig {
        cases: 24 * u32::try_from(crate::random::cases(1)).unwrap_or(1),
        failure_persistence: None,
        ..ProptestConfig::default()
    })]

    #[test]
    fn a_job_in_feet_and_in_metres_is_one_job(court in court()) {
        // The top of a bow is no whole millimetre: it is rounded for all alike.
        let exactly = |metres: f64| (metres * 1000.0).round() as i64;
        let (before, drawn) = court.analysis(&AS_DRAWN, &|metres| format!("{} mm", exactly(metres)));
        let ways: [&dyn Fn(f64) -> String; 4] = [
            &|metres| format!("{}/127 in", exactly(metres) * 5),
            &|metres| format!("{}/1524 ft", exactly(metres) * 5),
            &|metres| format!("{}/1000 m", exactly(metres)),
            &|metres| format!("{}/9144 yd", exactly(metres) * 10),
        ];
        for way in ways {
            let (text, other) = court.analysis(&AS_DRAWN, way);
            let apart = different(&figures(&other), &figures(&drawn));
            prop_assert!(apart.is_none(), "{:?}\n{}\n{}", apart, before, text);
            let apart = different(&ground(&other), &ground(&drawn));
            prop_assert!(apart.is_none(), "{:?}\n{}\n{}", apart, before, text);
        }
    }

    #[test]
    fn the_place_on_the_plan_does_not_matter(
        court in court(), turned in 0.0..TAU, east in -50.0..50.0f64, north in -50.0..50.0f64,
    ) {
        let (before, drawn) = court.analysis(&AS_DRAWN, &in_metres);
        prop_assert!(drawn.figures.shapes.iter().all(|shape| shape.area_m2.is_some()), "{}", before);
        for (turned, mirrored) in [(0.0, false), (TAU / 4.0, false), (turned, false), (turned, true)] {
            let placed = Placed { turned, mirrored, moved: (east, north), scaled: 1.0 };
            let (text, other) = court.analysis(&placed, &in_metres);
            let same = agree(&figures(&drawn), &figures(&other), 1.0)
                .and_then(|()| agree(&ground(&drawn), &ground(&other), 1.0));
            prop_assert!(same.is_ok(), "{:?}\n{}\n{}", same, before, text);
        }
    }

    #[test]
    fn where_an_outline_begins_does_not_matter(court in court(), first in 0..8usize) {
        let (before, drawn) = court.analysis(&AS_DRAWN, &in_metres);
        let (text, other) = court.begun_at(first).analysis(&AS_DRAWN, &in_metres);
        let same = agree(&figures(&drawn), &figures(&other), 1.0)
            .and_then(|()| agree(&ground(&drawn), &ground(&other), 1.0));
        prop_assert!(same.is_ok(), "{:?}\n{}\n{}", same, before, text);
    }

    #[test]
    fn areas_grow_with_the_square_of_the_scale(court in court(), scaled in 0.3..30.0f64) {
        let (before, drawn) = court.analysis(&AS_DRAWN, &in_metres);
        let placed = Placed { scaled, ..AS_DRAWN };
        let (text, other) = court.analysis(&placed, &in_metres);
        let plan = |analysis: &Analysis| -> Vec<_> {
            figures(analysis).into_iter().filter(|(name, _, _)| !name.starts_with("order")).collect()
        };
        let same = agree(&plan(&drawn), &plan(&other), scaled);
        prop_assert!(same.is_ok(), "{:?}\n{}\n{}", same, before, text);
    }
}
