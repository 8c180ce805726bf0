//! What comes to each drain: by hand on small jobs, and what must hold of any.

use std::collections::BTreeMap;
use std::f64::consts::TAU;
use std::sync::Arc;

use drylay::analysis::{Analyser, Analysis, NoFiles};
use drylay::model::Contact;
use drylay::quantities::{DrainWater, Fate, Soaking};
use serde_json::json;

use crate::outside::checked_by;
use crate::random::{Random, cases};

const HEAD: &str = "job \"Yard\"\n  units metric\n  region general\n\nsite\n  datum \"sill\"\n  ground -300 mm\n  storm 75 mm/h for 5 min\n  storm 30 mm in 1 h\n  storm 36 mm in 12 h\n  infiltration 40 mm/h\n\nbuild flags\n  paving sandstone-slab, 40 mm\n\n";

fn analysed(text: &str) -> Arc<Analysis> {
    let text = HEAD.to_owned() + text;
    Analyser::new().analyse("/yard.patio", text.as_str().into(), &NoFiles, "2027-04-12")
}

/// A court of 6 m by 4 m of which 90 % runs off, with these entries more.
fn court(entries: &str) -> String {
    format!(
        "shape court\n  rectangle 6 m by 4 m\n\nsurface court\n  shape court\n  build flags\n  runoff 90 %\n  {}\n\n",
        entries.replace("; ", "\n  ")
    )
}

const SOUTH: &str = "level 0 mm at north; fall 1:50 toward south";

fn comes<'a>(analysis: &'a Analysis, name: &str) -> &'a DrainWater {
    let mut drains = analysis.job.drains.iter();
    let index = drains.position(|own| own.name.value == name);
    let water = analysis.figures.water.as_ref().expect("it states a storm");
    &water.drains[index.expect("it is a drain")]
}

/// From what water comes to a drain, and from how many square metres.
fn inflows(analysis: &Analysis, name: &str) -> Vec<(String, f64)> {
    let inflows = comes(analysis, name).inflows.iter();
    inflows
        .map(|own| {
            let area = own.amount.area_m2.expect("it is known");
            (
                own.from.described(&analysis.job),
                (area * 1e6).round() / 1e6,
            )
        })
        .collect()
}

fn described(found: &[(String, f64)]) -> Vec<(&str, f64)> {
    found
        .iter()
        .map(|(from, area)| (from.as_str(), *area))
        .collect()
}

/// The rules that speak, of those of drains and falls.
fn rules(analysis: &Analysis) -> Vec<&'static str> {
    let about = [
        "drain-small",
        "drain-idle",
        "drain-unled",
        "soakaway-small",
        "storm-short",
        "low-point",
    ];
    let all = analysis.findings.iter().map(|found| found.rule);
    all.filter(|rule| about.contains(rule)).collect()
}

#[test]
fn a_gully_takes_what_passes_within_its_width() {
    let gully = "drain pot\n  gully clay-gully, at (3 m, 1 m), 300 mm wide\n  to \"sewer\"\n";
    let analysis = analysed(&(court(SOUTH) + gully));
    // 0.3 m wide, 3 m up to the north side.
    assert_eq!(described(&inflows(&analysis, "pot")), [("court", 0.9)]);
    let water = analysis.figures.water.as_ref().unwrap();
    let ways = water.surfaces[0].ways.as_ref().unwrap();
    let reported: Vec<(String, f64)> = ways
        .iter()
        .map(|way| {
            let own = &analysis.job.surfaces[0];
            (way.described(&analysis.job, own), way.area_m2)
        })
        .collect();
    assert_eq!(reported.len(), 2);
    assert!(
        reported
            .iter()
            .any(|(reported, area)| reported == "into pot" && (area - 0.9).abs() < 1e-9)
    );
    assert!(
        reported
            .iter()
            .any(|(reported, area)| reported == "off south" && (area - 23.1).abs() < 1e-9)
    );
    // 0.9 m² × 90 % × 75 mm/h.
    let flow = comes(&analysis, "pot").flow.unwrap();
    assert!((flow - 0.9 * 0.9 * 0.075 / 3600.0).abs() < 1e-15);
    // One without a width takes what is led to it, and nothing of this.
    let bare = gully.replace(", 300 mm wide", "");
    let analysis = analysed(&(court(SOUTH) + &bare));
    assert_eq!(comes(&analysis, "pot").all.area_m2, Some(0.0));
    assert_eq!(rules(&analysis), ["drain-idle"]);
}

