//! Dig and ground: what lies under the base and how far the base goes.

mod overdig_short;

use super::Rule;

/// The rules of this family, in the order in which they are listed.
pub static RULES: &[&Rule] = &[&overdig_short::OVERDIG_SHORT];
