//! Flights by hand: what published ones come to, and what must hold of any.

use std::sync::Arc;

use proptest::prelude::*;

use super::super::figures;
use super::super::fixture::{
    area_of, catalogued, close, job, layer, line, material, mix, si, sourced, stated, surface,
};
use super::{StepsFigures, StepsPart, steps};
use crate::geometry::{Point, Vector};
use crate::model::{
    Core, CoreFoot, Ending, Facing, Job, Material, Stated, Steps, StepsBase, Substance, Tread,
    TreadBed,
};
use crate::units::System;
use crate::vocabulary::Role;

const NORTH: Vector = Vector { x: 0.0, y: 1.0 };

/// A flight between two levels, climbing north to the origin.
fn climbing(from: &str, to: &str, width: &str, going: &str) -> Steps {
    let level = |text| Some(Stated::new(Ending::Level(stated(text).value), line(20)));
    Steps {
        name: Stated::new("flight".to_owned(), line(20)),
        section: line(20).section,
        has_lost_line: false,
        place: line(20),
        from: level(from),
        to: level(to),
        at: Some(Stated::new(Point::ORIGIN, line(21))),
        climbing: Some(Stated::new(NORTH, line(21))),
        width: Some(stated(width)),
        going: Some(stated(going)),
        risers: None,
        is_count_unread: false,
        tread: None,
        bed: None,
        riser: None,
        core: None,
        base: None,
        fall: None,
        handrail: None,
        notes: Vec::new(),
    }
}

fn tread(of: impl Into<Substance>, thickness: &str, nosing: &str, pieces: &str) -> Tread {
    Tread {
        of: Stated::new(of.into(), line(22)),
        thickness: Some(stated(thickness)),
        nosing: Some(stated(nosing)),
        is_nosing_unread: false,
        pieces: Some(stated(pieces)),
        is_count_unread: false,
        waste: None,
        is_waste_unread: false,
        place: line(22),
    }
}

fn facing(of: impl Into<Substance>) -> Facing {
    Facing {
        of: Stated::new(of.into(), line(23)),
        thickness: None,
        flat: None,
        courses: None,
        waste: None,
        is_waste_unread: false,
        place: line(23),
    }
}

fn core(of: impl Into<Substance>, down_to: CoreFoot) -> Core {
    Core {
        of: Stated::new(of.into(), line(24)),
        down_to: Some(down_to),
        waste: None,
        is_waste_unread: false,
        place: line(24),
    }
}

fn base(thickness: &str, beyond: &str, top: &str) -> StepsBase {
    let mut layer = layer(Role::Base, catalogued("crushed-stone"), thickness);
    layer.beyond = Some(stated(beyond));
    StepsBase {
        layer,
        top: Some(stated(top)),
    }
}

fn found(own: &Steps) -> StepsFigures {
    steps(&job(Vec::new()), own)
}

/// A bed of 20 mm under treads of 50 mm takes as much from the riser that shows
/// and from the core, and lies under all of each tread but its nosing.
#[test]
fn a_bed_of_the_treads_takes_from_the_risers_and_the_core() {
    let mut own = climbing("0 mm", "450 mm", "1.2 m", "350 mm");
    own.risers = Some(stated("3"));
    own.tread = Some(tread(catalogued("sandstone"), "50 mm", "25 mm", "1"));
    own.riser = Some(facing(catalogued("sandstone")));
    own.core = Some(core(mortar(), CoreFoot::Foot));
    let without = found(&own);
    own.bed = Some(TreadBed {
        of: Stated::new(mortar().into(), line(25)),
        thickness: Some(stated("20 mm")),
        waste: None,
        is_waste_unread: false,
        place: line(25),
    });
    let with = found(&own);
    let shown = |of: &StepsFigures| of.facing.as_ref().unwrap().shown_m.unwrap();
    assert!(close(shown(&without) - shown(&with), 0.020, 1e-12));
    let volume = |part: &Option<StepsPart>| part.as_ref().unwrap().volume_m3.unwrap();
    let bed = 2.0 * 1.2 * 0.35 * 0.02;
    assert!(close(volume(&with.bed), bed, 1e-12));
    assert!(close(
        volume(&without.core) - volume(&with.core),
        bed,
        1e-12
    ));
    assert!(own.made_of().count() == with.parts().count());
    own.bed.as_mut().unwrap().thickness = None;
    let unknown = found(&own);
    assert_eq!(unknown.facing.unwrap().shown_m, None);
    assert_eq!(unknown.core.unwrap().volume_m3, None);
}