#[test]
fn channels_and_trenches_take_what_comes_to_their_edge() {
    for body in [
        "channel polymer-channel, 100 mm by 80 mm clear, along court.south",
        "trench 300 mm wide, 600 mm deep, along court.south",
    ] {
        let drain = format!("drain foot\n  {body}\n  to \"ditch\"\n");
        let analysis = analysed(&(court(SOUTH) + &drain));
        assert_eq!(
            described(&inflows(&analysis, "foot")),
            [("court over south", 24.0)]
        );
        let away = drain.replace("south", "north");
        let analysis = analysed(&(court(SOUTH) + &away));
        assert_eq!(comes(&analysis, "foot").all.area_m2, Some(0.0));
    }
    // Across the court, where it follows no edge: 4 m of the 6, 3 m deep.
    let across = "drain foot\n  channel polymer-channel, 100 mm by 80 mm clear, from (1 m, 1 m) to (5 m, 1 m)\n  to \"ditch\"\n";
    let analysis = analysed(&(court(SOUTH) + across));
    assert_eq!(described(&inflows(&analysis, "foot")), [("court", 12.0)]);
}

#[test]
fn a_kerb_that_stands_proud_leads_water_along() {
    let kerb = |above: &str| {
        format!(
            "level 0 mm at (0, 4 m); fall 1:50 toward south, cross 1:100 toward east; edging concrete-kerb, along south{above}; edging concrete-kerb, along east{above}"
        )
    };
    let pot =
        |at: &str| format!("drain pot\n  gully clay-gully, at {at}, 300 mm wide\n  to \"sewer\"\n");
    let proud = court(&kerb(", 25 mm above"));
    // All runs along both kerbs into the corner, and stands there without a
    // gully.
    let analysis = analysed(&proud);
    assert_eq!(rules(&analysis), ["low-point"]);
    let analysis = analysed(&(proud.clone() + &pot("(5.8 m, 0.2 m)")));
    assert_eq!(rules(&analysis), [] as [&str; 0]);
    let all = comes(&analysis, "pot").all.area_m2.unwrap();
    assert!((all - 24.0).abs() < 1e-9, "{all}");
    // Half way along, it takes what has come so far.
    let analysis = analysed(&(proud + &pot("(3 m, 0.1 m)")));
    let all = comes(&analysis, "pot").all.area_m2.unwrap();
    assert!(all > 6.0 && all < 18.0, "{all}");
    assert_eq!(rules(&analysis), ["low-point"]);
    // Set flush it lets the water over, and what is 3 mm or less is flush.
    for flush in ["", ", 3 mm above"] {
        let analysis = analysed(&court(&kerb(flush)));
        assert_eq!(rules(&analysis), [] as [&str; 0]);
        let water = analysis.figures.water.as_ref().unwrap();
        let ways = water.surfaces[0].ways.as_ref().unwrap();
        assert!(ways.iter().all(|way| way.fate == Fate::Off));
    }
}

