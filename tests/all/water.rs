//! Where the water goes: by hand on small jobs, and what must hold of any.

use std::sync::Arc;

use drylay::analysis::{Analyser, Analysis, NoFiles};
use drylay::geometry::{Point, Vector, beams};
use drylay::quantities::{End, SurfaceWater, told_together};
use drylay::report::{SheetLayout, takeoff_text};
use serde_json::json;

use crate::checked::checked;
use crate::outlines::outline;
use crate::outside::{checked_by, shape};
use crate::random::{Random, cases};

const SITE: &str = "job \"Yard\"\n  units metric\n  region general\n\nsite\n  datum \"sill\"\n  storm 75 mm/h for 5 min\n\nbuild flags\n  paving sandstone-slab, 40 mm\n\n";

/// A surface of flags over a rectangle at a point.
fn surface(name: &str, rectangle: &str, entries: &[&str]) -> String {
    let lines: String = entries.iter().map(|entry| format!("  {entry}\n")).collect();
    format!(
        "shape {name}\n  rectangle {rectangle}\n\nsurface {name}\n  shape {name}\n  build flags\n  runoff 90 %\n{lines}\n"
    )
}

fn analysed(surfaces: &[String]) -> Arc<Analysis> {
    let text = SITE.to_owned() + &surfaces.concat();
    Analyser::new().analyse("/yard.patio", text.as_str().into(), &NoFiles, "2027-04-12")
}

fn of(analysis: &Analysis, index: usize) -> &SurfaceWater {
    let water = analysis.figures.water.as_ref().expect("it states a storm");
    &water.surfaces[index]
}

/// The ways out of a surface: what becomes of the water, its own area, and
/// all that comes there.
fn ways(analysis: &Analysis, index: usize) -> Vec<(String, f64, f64)> {
    let own = &analysis.job.surfaces[index];
    let ways = of(analysis, index).ways.as_ref().expect("it falls");
    ways.iter()
        .map(|way| {
            let all = way.all.area_m2.expect("all of it is known");
            (way.described(&analysis.job, own), way.area_m2, all)
        })
        .collect()
}

fn described(ways: &[(String, f64, f64)]) -> Vec<(&str, f64, f64)> {
    let hundredths = |area: f64| (area * 100.0).round() / 100.0;
    ways.iter()
        .map(|(reported, own, all)| (reported.as_str(), hundredths(*own), hundredths(*all)))
        .collect()
}

#[test]
fn water_runs_on_over_a_lower_surface() {
    let upper = surface(
        "upper",
        "6 m by 4 m",
        &["level 0 mm at north", "fall 1:50 toward south"],
    );
    let lower = surface(
        "lower",
        "8 m by 3 m, at (0 m, -3 m)",
        &["level -100 mm at north", "fall 1:50 toward south"],
    );
    let analysis = analysed(&[upper, lower]);
    assert_eq!(
        described(&ways(&analysis, 0)),
        [("over south onto lower", 24.0, 24.0)]
    );
    assert_eq!(described(&ways(&analysis, 1)), [("off south", 24.0, 48.0)]);
    let way = &of(&analysis, 1).ways.as_ref().unwrap()[0];
    // 48 m² × 0.9 × 75 mm/h = 0.9 L/s.
    assert!((way.flow.unwrap() - 0.0009).abs() < 1e-12);
}

#[test]
fn a_surface_that_stands_higher_holds_water_up() {
    for (level, told_of) in [
        ("-100 mm", "over south onto lower"),
        ("-77 mm", "over south onto lower"),
        (
            "-76 mm",
            "to south, where lower stands higher, where it stands",
        ),
    ] {
        let upper = surface(
            "upper",
            "6 m by 4 m",
            &["level 0 mm at north", "fall 1:50 toward south"],
        );
        let entries = [
            &format!("level {level} at north") as &str,
            "fall 1:50 toward south",
        ];
        let lower = surface("lower", "6 m by 3 m, at (0 m, -3 m)", &entries);
        let analysis = analysed(&[upper, lower]);
        assert_eq!(ways(&analysis, 0)[0].0, told_of, "{level}");
        let is_told = analysis.findings.iter().any(|one| one.rule == "low-point");
        assert_eq!(is_told, told_of.ends_with("where it stands"), "{level}");
    }
}

