//! Outlines moved out and in: the base that goes on past the paving, the
//! inset of a border.
//!
//! Each side that moves sweeps a strip of the plan ([`strip`]); the strips and
//! the pieces that square off the corners ([`corner`]) are joined, and added to
//! the outline or cut off it. Where every side keeps its place in the line the
//! moved outline is traced at once ([`traced`]). The offset of `cavalier_contours` itself rounds
//! corners and moves every side, so it is not of use here.

mod corner;
mod ribbon;
mod strip;
mod traced;
mod widen;

pub use ribbon::{Ribbon, ribbon};
pub use widen::{inset, narrowed, outset, widened};
