//! What a number measures.

/// What a number measures, as powers of six base dimensions: an area is
/// length², a density mass × length⁻³, a price per ton money × mass⁻¹.
///
/// An angle is a base dimension of its own, so that 30° and 5 do not add up.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Dimension {
    /// Power of length.
    pub length: i8,
    /// Power of mass.
    pub mass: i8,
    /// Power of money.
    pub money: i8,
    /// Power of time.
    pub time: i8,
    /// Power of temperature.
    pub temperature: i8,
    /// Power of angle.
    pub angle: i8,
}

impl Dimension {
    /// A plain number.
    pub const NONE: Self = Self {
        length: 0,
        mass: 0,
        money: 0,
        time: 0,
        temperature: 0,
        angle: 0,
    };
    /// A length.
    pub const LENGTH: Self = Self {
        length: 1,
        ..Self::NONE
    };
    /// An area.
    pub const AREA: Self = Self {
        length: 2,
        ..Self::NONE
    };
    /// A volume.
    pub const VOLUME: Self = Self {
        length: 3,
        ..Self::NONE
    };
    /// A mass.
    pub const MASS: Self = Self {
        mass: 1,
        ..Self::NONE
    };
    /// Mass over volume.
    pub const DENSITY: Self = Self {
        mass: 1,
        length: -3,
        ..Self::NONE
    };
    /// Mass over area.
    pub const LOAD: Self = Self {
        mass: 1,
        length: -2,
        ..Self::NONE
    };
    /// Area over mass: how far a material goes.
    pub const COVERAGE: Self = Self {
        mass: -1,
        length: 2,
        ..Self::NONE
    };
    /// Money.
    pub const MONEY: Self = Self {
        money: 1,
        ..Self::NONE
    };
    /// Money over length.
    pub const MONEY_PER_LENGTH: Self = Self {
        length: -1,
        ..Self::MONEY
    };
    /// Money over area.
    pub const MONEY_PER_AREA: Self = Self {
        length: -2,
        ..Self::MONEY
    };
    /// Money over volume.
    pub const MONEY_PER_VOLUME: Self = Self {
        length: -3,
        ..Self::MONEY
    };
    /// Money over mass.
    pub const MONEY_PER_MASS: Self = Self {
        mass: -1,
        ..Self::MONEY
    };
    /// Money over time.
    pub const MONEY_PER_TIME: Self = Self {
        time: -1,
        ..Self::MONEY
    };
    /// A time.
    pub const TIME: Self = Self {
        time: 1,
        ..Self::NONE
    };
    /// Length over time: how fast rain falls, or the ground takes it in.
    pub const RAINFALL: Self = Self {
        length: 1,
        time: -1,
        ..Self::NONE
    };
    /// Time over length: how long water takes to sink so far.
    pub const PERCOLATION: Self = Self {
        length: -1,
        time: 1,
        ..Self::NONE
    };
    /// Force over area: how much a material bears before it breaks.
    pub const STRENGTH: Self = Self {
        mass: 1,
        length: -1,
        time: -2,
        ..Self::NONE
    };
    /// A temperature.
    pub const TEMPERATURE: Self = Self {
        temperature: 1,
        ..Self::NONE
    };
    /// An angle.
    pub const ANGLE: Self = Self {
        angle: 1,
        ..Self::NONE
    };

    /// The dimension of a product; nothing if a power is out of all reason.
    pub fn times(self, other: Self) -> Option<Self> {
        self.combine(other, i8::checked_add)
    }

    /// The dimension of a quotient; nothing if a power is out of all reason.
    pub fn divided_by(self, other: Self) -> Option<Self> {
        self.combine(other, i8::checked_sub)
    }

    /// The dimension of a whole power; nothing if a power is out of all reason.
    pub fn power(self, exponent: i8) -> Option<Self> {
        self.combine(self, |power, _| power.checked_mul(exponent))
    }

    /// True for a plain number.
    pub fn is_none(self) -> bool {
        self == Self::NONE
    }

    fn combine(self, other: Self, powers: impl Fn(i8, i8) -> Option<i8>) -> Option<Self> {
        Some(Self {
            length: powers(self.length, other.length)?,
            mass: powers(self.mass, other.mass)?,
            money: powers(self.money, other.money)?,
            time: powers(self.time, other.time)?,
            temperature: powers(self.temperature, other.temperature)?,
            angle: powers(self.angle, other.angle)?,
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn dimensions_multiply_and_divide() {
        assert_eq!(
            Dimension::LENGTH.times(Dimension::LENGTH),
            Some(Dimension::AREA)
        );
        assert_eq!(Dimension::LENGTH.power(3), Some(Dimension::VOLUME));
        assert_eq!(
            Dimension::MASS.divided_by(Dimension::VOLUME),
            Some(Dimension::DENSITY)
        );
        assert_eq!(
            Dimension::DENSITY.times(Dimension::VOLUME),
            Some(Dimension::MASS)
        );
        assert_eq!(
            Dimension::AREA.divided_by(Dimension::AREA),
            Some(Dimension::NONE)
        );
        assert_ne!(Dimension::LENGTH.power(2), Some(Dimension::VOLUME));
    }

    #[test]
    fn powers_out_of_reason_are_none() {
        let high = Dimension::LENGTH.power(127).unwrap();
        assert_eq!(high.times(Dimension::LENGTH), None);
        assert_eq!(high.power(2), None);
        assert_eq!(
            Dimension::NONE
                .divided_by(high)
                .unwrap()
                .divided_by(Dimension::AREA),
            None
        );
    }
}
