//! Outlines moved out and in: the base that goes on past the paving, the
//! inset of a border.
//!
//! Each side that moves sweeps a strip of the plan ([`strip`]); the strips and
//! the pieces that square off the corners ([`corner`]) are laid over the
//! outline.

mod corner;
mod strip;
mod widen;

pub use widen::{inset, outset, widened};
