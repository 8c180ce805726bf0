//! Setting out: published curves, and what must hold of any job.

use std::sync::Arc;

use drylay::analysis::{Analyser, Analysis, NoFiles};
use drylay::geometry::{Edge, Point, Turning};
use drylay::quantities::{
    Aside, Reach, RodMark, SettingOutFigures, SpotOf, Stands, setting_out, setting_out_workings,
};
use drylay::report::{setout_csv, setout_json, setout_markdown, setout_text};
use proptest::prelude::*;

mod clear;

fn analysed(text: &str) -> Arc<Analysis> {
    Analyser::new().analyse("/court.patio", text.into(), &NoFiles, "2027-04-12")
}

fn set_out(text: &str) -> SettingOutFigures {
    setting_out(&analysed(text).job)
}

/// A strip along a wall with an arc of this chord out of its far edge.
fn bow(units: &str, chord: &str, depth: &str, curve: &str, spacing: &str) -> SettingOutFigures {
    set_out(&format!(
        "job \"Bow\"\n  units {units}\n\nshape bow\n  start (0, 0)\n  east {chord}, named wall\n  \
         south {depth}\n  curve to (0, -{depth}), {curve}, named bow\n  close\n\n\
         surface bow\n  shape bow\n  meets wall\n\n\
         setting-out\n  pegs every {spacing} along bow.bow\n"
    ))
}

fn close(found: f64, published: f64, within: f64) {
    assert!(
        (found - published).abs() <= within,
        "{found} for {published}"
    );
}

/// The ordinates of a flat curve each 10 m from the middle of its chord of 80 m
/// and rise of 5 m, as an examination of surveying sets it (2017, web copy of
/// Schofield's method, read; the figures as computed there): radius 162.5 m.
#[test]
fn offsets_from_a_long_chord_are_as_published() {
    let found = bow("metric", "80 m", "20 m", "height 5 m", "10 m");
    let arc = &found.surfaces[0].arcs[0];
    close(arc.radius_m, 162.5, 1e-9);
    assert_eq!(arc.reach, Reach::BehindBuilding);
    let published = [5.0, 4.6920, 3.7645, 2.2068, 0.0];
    assert_eq!(arc.offsets.len(), published.len());
    for (offset, (from_middle, ordinate)) in arc.offsets.iter().zip((0..).zip(published)) {
        close(offset.from_middle_m, f64::from(from_middle) * 10.0, 1e-9);
        close(offset.offset_m, ordinate, 5e-5);
    }
}

/// Two arcs of a patio, computed by R = m/2 + c²/(8m) and
/// y = m − (R − √(R² − x²)).
#[test]
fn offsets_of_a_patio_are_as_computed() {
    const FOOT: f64 = 0.3048;
    let feet = bow("imperial", "12 ft", "1 ft", "height 2 ft", "1 ft");
    let metres = bow("metric", "4 m", "0.5 m", "height 0.3 m", "0.5 m");
    let in_feet = [2.0, 1.9499, 1.7980, 1.5394, 1.1652, 0.6603, 0.0];
    let in_metres = [0.3, 0.2816, 0.2263, 0.1329, 0.0];
    for (found, unit, radius, offsets) in [
        (&feet, FOOT, 10.0, &in_feet[..]),
        (&metres, 1.0, 6.8167, &in_metres[..]),
    ] {
        let arc = &found.surfaces[0].arcs[0];
        close(arc.radius_m / unit, radius, 1e-4);
        assert_eq!(arc.offsets.len(), offsets.len());
        for (found, computed) in arc.offsets.iter().zip(offsets) {
            close(found.offset_m / unit, *computed, 1e-4);
        }
    }
}

/// Curves as published: of 100 m radius and 30° (examination of 2016), and of
/// 1,800 and 43° 25' 46" (a page on horizontal curves; its chord is computed
/// anew to 1,331.948, where it prints 1,331.943).
#[test]
fn curves_have_their_published_lengths() {
    for (radius, degrees, length, chord, height) in [
        (100.0, 30.0, 52.3599, 51.7638, Some(3.4074)),
        (
            1800.0,
            43.0 + 25.0 / 60.0 + 46.0 / 3600.0,
            1364.38,
            1331.948,
            None,
        ),
    ] {
        let straight = 2.0 * radius * f64::to_radians(degrees / 2.0).sin();
        let curve = format!("radius {radius} m");
        let found = bow("metric", &format!("{straight:.9} m"), "1 m", &curve, "50 m");
        let arc = &found.surfaces[0].arcs[0];
        close(arc.length_m, length, 5e-3);
        close(arc.chord_m, chord, 5e-3);
        if let Some(height) = height {
            close(arc.height_m, height, 5e-5);
        }
    }
}