#[test]
fn water_runs_along_what_shuts_it_in() {
    // South and a little east, against the building on the south side.
    let court = surface(
        "court",
        "6 m by 4 m",
        &[
            "meets south",
            "level 0 mm at (0, 4 m)",
            "fall 1:50 toward south, cross 1:100 toward east",
        ],
    );
    let analysis = analysed(&[court]);
    let found = ways(&analysis, 0);
    // East leaves over the triangle below the line of fall to the corner.
    assert_eq!(
        described(&found),
        [
            (
                "to the building at south, along it and off east",
                20.0,
                20.0
            ),
            ("off east", 4.0, 4.0)
        ]
    );
    // A valley between two that fall to each other, and east along it.
    let falls = |way: &str| format!("fall 1:50 toward {way}, cross 1:100 toward east");
    let north = surface(
        "upper",
        "6 m by 4 m",
        &["level 0 mm at (0, 0)", &falls("south")],
    );
    let south = surface(
        "lower",
        "6 m by 4 m, at (0, -4 m)",
        &["level 0 mm at (0, 0)", &falls("north")],
    );
    let analysis = analysed(&[north, south]);
    assert_eq!(
        ways(&analysis, 0)[0].0,
        "to the valley with lower at south, along it and off east"
    );
    let valley = "to the valley with upper at north, along it and off east";
    assert!(
        ways(&analysis, 1)
            .iter()
            .any(|(reported, ..)| reported == valley)
    );
}

#[test]
fn what_is_not_known_is_a_dash_with_its_reason() {
    let flat = surface("flat", "6 m by 4 m", &[]);
    let analysis = analysed(&[flat]);
    assert_eq!(of(&analysis, 0).ways, None);
    let unknown = drylay::report::unknown(&analysis);
    let reason = "no fall says which way water runs: where the water goes of flat";
    assert!(unknown.iter().any(|line| line == reason), "{unknown:?}");
    let upper = surface("upper", "6 m by 4 m", &["fall 1:50 toward south"]);
    let lower = surface(
        "lower",
        "6 m by 3 m, at (0 m, -3 m)",
        &["level -100 mm at north", "fall 1:50 toward south"],
    );
    let analysis = analysed(&[upper, lower]);
    let way = &of(&analysis, 1).ways.as_ref().unwrap()[0];
    assert_eq!((way.all.area_m2, way.flow), (None, None));
}

#[test]
fn a_job_without_a_storm_has_no_water() {
    let text = SITE.replace("  storm 75 mm/h for 5 min\n", "")
        + &surface(
            "court",
            "6 m by 4 m",
            &["level 0 mm at north", "fall 1:50 toward south"],
        );
    let analysis =
        Analyser::new().analyse("/yard.patio", text.as_str().into(), &NoFiles, "2027-04-12");
    assert_eq!(analysis.figures.water, None);
}

/// A court cut in two along a line of its own plane sends as much over each
/// edge as it did whole.
#[test]
fn cutting_along_a_line_of_the_plane_changes_nothing() {
    let mut random = Random::new("cut courts");
    for _ in 0..cases(40) {
        let at = random.step(1.0, 5.0, 0.25);
        let (south, east) = (
            random.step(0.01, 0.03, 0.005),
            random.step(0.0, 0.03, 0.005),
        );
        let fall = format!(
            "fall {:.1} % toward south, cross {:.1} % toward east",
            south * 100.0,
            east * 100.0
        );
        let level = "level 0 mm at (0, 4 m)";
        let whole = analysed(&[surface("court", "6 m by 4 m", &[level, &fall])]);
        let west = surface("west", &format!("{at} m by 4 m"), &[level, &fall]);
        let rest = format!("level {:.3} mm at ({at} m, 4 m)", 0.0 - east * at * 1000.0);
        let other = format!("{} m by 4 m, at ({at} m, 0 m)", 6.0 - at);
        let cut = analysed(&[west, surface("rest", &other, &[&rest, &fall])]);
        let leaves = |analysis: &Analysis, edge: &str| -> f64 {
            let all = (0..analysis.job.surfaces.len()).flat_map(|index| {
                let own = &analysis.job.surfaces[index];
                let ways = of(analysis, index).ways.as_ref().unwrap();
                let off = ways
                    .iter()
                    .filter(|way| way.described(&analysis.job, own) == format!("off {edge}"));
                off.map(|way| {
                    assert_eq!(own.edge_name(way.edge.unwrap()), edge);
                    way.all.area_m2.unwrap()
                })
                .collect::<Vec<f64>>()
            });
            all.sum()
        };
        for edge in ["south", "east"] {
            let (one, two) = (leaves(&whole, edge), leaves(&cut, edge));
            assert!(
                (one - two).abs() < 1e-9,
                "{edge} at {at}, {fall}: {one} {two}"
            );
        }
    }
}

