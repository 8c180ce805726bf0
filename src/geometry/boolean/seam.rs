//! A piece of a side that meets the other loop at its ends only.

/// A line or at most a quarter circle that meets the other loop at its ends
/// only, or coincides with a seam of it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Seam {
    pub from: usize,
    pub to: usize,
    pub bulge: f64,
    /// The side it is a piece of, by its place in [`Seams::sides`].
    pub side: usize,
    /// Whether it is walked the way that side runs.
    pub forward: bool,
    pub shared: Shared,
}

/// Whether the other loop has the same seam.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Shared {
    No,
    SameWay,
    OtherWay,
}

impl Seam {
    /// The same seam walked the other way.
    pub(crate) fn reversed(self) -> Seam {
        Seam {
            from: self.to,
            to: self.from,
            bulge: 0.0 - self.bulge,
            forward: !self.forward,
            ..self
        }
    }
}