/// Halving and quartering, as Schofield's text has it (web copy, read): the
/// middle ordinate of each half chord is a quarter of the last, 20, 5 and
/// 1.25 m; it is an approximation, good for flat arcs.
#[test]
fn halves_of_a_flat_arc_rise_a_quarter() {
    let end = Point::new(2_000.0, 0.0);
    let mut arc = Edge::arc_of_height(Point::new(0.0, 0.0), end, 20.0, Turning::Clockwise, 0)
        .expect("an arc");
    for published in [20.0, 5.0, 1.25] {
        let height = 0.5 * arc.chord().length() * arc.bulge.abs();
        close(height / published, 1.0, 1e-3);
        arc = arc.between(0.0, 0.5 * arc.length());
    }
}

const COURT: &str = "job \"Court\"\n  units metric\n\nsite\n  datum \"sill\"\n  ground -200 mm\n\n\
    shape court\n  rectangle 6 m by 4 m, at (0, -4 m)\n\n\
    surface court\n  shape court\n  meets north\n  level -150 mm at north\n  \
    fall 1:50 away from north\n  build flags\n\n\
    build flags\n  paving sandstone, 40 mm\n  bed sharp-sand, 30 mm\n  \
    base crushed-stone, 150 mm compacted, beyond 100 mm\n";

#[test]
fn a_court_is_set_out_from_its_wall() {
    let found = set_out(COURT);
    let marks = found.marks.expect("its wall");
    assert_eq!(
        (marks.first, marks.second),
        (Point::new(0.0, 0.0), Point::new(6.0, 0.0))
    );
    assert_eq!(marks.place, None);
    let own = &found.surfaces[0];
    let corners: Vec<_> = found.pegs.iter().map(|peg| (peg.at.x, peg.at.y)).collect();
    assert_eq!(corners, [(0.0, 0.0), (6.0, 0.0), (6.0, -4.0), (0.0, -4.0)]);
    let south_east = found.pegs[2].taping.expect("marks");
    close(south_east.from_first_m, 52f64.sqrt(), 1e-12);
    close(south_east.from_second_m, 4.0, 1e-12);
    assert_eq!(south_east.aside, Aside::Right);
    assert!(!south_east.is_weak());
    close(own.pegs[2].level_m.expect("a plane"), -0.23, 1e-12);
    // At the finish, as no string is stated: 0, 40, 70 and 220 mm.
    let depths: Vec<_> = own
        .rod
        .iter()
        .map(|mark| mark.below_m.expect("known"))
        .collect();
    for (found, expected) in depths.iter().zip([0.0, 0.04, 0.07, 0.22]) {
        close(*found, expected, 1e-12);
    }
    // 1 in 50 under the usual board of 2 m.
    close(own.boards[0].down_m, 0.04, 1e-12);
    let diagonals: Vec<_> = own
        .checks
        .iter()
        .map(|check| (check.from, check.to))
        .collect();
    assert_eq!(diagonals, [(1, 3), (2, 4)]);
    close(own.checks[0].distance_m, own.checks[1].distance_m, 1e-12);
}

