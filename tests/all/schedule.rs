//! Schedules: held to NetworkX and to a reader of calendars, to a patio worked
//! out by hand, and to what must hold of any.

use std::sync::Arc;

use drylay::analysis::{Analyser, Analysis, NoFiles};
use drylay::drawing::{Drawing, Extents, Mark, Size, schedule_chart};
use drylay::quantities::{DAY_MINUTES, Lag, Reason, ScheduleFigures};
use drylay::report::{schedule_ics, schedule_json, schedule_text, takeoff_json};
use drylay::units::Day;
use serde_json::{Value, json};

use crate::folder::Folder;
use crate::outside::checked_by;
use crate::random::{Random, cases};

fn analysed(text: &str) -> Arc<Analysis> {
    Analyser::new().analyse("/court.patio", text.into(), &NoFiles, "2027-04-12")
}

fn schedule(analysis: &Analysis) -> &ScheduleFigures {
    analysis
        .figures
        .schedule
        .as_ref()
        .expect("it has a schedule")
}

/// What a job has of the site and of builds.
const GROUND: &str = "job \"Court\"\n  units metric\n  region general\n  currency GBP\n\n\
    site\n  soil gravel, firm\n  datum \"sill\"\n  ground -200 mm\n\n\
    build sand-set\n  paving concrete-paver, 60 mm\n  bed sharp-sand, 30 mm\n  \
    base crushed-stone, 150 mm compacted, lifts 2\n  fabric geotextile\n\n\
    build mortar-set\n  paving sandstone, 40 mm\n  bed bed-mix, 40 mm\n  \
    base crushed-stone, 100 mm compacted\n\n\
    build slab-set\n  slab slab-mix, 100 mm\n  base crushed-stone, 100 mm compacted\n\n\
    mix bed-mix\n  for bed\n  parts 1 portland-cement : 4 sharp-sand\n\n\
    mix slab-mix\n  for slab\n  parts 1 portland-cement : 2 sharp-sand : 4 gravel\n\n";

/// A surface so many metres long, at a place of its own.
fn surface(number: usize, build: &str, long: f64) -> String {
    let (east, joint) = (
        number as f64 * 40.0,
        match build {
            "sand-set" => "  joint 3 mm, filled with joint-sand\n",
            "mortar-set" => "  joint 10 mm, filled with bed-mix\n",
            _ => "",
        },
    );
    format!(
        "shape outline-{number}\n  rectangle {long} m by 3 m, at ({east} m, 0 m)\n\n\
         surface part-{number}\n  shape outline-{number}\n  meets north\n  \
         level -150 mm at north\n  fall 1:60 away from north\n  build {build}\n{joint}\n"
    )
}

/// A pipe under a surface, with its gully, from so far below the sill.
fn pipe(number: usize) -> String {
    let east = number as f64 * 40.0 + 1.0;
    format!(
        "drain gully-{number}\n  gully clay-gully, at ({east} m, 1 m), 300 mm wide\n  to pipe-{number}\n\n\
         drain pipe-{number}\n  pipe plastic-pipe, 110 mm, from ({east} m, 1 m) to ({east} m, -5 m)\n  \
         fall 1:80\n  invert -950 mm at ({east} m, 1 m)\n  bedded in pea-gravel, 100 mm round\n  \
         to \"the ditch\"\n\n"
    )
}

/// Steps up to a surface, on a core of concrete.
fn steps(number: usize) -> String {
    let east = number as f64 * 40.0 + 1.0;
    format!(
        "steps flight-{number}\n  from -650 mm\n  to part-{number}\n  at ({east} m, 0 m), climbing north\n  \
         width 1 m\n  going 350 mm\n  risers 3\n  tread sandstone, 40 mm\n  bed bed-mix, 20 mm\n  \
         riser sandstone, 30 mm\n  core slab-mix, to foot\n  base crushed-stone, 100 mm compacted, lifts 2\n\n"
    )
}

/// A job of a few surfaces, drains and steps with waits, tasks and rates of
/// its own.
fn trial(random: &mut Random, builds: &[&str], day: &str, crew: usize) -> String {
    let mut text = GROUND.to_owned();
    let count = 1 + random.below(4);
    for number in 0..count {
        let long = random.step(2.0, 9.0, 0.5);
        let build = builds[random.below(builds.len())];
        text += &surface(number, build, long);
        if random.once_in(3) {
            text += &pipe(number);
        }
        if random.once_in(3) {
            text += &steps(number);
        }
    }
    text += &format!("work\n  start 2027-04-12\n  crew {crew}\n  day {day}\n");
    if random.once_in(2) {
        text += &format!(
            "  rate laying {} m2 per h each, crew 2\n",
            1 + random.below(5)
        );
    }
    if random.once_in(2) {
        text += &format!("  wait {} h from compacting to laying\n", random.below(90));
    }
    for number in 0..random.below(3) {
        let after = random.below(count);
        text += &format!(
            "  task \"visit {number}\", {} h, after compacting of part-{after}, crew {}\n",
            1 + random.below(9),
            1 + random.below(2),
        );
    }
    if count > 1 && random.once_in(3) {
        text += "  order part-1 then part-0\n";
    }
    text
}

