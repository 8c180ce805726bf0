//! Surfaces that fall from all their edges to a drain: by hand.

use std::sync::Arc;

use drylay::analysis::{Analyser, Analysis, NoFiles};
use drylay::drawing::{Choice, Mark, sheets};
use drylay::quantities::{BoardLies, SurfaceFigures, SurfaceWater, Water, setting_out};
use drylay::report::{SheetLayout, setout_json, setout_text, takeoff_json, takeoff_text};

fn analysed(text: &str) -> Arc<Analysis> {
    Analyser::new().analyse("/yard.patio", text.into(), &NoFiles, "2027-04-12")
}

/// A court of 6 m by 4 m that falls to a gully 4 m from its east side and 1 m
/// from its south, with these entries and sections more.
fn court(entries: &str, more: &str) -> Arc<Analysis> {
    analysed(&spec(entries, more))
}

fn spec(entries: &str, more: &str) -> String {
    format!(
        "job \"Yard\"\n  units metric\n\n\
         site\n  soil gravel, firm\n  swell 25 %\n  datum \"sill\"\n  ground 0 mm\n  storm 75 mm/h for 5 min\n\n\
         shape court\n  rectangle 6 m by 4 m\n\n\
         surface court\n  shape court\n  build flags\n  runoff 90 %\n{entries}\n\
         build flags\n  paving sandstone-slab, 40 mm\n\n\
         drain pot\n  gully clay-gully, at (2 m, 1 m), 300 mm wide\n  to line\n\n\
         drain line\n  pipe plastic-pipe, 110 mm, from (2 m, 1 m) to (9 m, 1 m)\n  fall 1:80\n  invert -900 mm\n  to \"sewer\"\n\n{more}"
    )
}

const TO_POT: &str = "  level 0 mm\n  fall to pot, at least 1:40\n";

fn figures(analysis: &Analysis) -> &SurfaceFigures {
    &analysis.figures.surfaces[0]
}

fn water(analysis: &Analysis) -> &SurfaceWater {
    &analysis.figures.water.as_ref().unwrap().surfaces[0]
}

fn close(found: Option<f64>, wanted: f64) {
    let found = found.unwrap_or(f64::NAN);
    assert!(
        (found - wanted).abs() < 1e-9,
        "{found}, and by hand {wanted}"
    );
}

#[test]
fn a_court_falls_to_its_pit() {
    let analysis = court(TO_POT, "");
    let own = figures(&analysis);
    // 4 m at 1:40.
    close(own.drop_m, 0.1);
    close(own.highest_m, 0.0);
    close(own.lowest_m, -0.1);
    close(own.fall, 0.025);
    let lowest = own.lowest_at.unwrap();
    assert!(lowest.x == 2.0 && lowest.y == 1.0);
    assert_eq!(own.edge_levels.len(), 4);
    assert!(
        own.edge_levels
            .iter()
            .all(|edge| edge.lowest_m.abs() < 1e-12)
    );
    // 24 m² by 40 mm, and a pyramid of 100 mm on it.
    let dig = own.dig.unwrap();
    close(Some(dig.bank_m3), 24.0 * 0.04 + 24.0 * 0.1 / 3.0);
    close(Some(dig.fill_m3), 0.0);
    let slopes: Vec<f64> = analysis.job.surfaces[0]
        .facets
        .iter()
        .map(|facet| facet.plane.slope())
        .collect();
    // South 1 m, east 4 m, north 3 m, west 2 m.
    for (found, wanted) in slopes.iter().zip([0.1, 0.025, 0.1 / 3.0, 0.05]) {
        close(Some(*found), wanted);
    }
    // The pipe lies under two of them: 900 mm less its half metre of wall and
    // bore, less the paving over it.
    let line = &analysis.figures.drains[1];
    assert!(line.cover_m().is_some() && line.dig.is_some());
    let reported: Vec<&str> = analysis.findings.iter().map(|found| found.rule).collect();
    for rule in ["fall-missing", "low-point", "drain-idle", "outfall-missing"] {
        assert!(!reported.contains(&rule), "{reported:?}");
    }
}