#[test]
fn what_is_said_stands_in_place_of_what_was_found() {
    let drains = "drain pot\n  gully clay-gully, at (3 m, 0 m), 300 mm wide\n  takes court and \"roof\" 42 m2, runoff 95 %\n  to line\n\n\
                  drain other\n  gully clay-gully, at (1 m, 1 m), 1 m wide\n  to line\n\n\
                  drain line\n  pipe plastic-pipe, 110 mm, from (3 m, 0 m) to (9 m, 0 m)\n  fall 1:80\n  invert -700 mm\n  to \"ditch\"\n";
    let analysis = analysed(&(court(SOUTH) + drains));
    let pot = comes(&analysis, "pot");
    assert!(pot.is_stated);
    assert_eq!(
        described(&inflows(&analysis, "pot")),
        [("court", 24.0), ("roof", 42.0)]
    );
    let weighted = pot.all.weighted_m2.unwrap();
    assert!((weighted - (24.0 * 0.9 + 42.0 * 0.95)).abs() < 1e-9);
    // Both come to the pipe.
    assert_eq!(
        described(&inflows(&analysis, "line")),
        [("pot", 66.0), ("other", 3.0)]
    );
}

#[test]
fn what_several_drains_are_said_to_take_is_shared() {
    let pot = |name: &str, takes: &str| {
        format!(
            "drain {name}\n  gully clay-gully, at (3 m, 1 m), 300 mm wide\n  takes {takes}\n  to line\n\n"
        )
    };
    let line = "drain line\n  pipe plastic-pipe, 110 mm, from (3 m, 0 m) to (9 m, 0 m)\n  fall 1:80\n  invert -700 mm\n  to \"ditch\"\n";
    for (pots, each, all) in [
        (pot("a", "court"), 24.0, 24.0),
        (
            pot("a", "court") + &pot("b", "court") + &pot("c", "court"),
            8.0,
            24.0,
        ),
        // Of what is named in quotes nobody knows whether it is one.
        (
            pot("a", "\"roof\" 30 m2, runoff 100 %") + &pot("b", "\"roof\" 30 m2, runoff 100 %"),
            30.0,
            60.0,
        ),
    ] {
        let analysis = analysed(&(court(SOUTH) + &pots + line));
        for (name, wanted) in [("a", each), ("line", all)] {
            let found = comes(&analysis, name).all.area_m2.expect("it is known");
            assert!((found - wanted).abs() < 1e-9, "{name}: {found}\n{pots}");
        }
    }
}

#[test]
fn a_surface_leads_its_water_by_name() {
    let drain = "drain pot\n  existing\n  gully at (20 m, 0 m)\n";
    // None of it falls there: it is told, and the drain gets none of it.
    let channel = "drain pot\n  channel polymer-channel, 100 mm by 80 mm clear, along court.north\n  to \"ditch\"\n";
    let trench = "drain pot\n  trench 300 mm wide, 600 mm deep, along court.north\n";
    for away in [drain, channel, trench] {
        let analysis = analysed(&(court(&format!("{SOUTH}; water to pot")) + away));
        assert_eq!(comes(&analysis, "pot").all.area_m2, Some(0.0), "{away}");
        assert_eq!(rules(&analysis), ["drain-unled"], "{away}");
    }
    // Into a pit, or by permeable paving, it may come unseen.
    let pit = "drain pot\n  soakaway 1 m by 1 m by 1 m, centre (3 m, -9 m)\n  filled crate\n";
    let analysis = analysed(&(court(&format!("{SOUTH}; water to pot")) + pit));
    assert_eq!(described(&inflows(&analysis, "pot")), [("court", 24.0)]);
    let open = court(&format!("{SOUTH}; water to pot")).replace("build flags", "build open");
    let open = open + "build open\n  permeable\n  paving concrete-paver, 80 mm\n\n";
    let analysis = analysed(&(open + drain));
    assert_eq!(described(&inflows(&analysis, "pot")), [("court", 24.0)]);
    assert_eq!(rules(&analysis), [] as [&str; 0]);
    // Where a part of it gets there the rest does not, and that is told.
    let near = "drain pot\n  existing\n  gully at (3 m, 0 m), 1 m wide\n";
    let near = near.replace("gully at", "gully clay-gully, at");
    let analysis = analysed(&(court(&format!("{SOUTH}; water to pot")) + &near));
    assert_eq!(described(&inflows(&analysis, "pot")), [("court", 4.0)]);
    assert_eq!(rules(&analysis), ["drain-unled"]);
    // Without a fall nothing is known but what the spec says.
    let analysis = analysed(&(court("water to pot") + drain));
    assert_eq!(described(&inflows(&analysis, "pot")), [("court", 24.0)]);
    let beside = "drain foot\n  channel polymer-channel, 100 mm by 80 mm clear, along court.south\n  to \"ditch\"\n";
    let analysis = analysed(&(court("runoff 90 %").replacen("  runoff 90 %\n", "", 1) + beside));
    assert_eq!(comes(&analysis, "foot").all.area_m2, None);
}

