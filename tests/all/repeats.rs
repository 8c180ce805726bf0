//! Shapes that a surface covers several times over: as much as so many surfaces
//! of one each, wherever they lie.

use std::sync::Arc;

use drylay::analysis::{Analyser, Analysis, NoFiles};
use drylay::drawing::{self, Layer};
use drylay::geometry::{Outline, Point};
use drylay::quantities::setting_out;
use drylay::report::{SheetLayout, takeoff_json, takeoff_text};
use proptest::prelude::*;
use serde_json::{Value, json};

use crate::outside::{checked_by, shape};

fn analysed(text: &str) -> Arc<Analysis> {
    Analyser::new().analyse("/garden.patio", text.into(), &NoFiles, "2027-04-12")
}

/// A garden of sandstone flags on a base that goes 60 mm beyond, with these
/// sections.
fn garden(sections: &str) -> String {
    format!(
        "job \"Garden\"\n  units metric\n  region uk\n\n\
         site\n  soil gravel, firm\n  swell 25 %\n  ground -20 mm\n\n\
         build flags\n  paving sandstone, 40 mm\n  bed sharp-sand, 30 mm\n  \
         base crushed-stone, 100 mm compacted, beyond 60 mm\n\n{sections}"
    )
}

/// What every surface of stones says but for its shape.
const STONES: &str = "  level 0 mm\n  build flags\n  laid stack-bond, units 600 mm by 400 mm\n  \
                      joint 5 mm, filled with joint-sand\n  edging steel-edge, along free\n";

/// A flag, and so many of it.
fn row(flag: &str, how: &str) -> String {
    garden(&format!(
        "shape flag\n  {flag}\n\nsurface stones\n  shape flag, {how}\n{STONES}"
    ))
}

/// Figures of all surfaces together.
#[derive(Debug, Default)]
struct Sums(Vec<(String, f64)>);

impl Sums {
    fn of(analysis: &Analysis) -> Sums {
        let mut sums = Sums::default();
        for own in analysis.figures.surfaces.iter() {
            sums.add("area", own.area_m2);
            sums.add("perimeter", own.perimeter_m);
            for layer in &own.layers {
                sums.add(&format!("{} m2", layer.role.word()), layer.area_m2);
                sums.add(&format!("{} m3", layer.role.word()), layer.volume_m3);
                sums.add(&format!("{} kg", layer.role.word()), layer.mass_kg);
            }
            let joints = own.joints.as_ref();
            sums.add("joints", joints.and_then(|joints| joints.volume_m3));
            for border in &own.borders {
                sums.add("border m2", border.area_m2);
                sums.add("border units", border.units);
                sums.add("border joints", border.joint_m3);
            }
            if let Some(layout) = &own.layout {
                sums.add("whole units", Some(layout.whole as f64));
                sums.add("cut units", Some(layout.cut as f64));
            }
            sums.add(
                "edging",
                own.edgings.first().and_then(|edging| edging.length_m),
            );
            sums.add("bank", own.dig.map(|dig| dig.bank_m3));
            sums.add("dug", own.dig.map(|dig| dig.area_m2));
        }
        for order in analysis.figures.orders.iter() {
            sums.add(&format!("order of {}", order.material), order.needed);
        }
        sums
    }

    fn add(&mut self, what: &str, figure: Option<f64>) {
        let figure = figure.unwrap_or(f64::NAN);
        match self.0.iter_mut().find(|(own, _)| own == what) {
            Some((_, sum)) => *sum += figure,
            None => self.0.push((what.to_owned(), figure)),
        }
    }

    fn get(&self, what: &str) -> f64 {
        let found = self.0.iter().find(|(own, _)| own == what);
        found.map_or(f64::NAN, |(_, sum)| *sum)
    }

    /// Every figure that is another one there.
    fn differences(&self, other: &Sums) -> Vec<String> {
        assert_eq!(self.0.len(), other.0.len());
        let differs = |(what, sum): &&(String, f64)| {
            let there = other.get(what);
            (sum - there).abs() > 1e-9 * (1.0 + sum.abs()) || sum.is_nan() != there.is_nan()
        };
        let all = self.0.iter().filter(differs);
        all.map(|(what, sum)| format!("{what}: {sum} and {}", other.get(what)))
            .collect()
    }
}

