//! Rounding what was computed as the exact figure would be rounded.

/// Relative error that a computed figure may carry: 2.675 worked out as
/// 2.674 999 999 999 9 is rounded from half way.
const COMPUTED_ERROR: f64 = 1e-12;

/// The most that error is taken for, however large the figure.
const LARGEST_ERROR: f64 = 1e-3;

/// Floats from here on are whole.
const ALL_WHOLE: f64 = 4_503_599_627_370_496.0;

/// The nearest whole number; from half way, the one further from zero.
pub(crate) fn nearest(value: f64) -> f64 {
    let size = value.abs();
    if size >= ALL_WHOLE {
        return value;
    }
    let error = (size * COMPUTED_ERROR).min(LARGEST_ERROR);
    (size + error + 0.5).floor().copysign(value)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn half_way_goes_away_from_zero() {
        for (value, rounded) in [
            (0.0, 0.0),
            (0.49, 0.0),
            (0.5, 1.0),
            (-0.5, -1.0),
            (2.675 * 100.0, 268.0),
            (1.005 * 100.0, 101.0),
            (267.499_9, 267.0),
            (123_456_788.49, 123_456_788.0),
            (1e15 + 0.375, 1e15),
            (9_007_199_254_740_991.0, 9_007_199_254_740_991.0),
            (1e300, 1e300),
            (f64::NEG_INFINITY, f64::NEG_INFINITY),
        ] {
            assert_eq!(nearest(value), rounded, "{value}");
        }
        assert!(nearest(f64::NAN).is_nan());
    }
}
