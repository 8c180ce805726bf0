//! Worked examples of hydraulics from published courses, calculation sheets
//! and codes, each named with its source.
//!
//! "Printed" examples give the answer that the document prints, within its
//! rounding; "read; arithmetic ours" ones are worked from what it prints.

use super::{Bore, Chamber, Method, Pipe, Rectangle, Section, Storm, peak_flow, size};

struct Example {
    source: &'static str,
    says: &'static str,
    expected: f64,
    /// How far off the figure may be, as a share of what is expected.
    within: f64,
    found: f64,
}

const EXACT: f64 = 1e-9;
const FOOT: f64 = 0.3048;
const SQUARE_FOOT: f64 = FOOT * FOOT;
const CUBIC_FOOT: f64 = SQUARE_FOOT * FOOT;
const INCH: f64 = 0.0254;
const HOUR: f64 = 3_600.0;
const ACRE: f64 = 43_560.0 * SQUARE_FOOT;
const GALLONS_A_MINUTE: f64 = 231.0 * INCH * INCH * INCH / 60.0;
const LITRE: f64 = 1e-3;
const MILLIMETRE: f64 = 1e-3;

const SAN_DIEGO: &str =
    "San Diego State University, CIVE 530, midterm solutions, 2007 and 2008 (read)";
const MOTT: &str = "Mott, Applied Fluid Mechanics, as run in a CRAN package's document, Manning Examples using iemiscdata, 2024 (read)";
const STURM: &str = "Sturm, Open Channel Hydraulics, as run in the same document (read)";
const VIGNETTE: &str = "CRAN package hydraulics, vignette (read)";
const BENGTSON: &str = "Bengtson, Partially Full Pipe Flow course, p. 21 (read)";
const UPC: &str = "Uniform Plumbing Code, appendix D, D 3 (read)";
const NEW_YORK: &str = "New York City Plumbing Code 1114.3.1 (read; arithmetic ours)";
const PARKING: &str = "Worked example of the rational method for a parking lot (read)";
const NRCS: &str =
    "NRCS Hydrology Training Series 206 D, as data of a CRAN package (read; arithmetic ours)";
const GUTTERS: &str = "Metal gutter makers' sheet on BS EN 12056-3:2000, 2012 (read)";
const MANNING: &str = "Manning's formula (computed)";
const SHEET_2008: &str = "Calculation sheet to BRE Digest 365, 14 May 2008 (read)";
const SHEET_2017: &str = "Calculation sheet to BRE Digest 365, February 2017 (read)";
const CNC: &str = "CNC Building Control, questions on soakaways (read)";
const TOWNSHIP: &str = "Pennsylvania township ordinance, infiltration trench example (read)";
const APPROVED_H3: &str = "Approved Document H3, by two councils (second hand; arithmetic ours)";
const DRY_WELL: &str = "US dry well fact sheet, a storm of 2 in (read; arithmetic ours)";
const RUTGERS: &str = "Rutgers on rain gardens, by a CRAN package's help (read)";

fn open(width_m: f64, n: f64, slope: f64) -> Rectangle {
    Rectangle { width_m, n, slope }
}

fn pipe(bore_m: f64, n: f64, slope: f64) -> Pipe {
    Pipe { bore_m, n, slope }
}

/// A flow in US gallons a minute through a pipe of so many inches that falls
/// so many eighths of an inch a foot.
fn gallons(inches: f64, n: f64, eighths: f64) -> f64 {
    pipe(inches * INCH, n, eighths / 96.0).full() / GALLONS_A_MINUTE
}

/// Runoff of parts, each acres and its coefficient, in cubic feet a second.
fn acres(parts: &[(f64, f64)], factor: f64, inches_an_hour: f64) -> f64 {
    let weighted: f64 = parts.iter().map(|(acres, c)| acres * c * factor).sum();
    peak_flow(weighted * ACRE, inches_an_hour * INCH / HOUR) / CUBIC_FOOT
}

fn weighted_mean(parts: &[(f64, f64)]) -> f64 {
    let area: f64 = parts.iter().map(|(area, _)| area).sum();
    parts.iter().map(|(area, c)| area * c).sum::<f64>() / area
}