/// Eight flags of 600 by 400 mm, 100 mm apart: by hand.
#[test]
fn a_row_comes_to_what_it_is_by_hand() {
    let text = row(
        "rectangle 600 mm by 400 mm",
        "8 in all, every 700 mm between centres, toward east",
    );
    let analysis = analysed(&text);
    let own = &analysis.figures.surfaces[0];
    let repeat = own.repeat.expect("it comes again");
    assert_eq!(repeat.count, 8);
    let sums = Sums::of(&analysis);
    for (what, found, wanted) in [
        ("gap", repeat.gap_m, 0.1),
        ("area", sums.get("area"), 8.0 * 0.24),
        ("edging", sums.get("edging"), 16.0),
        // One outline of 720 by 520 mm each, 20 mm of it under the next one's.
        (
            "base",
            sums.get("base m2"),
            8.0 * 0.72 * 0.52 - 7.0 * 0.02 * 0.52,
        ),
        ("bank", sums.get("bank"), 0.15 * sums.get("base m2")),
        (
            "units",
            own.layers[0].units.unwrap_or_default(),
            8.0 * 0.24 / (0.605 * 0.405),
        ),
    ] {
        assert!((found - wanted).abs() < 1e-9, "{what}: {found}, {wanted}");
    }
    let reported = takeoff_text(&analysis, "garden.patio", SheetLayout::default());
    assert!(
        reported.contains("8 of 0.24 m², 700 mm centres, 100 mm between them"),
        "{reported}"
    );
    let json: Value = serde_json::from_str(&takeoff_json(&analysis)).expect("JSON");
    assert_eq!(json["surfaces"][0]["repeat"]["count"], 8);
}

/// What is wrong with all of them is said once.
#[test]
fn a_finding_is_said_once() {
    let thin = |count: &str| {
        let text = row("rectangle 1500 mm by 1 m", count).replace("100 mm compacted", "20 mm");
        let analysis = analysed(&text);
        let rules = analysis.findings.iter().map(|finding| finding.rule);
        let mut rules: Vec<&str> = rules.collect();
        rules.sort_unstable();
        rules
    };
    let of_two = thin("2 in all, every 1800 mm between centres, toward east");
    let of_nine = thin("9 in all, every 1800 mm between centres, toward east");
    assert_eq!(of_two, of_nine);
    assert!(of_two.contains(&"overdig-short"), "{of_two:?}");
}

/// Along a path each lies as far on as is said, turned as the path turns.
#[test]
fn stones_follow_a_path() {
    let path = "shape walk\n  start (0, 0)\n  east 2 m\n  \
                curve to (4 m, 2 m), radius 2 m, turning left\n  north 2 m\n  width 1 m\n";
    let text = row(
        "rectangle 600 mm by 400 mm, at (-0.3 m, -0.2 m)",
        "10 in all, every 700 mm between centres, along walk",
    ) + "\n"
        + path;
    let analysis = analysed(&text);
    let surface = &analysis.job.surfaces[0];
    let middles: Vec<Point> = surface.outlines().map(Outline::centroid).collect();
    assert_eq!(middles.len(), 10);
    let bend = 2.0 * std::f64::consts::FRAC_PI_2;
    for (middle, far) in middles
        .iter()
        .zip((0..).map(|index| 0.7 * f64::from(index)))
    {
        let on = match far {
            far if far <= 2.0 => Point::new(far, 0.0),
            far if far <= 2.0 + bend => {
                let turned = (far - 2.0) / 2.0;
                Point::new(2.0 + 2.0 * turned.sin(), 2.0 - 2.0 * turned.cos())
            }
            far => Point::new(4.0, far - bend),
        };
        assert!(middle.distance(on) < 1e-9, "{far}: {middle:?}, {on:?}");
    }
    // At the end the long side lies along the path: to the north.
    let (low, high) = surface.others[8].bounding_box();
    assert!((high.y - low.y - 0.6).abs() < 1e-9 && (high.x - low.x - 0.4).abs() < 1e-9);
}

const LAWN: &str = "\nshape lawn\n  rectangle 9 m by 2 m, at (-0.5 m, -1 m)\n  cut flag\n\n\
                    surface lawn\n  shape lawn\n";