fn tasks(analysis: &Analysis) -> (Value, Value) {
    let document: Value = serde_json::from_str(&schedule_json(analysis)).expect("it is JSON");
    let own = &document["schedule"];
    (own["tasks"].clone(), own["end"].clone())
}

#[test]
fn the_end_is_the_longest_path() {
    let mut random = Random::new("paths");
    let mut made = Vec::new();
    for _ in 0..cases(60) {
        let text = trial(
            &mut random,
            &["sand-set", "mortar-set"],
            "0:00 to 24:00, monday to sunday",
            80,
        );
        let analysis = analysed(&text);
        let (tasks, end) = tasks(&analysis);
        assert!(end.is_string(), "{text}");
        let ends = tasks.as_array().expect("a list").iter();
        let end_h = ends
            .filter_map(|task| task["end_h"].as_f64())
            .fold(0.0, f64::max);
        made.push(json!({"kind": "path", "tasks": tasks, "end_h": end_h}));
    }
    checked_by("schedule_check.py", "paths", &made);
}

#[test]
fn another_reader_reads_the_calendar() {
    let mut random = Random::new("calendars");
    let mut made = Vec::new();
    let builds = ["sand-set", "mortar-set", "slab-set"];
    for _ in 0..cases(20) {
        let text = trial(&mut random, &builds, "8:00 to 16:30, break 30 min", 2);
        let text = text.replace("job \"Court\"", "job \"Höf; a, b\\\\c\"");
        let rain = random.below(3);
        let text = text.replace(
            "  crew 2\n  day",
            &format!("  crew 2\n  off 2027-04-14 to 2027-04-15\n  rain-days {rain}\n  day"),
        );
        let analysis = analysed(&text);
        let own = schedule(&analysis);
        let events: usize = (0..own.tasks.len())
            .map(|task| own.stretches(task).len())
            .sum();
        let ics = schedule_ics(&analysis).expect("its days have dates");
        let (tasks, end) = tasks(&analysis);
        let document: Value = serde_json::from_str(&schedule_json(&analysis)).expect("it is JSON");
        let day = |moment: &Value| moment.as_str().and_then(|own| Day::read(own.get(..10)?));
        let end = day(&end);
        let with_rain = day(&document["schedule"]["end_with_rain"]);
        assert_eq!(with_rain.is_some(), rain > 0 && end.is_some(), "{text}");
        let off = Day::read("2027-04-14").zip(Day::read("2027-04-16"));
        let off = off.filter(|(from, _)| with_rain.or(end).is_some_and(|last| *from <= last));
        let kept = end
            .zip(with_rain)
            .map(|(end, last)| (end.next(), last.next()));
        let named = [("No work", off), ("Kept in hand for rain", kept)];
        let free: Vec<_> = named
            .into_iter()
            .filter_map(|(name, days)| Some((name, days?)))
            .map(|(name, (from, to))| json!([name, from.to_string(), to.to_string()]))
            .collect();
        made.push(json!({
            "kind": "calendar", "ics": ics, "events": events, "tasks": tasks, "free": free,
        }));
    }
    checked_by("schedule_check.py", "calendars", &made);
}

/// ICPI, *PICP Basic Productivity Estimates* (2011), as read: 1 short ton of
/// base in a person-hour by barrow, 100 sq ft of bedding, 30 ft of edge. A
/// patio of 20 by 15 ft with 4 in of base takes as many hours of compacting as
/// it has short tons of it, and 2.33 h for its 70 ft of edge less the 20 ft
/// that meet the building.
#[test]
fn a_patio_takes_the_hours_of_the_estimates() {
    let text = "job \"Patio\"\n  units imperial\n  region us\n  currency USD\n\n\
        site\n  soil gravel, firm\n  datum \"sill\"\n  ground -8 in\n\n\
        shape patio\n  rectangle 20' by 15'\n\n\
        surface patio\n  shape patio\n  level -6 in at north\n  fall 2 % toward south\n  \
        build strip\n  edging steel-edge, along free\n\n\
        build strip\n  base crushed-stone, 4 in compacted\n\n\
        work\n  crew 1\n";
    let analysis = analysed(text);
    let hours = |task: &str| {
        let own = schedule(&analysis).tasks.iter();
        let own = own.filter(|own| own.task.is_some_and(|own| own.word() == task));
        own.filter_map(|own| own.hours).sum::<f64>()
    };
    let base = analysis.figures.surfaces[0].layers[0]
        .mass_kg
        .expect("its mass is known");
    assert!((hours("compacting") - base / 907.184_74).abs() < 1e-9);
    assert!((hours("edging") - 70.0 / 30.0).abs() < 1e-9);
}