/// A path beside a terrace falls as it does, and a little toward it: all that
/// comes over the edge between them leaves by the terrace's foot, however the
/// job lies in the plan and whichever way its corners were rounded.
#[test]
fn what_comes_over_an_edge_along_the_fall_leaves_at_its_foot() {
    for degrees in (0..360).step_by(15) {
        for rounding in [1e6, 1e4, 1e3] {
            let (sin, cos) = f64::from(degrees).to_radians().sin_cos();
            let at = |x: f64, y: f64| {
                let turned = [x * cos - y * sin, x * sin + y * cos];
                let [x, y] = turned.map(|own| (own * rounding).round() / rounding);
                format!("({x} m, {y} m)")
            };
            let shape = |name: &str, corners: [(f64, f64); 4], names: [&str; 4]| {
                let [first, rest @ ..] = corners;
                let ends = rest.into_iter().chain([first]).zip(names);
                let steps = ends.map(|((x, y), name)| format!("  to {}, named {name}\n", at(x, y)));
                let steps: String = steps.collect();
                format!(
                    "shape {name}\n  start {}\n{steps}  close\n\n",
                    at(first.0, first.1)
                )
            };
            let bearing = |own: u32| (own + 720 - degrees) % 360;
            let (south, west) = (bearing(180), bearing(270));
            let terrace = [(0.0, -4.0), (6.0, -4.0), (6.0, 0.0), (0.0, 0.0)];
            let path = [(6.0, -4.0), (9.0, -4.0), (9.0, 0.0), (6.0, 0.0)];
            let text = [
                SITE.to_owned(),
                shape("terrace", terrace, ["foot", "beside", "head", "far"]),
                shape("path", path, ["low", "out", "top", "near"]),
                format!("surface terrace\n  shape terrace\n  build flags\n  level 0 mm at {}\n  fall 1:60 toward bearing {south}°\n\n", at(0.0, 0.0)),
                format!("surface path\n  shape path\n  build flags\n  level 0 mm at {}\n  fall 1:60 toward bearing {south}°, cross 1:80 toward bearing {west}°\n", at(6.0, 0.0)),
            ]
            .concat();
            let found = Analyser::new().analyse(
                "/yard.patio",
                text.as_str().into(),
                &NoFiles,
                "2027-04-12",
            );
            let ways = ways(&found, 0);
            let foot: f64 = ways
                .iter()
                .filter(|(way, ..)| way == "off foot")
                .map(|(.., all)| all)
                .sum();
            // Of the path's 12 m² a triangle of 3 by 4 leaves over its own foot.
            let wanted = 24.0 + 6.0;
            assert!(
                (foot - wanted).abs() < 0.05,
                "{degrees}° {rounding}: {foot} off the foot: {ways:?}"
            );
        }
    }
}

#[test]
fn catchments_agree_with_shapely() {
    let mut random = Random::new("catchments");
    let mut made = Vec::new();
    for _ in 0..cases(25) {
        let own = outline(&mut random, 5.0);
        let turn = random.between(0.0, std::f64::consts::TAU);
        let downhill = Vector::new(turn.cos(), turn.sin());
        let found = beams(&own, downhill).iter().fold(
            std::collections::BTreeMap::<u32, f64>::new(),
            |mut sums, beam| {
                *sums.entry(beam.exit.tag).or_default() += beam.area();
                sums
            },
        );
        let tags: Vec<u32> = own.edges().map(|edge| edge.tag).collect();
        let found: Vec<(u32, f64)> = found.into_iter().collect();
        made.push(json!({
            "a": shape(&own), "tags": tags, "down": [downhill.x, downhill.y], "found": found,
        }));
    }
    checked_by("catchment_check.py", "catchments", &made);
}

const LANE: &str = "\
job \"Lane\"
  units        metric
  region       uk

site
  storm        50 mm/h

shape lane
  start        (0, 0)
  east         4 m
  curve        to (6 m, -2 m), radius 2 m, turning right
  south        3 m
  width        1.2 m

surface lane
  shape        lane
  level        0 mm at (0, 0)
  fall         1:50 toward bearing 135°
";

