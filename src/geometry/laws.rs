//! Laws that the operations keep whatever the shapes.

use std::f64::consts::{PI, TAU};

use proptest::prelude::*;

use super::sample::{cases, holed_shape, shape, simple_shape};
use super::{
    Edge, NO_TAG, Outline, Plane, Point, Stretch, Vector, difference_pieces, inset, intersection,
    outset, rounded, shared, union, volumes_between, widened,
};

fn area(pieces: &[Outline]) -> f64 {
    pieces.iter().map(Outline::area).sum()
}

fn perimeter(pieces: &[Outline]) -> f64 {
    pieces.iter().map(Outline::perimeter).sum()
}

fn near(found: f64, wanted: f64) -> bool {
    (found - wanted).abs() <= 1e-9 * wanted.abs().max(1.0)
}

/// Points spread evenly over the boxes of both, those on a side left out.
fn points_over(a: &Outline, b: &Outline) -> Vec<Point> {
    let off = |point: Point| {
        a.distance_to_boundary(point)
            .min(b.distance_to_boundary(point))
    };
    let mut points = Vec::new();
    for outline in [a, b] {
        let (low, high) = outline.bounding_box();
        let at =
            |share: u32, from: f64, to: f64| from + (to - from) * (f64::from(share) + 0.5) / 8.0;
        let row =
            |y: u32| (0..8).map(move |x| Point::new(at(x, low.x, high.x), at(y, low.y, high.y)));
        points.extend((0..8).flat_map(row).filter(|&point| off(point) > 1e-6));
    }
    points
}

fn in_any(pieces: &[Outline], point: Point) -> bool {
    pieces.iter().any(|piece| piece.contains(point))
}