/// A border on a build of its own is dug to its own depth: 100 mm of setts,
/// 40 mm of bed and 200 mm of stone, where the field is 60, 30 and 150 mm deep.
#[test]
fn each_piece_of_an_edge_has_its_own_board() {
    let boards = |start: &str, wall: &str, fall: &str| {
        let found = set_out(&format!(
            "job \"Court\"\n  units metric\n\nshape court\n  {start}, named wall\n{wall}  close\n\n\
             surface court\n  shape court\n  meets wall\n  level 0 mm at (0, 0)\n  fall {fall}\n"
        ));
        let boards = found.surfaces[0].boards.iter().skip(1);
        let named = boards.map(|mark| (mark.lies.words(str::to_owned), mark.down_m));
        let wall = named.filter(|(words, _)| words.starts_with("wall"));
        wall.map(|(words, down)| (words, (down * 1e6).round() / 1e3))
            .collect::<Vec<_>>()
    };
    let start = "start (0, 0)\n  east 4 m";
    // Two pieces that fall alike are one, of two that do not each has its own.
    let step = "  south 1 m\n  east 3 m, named wall\n  south 4 m\n  west 7 m\n";
    let turn = "  south 3 m, named wall\n  west 4 m\n";
    let fall = "1:50 toward south, cross 1:100 toward east";
    assert_eq!(boards(start, step, fall), [("wall".to_owned(), 20.0)]);
    let mut two = boards(start, turn, fall);
    two.sort_by(|one, other| one.1.total_cmp(&other.1));
    let downs: Vec<f64> = two.iter().map(|(_, down)| *down).collect();
    assert_eq!(downs, [20.0, 40.0]);
    let mut words: Vec<&str> = two.iter().map(|(words, _)| words.as_str()).collect();
    words.sort_unstable();
    assert_eq!(words, ["wall, piece 1", "wall, piece 2"]);
}

#[test]
fn arcs_about_one_centre_are_set_out_from_one_peg() {
    let text = "job \"Bow\"\n  units metric\n\nshape ring\n  start (4 m, 0)\n  to (6 m, 0)\n  \
        curve to (0, 6 m), radius 6 m, turning left, named outer\n  to (0, 4 m)\n  \
        curve to (4 m, 0), radius 4 m, turning right, named inner\n  close\n\n\
        surface ring\n  shape ring\n";
    let sheet = setout_text(&analysed(text), "/", false);
    for arc in ["outer", "inner"] {
        let line = sheet
            .lines()
            .find(|line| line.trim_start().starts_with(arc) && line.contains(" peg "));
        assert!(line.is_some(), "{arc}\n{sheet}");
    }
    assert!(!sheet.contains(", a peg"), "{sheet}");
}

#[test]
fn a_border_on_its_own_build_has_its_own_rod() {
    let found = set_out(
        "job \"Court\"\n  units metric\n\nsite\n  datum \"floor\"\n  ground -100 mm\n\n\
         shape court\n  rectangle 6 m by 4 m\n\n\
         surface court\n  shape court\n  meets north\n  level 0 mm at north\n  fall 1:50 away from north\n  \
         build field\n  border sett, 2 courses, units 100 mm by 100 mm, along south, on heavy\n\n\
         build field\n  paving concrete-paver, 60 mm\n  bed sharp-sand, 30 mm\n  base crushed-stone, 150 mm compacted\n\n\
         build heavy\n  paving sett, 100 mm\n  bed sharp-sand, 40 mm\n  base crushed-stone, 200 mm compacted\n\n\
         setting-out\n  string 50 mm above\n",
    );
    let deepest = |marks: &[RodMark]| marks.last().and_then(|mark| mark.below_m);
    let [surface] = &found.surfaces[..] else {
        panic!("one surface is set out")
    };
    let [(name, border)] = &surface.border_rods[..] else {
        panic!("one border has a rod of its own")
    };
    assert!(name.contains("border"), "{name}");
    close(deepest(&surface.rod).unwrap(), 0.290, 1e-9);
    close(deepest(border).unwrap(), 0.390, 1e-9);
}

#[test]
fn two_tapes_that_cross_too_flat_are_told() {
    let near = COURT.to_owned() + "\nsetting-out\n  from (0, 500 mm) and (6 m, 500 mm)\n";
    let found = set_out(&near);
    let weak: Vec<bool> = found
        .pegs
        .iter()
        .map(|peg| peg.taping.expect("marks").is_weak())
        .collect();
    // By the wall the tape from the near mark is 500 mm, square to the other.
    assert_eq!(weak, [false, false, false, false]);
    let text = setout_text(&analysed(&near), "/", false);
    assert!(!text.contains("do not fix"), "{text}");
    let far = COURT.to_owned() + "\nsetting-out\n  from (20 m, 0) and (22 m, 0)\n";
    let text = setout_text(&analysed(&far), "/", false);
    assert!(text.contains("Two tapes do not fix these"), "{text}");
}

