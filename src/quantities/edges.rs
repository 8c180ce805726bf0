//! What runs along the edges of a surface, and the joints that let it move.

use super::footings::{FootingFigures, footing};
use super::measures::{Count, Length};
use super::states::{own_waste, waste_share};
use super::term::Term;
use super::trace::Trace;
use crate::findings::Place;
use crate::geometry::{Edge, Outline, Vector};
use crate::model::{Contact, Job, Sourced, Surface};

/// The figures of an edging.
#[derive(Debug, Clone, PartialEq)]
pub struct EdgingFigures {
    /// The name of its material or mix.
    pub material: String,
    /// Its length.
    pub length_m: Option<f64>,
    /// The concrete that it stands in, if that is said.
    pub footing: Option<FootingFigures>,
    /// The share wasted; `None` if nothing is said of it.
    pub waste: Option<Sourced<f64>>,
    /// Its entry.
    pub place: Place,
}

/// The panels that movement joints part a surface into, counted over the
/// rectangle around it that lies along its longest straight edge.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MovementFigures {
    /// Which way that edge runs, a unit vector of the plan.
    pub along: Vector,
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

/// The figures of the edges of a surface.
pub(super) fn edges(job: &Job, surface: &Surface, trace: &Trace) -> EdgeFigures {
    let outline = surface.outline.as_ref();
    let lengths = |is_meant: &dyn Fn(&Edge) -> bool| {
        let meant = surface.edges().filter(|edge| is_meant(edge));
        meant.map(|edge| Length(edge.length())).collect::<Vec<_>>()
    };
    let edgings = surface.edgings.iter().map(|edging| {
        let material = edging.material.value.name();
        let length = outline.filter(|_| edging.is_known).map(|_| {
            let along = lengths(&|edge| edging.along.contains(&edge.tag));
            let one = "the length of the one edge that it runs along";
            trace.sum(material, one, along.into_iter())
        });
        EdgingFigures {
            material: material.to_owned(),
            length_m: length.map(|length: Term<'_, Length>| length.value.0),
            footing: footing(job, surface, edging, &Trace::silent()),
            waste: waste_share(
                edging.waste.as_ref(),
                edging
                    .material
                    .value
                    .material()
                    .and_then(|own| own_waste(own)),
            ),
            place: edging.place,
        }
    });
    let edgings = edgings.collect();
    let at_building = outline
        .filter(|_| !surface.meets_unread)
        .map(|_| lengths(&|edge| surface.contact(edge.tag) == Some(Contact::Building)));
    let building: Option<Length> = at_building
        .as_ref()
        .map(|lengths| lengths.iter().copied().sum());
    let isolation_joint = at_building.zip(surface.isolation_joint.as_ref());
    let isolation_joint = isolation_joint.map(|(lengths, stated)| {
        let width = Length(stated.value.si());
        trace.stated("isolation joint", width, stated.place);
        let one = "the length of the one edge that meets the building";
        trace.sum("length of the isolation joint", one, lengths.into_iter())
    });
    let movement = outline
        .zip(surface.movement_joints.as_ref())
        .and_then(|(outline, spacing)| {
            let most = Length(spacing.value.si());
            let most = trace.stated("movement joints at most every", most, spacing.place);
            movement(outline, most.called("most"), trace)
        });
    EdgeFigures {
        edgings,
        building_m: building.map(|length| length.0),
        isolation_joint_m: isolation_joint.map(|length: Term<'_, Length>| length.value.0),
        movement,
    }
}

fn movement(outline: &Outline, most: Term<'_, Length>, trace: &Trace) -> Option<MovementFigures> {
    let longest = outline
        .outer
        .edges
        .iter()
        .filter(|edge| !edge.is_arc())
        .max_by(|a, b| a.length().total_cmp(&b.length()));
    let along = longest.map_or(Vector::new(1.0, 0.0), |edge| edge.chord().unit());
    let way = |name: &str, direction: Vector| {
        let (least, farthest) = outline.extremes(direction);
        equal_panels(name, Length(farthest - least), most, trace)
    };
    let (panels_along, along_m) = way("panels along the longest edge", along)?;
    let (panels_across, across_m) = way("panels across", along.left())?;
    Some(MovementFigures {
        along,
        panels_along,
        along_m,
        panels_across,
        across_m,
    })
}

/// The least number of equal panels of at most `most` that a length is parted
/// into, and the length of each: joints are one fewer.
pub fn panels(length: f64, most: f64) -> Option<(f64, f64)> {
    let trace = Trace::silent();
    let most = trace.term("most", Length(most));
    equal_panels("panels", Length(length), most, &trace)
}

fn equal_panels(
    name: &str,
    extent: Length,
    most: Term<'_, Length>,
    trace: &Trace,
) -> Option<(f64, f64)> {
    if !(extent.0 > 0.0 && most.value.0 > 0.0) {
        return None;
    }
    let extent = trace.term("extent", extent);
    let count = (extent / most).rounded_up()?;
    let count = trace.gives(name, count.map(|count| Count(count.0.max(1.0))));
    Some((count.value.0, (extent / count).value.0))
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
            waste: None,
            is_waste_unread: false,
            is_known: true,
            material: Stated::new(material("steel").into(), line(1)),
            along: vec![0, 1, 3],
            footing: None,
            above: None,
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
