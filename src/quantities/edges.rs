//! What runs along the edges of a surface, and the joints that let it move.

use super::notes::{Amount, Notes};
use crate::findings::Place;
use crate::geometry::{Edge, Outline, Vector};
use crate::model::{Contact, Surface};
use crate::units::Number;

/// The figures of an edging.
#[derive(Debug, Clone, PartialEq)]
pub struct EdgingFigures {
    /// The name of its material or mix.
    pub material: String,
    /// Its length.
    pub length_m: Option<f64>,
    /// Its entry.
    pub place: Place,
}

/// The panels that movement joints part a surface into, counted over the
/// rectangle around it that lies along its longest straight edge.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MovementFigures {
    /// How many panels along that edge.
    pub panels_along: f64,
    /// The length of each.
    pub along_m: f64,
    /// How many panels across.
    pub panels_across: f64,
    /// The width of each.
    pub across_m: f64,
}

/// The figures of the edges of a surface.
#[derive(Debug, Clone, PartialEq, Default)]
pub(super) struct EdgeFigures {
    pub edgings: Vec<EdgingFigures>,
    pub building_m: Option<f64>,
    pub isolation_joint_m: Option<f64>,
    pub movement: Option<MovementFigures>,
}

/// The least number of equal panels of at most `most` that a length is parted
/// into, and the length of each: joints are one fewer.
pub fn panels(length: f64, most: f64) -> Option<(f64, f64)> {
    if !(length > 0.0 && most > 0.0) {
        return None;
    }
    let count = Number::near(length / most)?.ceil().to_f64().max(1.0);
    Some((count, length / count))
}

/// The figures of the edges of a surface.
pub(super) fn edges(surface: &Surface, notes: &mut impl Notes) -> EdgeFigures {
    let outline = surface.outline.as_ref();
    let edgings = surface
        .edgings
        .iter()
        .map(|edging| {
            let material = edging.material.value.name();
            let along = || {
                let edges = outline.into_iter().flat_map(|outline| outline.edges());
                edges
                    .filter(|edge| edging.along.contains(&edge.tag))
                    .map(Edge::length)
            };
            let length_m = outline.filter(|_| edging.is_known).map(|_| along().sum());
            if let Some(length) = length_m {
                let one = || "the length of the one edge that it runs along".to_owned();
                let lengths = along().map(|length| (one(), Amount::Length(length)));
                notes.sum(material, lengths, Amount::Length(length));
            }
            EdgingFigures {
                material: material.to_owned(),
                length_m,
                place: edging.place,
            }
        })
        .collect();
    let at_building = || {
        let edges = outline.into_iter().flat_map(|outline| outline.edges());
        let meeting = edges.filter(|edge| surface.contact(edge.tag) == Some(Contact::Building));
        meeting.map(Edge::length)
    };
    let building_m = outline
        .filter(|_| !surface.meets_unread)
        .map(|_| at_building().sum());
    let isolation_joint_m = building_m.filter(|_| surface.isolation_joint.is_some());
    if let (Some(length), Some(stated)) = (isolation_joint_m, &surface.isolation_joint) {
        notes.stated(
            "isolation joint",
            Amount::Length(stated.value.si()),
            stated.place,
        );
        let one = || "the length of the one edge that meets the building".to_owned();
        let edges = at_building().map(|length| (one(), Amount::Length(length)));
        notes.sum(
            "length of the isolation joint",
            edges,
            Amount::Length(length),
        );
    }
    let movement = outline
        .zip(surface.movement_joints.as_ref())
        .and_then(|(outline, spacing)| {
            notes.stated(
                "movement joints at most every",
                Amount::Length(spacing.value.si()),
                spacing.place,
            );
            movement(outline, spacing.value.si(), notes)
        });
    EdgeFigures {
        edgings,
        building_m,
        isolation_joint_m,
        movement,
    }
}

fn movement(outline: &Outline, spacing: f64, notes: &mut impl Notes) -> Option<MovementFigures> {
    let longest = outline
        .outer
        .edges
        .iter()
        .filter(|edge| !edge.is_arc())
        .max_by(|a, b| a.length().total_cmp(&b.length()));
    let along = longest.map_or(Vector::new(1.0, 0.0), |edge| edge.chord().unit());
    let mut way = |name: &str, direction: Vector| {
        let (least, most) = outline.extremes(direction);
        let extent = most - least;
        let (count, panel) = panels(extent, spacing)?;
        notes.step(
            name,
            "{extent} ÷ {most}, rounded up",
            &[Amount::Length(extent), Amount::Length(spacing)],
            Amount::Number(count),
        );
        Some((count, panel))
    };
    let (panels_along, along_m) = way("panels along the longest edge", along)?;
    let (panels_across, across_m) = way("panels across", along.left())?;
    Some(MovementFigures {
        panels_along,
        along_m,
        panels_across,
        across_m,
    })
}

#[cfg(test)]
mod tests {
    use super::super::fixture::{
        area_of, close, in_unit, job, line, material, si, stated, surface,
    };
    use super::*;
    use crate::model::{Edging, Stated};
    use crate::quantities::figures;

    #[test]
    fn edgings_and_isolation_run_along_their_edges() {
        let mut court = surface("court", area_of("24 ft", "12 ft"), Vec::new()).meeting(2);
        court.edgings.push(Edging {
            is_known: true,
            material: Stated::new(material("steel").into(), line(1)),
            along: vec![0, 1, 3],
            place: line(1),
        });
        court.isolation_joint = Some(stated("1/2 in"));
        let figures = figures(&job(vec![court.clone()]));
        let found = &figures.surfaces[0];
        assert!(close(in_unit(found.edgings[0].length_m, "ft"), 48.0, 1e-12));
        assert!(close(in_unit(found.isolation_joint_m, "ft"), 24.0, 1e-12));
        court.isolation_joint = None;
        let figures = super::super::figures(&job(vec![court]));
        assert_eq!(figures.surfaces[0].isolation_joint_m, None);
        assert!(close(
            in_unit(figures.surfaces[0].building_m, "ft"),
            24.0,
            1e-12
        ));
    }

    #[test]
    fn a_length_is_parted_into_the_fewest_equal_panels() {
        for (length, most, count, each) in [
            ("30 ft", "12 ft", 3.0, "10 ft"),
            ("30 ft", "16 ft", 2.0, "15 ft"),
            ("25 ft", "12 ft", 3.0, "8 1/3 ft"),
            ("16 ft", "16 ft", 1.0, "16 ft"),
            ("40 ft", "12 ft", 4.0, "10 ft"),
            ("1 ft", "12 ft", 1.0, "1 ft"),
        ] {
            let (found, panel) = panels(si(length), si(most)).unwrap();
            assert_eq!(found, count, "{length} by {most}");
            assert!(close(panel, si(each), 1e-12), "{length} by {most}");
        }
        for (length, most) in [(1.0, 0.0), (1.0, -1.0), (0.0, 1.0), (f64::NAN, 1.0)] {
            assert_eq!(panels(length, most), None);
        }
    }

    #[test]
    fn movement_joints_part_a_surface_both_ways() {
        let mut court = surface("court", area_of("28 ft", "12 ft"), Vec::new());
        court.movement_joints = Some(stated("10 ft"));
        let found = figures(&job(vec![court])).surfaces[0].movement.unwrap();
        assert_eq!((found.panels_along, found.panels_across), (3.0, 2.0));
        assert!(close(found.across_m, si("6 ft"), 1e-9));
    }
}
