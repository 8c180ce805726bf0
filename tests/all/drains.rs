//! Drains: their figures worked by hand, and what must hold of any.

use std::collections::BTreeMap;
use std::f64::consts::TAU;
use std::sync::Arc;

use drylay::analysis::{Analyser, Analysis, NoFiles};
use drylay::model::{Outfall, Outlet};
use drylay::quantities::DrainFigures;
use drylay::quantities::hydraulics::Channel;
use drylay::report::{SheetLayout, takeoff_json, takeoff_text, unknown};
use proptest::prelude::*;
use serde_json::json;

use crate::outside::checked_by;
use crate::random::{Random, cases};

fn analysed(text: &str) -> Arc<Analysis> {
    Analyser::new().analyse("/drive.patio", text.into(), &NoFiles, "2027-04-12")
}

/// A court of 6 m by 4 m that falls away from its north side, in ground that
/// lies 200 mm down, with these sections more.
fn court(more: &str) -> Arc<Analysis> {
    analysed(&spec(more))
}

fn spec(more: &str) -> String {
    format!(
        "job \"Court\"\n  units metric\n\n\
         site\n  soil gravel, firm\n  swell 25 %\n  datum \"floor\"\n  ground -200 mm\n\n\
         shape court\n  rectangle 6 m by 4 m\n\n\
         surface court\n  shape court\n  level -160 mm at north\n  fall 1:50 away from north\n  build sand-set\n\n\
         build sand-set\n  paving concrete-paver, 60 mm\n  bed sharp-sand, 30 mm\n  base crushed-stone, 150 mm compacted\n\n\
         {more}"
    )
}

fn drain<'a>(analysis: &'a Analysis, name: &str) -> &'a DrainFigures {
    let mut drains = analysis.figures.drains.iter();
    drains
        .find(|drain| drain.name == name)
        .expect("it is a drain")
}

/// Holds figures to what they are by hand, to a millionth.
fn holds(found: &[(&str, Option<f64>, f64)]) {
    for (what, found, wanted) in found {
        let found = found.unwrap_or(f64::NAN);
        assert!(
            (found - wanted).abs() < 1e-6,
            "{what}: {found}, and by hand {wanted}"
        );
    }
}

const CHAIN: &str = "\
drain corner-gully
  gully clay-gully, at (3 m, -2 m), 300 mm wide
  to rear-pipe

drain rear-pipe
  pipe plastic-pipe, 110 mm, bore 103 mm, from (3 m, -2 m) to (9 m, -4 m)
  fall 1:80
  invert -600 mm at (3 m, -2 m)
  bedded in pea-gravel, 100 mm round
  to rear-soak

drain rear-soak
  soakaway 1.2 m by 1.2 m by 1 m, centre (9 m, -4 m)
  invert -680 mm
  filled crate, voids 95 %
  wrapped geotextile
";