/// The left edge of a path is three pieces: what runs off it is told once, and
/// all of it.
#[test]
fn what_leaves_over_the_pieces_of_an_edge_is_told_together() {
    let lane = checked(LANE);
    let text = takeoff_text(lane.analysis(), "/", SheetLayout::default());
    assert_eq!(text.matches("off left").count(), 1, "{text}");
    let water = lane.figures().water.as_ref().expect("a storm");
    let ways = water.surfaces[0].ways.as_deref().expect("a fall");
    let own = &lane.analysis().job.surfaces[0];
    let told = told_together(ways, &lane.analysis().job, own);
    assert!(told.len() < ways.len(), "{} of {}", told.len(), ways.len());
    let sum = |ways: &mut dyn Iterator<Item = f64>| ways.sum::<f64>();
    let (all, together) = (
        sum(&mut ways.iter().map(|way| way.area_m2)),
        sum(&mut told.iter().map(|(_, way)| way.area_m2)),
    );
    assert!((all - together).abs() < 1e-9, "{all} {together}");
}

/// A court of 10 by 10 m that falls south, with a round bed in its middle that
/// stands higher, its rim drawn in one piece or in several.
fn round_bed(rim: &str, hole: &str) -> String {
    let court = "shape court\n  rectangle 10 m by 10 m\n  cut hole\n\n\
        surface court\n  shape court\n  build flags\n  runoff 90 %\n  \
        level 0 mm at north\n  fall 1:50 toward south\n\n\
        surface bed\n  shape bed\n  build flags\n  runoff 90 %\n  level 200 mm\n\n";
    format!("shape hole\n{hole}\n{court}shape bed\n{rim}\n")
}

#[test]
fn water_leaves_an_arc_where_the_fall_turns_off_it() {
    let circle = "  circle radius 2 m, centre (5 m, 5 m)\n";
    // From the east, and from a little south of the west.
    let halves = "  start (7 m, 5 m)\n  curve to (3 m, 5 m), radius 2 m, turning left\n  curve to (7 m, 5 m), radius 2 m, turning left\n  close\n";
    let odd = "  start (3.4 m, 3.8 m)\n  curve to (6.6 m, 3.8 m), radius 2 m, turning left\n  curve to (6.2 m, 6.6 m), radius 2 m, turning left\n  curve to (3.4 m, 3.8 m), radius 2 m, turning left\n  close\n";
    for shape in [circle, halves, odd] {
        let analysis = analysed(&[round_bed(shape, shape)]);
        let ways = of(&analysis, 0).ways.as_ref().expect("it falls");
        let own = &analysis.job.surfaces[0];
        let mut off = 0.0;
        for way in ways {
            let words = way.described(&analysis.job, own);
            assert!(words.ends_with("off south"), "{words}\n{shape}");
            off += way.area_m2;
        }
        let whole = 100.0 - 4.0 * std::f64::consts::PI;
        assert!((off - whole).abs() < 1e-6, "{off}\n{shape}");
        let is_told = analysis.findings.iter().any(|own| own.rule == "low-point");
        assert!(!is_told, "{shape}");
    }
}

#[test]
fn water_stands_in_a_bow_that_is_shut() {
    // A bow of 2 m at the low end, against a surface that stands higher.
    let bow = |pieces: &str| {
        format!(
            "shape court\n  start (0 m, 6 m)\n  to (0 m, 0 m)\n{pieces}  to (6 m, 6 m)\n  close\n\n\
             shape block\n  rectangle 10 m by 10 m, at (-2 m, -9 m)\n  cut court\n\n\
             surface court\n  shape court\n  build flags\n  runoff 90 %\n  \
             level 0 mm at (3 m, 6 m)\n  fall 1:50 toward south\n\n\
             surface block\n  shape block\n  build flags\n  level 100 mm\n\n"
        )
    };
    let one = "  curve to (6 m, 0 m), height 2 m, turning left\n";
    let two = "  curve to (3 m, -2 m), radius 3.25 m, turning left\n  curve to (6 m, 0 m), radius 3.25 m, turning left\n";
    for pieces in [one, two] {
        let analysis = analysed(&[bow(pieces)]);
        let ways = of(&analysis, 0).ways.as_ref().expect("it falls");
        let stands: f64 = ways
            .iter()
            .filter(|way| matches!(way.end, Some(End::Stands { at, .. }) if at.distance(Point::new(3.0, -2.0)) < 1e-6))
            .map(|way| way.area_m2)
            .sum();
        let whole = analysis.job.surfaces[0].area_m2().expect("an area");
        assert!(
            (stands - whole).abs() < 1e-6,
            "{stands} of {whole}\n{pieces}"
        );
        let is_told = analysis.findings.iter().any(|own| own.rule == "low-point");
        assert!(is_told, "{pieces}");
    }
}