/// How fast ground takes water, from a test pit: what goes from three
/// quarters to one, over base and sides to half depth.
fn tested(length: f64, width: f64, depth: f64, seconds: f64) -> f64 {
    let pit = Chamber::rectangular(length, width, depth, 1.0);
    pit.holds_m3() / 2.0 / (pit.soaking_m2(Method::SidesAndBase) * seconds)
}

/// The storms of the 2017 sheet, of ten years: five years' depths and their
/// growth.
fn storms_2017() -> Vec<Storm> {
    const STORMS: [(f64, f64, f64); 11] = [
        (10.0, 10.4, 1.22),
        (15.0, 12.6, 1.23),
        (30.0, 16.0, 1.24),
        (60.0, 20.0, 1.24),
        (120.0, 24.2, 1.24),
        (240.0, 29.0, 1.22),
        (360.0, 32.0, 1.21),
        (600.0, 35.8, 1.20),
        (1_440.0, 44.8, 1.18),
        (2_880.0, 52.4, 1.17),
        (5_760.0, 61.0, 1.15),
    ];
    let storm = |(minutes, depth, growth): (f64, f64, f64)| Storm {
        depth_m: depth * growth * MILLIMETRE,
        duration_s: minutes * 60.0,
    };
    STORMS.into_iter().map(storm).collect()
}

/// The trench of the 2017 sheet's inputs, under its first so many storms.
fn trench_2017(storms: usize) -> super::Sizing {
    let trench = Chamber::rectangular(23.0, 5.0, 0.8, 0.3);
    let storms = &storms_2017()[..storms];
    size(&trench, Method::Sides, 690.0, storms, 8.5e-6).unwrap()
}

/// What comes in the storm of this place off a roof of 690 m².
fn comes_2017(storm: usize) -> f64 {
    690.0 * storms_2017()[storm].depth_m
}

fn example(
    source: &'static str,
    says: &'static str,
    expected: f64,
    within: f64,
    found: f64,
) -> Example {
    Example {
        source,
        says,
        expected,
        within,
        found,
    }
}