/// What is spiked takes less than what stands in concrete, whether the spec says
/// so or the catalogue.
#[test]
fn a_kerb_in_concrete_takes_the_hours_of_a_kerb() {
    let hours = |edging: &str| {
        let text = format!(
            "{GROUND}{}  edging {edging}\n\nmix haunch-mix\n  for bed\n  \
             parts 1 portland-cement : 2 sharp-sand : 4 gravel\n\nwork\n  crew 2\n",
            surface(0, "sand-set", 4.0).trim_end().to_owned() + "\n"
        );
        let analysis = analysed(&text);
        let mut tasks = schedule(&analysis).tasks.iter();
        let edging = tasks.find(|own| own.task.is_some_and(|own| own.word() == "edging"));
        edging.and_then(|own| own.hours).expect("it has hours")
    };
    let (spiked, kerb) = (3.0 / (30.0 * 0.3048), 3.0 * 0.55);
    for (edging, wanted) in [
        ("steel-edge, along east", spiked),
        ("concrete-kerb, along east", kerb),
        ("brick-edge, along east", kerb),
        ("steel-edge, along east, on haunch-mix 100 mm", kerb),
    ] {
        let found = hours(edging);
        assert!((found - wanted).abs() < 1e-9, "{edging}: {found} h");
    }
}

/// A border is laid too: one of the paving of the field takes its hours, and
/// one in another bond those of its own; the edges are cut once.
#[test]
fn a_border_is_laid_in_hours_of_its_own() {
    let job = |lines: &str, work: &str| {
        let surface = surface(0, "sand-set", 4.0);
        let text = format!(
            "{GROUND}{}{lines}\nwork\n  crew 2\n{work}",
            surface.trim_end()
        );
        analysed(&format!(
            "{text}\nbuild strip\n  paving concrete-paver, 60 mm\n  bed sharp-sand, 30 mm\n  \
             base crushed-stone, 150 mm compacted\n"
        ))
    };
    let hours = |analysis: &Analysis, verb: &str| {
        let tasks = schedule(analysis).tasks.iter();
        let own = tasks.filter(|own| own.name.starts_with(verb));
        own.map(|own| own.hours.expect("its hours are known"))
            .sum::<f64>()
    };
    let units = "units 200 mm by 100 mm";
    let border = format!("\n  border concrete-paver, stretcher, 2 courses, {units}, along free");
    let bond = |bond: &str| format!("\n  laid {bond}, {units}, along west");
    let (running, herringbone) = (bond("running-bond"), bond("herringbone"));
    let bedding = 12.0 / 9.290_304 + 14.0 / 3.048;
    let (field, all) = (3.588 * 2.794, 12.0);
    for (lines, work, wanted) in [
        (running.clone(), "", bedding + all * 0.25),
        (format!("{running}{border}"), "", bedding + all * 0.25),
        (herringbone.clone(), "", bedding + all * 0.3125),
        (
            format!("{herringbone}{border}"),
            "",
            bedding + all * 0.25 + field * 0.0625,
        ),
        (
            format!("{running}{border}"),
            "  rate laying 2 m2 per h each\n",
            all / 2.0,
        ),
    ] {
        let analysis = job(&lines, work);
        let found = hours(&analysis, "laying of");
        assert!(
            (found - wanted).abs() < 1e-6,
            "{lines}{work}: {found}, wanted {wanted}"
        );
        assert!((hours(&analysis, "cleaning of") - all * 0.03).abs() < 1e-9);
    }
    // One on a build of its own is a surface; what is cleaned is so once.
    let analysis = job(&format!("{running}{border}, on strip"), "");
    assert!((hours(&analysis, "cleaning of") - all * 0.03).abs() < 1e-9);
}

/// The longest wait in minutes before the paving is laid.
fn wait_to_lay(text: &str) -> i64 {
    let analysis = analysed(text);
    let mut tasks = schedule(&analysis).tasks.iter();
    let laying = tasks.find(|own| own.task.is_some_and(|own| own.word() == "laying"));
    let waits = laying.expect("paving is laid").links.iter();
    let waits = waits.map(|link| match link.lag {
        Lag::Minutes(minutes) => minutes,
        _ => 0,
    });
    waits.max().unwrap_or_default()
}

#[test]
fn paving_waits_for_the_concrete_that_it_is_laid_against() {
    let haunch = "\n\nmix haunch-mix\n  for bed\n  \
         parts 1 portland-cement : 2 sharp-sand : 4 gravel\n\n";
    let text = |edgings: &str, drains: &str, wait: &str| {
        let court = surface(0, "sand-set", 4.0);
        format!(
            "{GROUND}{}{edgings}{haunch}{drains}work\n  crew 2\n{wait}",
            court.trim_end().to_owned() + "\n"
        )
    };
    let channel = |bed: &str| {
        format!(
            "drain foot\n  channel polymer-channel, 100 mm by 80 mm clear, along part-0.south\n  \
             bedded in {bed}, 100 mm round\n  to \"ditch\"\n\n"
        )
    };
    let kerb = "  edging concrete-kerb, along east";
    let day = 24 * 60;
    for (edgings, drains, wait, wanted) in [
        (
            "  edging steel-edge, along east".to_owned(),
            String::new(),
            "",
            0,
        ),
        (kerb.to_owned(), String::new(), "", day),
        // What is spiked down after the kerbs does not hide them.
        (
            format!("{kerb}\n  edging steel-edge, along west"),
            String::new(),
            "",
            day,
        ),
        (
            "  edging steel-edge, along east".to_owned(),
            channel("haunch-mix"),
            "",
            day,
        ),
        (
            "  edging steel-edge, along east".to_owned(),
            channel("pea-gravel"),
            "",
            0,
        ),
        // What is stated rules.
        (
            kerb.to_owned(),
            String::new(),
            "  wait 2 h from edging to laying\n",
            120,
        ),
        (
            format!("{kerb}\n  edging steel-edge, along west"),
            String::new(),
            "  wait 2 h from edging to laying\n",
            120,
        ),
    ] {
        let text = text(&edgings, &drains, wait);
        assert_eq!(wait_to_lay(&text), wanted, "{text}");
    }
}