/// Where the end of a valley, or what passes by a gully, runs off an edge, it is
/// asked where to; not of water that a neighbour or a drain takes.
#[test]
fn what_passes_a_neighbour_or_a_drain_is_asked_for() {
    let west = |lines: &[&str]| {
        let own = [
            "level -150 mm at (0 m, 6 m)",
            "fall 1:60 toward east, cross 1:80 toward south",
        ];
        surface(
            "west",
            "4 m by 6 m, at (0 m, 0 m)",
            &[&own[..], lines].concat(),
        )
    };
    let east = |lines: &[&str]| {
        let own = [
            "level -150 mm at (7 m, 6 m)",
            "fall 1:45 toward west, cross 1:80 toward south",
        ];
        surface(
            "east",
            "3 m by 6 m, at (4 m, 0 m)",
            &[&own[..], lines].concat(),
        )
    };
    let below = |lines: &[&str]| {
        let own = ["level -350 mm at north", "fall 1:60 toward south"];
        surface(
            "below",
            "7 m by 2 m, at (0 m, -2 m)",
            &[&own[..], lines].concat(),
        )
    };
    let gully = |width: &str| {
        format!(
            "drain pot\n  gully clay-gully, at (4 m, 0.1 m), {width} wide\n  invert -600 mm\n  to \"sewer\"\n"
        )
    };
    let lawn = &["water to \"lawn\""][..];
    let told = |surfaces: &[String]| -> Vec<String> {
        let analysis = analysed(surfaces);
        let found = analysis.findings.iter();
        let found = found.filter(|one| one.rule == "outfall-missing");
        found.map(|one| one.message.to_string()).collect()
    };
    assert_eq!(told(&[west(lawn), east(lawn)]), Vec::<String>::new());
    let both = told(&[west(&[]), east(&[])]);
    assert_eq!(both.len(), 2, "{both:?}");
    assert!(
        both[0].contains("24 m²") || both[0].contains("24.00 m²"),
        "{both:?}"
    );
    assert!(
        both.iter().all(|one| one.contains("runs off south")),
        "{both:?}"
    );
    // The valley goes into the gully, and a quarter of one side past it.
    let past = told(&[west(&[]), east(&[]), gully("200 mm")]);
    assert!(
        past.iter().all(|one| one.contains("runs off south")),
        "{past:?}"
    );
    assert!(!past.is_empty());
    // What runs on over a lower surface is that one's to say.
    let on = told(&[west(&[]), east(&[]), below(lawn)]);
    assert_eq!(on, Vec::<String>::new());
}

/// How far a low edge is sunk is one figure, with a cross fall too: that of its
/// lowest corner, as the take-off has it.
#[test]
fn a_low_edge_is_sunk_as_far_as_its_lowest_corner() {
    let court = surface(
        "court",
        "6 m by 6 m",
        &[
            "level -150 mm at (0 m, 6 m)",
            "fall 1:60 toward east, cross 1:80 toward south",
            "water to \"lawn\"",
        ],
    );
    // Its lowest corner lies at -325 mm.
    for (ground, sunk) in [("-210 mm", Some("115 mm")), ("-220 mm", None)] {
        let site = SITE.replace("  storm", &format!("  ground {ground}\n  storm"));
        let text = site + &court;
        let analysis =
            Analyser::new().analyse("/yard.patio", text.as_str().into(), &NoFiles, "2027-04-12");
        let mut found = analysis.findings.iter();
        let found = found.find(|one| one.rule == "outfall-high");
        let message = found.map(|one| one.message.to_string());
        match (message, sunk) {
            (Some(message), Some(sunk)) => {
                let wanted = format!("the low edge lies {sunk} below the ground there");
                assert!(message.contains(&wanted), "{message}");
                let sheet = takeoff_text(&analysis, "/", SheetLayout::default());
                assert!(
                    sheet.contains(&format!("{sunk} below the ground there")),
                    "{sheet}"
                );
            }
            (message, sunk) => assert_eq!(message.as_deref(), sunk, "{ground}"),
        }
    }
}