fn mortar() -> crate::model::Mix {
    let parts = [
        ("1", catalogued("portland-cement")),
        ("4", catalogued("sharp-sand")),
    ];
    mix("bed-mix", &parts)
}

/// US Army correspondence course EN5156, fig. 2-38 (read): 13 risers of
/// 7-1/4 in and treads of 10-1/2 in make 12 treads and a run of 10 ft 6 in.
#[test]
fn thirteen_risers_make_twelve_treads() {
    let mut own = climbing("0 in", "94.25 in", "36 in", "10.5 in");
    own.risers = Some(stated("13"));
    let flight = found(&own).flight.unwrap();
    assert_eq!((flight.risers, flight.treads()), (13, 12));
    assert!(close(flight.riser_m, si("7.25 in"), 1e-12));
    assert!(close(flight.run_m, si("126 in"), 1e-12));
    assert!(flight.odd_m.abs() < 1e-12);
}

/// A how-to on stairs (second hand): 8 ft 10-3/4 in are 14 risers of 7-5/8 in.
#[test]
fn a_rise_is_parted_into_the_fewest_risers() {
    let own = climbing("0 in", "106.75 in", "36 in", "11 in");
    let flight = found(&own).flight.unwrap();
    assert_eq!((flight.risers, flight.is_count_assumed), (14, true));
    assert!(close(flight.riser_m, si("7.625 in"), 1e-12));
}

/// Approved Document K (2013), table 1.1, and NCC 2022, table D3D14: the
/// arithmetic of both limits, not of a published flight.
#[test]
fn two_risers_and_a_going_and_the_pitch() {
    for (riser, going, stride, degrees) in [
        ("220 mm", "220 mm", "660 mm", 45.0),
        ("170 mm", "250 mm", "590 mm", 34.2),
        ("150 mm", "300 mm", "600 mm", 26.6),
        ("190 mm", "240 mm", "620 mm", 38.4),
        ("165 mm", "300 mm", "630 mm", 28.8),
    ] {
        let mut own = climbing("0 mm", riser, "1 m", going);
        own.risers = Some(stated("1"));
        let mut job = job(Vec::new());
        job.heading.written_imperial = false;
        let flight = steps(&job, &own).flight.unwrap();
        assert!(close(flight.stride_m, si(stride), 1e-9), "{riser} {going}");
        let off = (flight.pitch_degrees - degrees).abs();
        assert!(off <= 0.05, "{riser} {going}: {}", flight.pitch_degrees);
    }
}

/// Arithmetic: a flag of 900 by 600 by 38 mm at 2,500 kg/m3 weighs 51.3 kg,
/// one of 600 by 600 by 50 mm at 2,300 kg/m3 41.4 kg.
#[test]
fn a_piece_of_a_tread_is_weighed() {
    for (width, going, thick, density, mass) in [
        ("900 mm", "600 mm", "38 mm", "2500 kg/m3", 51.3),
        ("600 mm", "600 mm", "50 mm", "2300 kg/m3", 41.4),
    ] {
        let stone = Material {
            density: sourced(density),
            ..material("stone")
        };
        let mut own = climbing("0 mm", "300 mm", width, going);
        own.risers = Some(stated("2"));
        own.tread = Some(tread(stone, thick, "0 mm", "1"));
        let treads = found(&own).treads.unwrap();
        assert!(close(treads.piece_kg.unwrap(), mass, 1e-9));
    }
}

#[test]
fn what_is_left_over_goes_into_the_lowest_bed() {
    let flight = found(&climbing("0 in", "19.2 in", "5 ft", "14 in"));
    let flight = flight.flight.unwrap();
    assert_eq!(flight.risers, 3);
    assert!(close(flight.riser_m, si("6.375 in"), 1e-9));
    assert!(close(flight.odd_m, si("0.075 in"), 1e-6));
    assert!(close(flight.lowest_m(), si("6.45 in"), 1e-6));
}

/// A flight of three risers of 6 in, all of it known.
fn built() -> Steps {
    let stone = Material {
        density: sourced("160 lb/cu ft"),
        ..material("stone")
    };
    let brick = Material {
        unit: sourced("8 in").zip(sourced("4 in")),
        density: sourced("130 lb/cu ft"),
        ..material("brick")
    };
    let concrete = mix(
        "concrete",
        &[
            ("1", catalogued("portland-cement")),
            ("2", catalogued("sharp-sand")),
        ],
    );
    let mut own = climbing("0 in", "18 in", "5 ft", "12 in");
    own.risers = Some(stated("3"));
    own.tread = Some(tread(stone, "2 in", "1 in", "2"));
    own.riser = Some(Facing {
        flat: Some(line(23)),
        courses: Some(stated("2 in")),
        ..facing(brick)
    });
    own.core = Some(core(concrete, CoreFoot::Base));
    own.base = Some(base("4 in", "6 in", "8 in"));
    own
}