#[test]
fn what_is_pegged_and_measured_knows_the_facets() {
    let more = "setting-out\n  from (0, 0) and (6 m, 0)\n  levels every 1 m\n\nmeasured \"finish of the court\"\n  of court\n  level -20 mm at (2 m, 3 m)\n";
    let analysis = court(TO_POT, more);
    // 1 m of the 3 m from the north side: a third of 100 mm.
    close(analysis.figures.measured[0].points[0].design_m, -0.1 / 3.0);
}

/// Readings on several facets lie on no one plane, and water at the lowest of
/// them leaves by the drain there; without the drain it would stand.
#[test]
fn what_is_measured_falls_by_facets_and_into_the_drain() {
    let levels = [(0, 0, 0), (6, 0, 0), (6, 4, 0), (0, 4, 0), (2, 1, -100)];
    let levels = levels.map(|(x, y, level)| format!("  level {level} mm at ({x} m, {y} m)\n"));
    let more = format!("measured \"finish\"\n  of court\n{}", levels.concat());
    let built = |text: &str| analysed(text).figures.measured[0].clone();
    let found = built(&spec(TO_POT, &more));
    assert_eq!((found.plane, found.water), (None, Water::RunsOff));
    let flat = "  level 0 mm at north\n  fall 1:100 toward south\n";
    let elsewhere = spec(flat, &more).replace("(2 m, 1 m)", "(5 m, 3 m)");
    let elsewhere = elsewhere.replace("-100 mm at (5 m, 3 m)", "-100 mm at (2 m, 1 m)");
    let found = built(&elsewhere);
    assert!(found.plane.is_some() && matches!(found.water, Water::Stands { .. }));
}

/// Where it falls to a drain its water goes there, whatever is said of it.
#[test]
fn water_that_is_sent_elsewhere_is_told() {
    for (water, to, is_told) in [
        ("\"lawn\"", "\"storm drain\"", true),
        ("\"lawn\"", "\"Lawn\"", false),
        ("\"the storm sewer\"", "\"storm drain\"", false),
        ("pot", "\"storm drain\"", false),
    ] {
        let entries = format!("{TO_POT}  water to {water}\n");
        let text = spec(&entries, "").replace("  to \"sewer\"\n", &format!("  to {to}\n"));
        let analysis = analysed(&text);
        let mut told = analysis.findings.iter();
        let found =
            told.any(|own| own.rule == "drain-unled" && own.message.contains("falls to pot"));
        assert_eq!(found, is_told, "water {water}, to {to}: {text}");
    }
}

#[test]
fn all_water_comes_to_the_pit() {
    let analysis = court(TO_POT, "");
    let ways = water(&analysis).ways.as_ref().unwrap();
    assert_eq!(ways.len(), 1);
    let own = &analysis.job.surfaces[0];
    assert_eq!(ways[0].described(&analysis.job, own), "into pot");
    close(ways[0].all.area_m2, 24.0);
    for drain in &analysis.figures.water.as_ref().unwrap().drains {
        close(drain.flow, 24.0 * 0.9 * 0.075 / 3600.0);
    }
    // A border on a build of its own is no more ground.
    let border = "  border clay-paver, soldier, units 200 mm by 100 mm, along free, on flags\n";
    let bordered = court(&format!("{TO_POT}{border}"), "");
    assert_eq!(bordered.figures.surfaces.len(), 2);
    for drain in &bordered.figures.water.as_ref().unwrap().drains {
        close(drain.flow, 24.0 * 0.9 * 0.075 / 3600.0);
    }
    // What runs onto it comes there too.
    let strip = "shape strip\n  rectangle 6 m by 2 m, at (0, 4 m)\n\nsurface strip\n  shape strip\n  build flags\n  runoff 90 %\n  level 40 mm at north\n  fall 1:50 toward south\n";
    let analysis = court(TO_POT, strip);
    let ways = water(&analysis).ways.as_ref().unwrap();
    close(ways[0].all.area_m2, 36.0);
    let strip = &analysis.figures.water.as_ref().unwrap().surfaces[1];
    let way = &strip.ways.as_ref().unwrap()[0];
    let own = &analysis.job.surfaces[1];
    assert_eq!(way.described(&analysis.job, own), "over south onto court");
}

