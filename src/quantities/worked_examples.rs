//! Worked examples from books and tables, each named with its source, worked
//! by the functions that work out a job.
//!
//! "Printed" examples give the answer that the document prints, within its
//! rounding; the others are arithmetic on figures that the document prints.
//! Mixes are by absolute volume here and by a rule of thumb there, so they
//! agree only so far; the tolerance says how far.

use super::fixture::{
    area_of, catalogued, close, in_unit, job, job_of, layer, material, mix, si, sold, sourced,
    stated, surface,
};
use super::{Figures, LayerFigures, MixFigures, Order, figures, panels};
use crate::geometry::{Edge, Outline, Plane, Point, Vector, bulge_of_sweep};
use crate::model::{Fall, Job, Material, Measure, Mix, MixUse, Stated};
use crate::vocabulary::Role;

struct Example {
    source: &'static str,
    says: &'static str,
    expected: f64,
    /// How far off the figure may be, as a share of what is expected.
    within: f64,
    found: fn() -> f64,
}

const EXACT: f64 = 1e-9;

const NAVY_BUILDER: &str = "NAVEDTRA 14043, ch. 8, \"Estimating Mortar\" (read)";
const NAVY_14045: &str = "NAVEDTRA 14045 (read)";
const NAVY_14070: &str = "NAVEDTRA 14070, p. 103 (read)";
const GRIFFITH: &str = "I. P. Griffith, Carpentry, 1916 (read)";
const ATLAS: &str = "Atlas Portland Cement, Concrete Construction for the Home and the Farm (read)";
const GILLETTE: &str = "Gillette & Hill, 1908 (read)";
const SABIN: &str = "L. C. Sabin, Cement and Concrete, 1905 (read)";
const BEALL: &str = "Beall, Masonry and Concrete, p. 141 (read)";
const ESTIMATING: &str = "Construction estimating textbook, ch. 9 (read)";
const WSDOT: &str = "WSDOT Design Manual M 22-01, Exhibit 620-1 (densities read; arithmetic ours)";
const STONE_YARD: &str = "A US stone yard's estimating sheet (read)";
const BAGS: &str = "Makers' yield tables for bagged concrete (second hand)";
const GEOMETRY: &str = "Exact geometry (computed)";
const TILE_COUNCIL: &str =
    "TCNA Handbook, EJ171, spacing of movement joints (second hand; arithmetic ours)";
const BRICK_14C: &str =
    "BIA Technical Note 14C, spacing of expansion joints (read; arithmetic ours)";
const ADA: &str = "2010 ADA Standards, 405.3, 1:48 (read; arithmetic ours)";
const PAVING_FORUM: &str = "UK paving forum on BS 7533 (read; it prints 0.04 %, a slip for 0.43 %)";

fn worked(job: &Job) -> Figures {
    figures(job)
}

fn only_layer(job: &Job) -> LayerFigures {
    worked(job).surfaces[0].layers[0].clone()
}

fn only_order(job: &Job) -> Order {
    Order::clone(&worked(job).orders[0])
}

/// Crushed stone at WSDOT's densities in lb per cubic yard.
fn wsdot(loose: &str, compacted: &str) -> Material {
    Material {
        density: sourced(&format!("{loose} lb/cu yd")),
        compacted: sourced(&format!("{compacted} lb/cu yd")),
        sold: sold("by cu yd"),
        ..material("stone")
    }
}

/// The base of a patio of 20 by 15 feet, 6 in, over-dug so far.
fn patio(loose: &str, over_dug: &str) -> LayerFigures {
    let mut base = layer(Role::Base, wsdot(loose, "3,700"), "6 in");
    base.beyond = Some(stated(over_dug));
    only_layer(&job(vec![surface(
        "patio",
        area_of("20 ft", "15 ft"),
        vec![base],
    )]))
}

/// A dig of 10 in under 21 by 16 feet in ground that swells so much.
fn dug(swell: &str) -> super::DigFigures {
    let base = layer(Role::Base, wsdot("2,950", "3,700"), "10 in");
    let court = surface("court", area_of("21 ft", "16 ft"), vec![base]).falling("0 in", "0 %");
    let mut job = job(vec![court]).on_ground("0 in");
    job.site.swell = Some(stated(swell));
    worked(&job).surfaces[0].dig.unwrap()
}