#[test]
fn every_part_is_measured() {
    let own = built();
    let found = found(&own);
    let treads = found.treads.unwrap();
    assert_eq!(treads.pieces, Some(4.0));
    // Two treads of 5 ft by 13 in.
    assert!(close(
        treads.area_m2.unwrap(),
        10.0 * si("1 ft") * si("13 in"),
        1e-12
    ));
    assert!(close(
        treads.volume_m3.unwrap(),
        treads.area_m2.unwrap() * si("2 in"),
        1e-12
    ));
    let (long, deep) = treads.piece_m.unwrap();
    assert!(close(long, si("30 in"), 1e-12) && close(deep, si("13 in"), 1e-12));
    // 4 in of each riser show, in two courses of seven bricks and joints.
    let facing = found.facing.unwrap();
    assert!(close(facing.shown_m.unwrap(), si("4 in"), 1e-12));
    assert!(close(
        facing.area_m2.unwrap(),
        si("5 ft") * si("12 in"),
        1e-12
    ));
    assert!(close(facing.thickness_m.unwrap(), si("4 in"), 1e-12));
    assert_eq!(facing.pieces, Some(3.0 * 2.0 * 8.0));
    let (under, over) = facing.fitting_m.unwrap();
    assert!(close(under, si("6 in"), 1e-9) && close(over, si("8 in"), 1e-9));
    // Columns of 12 in and 18 in from the base to the treads' undersides: 8 in
    // down to the base, a riser or two up, 2 in of tread off.
    let core = found.core.unwrap();
    let whole = si("5 ft") * si("12 in") * (si("12 in") + si("18 in"));
    let taken = si("5 ft") * si("8 in") * si("4 in");
    assert!(close(core.volume_m3.unwrap(), whole - taken, 1e-9));
    assert!(core.mass_kg.unwrap() > 0.0);
    let base = found.base.unwrap();
    assert!(close(base.area_m2.unwrap(), si("3 ft") * si("6 ft"), 1e-12));
    assert!(close(
        base.volume_m3.unwrap(),
        si("3 ft") * si("6 ft") * si("4 in"),
        1e-12
    ));
    assert!(base.mass_kg.unwrap() > 0.0 && base.loose_volume_m3.unwrap() > 0.0);
}

#[test]
fn how_many_bricks_there_are_does_not_hang_on_the_units_of_the_sheet() {
    for height in 440..480 {
        let own = Steps {
            to: climbing("0 mm", &format!("{height} mm"), "1 m", "1 m").to,
            ..built()
        };
        let bricks = |system| {
            let mut job = job(Vec::new());
            job.heading.units = Some(Stated::new(system, line(1)));
            steps(&job, &own).facing.and_then(|facing| facing.pieces)
        };
        let metric = bricks(System::Metric);
        assert!(metric.is_some());
        assert_eq!(metric, bricks(System::Imperial), "{height} mm");
    }
}

#[test]
fn a_fall_of_the_treads_takes_from_what_shows_and_adds_to_the_core() {
    let (level, mut falling) = (built(), built());
    falling.fall = Some(stated("1:48"));
    let (level, falling) = (found(&level), found(&falling));
    let shown = |found: &StepsFigures| found.facing.as_ref().unwrap().shown_m.unwrap();
    assert!(close(shown(&level) - shown(&falling), si("0.25 in"), 1e-9));
    let core = |found: &StepsFigures| {
        // With the facing, which is lower, put back.
        let facing = found.facing.as_ref().unwrap().volume_m3.unwrap();
        found.core.as_ref().unwrap().volume_m3.unwrap() + facing * 2.0 / 3.0
    };
    let more = si("10 ft") * si("1 ft") * si("0.125 in");
    assert!(close(core(&falling) - core(&level), more, 1e-9));
}

#[test]
fn a_core_to_the_foot_ends_there() {
    let mut own = built();
    own.core.as_mut().unwrap().down_to = Some(CoreFoot::Foot);
    let (to_base, to_foot) = (found(&built()).core.unwrap(), found(&own).core.unwrap());
    let between = si("5 ft") * si("2 ft") * si("8 in");
    let less = to_base.volume_m3.unwrap() - to_foot.volume_m3.unwrap();
    assert!(close(less, between, 1e-9));
}