#[test]
fn too_flat_and_too_steep_are_told() {
    let rules = |least: &str| {
        let analysis = court(&TO_POT.replace("1:40", least), "");
        let reported = analysis.findings.iter().map(|found| found.rule);
        reported
            .filter(|rule| rule.starts_with("fall-"))
            .collect::<Vec<_>>()
    };
    assert_eq!(rules("1:200"), ["fall-flat"]);
    assert_eq!(rules("1:80"), ["fall-steep"; 0]);
    assert!(rules("1:12").contains(&"fall-steep"));
}

#[test]
fn each_format_tells_of_the_facets() {
    let analysis = court(TO_POT, "");
    let text = takeoff_text(&analysis, "/", SheetLayout::default());
    assert!(
        text.contains("2.5 % (1:40) to 10 % (1:10) from every edge to pot"),
        "{text}"
    );
    assert!(text.contains("at the drain"), "{text}");
    let json: serde_json::Value = serde_json::from_str(&takeoff_json(&analysis)).unwrap();
    let facets = json["surfaces"][0]["facets"].as_array().unwrap();
    assert_eq!(facets.len(), 4);
    assert_eq!(facets[1]["edge"], "east");
    // A surface with one plane has none.
    let analysis = court("  level 0 mm at north\n  fall 1:50 toward south\n", "");
    let json: serde_json::Value = serde_json::from_str(&takeoff_json(&analysis)).unwrap();
    assert_eq!(json["surfaces"][0].get("facets"), None);
}

#[test]
fn an_edit_of_the_drain_moves_the_pit() {
    let mut analyser = Analyser::new();
    let text = |x: &str| court_text(x);
    for (x, drop) in [("2 m", 0.1), ("3 m", 0.075), ("2 m", 0.1)] {
        let analysis = analyser.analyse(
            "/yard.patio",
            text(x).as_str().into(),
            &NoFiles,
            "2027-04-12",
        );
        close(figures(&analysis).drop_m, drop);
    }
}

fn court_text(x: &str) -> String {
    format!(
        "job \"Yard\"\n  units metric\n\nshape court\n  rectangle 6 m by 4 m\n\nsurface court\n  shape court\n{TO_POT}\ndrain pot\n  gully clay-gully, at ({x}, 2 m), 300 mm wide\n  to \"sewer\"\n"
    )
}

/// At its edges a court that falls to a pit is what a level one is.
#[test]
fn rules_look_at_the_edges_of_a_court() {
    let path = |level: &str| {
        format!(
            "shape path\n  rectangle 1.2 m by 3 m, at (6 m, 1 m)\n\n\
             surface path\n  shape path\n  level {level} at west\n  fall 1:60 toward east\n  build flags\n"
        )
    };
    let none = String::new();
    for (rule, entries, site, more) in [
        ("lip", "", "  ground 0 mm\n", path("-75 mm")),
        ("guard-missing", "", "  ground -900 mm\n", none.clone()),
        (
            "level-high",
            "  meets north\n",
            "  damp-course 0 mm\n",
            none.clone(),
        ),
        (
            "door-step",
            "  meets north\n  door at (2 m, 4 m)\n",
            "  floor 400 mm\n",
            none.clone(),
        ),
        ("ground-filled", "", "  ground -500 mm\n", none),
    ] {
        for falls in [
            TO_POT,
            "  level 0 mm at north\n  fall 1:10000 toward south\n",
        ] {
            let text = spec(&format!("{entries}{falls}"), &more);
            let analysis = analysed(&text.replace("  ground 0 mm\n", site));
            let mut all = analysis.findings.iter();
            assert!(all.any(|own| own.rule == rule), "{rule}: {falls}");
        }
        let sound = spec(&format!("  meets north\n{TO_POT}"), &path("0 mm"));
        let high = "  ground 0 mm\n  floor 150 mm\n  damp-course 160 mm\n";
        let sound = analysed(&sound.replace("  ground 0 mm\n", high));
        let mut all = sound.findings.iter();
        assert!(!all.any(|own| own.rule == rule), "{rule} of a sound one");
    }
}