#[test]
fn in_america_a_dig_is_given_notice_of() {
    let first_dig = |region: &str, start: &str, located: &str| {
        let ground = GROUND
            .replace("region general", &format!("region {region}"))
            .replace("site\n", &format!("site\n{located}"));
        let court = surface(0, "sand-set", 4.0);
        let analysis = analysed(&format!("{ground}{court}\nwork\n  start {start}\n"));
        let schedule = schedule(&analysis);
        let mut tasks = schedule.tasks.iter();
        let dig = tasks.find(|own| own.task.is_some_and(|own| own.word() == "digging"));
        let day = dig.and_then(|own| schedule.day(own.slot?.start_min));
        day.expect("it has a day").to_string()
    };
    let located = "  services located 2027-04-08\n";
    for (region, start, located, wanted) in [
        // 2027-04-12 is a Monday: Tuesday to Thursday pass.
        ("us", "2027-04-12", "", "2027-04-16"),
        // Over the weekend: Friday, Monday and Tuesday.
        ("us", "2027-04-15", "", "2027-04-21"),
        ("us", "2027-04-12", located, "2027-04-12"),
        ("uk", "2027-04-12", "", "2027-04-12"),
    ] {
        assert_eq!(
            first_dig(region, start, located),
            wanted,
            "{region} {start}"
        );
    }
}

#[test]
fn what_is_assumed_goes_by_what_is_laid_and_hired() {
    let work = "work\n  start 2027-04-12\n  crew 2\n  day 8:00 to 16:00\n\n";
    let gravel = "build gravel-set\n  surfacing pea-gravel, 50 mm\n  \
        base crushed-stone, 150 mm compacted\n\n";
    let digger = "hire digger\n  for digging\n  price £120/day\n\n";
    for (build, hire, assumed, other) in [
        ("sand-set", "", "laying pavers on a bed", "spreading gravel"),
        ("gravel-set", "", "spreading gravel", "laying"),
        (
            "sand-set",
            "",
            "digging medium ground by hand",
            "hired machine",
        ),
        (
            "sand-set",
            digger,
            "digging with a hired machine",
            "ground by hand",
        ),
    ] {
        let text = format!("{GROUND}{gravel}{}{work}{hire}", surface(1, build, 6.0));
        let sheet = schedule_text(&analysed(&text), "", false);
        let (_, reported) = sheet.split_once("ASSUMED").expect("what is assumed");
        assert!(reported.contains(assumed), "{assumed}: {reported}");
        assert!(!reported.contains(other), "{other}: {reported}");
    }
}

#[test]
fn sections_in_another_order_make_the_same_schedule() {
    let text = Folder::of_specs()
        .text("/specs/heron-row.patio")
        .to_string();
    let (head, rest) = text.split_once("\n\n").expect("it has sections");
    let sections: Vec<&str> = rest.split("\n\n").collect();
    let wanted = tasks(&analysed(&text));
    let mut random = Random::new("shuffled");
    for _ in 0..cases(10) {
        let mut shuffled = sections.clone();
        for last in (1..shuffled.len()).rev() {
            shuffled.swap(last, random.below(last + 1));
        }
        let text = format!("{head}\n\n{}\n", shuffled.join("\n\n"));
        assert_eq!(tasks(&analysed(&text)), wanted);
    }
}

#[test]
fn no_schedule_has_more_hands_than_the_crew() {
    let mut random = Random::new("crews");
    let builds = ["sand-set", "mortar-set", "slab-set"];
    for _ in 0..cases(40) {
        let crew = 2 + random.below(3);
        let text = trial(&mut random, &builds, "8:00 to 16:30, break 30 min", crew);
        let analysis = analysed(&text);
        let own = schedule(&analysis);
        let moments = own
            .tasks
            .iter()
            .filter_map(|task| task.slot)
            .map(|slot| slot.start_min);
        for moment in moments {
            let busy = own.tasks.iter().filter(|task| {
                let slot = task
                    .slot
                    .filter(|slot| slot.start_min <= moment && moment < slot.end_min);
                slot.is_some()
            });
            let hands: u32 = busy.filter_map(|task| task.hands).sum();
            assert!(hands <= own.crew, "{text}");
        }
        for (index, task) in own.tasks.iter().enumerate() {
            let Some(slot) = task.slot else { continue };
            assert!(own.why(index).is_some() && slot.float_min >= 0);
            if task.task.is_some_and(|task| task.word() == "pouring") {
                let days = [slot.start_min, slot.end_min - 1].map(|at| at.div_euclid(DAY_MINUTES));
                assert_eq!(days[0], days[1], "a pour is parted: {text}");
            }
            if let Reason::After(from, lag) = slot.reason {
                let before = own.tasks[from].slot.expect("it has a day");
                assert!(
                    lag.after(before.end_min)
                        .is_some_and(|until| until <= slot.start_min)
                );
            }
        }
    }
}