#[test]
fn a_pipe_to_a_soakaway_is_as_by_hand() {
    let analysis = court(CHAIN);
    let pipe = drain(&analysis, "rear-pipe");
    let dig = pipe.dig.expect("it is dug");
    holds(&[
        // √(6² + 2²)
        ("length", pipe.length_m, 6.324_555_3),
        // π ÷ 4 × 0.103² × (0.103 ÷ 4)^⅔ × √(1 ÷ 80) ÷ 0.011
        ("carries", pipe.carries_m3s, 0.007_384_9),
        // 6.3246 − 150 ÷ 0.94868 − 600 ÷ 0.94868
        ("to the faces", pipe.bought_m, 5.533_985_9),
        ("head", pipe.head_m, -0.6),
        // −600 − 6324.6 ÷ 80
        ("outlet", pipe.outlet_m, -0.679_056_9),
        // 600 − 200 − (103 + 110) ÷ 2
        ("cover", pipe.cover_m(), 0.293_5),
        ("width of the dig", dig.width_m, 0.31),
        // From face to face, 0.31 × 5.534 × (600 + 2925.1 ÷ 80 + 3.5 + 100 − 200)
        ("dig", Some(dig.bank_m3), 0.926_498_8),
        // What the pipe and its bed leave: 0.926499 − 0.31² × 5.534
        ("filled in again", Some(dig.filled_in_m3), 0.394_682_7),
        // 0.31² × 5.534 × 1.25
        ("loose", dig.loose_m3, 0.664_770_1),
        // (310² − π ÷ 4 × 110²) × 5.534
        (
            "bedding",
            pipe.bedding.as_ref().unwrap().volume_m3,
            0.479_224_8,
        ),
    ]);
    let pit = drain(&analysis, "rear-soak");
    holds(&[
        ("inlet", pit.head_m, -0.68),
        // 1.2² × (680 + 1000 − 200)
        ("dig", pit.dig.map(|dig| dig.bank_m3), 2.131_2),
        // 1.2² × 1 × 95 %
        ("storage", pit.storage_m3, 1.368),
        // 1.2² × 1.103, to the crown of the pipe
        ("fill", pit.fill.as_ref().unwrap().volume_m3, 1.588_32),
        // 2 × 1.2² + 4 × 1.2 × 1.103
        ("fabric", pit.fabric_m2, 8.174_4),
    ]);
    // A gully lies where the pipe leaves it.
    holds(&[("gully", drain(&analysis, "corner-gully").head_m, -0.6)]);
    assert!(analysis.figures.order("plastic-pipe").is_some());
}

#[test]
fn a_trench_and_a_channel_are_as_by_hand() {
    let analysis = court(
        "drain foot-trench\n  trench 300 mm wide, 600 mm deep, along court.south\n  pipe perforated-pipe, 100 mm\n  \
         filled open-stone, voids 40 %\n  wrapped geotextile\n  to \"ditch\"\n\n\
         drain wall-channel\n  channel polymer-channel, 100 mm by 80 mm clear, 135 mm over all, along court.north, at door\n  \
         fall 1:200 toward east\n  bedded in pea-gravel, 100 mm round\n  to \"ditch\"\n",
    );
    let trench = drain(&analysis, "foot-trench");
    holds(&[
        ("length", trench.length_m, 6.0),
        // −160 − 4000 ÷ 50 − 600
        ("bottom", trench.head_m, -0.84),
        // 0.3 × (840 − 200) × 6
        ("dig", trench.dig.map(|dig| dig.bank_m3), 1.152),
        // 0.3 × 0.6 × 6 − π ÷ 4 × 0.1² × 6
        (
            "stone",
            trench.fill.as_ref().unwrap().volume_m3,
            1.032_876_1,
        ),
        ("storage", trench.storage_m3, 0.413_150_4),
        // 2 × (0.3 + 0.6) × 6 + 2 × 0.3 × 0.6
        ("fabric", trench.fabric_m2, 11.16),
    ]);
    let channel = drain(&analysis, "wall-channel");
    holds(&[
        // Held in `src/quantities/hydraulics` against published examples.
        (
            "carries",
            channel.carries_m3s,
            Channel {
                length_m: 6.0,
                width_m: 0.1,
                head_m: 0.08,
                outlet_m: 0.11,
                slope: 0.005,
                n: 0.011,
            }
            .carries()
            .unwrap()
            .flow,
        ),
        ("head", channel.head_m, -0.24),
        ("outlet", channel.outlet_m, -0.27),
        // It lies in the depth that the court is dug for, but for the stone
        // past the free edge: 100 × (255 + 17.5 + 100 − 200) × 6.
        ("dig", channel.dig.map(|dig| dig.bank_m3), 0.103_5),
        // (335 × 100 + 2 × 100 × (95 + 17.5)) × 6
        (
            "bedding",
            channel.bedding.as_ref().unwrap().volume_m3,
            0.336,
        ),
    ]);
}

