//! The rules of the trade and of the text: one file a family, each rule one
//! declaration.
//!
//! The room uses everything up to `quantities`. A rule points at places of
//! the model and never at text; its limits are looked up by name, so that a
//! region or a practice's standard can set them.

mod context;
mod limits;
mod rule;

pub use context::Context;
pub use limits::{Bound, InForce, Limit, Limits, Value};
pub use rule::{Check, Family, Found, Rule};
