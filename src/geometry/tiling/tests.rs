use proptest::prelude::*;

use super::super::sample::{cases, close, holed_shape, polygon, rectangle};
use super::super::{Edge, Facet, Outline, Point, Vector, facets};
use super::{Tiled, Tiling, Unit};

/// Units of 200 mm by 100 mm with a joint, in a pattern turned by degrees.
fn tiling(pattern: &str, joint: f64, degrees: f64) -> Tiling {
    let (length, width) = (0.2 + joint, 0.1 + joint);
    let way = Vector::new;
    let flat = |x, y| Unit {
        corner: way(x, y),
        size: way(0.2, 0.1),
        is_turned: false,
    };
    let turned = |x, y| Unit {
        corner: way(x, y),
        size: way(0.1, 0.2),
        is_turned: true,
    };
    let (units, steps) = match pattern {
        "stack" => (vec![flat(0.0, 0.0)], [way(length, 0.0), way(0.0, width)]),
        "running" => (
            vec![flat(0.0, 0.0)],
            [way(length, 0.0), way(0.5 * length, width)],
        ),
        "basket" => (
            vec![
                flat(0.0, 0.0),
                flat(0.0, 0.5 * length),
                turned(length, 0.0),
                turned(1.5 * length, 0.0),
            ],
            [way(length, length), way(length, -length)],
        ),
        _ => (
            vec![flat(0.0, 0.0), turned(length, width - length)],
            [way(width, width), way(length, -length)],
        ),
    };
    Tiling {
        origin: Point::ORIGIN,
        along: way(1.0, 0.0).turned(f64::to_radians(degrees)),
        units,
        steps,
    }
}

fn laid(tiling: &Tiling, over: &Outline) -> Tiled {
    tiling.over(std::slice::from_ref(over), &[]).unwrap()
}

/// Whole and cut units of 200 mm by 100 mm, butt, of stack bond, running bond,
/// basket weave and herringbone at 0° and 45°, from a corner: worked out with
/// Shapely over each unit of the pattern. Of the first shape the published
/// rule "one block width in four is cut" of a herringbone's straight edge is
/// met: 50 cuts on 200 widths.
#[test]
fn units_are_counted_as_shapely_counts_them() {
    let ell = [(0., 0.), (6., 0.), (6., 2.), (4., 2.), (4., 4.), (0., 4.)];
    let round = Outline::circle(Point::new(2.5, 2.5), 2.0, 0).unwrap();
    for (outline, wanted) in [
        (
            rectangle(0.0, 0.0, 6.0, 4.0),
            [(1200, 0), (1180, 40), (1200, 0), (1175, 50), (1107, 162)],
        ),
        (
            rectangle(0.0, 0.0, 5.95, 3.97),
            [(1131, 69), (1131, 89), (1126, 74), (1126, 99), (1107, 162)],
        ),
        (
            rectangle(0.0, 0.0, 3.0, 3.0),
            [(450, 0), (435, 30), (450, 0), (435, 30), (400, 95)],
        ),
        (
            round,
            [(570, 118), (569, 113), (570, 118), (569, 113), (565, 122)],
        ),
        (
            polygon(&ell),
            [(1000, 0), (980, 40), (1000, 0), (975, 50), (911, 162)],
        ),
    ] {
        let patterns = [
            ("stack", 0.0),
            ("running", 0.0),
            ("basket", 0.0),
            ("herringbone", 0.0),
            ("herringbone", 45.0),
        ];
        for ((pattern, degrees), wanted) in patterns.into_iter().zip(wanted) {
            let found = laid(&tiling(pattern, 0.0, degrees), &outline);
            assert_eq!(
                (found.whole, found.cuts.len()),
                wanted,
                "{pattern} {degrees}"
            );
            assert!(close(found.whole_m2 + found.cuts_m2(), outline.area()));
        }
    }
}

/// Units of 200 mm by 100 mm, butt, over a rectangle whose sides fall to a
/// point: those that lie whole, those that an edge cuts and those that lie over
/// a valley alone, worked out with Shapely as above.
#[test]
fn units_over_valleys_are_counted_as_shapely_counts_them() {
    for (size, to, wanted) in [
        (
            (6.0, 4.0),
            (2.0, 1.0),
            [
                (1100, 0, 100),
                (1063, 40, 117),
                (1050, 50, 125),
                (971, 162, 136),
            ],
        ),
        (
            (6.0, 4.0),
            (3.0, 2.0),
            [
                (1080, 0, 120),
                (1063, 40, 117),
                (1050, 50, 125),
                (995, 162, 112),
            ],
        ),
        (
            (5.95, 3.97),
            (2.5, 2.1),
            [
                (1000, 69, 131),
                (1000, 89, 131),
                (991, 99, 135),
                (985, 162, 122),
            ],
        ),
    ] {
        let court = rectangle(0.0, 0.0, size.0, size.1);
        let facets = facets(&court, 0.0, Point::new(to.0, to.1), 0.02).unwrap();
        let valleys: Vec<Edge> = facets.iter().map(Facet::valley).collect();
        let patterns = [
            ("stack", 0.0),
            ("running", 0.0),
            ("herringbone", 0.0),
            ("herringbone", 45.0),
        ];
        for ((pattern, degrees), wanted) in patterns.into_iter().zip(wanted) {
            let over = std::slice::from_ref(&court);
            let tiling = tiling(pattern, 0.0, degrees);
            let found = tiling.over(over, &valleys).unwrap();
            assert_eq!(
                (found.whole, found.cuts.len(), found.folded),
                wanted,
                "{pattern} {degrees}"
            );
            // Without joints every valley is sawn from end to end, and nothing
            // else is besides what is sawn without them.
            let cuts = |of: &Tiled| of.cuts.iter().map(|cut| cut.cut_m).sum::<f64>();
            let plain = cuts(&tiling.over(over, &[]).unwrap());
            let sawn = cuts(&found) + found.folded_cut_m - plain;
            let valleys: f64 = valleys.iter().map(Edge::length).sum();
            assert!((sawn - valleys).abs() < 1e-3, "{sawn} of {valleys}");
        }
    }
}

