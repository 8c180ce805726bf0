//! From how many units some pieces can be cut when off-cuts are used again.

use std::collections::BTreeMap;

/// A piece of a unit by the rectangle that it needs, along and across the
/// unit, in millionths of a metre: whole numbers, so that the same pieces are
/// always cut the same way.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Piece {
    along: u64,
    across: u64,
}

/// Off-cuts narrower than this are thrown away, in millionths of a metre.
const SCRAP: u64 = 1_000;

/// So many off-cuts are looked at for a piece, at most.
const MOST_LOOKED_AT: usize = 1_000;

impl Piece {
    /// A piece of a length and a width in metres.
    pub(crate) fn of(length_m: f64, width_m: f64) -> Piece {
        let millionths = |metres: f64| (metres * 1e6).round().clamp(0.0, 1e12) as u64;
        Piece {
            along: millionths(length_m),
            across: millionths(width_m),
        }
    }

    fn fits(&self, from: &Piece) -> bool {
        self.along <= from.along && self.across <= from.across
    }
}

/// How many units the pieces come from: the longest is cut first, each from
/// the smallest off-cut that it fits, a new unit where it fits none. A cut
/// runs right across; the saw's own width is left to the joints.
pub(super) fn units_for(mut pieces: Vec<Piece>, unit: Piece) -> usize {
    pieces.sort();
    let mut offcuts: BTreeMap<Piece, usize> = BTreeMap::new();
    let mut units = 0;
    for piece in pieces.into_iter().rev() {
        let least = Piece {
            along: piece.along,
            across: 0,
        };
        let mut long_enough = offcuts.range(least..).take(MOST_LOOKED_AT);
        let from = match long_enough.find(|(offcut, _)| piece.fits(offcut)) {
            Some((offcut, _)) => *offcut,
            None => {
                units += 1;
                add(&mut offcuts, unit);
                unit
            }
        };
        take(&mut offcuts, from);
        let beyond = Piece {
            along: from.along.saturating_sub(piece.along),
            across: from.across,
        };
        let beside = Piece {
            along: piece.along,
            across: from.across.saturating_sub(piece.across),
        };
        for left in [beyond, beside] {
            if left.along >= SCRAP && left.across >= SCRAP {
                add(&mut offcuts, left);
            }
        }
    }
    units
}

fn add(offcuts: &mut BTreeMap<Piece, usize>, piece: Piece) {
    *offcuts.entry(piece).or_default() += 1;
}

fn take(offcuts: &mut BTreeMap<Piece, usize>, piece: Piece) {
    if let Some(count) = offcuts.get_mut(&piece) {
        *count -= 1;
        if *count == 0 {
            offcuts.remove(&piece);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn needed(pieces: &[(f64, f64)]) -> usize {
        let pieces = pieces
            .iter()
            .map(|(length, width)| Piece::of(*length, *width));
        units_for(pieces.collect(), Piece::of(0.2, 0.1))
    }

    #[test]
    fn off_cuts_are_used_again() {
        for (pieces, units) in [
            (&[][..], 0),
            (&[(0.1, 0.1); 40], 20),
            (&[(0.11, 0.1); 40], 40),
            (&[(0.15, 0.1), (0.05, 0.1)], 1),
            (&[(0.05, 0.1), (0.15, 0.1), (0.05, 0.1)], 2),
            // Ripped along, a unit gives two of half its width.
            (&[(0.2, 0.05), (0.2, 0.05)], 1),
            (&[(0.12, 0.05), (0.08, 0.1), (0.12, 0.05)], 1),
        ] {
            assert_eq!(needed(pieces), units, "{pieces:?}");
        }
    }

    #[test]
    fn nothing_comes_from_nothing() {
        let pieces = [
            (0.13, 0.09),
            (0.07, 0.03),
            (0.06, 0.1),
            (0.19, 0.02),
            (0.1, 0.05),
        ];
        let area: f64 = pieces.iter().map(|(length, width)| length * width).sum();
        assert!(needed(&pieces) as f64 * 0.02 >= area);
        let mut back = pieces;
        back.reverse();
        assert_eq!(needed(&pieces), needed(&back));
    }
}
