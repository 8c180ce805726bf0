//! Which units figures are shown in.

/// The two families of units that a job may be shown in.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum System {
    /// Feet and inches, square feet, cubic yards, pounds and short tons.
    #[default]
    Imperial,
    /// Millimetres and metres, kilograms and tonnes.
    Metric,
}

impl System {
    /// The other of the two.
    #[must_use]
    pub const fn other(self) -> Self {
        match self {
            Self::Imperial => Self::Metric,
            Self::Metric => Self::Imperial,
        }
    }
}