#[test]
fn a_cut_knows_what_is_left_of_its_unit() {
    // A strip 250 mm long and 160 mm wide: one unit whole, the next one halved
    // twice over.
    let strip = rectangle(0.0, 0.0, 0.25, 0.16);
    let found = laid(&tiling("stack", 0.0, 0.0), &strip);
    let mut left: Vec<_> = found
        .cuts
        .iter()
        .map(|cut| [cut.length_m, cut.width_m, cut.cut_m].map(|side| (side * 1e6).round()))
        .collect();
    left.sort_by(|a, b| a[0].total_cmp(&b[0]).then(a[1].total_cmp(&b[1])));
    assert_eq!(found.whole, 1);
    assert_eq!(
        left,
        [
            [50_000.0, 60_000.0, 110_000.0],
            [50_000.0, 100_000.0, 100_000.0],
            [200_000.0, 60_000.0, 200_000.0],
        ]
    );
}

#[test]
fn more_than_can_be_laid_is_refused() {
    let wide = rectangle(0.0, 0.0, 400.0, 400.0);
    let fine = tiling("stack", 0.0, 0.0);
    assert!(fine.over(std::slice::from_ref(&wide), &[]).is_err());
    let stuck = Tiling {
        steps: [Vector::new(1.0, 0.0), Vector::new(2.0, 0.0)],
        ..fine
    };
    assert!(stuck.over(&[wide], &[]).is_err());
}

proptest! {
    #![proptest_config(cases(96))]

    #[test]
    fn units_without_joints_cover_all(
        outline in holed_shape(), degrees in -90.0..90.0f64,
        pattern in prop_oneof![Just("stack"), Just("running"), Just("basket"), Just("herringbone")],
    ) {
        let butt = laid(&tiling(pattern, 0.0, degrees), &outline);
        // Less than a millionth of a unit is taken for none.
        let off = (butt.whole_m2 + butt.cuts_m2() - outline.area()).abs();
        prop_assert!(off <= 1e-6 * outline.area(), "{off}");
        let jointed = laid(&tiling(pattern, 0.01, degrees), &outline);
        // What is smaller than a unit may lie in one, clear of its joints.
        let covered = jointed.whole_m2 + jointed.cuts_m2();
        prop_assert!(covered < outline.area() || outline.area() < 0.2 * 0.1);
        for cut in &butt.cuts {
            prop_assert!(cut.area_m2 <= cut.length_m * cut.width_m + 1e-9);
            prop_assert!(cut.length_m <= 0.2 + 1e-9 && cut.width_m <= 0.1 + 1e-9);
        }
    }

    #[test]
    fn a_job_that_is_turned_is_cut_the_same(
        outline in holed_shape(), turn in -180.0..180.0f64,
        pattern in prop_oneof![Just("stack"), Just("running"), Just("basket"), Just("herringbone")],
    ) {
        let own = laid(&tiling(pattern, 0.003, 0.0), &outline);
        let turned = laid(&tiling(pattern, 0.003, turn), &outline.turned(turn.to_radians()));
        // A unit may be grazed by no more than what rounding makes of it.
        let grazed = own.whole.abs_diff(turned.whole) + own.cuts.len().abs_diff(turned.cuts.len());
        prop_assert!(grazed <= 2, "{} {}", own.whole, turned.whole);
        prop_assert!((own.whole_m2 + own.cuts_m2() - turned.whole_m2 - turned.cuts_m2()).abs() < 1e-6);
        let length = |tiled: &Tiled| tiled.cuts.iter().map(|cut| cut.cut_m).sum::<f64>();
        let (own_m, turned_m) = (length(&own), length(&turned));
        prop_assert!((own_m - turned_m).abs() < 0.01 * own_m.max(1.0), "{own_m} {turned_m}");
    }
}

#[test]
fn a_hole_takes_out_what_lies_in_it() {
    let court = rectangle(0.0, 0.0, 2.0, 2.0);
    let pit = Outline::circle(Point::new(1.0, 1.0), 0.4, 9).unwrap();
    let ring = super::super::difference(&court, &pit).unwrap();
    let found = laid(&tiling("running", 0.0, 0.0), &ring);
    assert!(close(found.whole_m2 + found.cuts_m2(), ring.area()));
    let round: f64 = pit.edges().map(Edge::length).sum();
    let cut: f64 = found.cuts.iter().map(|cut| cut.cut_m).sum();
    // The pit is cut round whole, and every other row ends in half a unit.
    assert!((cut - round - 20.0 * 0.1).abs() < 1e-4, "{cut} {round}");
}