fn flowing() -> Vec<Example> {
    let first = open(5.0, 0.015, 0.0025).section(0.8);
    let half = pipe(0.2, 0.013, 0.001);
    let six = pipe(6.0 * FOOT, 0.024, 0.002);
    let mott = open(2.0, 0.017, 0.012);
    let depth = mott.depth(12.0).unwrap();
    let sturm = pipe(2.0 * FOOT, 0.013, 0.001).section(1.6 * FOOT);
    let trapezoid = Section {
        area_m2: 69.0 * SQUARE_FOOT,
        wetted_m: (20.0 + 6.0 * 2f64.sqrt()) * FOOT,
    };
    let plastic = Bore::Plastic.roughness().n;
    let in_litres = |flow: f64| flow / LITRE;
    vec![
        example(
            SAN_DIEGO,
            "5 m wide, 0.8 deep: R",
            0.606,
            1e-3,
            first.radius(),
        ),
        example(
            SAN_DIEGO,
            "its velocity",
            2.387,
            1e-4,
            first.velocity(0.015, 0.0025),
        ),
        example(
            SAN_DIEGO,
            "its flow",
            9.548,
            1e-4,
            first.flow(0.015, 0.0025),
        ),
        example(
            SAN_DIEGO,
            "6 m wide, 1.6 deep",
            32.91,
            5e-4,
            open(6.0, 0.015, 0.0025).flow(1.6),
        ),
        example(
            MOTT,
            "200 mm half full: Q",
            0.005_185_889,
            1e-6,
            half.part_full(0.1),
        ),
        example(
            MOTT,
            "its area",
            0.015_707_96,
            1e-6,
            half.section(0.1).area_m2,
        ),
        example(
            MOTT,
            "its wetted length",
            0.314_159_3,
            1e-6,
            half.section(0.1).wetted_m,
        ),
        example(
            MOTT,
            "6 ft half full",
            51.292_67,
            1e-6,
            six.part_full(3.0 * FOOT) / CUBIC_FOOT,
        ),
        example(MOTT, "depth of 12 m³/s", 1.347_974, 1e-5, depth),
        example(
            MOTT,
            "its velocity",
            4.451_124,
            1e-5,
            mott.section(depth).velocity(0.017, 0.012),
        ),
        example(
            MOTT,
            "best section",
            0.8784,
            1e-3,
            open(1.75774, 0.017, 0.012).depth(5.75).unwrap(),
        ),
        example(
            STURM,
            "0.8 full: area",
            2.694_297,
            1e-6,
            sturm.area_m2 / SQUARE_FOOT,
        ),
        example(
            STURM,
            "its wetted length",
            4.428_595,
            1e-6,
            sturm.wetted_m / FOOT,
        ),
        example(STURM, "its R", 0.608_386_5, 1e-6, sturm.radius() / FOOT),
        example(
            VIGNETTE,
            "depth of 10 l/s",
            0.157_828,
            1e-5,
            half.depth(0.010).unwrap(),
        ),
        example(VIGNETTE, "full", 0.010_371_8, 1e-5, half.full()),
        // The vignette prints 0.00088: its root finder is coarser than the
        // slope that it looks for.
        example(
            VIGNETTE,
            "slope",
            0.000_853,
            1e-3,
            trapezoid.slope(0.015, 360.0 * CUBIC_FOOT),
        ),
        example(
            BENGTSON,
            "depth of 18 cfs",
            1.50,
            3e-3,
            open(4.0 * FOOT, 0.013, 0.000_84)
                .depth(18.0 * CUBIC_FOOT)
                .unwrap()
                / FOOT,
        ),
        example(
            MANNING,
            "100 × 100 channel full at 0.5 %",
            6.658,
            1e-4,
            in_litres(open(0.1, 0.011, 0.005).flow(0.1)),
        ),
        example(
            MANNING,
            "100 × 75",
            4.655,
            1e-4,
            in_litres(open(0.1, 0.011, 0.005).flow(0.075)),
        ),
        example(
            MANNING,
            "150 × 100 at 1 %",
            16.700,
            1e-4,
            in_litres(open(0.15, 0.011, 0.01).flow(0.1)),
        ),
        example(
            MANNING,
            "100 mm pipe at 1:100",
            6.105,
            1e-4,
            in_litres(pipe(0.1, plastic, 0.01).full()),
        ),
        example(
            MANNING,
            "at 1:80",
            6.825,
            1e-4,
            in_litres(pipe(0.1, plastic, 1.0 / 80.0).full()),
        ),
        example(
            MANNING,
            "at 1:40",
            9.652,
            1e-4,
            in_litres(pipe(0.1, plastic, 0.025).full()),
        ),
        example(
            MANNING,
            "150 mm at 1:150",
            14.696,
            1e-4,
            in_litres(pipe(0.15, plastic, 1.0 / 150.0).full()),
        ),
        example(
            MANNING,
            "4 in at 1/8 in a foot, n 0.013",
            87.18,
            3e-4,
            gallons(4.0, 0.013, 1.0),
        ),
        example(MANNING, "n 0.009", 125.93, 3e-4, gallons(4.0, 0.009, 1.0)),
        example(MANNING, "at 1/4 in", 123.29, 3e-4, gallons(4.0, 0.013, 2.0)),
        example(
            MANNING,
            "3 in at 1/8",
            40.48,
            3e-4,
            gallons(3.0, 0.013, 1.0),
        ),
        example(
            MANNING,
            "6 in at 1/8",
            257.04,
            3e-4,
            gallons(6.0, 0.013, 1.0),
        ),
    ]
}