#[test]
fn what_is_not_known_is_a_dash_with_its_reason() {
    let no_fall = COURT
        .replace("  fall 1:50 away from north\n", "")
        .replace("  level -150 mm at north\n", "");
    let no_wall = COURT.replace("  meets north\n", "");
    let no_base = COURT.replace("150 mm compacted, beyond 100 mm", "compacted");
    for (text, reason) in [
        (
            &no_fall,
            "neither level nor fall is stated: levels and board marks of court",
        ),
        (
            &no_wall,
            "no surface meets the building and no marks are stated: tapes",
        ),
        (
            &no_base,
            "the thickness of a layer is not known: depths below the string of court",
        ),
    ] {
        let analysis = analysed(text);
        for sheet in [
            setout_text(&analysis, "/", true),
            setout_markdown(&analysis, "/"),
            setout_json(&analysis),
        ] {
            assert!(sheet.contains(reason), "{reason}\n{sheet}");
        }
        assert!(setout_text(&analysis, "/", false).contains('–'));
        assert!(setout_csv(&analysis).starts_with("point,number,surface,where,"));
    }
}

#[test]
fn a_sheet_of_a_spec_with_errors_says_so_on_top() {
    let text = COURT.to_owned() + "\nsetting-out\n  board 2 kg\n";
    let analysis = analysed(&text);
    assert!(setout_text(&analysis, "/", false).starts_with("DO NOT SET OUT FROM THIS"));
    assert!(setout_markdown(&analysis, "/").contains("**Do not set out from this"));
    assert!(setout_text(&analysis, "/", false).contains("`board` could not be made out"));
}

#[test]
fn each_figure_has_its_working() {
    let job = &analysed(COURT).job;
    let workings = setting_out_workings(job);
    let titles: Vec<&str> = workings.iter().map(|own| own.title.as_str()).collect();
    let expected = [
        "peg 1",
        "peg 2",
        "peg 3",
        "peg 4",
        "depths below the string of court",
        "marks under the board of court",
    ];
    assert_eq!(titles, expected);
    let tape = &workings[2].steps[2];
    assert_eq!(tape.formula, "√(east from A² + north from A²)");
    assert_eq!(tape.result, "7.211 m");
}

/// The two places at so much from each of two marks.
fn crossings(a: Point, b: Point, from_a: f64, from_b: f64) -> [Point; 2] {
    let apart = a.distance(b);
    let along = (from_a * from_a - from_b * from_b + apart * apart) / (2.0 * apart);
    let out = (from_a * from_a - along * along).max(0.0).sqrt();
    let way = (b - a).unit();
    let foot = a + way * along;
    [foot + way.left() * out, foot + way.right() * out]
}

/// A court of four corners somewhere on the plan, turned, with these marks.
fn turned(degrees: f64, marks: [(f64, f64); 2], more: &str) -> String {
    let turn = |(x, y): (f64, f64)| {
        let (sin, cos) = degrees.to_radians().sin_cos();
        format!("({:.9} m, {:.9} m)", x * cos - y * sin, x * sin + y * cos)
    };
    let corners = [(0.0, 0.0), (0.0, -4.0), (7.0, -5.0), (6.0, 0.5)].map(turn);
    let [a, b] = marks.map(turn);
    format!(
        "job \"Court\"\n  units metric\n\nshape court\n  polygon {}\n\n\
         surface court\n  shape court\n  level -150 mm\n  build flags\n\n\
         build flags\n  base crushed-stone, 150 mm compacted, beyond 150 mm\n\n\
         setting-out\n  from {a} and {b}\n{more}",
        corners.join(" ")
    )
}