#[test]
fn more_comes_than_a_channel_carries() {
    // 24 m² × 90 % × 75 mm/h = 0.45 L/s.
    let channel = |clear: &str| {
        format!(
            "drain foot\n  channel polymer-channel, {clear} clear, along court.south\n  fall 0 % toward east\n  to \"ditch\"\n"
        )
    };
    for (clear, reported) in [
        ("100 mm by 80 mm", vec![]),
        ("30 mm by 30 mm", vec!["drain-small"]),
    ] {
        let analysis = analysed(&(court(SOUTH) + &channel(clear)));
        assert_eq!(rules(&analysis), reported, "{clear}");
    }
}

fn soaking(analysis: &Analysis) -> &Soaking {
    comes(analysis, "pit").soaking.as_ref().expect("it soaks")
}

#[test]
fn a_soakaway_is_as_by_hand() {
    let pit = |region: &str, more: &str| {
        let text = court(SOUTH)
            + &format!(
                "drain pit\n  soakaway 1.2 m by 1.2 m by 1 m, centre (3 m, -9 m){more}\n  filled crate, voids 95 %\n  takes court\n"
            );
        let head = HEAD.replace("region general", &format!("region {region}"));
        let text = head + &text;
        Analyser::new().analyse("/yard.patio", text.as_str().into(), &NoFiles, "2027-04-12")
    };
    let close = |found: Option<f64>, wanted: f64| {
        let found = found.expect("it is known");
        assert!((found - wanted).abs() < 1e-9, "{found} {wanted}");
    };
    // 24 m² × 90 % × 30 mm less 2.4 m² × 40 mm/h × 1 h.
    let need = 0.648 - 0.096;
    for region in ["general", "uk", "au"] {
        let analysis = pit(region, "");
        let own = soaking(&analysis);
        close(own.need_m3, need);
        assert_eq!(
            (own.storm, own.is_whole, own.unknown),
            (Some(1), false, None)
        );
        // Half of it at 0.096 m³/h; half of the 1.368 m³ that it holds.
        close(own.empties_need_s, 0.5 * need / 0.096 * 3600.0);
        close(own.empties_built_s, 0.5 * 1.368 / 0.096 * 3600.0);
        assert_eq!(rules(&analysis), [] as [&str; 0]);
    }
    // The base too: 1.44 m² more.
    let analysis = pit("uk", ", base counted");
    close(soaking(&analysis).need_m3, 0.648 - 3.84 * 0.04);
    // In America all of the deepest storm, which leaves by the base.
    let analysis = pit("us", "");
    let own = soaking(&analysis);
    close(own.need_m3, 24.0 * 0.9 * 0.036);
    close(
        own.empties_need_s,
        24.0 * 0.9 * 0.036 / (1.44 * 0.04) * 3600.0,
    );
    assert!(own.is_whole);
}

#[test]
fn storms_that_are_too_short_leave_a_soakaway_open() {
    let drain = "drain pit\n  soakaway 1.2 m by 1.2 m by 1 m, centre (3 m, -9 m)\n  filled crate, voids 95 %\n  takes court\n";
    let with = |storms: &str| {
        let head = HEAD.replace("  storm 30 mm in 1 h\n  storm 36 mm in 12 h\n", storms);
        let text = head + &court(SOUTH) + drain;
        Analyser::new().analyse("/yard.patio", text.as_str().into(), &NoFiles, "2027-04-12")
    };
    let analysis = with("");
    assert_eq!(
        (soaking(&analysis).need_m3, rules(&analysis)),
        (None, vec!["storm-short"])
    );
    assert!(soaking(&analysis).at_least_m3.is_some());
    let analysis = with("  storm 20 mm in 2 h\n");
    assert_eq!(soaking(&analysis).need_m3, None);
    let analysis = with("  storm 7 mm in 12 h\n");
    assert!(soaking(&analysis).need_m3.is_some());
    assert_eq!(rules(&analysis), [] as [&str; 0]);
}