/// Paving beside steps waits till their forms come off, and not till their
/// concrete is cured; what is built on that waits for it.
#[test]
fn paving_beside_steps_waits_for_their_forms_alone() {
    let flight = "steps flight\n  from part-0\n  to 350 mm\n  at (2 m, 2 m), climbing north\n  \
        width 1 m\n  going 300 mm\n  risers 3\n  tread sandstone, 40 mm\n  bed bed-mix, 20 mm\n  \
        core slab-mix, down to base\n  base crushed-stone, 100 mm compacted, top 250 mm below the foot\n\n";
    let text = format!(
        "{GROUND}{}{flight}work\n  crew 2\n",
        surface(0, "sand-set", 4.0)
    );
    let analysis = analysed(&text);
    let own = schedule(&analysis);
    let at = |name: &str| {
        let index = own.tasks.iter().position(|task| task.name == name);
        index.unwrap_or_else(|| panic!("no {name}"))
    };
    let slot = |name: &str| own.tasks[at(name)].slot.expect("it has a day");
    assert_eq!(
        own.why(at("laying of part-0")).as_deref(),
        Some("waits for pouring of flight, 24 h")
    );
    let (poured, laid) = (slot("pouring of flight"), slot("laying of part-0"));
    assert!(laid.start_min >= poured.end_min + DAY_MINUTES);
    assert!(laid.start_min < slot("curing of flight").end_min);
    assert!(slot("building of flight").start_min >= slot("curing of flight").end_min);
    let sheet = schedule_text(&analysis, "/", false);
    assert!(sheet.contains("before their forms come off"), "{sheet}");
}

/// The hours of drains and steps are what there is of them by the rates of the
/// table; a facing of brick takes the 6 h of a mason and 8 h of a labourer for
/// 100 sq ft of *Estimating in Building Construction*, p. 125, as read.
#[test]
fn drains_and_steps_have_their_tasks_and_hours() {
    let job = |lines: &str| {
        let text = format!(
            "{GROUND}{}{}{}work\n  crew 2\n{lines}",
            surface(0, "sand-set", 4.0),
            pipe(0),
            steps(0)
        );
        analysed(&text)
    };
    let analysis = job("");
    let named = |analysis: &Analysis, name: &str| {
        let found = schedule(analysis).tasks.iter().find(|own| own.name == name);
        found.unwrap_or_else(|| panic!("no {name}")).clone()
    };
    let figures = &analysis.figures;
    let (pipe, flight) = (&figures.drains[1], &figures.steps[0]);
    let dig = pipe.dig.expect("it is dug");
    let stone = pipe.bedding.as_ref().and_then(|own| own.volume_m3);
    let stone = stone.expect("it is laid in stone");
    let length = pipe.length_m.expect("it has a length");
    let laid = pipe.bought_m.expect("so much of it is laid");
    let filled = dig.bank_m3 - stone - laid * 0.055 * 0.055 * std::f64::consts::PI;
    let area = |part: &Option<drylay::quantities::StepsPart>| {
        part.as_ref()
            .and_then(|part| part.area_m2)
            .expect("its area is known")
    };
    let core = flight.core.as_ref().expect("it has a core");
    let core_m3 = core.volume_m3.expect("its volume is known");
    let base = flight.base.as_ref().and_then(|own| own.mass_kg);
    let plan = flight.flight.as_ref().expect("it is known").plan_m2;
    for (name, hours) in [
        ("digging of pipe-0", dig.bank_m3 * 2.2),
        ("draining of pipe-0", length * 0.25 + stone),
        ("backfilling of pipe-0", filled),
        ("draining of gully-0", 1.5),
        (
            "compacting of flight-0, base, lift 2 of 2",
            base.expect("it weighs") / 907.184_74 / 2.0,
        ),
        ("forming of flight-0", (3.0 + 2.0 * 0.7) * 0.25),
        ("pouring of flight-0", core_m3 * 6.5 + plan * 0.15),
        (
            "building of flight-0",
            area(&flight.treads) * 1.3 + area(&flight.facing) * 14.0 / 9.290_304,
        ),
    ] {
        let found = named(&analysis, name).hours.expect("its hours are known");
        assert!(
            (found - hours).abs() < 1e-9,
            "{name}: {found}, wanted {hours}"
        );
    }
    // Treads in mortar wait for a slab to be as old as paving that is bonded.
    let curing = named(&analysis, "curing of flight-0")
        .slot
        .expect("it has a day");
    assert_eq!(curing.end_min - curing.start_min, 28 * DAY_MINUTES);
    // The mortar under the treads is mixed with the rest.
    let mortar = figures.mix("bed-mix").and_then(|mix| mix.volume_m3);
    assert!((mortar.expect("it is known") - 2.0 * 0.35 * 0.02).abs() < 1e-9);
    // What lies under a surface is done before it is built up, what is set
    // with its paving before that is laid.
    for (first, then) in [
        ("digging of part-0", "digging of pipe-0"),
        ("backfilling of pipe-0", "lining of part-0, fabric"),
        ("draining of pipe-0", "draining of gully-0"),
        ("draining of gully-0", "laying of part-0"),
    ] {
        let slot = |name| named(&analysis, name).slot.expect("it has a day");
        assert!(
            slot(first).end_min <= slot(then).start_min,
            "{first}, {then}"
        );
    }
    let analysis = job(
        "  rate digging 1 m3 per h\n  rate digging of pipe-0 0.5 m3 per h together, crew 2\n  \
         rate draining 3 m per h\n  rate building 1 m per h\n  wait 3 days from pouring to building of flight-0\n  \
         task \"see the pipe\", 1 h, after draining of pipe-0, before backfilling of pipe-0\n  \
         order flight-0 then part-0 then pipe-0\n",
    );
    let hours = |name| named(&analysis, name).hours.expect("its hours are known");
    assert!((hours("digging of pipe-0") - dig.bank_m3 * 4.0).abs() < 1e-9);
    assert!((hours("draining of pipe-0") - length / 3.0).abs() < 1e-9);
    assert!((hours("draining of gully-0") - 1.5).abs() < 1e-9);
    assert!((hours("building of flight-0") - 3.0).abs() < 1e-9);
    let slot = |name| named(&analysis, name).slot.expect("it has a day");
    assert!(slot("building of flight-0").end_min <= slot("digging of part-0").start_min);
    assert!(slot("jointing of part-0").end_min <= slot("digging of pipe-0").start_min);
    assert!(
        analysis
            .findings
            .iter()
            .all(|found| found.rule != "order-wrong")
    );
    let (tasks, _) = tasks(&analysis);
    let of = |name: &str| {
        let mut all = tasks.as_array().expect("a list").iter();
        let found = all.find(|task| task["name"] == name).expect("it is there");
        json!([found["surface"], found["drain"], found["steps"]])
    };
    assert_eq!(of("laying of part-0"), json!(["part-0", null, null]));
    assert_eq!(of("draining of gully-0"), json!([null, "gully-0", null]));
    assert_eq!(of("curing of flight-0"), json!([null, null, "flight-0"]));
}