/// The steps of `built` on a court that is level at their foot.
fn on_a_court(with_base: bool) -> Job {
    let layers = || {
        let mut base = layer(Role::Base, catalogued("crushed-stone"), "4 in");
        base.beyond = Some(stated("0 in"));
        vec![layer(Role::Paving, material("flag"), "2 in"), base]
    };
    let court = surface("court", area_of("20 ft", "20 ft"), layers()).falling("0 ft", "0 %");
    let mut own = built();
    own.from = Some(Stated::new(Ending::Surface("court".to_owned()), line(20)));
    own.at = Some(Stated::new(Point::new(si("10 ft"), si("10 ft")), line(21)));
    if !with_base {
        own.base = None;
    }
    let mut job = job(vec![court]).on_ground("0 ft");
    job.steps = Arc::new(vec![Arc::new(own)]);
    job
}

#[test]
fn paving_gives_way_to_steps_and_nothing_is_counted_twice() {
    for (with_base, base_gone) in [(true, true), (false, false)] {
        let job = on_a_court(with_base);
        let found = figures(&job);
        let court = &found.surfaces[0];
        let plan = si("5 ft") * si("2 ft");
        let whole = court.area_m2.unwrap();
        let area = |layer: usize| court.layers[layer].area_m2.unwrap();
        assert!(close(area(0), whole - plan, 1e-9));
        let base = if base_gone { whole - plan } else { whole };
        assert!(close(area(1), base, 1e-9));
        assert!(close(court.under_steps_m2(), plan, 1e-9));
        let on = &found.steps[0].stands_on;
        assert!(on.len() == 1 && on[0].0 == 0 && close(on[0].1, plan, 1e-9));
    }
    // The court is dug to 6 in everywhere, the steps from there to 12 in.
    let dig = figures(&on_a_court(true)).steps[0].dig.unwrap();
    let base = si("3 ft") * si("6 ft");
    assert!(close(dig.bank_m3, base * si("6 in"), 1e-9));
    assert!(close(dig.depth_m, si("12 in"), 1e-12));
    assert_eq!(figures(&on_a_court(false)).steps[0].dig, None);
}

#[test]
fn without_a_level_nothing_is_known_and_the_needs_say_so() {
    let mut own = built();
    own.from = None;
    let found = found(&own);
    assert_eq!(found.flight, None);
    assert!(found.unknown.is_some());
    let parts: Vec<&str> = found.parts().map(|(word, _)| word).collect();
    assert_eq!(parts, ["treads", "risers", "core", "base"]);
    assert!(found.parts().all(|(_, part)| part.volume_m3.is_none()));
}

#[test]
fn steps_that_lead_down_are_no_steps() {
    let found = found(&climbing("1 ft", "0 ft", "5 ft", "12 in"));
    assert_eq!(found.unknown, Some("its foot does not lie below its top"));
}

proptest! {
    /// Risers add up to the rise, treads are one fewer, and a flight that is
    /// turned is the same.
    #[test]
    fn a_flight_adds_up(
        rise in 0.05..6.0f64,
        going in 0.2..0.6f64,
        width in 0.5..3.0f64,
        turn in 0.0..360.0f64,
    ) {
        let metres = |value: f64| format!("{value:.4} m");
        let own = climbing("0 m", &metres(rise), &metres(width), &metres(going));
        let flight = found(&own).flight.unwrap();
        let sum = flight.riser_m * f64::from(flight.risers) + flight.odd_m;
        prop_assert!((sum - flight.rise_m).abs() < 1e-9);
        prop_assert!(flight.odd_m >= 0.0);
        prop_assert!(flight.odd_m <= f64::from(flight.risers) * 0.0254 / 16.0 + 1e-9);
        prop_assert_eq!(flight.treads() + 1, flight.risers);
        let run = f64::from(flight.treads()) * flight.going_m;
        prop_assert!((flight.run_m - run).abs() < 1e-9);
        if let Some(plan) = &flight.plan {
            prop_assert!((plan.area() - flight.plan_m2).abs() < 1e-9);
        }
        let mut turned = own.clone();
        turned.climbing = Some(Stated::new(Vector::from_bearing(turn), line(21)));
        let turned = found(&turned).flight.unwrap();
        prop_assert_eq!(turned.risers, flight.risers);
        prop_assert!((turned.riser_m - flight.riser_m).abs() < 1e-12);
        prop_assert!((turned.plan_m2 - flight.plan_m2).abs() < 1e-12);
    }
}