fn raining() -> Vec<Example> {
    let an_hour = |inches: f64| inches * INCH / HOUR;
    let gallons = |flow: f64| flow / GALLONS_A_MINUTE;
    let parking = [(2.2, 0.92), (0.4, 0.24), (0.2, 0.95)];
    let first = [(6.0, 0.40), (3.0, 0.15), (3.0, 0.90)];
    let second = [(1.0, 0.35), (10.0, 0.50), (2.0, 0.90), (5.0, 0.60)];
    let new_york = 400.0 * 0.95 + 600.0 * 0.70 + 1_000.0 * 0.20;
    let new_york = peak_flow(new_york * SQUARE_FOOT, an_hour(5.95));
    // The table allows 6 in at 1/8 in a foot 222.3 gallons a minute.
    let code = 222.3 * GALLONS_A_MINUTE / peak_flow(SQUARE_FOOT, an_hour(3.2));
    let metre = |rate: f64| peak_flow(1.0, rate * MILLIMETRE / HOUR) / LITRE;
    let gulf = Storm {
        depth_m: 4.6 * INCH,
        duration_s: HOUR,
    };
    vec![
        example(UPC, "6 in drain at 3.2 in/h", 6_687.5, 5e-4, code),
        example(
            PARKING,
            "mean runoff",
            0.825,
            EXACT,
            weighted_mean(&parking),
        ),
        example(
            NRCS,
            "example 1: mean runoff",
            0.4625,
            EXACT,
            weighted_mean(&first),
        ),
        example(NRCS, "its flow", 31.3950, 1e-5, acres(&first, 1.1, 5.1)),
        example(
            NRCS,
            "example 2: mean runoff",
            0.563_889,
            1e-6,
            weighted_mean(&second),
        ),
        example(
            NRCS,
            "its flow, raised by 1.25",
            69.7813 * 1.008_333_3,
            1e-5,
            acres(&second, 1.25, 5.5),
        ),
        example(
            NEW_YORK,
            "concrete, permeable pavers and grass",
            0.137_731,
            1e-5,
            new_york / CUBIC_FOOT,
        ),
        example(
            NEW_YORK,
            "the same in gallons",
            61.818,
            1e-5,
            gallons(new_york),
        ),
        example(GUTTERS, "150 mm/h on 1 m²", 0.041_666_7, 1e-6, metre(150.0)),
        example(GUTTERS, "0.022 l/s on 1 m²", 0.022, EXACT, metre(79.2)),
        example(GUTTERS, "0.010 l/s on 1 m²", 0.010, EXACT, metre(36.0)),
        example(
            "International Plumbing Code 2018, appendix B, Mobile (read; arithmetic ours)",
            "4.6 in/h on 1,000 ft²",
            4_600.0 / 96.25,
            1e-9,
            gallons(peak_flow(1_000.0 * SQUARE_FOOT, gulf.rate())),
        ),
    ]
}

