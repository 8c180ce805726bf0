//! What proves a surface square: the straight ways between its corners.

use super::Peg;

/// The straight way between two pegs, in metres.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Check {
    /// The number of the first peg.
    pub from: u32,
    /// The number of the second.
    pub to: u32,
    /// How far they are apart.
    pub distance_m: f64,
}

/// The ways from each corner of a loop to the next but one: of four corners the
/// two diagonals. `loops` are the numbers of the corners, in order.
pub(super) fn checks(loops: &[Vec<u32>], pegs: &[Peg]) -> Vec<Check> {
    let mut checks: Vec<Check> = Vec::new();
    for corners in loops.iter().filter(|corners| corners.len() > 3) {
        let next_but_one = corners.iter().cycle().skip(2);
        for (one, other) in corners.iter().zip(next_but_one) {
            let (from, to) = (*one.min(other), *one.max(other));
            let is_known = checks.iter().any(|own| (own.from, own.to) == (from, to));
            let peg = |number: u32| pegs.get((number as usize).checked_sub(1)?);
            if let (Some(start), Some(end), false) = (peg(from), peg(to), is_known) {
                checks.push(Check {
                    from,
                    to,
                    distance_m: start.at.distance(end.at),
                });
            }
        }
    }
    checks
}