fn mark() -> impl Strategy<Value = (f64, f64)> {
    (-9.0..9.0, 0.6..5.0)
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(48))]

    /// The two tapes of a peg and its side give back the peg.
    #[test]
    fn two_tapes_give_back_the_point(degrees in 0.0..360.0, a in mark(), b in mark()) {
        prop_assume!((a.0 - b.0).hypot(a.1 - b.1) > 0.5);
        let found = set_out(&turned(degrees, [a, b], ""));
        let marks = found.marks.expect("stated");
        prop_assert_eq!(found.pegs.len(), 4);
        for peg in &found.pegs {
            let taping = peg.taping.expect("marks");
            let [left, right] =
                crossings(marks.first, marks.second, taping.from_first_m, taping.from_second_m);
            let meant = match taping.aside {
                Aside::Left => left,
                Aside::Right | Aside::OnLine => right,
            };
            // Where the tapes cross flat a hair's breadth in them is more on the ground.
            prop_assert!(meant.distance(peg.at) < 1e-4, "{:?} for {:?}", meant, peg);
            // The way along the line and square out of it gives it back too.
            let way = (marks.second - marks.first).unit();
            let out = match taping.aside {
                Aside::Left => way.left(),
                Aside::Right | Aside::OnLine => way.right(),
            };
            let squared = marks.first + way * taping.along_m + out * taping.out_m;
            prop_assert!(squared.distance(peg.at) < 1e-3);
        }
    }

    /// A job that is turned on its plan has the same tapes, depths and checks.
    #[test]
    fn a_turned_job_has_the_same_tapes(degrees in 0.0..360.0, a in mark(), b in mark()) {
        prop_assume!((a.0 - b.0).hypot(a.1 - b.1) > 0.5);
        let one = set_out(&turned(0.0, [a, b], "  clear 600 mm\n"));
        let other = set_out(&turned(degrees, [a, b], "  clear 600 mm\n"));
        prop_assert_eq!(one.pegs.len(), other.pegs.len());
        for (one, other) in one.pegs.iter().zip(&other.pegs) {
            let (one, other) = (one.taping.expect("marks"), other.taping.expect("marks"));
            prop_assert!((one.from_first_m - other.from_first_m).abs() < 1e-6);
            prop_assert!((one.from_second_m - other.from_second_m).abs() < 1e-6);
        }
        for (one, other) in one.surfaces[0].checks.iter().zip(&other.surfaces[0].checks) {
            prop_assert!((one.distance_m - other.distance_m).abs() < 1e-6);
        }
    }

    /// Pegs that are to stand clear of the dig do.
    #[test]
    fn pegs_stand_clear_of_the_dig(degrees in 0.0..360.0, clear in 0.2..2.0) {
        let more = format!("  clear {clear:.6} m\n");
        let analysis = analysed(&turned(degrees, [(0.0, 1.0), (6.0, 1.0)], &more));
        let found = setting_out(&analysis.job);
        let dug = analysis.figures.surfaces[0].dug.clone().expect("a base");
        let mut clear_pegs = 0;
        for on in &found.surfaces[0].pegs {
            if matches!(on.stands, Stands::Corner(..)) {
                continue;
            }
            clear_pegs += 1;
            let at = found.pegs[on.peg as usize - 1].at;
            prop_assert!(!dug.outlines[0].contains(at));
            prop_assert!(dug.outlines[0].distance_to_boundary(at) > clear - 1e-5);
        }
        prop_assert_eq!(clear_pegs, 8);
    }

    /// Offsets lie on their arc.
    #[test]
    fn offsets_lie_on_the_arc(chord in 2.0..60.0, share in 0.02..0.49, spacing in 0.3..2.0) {
        let height = format!("height {:.6} m", chord * share);
        let spacing = f64::max(spacing, chord / 60.0);
        let found = bow(
            "metric",
            &format!("{chord:.6} m"),
            "10 mm",
            &height,
            &format!("{spacing:.6} m"),
        );
        let arc = &found.surfaces[0].arcs[0];
        let edge = arc.edge;
        let middle = edge.start.midpoint(edge.end);
        let way = edge.chord().unit();
        let out = (edge.midpoint() - middle).unit();
        for offset in &arc.offsets {
            for side in [1.0, -1.0] {
                let at = middle + way * (side * offset.from_middle_m) + out * offset.offset_m;
                prop_assert!((at.distance(arc.centre) - arc.radius_m).abs() < 1e-6);
            }
        }
    }
}

