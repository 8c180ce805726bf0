//! What was measured: published level books, and what must hold of any.

use std::sync::Arc;

use drylay::analysis::{Analyser, Analysis, NoFiles};
use drylay::geometry::Point;
use drylay::quantities::{MeasuredFigures, Water};
use drylay::report::{
    SheetLayout, takeoff_csv, takeoff_json, takeoff_markdown, takeoff_text, unknown,
};
use proptest::prelude::*;
use serde_json::json;

use crate::outside::checked_by;
use crate::random::{Random, cases};

fn analysed(text: &str) -> Arc<Analysis> {
    Analyser::new().analyse("/court.patio", text.into(), &NoFiles, "2027-05-06")
}

const COURT: &str = "job \"Court\"\n  units metric\n\nsite\n  datum \"sill\"\n  ground -200 mm\n\n\
    shape court\n  rectangle 6 m by 4 m, at (0, -4 m)\n\n\
    surface court\n  shape court\n  meets north\n  level -150 mm at north\n  \
    fall 1:50 away from north\n  build flags\n\n\
    build flags\n  paving sandstone, 40 mm\n  bed sharp-sand, 30 mm\n  \
    base crushed-stone, 150 mm compacted, beyond 100 mm\n\n";

/// What this section says of the court.
fn measured(section: &str) -> MeasuredFigures {
    let analysis = analysed(&format!("{COURT}measured \"court\"\n{section}"));
    analysis.figures.measured[0].clone()
}

/// The levels of a staff's readings, over a bench mark at this level. A line of
/// one figure is a reading; one of two a reading on a point of known level.
fn booked(bench_mark: f64, book: &str) -> Vec<f64> {
    let mut section = "  of court\n".to_owned();
    for line in book.lines().map(str::trim) {
        let mut words = line.split(' ');
        let reading = words.next().expect("a reading");
        section += &match words.next() {
            Some(level) => {
                let on: f64 = level.parse().expect("a level");
                format!("  datum-reading {reading} m, {:.6} m\n", on - bench_mark)
            }
            None => format!("  reading {reading} m at (1 m, -1 m)\n"),
        };
    }
    let found = measured(&section);
    let levels = found.points.iter().map(|point| point.level_m);
    levels
        .map(|level| level.expect("it is known") + bench_mark)
        .collect()
}

/// A whole level book with four set-ups, and others, as they are printed on
/// teaching pages on levelling (read); the first was run again and all its
/// levels agree. It closes on a bench mark of 168.500 m with -0.166 m.
#[test]
fn level_books_are_reduced_as_published() {
    let one = "1.379 175.500\n2.795\n3.215\n0.595\n1.270\n3.215\n1.280 173.664\n1.030\n3.045\n\
        3.815\n2.312 171.129\n3.227\n1.743 170.214\n2.735\n3.623";
    let its = [
        174.084, 173.664, 176.284, 175.609, 173.664, 173.914, 171.899, 171.129, 170.214, 169.222,
        168.334,
    ];
    // Rise and fall over two change points, from a mark taken as 100.
    let rise_and_fall = "1.35 100\n0.80\n1.65\n1.40 99.70\n0.70\n1.70\n1.30 99.40\n1.85";
    let its_levels = [100.55, 99.70, 100.40, 99.40, 98.85];
    let moved = "0.695 100.000\n1.250\n1.675 99.445\n0.470";
    for (bench_mark, book, published) in [
        (175.5, one, &its[..]),
        (100.0, rise_and_fall, &its_levels[..]),
        (100.0, moved, &[99.445, 100.650][..]),
        // In feet as printed: 820.00, 8.42 and 1.20 give 827.22.
        (820.0, "8.42 820.00\n1.20", &[827.22][..]),
    ] {
        let found = booked(bench_mark, book);
        assert_eq!(found.len(), published.len());
        for (found, published) in found.iter().zip(published) {
            assert!((found - published).abs() < 1e-9, "{found} for {published}");
        }
    }
    let misclose = booked(175.5, one).last().expect("a level") - 168.5;
    assert!((misclose + 0.166).abs() < 1e-9);
}

