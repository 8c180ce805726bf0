//! What published documents say, held against what the program enforces, what
//! its catalogue holds and what it works out of a spec's text. Each row names
//! the document and says how it is known.

use std::f64::consts::PI;

use drylay::materials;
use drylay::model::{Region, literal};
use drylay::quantities::{Figures, LayerFigures, panels};
use drylay::rules::{Limits, find};
use drylay::sources::Known::{self, CommonPractice, Computed, Memory, Read, SecondHand};
use drylay::vocabulary::Role;

use crate::checked::checked;

const ICPI: &str =
    "ICPI, Construction Tolerances and Recommendations for Interlocking Concrete Pavements";
const ICPI_PERMEABLE: &str =
    "ICPI, Recommended Construction Tolerances for Permeable Interlocking Concrete Pavement";
const BIA_14A: &str = "BIA Technical Note 14A, May 2017";
const BIA_14C: &str = "BIA Technical Note 14C, July 2011";
const BIA_29: &str = "BIA Technical Note 29, 1994";
const IRC: &str = "International Residential Code";
const NHBC: &str = "NHBC Standards";
const AS_NZS: &str = "AS/NZS 3727.1:2016";
const BS_7533: &str = "BS 7533";
const ADA: &str = "ADA Standards";
const TCNA: &str = "TCNA EJ171";
const BEALL: &str = "Beall, Masonry and Concrete (McGraw-Hill)";

/// A limit: its rule, row and region, what the document prints, and how that
/// document is known. Of twins that a document prints the kinder one counts.
type Enforced = (
    &'static str,
    &'static str,
    Region,
    &'static [&'static str],
    &'static str,
    Known,
);

use Region::{Au, General, Uk, Us};