/// A side that a neighbour parts falls as one.
#[test]
fn a_neighbour_parts_no_facet() {
    let alone = court(TO_POT, "");
    let beside = court(
        TO_POT,
        "shape path\n  rectangle 1.2 m by 1 m, at (6 m, 1 m)\n\nsurface path\n  shape path\n",
    );
    assert_eq!(
        beside.job.surfaces[0]
            .outline
            .as_ref()
            .unwrap()
            .edges()
            .count(),
        6
    );
    let planes = |analysis: &Analysis| {
        let facets = analysis.job.surfaces[0].facets.iter();
        let mut slopes: Vec<f64> = facets.map(|own| own.plane.slope()).collect();
        slopes.sort_by(f64::total_cmp);
        slopes
    };
    assert_eq!(planes(&beside), planes(&alone));
}

/// Units over a valley are cut along it, and both pieces are laid: counted with
/// Shapely over each unit, as those of the lay-out itself.
#[test]
fn units_over_the_valleys_of_a_court_are_cut() {
    let laid = "  laid stack-bond, units 200 mm by 100 mm, along south, from (0, 0)\n";
    let analysis = court(&format!("{TO_POT}{laid}"), "");
    let layout = figures(&analysis).layout.as_ref().expect("a lay-out");
    assert_eq!(
        (layout.whole, layout.cut, layout.over_valleys),
        (1100, 0, 100)
    );
    assert_eq!(layout.stock(), 1200);
    // Each corner to (2 m, 1 m).
    let valleys = [5.0, 17.0, 25.0, 13.0].map(f64::sqrt).iter().sum();
    close(Some(layout.cut_m), valleys);
    let text = takeoff_text(&analysis, "/", SheetLayout::default());
    assert!(
        text.contains("1,100 units whole, none cut at edges; 100 cut along the valleys"),
        "{text}"
    );
    let json: serde_json::Value = serde_json::from_str(&takeoff_json(&analysis)).unwrap();
    assert_eq!(json["surfaces"][0]["layout"]["over_valleys"], 100);
    // With a border the valleys are cut as far as they run in the field.
    let border = "  edging steel-edge, along free\n  border clay-paver, soldier, units 200 mm by 100 mm, along free\n  joint 0 mm\n";
    let analysis = court(&format!("{TO_POT}{laid}{border}"), "");
    let bordered = figures(&analysis).layout.as_ref().expect("a lay-out");
    assert_eq!(bordered.whole + bordered.over_valleys, 28 * 36);
    assert!(bordered.cut_m < valleys - 4.0 * 0.2);
    // On one plane nothing is cut.
    let falls = "  level 0 mm at north\n  fall 1:50 toward south\n";
    let analysis = court(&format!("{falls}{laid}"), "");
    let plain = figures(&analysis).layout.as_ref().expect("a lay-out");
    assert_eq!((plain.whole, plain.all_cut()), (1200, 0));
}

/// A board lies in from each edge, as far as the drain at most.
#[test]
fn the_board_lies_square_in_from_each_edge() {
    let more = "setting-out\n  from (0, 0) and (6 m, 0)\n  board 2.5 m\n";
    let analysis = court(TO_POT, more);
    let found = setting_out(&analysis.job);
    let boards = &found.surfaces[0].boards;
    // South 1 m, east 4 m, north 3 m, west 2 m; all of them 100 mm down.
    for (board, (from, down, at)) in boards.iter().zip([
        ("south", 0.1, Some(1.0)),
        ("east", 0.1 / 4.0 * 2.5, None),
        ("north", 0.1 / 3.0 * 2.5, None),
        ("west", 0.1, Some(2.0)),
    ]) {
        assert_eq!(board.lies, BoardLies::From(from.to_owned()));
        close(Some(board.down_m), down);
        assert_eq!(board.at_m, at, "{from}");
    }
    assert_eq!(boards.len(), 4);
    let text = setout_text(&analysis, "/", false);
    assert!(text.contains("in from south"), "{text}");
    assert!(text.contains("100 mm down at 1.000 m"), "{text}");
    let json: serde_json::Value = serde_json::from_str(&setout_json(&analysis)).unwrap();
    let marks = &json["surfaces"][0]["board_marks"];
    assert_eq!(marks[0]["from"], "south");
    assert_eq!(marks[0]["at_m"], 1.0);
    assert!(marks[1].get("at_m").is_none());
}