/// So many bank cubic yards dug, loose.
fn loose_yards(bank: f64, swell: &str) -> f64 {
    let found = dug(swell);
    in_unit(found.loose_m3, "cu yd") / in_unit(Some(found.bank_m3), "cu yd") * bank
}

fn cement() -> Material {
    catalogued("portland-cement")
}

fn sand() -> Material {
    catalogued("sharp-sand")
}

/// A mortar of cement and so much sand.
fn mortar(sand_parts: &str) -> Mix {
    mix("mortar", &[("1", cement()), (sand_parts, sand())])
}

/// Concrete for a slab, of cement, so much sand and so much stone of 95 lb a
/// cubic foot.
fn concrete(sand_parts: &str, stone_parts: &str) -> Mix {
    let stone = Material {
        density: sourced("95 lb/cu ft"),
        particle_density: sourced("2650 kg/m3"),
        ..material("stone")
    };
    let parts = [("1", cement()), (sand_parts, sand()), (stone_parts, stone)];
    Mix {
        uses: vec![Stated::new(MixUse::Slab, super::fixture::line(1))],
        ..mix("concrete", &parts)
    }
}

/// What so many cubic feet of a mix take.
fn making(cubic_feet: &str, mix: Mix) -> MixFigures {
    worked(&job_of(Role::Bed, mix, cubic_feet, "12 in")).mixes[0]
        .as_ref()
        .clone()
}

fn cubic_feet_of(figures: &MixFigures, part: usize) -> f64 {
    in_unit(figures.ingredients[part].loose_volume_m3, "cu ft")
}

fn bags_of(figures: &MixFigures, part: usize) -> f64 {
    figures.ingredients[part].packs.unwrap()
}

/// The fresh figures of a mix by weight.
fn by_weight(parts: &[(&str, Material)]) -> super::Gauging {
    let weighed = Mix {
        measure: Measure::Weight,
        ..mix("weighed", parts)
    };
    super::gauging(&weighed, crate::units::System::Imperial).unwrap()
}

/// How many pieces of a unit with joints are ordered for an area.
fn pieces(unit: (&str, &str), joint: &str, square_feet: &str, waste: &str) -> Order {
    let piece = Material {
        unit: sourced(unit.0).zip(sourced(unit.1)),
        sold: sold("by each"),
        waste: sourced(waste),
        ..material("piece")
    };
    let paving = layer(Role::Paving, piece, "2 1/4 in");
    let outline = area_of(&format!("{square_feet} ft"), "1 ft");
    only_order(&job(vec![
        surface("wall", outline, vec![paving]).jointed(joint, "", None),
    ]))
}

/// The tons ordered for an area of stone of a density and thickness.
fn tons(square_feet: &str, thickness: &str, density: &str) -> f64 {
    let stone = Material {
        density: sourced(density),
        sold: sold("by ton"),
        ..material("flag")
    };
    only_order(&job_of(Role::Paving, stone, square_feet, thickness))
        .needed
        .unwrap()
}

/// The volume of joints in so many square feet of units, in cubic feet.
fn joints(unit: (&str, &str, &str), joint: &str, square_feet: &str) -> f64 {
    let flag = Material {
        unit: sourced(unit.0).zip(sourced(unit.1)),
        ..material("flag")
    };
    let paving = layer(Role::Paving, flag, unit.2);
    let outline = area_of(&format!("{square_feet} ft"), "1 ft");
    let court = surface("court", outline, vec![paving]).jointed(joint, "", None);
    in_unit(
        worked(&job(vec![court])).surfaces[0]
            .joints
            .clone()
            .unwrap()
            .volume_m3,
        "cu ft",
    )
}

/// Bags that make a cubic yard of concrete.
fn bags(pound: &str, makes: &str) -> f64 {
    let bagged = Material {
        sold: sold(&format!("by bag of {pound}")),
        makes: sourced(makes),
        ..material("bagged-concrete")
    };
    let order = only_order(&job_of(Role::Slab, bagged, "27", "12 in"));
    order.ordered.unwrap().to_f64()
}

/// The drop over a run, falling so steeply along it.
fn drop(run: &str, slope: &str) -> f64 {
    let court = surface("court", area_of("1 m", run), Vec::new()).falling("0 m", slope);
    worked(&job(vec![court])).surfaces[0].drop_m.unwrap()
}