/// What is dug beside an edge is filled before the base there is compacted: a
/// trench along it, one by two points, and a pit; what lies far off is not
/// waited for.
#[test]
fn a_dig_beside_an_edge_comes_before_its_base() {
    let trench = "  filled gravel, voids 30 %\n  to \"the ditch\"\n\n";
    for (drain, waits) in [
        (
            "  trench 300 mm wide, 600 mm deep, along part-0.south\n  fall 1:100 toward east\n",
            true,
        ),
        (
            "  trench 300 mm wide, 600 mm deep, from (0 m, -0.15 m) to (4 m, -0.15 m)\n  fall 1:100\n  invert -900 mm\n",
            true,
        ),
        (
            "  trench 300 mm wide, 600 mm deep, from (0 m, -4 m) to (4 m, -4 m)\n  fall 1:100\n  invert -900 mm\n",
            false,
        ),
    ] {
        let text = format!(
            "{GROUND}{}drain foot\n{drain}{trench}work\n  crew 1\n",
            surface(0, "sand-set", 4.0)
        );
        let analysis = analysed(&text);
        let slot = |name: &str| {
            let mut tasks = schedule(&analysis).tasks.iter();
            let found = tasks.find(|own| own.name.starts_with(name));
            let found = found.unwrap_or_else(|| panic!("no {name}"));
            found.slot.expect("it has a day")
        };
        let is_before = slot("draining of foot").end_min <= slot("compacting of part-0").start_min;
        assert_eq!(is_before, waits, "{drain}");
        if waits {
            assert!(slot("digging of part-0").end_min <= slot("digging of foot").start_min);
        }
    }
}

/// Labour without stated hours is paid for those of the schedule, and hire
/// without stated days is kept on those of its work.
#[test]
fn money_comes_from_the_schedule_unless_it_is_stated() {
    let job = |hire: &str, labour: &str| {
        let text = format!(
            "{GROUND}{}work\n  start 2027-04-12\n  crew 2\n\n\
             hire plate\n  for compacting\n{hire}  price £40/day\n\n\
             budget\n  labour £30/h{labour}\n",
            surface(0, "sand-set", 6.0)
        );
        let analysis = analysed(&text);
        let document: Value = serde_json::from_str(&takeoff_json(&analysis)).expect("it is JSON");
        let costs = document["costs"].as_array().expect("a list").clone();
        let labour = costs.into_iter().find(|line| line["heading"] == "labour");
        (
            document["hires"][0]["days"].as_u64(),
            labour.expect("it is paid")["amount"]
                .as_str()
                .map(str::to_owned),
            document["work"]["hours"]
                .as_f64()
                .expect("its hours are known"),
        )
    };
    let (days, labour, hours) = job("", "");
    assert!(days.is_some_and(|days| days <= 2), "{days:?}");
    assert_eq!(labour, Some(format!("{:.2}", hours * 30.0)));
    let (days, labour, _) = job("  kept 5 days\n", ", 10 h");
    assert_eq!((days, labour.as_deref()), (Some(5), Some("300.00")));
}