/// A job of two courts side by side with kerbs and drains put down at random,
/// turned by an angle and perhaps mirrored.
fn odd_job(random: &mut Random) -> impl Fn(f64, bool) -> String + use<> {
    // Never straight along the edge between the two: of what comes over a
    // corner there, rounding would settle on which side of it that falls.
    let falls = [
        random.step(0.01, 0.04, 0.005),
        random.step(0.005, 0.03, 0.005),
    ];
    let others = [
        random.step(0.01, 0.04, 0.005),
        random.step(0.005, 0.03, 0.005),
    ];
    let gullies: Vec<[f64; 3]> = (0..3)
        .map(|_| {
            [
                random.between(-0.2, 9.2),
                random.between(-0.2, 4.2),
                random.step(0.2, 0.9, 0.1),
            ]
        })
        .collect();
    let line = [
        random.between(-1.0, 10.0),
        random.between(-1.0, 5.0),
        random.between(-1.0, 10.0),
        random.between(-1.0, 5.0),
    ];
    let step = random.step(-0.1, 0.1, 0.02);
    let has_kerb = random.step(0.0, 1.0, 1.0) > 0.5;
    move |angle: f64, is_mirrored: bool| {
        let (sin, cos) = angle.sin_cos();
        let place = |x: f64, y: f64| {
            let x = if is_mirrored { -x } else { x };
            (x * cos - y * sin, x * sin + y * cos)
        };
        let at = |x: f64, y: f64| {
            let (x, y) = place(x, y);
            format!("({x:.9} m, {y:.9} m)")
        };
        let surface = |name: &str, from: f64, to: f64, level: f64, falls: [f64; 2]| {
            let corners = [(from, 0.0), (to, 0.0), (to, 4.0), (from, 4.0)];
            let [a, b, c, d] = corners.map(|(x, y)| at(x, y));
            let level = |x: f64, y: f64| {
                let level = level - falls[0] * (4.0 - y) - falls[1] * (x - from);
                format!("level {level:.9} m at {}", at(x, y))
            };
            let levels = [(from, 0.0), (to, 0.0), (to, 4.0)].map(|(x, y)| level(x, y));
            let kerb = match has_kerb {
                true => "  edging concrete-kerb, along foot, 25 mm above\n",
                false => "",
            };
            format!(
                "shape {name}\n  start {a}\n  to {b}, named foot\n  to {c}\n  to {d}\n  close\n\nsurface {name}\n  shape {name}\n  build flags\n  runoff 90 %\n  {}\n{kerb}\n",
                levels.join("\n  ")
            )
        };
        let mut text =
            surface("west", 0.0, 4.0, 0.0, falls) + &surface("rest", 4.0, 9.0, step, others);
        for (index, [x, y, wide]) in gullies.iter().enumerate() {
            text += &format!(
                "drain g{index}\n  gully clay-gully, at {}, {wide:.2} m wide\n  to \"sewer\"\n\n",
                at(*x, *y)
            );
        }
        let [a, b, c, d] = line;
        text + &format!(
            "drain cross\n  channel polymer-channel, 100 mm by 80 mm clear, from {} to {}\n  to \"sewer\"\n",
            at(a, b),
            at(c, d)
        )
    }
}