/// A channel and a trench along edges are pegged along their middles, round a
/// corner too, whichever way the water runs.
#[test]
fn drains_along_edges_are_found_by_their_middles() {
    let job = |body: &str, way: &str| {
        let text = format!(
            "job \"Yard\"\n  units metric\n\nsite\n  datum \"sill\"\n  ground -500 mm\n\n\
             shape yard\n  rectangle 6 m by 4 m, at (0, 0)\n\n\
             surface yard\n  shape yard\n  level -150 mm at north\n  fall 1:60 toward south\n\n\
             drain foot\n  {body}\n  fall 1:100{way}\n\n\
             setting-out\n  from (0, 4 m) and (6 m, 4 m)\n"
        );
        let analysis = analysed(&text);
        let found = setting_out(&analysis.job).spots;
        let found = found.iter().map(|spot| (spot.at.x, spot.at.y));
        found.collect::<Vec<_>>()
    };
    let channel =
        "channel polymer-channel, 100 mm by 80 mm clear, 140 mm over all, along yard.south";
    let trench = "trench 300 mm wide, 600 mm deep, along yard.south";
    for (body, way, wanted) in [
        (
            channel.to_owned(),
            " toward east",
            vec![(0.0, 0.07), (6.0, 0.07)],
        ),
        (
            channel.to_owned(),
            " toward west",
            vec![(6.0, 0.07), (0.0, 0.07)],
        ),
        (
            trench.to_owned(),
            " toward east",
            vec![(0.0, -0.15), (6.0, -0.15)],
        ),
        (
            format!("{trench} and yard.east"),
            "",
            vec![(6.15, 4.0), (6.15, -0.15), (0.0, -0.15)],
        ),
        (
            format!("{channel} and yard.east"),
            "",
            vec![(5.93, 4.0), (5.93, 0.07), (0.0, 0.07)],
        ),
        (
            "trench 300 mm wide, 600 mm deep, from (0, -1 m) to (6 m, -1 m)".to_owned(),
            "",
            vec![(0.0, -1.0), (6.0, -1.0)],
        ),
    ] {
        let found = job(&body, way);
        let near = |((x, y), (east, north)): (&(f64, f64), &(f64, f64))| {
            (x - east).abs() < 1e-9 && (y - north).abs() < 1e-9
        };
        let is_right = found.len() == wanted.len() && found.iter().zip(&wanted).all(near);
        assert!(is_right, "{body}{way}: {found:?}, wanted {wanted:?}");
    }
}

/// Pegs stand clear of the kerb and its haunch too, and none in the building,
/// where the line of an edge comes to the end of a wall.
#[test]
fn pegs_stand_clear_of_kerbs_and_out_of_the_house() {
    let job = |edging: &str| {
        let text = format!(
            "job \"Yard\"\n  units metric\n\nsite\n  datum \"sill\"\n  ground -250 mm\n\n\
             shape near\n  rectangle 6 m by 4 m, at (0, -4 m)\n\n\
             shape far\n  rectangle 6 m by 3 m, at (0, -7 m)\n\n\
             surface near\n  shape near\n  meets north\n  level -150 mm at north\n  \
             fall 1:60 toward south\n  build blocks\n\n\
             surface far\n  shape far\n  level -217 mm at north\n  fall 1:60 toward south\n  \
             build blocks\n{edging}\n\
             build blocks\n  paving block-paver, 60 mm\n  bed sharp-sand, 40 mm\n  \
             base type-1, 150 mm compacted, beyond 100 mm\n\n\
             mix slab-mix\n  for slab\n  parts 1 portland-cement : 2 sharp-sand : 4 gravel\n\n\
             material kerb\n  like concrete-kerb\n  unit 50 mm by 150 mm by 915 mm\n\n\
             setting-out\n  from (0, 0) and (6 m, 0)\n  clear 500 mm\n"
        );
        let analysis = analysed(&text);
        let found = setting_out(&analysis.job);
        let pegs: Vec<(f64, f64)> = found.pegs.iter().map(|peg| (peg.at.x, peg.at.y)).collect();
        pegs
    };
    let haunched = |wide: &str| {
        format!(
            "  edging kerb, along free, on slab-mix 100 mm, haunched {wide} wide to 50 mm below the top\n"
        )
    };
    for (edging, out) in [
        (String::new(), 0.6),
        (haunched("30 mm"), 0.6),
        (haunched("600 mm"), 1.15),
        ("  edging kerb, along free\n".to_owned(), 0.6),
    ] {
        let pegs = job(&edging);
        let in_house = pegs.iter().filter(|(_, north)| *north > 1e-6);
        assert_eq!(in_house.count(), 0, "{edging}: {pegs:?}");
        let lowest = pegs.iter().map(|(_, north)| *north).fold(0.0, f64::min);
        assert!((lowest + 7.0 + out).abs() < 1e-6, "{edging}: {lowest}");
    }
}