/// A court is cut from its drain to an edge.
#[test]
fn the_section_of_a_court_ends_at_the_drain_and_at_an_edge() {
    let words = |analysis: &Analysis| -> Vec<String> {
        let drawn = sheets(analysis, "/", &Choice::default()).expect("it fits");
        let items = drawn.iter().flat_map(|own| &own.items);
        let lines = items.filter_map(|item| match &item.mark {
            Mark::Text(line) => Some(line.setting.words()),
            _ => None,
        });
        lines.collect()
    };
    let edging = format!("{TO_POT}  edging steel-edge, along free\n");
    let said = words(&court(&edging, ""));
    for wanted in ["at the drain", "at the edges", "−0.100", "0.000"] {
        assert!(said.iter().any(|own| own == wanted), "{wanted}: {said:?}");
    }
    assert!(!said.iter().any(|own| own == "at the low edge"));
    // Of a border on a build of its own the section ends at the field.
    let border = "  border clay-paver, soldier, units 200 mm by 100 mm, along free, on flags\n";
    let said = words(&court(&format!("{edging}{border}"), ""));
    for wanted in ["at its border", "at the field"] {
        assert!(said.iter().any(|own| own == wanted), "{wanted}: {said:?}");
    }
    // It ends 200 mm from its edges, the south one at 1:10 the steepest.
    let court = court(&format!("{edging}{border}"), "");
    let strip = &court.figures.surfaces[1];
    close(strip.highest_m, 0.0);
    close(strip.lowest_m, -0.2 * 0.1);
}

/// What stands along the edges of a court is dug for as beside a level one.
#[test]
fn what_stands_at_the_edges_of_a_court_is_dug_for() {
    let mix = "mix haunch\n  for bed\n  parts 1 portland-cement : 6 gravel\n\n";
    let trench = "drain edge-drain\n  trench 300 mm wide, 600 mm deep, along court.east\n  \
        fall 1:100 toward south\n  filled open-stone, voids 40 %\n  to \"sewer\"\n";
    let flight = "steps flight\n  from -320 mm\n  to court\n  at (6 m, 2 m), climbing west\n  \
        width 1 m\n  going 300 mm\n  tread sandstone, 50 mm\n  riser sandstone, 30 mm\n  \
        core haunch, down to base\n  base crushed-stone, 100 mm compacted\n";
    let dug = |falls: &str| {
        let kerb = "  edging concrete-kerb, along east, on haunch 100 mm, haunched 100 mm wide to 50 mm below the top\n";
        let kerb = kerb.to_owned() + falls;
        let of = |entries: &str, more: &str| court(entries, &format!("{mix}{more}"));
        let own = of(
            &kerb,
            "material concrete-kerb\n  like concrete-kerb\n  unit 125 mm by 255 mm by 915 mm\n",
        );
        let kerb = own.figures.surfaces[0].edgings[0].footing.as_ref();
        let kerb = kerb.and_then(|footing| footing.bank_m3);
        let trench = of(falls, trench);
        let trench = trench.figures.drains.last().and_then(|own| own.dig);
        let flight = of(falls, flight);
        let steps = &flight.figures.steps[0];
        let rise = steps.flight.as_ref().map(|flight| flight.rise_m);
        [kerb, trench.map(|dig| dig.bank_m3), rise]
    };
    let level = dug("  level 0 mm at north\n  fall 1:1000000 toward south\n");
    for (found, wanted) in dug(TO_POT).into_iter().zip(level) {
        let (found, wanted) = (found.expect("it is known"), wanted.expect("it is known"));
        assert!(
            (found - wanted).abs() < 1e-4,
            "{found}, beside a level court {wanted}"
        );
    }
}