/// Steepest slope and drop of a surface that falls south and east at once.
fn both_ways(width: &str, depth: &str, south: &str, east: &str) -> super::SurfaceFigures {
    let mut court = surface("court", area_of(width, depth), Vec::new());
    let fall = Fall {
        slope: stated(south),
        toward: Vector::new(0.0, -1.0),
        away_from: None,
        cross: Some((stated(east), Vector::new(1.0, 0.0))),
        place: super::fixture::line(1),
    };
    court.plane = Some(Plane::through(0.0, Point::ORIGIN, fall.gradient()));
    court.fall = Some(fall);
    worked(&job(vec![court])).surfaces[0].as_ref().clone()
}

/// Area and perimeter of an outline drawn in metres, as the shape's figures.
fn drawn(outline: Outline) -> (f64, f64) {
    let job = job(vec![surface("drawn", outline, Vec::new())]);
    let figures = worked(&job);
    (
        figures.shapes[0].area_m2.unwrap(),
        figures.shapes[0].perimeter_m.unwrap(),
    )
}

fn polygon(corners: &[(f64, f64)]) -> Outline {
    let corners: Vec<Point> = corners.iter().map(|(x, y)| Point::new(*x, *y)).collect();
    Outline::polygon(&corners, |place| place as u32).unwrap()
}

/// A stadium of 24 by 12.
fn stadium() -> Outline {
    let (half, at) = (bulge_of_sweep(std::f64::consts::PI), Point::new);
    Outline::new(vec![
        Edge::line(at(0.0, 0.0), at(12.0, 0.0), 0),
        Edge::arc(at(12.0, 0.0), at(12.0, 12.0), half, 1),
        Edge::line(at(12.0, 12.0), at(0.0, 12.0), 2),
        Edge::arc(at(0.0, 12.0), at(0.0, 0.0), half, 3),
    ])
    .unwrap()
}

/// A rectangle of 20 by 12 with a bow of 4 on one long side.
fn bowed() -> Outline {
    let at = Point::new;
    Outline::new(vec![
        Edge::line(at(0.0, 0.0), at(20.0, 0.0), 0),
        Edge::line(at(20.0, 0.0), at(20.0, 12.0), 1),
        Edge::arc(at(20.0, 12.0), at(0.0, 12.0), 2.0 * 4.0 / 20.0, 2),
        Edge::line(at(0.0, 12.0), at(0.0, 0.0), 3),
    ])
    .unwrap()
}

/// An order of the top course of 20 by 15 feet with waste, in a step.
fn top_course(step: &str) -> f64 {
    let stone = Material {
        waste: sourced("5 %"),
        step: sourced(step),
        ..wsdot("2,850", "3,700")
    };
    let base = layer(Role::Base, stone, "6 in");
    let order = only_order(&job(vec![surface(
        "patio",
        area_of("20 ft", "15 ft"),
        vec![base],
    )]));
    order.ordered.unwrap().to_f64()
}

/// The total of three lines: 3.46 at 1.10, 0.72 at 0.60 and 1 at 1.00.
fn three_lines() -> f64 {
    let priced = |name: &str, thickness: &str, price: &str| {
        let goods = Material {
            sold: sold("by cu ft"),
            step: sourced("0.01 cu ft"),
            price: Some(stated(price)),
            ..material(name)
        };
        layer(Role::Bed, goods, thickness)
    };
    let lines = vec![
        priced("cement", "3.46 ft", "$1.10"),
        priced("sand", "0.72 ft", "$0.60"),
        priced("mixing", "1 ft", "$1"),
    ];
    let figures = worked(&job(vec![surface("yard", area_of("1 ft", "1 ft"), lines)]));
    figures.total.unwrap().cents as f64 / 100.0
}

/// A slab whose parts come to 527.40 cubic feet, with a tenth of waste.
fn slab_order() -> Order {
    let ready_mixed = Material {
        sold: sold("by cu yd"),
        waste: sourced("10 %"),
        ..material("concrete")
    };
    only_order(&job_of(Role::Slab, ready_mixed, "527.4", "12 in"))
}