/// A pipe with its gully and soakaway, and steps, each point by two tapes from
/// the marks: what the tapes give is where the point lies.
#[test]
fn drains_and_steps_are_found_by_two_tapes() {
    let text = "job \"Yard\"\n  units metric\n\nsite\n  datum \"sill\"\n  ground -500 mm\n\n\
        shape yard\n  rectangle 6 m by 4 m, at (0, 0)\n\n\
        surface yard\n  shape yard\n  level -150 mm at north\n  fall 1:60 toward south\n\n\
        steps flight\n  from ground\n  to yard\n  at (2 m, 0 m), climbing north\n  width 1.2 m\n  \
        going 300 mm\n  risers 3\n\n\
        drain gully\n  gully clay-gully, at (5 m, 3 m), 300 mm wide\n  to pipe\n\n\
        drain pipe\n  pipe plastic-pipe, 110 mm, from (5 m, 3 m) to (9 m, 0 m)\n  fall 1:50\n  \
        invert -600 mm at (5 m, 3 m)\n  to pit\n\n\
        drain pit\n  soakaway 2 m by 1 m by 1 m, centre (9 m, 0 m)\n  invert -700 mm\n\n\
        setting-out\n  from (0, 0) and (6 m, 0 m)\n";
    let analysis = analysed(text);
    let found = setting_out(&analysis.job);
    let labels: Vec<&str> = found.spots.iter().map(|spot| spot.label.as_str()).collect();
    let wanted = [
        "D1", "D2", "D3", "D4", "D5", "D6", "D7", "S1", "S2", "S3", "S4",
    ];
    assert_eq!(labels, wanted);
    let spot = |label: &str| {
        let own = found.spots.iter().find(|spot| spot.label == label);
        own.expect("it is there").clone()
    };
    for (label, of, (east, north), level) in [
        ("D1", SpotOf::Middle, (5.0, 3.0), None),
        ("D2", SpotOf::Head, (5.0, 3.0), Some(-0.6)),
        ("D3", SpotOf::Outlet, (9.0, 0.0), Some(-0.7)),
        ("S1", SpotOf::Foot(true), (1.4, -0.6), Some(-0.5)),
        ("S2", SpotOf::Foot(false), (2.6, -0.6), Some(-0.5)),
        ("S4", SpotOf::Top(false), (2.6, 0.0), None),
    ] {
        let own = spot(label);
        assert_eq!(own.of, of, "{label}");
        close(own.at.distance(Point::new(east, north)), 0.0, 1e-9);
        if let Some(level) = level {
            close(own.level_m.expect("its level is known"), level, 1e-9);
        }
    }
    // The grating lies in the finish; a pipe and a pit have none.
    let grating = spot("D1").grating_m.expect("it lies in a surface");
    close(grating, -0.15 - 1.0 / 60.0, 1e-9);
    for label in ["D2", "D3", "D4", "S1"] {
        assert_eq!(spot(label).grating_m, None, "{label}");
    }
    let corners: Vec<SpotOf> = (4..=7)
        .map(|number| spot(&format!("D{number}")).of)
        .collect();
    for (is_north, is_east) in [(true, true), (true, false), (false, true), (false, false)] {
        assert!(corners.contains(&SpotOf::Corner(is_north, is_east)));
    }
    // From A at the origin and B 6 m east of it the tapes give the point back.
    for own in &found.spots {
        let taping = own.taping.expect("there are marks");
        let (a, b) = (taping.from_first_m, taping.from_second_m);
        let east = (a * a - b * b + 36.0) / 12.0;
        let north = (a * a - east * east).max(0.0).sqrt();
        close(own.at.x, east, 1e-9);
        close(own.at.y.abs(), north, 1e-6);
    }
    for text in [
        setout_text(&analysis, "/", true),
        setout_csv(&analysis),
        setout_markdown(&analysis, "/"),
        setout_json(&analysis),
    ] {
        assert!(text.contains("D4") && text.contains("foot, left"), "{text}");
    }
}

