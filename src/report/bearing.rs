//! Directions of the plan, in the words of the language.

use crate::geometry::Vector;
use crate::vocabulary::DIRECTIONS;

/// How near a bearing must be to a compass word to be called by it, in
/// degrees: what is shown is whole degrees.
const NEAR: f64 = 0.5;

/// A direction as a spec writes it: `south`, `bearing 153°`.
pub(super) fn bearing(way: Vector) -> String {
    let degrees = way.bearing().rem_euclid(360.0);
    let mut words = DIRECTIONS.iter();
    match words.find(|(_, own)| apart(degrees, *own) < NEAR) {
        Some((word, _)) => (*word).to_owned(),
        None => format!("bearing {degrees:.0}°"),
    }
}

/// A direction and the one against it: `east to west`, `bearing 63°`.
pub(super) fn along(way: Vector) -> String {
    let degrees = way.bearing();
    let near = |own: f64| apart(degrees, own).min(apart(degrees, own + 180.0)) < NEAR;
    match (near(0.0), near(90.0)) {
        (true, _) => "north to south".to_owned(),
        (_, true) => "east to west".to_owned(),
        _ => format!("along bearing {:.0}°", degrees.rem_euclid(180.0)),
    }
}

/// How far apart two bearings are, in degrees.
fn apart(one: f64, other: f64) -> f64 {
    let turned = (one - other).rem_euclid(360.0);
    turned.min(360.0 - turned)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_direction_is_said_as_a_spec_writes_it() {
        for (degrees, toward, both_ways) in [
            (0.0, "north", "north to south"),
            (359.9, "north", "north to south"),
            (90.2, "east", "east to west"),
            (180.0, "south", "north to south"),
            (270.0, "west", "east to west"),
            (153.4, "bearing 153°", "along bearing 153°"),
            (243.0, "bearing 243°", "along bearing 63°"),
        ] {
            let way = Vector::from_bearing(degrees);
            assert_eq!(bearing(way), toward);
            assert_eq!(along(way), both_ways);
        }
    }
}
