//! Random outlines: of straight and round sides, on a grid and off it.

use std::f64::consts::TAU;

use drylay::geometry::{Edge, Outline, Point, Vector};

use crate::random::Random;

/// An outline of one of several kinds, about `size` metres across and within
/// as much of the origin.
pub fn outline(random: &mut Random, size: f64) -> Outline {
    loop {
        let made = match random.below(6) {
            0 => rectangle(random, size),
            1 => round(random, size),
            2 => stair(random, size),
            3 => turned(random, size),
            _ => star(random, size),
        };
        if let Some(outline) = made {
            return outline;
        }
    }
}

/// An outline of straight sides only.
pub fn straight(random: &mut Random, size: f64) -> Outline {
    loop {
        let outline = outline(random, size);
        if !outline.edges().any(Edge::is_arc) {
            return outline;
        }
    }
}

fn place(random: &mut Random, size: f64) -> Point {
    // Half of them on a grid, so that sides fall together and corners touch.
    let mut coordinate = || {
        if random.once_in(2) {
            random.step(-size, size, 0.5)
        } else {
            random.between(-size, size)
        }
    };
    Point::new(coordinate(), coordinate())
}

fn rectangle(random: &mut Random, size: f64) -> Option<Outline> {
    let corner = place(random, size);
    let (width, depth) = (random.step(0.5, size, 0.5), random.step(0.5, size, 0.5));
    Outline::rectangle(corner, width, depth, [0, 1, 2, 3]).ok()
}

fn round(random: &mut Random, size: f64) -> Option<Outline> {
    let centre = place(random, size);
    Outline::circle(centre, random.step(0.5, size / 2.0, 0.25), 0).ok()
}

/// Steps east and north, and straight back.
fn stair(random: &mut Random, size: f64) -> Option<Outline> {
    let start = place(random, size);
    let steps = 1 + random.below(3);
    let mut corners = vec![start];
    let mut at = start;
    for _ in 0..steps {
        at = at + Vector::new(0.0, random.step(0.5, size / 2.0, 0.5));
        corners.push(at);
        at = at + Vector::new(random.step(0.5, size / 2.0, 0.5), 0.0);
        corners.push(at);
    }
    corners.push(Point::new(at.x, start.y));
    corners.reverse();
    Outline::polygon(&corners, |side| side as u32).ok()
}

fn turned(random: &mut Random, size: f64) -> Option<Outline> {
    Some(stair(random, size)?.turned(random.between(0.0, TAU)))
}

/// Corners at growing bearings round a point, some sides bowed.
fn star(random: &mut Random, size: f64) -> Option<Outline> {
    let centre = place(random, size);
    let count = 3 + random.below(6);
    let corners: Vec<Point> = (0..count)
        .map(|number| {
            let angle = (number as f64 + random.between(0.1, 0.9)) / count as f64 * TAU;
            centre + Vector::new(random.between(0.4, 1.0) * size / 2.0, 0.0).turned(angle)
        })
        .collect();
    let bows = random.once_in(2);
    let edges = (0..count)
        .map(|number| {
            let (start, end) = (corners[number], corners[(number + 1) % count]);
            let bulge = if bows && random.once_in(2) {
                random.between(-0.4, 0.6)
            } else {
                0.0
            };
            Edge::arc(start, end, bulge, number as u32)
        })
        .collect();
    Outline::new(edges).ok()
}