/// What is cut by the shape is cut by all of it, at every edit.
#[test]
fn a_cut_takes_them_all() {
    let mut analyser = Analyser::new();
    let mut lawn = |how: &str| {
        let flag = "rectangle 600 mm by 400 mm";
        let text = row(flag, how).replace("shape flag, \n", "shape flag\n") + LAWN;
        let kept = analyser.analyse(
            "/garden.patio",
            text.as_str().into(),
            &NoFiles,
            "2027-04-12",
        );
        let fresh = analysed(&text);
        let area = |analysis: &Analysis| analysis.figures.surfaces[1].area_m2;
        assert_eq!(area(&kept), area(&fresh), "{how}");
        assert_eq!(kept.findings.len(), fresh.findings.len(), "{how}");
        area(&kept)
    };
    let every = |count: u32| format!("{count} in all, every 700 mm between centres, toward east");
    for (how, count) in [
        (every(8), Some(8.0)),
        (every(3), Some(3.0)),
        (String::new(), Some(1.0)),
        (every(5), Some(5.0)),
        // Of what cannot be read nobody knows what it takes.
        (
            "5 in all, every 700 kg between centres, toward east".to_owned(),
            None,
        ),
        (every(8), Some(8.0)),
    ] {
        let wanted = count.map(|count: f64| 18.0 - count * 0.24);
        match (lawn(&how), wanted) {
            (Some(found), Some(wanted)) => assert!((found - wanted).abs() < 1e-9, "{how}"),
            (found, wanted) => assert_eq!(found, wanted, "{how}"),
        }
    }
    // No edge of a stone in the lawn is free, and the lawn meets each.
    let text = row("rectangle 600 mm by 400 mm", &every(8)) + LAWN;
    let sums = Sums::of(&analysed(&text));
    assert!((sums.get("edging")).abs() < 1e-9 || sums.get("edging").is_nan());
}

/// Of the edges of all the holes in a lawn that falls the sheet tells the lowest
/// and the highest level, and not each.
#[test]
fn holes_in_a_lawn_are_told_of_together() {
    let every = "8 in all, every 700 mm between centres, toward east";
    let lawn = LAWN.to_owned() + "  level 0 mm at south\n  fall 1:50 toward south\n  build flags\n";
    let analysis = analysed(&(row("rectangle 600 mm by 400 mm", every) + &lawn));
    let text = takeoff_text(&analysis, "/", SheetLayout::default());
    let words = text.split_whitespace().collect::<Vec<_>>().join(" ");
    // The north side of each lies 1.4 m from the south one of the lawn.
    assert!(words.contains("flag.north +28 mm;"), "{words}");
    assert!(
        words.contains("flag.east +20 mm to +28 mm over 8 pieces"),
        "{words}"
    );
}

/// However many lie in a lawn, what goes past its rim is known.
#[test]
fn a_lawn_takes_as_many_as_there_may_be() {
    let text = garden(&format!(
        "shape flag\n  circle radius 250 mm, centre (1 m, 1 m)\n\n\
         shape lawn\n  rectangle 150 m by 2 m\n  cut flag\n\n\
         surface stones\n  shape flag, 200 in all, every 700 mm between centres, toward east\n{STONES}\n\
         surface lawn\n  shape lawn\n  level 0 mm\n  build flags\n"
    ));
    let analysis = analysed(&text);
    let base = analysis.figures.surfaces[1].layers[2].area_m2;
    let wanted = 150.12 * 2.12 - 200.0 * std::f64::consts::PI * 0.0625;
    assert!(
        base.is_some_and(|found| (found - wanted).abs() < 1e-6),
        "{base:?}"
    );
}

/// Each stone is set out by its middle and its corners, and the hole round it by
/// nothing.
#[test]
fn each_is_set_out_by_itself() {
    let how = "4 in all, every 700 mm between centres, toward east";
    let marks = "\nsetting-out\n  from (0, 5 m) and (6 m, 5 m)\n";
    let text = row("rectangle 600 mm by 400 mm", how) + LAWN + marks;
    let found = setting_out(&analysed(&text).job);
    let middles: Vec<(Point, Option<f64>)> = found
        .spots
        .iter()
        .map(|spot| (spot.at, spot.level_m))
        .collect();
    assert_eq!(middles.len(), 4);
    for ((at, level), east) in middles.iter().zip([0.3, 1.0, 1.7, 2.4]) {
        assert!(at.distance(Point::new(east, 0.2)) < 1e-9);
        assert_eq!(*level, Some(0.0));
    }
    // Four corners of each stone, and four of the lawn.
    assert_eq!(found.pegs.len(), 4 * 4 + 4);
}