/// The hole of a gully is as wide as that and what it is set in, from the
/// ground or from under the paving down to the invert and what lies below it.
#[test]
fn the_hole_of_a_gully_is_as_by_hand() {
    let works = |at: &str, lines: &str| {
        let analysis = court(&format!(
            "drain pot\n  gully clay-gully, at {at}\n  {}\n  to \"ditch\"\n",
            lines.replace("; ", "\n  ")
        ));
        let pot = drain(&analysis, "pot");
        let dig = pot.dig.map(|dig| (dig.bank_m3, dig.loose_m3));
        let bedding = pot.bedding.as_ref().map(|own| own.volume_m3);
        (dig, bedding)
    };
    let near = |found: f64, wanted: f64| (found - wanted).abs() < 1e-9;
    let bedded = "invert -900 mm; bedded in pea-gravel, 100 mm round";
    for (at, lines, bank, around) in [
        (
            "(8 m, 2 m), 400 mm wide",
            "invert -900 mm",
            0.4 * 0.4 * 0.7,
            None,
        ),
        // Under the paving, whose underside lies 440 mm down there.
        (
            "(3 m, 2 m), 400 mm wide",
            "invert -900 mm",
            0.4 * 0.4 * 0.46,
            None,
        ),
        (
            "(8 m, 2 m), 400 mm wide",
            bedded,
            0.6 * 0.6 * 0.8,
            Some(0.6 * 0.6 * 0.8 - 0.4 * 0.4 * 0.7),
        ),
        (
            "(3 m, 2 m), 400 mm wide",
            bedded,
            0.6 * 0.6 * 0.56,
            Some(0.6 * 0.6 * 0.56 - 0.4 * 0.4 * 0.46),
        ),
        // It lies within what is dug for the paving.
        ("(3 m, 2 m), 400 mm wide", "invert -400 mm", 0.0, None),
    ] {
        let (dig, bedding) = works(at, lines);
        let (found, loose) = dig.expect("it is dug");
        assert!(near(found, bank), "{at} {lines}: {found}, wanted {bank}");
        assert!(
            near(loose.expect("the swell is stated"), bank * 1.25),
            "{at} {lines}"
        );
        match (bedding.flatten(), around) {
            (Some(found), Some(wanted)) => assert!(near(found, wanted), "{at}: {found}"),
            (found, wanted) => assert_eq!(found, wanted, "{at} {lines}"),
        }
    }
    // Without a width it is dug with the pipe that leads from it, or not known.
    let pipe = "drain line\n  pipe plastic-pipe, 110 mm, from (8 m, 2 m) to (12 m, 2 m)\n  fall 1:80\n  invert -900 mm\n  to \"ditch\"\n";
    for (to, is_known) in [("line", true), ("\"ditch\"", false)] {
        let analysis = court(&format!(
            "drain pot\n  gully clay-gully, at (8 m, 2 m)\n  invert -900 mm\n  to {to}\n\n{pipe}"
        ));
        let pot = drain(&analysis, "pot");
        assert_eq!((pot.dig, pot.is_dug()), (None, !is_known), "{to}");
        let reasons = unknown(&analysis);
        let is_told = reasons.iter().any(|reason| reason.contains("dig for pot"));
        assert_eq!(is_told, !is_known, "{to}: {reasons:?}");
    }
}