/// What is hired goes back where other work comes between.
#[test]
fn hire_is_told_for_the_days_that_are_paid_for() {
    let text = format!(
        "{GROUND}{}work\n  start 2027-04-12\n  crew 2\n\n\
         hire skip\n  for digging and jointing\n  price £40/day\n",
        surface(0, "sand-set", 20.0)
    );
    let text = schedule_text(&analysed(&text), "/", false);
    let hire = text
        .lines()
        .find(|line| line.trim_start().starts_with("skip "));
    let hire = hire.unwrap_or_else(|| panic!("{text}"));
    assert!(hire.contains(';'), "{text}");
}

/// Colder air makes mortar wait longer, and frost for ever.
#[test]
fn cold_makes_waits_longer() {
    let end = |air: &str| {
        let text = format!(
            "{GROUND}{}work\n  day 0:00 to 24:00, monday to sunday\n  temperature {air}\n",
            surface(0, "mortar-set", 4.0)
        );
        schedule(&analysed(&text)).end_min
    };
    let (warm, mild, cold) = (end("25 °C"), end("20 °C"), end("5 °C"));
    assert!(warm < mild && mild < cold, "{warm:?} {mild:?} {cold:?}");
    assert_eq!(end("-2 °C"), None);
}

#[test]
fn what_is_wrong_with_the_order_is_told_and_has_no_day() {
    for (lines, rule, says, is_whole) in [
        (
            "  rate laying 2 m2 per h each, crew 3\n",
            "crew-short",
            "laying of part-0 takes 3 hands",
            false,
        ),
        (
            "  wait 24 h from jointing to laying\n",
            "order-wrong",
            "laying comes before jointing",
            true,
        ),
        (
            "  wait 3 days from pouring to laying\n",
            "order-wrong",
            "no pouring in this job",
            true,
        ),
        (
            "  task \"set the bench\", 4 h, after sealing of part-0\n",
            "order-wrong",
            "no sealing in `part-0`",
            true,
        ),
        (
            "  task \"one\", 1 day, after \"two\"\n  task \"two\", 2 h, after \"one\"\n",
            "order-wrong",
            "wait for one another: one, two",
            false,
        ),
        (
            "  order part-0 then part-1\n  order part-1 then part-0\n",
            "order-wrong",
            "wait for one another",
            false,
        ),
        ("  order part-1 then part-0\n", "", "", true),
        (
            "  wait overnight from compacting to laying of part-1\n",
            "",
            "",
            true,
        ),
        ("  order part-1 then part-0\n", "", "", true),
        (
            "  task \"one\", 1 day, after \"two\"\n  task \"two\", 2 h\n",
            "",
            "",
            true,
        ),
    ] {
        let text = format!(
            "{GROUND}{}{}work\n  start 2027-04-12\n  crew 2\n{lines}",
            surface(0, "sand-set", 4.0),
            surface(1, "sand-set", 3.0)
        );
        let analysis = analysed(&text);
        let of_the_order = ["order-wrong", "crew-short"];
        let mut found = analysis.findings.iter();
        let found = found.find(|found| of_the_order.contains(&found.rule));
        assert_eq!(found.map_or("", |found| found.rule), rule, "{lines}");
        assert!(
            found.is_none_or(|found| found.message.contains(says)),
            "{found:?}"
        );
        let own = schedule(&analysis);
        assert_eq!(own.end_min.is_some(), is_whole, "{lines}");
        let mut lacking = own.tasks.iter().filter(|task| task.slot.is_none());
        assert!(lacking.all(|task| task.unknown.is_some()));
        assert!(schedule_text(&analysis, "/", true).contains("WHY NOT EARLIER"));
    }
}

/// Whatever the schedule, no text of its chart lies on another or leaves the
/// sheet, all of it can be read, and each row is there or counted as left out.
#[test]
fn no_text_of_a_chart_lies_on_another() {
    let mut random = Random::new("charts");
    let builds = ["sand-set", "mortar-set", "slab-set"];
    let heron_row = Folder::of_specs()
        .text("/specs/heron-row.patio")
        .to_string();
    let trials = (0..cases(25)).map(|_| {
        let day = *random.pick(&["8:00 to 16:30", "8:00 to 17:00, saturday and sunday"]);
        trial(&mut random, &builds, day, 3)
    });
    let all: Vec<String> = std::iter::once(heron_row).chain(trials).collect();
    for text in all {
        let analysis = analysed(&text);
        let charts = schedule_chart(&analysis, "court.patio", None);
        assert!(!charts.is_empty(), "it has a schedule");
        let mut all: Vec<String> = Vec::new();
        for chart in charts {
            all.extend(words_apart(&chart, &text));
        }
        let mut dated = schedule(&analysis).tasks.iter();
        assert!(dated.all(|task| task.slot.is_none() || is_told(&all, &task.name)));
    }
}

/// Whether a task stands on a chart, its name cut or whole.
fn is_told(words: &[String], task: &str) -> bool {
    let start: String = task.chars().take(12).collect();
    words.iter().any(|words| words.starts_with(&start))
}