/// Sums of back sights 5.620 and fore sights 4.950 take a level of 100.00 to
/// 100.67, as a page on levelling has it (read): 0.67 by either sum.
#[test]
fn sums_of_sights_check_a_book() {
    let found = booked(100.0, "5.620 100.00\n4.950");
    assert!((found[0] - 100.67).abs() < 1e-9);
}

#[test]
fn each_point_stands_beside_its_design() {
    let found = measured(
        "  of court, base\n  level -215 mm at (0, 0)\n  level -222 mm at (6 m, 0)\n  \
         level -301 mm at (0, -4 m)\n",
    );
    // 70 mm of flags and bed below -150, -150 and -230 mm.
    let offs = found
        .points
        .iter()
        .map(|point| point.off_m.expect("known") * 1000.0);
    for (found, expected) in offs.zip([5.0, -2.0, -1.0]) {
        assert!((found - expected).abs() < 1e-9, "{found} for {expected}");
    }
    assert!((found.mean_m.expect("known") * 1000.0 - 2.0 / 3.0).abs() < 1e-9);
    assert_eq!(found.worst, Some(0));
    let takes = found.takes.expect("the bed");
    assert_eq!(takes.role.word(), "bed");
    assert!((takes.least_m - 0.025).abs() < 1e-12);
    assert!((takes.greatest_m - 0.032).abs() < 1e-12);
    assert!((takes.mean_m - (0.03 - 0.002 / 3.0)).abs() < 1e-12);
    // Over the court's 24 m², and no more than that: the bed ends at its edges.
    assert!((takes.more_m3.expect("known") + 24.0 * 0.002 / 3.0).abs() < 1e-9);
}

#[test]
fn a_tape_from_the_string_gives_the_level() {
    let string = format!("{COURT}setting-out\n  string 150 mm above\n\n");
    let text = string + "measured \"base\"\n  of court, base\n  below-string 223 mm at (0, 0)\n";
    let found = analysed(&text).figures.measured[0].clone();
    // 150 mm of string and 70 mm of build: 220 mm is designed.
    assert!((found.points[0].off_m.expect("known") + 0.003).abs() < 1e-12);
}

#[test]
fn a_border_is_measured_against_its_own_build() {
    let text = COURT.replace(
        "  build flags\n",
        "  build flags\n  border clay-paver, soldier, units 200 mm by 100 mm, along south, on strip\n",
    ) + "build strip\n  paving clay-paver, 65 mm\n  bed sharp-sand, 30 mm\n  \
         base crushed-stone, 200 mm compacted\n\n";
    let base = "measured \"base\"\n  of court, base\n  level -250 mm at (3 m, -2 m)\n";
    let both = format!("{base}  level -322 mm at (3 m, -3.9 m)\n");
    let found = analysed(&(text.clone() + &both)).figures.measured[0].clone();
    // 190 + 70 mm on the field, 228 + 95 mm on the border.
    for (point, wanted) in found.points.iter().zip([0.01, 0.001]) {
        assert!((point.off_m.expect("known") - wanted).abs() < 1e-12);
    }
    // What lies over two bases is not made up by one bed.
    assert!(found.takes.is_none());
    let field = analysed(&(text + base)).figures.measured[0].clone();
    assert!(field.takes.is_some());
}

const GRID: [(f64, f64); 9] = [
    (0.0, 0.0),
    (3.0, 0.0),
    (6.0, 0.0),
    (0.0, -2.0),
    (3.0, -2.0),
    (6.0, -2.0),
    (0.0, -4.0),
    (3.0, -4.0),
    (6.0, -4.0),
];