/// A channel and a flight of steps stand where units would: these are cut to
/// them.
#[test]
fn units_are_cut_to_what_stands_on_the_paving() {
    let laid =
        "  build sand-set\n  laid stack-bond, units 200 mm by 100 mm, along south, from (0, 0)\n";
    let layout = |more: &str| {
        let spec = court(more)
            .own_text()
            .replacen("  build sand-set\n", laid, 1);
        let analysis = analysed(&spec);
        let layout = analysis.figures.surfaces[0]
            .layout
            .as_ref()
            .expect("a lay-out");
        (layout.whole, layout.cut, layout.stock())
    };
    let channel = |wide: &str| {
        format!(
            "drain channel\n  channel polymer-channel, 100 mm by 80 mm clear, {wide} over all, along court.south\n  fall 1:200 toward east\n  to \"sewer\"\n"
        )
    };
    assert_eq!(layout(""), (1200, 0, 1200));
    // Two rows of thirty give way; or one, and of the next one half, two from
    // one unit.
    assert_eq!(layout(&channel("200 mm")), (1140, 0, 1140));
    assert_eq!(layout(&channel("150 mm")), (1140, 30, 1155));
    // A flight of 1.2 m by two goings of 300 mm that climbs onto the court.
    let flight = "steps flight\n  from -600 mm\n  to court\n  at (3 m, 0.6 m), climbing north\n  width 1.2 m\n  risers 3\n  going 300 mm\n  tread sandstone, 50 mm\n  riser sandstone, 30 mm\n";
    assert_eq!(layout(flight), (1200 - 6 * 6, 0, 1200 - 6 * 6));
}

/// Along a level edge nothing says which way a channel falls, unless it does
/// itself, or what it leads to lies at one end.
#[test]
fn along_a_level_edge_the_way_of_a_fall_is_asked_for() {
    let pipe = "drain pipe\n  pipe plastic-pipe, 110 mm, from (6 m, 0) to (9 m, 0)\n  fall 1:80\n  \
        invert -600 mm\n  bedded in pea-gravel, 100 mm round\n  to \"sewer\"\n";
    for (lines, is_asked) in [
        ("along court.south\n  fall 1:200\n  to \"sewer\"", true),
        (
            "along court.south\n  fall 1:200 toward east\n  to \"sewer\"",
            false,
        ),
        ("along court.south\n  to \"sewer\"", false),
        ("along court.east\n  fall 1:200\n  to \"sewer\"", false),
        ("along court.south\n  fall 1:200\n  to pipe", false),
    ] {
        let channel = "channel polymer-channel, 100 mm by 80 mm clear, 140 mm over all";
        let analysis = court(&format!("drain foot\n  {channel}, {lines}\n\n{pipe}"));
        assert_eq!(
            drain(&analysis, "foot").is_way_assumed && lines.contains("fall"),
            is_asked,
            "{lines}"
        );
        let mut told = analysis.findings.iter();
        let found = told.any(|own| own.message.contains("to which end does foot fall"));
        assert_eq!(found, is_asked, "{lines}");
    }
}

#[test]
fn of_a_fall_and_two_inverts_any_two_give_the_third() {
    for (lines, head, outlet) in [
        ("fall 1:80\n  invert -600 mm", -0.6, -0.7),
        ("fall 1:80\n  invert -700 mm at (8 m, -5 m)", -0.6, -0.7),
        ("fall 1:80\n  invert -650 mm at (4 m, -5 m)", -0.6, -0.7),
        (
            "invert -600 mm\n  invert -700 mm at (8 m, -5 m)",
            -0.6,
            -0.7,
        ),
    ] {
        let analysis = court(&format!(
            "drain side\n  pipe plastic-pipe, 110 mm, from (0 m, -5 m) to (8 m, -5 m)\n  {lines}\n  to \"ditch\"\n"
        ));
        let side = drain(&analysis, "side");
        holds(&[
            ("head", side.head_m, head),
            ("outlet", side.outlet_m, outlet),
            ("fall", side.fall, 1.0 / 80.0),
        ]);
        assert_eq!(side.misfit, None, "{lines}");
    }
}

#[test]
fn three_that_disagree_are_told() {
    let said = |invert: &str| {
        let analysis = court(&format!(
            "drain side\n  pipe plastic-pipe, 110 mm, from (0 m, -5 m) to (8 m, -5 m)\n  fall 1:80\n  invert -600 mm\n  invert {invert} at (8 m, -5 m)\n  to \"ditch\"\n"
        ));
        analysis
            .findings
            .iter()
            .any(|found| found.rule == "levels-disagree")
    };
    assert!(!said("-700 mm") && !said("-703 mm"));
    assert!(said("-704 mm") && said("-690 mm"));
}