const LIMITS: &[Enforced] = &[
    // Falls.
    ("fall-flat", "building", Us, &["2 %"], IRC, SecondHand),
    ("fall-flat", "pavers", General, &["2 %"], ICPI, Read),
    ("fall-flat", "pavers", Us, &["2 %"], ICPI, Read),
    ("fall-flat", "brick", Us, &["20 mm per m"], BIA_14A, Read),
    ("fall-flat", "plain", Uk, &["1.25 %"], BS_7533, SecondHand),
    ("fall-flat", "drive", Au, &["25 mm per m"], AS_NZS, Read),
    (
        "fall-flat",
        "building",
        Au,
        &["25 mm per m"],
        "National Construction Code 2019",
        Read,
    ),
    ("fall-flat", "brick", Au, &["1:40"], AS_NZS, Read),
    (
        "fall-flat",
        "rough",
        Uk,
        &["1:60"],
        "Approved Document H",
        Memory,
    ),
    ("fall-steep", "plain", Us, &["1:20"], ADA, Memory),
    ("fall-accessible", "plain", Us, &["1:48"], ADA, Read),
    (
        "fall-permeable",
        "plain",
        General,
        &["5 %"],
        ICPI_PERMEABLE,
        Read,
    ),
    ("lip", "plain", Us, &["1/4 in", "6.4 mm"], ADA, SecondHand),
    (
        "front-garden",
        "plain",
        Uk,
        &["5 m2"],
        "front gardens",
        Read,
    ),
    (
        "weeps-missing",
        "plain",
        Us,
        &["24 in", "610 mm"],
        BIA_14C,
        Read,
    ),
    // Levels at the building.
    (
        "level-high",
        "damp-course",
        Uk,
        &["150 mm", "6 in"],
        NHBC,
        Read,
    ),
    (
        "level-high",
        "foundation",
        Us,
        &["6 in", "150 mm"],
        IRC,
        SecondHand,
    ),
    ("level-high", "veneer", Us, &["4 in", "100 mm"], IRC, Memory),
    (
        "door-step",
        "plain",
        Us,
        &["7 3/4 in", "196 mm"],
        IRC,
        SecondHand,
    ),
    (
        "door-step",
        "exit",
        Us,
        &["1 1/2 in", "38 mm"],
        IRC,
        SecondHand,
    ),
    (
        "siding-close",
        "plain",
        Us,
        &["2 in", "50 mm"],
        IRC,
        SecondHand,
    ),
    (
        "soak-near",
        "plain",
        General,
        &["10 ft", "3 m"],
        ICPI_PERMEABLE,
        Read,
    ),
    (
        "soak-near",
        "soakaway",
        Uk,
        &["5 m"],
        "Approved Document H",
        SecondHand,
    ),
    (
        "soak-near",
        "soakaway",
        Us,
        &["10 ft"],
        "US county guide to dry wells",
        Read,
    ),
    (
        "soakaway-slow",
        "plain",
        Us,
        &["0.27 in/h"],
        "US county guide to dry wells",
        Read,
    ),
    (
        "level-high",
        "damp-course",
        Au,
        &["75 mm"],
        "AS 3700",
        SecondHand,
    ),
    (
        "fall-accessible",
        "plain",
        Uk,
        &["1:40"],
        "Approved Document M",
        SecondHand,
    ),
    (
        "fall-accessible",
        "plain",
        Au,
        &["1:40"],
        "AS 1428.1:2021",
        SecondHand,
    ),
    ("drive-steep", "plain", Uk, &["1:6"], NHBC, Read),
    ("ramp-steep", "plain", Us, &["1:12"], ADA, Read),
    (
        "ramp-long",
        "plain",
        Us,
        &["30 in", "760 mm"],
        "ADA Standards of 1991",
        Read,
    ),
    (
        "landing-short",
        "plain",
        Uk,
        &["1200 mm"],
        "Approved Document K",
        Read,
    ),
    (
        "guard-missing",
        "plain",
        Uk,
        &["600 mm"],
        "Approved Document K",
        Read,
    ),
    (
        "guard-missing",
        "plain",
        Us,
        &["30 in", "760 mm"],
        IRC,
        SecondHand,
    ),
    // Base.
    (
        "overdig-short",
        "plain",
        Us,
        &["6 in", "150 mm"],
        ICPI,
        Read,
    ),
    (
        "base-thin",
        "foot",
        General,
        &["4 in", "100 mm"],
        ICPI,
        Read,
    ),
    (
        "base-thin",
        "drive",
        General,
        &["6 in", "150 mm"],
        ICPI,
        Read,
    ),
    (
        "base-thin",
        "street",
        General,
        &["8 in", "200 mm"],
        ICPI,
        Read,
    ),
    (
        "base-thin",
        "frost",
        Us,
        &["6 in", "150 mm"],
        "citing ICPI",
        SecondHand,
    ),
    (
        "base-thin",
        "clay",
        Uk,
        &["150 mm", "6 in"],
        "British garden guide",
        Read,
    ),
    (
        "base-permeable",
        "foot",
        General,
        &["6 in", "150 mm"],
        "ICPI, article on edge restraints",
        Read,
    ),
    (
        "base-permeable",
        "drive",
        General,
        &["8 in", "200 mm"],
        "ICPI, article on edge restraints",
        Read,
    ),
    (
        "lift-thick",
        "plate",
        Us,
        &["4 in", "100 mm"],
        "Landscape Architect",
        Read,
    ),
    ("lift-thick", "plant", Uk, &["225 mm"], NHBC, Read),
    ("slab-thin", "plain", Us, &["4 in", "100 mm"], BEALL, Read),
    // Beds.
    ("bed-thick", "pavers", Uk, &["50 mm"], NHBC, Read),
    (
        "bed-thick",
        "flags",
        General,
        &["2 in", "50 mm"],
        BEALL,
        Read,
    ),
    ("bed-thick", "brick", Us, &["1 in", "25 mm"], BIA_29, Read),
    ("bed-thin", "brick", Us, &["3/8 in", "10 mm"], BIA_29, Read),
    (
        "bed-thin",
        "pavers",
        Us,
        &["3/4 in", "19 mm"],
        BIA_14A,
        Read,
    ),
    (
        "bond-thick",
        "plain",
        Us,
        &["3/16 in", "5 mm"],
        "ANSI A108.5 and A118",
        Memory,
    ),
    // Mixes.
    ("mix-lean", "bed", Us, &["5"], "ANSI A108.1A", Memory),
    ("mix-lean", "dry-bed", Us, &["6"], "ANSI A108.1A", Memory),
    ("mix-type", "sand-most", Us, &["3"], "ASTM C270", SecondHand),
    (
        "mix-type",
        "sand-least",
        Us,
        &["2.25"],
        "ASTM C270",
        SecondHand,
    ),
    ("mix-life", "plain", Us, &["2.5 h"], "ASTM C270", Memory),
    // Units.
    (
        "unit-thin",
        "plain",
        General,
        &["2 3/8 in", "60 mm"],
        ICPI,
        Read,
    ),
    (
        "unit-thin",
        "street",
        General,
        &["3 1/8 in", "80 mm"],
        ICPI,
        Read,
    ),
    ("unit-slender", "plain", General, &["4"], ICPI, Read),
    ("unit-slender", "street", General, &["3"], ICPI, Read),
    (
        "density-odd",
        "granite-least",
        Us,
        &["155 lb/cu ft", "2480 kg/m3"],
        "ASTM",
        SecondHand,
    ),
    ("absorption-high", "plain", Us, &["3 %"], "ASTM", SecondHand),
    (
        "absorption-high",
        "severe",
        Us,
        &["8 %"],
        "ASTM",
        SecondHand,
    ),
    (
        "lift-heavy",
        "plain",
        General,
        &["51 lb", "23 kg"],
        "NIOSH 94-110",
        Read,
    ),
    // Joints.
    (
        "joint-narrow",
        "pavers",
        General,
        &["1/16 in", "2 mm"],
        ICPI,
        Read,
    ),
    (
        "joint-wide",
        "pavers",
        General,
        &["3/16 in", "5 mm"],
        ICPI,
        Read,
    ),
    (
        "joint-narrow",
        "permeable",
        General,
        &["1/4 in", "6 mm"],
        ICPI_PERMEABLE,
        Read,
    ),
    (
        "joint-wide",
        "permeable",
        General,
        &["1/2 in", "13 mm"],
        ICPI_PERMEABLE,
        Read,
    ),
    (
        "joint-shallow",
        "plain",
        General,
        &["1/2 in", "13 mm"],
        ICPI,
        Read,
    ),
    (
        "joint-open",
        "plain",
        Us,
        &["1/2 in", "13 mm"],
        ADA,
        SecondHand,
    ),
    (
        "movement-missing",
        "stone",
        Us,
        &["12 ft", "3.7 m"],
        TCNA,
        SecondHand,
    ),
    (
        "movement-missing",
        "brick",
        Us,
        &["16 ft", "4.9 m"],
        BIA_14C,
        Read,
    ),
    (
        "slab-panel",
        "spacing",
        Us,
        &["12 ft", "3.7 m"],
        BIA_14A,
        Read,
    ),
    (
        "slab-panel",
        "thicknesses",
        Us,
        &["36"],
        "Concrete Construction",
        SecondHand,
    ),
    (
        "slab-panel",
        "ratio",
        Us,
        &["1.5"],
        "Concrete Construction",
        SecondHand,
    ),
];

