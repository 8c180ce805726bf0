//! How the program ends.

/// The exit status.
pub(crate) type Status = u8;

/// Nothing was found that is denied.
pub(crate) const GOOD: Status = 0;
/// Something was found that is denied.
pub(crate) const FOUND: Status = 1;
/// It could not do its work, or not all of it.
pub(crate) const COULD_NOT: Status = 2;