#[rustfmt::skip]
const EXAMPLES: &[Example] = &[
    // Mortar and concrete.
    Example { source: NAVY_BUILDER, says: "1 cu yd of 1:3 mortar takes 9.5 sacks of cement",
        expected: 9.5, within: 0.003, found: || bags_of(&making("27", mortar("3")), 0) },
    Example { source: NAVY_BUILDER, says: "and 28.5 cu ft of sand",
        expected: 28.5, within: 0.003, found: || cubic_feet_of(&making("27", mortar("3")), 1) },
    Example { source: NAVY_BUILDER, says: "893 lb of cement in it",
        expected: 893.0, within: 0.003, found: || in_unit(making("27", mortar("3")).ingredients[0].mass_kg, "lb") },
    Example { source: NAVY_BUILDER, says: "rule 38 at 1:4, a bed of 1 1/4 in over 200 sq ft: 5.864 cu ft of cement",
        expected: 5.8641975309, within: 0.001, found: || cubic_feet_of(&bed(), 0) },
    Example { source: NAVY_BUILDER, says: "and 23.457 cu ft of sand",
        expected: 23.4567901235, within: 0.001, found: || cubic_feet_of(&bed(), 1) },
    Example { source: NAVY_BUILDER, says: "six bags of cement for it",
        expected: 6.0, within: EXACT, found: || bed_order("portland-cement") },
    Example { source: NAVY_BUILDER, says: "rule 42, 1 cu yd of 1:2:4 concrete takes 6 sacks, rule 41 takes 5.857 (from memory)",
        expected: 5.93, within: 0.013, found: || bags_of(&making("27", concrete("2", "4")), 0) },
    Example { source: ATLAS, says: "a batch of 2 bags with 3 3/4 and 7 1/2 cu ft makes 8 1/2 cu ft of concrete",
        expected: 8.5 / 2.0, within: 0.035, found: || makes_per_cement(concrete("1.875", "3.75")) },
    Example { source: GRIFFITH, says: "a topping of 80 cu ft of 1:2 takes 9.912 barrels of 3.8 cu ft",
        expected: 9.912 * 3.8, within: 0.01, found: || cubic_feet_of(&making("80", mortar("2")), 0) },
    Example { source: GRIFFITH, says: "and 2.752 cu yd of sand",
        expected: 2.752 * 27.0, within: 0.01, found: || cubic_feet_of(&making("80", mortar("2")), 1) },
    Example { source: GRIFFITH, says: "a wall of 280 cu ft of 1:2 1/2:5 takes 4.76 cu yd of sand",
        expected: 4.76 * 27.0, within: 0.04, found: || cubic_feet_of(&making("280", concrete("2.5", "5")), 1) },
    Example { source: GRIFFITH, says: "and 9.548 cu yd of stone",
        expected: 9.548 * 27.0, within: 0.04, found: || cubic_feet_of(&making("280", concrete("2.5", "5")), 2) },
    Example { source: GILLETTE, says: "1:2 by weight, 380 lb of cement to 8.44 cu ft of sand of 90 lb",
        expected: 760.0 / 90.0, within: EXACT, found: || {
            let sand = Material { density: sourced("90 lb/cu ft"), bulking: sourced("0 %"), ..sand() };
            in_unit(by_weight(&[("380", cement()), ("760", sand)]).parts[1].loose_m3, "cu ft")
        } },
    Example { source: GILLETTE, says: "a finish of 1 in over 100 sq ft of walk is 0.3 cu yd",
        expected: 0.3, within: 0.03, found: || {
            let finish = only_layer(&job_of(Role::Bed, catalogued("concrete"), "100", "1 in"));
            in_unit(finish.volume_m3, "cu yd")
        } },
    Example { source: SABIN, says: "2 parts of sand by weight are 2.20 by volume of packed cement of 110 lb, dry",
        expected: 2.20, within: EXACT, found: || sabin("0 %") },
    Example { source: SABIN, says: "and 2.75 damp",
        expected: 2.75, within: EXACT, found: || sabin("25 %") },
    Example { source: BAGS, says: "90 bags of 40 lb make a cubic yard",
        expected: 90.0, within: EXACT, found: || bags("40 lb", "0.30 cu ft") },
    Example { source: BAGS, says: "60 bags of 60 lb make a cubic yard",
        expected: 60.0, within: EXACT, found: || bags("60 lb", "0.45 cu ft") },
    Example { source: BAGS, says: "45 bags of 80 lb make a cubic yard",
        expected: 45.0, within: EXACT, found: || bags("80 lb", "0.60 cu ft") },
    // Bases, beds and stone.
    Example { source: WSDOT, says: "20 by 15 ft of base 6 in thick are 5.556 cu yd in place",
        expected: 5.5555555556, within: EXACT, found: || in_unit(patio("2,950", "0 in").volume_m3, "cu yd") },
    Example { source: WSDOT, says: "10.278 tons at 3,700 lb",
        expected: 10.2777777778, within: EXACT, found: || in_unit(patio("2,950", "0 in").mass_kg, "ton") },
    Example { source: WSDOT, says: "6.968 cu yd loose of base course at 2,950 lb",
        expected: 6.9679849341, within: EXACT, found: || in_unit(patio("2,950", "0 in").loose_volume_m3, "cu yd") },
    Example { source: WSDOT, says: "7.212 cu yd loose of top course at 2,850 lb",
        expected: 7.2124756335, within: EXACT, found: || in_unit(patio("2,850", "0 in").loose_volume_m3, "cu yd") },
    Example { source: WSDOT, says: "over-dug 6 in all round, 6.222 cu yd",
        expected: 6.2222222222, within: EXACT, found: || in_unit(patio("2,950", "6 in").volume_m3, "cu yd") },
    Example { source: WSDOT, says: "11.511 tons",
        expected: 11.5111111111, within: EXACT, found: || in_unit(patio("2,950", "6 in").mass_kg, "ton") },
    Example { source: WSDOT, says: "7.804 cu yd loose of base course",
        expected: 7.8041431262, within: EXACT, found: || in_unit(patio("2,950", "6 in").loose_volume_m3, "cu yd") },
    Example { source: WSDOT, says: "base course takes 1.2542 times the room loose",
        expected: 1.2542372881, within: EXACT, found: || {
            let base = patio("2,950", "0 in");
            base.loose_volume_m3.unwrap() / base.volume_m3.unwrap()
        } },
    Example { source: WSDOT, says: "with 5 % waste, 8 cu yd of top course by whole yards",
        expected: 8.0, within: EXACT, found: || top_course("1 cu yd") },
    Example { source: WSDOT, says: "7.75 cu yd of it by the quarter yard, which is the usual step",
        expected: 7.75, within: EXACT, found: || top_course("1/4 cu yd") },
    Example { source: GEOMETRY, says: "bedding sand 1 in over 300 sq ft, with a tenth more, 1.0185 cu yd",
        expected: 1.0185185185, within: EXACT, found: || {
            let sand = Material { waste: sourced("10 %"), density: sourced("100 lb/cu ft"), sold: sold("by cu yd"), ..material("sand") };
            only_order(&job_of(Role::Bed, sand, "300", "1 in")).needed.unwrap()
        } },
    Example { source: STONE_YARD, says: "200 sq ft of stone 3/4 in thick of 160 lb a cubic foot weigh a ton",
        expected: 1.0, within: EXACT, found: || tons("200", "3/4 in", "160 lb/cu ft") },
    Example { source: GEOMETRY, says: "150 sq ft of it 1 in thick weigh a ton",
        expected: 1.0, within: EXACT, found: || tons("150", "1 in", "160 lb/cu ft") },
    Example { source: GEOMETRY, says: "80 sq ft of 150 lb stone 2 in thick weigh a ton",
        expected: 1.0, within: EXACT, found: || tons("80", "2 in", "150 lb/cu ft") },
    // Units and joints.
    Example { source: BEALL, says: "4.5 bricks of 7 5/8 by 3 5/8 in to the square foot with joints of 3/8 in",
        expected: 4.5, within: EXACT, found: || pieces(("7 5/8 in", "3 5/8 in"), "3/8 in", "100", "0 %").needed.unwrap() / 100.0 },
    Example { source: NAVY_14045, says: "690 bricks of 2 3/4 by 8 1/2 in, joint included, for 112 sq ft",
        expected: 690.0, within: EXACT, found: || pieces(("8 1/8 in", "2 3/8 in"), "3/8 in", "112", "0 %").ordered.unwrap().to_f64() },
    Example { source: NAVY_14045, says: "759 of them with a tenth of waste (printed 760)",
        expected: 759.0, within: EXACT, found: || pieces(("8 1/8 in", "2 3/8 in"), "3/8 in", "112", "10 %").ordered.unwrap().to_f64() },
    Example { source: NAVY_14045, says: "504 blocks of 8 by 16 in for 448 sq ft",
        expected: 504.0, within: EXACT, found: || pieces(("15 5/8 in", "7 5/8 in"), "3/8 in", "448", "0 %").ordered.unwrap().to_f64() },
    Example { source: GEOMETRY, says: "joints of 3/8 in between flags of 24 by 24 by 1 1/2 in, 300 sq ft",
        expected: 1.1449704142, within: EXACT, found: || joints(("24 in", "24 in", "1 1/2 in"), "3/8 in", "300") },
    Example { source: GEOMETRY, says: "joints of 1/2 in between flags of 18 by 24 by 1 in, a square foot",
        expected: 0.0039069682, within: 1e-7, found: || joints(("18 in", "24 in", "1 in"), "1/2 in", "1") },
    Example { source: GEOMETRY, says: "joints of 1/2 in between flags of 36 by 24 by 2 in, a square foot",
        expected: 0.0056378716, within: 1e-7, found: || joints(("36 in", "24 in", "2 in"), "1/2 in", "1") },
    Example { source: GEOMETRY, says: "joints of 3/8 in between bricks of 8 by 4 by 2 1/4 in, a square foot",
        expected: 0.0237473348, within: 1e-7, found: || joints(("8 in", "4 in", "2 1/4 in"), "3/8 in", "1") },
    Example { source: TILE_COUNCIL, says: "30 ft in panels of at most 12 ft are 3",
        expected: 3.0, within: EXACT, found: || panels(si("30 ft"), si("12 ft")).unwrap().0 },
    Example { source: TILE_COUNCIL, says: "40 ft are 4 of 10 ft",
        expected: 10.0, within: EXACT, found: || in_unit(panels(si("40 ft"), si("12 ft")).map(|(_, each)| each), "ft") },
    Example { source: BRICK_14C, says: "16 ft at most 16 ft is one panel",
        expected: 1.0, within: EXACT, found: || panels(si("16 ft"), si("16 ft")).unwrap().0 },
    // Digging.
    Example { source: ESTIMATING, says: "1,000 bank cu yd of dense clay that swells 30 % are 1,300 loose",
        expected: 1300.0, within: EXACT, found: || loose_yards(1000.0, "30 %") },
    Example { source: ESTIMATING, says: "526.3 bank cu yd of sand and gravel that swell 15 % are 605 loose",
        expected: 605.263, within: 1e-6, found: || loose_yards(500.0 / 0.95, "15 %") },
    Example { source: "Worked problem on soil of 3,400 lb bank and 2,700 lb loose (read)", says: "0.588 cu yd in the bank are 0.741 loose",
        expected: 0.741, within: 0.001, found: || loose_yards(2000.0 / 3400.0, "25.93 %") },
    Example { source: GEOMETRY, says: "21 by 16 ft dug 10 in deep are 10.370 cu yd in the bank",
        expected: 10.3703703704, within: EXACT, found: || in_unit(Some(dug("30 %").bank_m3), "cu yd") },
    Example { source: ESTIMATING, says: "13.481 of them loose at 30 %",
        expected: 13.4814814815, within: EXACT, found: || in_unit(dug("30 %").loose_m3, "cu yd") },
    Example { source: "US Army FM 5-434, Table 1-1, clay (memory; arithmetic ours)", says: "14.830 at 43 %",
        expected: 14.8296296296, within: EXACT, found: || in_unit(dug("43 %").loose_m3, "cu yd") },
    // Falls.
    Example { source: PAVING_FORUM, says: "7 m of paving that fall 30 mm fall 1:233, 0.4286 %",
        expected: 0.030, within: EXACT, found: || drop("7 m", "1:233 1/3") },
    Example { source: PAVING_FORUM, says: "at 1:80 they would fall 87.5 mm",
        expected: 0.0875, within: EXACT, found: || drop("7 m", "1:80") },
    Example { source: GEOMETRY, says: "2 % over 12 ft are 2.88 in",
        expected: 2.88, within: EXACT, found: || in_unit(Some(drop("12 ft", "2 %")), "in") },
    Example { source: ADA, says: "1:48 over 15 ft is 3 3/4 in",
        expected: 3.75, within: EXACT, found: || in_unit(Some(drop("15 ft", "1:48")), "in") },
    Example { source: GEOMETRY, says: "1:60 over 4.5 m is 75 mm",
        expected: 0.075, within: EXACT, found: || drop("4.5 m", "1:60") },
    Example { source: GEOMETRY, says: "a ramp of 6 m at 1:12 climbs 500 mm",
        expected: 0.5, within: EXACT, found: || drop("6 m", "1:12") },
    Example { source: GEOMETRY, says: "one of 7.5 m at 1:15 as much",
        expected: 0.5, within: EXACT, found: || drop("7.5 m", "1:15") },
    Example { source: GEOMETRY, says: "and one of 10 m at 1:20",
        expected: 0.5, within: EXACT, found: || drop("10 m", "1:20") },
    Example { source: GEOMETRY, says: "2 % one way and 1 % across are 2.236 % at the steepest",
        expected: 0.022360679775, within: EXACT, found: || both_ways("20 ft", "15 ft", "2 %", "1 %").fall.unwrap() },
    Example { source: GEOMETRY, says: "over 15 and 20 ft they drop 6 in from corner to corner",
        expected: 6.0, within: EXACT, found: || in_unit(both_ways("20 ft", "15 ft", "2 %", "1 %").drop_m, "in") },
    Example { source: ADA, says: "1:48 both ways is 2.946 %, steeper than either",
        expected: 0.029462782549, within: EXACT, found: || both_ways("1 m", "1 m", "1:48", "1:48").fall.unwrap() },
    // Shapes.
    Example { source: GEOMETRY, says: "a stadium of 24 by 12: area",
        expected: 257.0973355292, within: EXACT, found: || drawn(stadium()).0 },
    Example { source: GEOMETRY, says: "its perimeter",
        expected: 61.6991118431, within: EXACT, found: || drawn(stadium()).1 },
    Example { source: GEOMETRY, says: "20 by 12 with a bow of 4: area",
        expected: 295.0029315757, within: EXACT, found: || drawn(bowed()).0 },
    Example { source: GEOMETRY, says: "its perimeter",
        expected: 66.0693698725, within: EXACT, found: || drawn(bowed()).1 },
    Example { source: GEOMETRY, says: "an L of 20 by 15: area",
        expected: 244.0, within: EXACT, found: || drawn(polygon(&[(0., 0.), (20., 0.), (20., 8.), (12., 8.), (12., 15.), (0., 15.)])).0 },
    Example { source: GEOMETRY, says: "a pentagon: perimeter",
        expected: 63.2224219296, within: EXACT, found: || drawn(polygon(&[(0., 0.), (18., 0.), (22., 9.), (14., 16.), (3., 13.)])).1 },
    // Orders and costs.
    Example { source: NAVY_14070, says: "527.40 cu ft with 10 % waste are 21.487 cu yd",
        expected: 21.487, within: 1e-4, found: || slab_order().needed.unwrap() },
    Example { source: NAVY_14070, says: "21.5 cu yd of it are ordered (printed 21, which would be short)",
        expected: 21.5, within: EXACT, found: || slab_order().ordered.unwrap().to_f64() },
    Example { source: SABIN, says: "art. 288: 3.46 at 1.10, 0.72 at 0.60 and 1.00 are 5.24, each line to the cent (printed 5.23, cut off)",
        expected: 5.24, within: EXACT, found: three_lines },
];