#[test]
fn a_pipe_under_paving_is_dug_from_under_it() {
    let analysis = court(
        "drain side\n  pipe plastic-pipe, 100 mm, from (3 m, 6 m) to (3 m, -2 m)\n  invert -700 mm\n  fall 1:100\n  to \"ditch\"\n",
    );
    let dig = drain(&analysis, "side").dig.unwrap();
    // 2 m outside at each end, from the ground; 4 m from the underside of the
    // court, 240 mm below a finish that falls from −160 to −240.
    let north = 2.0 * (0.5 - 0.0 + 0.01);
    let under = 4.0 * ((0.72 + 0.76) / 2.0 - (0.40 + 0.48) / 2.0);
    let south = 2.0 * ((0.76 + 0.78) / 2.0 - 0.2);
    holds(&[("dig", Some(dig.bank_m3), 0.1 * (north + under + south))]);
}

#[test]
fn what_is_not_known_is_a_dash_with_its_reason() {
    for (drain_lines, reason) in [
        (
            "pipe plastic-pipe, 110 mm, from (0 m, -5 m) to (8 m, -5 m)",
            "no invert is stated",
        ),
        (
            "pipe plastic-pipe, 110 mm, from (0 m, -5 m) to (8 m, -5 m)\n  invert -600 mm",
            "neither a fall nor a second invert is stated",
        ),
        ("pipe plastic-pipe, 110 mm", "where it lies is not stated"),
        (
            "soakaway 1 m by 1 m by 1 m, centre (0 m, -9 m)\n  invert -600 mm\n  filled crushed-stone",
            "the voids of what fills it are not stated",
        ),
        (
            "pipe plastic-pipe, 110 mm, from (0 m, -5 m) to (8 m, -5 m)\n  invert -600 mm\n  fall 1:80\n  bedded in pea-gravel",
            "how thick it is is not stated",
        ),
    ] {
        let analysis = court(&format!("drain side\n  {drain_lines}\n  to \"ditch\"\n"));
        let reasons = unknown(&analysis).join("\n");
        assert!(reasons.contains(reason), "{drain_lines}\n{reasons}");
    }
}

#[test]
fn a_spec_without_drains_says_nothing_of_them() {
    let analysis = court("");
    assert!(analysis.figures.drains.is_empty());
    assert!(!takeoff_json(&analysis).contains("drain"));
}

/// Each drain leads to another or away; NetworkX tells where its water ends,
/// and which go round in a circle.
#[test]
fn chains_of_drains_agree_with_networkx() {
    let mut random = Random::new("drain chains");
    let mut cases_made = Vec::new();
    for _ in 0..cases(60) {
        let count = 2 + random.below(6);
        let to: Vec<usize> = (0..count).map(|_| random.below(count + 1)).collect();
        let name = |own: usize| format!("d{own}");
        let next = |own: &usize| (*own < count).then(|| name(*own));
        let sections = to.iter().enumerate().map(|(own, to)| {
            let to: String = next(to).unwrap_or_else(|| "\"ditch\"".to_owned());
            format!("drain d{own}\n  gully clay-gully, at (0 m, -{own} m)\n  to {to}\n\n")
        });
        let analysis = court(&sections.collect::<String>());
        let job = &analysis.job;
        let reported = analysis.findings.iter();
        let reported = reported.filter(|found| found.rule == "drain-circular");
        let circles: Vec<Vec<&str>> = reported.map(|found| in_circle(&found.message)).collect();
        // The last drain on the way, which leads to no other.
        let ends = (0..count).map(|own| {
            let mut at = own;
            let first = Outlet::Drain(name(own));
            let ends = matches!(job.outfall(&first), Some(Outfall::Text(_)));
            while let Some(next) = to.get(at).filter(|next| ends && **next < count) {
                at = *next;
            }
            (name(own), ends.then(|| name(at)))
        });
        let ends: BTreeMap<String, Option<String>> = ends.collect();
        let to = to.iter().enumerate().map(|(own, to)| (name(own), next(to)));
        let to: BTreeMap<String, Option<String>> = to.collect();
        cases_made.push(json!({"to": to, "circles": circles, "ends": ends}));
    }
    checked_by("drains_check.py", "drains", &cases_made);
}