proptest! {
    #![proptest_config(cases(256))]

    #[test]
    fn whole_and_parts_add_up(a in holed_shape(), b in holed_shape()) {
        let common = area(&intersection(&a, &b).unwrap());
        let rest = area(&difference_pieces(&a, &b).unwrap());
        prop_assert!(near(common + rest, a.area()), "{common} + {rest} = {}", a.area());
        if let Ok(both) = union(&a, &b) {
            prop_assert!(near(both.area() + common, a.area() + b.area()));
            prop_assert!(near(both.area(), union(&b, &a).unwrap().area()));
        }
    }

    #[test]
    fn every_point_is_where_it_belongs(a in holed_shape(), b in holed_shape()) {
        let (common, rest) = (intersection(&a, &b).unwrap(), difference_pieces(&a, &b).unwrap());
        let both = union(&a, &b).map_or(vec![a.clone(), b.clone()], |both| vec![both]);
        for point in points_over(&a, &b) {
            let (in_a, in_b) = (a.contains(point), b.contains(point));
            prop_assert_eq!(in_any(&common, point), in_a && in_b, "common, {:?}", point);
            prop_assert_eq!(in_any(&rest, point), in_a && !in_b, "rest, {:?}", point);
            prop_assert_eq!(in_any(&both, point), in_a || in_b, "both, {:?}", point);
        }
    }

    #[test]
    fn every_side_bounds_what_is_common_or_what_is_covered(a in shape(), b in shape()) {
        if let Ok(both) = union(&a, &b) && shared(&a, &b).is_empty() {
            let common = perimeter(&intersection(&a, &b).unwrap());
            let sides = a.perimeter() + b.perimeter();
            prop_assert!((both.perimeter() + common - sides).abs() < 1e-7 * sides);
        }
    }

    #[test]
    fn the_place_on_the_plan_does_not_matter(
        a in shape(), b in shape(), dx in -50.0..50.0f64, dy in -50.0..50.0f64, angle in 0.0..6.3f64,
    ) {
        let Ok(both) = union(&a, &b) else { return Ok(()) };
        let places: [&dyn Fn(&Outline) -> Outline; 3] =
            [&|one| one.moved(dx, dy), &|one| one.turned(angle), &|one| one.mirrored()];
        for place in places {
            let placed = union(&place(&a), &place(&b)).unwrap();
            prop_assert!(near(placed.area(), both.area()));
            prop_assert!(near(placed.perimeter(), both.perimeter()));
            prop_assert_eq!(placed.holes.len(), both.holes.len());
            let wide = widened(&place(&a), 0.15, &|edge| edge.tag != 2).unwrap();
            prop_assert!(near(wide.area(), widened(&a, 0.15, &|edge| edge.tag != 2).unwrap().area()));
        }
    }

    #[test]
    fn size_scales(a in shape(), factor in 0.01..100.0f64) {
        let large = a.scaled(factor);
        prop_assert!((large.area() / (factor * factor) - a.area()).abs() < 1e-9 * a.area());
        prop_assert!((large.perimeter() / factor - a.perimeter()).abs() < 1e-9 * a.perimeter());
    }

    #[test]
    fn sides_follow_each_other_and_enclose_the_shape(a in shape(), b in shape()) {
        for piece in difference_pieces(&a, &b).unwrap() {
            for boundary in piece.loops() {
                for (before, edge, _) in boundary.with_neighbours() {
                    prop_assert_eq!(before.end, edge.start);
                }
            }
            prop_assert!(piece.outer.signed_area() > 0.0);
            prop_assert!(piece.holes.iter().all(|hole| hole.signed_area() < 0.0));
        }
    }

    #[test]
    fn every_side_of_a_result_lies_on_a_side_of_its_tag(a in shape(), b in shape()) {
        let b = b.retagged(|edge| edge.tag + 10);
        let sources: Vec<&Edge> = a.edges().chain(b.edges()).collect();
        for piece in difference_pieces(&a, &b).unwrap() {
            for edge in piece.edges() {
                let on_source = |point: Point| {
                    let lies_on = |source: &&Edge| source.tag == edge.tag && source.distance_to(point) < 1e-7;
                    sources.iter().any(lies_on)
                };
                prop_assert!([edge.start, edge.midpoint(), edge.end].into_iter().all(on_source), "{edge:?}");
            }
        }
    }

    #[test]
    fn extremes_bound_every_point(a in shape(), degrees in 0.0..360.0f64) {
        let direction = Vector::from_bearing(degrees);
        let (least, most) = a.extremes(direction);
        let mut found = (f64::INFINITY, f64::NEG_INFINITY);
        for edge in a.edges() {
            for step in 0..=64 {
                let point = edge.point_at(edge.length() * f64::from(step) / 64.0);
                let value = direction.dot(point - Point::ORIGIN);
                found = (found.0.min(value), found.1.max(value));
            }
        }
        prop_assert!(least <= found.0 + 1e-9 && found.1 <= most + 1e-9);
        prop_assert!(found.0 - least < 0.01 && most - found.1 < 0.01);
    }

    #[test]
    fn widening_covers_the_strip_and_no_more(
        a in shape(), beyond in 0.02..0.6f64, east in 0.0..1.0f64, north in 0.0..1.0f64,
    ) {
        let wide = widened(&a, beyond, &|_| true).unwrap();
        prop_assert!(wide.area() >= a.area());
        let (low, high) = wide.bounding_box();
        let point = Point::new(low.x + (high.x - low.x) * east, low.y + (high.y - low.y) * north);
        let off = a.distance_to_boundary(point);
        if a.contains(point) || off < beyond - 1e-7 {
            prop_assert!(wide.contains(point), "{point:?} is {off} off");
        } else if off > 4.0 * beyond + 1e-7 {
            prop_assert!(!wide.contains(point), "{point:?} is {off} off");
        }
    }

    #[test]
    fn an_inset_keeps_its_distance(
        a in shape(), distance in 0.02..0.6f64, east in 0.0..1.0f64, north in 0.0..1.0f64,
    ) {
        let Ok(smaller) = inset(&a, distance) else { return Ok(()) };
        prop_assert!(smaller.area() < a.area());
        for corner in smaller.corners() {
            prop_assert!(a.contains(corner) && a.distance_to_boundary(corner) > distance - 1e-7);
        }
        let (low, high) = a.bounding_box();
        let point = Point::new(low.x + (high.x - low.x) * east, low.y + (high.y - low.y) * north);
        if a.contains(point) && a.distance_to_boundary(point) > 4.0 * distance + 1e-7 {
            prop_assert!(smaller.contains(point));
        }
    }

    #[test]
    fn two_outsets_of_straight_sides_are_one(
        width in 1.0..5.0f64, depth in 1.0..5.0f64, first in 0.01..0.3f64, second in 0.01..0.3f64,
    ) {
        let square = super::sample::rectangle(0.3, -0.7, width, depth);
        let twice = outset(&outset(&square, first).unwrap(), second).unwrap();
        let once = outset(&square, first + second).unwrap();
        prop_assert!(near(twice.area(), once.area()) && near(twice.perimeter(), once.perimeter()));
        let back = inset(&once, first + second).unwrap();
        prop_assert!(near(back.area(), square.area()));
        let inner = inset(&inset(&square, first).unwrap(), second / 2.0);
        prop_assert!(near(inner.map_or(0.0, |inner| inner.area()), inset(&square, first + second / 2.0).map_or(0.0, |inner| inner.area())));
    }

    #[test]
    fn sides_that_stay_are_not_passed(a in shape(), beyond in 0.02..0.4f64, fixed in 0..5u32) {
        let wide = widened(&a, beyond, &|edge| edge.tag != fixed).unwrap();
        let all = widened(&a, beyond, &|_| true).unwrap();
        prop_assert!(wide.area() >= a.area() - 1e-9);
        let none = widened(&a, beyond, &|_| false).unwrap();
        prop_assert!(near(none.area(), a.area()) && near(none.perimeter(), a.perimeter()));
        let first = all.area();
        prop_assert!(wide.area() <= first + 16.0 * beyond * beyond * a.edges().count() as f64);
    }

    #[test]
    fn sharing_is_mutual(a in simple_shape(), b in simple_shape()) {
        let along: f64 = shared(&a, &b).iter().map(Stretch::length).sum();
        let back: f64 = shared(&b, &a).iter().map(Stretch::length).sum();
        prop_assert!((along - back).abs() < 5e-3, "{along}, {back}");
    }

    #[test]
    fn what_is_cut_shares_the_sides_of_the_cut(a in simple_shape(), b in simple_shape()) {
        let b = b.retagged(|edge| edge.tag + 10);
        for piece in difference_pieces(&a, &b).unwrap() {
            let cut: f64 = piece.edges().filter(|edge| edge.tag >= 10).map(Edge::length).sum();
            let along: f64 = shared(&piece, &b).iter().map(Stretch::length).sum();
            prop_assert!(along > cut - 5e-3, "{along} of {cut}");
        }
    }

    #[test]
    fn any_numbers_give_an_outline_or_a_fault(
        numbers in prop::collection::vec(prop_oneof![any::<f64>(), -4.0..4.0f64, Just(0.0), Just(1.0)], 5..40),
        distance in prop_oneof![any::<f64>(), 0.0..2.0f64],
    ) {
        let edges = numbers.chunks_exact(5).map(|side| {
            Edge::arc(Point::new(side[0], side[1]), Point::new(side[2], side[3]), side[4], NO_TAG)
        });
        let corners: Vec<Point> = numbers.chunks_exact(3).map(|side| Point::new(side[0], side[1])).collect();
        let bulges: Vec<f64> = numbers.chunks_exact(3).map(|side| side[2]).collect();
        let path = corners.iter().zip(corners.iter().cycle().skip(1)).zip(bulges);
        let path = path.map(|((&start, &end), bulge)| Edge::arc(start, end, bulge, 1));
        for outline in [Outline::new(edges.collect()), Outline::new(path.collect())].into_iter().flatten() {
            prop_assert!(outline.area().is_finite() && outline.area() > 0.0);
            for moved in [outset(&outline, distance), inset(&outline, distance)].into_iter().flatten() {
                prop_assert!(moved.area().is_finite() && moved.area() > 0.0);
            }
        }
    }

    #[test]
    fn rounding_every_corner_takes_off_the_fillets(
        angles in prop::array::uniform5(0.3..1.2f64), size in 2.0..6.0f64, radius in 0.05..0.4f64,
    ) {
        let whole: f64 = angles.iter().sum();
        let mut bearing = 0.0;
        let corners = angles.map(|angle| {
            bearing += angle / whole * TAU;
            Point::ORIGIN + Vector::new(0.0, size).turned(bearing)
        });
        let sharp = Outline::polygon(&corners, |_| 0).unwrap();
        let mut sides = sharp.outer.edges.clone();
        let mut arcs = Vec::new();
        for place in 0..5 {
            let next = (place + 1) % 5;
            let Ok([before, arc, after]) = rounded(&sides[place], &sides[next], radius, 1) else { return Ok(()) };
            (sides[place], sides[next]) = (before, after);
            arcs.push(arc);
        }
        // Closed form: a fillet that turns by t takes off r² (tan(t/2) − t/2).
        let cut: f64 = arcs.iter().map(|arc| radius * radius * ((arc.sweep() / 2.0).tan() - arc.sweep() / 2.0)).sum();
        let soft = Outline::new(sides.into_iter().zip(arcs).flat_map(|(side, arc)| [side, arc]).collect()).unwrap();
        prop_assert!(near(soft.area(), sharp.area() - cut));
        let wide = outset(&soft, 0.15).unwrap();
        prop_assert!(near(wide.area(), soft.area() + 0.15 * soft.perimeter() + PI * 0.15 * 0.15));
        let narrow = inset(&wide, 0.15).unwrap();
        prop_assert!(near(narrow.area(), soft.area()) && near(narrow.perimeter(), soft.perimeter()));
    }

    #[test]
    fn a_level_volume_is_area_times_height(a in shape(), height in 0.01..2.0f64) {
        let found = volumes_between(&a, &Plane::level(height), &Plane::level(0.0));
        prop_assert!(near(found.above, a.area() * height) && found.below == 0.0);
    }
}