/// A bed of 1:4 mortar, 1 1/4 in over 200 sq ft.
fn bed_job() -> Job {
    job_of(Role::Bed, mortar("4"), "200", "1 1/4 in")
}

fn bed() -> MixFigures {
    MixFigures::clone(&worked(&bed_job()).mixes[0])
}

fn bed_order(material: &str) -> f64 {
    worked(&bed_job())
        .order(material)
        .unwrap()
        .ordered
        .unwrap()
        .to_f64()
}

fn makes_per_cement(mix: Mix) -> f64 {
    making("27", mix).yield_per_cement.unwrap()
}

/// Loose volume of two parts of sand by weight to one of packed cement.
fn sabin(bulking: &str) -> f64 {
    let packed = Material {
        density: sourced("110 lb/cu ft"),
        ..cement()
    };
    let sand = Material {
        density: sourced("100 lb/cu ft"),
        bulking: sourced(bulking),
        ..sand()
    };
    let gauging = by_weight(&[("1", packed), ("2", sand)]);
    gauging.parts[1].loose_m3.unwrap() / gauging.parts[0].loose_m3.unwrap()
}

#[test]
fn worked_examples_come_out() {
    assert!(EXAMPLES.len() >= 30);
    let off: Vec<String> = EXAMPLES
        .iter()
        .map(|example| (example, (example.found)()))
        .filter(|(example, found)| !close(*found, example.expected, example.within))
        .map(|(example, found)| {
            let Example {
                source,
                says,
                expected,
                ..
            } = example;
            format!("{source}: {says}: found {found}, expected {expected}")
        })
        .collect();
    assert!(off.is_empty(), "{}", off.join("\n"));
}
