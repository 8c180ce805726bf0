//! How large a figure of a key is in anything that is built, so that a slip of
//! a unit or a point is told where it stands.
//!
//! The bounds are wide: between them lies all that anybody builds, and what
//! they tell of is a slip and not a matter of judgement, which the rules are
//! for. They are common practice and rest on no document.

/// What is usual of the figures in a slot of a key's value or clauses.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Usual {
    /// The slot, by its name in the form.
    pub slot: &'static str,
    /// Between which bounds its figures lie.
    pub bounds: Bounds,
}

/// Between which bounds a figure lies.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Bounds {
    /// At least and at most so much in base units, whichever its sign. None of
    /// something, 0, is always usual.
    Between(f64, f64),
    /// Why nothing can be said of the figure by itself.
    Open(&'static str),
}

impl Bounds {
    /// Whether a figure in base units may well be meant.
    pub fn hold(self, figure: f64) -> bool {
        match self {
            Bounds::Between(least, most) => figure == 0.0 || (least..=most).contains(&figure.abs()),
            Bounds::Open(_) => true,
        }
    }
}

/// The figures of a slot lie between these, in base units.
pub(super) const fn between(slot: &'static str, least: f64, most: f64) -> Usual {
    Usual {
        slot,
        bounds: Bounds::Between(least, most),
    }
}

/// The figures of a slot may be anything, for this reason.
pub(super) const fn open(slot: &'static str, why: &'static str) -> Usual {
    Usual {
        slot,
        bounds: Bounds::Open(why),
    }
}

/// A share of nothing up to the whole.
pub(super) const fn share(slot: &'static str) -> Usual {
    between(slot, 0.001, 1.0)
}

/// The waste of what is cut, mixed or spilt.
pub(super) const WASTE: Usual = between("SHARE", 0.001, 0.6);

/// A turn.
pub(super) const fn turn(slot: &'static str) -> Usual {
    open(slot, "a turn may go round and round")
}

/// A level, which may be counted from a datum far below or above.
pub(super) const fn level(slot: &'static str) -> Usual {
    open(
        slot,
        "a level is counted from any datum: `value-odd` holds it to the floor",
    )
}

/// A fall of paving or of a drain.
pub(super) const fn fall(slot: &'static str) -> Usual {
    open(
        slot,
        "rules on falls hold it to what drains and what is safe",
    )
}

/// A side of a unit. What yards sell is narrower, and `size-odd` holds it to
/// that.
pub(super) const fn side(slot: &'static str) -> Usual {
    between(slot, 0.006, 8.0)
}

/// How thick a unit is. What yards sell is narrower, and `size-odd` holds it
/// to that.
pub(super) const fn unit_thickness(slot: &'static str) -> Usual {
    between(slot, 0.000_5, 0.8)
}

/// A joint. What is laid is narrower, and `size-odd` holds it to that.
pub(super) const fn joint(slot: &'static str) -> Usual {
    between(slot, 0.000_1, 0.4)
}

/// Money, which buys more in one country than in another.
pub(super) const fn price(slot: &'static str) -> Usual {
    open(slot, "what something costs depends on what it is and where")
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::vocabulary::{SECTIONS, ValueKind};

    #[test]
    fn every_figure_has_bounds_or_a_reason_for_none() {
        let mut missing = Vec::new();
        for section in SECTIONS {
            for key in section.keys {
                let found: Vec<(&str, ValueKind)> = key.slots().collect();
                let has = |slot: &str| key.usual.iter().any(|usual| usual.slot == slot);
                for (slot, kind) in &found {
                    if kind.is_quantity() && !has(slot) {
                        missing.push(format!("{} {} {slot}", section.word, key.word));
                    }
                }
                for usual in key.usual {
                    let is_there = |(slot, kind): &(&str, ValueKind)| {
                        *slot == usual.slot && kind.is_quantity()
                    };
                    let (section, key) = (section.word, key.word);
                    assert!(
                        found.iter().any(is_there),
                        "{section} {key}: no {}",
                        usual.slot
                    );
                    if let Bounds::Between(least, most) = usual.bounds {
                        assert!(0.0 <= least && least < most, "{section} {key}");
                    }
                }
            }
        }
        assert!(missing.is_empty(), "{missing:#?}");
    }

    #[test]
    fn bounds_hold_what_lies_between_them_either_way_up() {
        let thickness = between("THICKNESS", 0.01, 0.3).bounds;
        for (figure, holds) in [
            (0.05, true),
            (-0.05, true),
            (0.0, true),
            (50.0, false),
            (0.000_05, false),
        ] {
            assert_eq!(thickness.hold(figure), holds, "{figure}");
        }
        assert!(level("LEVEL").bounds.hold(560.0));
    }
}