/// What comes to each drain, and what gets to its end elsewhere.
fn shared_out(text: &str) -> (BTreeMap<String, f64>, f64) {
    let analysis = analysed(text);
    let water = analysis.figures.water.as_ref().unwrap();
    let drains = analysis.job.drains.iter().zip(&water.drains);
    let drains: BTreeMap<String, f64> = drains
        .map(|(own, water)| {
            let area = water.all.area_m2.unwrap_or_else(|| panic!("{text}"));
            (own.name.value.clone(), area)
        })
        .collect();
    let ways = water
        .surfaces
        .iter()
        .flat_map(|own| own.ways.iter().flatten());
    let elsewhere = ways
        .filter(|way| way.taker().is_none() && !matches!(way.fate, Fate::Onto(_)))
        .map(|way| way.all.area_m2.unwrap())
        .sum();
    (drains, elsewhere)
}

#[test]
fn what_comes_to_all_drains_and_edges_is_what_falls() {
    let mut random = Random::new("inflows");
    for _ in 0..cases(40) {
        let text = odd_job(&mut random)(0.0, false);
        let (drains, elsewhere) = shared_out(&text);
        let sum: f64 = drains.values().sum::<f64>() + elsewhere;
        assert!((sum - 36.0).abs() < 1e-6, "{sum}\n{text}");
        let analysis = analysed(&text);
        let water = analysis.figures.water.as_ref().unwrap();
        for (own, water) in analysis.job.surfaces.iter().zip(&water.surfaces) {
            let parts = water.ways.iter().flatten().map(|way| way.area_m2);
            let whole = own.outline.as_ref().unwrap().area();
            assert!((parts.sum::<f64>() - whole).abs() < 1e-6, "{text}");
            assert!(own.sides.iter().any(|side| side.contact != Contact::Free));
        }
    }
}

#[test]
fn a_job_turned_or_mirrored_drains_the_same() {
    let mut random = Random::new("turned inflows");
    for _ in 0..cases(30) {
        let job = odd_job(&mut random);
        let angle = random.between(0.0, TAU);
        let (still, elsewhere) = shared_out(&job(0.0, false));
        for other in [job(angle, false), job(angle, true)] {
            let (drains, rest) = shared_out(&other);
            assert!(
                (rest - elsewhere).abs() < 1e-4,
                "{rest} {elsewhere}\n{other}"
            );
            for (name, area) in &still {
                let own = drains[name];
                assert!((own - area).abs() < 1e-4, "{name}: {own} {area}\n{other}");
            }
        }
    }
}

/// What comes to each drain of a chain is what comes to all that lead to it,
/// as NetworkX adds it up.
#[test]
fn sums_of_chains_agree_with_networkx() {
    let mut random = Random::new("sums of chains");
    let mut made = Vec::new();
    for _ in 0..cases(20) {
        let count = 12;
        let mut text = court(SOUTH);
        let mut next = BTreeMap::new();
        let mut own = BTreeMap::new();
        for index in 0..count {
            // Most lead on down the list; some lead back, and may go round.
            let to = random.between(0.0, 1.4 * f64::from(count)) as u32;
            let to = (to < count && to != index).then_some(to);
            let area = random.step(1.0, 9.0, 1.0);
            let leads = to.map_or("\"ditch\"".to_owned(), |to| format!("d{to}"));
            let name = format!("d{index}");
            text += &format!(
                "drain {name}\n  gully clay-gully, at ({index} m, -9 m)\n  to {leads}\n\n"
            );
            // A gully of its own brings what runs off a roof.
            text += &format!(
                "drain r{index}\n  gully clay-gully, at ({index} m, -12 m)\n  takes \"roof\" {area} m2, runoff 100 %\n  to {name}\n\n"
            );
            next.insert(name.clone(), to.map(|to| format!("d{to}")));
            own.insert(name, area);
        }
        let analysis = analysed(&text);
        let found: BTreeMap<String, Option<f64>> = own
            .keys()
            .map(|name| (name.clone(), comes(&analysis, name).all.weighted_m2))
            .collect();
        made.push(json!({"to": next, "own": own, "found": found}));
    }
    checked_by("inflows_check.py", "inflows", &made);
}