#[test]
fn limits_are_those_that_documents_print() {
    let mut reported = String::new();
    for (rule, row, region, printed, document, known) in LIMITS {
        let rule = find(rule).expect("a rule");
        let limits = Limits::default();
        let limit = limits.in_force(rule, row, *region).expect("a limit");
        let values: Vec<f64> = printed
            .iter()
            .map(|text| literal(text).expect("a value").si())
            .collect();
        // Each printed figure is let pass, and one of them is the limit.
        let passes = values.iter().all(|value| limit.allows_si(*value));
        let is_one = values
            .iter()
            .any(|value| (value - limit.value.si()).abs() <= 1e-12);
        let source = limit.source;
        if !passes || !is_one || !source.document.contains(document) || source.known != *known {
            reported += &format!(
                "{} {row} {region:?}: {printed:?} of {document}, {known:?}; in force {:?} of {source}\n",
                rule.name, limit.written
            );
        }
    }
    assert!(reported.is_empty(), "\n{reported}");
}

const WSDOT: &str = "WSDOT Design Manual M 22-01";
const QUARRY: &str = "Conversion chart, tons per cubic yard as loaded";

/// A material, which figure of it, what a document prints for it, and how far
/// off that the catalogue may round it.
type Listed = (
    &'static str,
    &'static str,
    &'static str,
    f64,
    &'static str,
    Known,
);

