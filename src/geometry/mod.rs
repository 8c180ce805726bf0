//! Outlines of straight lines and circular arcs on the plan, and planes over
//! them: measured, combined and moved out or in. Exact: no arc is ever
//! flattened into chords. Lengths are plain metres, angles radians unless a
//! name says degrees.
//!
//! The room knows nothing of specifications and uses no other room. Whatever
//! the input, an operation gives an outline or a [`Fault`], never a wrong
//! figure.

mod apart;
mod arc;
mod boolean;
mod bounds;
mod catchment;
mod check;
mod combine;
mod corner;
mod divide;
mod edge;
mod facets;
mod fault;
mod meet;
mod mitre;
mod monotone;
mod motion;
mod offset;
mod outline;
mod passage;
mod placing;
mod plane;
mod point;
mod primitive;
mod ray;
mod region;
mod shared;
mod tiling;
mod volume;

#[cfg(test)]
mod laws;
#[cfg(test)]
mod sample;

pub use arc::Turning;
pub use catchment::{Beam, beams};
pub use combine::{difference, difference_pieces, intersection, intersection_area, union};
pub use corner::{chamfered, rounded};
pub use divide::ON_OUTLINE;
pub use edge::{Edge, NO_TAG, Tag, bulge_of_sweep};
pub use facets::{Facet, NoFacets, facets};
pub use fault::{Fault, LARGEST, MOST_EDGES};
pub use mitre::{Mitre, mitre, mitres};
pub use motion::Motion;
pub use offset::{Ribbon, inset, narrowed, outset, ribbon, widened};
pub use outline::{Loop, Outline};
pub use plane::Plane;
pub use point::{Point, Vector};
pub use shared::{ALONGSIDE, Stretch, shared};
pub use tiling::{Cut, MOST_UNITS, Tiled, Tiling, Unit};
pub use volume::{Volumes, volumes_between};