fn finish(levels: [i32; 9]) -> MeasuredFigures {
    let lines = GRID
        .iter()
        .zip(levels)
        .map(|((east, north), level)| format!("  level {level} mm at ({east} m, {north} m)\n"));
    measured(&format!("  of court\n{}", lines.collect::<String>()))
}

#[test]
fn water_runs_off_stands_or_is_not_known() {
    let even = finish([-150, -150, -150, -190, -190, -190, -230, -230, -230]);
    assert_eq!(even.water, Water::RunsOff);
    let hollow = finish([-150, -150, -150, -190, -240, -190, -230, -230, -230]);
    let Water::Stands { at, depth_m } = hollow.water else {
        panic!("{:?}", hollow.water);
    };
    assert_eq!((at.x, at.y), (3.0, -2.0));
    assert!((depth_m - 0.01).abs() < 1e-12);
    // Toward the house it does not run off either.
    let backward = finish([-230, -232, -230, -190, -190, -190, -150, -150, -150]);
    assert_eq!(
        backward.water,
        Water::Unknown("no reading where the water would leave")
    );
    let few = measured("  of court\n  level -150 mm at (0, 0)\n");
    assert_eq!(few.water, Water::Unknown("fewer than three readings"));
}

/// Readings of the base that are said to be of the finish are asked about once;
/// those that are off by as much here and there are told one by one.
#[test]
fn readings_of_another_top_are_asked_about_once() {
    let levels = |levels: [i32; 4]| {
        let at = ["(0, 0)", "(6 m, 0)", "(6 m, -4 m)", "(0, -4 m)"];
        let lines = at.iter().zip(levels);
        let lines = lines.map(|(at, level)| format!("  level {level} mm at {at}\n"));
        lines.collect::<String>()
    };
    // The base lies 70 mm below the finish, which falls by 80 mm.
    for (of, read, wanted) in [
        ("court", [-220, -222, -297, -303], (1, true)),
        ("court, base", [-220, -222, -297, -303], (0, false)),
        ("court, base", [-150, -152, -227, -233], (1, true)),
        ("court", [-150, -152, -227, -303], (1, false)),
        ("court", [-220, -222, -227, -303], (3, false)),
    ] {
        let section = format!("measured \"court\"\n  of {of}\n{}", levels(read));
        let analysis = analysed(&format!("{COURT}{section}"));
        let told = analysis.findings.iter();
        let told = told.filter(|own| own.rule == "level-off").count();
        let is_asked = analysis.figures.measured[0].agrees_with.is_some();
        assert_eq!((told, is_asked), wanted, "{of}, {read:?}");
    }
}

#[test]
fn what_is_not_known_is_a_dash_with_its_reason() {
    let no_fall = COURT
        .replace("  fall 1:50 away from north\n", "")
        .replace("  level -150 mm at north\n", "");
    let section = "measured \"court\"\n  of court\n  level -150 mm at (0, 0)\n";
    let analysis = analysed(&(no_fall + section));
    let reasons = unknown(&analysis);
    for reason in [
        "levels, fall or thicknesses give no design level: how far off is court",
        "a plane takes three readings that are not in line: fall as built of court",
    ] {
        assert!(
            reasons.iter().any(|own| own == reason),
            "{reason} of {reasons:?}"
        );
    }
    let text = takeoff_text(&analysis, "/", SheetLayout::default().with_working(true));
    assert!(text.contains("AS BUILT: court"), "{text}");
    assert!(takeoff_json(&analysis).contains("\"off_m\": null"));
    assert!(takeoff_markdown(&analysis, "/").contains("## As built court"));
    assert!(takeoff_csv(&analysis).contains("measured,court,point"));
}