const MATERIALS: &[Listed] = &[
    (
        "crushed-stone",
        "loose",
        "2,950 lb/cu yd",
        1e-3,
        WSDOT,
        Read,
    ),
    (
        "crushed-stone",
        "compacted",
        "3,700 lb/cu yd",
        1e-3,
        WSDOT,
        Read,
    ),
    (
        "crushed-top-course",
        "loose",
        "2,850 lb/cu yd",
        1e-3,
        WSDOT,
        Read,
    ),
    (
        "crushed-top-course",
        "compacted",
        "3,700 lb/cu yd",
        1e-3,
        WSDOT,
        Read,
    ),
    ("ballast", "loose", "3,100 lb/cu yd", 1e-3, WSDOT, Read),
    ("ballast", "compacted", "3,900 lb/cu yd", 1e-3, WSDOT, Read),
    (
        "permeable-ballast",
        "loose",
        "2,800 lb/cu yd",
        1e-3,
        WSDOT,
        Read,
    ),
    ("open-stone", "loose", "1.35 ton/cu yd", 1e-3, QUARRY, Read),
    (
        "portland-cement",
        "loose",
        "94 lb/cu ft",
        0.0,
        "Concrete Construction",
        Read,
    ),
    (
        "hydrated-lime",
        "loose",
        "40 lb/cu ft",
        0.0,
        "ASTM C270",
        Memory,
    ),
    ("sharp-sand", "bulking", "25 %", 0.0, "ASTM C270", Memory),
];

#[test]
fn the_catalogue_holds_what_documents_print() {
    let mut reported = String::new();
    for (name, which, printed, within, document, known) in MATERIALS {
        let material = materials::find(name).expect(name);
        let figure = match *which {
            "compacted" => material.compacted,
            "bulking" => material.bulking,
            _ => material.density,
        };
        let Some(figure) = figure else {
            reported += &format!("{name} has no {which}\n");
            continue;
        };
        let found = literal(figure.text).expect("a figure").si();
        let wanted = literal(printed).expect("a figure").si();
        let source = figure.source;
        if (found / wanted - 1.0).abs() > *within
            || !source.document.contains(document)
            || source.known != *known
        {
            reported += &format!(
                "{name} {which}: {printed} of {document}, {known:?}; listed {} of {source}\n",
                figure.text
            );
        }
    }
    assert!(reported.is_empty(), "\n{reported}");
}

/// The figures of a spec.
fn figures(text: &str) -> Figures {
    checked(text).figures().clone()
}

/// A court of a rectangle, with more entries and a build.
fn court(sides: &str, entries: &str, layers: &str, more: &str) -> Figures {
    figures(&format!(
        "job \"Example\"\n  units imperial\n  region us\n  currency USD\n\nsite\n  soil sand\n  datum \"floor\"\n\nshape court\n  rectangle {sides}\n\nsurface court\n  shape court\n{entries}  build court-build\n\nbuild court-build\n{layers}\n{more}"
    ))
}

fn layer(figures: &Figures, role: Role) -> LayerFigures {
    let surface = figures.surface("court").expect("the court");
    surface.layer(role).expect("the layer").clone()
}

const CUBIC_FOOT: f64 = 0.028316846592;
const CUBIC_YARD: f64 = 27.0 * CUBIC_FOOT;
const TON: f64 = 907.18474;
const INCH: f64 = 0.0254;

fn in_(figure: Option<f64>, unit: f64) -> f64 {
    figure.expect("a figure") / unit
}

/// A base of crushed stone at published weights of a cubic yard.
fn base(sides: &str, beyond: &str, loose: &str) -> LayerFigures {
    let layers = format!("  base stone, 6 in compacted{beyond}\n");
    let stone = format!(
        "material stone\n  kind dense-aggregate\n  density {loose} lb/cu yd loose, 3,700 lb/cu yd compacted\n  sold by cu yd\n"
    );
    layer(&court(sides, "", &layers, &stone), Role::Base)
}

/// Bank and loose volume of a dig of 10 in, in cubic yards.
fn dug(swell: &str) -> (f64, f64) {
    let text = format!(
        "job \"Example\"\n  units imperial\n  region us\n\nsite\n  soil clay\n  swell {swell}\n  datum \"lawn\"\n  ground 0 in\n\nshape court\n  rectangle 21' by 16'\n\nsurface court\n  shape court\n  level 0 in\n  build court-build\n\nbuild court-build\n  base crushed-stone, 10 in compacted\n"
    );
    let figures = figures(&text);
    let surface = figures.surface("court").expect("the court");
    let dig = surface.dig.as_ref().expect("a dig");
    (dig.bank_m3 / CUBIC_YARD, in_(dig.loose_m3, CUBIC_YARD))
}