/// The drains that a message says lead round: `… leaves: d0 to d2 to d0`.
fn in_circle(message: &str) -> Vec<&str> {
    let (_, way) = message.split_once(": ").expect("it tells the way");
    let mut names: Vec<&str> = way.split(" to ").collect();
    names.pop();
    names
}

/// The length, the dig and the least cover of a pipe that crosses a court,
/// each point of the plan moved so.
fn moved(ends: [f64; 4], slope: f64, place: impl Fn(f64, f64) -> (f64, f64)) -> [f64; 3] {
    let at = |x: f64, y: f64| {
        let (x, y) = place(x, y);
        format!("({x:.9} m, {y:.9} m)")
    };
    let [a, b, c, d] = ends;
    let level = |y: f64| -0.3 - slope * (4.0 - y);
    let text = format!(
        "job \"Moved\"\n  units metric\n\nsite\n  soil gravel\n  datum \"floor\"\n  ground -100 mm\n\n\
         shape court\n  start {}\n  to {}\n  to {}\n  to {}\n  close\n\n\
         surface court\n  shape court\n  level {:.9} m at {}\n  level {:.9} m at {}\n  level {:.9} m at {}\n  build strip\n\n\
         build strip\n  base crushed-stone, 150 mm\n\n\
         drain side\n  pipe plastic-pipe, 110 mm, from {} to {}\n  invert -900 mm\n  fall 1:60\n  bedded in pea-gravel, 100 mm round\n  to \"ditch\"\n",
        at(0.0, 0.0),
        at(6.0, 0.0),
        at(6.0, 4.0),
        at(0.0, 4.0),
        level(0.0),
        at(0.0, 0.0),
        level(0.0),
        at(6.0, 0.0),
        level(4.0),
        at(6.0, 4.0),
        at(a, b),
        at(c, d),
    );
    let analysis = analysed(&text);
    let own = drain(&analysis, "side");
    let dig = own.dig.unwrap_or_else(|| panic!("{text}"));
    [own.length_m.unwrap(), dig.bank_m3, own.cover_m().unwrap()]
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 48, ..ProptestConfig::default() })]

    #[test]
    fn a_plan_turned_or_mirrored_is_dug_as_much(
        ends in [-3.0..9.0f64, -3.0..7.0, -3.0..9.0, -3.0..7.0],
        slope in 0.0..0.05f64,
        angle in 0.0..TAU,
    ) {
        prop_assume!((ends[0] - ends[2]).hypot(ends[1] - ends[3]) > 0.5);
        let (sin, cos) = angle.sin_cos();
        let still = moved(ends, slope, |x, y| (x, y));
        let turned = moved(ends, slope, |x, y| (x * cos + y * sin, y * cos - x * sin));
        let mirrored = moved(ends, slope, |x, y| (-x, y));
        for other in [turned, mirrored] {
            for (one, other) in still.iter().zip(other) {
                prop_assert!((one - other).abs() < 1e-6, "{still:?} {other:?}");
            }
        }
    }
}

/// A channel along the low edge of [`court`], laid in 100 mm of concrete.
const ALONG: &str = "\
drain foot-channel
  channel polymer-channel, 100 mm by 80 mm clear, 135 mm over all, along court.south
  bedded in concrete, 100 mm round
  fall 1:200 toward east
  to \"ditch\"