/// The words of a chart, none of which lies on another or leaves the sheet.
fn words_apart(chart: &Drawing, text: &str) -> Vec<String> {
    let (width, height) = chart.size;
    let mut boxes: Vec<Extents> = Vec::new();
    let mut words: Vec<String> = Vec::new();
    for item in &chart.items {
        let Mark::Text(line) = &item.mark else {
            continue;
        };
        let own = line.extents();
        let (centre, (along, up)) = (own.centre, own.half);
        assert!(
            centre.x - along >= 0.0 && centre.x + along <= width,
            "{text}"
        );
        assert!(centre.y - up >= 0.0 && centre.y + up <= height, "{text}");
        let mut runs = line.setting.runs.iter();
        assert!(runs.all(|run| run.capital >= 1.8), "{text}");
        let said = line.setting.words();
        let under = boxes
            .iter()
            .zip(&words)
            .find(|(other, _)| other.overlaps(&own));
        assert!(
            under.is_none(),
            "{said} lies on {:?}\n{text}",
            under.map(|(_, words)| words)
        );
        boxes.push(own);
        words.push(said);
    }
    words
}

/// A chart of more rows than a sheet holds goes over several, each with its
/// days and its number, and every task stands on one of them.
#[test]
fn a_long_chart_goes_over_several_sheets() {
    let tasks: Vec<String> = (1..=120)
        .map(|number| format!("  task \"job {number:03} of all\", 1 h, crew 2\n"))
        .collect();
    let text = format!(
        "job \"Long\"\n  units metric\nwork\n  start 2027-04-12\n  crew 3\n{}",
        tasks.concat()
    );
    let analysis = analysed(&text);
    for (size, least, most) in [(None, 2, 4), (Some(Size::A3), 1, 3)] {
        let charts = schedule_chart(&analysis, "long.patio", size);
        assert!(
            (least..=most).contains(&charts.len()),
            "{} sheets",
            charts.len()
        );
        let mut told = 0;
        for (index, chart) in charts.iter().enumerate() {
            let words = words_apart(chart, &text);
            let number = format!("{} of {}", index + 1, charts.len());
            assert!(words.contains(&number), "{words:?}");
            assert!(
                words.iter().any(|own| own.starts_with("Mon 12 Apr")),
                "{words:?}"
            );
            let rows = words.iter().filter(|own| own.starts_with("job "));
            let rows = rows.count();
            // How many do it stands beside each row.
            assert_eq!(words.iter().filter(|own| *own == "2").count(), rows);
            told += rows;
        }
        assert_eq!(told, 120);
    }
}

/// Gillette and Hill, *Concrete Construction: Methods and Costs* (1908), p. 116,
/// as read: a gang of sixteen men places 45 cu yd in a day of ten hours, which
/// is 3.56 man-hours a cubic yard.
#[test]
fn a_gang_takes_the_hours_of_the_book() {
    let day =
        "work\n  crew 16\n  day 7:00 to 17:00\n  rate pouring 45 cu yd per day together, crew 16\n";
    let analysis = analysed(&format!("{GROUND}{}{day}", surface(0, "slab-set", 4.0)));
    let mut tasks = schedule(&analysis).tasks.iter();
    let pouring = tasks.find(|own| own.task.is_some_and(|own| own.word() == "pouring"));
    let hours = pouring.and_then(|own| own.hours).expect("it has hours");
    // 4 by 3 m, 100 mm thick.
    let cubic_yards = 1.2 / 0.764_554_857_984;
    let found = hours / cubic_yards;
    assert!((found - 3.56).abs() < 0.005, "{found}");
}

#[test]
fn a_day_of_a_rate_is_a_working_day() {
    let long = "  day 7:00 to 17:30, break 30 min, monday to saturday\n";
    for (rate, day, hours_a_metre) in [
        ("8 m2 per day", "", 1.0),
        ("1 day per m2", "", 8.0),
        ("1.5 days/m2", "", 12.0),
        ("1 day per 8 m2", "", 1.0),
        ("40 m2 per week", "", 1.0),
        ("1 week per 10 m2", "", 4.0),
        ("24 h per m2", "", 24.0),
        ("1 day per m2", long, 10.0),
        ("60 m2 per week", long, 1.0),
    ] {
        let analysis = analysed(&format!("work\n{day}  rate laying {rate}\n"));
        let work = analysis.job.work.as_ref().expect("it has its work");
        let found = 1.0 / (work.rates[0].done * 3_600.0);
        assert!((found - hours_a_metre).abs() < 1e-9, "{rate}: {found}");
    }
}

/// Work within one year and over the turn of one: the year is told where days
/// could be taken for those of another.
#[test]
fn days_have_their_year_where_the_work_goes_over_the_turn_of_one() {
    for (start, has_years) in [("2027-04-12", false), ("2027-12-27", true)] {
        let text = GROUND.to_owned()
            + &surface(1, "mortar-set", 30.0)
            + &format!("work\n  start {start}\n  crew 1\n  day 8:00 to 16:30\n");
        let analysis = analysed(&text);
        let schedule = schedule(&analysis);
        let last = schedule.end_min.expect("an end") / DAY_MINUTES;
        for (day, year) in [
            (0, &start[..4]),
            (last, if has_years { "2028" } else { "2027" }),
        ] {
            let name = schedule.day_name(day);
            assert_eq!(name.ends_with(year), has_years, "{name}");
        }
        let sheets = schedule_chart(&analysis, "court.patio", Some(Size::A4));
        let chart = words_apart(&sheets[0], "chart").join(" ");
        assert_eq!(
            chart.contains(&format!(" Dec {}", &start[..4])),
            has_years,
            "{chart}"
        );
    }
}
