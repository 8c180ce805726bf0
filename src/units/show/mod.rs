//! Figures as text for people, in the units of a job.
//!
//! Every function here takes a figure in base units, rounds it once as the
//! trade does, from half way up, and drops zeros that say nothing. What is no
//! number is shown as [`NO_FIGURE`], and what no patio comes to as
//! [`TOO_LARGE`]. A figure shown is never read back.

mod apart;
mod area;
mod digits;
mod feet_inches;
mod flow;
mod in_unit;
mod length;
mod mass;
mod measure;
mod price;
mod quantity;
mod slope;
mod volume;

pub use apart::{apart, exactly, something};
pub use area::area;
pub use digits::{NO_FIGURE, TOO_LARGE, grouped, number};
pub use feet_inches::{feet_inches, inches};
pub use flow::flow;
pub use in_unit::in_unit;
pub(crate) use length::tenths_of_millimetres;
pub use length::{length, read_off, sides};
pub use mass::{coverage, density, load, mass, strength};
pub use measure::{angle, output, rain_depth, rainfall, temperature, time};
pub use price::price;
pub use quantity::{in_both, quantity};
pub use slope::{share, slope};
pub use volume::{volume, volume_beside};