/// The joint volume for each area, in feet.
fn joint(unit: &str, thick: &str, width: &str) -> f64 {
    let entries = format!("  laid stack-bond, units {unit}\n  joint {width}\n");
    let figures = court(
        "10' by 10'",
        &entries,
        &format!("  paving sandstone, {thick}\n"),
        "",
    );
    let joints = figures
        .surface("court")
        .and_then(|court| court.joints.clone());
    in_(joints.expect("joints").volume_m3, CUBIC_FOOT) / 100.0
}

/// What a cubic yard of mortar of one part to so much sand takes, in cubic
/// feet of cement and of damp sand.
fn mortar(sand: &str) -> (f64, f64) {
    let mix = format!("mix mortar\n  for bed\n  parts 1 portland-cement : {sand} sharp-sand\n");
    let figures = court("27' by 1'", "", "  bed mortar, 12 in\n", &mix);
    let mix = figures.mixes.first().expect("the mix");
    let part = |index: usize| in_(mix.ingredients[index].loose_volume_m3, CUBIC_FOOT);
    (part(0), part(1))
}

/// Tons of stone for an area.
fn tons(area: &str, thick: &str, density: &str) -> f64 {
    let stone =
        format!("material flag\n  kind natural-stone\n  density {density}\n  sold by ton\n");
    let figures = court(area, "", &format!("  paving flag, {thick}\n"), &stone);
    figures
        .order("flag")
        .and_then(|order| order.needed)
        .expect("tons")
}

/// Area and perimeter of a shape, in its own unit of length.
fn shape(entries: &str) -> (f64, f64) {
    let lines: String = entries
        .split(';')
        .map(|line| format!("  {}\n", line.trim()))
        .collect();
    let figures = figures(&format!("shape drawn\n{lines}"));
    let shape = figures.shapes.first().expect("the shape");
    (
        shape.area_m2.expect("an area"),
        shape.perimeter_m.expect("a perimeter"),
    )
}

/// A segment over a chord.
fn segment(chord: &str, height: &str) -> f64 {
    let (area, _) = shape(&format!(
        "start (0, 0); east {chord} m; curve to (0 m, 0 m), height {height} m"
    ));
    area
}

/// Steepest slope and drop of a court that falls two ways.
fn falling(sides: &str, fall: &str) -> (f64, f64) {
    let entries = format!("  level 0 in at (0', 0')\n  fall {fall}\n");
    let figures = court(sides, &entries, "  paving sandstone, 2 in\n", "");
    let court = figures.surface("court").expect("the court").clone();
    (court.fall.expect("a fall"), court.drop_m.expect("a drop"))
}

/// Bags of a mass that make so much, for a cubic yard.
fn bags(mass: &str, makes: &str) -> f64 {
    let bag =
        format!("material bagged-concrete\n  sold by bag of {mass} lb, makes {makes} cu ft\n");
    let figures = court("27' by 1'", "", "  slab bagged-concrete, 12 in\n", &bag);
    let order = figures.order("bagged-concrete").expect("the bags");
    order.ordered.expect("a number").to_f64()
}

/// Pieces for an area.
fn pieces(unit: &str, width: &str) -> f64 {
    let entries = format!("  laid running-bond, units {unit}\n  joint {width}\n");
    let brick = format!("material clay-brick\n  unit {unit}\n  sold by each\n");
    let figures = court(
        "100' by 1'",
        &entries,
        "  paving clay-brick, 2 1/4 in\n",
        &brick,
    );
    figures
        .order("clay-brick")
        .and_then(|order| order.needed)
        .expect("bricks")
}

/// What is ordered of a top course of 20 by 15 feet with 5 % of waste.
fn ordered(step: &str) -> f64 {
    let stone = format!(
        "material stone\n  kind dense-aggregate\n  density 2,850 lb/cu yd loose, 3,700 lb/cu yd compacted\n  sold by cu yd, in steps of {step}\n  waste 5 %\n"
    );
    let figures = court("20' by 15'", "", "  base stone, 6 in compacted\n", &stone);
    let order = figures.order("stone").expect("the stone");
    order.ordered.expect("a number").to_f64()
}