/// The plan shows each of them, and leads from each to its line.
#[test]
fn the_plan_draws_them_all() {
    let units = |how: &str| {
        let analysis = analysed(&row("rectangle 1.2 m by 0.8 m", how));
        let plan = drawing::plan(&analysis, "garden.patio", &drawing::Choice::default());
        let plan = plan.expect("a plan");
        let laid = plan.items.iter().filter(|item| item.layer == Layer::Units);
        laid.filter(|item| item.within == Some(0)).count()
    };
    assert_eq!(
        units("6 in all, every 1.5 m between centres, toward north"),
        6
    );
    assert_eq!(
        units("2 in all, every 1.5 m between centres, toward north"),
        2
    );
}

/// A build that the border of a tray stands on.
const HAUNCHED: &str = "build haunched\n  paving clay-paver, 65 mm\n  bed sharp-sand, 30 mm\n  \
                        base crushed-stone, 250 mm compacted, beyond 90 mm\n\n";

/// Three trays of 2 by 2 m in a row, together or one by one, with this border
/// and these sections beside them.
fn trays(border: &str, more: &str) -> [Sums; 2] {
    let tray = |east: f64| format!("rectangle 2 m by 2 m, at ({east} m, 0)");
    let laid = |east: f64| {
        format!(
            "{STONES}  border clay-paver, soldier, units 200 mm by 100 mm, along free{border}\n"
        )
        .replace(
            "600 mm by 400 mm",
            &format!(
                "600 mm by 400 mm, along south, from ({} m, 200 mm)",
                east + 0.2
            ),
        )
    };
    let together = format!(
        "{HAUNCHED}shape tray\n  {}\n\nsurface trays\n  shape tray, 3 in all, every 2.5 m between centres, toward east\n{}\n{more}",
        tray(0.0),
        laid(0.0),
    );
    let one = |index: u32| {
        let east = 2.5 * f64::from(index);
        format!(
            "shape tray-{index}\n  {}\n\nsurface tray-{index}\n  shape tray-{index}\n{}\n",
            tray(east),
            laid(east)
        )
    };
    let apart: String = (0..3).map(one).collect();
    let apart = format!("{HAUNCHED}{apart}{more}");
    [together, apart].map(|text| Sums::of(&analysed(&garden(&text))))
}

/// A border of what comes again is as many borders, on what its surface stands
/// on or not, whether or not each has the same edges free.
#[test]
fn a_border_of_many_is_as_many_borders() {
    let path = "shape path\n  rectangle 1 m by 2 m, at (-1 m, 0)\n\nsurface path\n  shape path\n  level 0 mm\n  build flags\n";
    for border in ["", ", on haunched"] {
        for more in ["", path] {
            let [together, apart] = trays(border, more);
            assert!(together.get("border units") > 0.0, "{border} {more}");
            assert!(together.get("whole units") > 0.0, "{border} {more}");
            let differs = together.differences(&apart);
            assert!(differs.is_empty(), "{border} {more}: {differs:#?}");
        }
    }
    // By hand, a unit and its joint wide: along the edge at the path there is
    // none, between the two that go on to it.
    let of = |more: &str| trays("", more)[0].get("border m2");
    let less = of("") - of(path);
    assert!((less - 0.205 * 1.59).abs() < 1e-9, "{less}");
}

