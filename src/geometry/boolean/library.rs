//! The library's part of the work, in its own measure.

use std::panic::catch_unwind;

use cavalier_contours::polyline::{
    BooleanOp, BooleanResultInfo, PlineBooleanOptions, PlineSource, PlineSourceMut, Polyline,
};

use super::super::point::{Point, Vector};
use super::Operation;
use super::seam::Seam;
use super::seams::Seams;

/// The library's own distance within which two places are one; its loops are
/// scaled so that this is the reach.
const EPSILON: f64 = 1e-5;

/// A way to ask the library.
#[derive(Debug, Clone, Copy)]
pub(super) struct Asking {
    /// The share of the reach within which it is told to take two places as
    /// one.
    nearness: f64,
    /// Whether it is given the chords of arcs.
    straight: bool,
}

impl Asking {
    /// All ways, in the order tried. A common corner in which a wide arc ends
    /// tangent to a line is found only with chords, or when the library is
    /// told to look far. Seams meet at their ends only, so their chords lie to
    /// each other as they do themselves, but for slivers.
    pub(crate) const WAYS: [Asking; 4] = [
        Asking::with(0.5, false),
        Asking::with(0.5, true),
        Asking::with(8.0, false),
        Asking::with(1000.0, false),
    ];

    const fn with(nearness: f64, straight: bool) -> Asking {
        Asking { nearness, straight }
    }
}

/// Metres about the first corner to the library's measure.
struct Frame {
    origin: Point,
    scale: f64,
}

/// The closed walks along seams that bound the result, the result on the
/// left; none if the library gives anything that is not a seam.
pub(super) fn combined(
    seams: &Seams,
    operation: Operation,
    asking: Asking,
) -> Option<Vec<Vec<Seam>>> {
    let frame = Frame {
        origin: seams.weld.points().first().copied()?,
        scale: EPSILON / seams.weld.reach(),
    };
    let [a, b] = seams
        .loops
        .each_ref()
        .map(|walk| frame.polyline(walk, seams, asking.straight));
    let asked = match operation {
        Operation::Add => BooleanOp::Or,
        Operation::Cut => BooleanOp::Not,
        Operation::Common => BooleanOp::And,
    };
    let options = PlineBooleanOptions {
        pos_equal_eps: EPSILON * asking.nearness,
        collapsed_area_eps: Some(1e-6),
        ..Default::default()
    };
    // Where the library finds itself in the wrong it panics: then it has
    // given nothing.
    let given = catch_unwind(|| a.boolean_opt(&b, asked, &options)).ok()?;
    // Loops that meet, the library walks one way: clockwise round what is
    // left of a cut, else anticlockwise. Others it gives as they came.
    let met = matches!(given.result_info, BooleanResultInfo::Intersected);
    let clockwise = met && operation == Operation::Cut;
    let outer = given
        .pos_plines
        .iter()
        .map(|found| (&found.pline, clockwise));
    let holes = given.neg_plines.iter().map(|found| (&found.pline, !met));
    outer
        .chain(holes)
        .map(|(polyline, reversed)| {
            let mut walk = frame.walk(polyline, seams)?;
            if reversed {
                walk = walk.into_iter().rev().map(Seam::reversed).collect();
            }
            Some(walk)
        })
        .collect()
}

impl Frame {
    fn polyline(&self, walk: &[Seam], seams: &Seams, straight: bool) -> Polyline<f64> {
        let mut polyline = Polyline::new_closed();
        for seam in walk {
            let place = (seams.weld.point(seam.from) - self.origin) * self.scale;
            let bulge = if straight { 0.0 } else { seam.bulge };
            polyline.add(place.x, place.y, bulge);
        }
        polyline
    }

    /// The seams along which a polyline runs; none if it leaves them.
    fn walk(&self, polyline: &Polyline<f64>, seams: &Seams) -> Option<Vec<Seam>> {
        let places: Option<Vec<(usize, f64)>> = polyline
            .iter_vertexes()
            .map(|vertex| {
                let place = self.origin + Vector::new(vertex.x, vertex.y) * (1.0 / self.scale);
                Some((seams.weld.known(place)?, vertex.bulge))
            })
            .collect();
        let places = places?;
        let next = places.iter().cycle().skip(1);
        places
            .iter()
            .zip(next)
            .filter(|((from, _), (to, _))| from != to)
            .map(|(&(from, bulge), &(to, _))| {
                let (_, seam) = seams.between.nearest(from, to, bulge)?;
                Some(seam)
            })
            .collect()
    }
}