";

#[test]
fn what_a_channel_is_laid_in_past_the_edge_is_dug() {
    let dig = |analysis: &Analysis| drain(analysis, "foot-channel").dig.expect("it is dug");
    // The low edge lies 160 + 4000 ÷ 50 = 240 mm down, the head 80 mm lower,
    // the other end 80 + 6000 ÷ 200; with the wall of 17.5 mm and the concrete
    // of 100 mm below, from ground 200 mm down: 237.5 to 267.5 mm, by 100 mm.
    // Under the paving, dug to 480 mm, there is no more to dig.
    let own = dig(&court(ALONG));
    let mean = 0.240 + 0.080 + 0.015 + 0.117_5 - 0.2;
    holds(&[("past the edge", Some(own.bank_m3), 6.0 * 0.1 * mean)]);
    holds(&[
        ("how wide", own.width_m, 0.1),
        ("how deep", Some(own.deepest_m), 0.267_5),
    ]);
    // What the surface is dug past its edge is dug already.
    let beyond = |past: &str| {
        let text = spec(ALONG).replace(
            "150 mm compacted",
            &format!("150 mm compacted, beyond {past}"),
        );
        dig(&analysed(&text)).bank_m3
    };
    holds(&[
        ("half of it", Some(beyond("50 mm")), 6.0 * 0.05 * mean),
        ("all of it", Some(beyond("150 mm")), 0.0),
    ]);
    // Against a wall there is nothing to dig.
    let text = spec(ALONG).replace("  build sand-set\n", "  build sand-set\n  meets south\n");
    holds(&[("at a wall", Some(dig(&analysed(&text)).bank_m3), 0.0)]);
}

#[test]
fn a_soakaway_that_takes_what_overflows_is_not_sized() {
    let more = format!(
        "{CHAIN}  overflow to second\n\ndrain second\n  soakaway 1 m by 1 m by 1 m, centre (15 m, -4 m)\n  \
         invert -900 mm\n  filled crate, voids 95 %\n  overflow to \"lawn\"\n"
    );
    let spec = |more: &str| {
        spec(more).replace(
            "site\n",
            "site\n  storm 30 mm in 1 h\n  infiltration 40 mm/h\n",
        )
    };
    let analysis = analysed(&spec(&more));
    let sheet = takeoff_text(&analysis, "drive.patio", SheetLayout::default());
    let sheet = sheet.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(
        sheet.contains("what overflows to it; how much that is"),
        "{sheet}"
    );
    assert!(!sheet.contains("half empty in 0"), "{sheet}");
    // One that nothing leads to has nothing to hold.
    let alone = more.replace("  overflow to second\n", "");
    let sheet = takeoff_text(
        &analysed(&spec(&alone)),
        "drive.patio",
        SheetLayout::default(),
    );
    assert!(!sheet.contains("what overflows to it"), "{sheet}");
    assert!(!sheet.contains("half empty in 0"), "{sheet}");
}

#[test]
fn a_stated_invert_is_told_with_its_line_and_half_empty_with_its_working() {
    let chain = format!("{CHAIN}  takes \"roof\" 42 m2\n");
    let storms = "site\n  storm 30 mm in 1 h\n  storm 31 mm in 12 h\n  infiltration 40 mm/h\n";
    let text = spec(&chain).replace("site\n", storms);
    let layout = SheetLayout::default().with_working(true);
    let sheet = takeoff_text(&analysed(&text), "drive.patio", layout);
    let mut lines = sheet.lines();
    let is_head = |line: &str| line.contains("invert at the head") && line.contains("-600");
    assert!(
        lines.any(|line| is_head(line) && line.contains("line ")),
        "{sheet}"
    );
    for step in ["half empty in", "as built half empty in"] {
        assert!(
            sheet.contains(&format!("      {step} = ")),
            "{step} in\n{sheet}"
        );
    }
}