/// A job with what comes again, mirrored, comes to the same and has the same
/// found of it.
#[test]
fn a_mirrored_row_comes_to_the_same() {
    let job = |is_mirrored: bool| {
        let side = if is_mirrored { -1.0 } else { 1.0 };
        let (east, left) = match is_mirrored {
            true => ("west", "right"),
            false => ("east", "left"),
        };
        let at = |x: f64, y: f64| format!("({} m, {y} m)", side * x);
        let rectangle = |wide: f64, high: f64, x: f64, y: f64| {
            let corner = if is_mirrored { -x - wide } else { x };
            format!("rectangle {wide} m by {high} m, at ({corner} m, {y} m)")
        };
        let bearing = if is_mirrored { 330 } else { 30 };
        garden(&format!(
            "shape run\n  start {}\n  {east} 2 m\n  curve to {}, radius 2 m, turning {left}\n  north 3 m\n  width 1.2 m\n\n\
             shape step\n  {}\n\nshape flag\n  {}\n\nshape lawn\n  {}\n  cut flag\n\n\
             surface steps\n  shape step, 9 in all, every 700 mm between centres, along run\n{STONES}\n\
             surface flags\n  shape flag, 4 in all, every 800 mm between centres, toward bearing {bearing}°\n{STONES}  \
             border clay-paver, stretcher, units 200 mm by 50 mm, along north\n\n\
             surface lawn\n  shape lawn\n  level 0 mm\n  build flags\n",
            at(0.0, 0.0),
            at(4.0, 2.0),
            rectangle(0.4, 0.6, -0.2, -0.3),
            rectangle(0.6, 0.4, 10.0, 0.0),
            rectangle(6.0, 6.0, 8.0, -1.0),
        ))
    };
    let (plain, mirrored) = (analysed(&job(false)), analysed(&job(true)));
    let (own, other) = (Sums::of(&plain), Sums::of(&mirrored));
    assert!(own.get("border units") > 0.0 && own.get("area") > 30.0);
    let differs: Vec<String> = own
        .differences(&other)
        .into_iter()
        .filter(|line| !line.contains("NaN"))
        .collect();
    assert!(differs.is_empty(), "{differs:#?}");
    let rules = |analysis: &Analysis| -> Vec<&'static str> {
        let mut all: Vec<_> = analysis.findings.iter().map(|own| own.rule).collect();
        all.sort_unstable();
        all
    };
    assert_eq!(rules(&plain), rules(&mirrored));
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    /// So many of one shape are so many surfaces of one each, whether or not
    /// their bases meet, and whichever way they follow one another.
    #[test]
    fn so_many_of_one_are_so_many_surfaces(
        count in 2u32..9, gap in 10u32..400, degrees in 0u32..360, turn in 0u32..90,
    ) {
        // Round ones lie alike whichever way they go.
        let flag = |at: Point| format!("circle radius 300 mm, centre ({:.9} m, {:.9} m)", at.x, at.y);
        let step = f64::from(600 + gap) / 1000.0;
        let way = |degrees: f64| drylay::geometry::Vector::from_bearing(degrees);
        let from = Point::new(1.0, 2.0);
        let how = format!(
            "{count} in all, every {:.3} m between centres, toward bearing {degrees}°", step
        );
        let together = Sums::of(&analysed(&row(&flag(from), &how)));
        let one_by_one: String = (0..count)
            .map(|index| {
                let at = from + way(f64::from(degrees)) * (step * f64::from(index));
                format!("shape flag-{index}\n  {}\n\nsurface stones-{index}\n  shape flag-{index}\n{STONES}\n", flag(at))
            })
            .collect();
        let apart = Sums::of(&analysed(&garden(&one_by_one)));
        let differs: Vec<String> = together
            .differences(&apart)
            .into_iter()
            .filter(|line| !line.contains("nothing"))
            .collect();
        prop_assert!(differs.is_empty(), "{differs:#?}");
        // A job that is turned comes to the same.
        let turned = format!("toward bearing {}°", degrees + turn);
        let how = how.replace(&format!("toward bearing {degrees}°"), &turned);
        let turned = Sums::of(&analysed(&row(&flag(from), &how)));
        prop_assert!(together.differences(&turned).is_empty());
    }
}

/// What is dug for stones whose bases meet is what Shapely finds of all of
/// them together.
#[test]
fn ground_of_a_row_agrees_with_shapely() {
    let cases: Vec<Value> = [
        (620, 0),
        (660, 20),
        (700, 45),
        (720, 70),
        (900, 30),
        (650, 90),
    ]
    .into_iter()
    .map(|(every, degrees)| {
        let how = format!("7 in all, every {every} mm between centres, toward bearing {degrees}°");
        let flag = format!("rectangle 600 mm by 600 mm, turned {degrees}°");
        let analysis = analysed(&row(&flag, &how));
        let flags: Vec<Value> = analysis.job.surfaces[0].outlines().map(shape).collect();
        let found = analysis.figures.surfaces[0].dig.map(|dig| dig.area_m2);
        json!({"kind": "covered", "all": flags, "by": 0.06, "found": found})
    })
    .collect();
    checked_by("shapely_check.py", "repeats", &cases);
}