#[test]
fn a_spec_without_it_says_nothing_of_it() {
    let analysis = analysed(COURT);
    assert!(!takeoff_json(&analysis).contains("measured"));
    assert!(!takeoff_text(&analysis, "/", SheetLayout::default()).contains("AS BUILT"));
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(48))]

    /// Levels that lie on a plane give that plane back, whatever it is, and all
    /// of them are off by what one of them is where the plane is the design's.
    #[test]
    fn readings_on_a_plane_give_it_back(
        east in -0.05..0.05_f64,
        north in -0.05..0.05_f64,
        at in -0.4..0.1_f64,
    ) {
        let lines = GRID.iter().map(|(x, y)| {
            let level = at + east * x + north * y;
            format!("  level {level:.9} m at ({x} m, {y} m)\n")
        });
        let found = measured(&format!("  of court\n{}", lines.collect::<String>()));
        let gradient = found.plane.expect("nine points").gradient();
        prop_assert!((gradient.x - east).abs() < 1e-7 && (gradient.y - north).abs() < 1e-7);
        let mean = found.mean_m.expect("known");
        let offs: Vec<f64> = found.points.iter().map(|own| own.off_m.expect("known")).collect();
        prop_assert!((mean - offs.iter().sum::<f64>() / 9.0).abs() < 1e-9);
    }
}

/// Readings that lie on no plane, held to the least squares of NumPy.
#[test]
fn readings_agree_with_numpy() {
    let mut random = Random::new("readings");
    let mut made = Vec::new();
    for _ in 0..cases(60) {
        let count = 3 + random.below(9);
        let points: Vec<[f64; 3]> = (0..count)
            .map(|_| {
                [
                    random.between(0.0, 6.0),
                    random.between(-4.0, 0.0),
                    random.between(-0.3, 0.0),
                ]
            })
            .collect();
        let lines = points
            .iter()
            .map(|[x, y, level]| format!("  level {level:.9} m at ({x:.9} m, {y:.9} m)\n"));
        let found = measured(&format!("  of court\n{}", lines.collect::<String>()));
        let Some(plane) = found.plane else { continue };
        let offs = found.points.iter().map(|own| own.off_m.expect("known"));
        made.push(json!({
            "kind": "readings", "points": points,
            "level": plane.level_at(Point::new(3.0, -2.0)),
            "east": plane.gradient().x, "north": plane.gradient().y,
            "mean": found.mean_m, "worst": offs.map(f64::abs).fold(0.0, f64::max),
        }));
    }
    checked_by("numpy_check.py", "readings", &made);
}

/// What was read again on a later day is judged by the later reading.
#[test]
fn a_reading_that_was_put_right_is_no_fault() {
    let told = |second: &str| -> usize {
        let text = format!(
            "{COURT}measured \"first\"\n  of court, base\n  on 2027-05-03\n  level -205 mm at (1 m, -1 m)\n\n\
             measured \"again\"\n  of court, base\n  on {second}\n  level -242 mm at (1.1 m, -1 m)\n"
        );
        let analysis = analysed(&text);
        let findings = analysis.findings.iter();
        findings.filter(|own| own.rule == "level-off").count()
    };
    assert_eq!(told("2027-05-04"), 0);
    assert_eq!(told("2027-05-02"), 1);
}

/// A wrong reading on the known level is told once, and not at each point.
#[test]
fn a_wrong_sight_is_told_once() {
    let told = |sight: &str| -> Vec<String> {
        let text = format!(
            "{COURT}measured \"court\"\n  of court\n  datum-reading {sight}, -200 mm\n  \
             reading 1.350 m at (0, 0)\n  reading 1.350 m at (6 m, 0)\n  \
             reading 1.430 m at (0, -4 m)\n  reading 1.430 m at (6 m, -4 m)\n"
        );
        let analysis = analysed(&text);
        let findings = analysis.findings.iter();
        let own = findings.filter(|own| own.rule == "reading-unclear");
        own.map(|own| analysis.text(own.place).to_owned()).collect()
    };
    assert_eq!(told("1.400 m"), [] as [String; 0]);
    assert_eq!(told("1.100 m"), ["1.100 m"]);
}