const NAVY: &str = "NAVEDTRA 14043, ch. 8, Estimating Mortar";
const ESTIMATING: &str = "Construction estimating textbook, ch. 9, Example 9-2";
const SHEET: &str = "A US stone yard's estimating sheet";
const YIELDS: &str = "Makers' yield tables for bagged concrete";
const CASE: &str = "A UK paving forum's case on BS 7533, 7 m that fall 30 mm";
const ARITHMETIC: &str = "Arithmetic on the density that WSDOT prints";
const GEOMETRY: &str = "Exact geometry of circles, planes and joints";

/// A worked example: what it gives, what it is to give and how nearly, and
/// its document.
type Worked = (&'static str, fn() -> f64, f64, f64, &'static str, Known);

/// As near as double precision gets it.
const EXACT: f64 = 1e-9;

const EXAMPLES: &[Worked] = &[
    // A rule of thumb there, absolute volumes here.
    (
        "cement in a cubic yard of 1:3, cu ft",
        || mortar("3").0,
        9.5,
        0.02,
        NAVY,
        Read,
    ),
    (
        "sand in a cubic yard of 1:3, cu ft",
        || mortar("3").1,
        28.5,
        0.02,
        NAVY,
        Read,
    ),
    (
        "cement in a cubic yard of 1:4, cu ft",
        || mortar("4").0,
        38.0 / 5.0,
        0.02,
        NAVY,
        Read,
    ),
    (
        "cement in a cubic yard of 1:5, cu ft",
        || mortar("5").0,
        38.0 / 6.0,
        0.02,
        NAVY,
        Read,
    ),
    (
        "base in place, cu yd",
        || in_(base("20' by 15'", "", "2,950").volume_m3, CUBIC_YARD),
        150.0 / 27.0,
        EXACT,
        ARITHMETIC,
        Computed,
    ),
    (
        "base, tons",
        || in_(base("20' by 15'", "", "2,950").mass_kg, TON),
        10.2777777778,
        EXACT,
        ARITHMETIC,
        Computed,
    ),
    (
        "base course, loose cu yd",
        || in_(base("20' by 15'", "", "2,950").loose_volume_m3, CUBIC_YARD),
        6.9679849341,
        EXACT,
        ARITHMETIC,
        Computed,
    ),
    (
        "top course, loose cu yd",
        || in_(base("20' by 15'", "", "2,850").loose_volume_m3, CUBIC_YARD),
        7.2124756335,
        EXACT,
        ARITHMETIC,
        Computed,
    ),
    (
        "base over-dug by 6 in, cu yd",
        || {
            in_(
                base("20' by 15'", ", beyond 6 in", "2,950").volume_m3,
                CUBIC_YARD,
            )
        },
        6.2222222222,
        EXACT,
        ARITHMETIC,
        Computed,
    ),
    (
        "base over-dug by 6 in, tons",
        || in_(base("20' by 15'", ", beyond 6 in", "2,950").mass_kg, TON),
        11.5111111111,
        EXACT,
        ARITHMETIC,
        Computed,
    ),
    (
        "ordered in whole cu yd after waste",
        || ordered("1 cu yd"),
        8.0,
        EXACT,
        ARITHMETIC,
        Computed,
    ),
    (
        "ordered in quarter cu yd after waste",
        || ordered("1/4 cu yd"),
        7.75,
        EXACT,
        ARITHMETIC,
        Computed,
    ),
    (
        "dig of 10 in, bank cu yd",
        || dug("30 %").0,
        10.3703703704,
        EXACT,
        GEOMETRY,
        Computed,
    ),
    (
        "dense clay, loose for 1,000 bank",
        || dug("30 %").1 / dug("30 %").0 * 1000.0,
        1300.0,
        EXACT,
        ESTIMATING,
        Read,
    ),
    (
        "dig of 10 in swollen by 25 %",
        || dug("25 %").1,
        12.9629629630,
        EXACT,
        GEOMETRY,
        Computed,
    ),
    (
        "dig of 10 in swollen by 43 %",
        || dug("43 %").1,
        14.8296296296,
        EXACT,
        GEOMETRY,
        Computed,
    ),
    (
        "stone of 3/4 in at 10 lb/sq ft, sq ft a ton",
        || 200.0 / tons("20' by 10'", "3/4 in", "160 lb/cu ft"),
        200.0,
        EXACT,
        SHEET,
        Read,
    ),
    (
        "stone of 1 in at 160 lb/cu ft, sq ft a ton",
        || 100.0 / tons("10' by 10'", "1 in", "160 lb/cu ft"),
        150.0,
        EXACT,
        SHEET,
        Computed,
    ),
    (
        "stone of 1 1/2 in, sq ft a ton",
        || 100.0 / tons("10' by 10'", "1 1/2 in", "160 lb/cu ft"),
        100.0,
        EXACT,
        SHEET,
        Computed,
    ),
    (
        "stone of 2 in, sq ft a ton",
        || 100.0 / tons("10' by 10'", "2 in", "160 lb/cu ft"),
        75.0,
        EXACT,
        SHEET,
        Computed,
    ),
    (
        "stone of 3 in at 150 lb/cu ft, sq ft a ton",
        || 100.0 / tons("10' by 10'", "3 in", "150 lb/cu ft"),
        53.3333333333,
        EXACT,
        SHEET,
        Computed,
    ),
    (
        "bags of 40 lb in a cu yd",
        || bags("40", "0.30"),
        90.0,
        EXACT,
        YIELDS,
        SecondHand,
    ),
    (
        "bags of 60 lb in a cu yd",
        || bags("60", "0.45"),
        60.0,
        EXACT,
        YIELDS,
        SecondHand,
    ),
    (
        "bags of 80 lb in a cu yd",
        || bags("80", "0.60"),
        45.0,
        EXACT,
        YIELDS,
        SecondHand,
    ),
    (
        "bricks flat in 100 sq ft",
        || pieces("7 5/8 in by 3 5/8 in", "3/8 in"),
        450.0,
        EXACT,
        BEALL,
        Read,
    ),
    (
        "joints of 24 by 24 by 1 1/2 in, 3/8 in wide",
        || joint("24 in by 24 in", "1 1/2 in", "3/8 in"),
        0.0038165680473,
        1e-8,
        GEOMETRY,
        Computed,
    ),
    (
        "joints of 18 by 24 by 1 in, 1/2 in wide",
        || joint("18 in by 24 in", "1 in", "1/2 in"),
        0.0039069682,
        1e-7,
        GEOMETRY,
        Computed,
    ),
    (
        "joints of 36 by 24 by 2 in, 1/2 in wide",
        || joint("36 in by 24 in", "2 in", "1/2 in"),
        0.0056378716,
        1e-7,
        GEOMETRY,
        Computed,
    ),
    (
        "joints of 8 by 4 by 2 1/4 in, 3/8 in wide",
        || joint("8 in by 4 in", "2 1/4 in", "3/8 in"),
        0.0237473348,
        1e-8,
        GEOMETRY,
        Computed,
    ),
    (
        "segment of chord 12 and rise 2",
        || segment("12", "2"),
        16.3501108793,
        EXACT,
        GEOMETRY,
        Computed,
    ),
    (
        "segment of chord 21 and rise 6",
        || segment("21", "6"),
        89.2541483924,
        EXACT,
        GEOMETRY,
        Computed,
    ),
    (
        "segment of chord 20 and rise 4",
        || segment("20", "4"),
        55.0029315757,
        EXACT,
        GEOMETRY,
        Computed,
    ),
    (
        "half a circle of chord 10",
        || segment("10", "5"),
        39.2699081699,
        EXACT,
        GEOMETRY,
        Computed,
    ),
    (
        "greater segment of chord 8 and rise 6",
        || segment("8", "6"),
        43.5760309397,
        EXACT,
        GEOMETRY,
        Computed,
    ),
    (
        "20 by 15 with corners of 3",
        || shape("rectangle 20 m by 15 m, corners 3 m").0,
        292.2743338823,
        EXACT,
        GEOMETRY,
        Computed,
    ),
    (
        "the way round it",
        || shape("rectangle 20 m by 15 m, corners 3 m").1,
        64.8495559215,
        EXACT,
        GEOMETRY,
        Computed,
    ),
    (
        "an L of 20 by 15",
        || shape("start (0, 0); east 20 m; north 8 m; west 8 m; north 7 m; west 12 m; close").0,
        244.0,
        EXACT,
        GEOMETRY,
        Computed,
    ),
    (
        "a pentagon",
        || shape("polygon (0, 0) (18 m, 0) (22 m, 9 m) (14 m, 16 m) (3 m, 13 m)").0,
        261.0,
        EXACT,
        GEOMETRY,
        Computed,
    ),
    (
        "the way round it",
        || shape("polygon (0, 0) (18 m, 0) (22 m, 9 m) (14 m, 16 m) (3 m, 13 m)").1,
        63.2224219296,
        EXACT,
        GEOMETRY,
        Computed,
    ),
    (
        "a circle of radius 14",
        || shape("circle radius 14 m").0,
        196.0 * PI,
        EXACT,
        GEOMETRY,
        Computed,
    ),
    (
        "2 % over 12 ft, in",
        || falling("1' by 12'", "2 % toward north").1 / INCH,
        2.88,
        EXACT,
        GEOMETRY,
        Computed,
    ),
    (
        "1:48 over 15 ft, in",
        || falling("1' by 15'", "1:48 toward north").1 / INCH,
        3.75,
        EXACT,
        ADA,
        Read,
    ),
    (
        "1:60 over 4.5 m, mm",
        || falling("1' by 4.5 m", "1:60 toward north").1 * 1000.0,
        75.0,
        EXACT,
        GEOMETRY,
        Computed,
    ),
    (
        "30 mm over 7 m, in per cent",
        || falling("1' by 7 m", "30 mm over 7 m toward north").0 * 100.0,
        0.43,
        0.01,
        CASE,
        Read,
    ),
    (
        "2 % and 1 % together, in per cent",
        || falling("15' by 20'", "2 % toward east, cross 1 % toward north").0 * 100.0,
        2.2360679775,
        EXACT,
        GEOMETRY,
        Computed,
    ),
    (
        "its drop over 15 and 20 ft, in",
        || falling("15' by 20'", "2 % toward east, cross 1 % toward north").1 / INCH,
        6.0,
        EXACT,
        GEOMETRY,
        Computed,
    ),
    (
        "1:48 both ways, in per cent",
        || falling("15' by 20'", "1:48 toward east, cross 1:48 toward north").0 * 100.0,
        2.9462782549,
        EXACT,
        GEOMETRY,
        Computed,
    ),
    (
        "panels of 30 ft at 12 ft at most",
        || panels(30.0, 12.0).expect("panels").0,
        3.0,
        EXACT,
        TCNA,
        SecondHand,
    ),
    (
        "panels of 30 ft at 16 ft at most",
        || panels(30.0, 16.0).expect("panels").0,
        2.0,
        EXACT,
        BIA_14C,
        Read,
    ),
    (
        "panels of 40 ft at 12 ft at most",
        || panels(40.0, 12.0).expect("panels").0,
        4.0,
        EXACT,
        TCNA,
        SecondHand,
    ),
    (
        "the length of each, ft",
        || panels(40.0, 12.0).expect("panels").1,
        10.0,
        EXACT,
        TCNA,
        SecondHand,
    ),
    (
        "panels of 16 ft at 16 ft at most",
        || panels(16.0, 16.0).expect("panels").0,
        1.0,
        EXACT,
        BIA_14C,
        Read,
    ),
];

#[test]
fn examples_come_out_as_documents_print_them() {
    let mut reported = String::new();
    for (what, found, expected, within, document, known) in EXAMPLES {
        let found = found();
        if (found / expected - 1.0).abs() > *within {
            reported += &format!("{what}: {found}, not {expected} ({document}, {known:?})\n");
        }
    }
    assert!(reported.is_empty(), "\n{reported}");
}

#[test]
fn there_are_enough_of_them() {
    assert!(LIMITS.len() + MATERIALS.len() + EXAMPLES.len() >= 60);
    for (rule, row, region, ..) in LIMITS {
        let rows = LIMITS.iter();
        let same = rows.filter(|other| (other.0, other.1, other.2) == (*rule, *row, *region));
        assert_eq!(same.count(), 1, "{rule} {row} {region:?}");
    }
    // No row rests on a rule of thumb: those are no outside values.
    let known = LIMITS.iter().map(|row| row.5);
    let known = known.chain(MATERIALS.iter().map(|row| row.5));
    assert!(
        known
            .chain(EXAMPLES.iter().map(|row| row.5))
            .all(|known| known != CommonPractice)
    );
}
