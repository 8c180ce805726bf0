//! What only the tests of this room use.

pub(super) mod operators;