/// What lies nowhere has no point, and the sheet says so.
#[test]
fn a_drain_that_lies_nowhere_is_told() {
    let analysis = analysed(
        "job \"Yard\"\n  units metric\n\nshape yard\n  rectangle 6 m by 4 m\n\n\
         surface yard\n  shape yard\n\ndrain pit\n  soakaway 1 m by 1 m by 1 m\n",
    );
    assert!(setting_out(&analysis.job).spots.is_empty());
    assert!(setout_text(&analysis, "/", false).contains("points of pit"));
}

/// A drive with two corner arcs to one side, each of its own radius, and a
/// round bed.
const TWO_CORNERS: &str = "job \"Drive\"\n  units metric\n\nshape drive\n  start (0, 0)\n  \
     south 4 m\n  curve to (1 m, -5 m), radius 1 m, turning left\n  east 3 m\n  south 2 m\n  \
     curve to (4.5 m, -7.5 m), radius 500 mm, turning left\n  east 4 m\n  north 7.5 m\n  close\n  \
     cut bed\n\nshape bed\n  circle across 1.2 m, centre (2 m, -2 m)\n\n\
     surface drive\n  shape drive\n";

#[test]
fn an_arc_is_set_out_from_its_own_centre() {
    let analysis = analysed(TWO_CORNERS);
    let found = setting_out(&analysis.job);
    let sheet = setout_text(&analysis, "/", false);
    let arcs: Vec<&str> = sheet
        .lines()
        .skip_while(|line| line.trim() != "Arcs")
        .skip(2)
        .take_while(|line| !line.trim().is_empty())
        .collect();
    let told: Vec<u32> = arcs
        .iter()
        .map(|line| line.rsplit("peg ").next().unwrap().trim().parse().unwrap())
        .collect();
    let own = &found.surfaces[0].arcs;
    // The circle, of two halves, is told once.
    assert_eq!((told.len(), own.len()), (3, 4), "{sheet}");
    for (peg, arc) in told.iter().zip(own) {
        let at = found.pegs[*peg as usize - 1].at;
        assert!(
            at.distance(arc.centre) < 1e-6,
            "{peg} of {}: {sheet}",
            arc.name
        );
    }
    assert!(
        arcs[2].contains("circle: ") && !arcs[1].contains("circle: "),
        "{sheet}"
    );
}

#[test]
fn without_marks_no_tape_is_told() {
    for (meets, is_taped) in [("  meets west\n", true), ("", false)] {
        let text =
            format!("job \"a\"\nshape a\n  rectangle 5 m by 4 m\nsurface a\n  shape a\n{meets}");
        let sheet = setout_text(&analysed(&text), "/", false);
        assert_eq!(sheet.contains("from A"), is_taped, "{sheet}");
        assert!(sheet.contains("east") && sheet.contains("north"), "{sheet}");
    }
}

/// The one level that all facets are screeded to stands on the sheet: that of
/// the drain, 3.5 m from the farthest edge.
#[test]
fn the_grating_that_a_surface_falls_to_is_on_every_sheet() {
    let text = "job \"Yard\"\n  units metric\n\nsite\n  datum \"sill\"\n  ground -200 mm\n\n\
        shape court\n  rectangle 6 m by 4 m, at (0, -4 m)\n\n\
        surface court\n  shape court\n  level -150 mm\n  fall to pit, at least 1:40\n\n\
        drain pit\n  gully clay-gully, at (2.5 m, -1.8 m), 300 mm wide\n  invert -600 mm\n  to \"sewer\"\n";
    let analysis = analysed(text);
    let found = setting_out(&analysis.job);
    let spot = found.spots.first().expect("the drain is there");
    close(
        spot.grating_m.expect("it is known"),
        -0.15 - 3.5 / 40.0,
        1e-9,
    );
    let json: serde_json::Value =
        serde_json::from_str(&setout_json(&analysis)).expect("it is JSON");
    let told = json["points"][0]["grating_m"].as_f64();
    close(told.expect("it is told"), -0.2375, 1e-9);
    let csv = setout_csv(&analysis);
    assert!(
        csv.contains("grating,D1,pit,middle,2.5,-1.8,-0.2375"),
        "{csv}"
    );
}