fn soaking() -> Vec<Example> {
    let soak = Chamber::rectangular(2.0, 1.5, 1.5, 0.3);
    let f = tested(1.0, 0.75, 1.0, 56.0 * 60.0);
    let soaks = soak.soaking_m2(Method::Sides) * f;
    let printed = Storm {
        depth_m: 1.0403 + soaks * 600.0,
        duration_s: 600.0,
    };
    let half = size(&soak, Method::Sides, 1.0, &[printed], f).unwrap();
    let whole = trench_2017(11);
    let need = |storms: usize| trench_2017(storms).need_m3;
    let depth = |storm: usize| storms_2017()[storm].depth_m / MILLIMETRE;
    // What a roof or a yard of so much sheds in a storm of so much, where
    // none of it soaks away meanwhile.
    let shed = |area: f64, depth: f64| {
        let storm = Storm {
            depth_m: depth,
            duration_s: HOUR,
        };
        size(&soak, Method::Base, area, &[storm], 1e-5)
            .unwrap()
            .need_m3
    };
    let township = shed(824.0 * SQUARE_FOOT, 2.04 * INCH);
    let two_inches = shed(600.0 * SQUARE_FOOT, 2.0 * INCH);
    let small = shed(25.0, 0.010);
    let rule = shed(50.0, 0.050 / 3.0);
    let garden = shed(1_312.5 * SQUARE_FOOT, 1.5 * INCH);
    vec![
        // The sheet prints 44.610e-6 and rounds the volume to 0.38.
        example(
            SHEET_2008,
            "infiltration by the test pit",
            44.643e-6,
            1e-4,
            f,
        ),
        example(
            SHEET_2008,
            "sides to half depth",
            5.25,
            EXACT,
            soak.soaking_m2(Method::Sides),
        ),
        example(SHEET_2008, "soaks away", 234.10e-6, 2e-3, soaks),
        // Printed 1.3.
        example(SHEET_2008, "storage", 1.35, EXACT, soak.holds_m3()),
        example(
            SHEET_2008,
            "half empty",
            37.0 * 60.0 + 1.0,
            2e-3,
            half.empties_need_s,
        ),
        example(SHEET_2017, "10 min of ten years", 12.69, 1e-3, depth(0)),
        example(SHEET_2017, "4 h", 35.38, 1e-3, depth(5)),
        example(SHEET_2017, "24 h", 52.86, 1e-3, depth(8)),
        example(SHEET_2017, "690 m² in 10 min", 8.75, 1e-3, comes_2017(0)),
        example(SHEET_2017, "in 60 min", 17.11, 1e-3, comes_2017(3)),
        example(SHEET_2017, "in 10 h", 29.64, 1e-3, comes_2017(7)),
        // 36.473, printed 36.48.
        example(SHEET_2017, "in 24 h", 36.48, 1e-3, comes_2017(8)),
        example(SHEET_2017, "in 96 h", 48.40, 1e-3, comes_2017(10)),
        example(
            SHEET_2017,
            "10 min in a trench (arithmetic ours)",
            8.642,
            1e-3,
            need(1),
        ),
        example(SHEET_2017, "4 h (arithmetic ours)", 21.670, 1e-3, need(6)),
        example(
            SHEET_2017,
            "the largest, 10 h (arithmetic ours)",
            22.788,
            1e-3,
            whole.need_m3,
        ),
        example(SHEET_2017, "its place", 7.0, 0.0, whole.storm as f64),
        example(
            SHEET_2017,
            "half empty (arithmetic ours)",
            16.62,
            1e-3,
            whole.empties_need_s / HOUR,
        ),
        example(
            SHEET_2017,
            "30 % of stone holds",
            27.6,
            EXACT,
            Chamber::rectangular(23.0, 5.0, 0.8, 0.3).holds_m3(),
        ),
        example(
            "Calculation sheet to BRE Digest 365, Lichfield Park, February 2008 (read)",
            "infiltration",
            3.247e-5,
            1e-3,
            tested(1.6, 0.6, 0.65, 4_020.0),
        ),
        example(CNC, "50 m² by the rule, in crates", 0.84, 1e-2, rule),
        example(CNC, "in rubble", 2.8, 1e-2, rule / 0.3),
        example(
            TOWNSHIP,
            "824 ft² and 2.04 in",
            140.0,
            1e-3,
            township / CUBIC_FOOT,
        ),
        example(
            TOWNSHIP,
            "in stone of 40 %",
            350.0,
            1e-3,
            township / 0.4 / CUBIC_FOOT,
        ),
        example(APPROVED_H3, "25 m² and 10 mm", 0.25, EXACT, small),
        example(APPROVED_H3, "in rubble of 30 %", 0.833, 1e-3, small / 0.3),
        example(APPROVED_H3, "in crates of 95 %", 0.263, 1e-3, small / 0.95),
        example(DRY_WELL, "600 ft²", 100.0, EXACT, two_inches / CUBIC_FOOT),
        example(
            DRY_WELL,
            "in stone of 40 %",
            250.0,
            EXACT,
            two_inches / 0.4 / CUBIC_FOOT,
        ),
        example(
            RUTGERS,
            "driveways and part of a roof, 1.5 in",
            164.06,
            1e-4,
            garden / CUBIC_FOOT,
        ),
    ]
}

#[test]
fn worked_examples_come_out() {
    let examples: Vec<Example> = [flowing(), raining(), soaking()]
        .into_iter()
        .flatten()
        .collect();
    for Example {
        source,
        says,
        expected,
        within,
        found,
    } in &examples
    {
        let off = (found - expected).abs();
        let allowed = within * expected.abs() + f64::EPSILON;
        assert!(
            off <= allowed,
            "{source}: {says}: {found}, printed {expected}"
        );
    }
    assert!(!trench_2017(11).is_open && trench_2017(8).is_open);
}
