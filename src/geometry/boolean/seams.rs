//! The sides of two loops divided so that they meet in common corners and
//! along common sides only.

use super::super::edge::{Edge, NO_TAG};
use super::super::outline::Loop;
use super::Named;
use super::between::Between;
use super::part;
use super::seam::{Seam, Shared};
use super::weld::Weld;

/// Two loops as seams.
pub(super) struct Seams {
    /// The sides of both loops.
    pub sides: Vec<Edge>,
    /// The seams of each loop, in order.
    pub loops: [Vec<Seam>; 2],
    pub weld: Weld,
    pub between: Between,
}

impl Seams {
    /// Divides two loops where they meet; where they coincide both have the
    /// same seams, pieces of the sides of the one that is `named`. None if
    /// they meet in far too many places.
    pub(crate) fn between(a: &Loop, b: &Loop, named: Named, reach: f64) -> Option<Seams> {
        let mut weld = Weld::new(reach);
        let mut loops = part::divided(a, b, &mut weld)?;
        let [first, second] = &mut loops;
        let known = Between::of(first.iter());
        for seam in second.iter_mut() {
            let chord = weld.point(seam.from).distance(weld.point(seam.to));
            let coincides = |twin: &Seam| (twin.bulge - seam.bulge).abs() * chord <= 8.0 * reach;
            let twin = known
                .nearest(seam.from, seam.to, seam.bulge)
                .filter(|(_, twin)| coincides(twin));
            let Some(original) = twin.and_then(|(place, _)| first.get_mut(place)) else {
                continue;
            };
            let same_way = original.from == seam.from;
            original.shared = if same_way {
                Shared::SameWay
            } else {
                Shared::OtherWay
            };
            if named == Named::Second {
                original.side = seam.side;
                original.forward = seam.forward == same_way;
            }
            *seam = if same_way {
                *original
            } else {
                original.reversed()
            };
        }
        let between = Between::of(first.iter().chain(second.iter()));
        let sides = a.edges.iter().chain(&b.edges).copied().collect();
        Some(Seams {
            sides,
            loops,
            weld,
            between,
        })
    }

    /// The seam as a side without a tag.
    pub(crate) fn edge(&self, seam: &Seam) -> Edge {
        let (start, end) = (self.weld.point(seam.from), self.weld.point(seam.to));
        Edge::arc(start, end, seam.bulge, NO_TAG)
    }
}

#[cfg(test)]
mod tests {
    use super::super::super::sample::rectangle;
    use super::*;

    #[test]
    fn sides_are_divided_where_the_other_loop_meets_them() {
        let yard = rectangle(0.0, 0.0, 6.0, 4.0).outer;
        let cases = [
            (
                "beside, part of a side",
                rectangle(6.0, 1.0, 2.0, 2.0).outer,
                6,
                4,
                Shared::OtherWay,
            ),
            (
                "inside, part of a side",
                rectangle(4.0, 1.0, 2.0, 2.0).outer,
                6,
                4,
                Shared::SameWay,
            ),
            (
                "across a corner",
                rectangle(5.0, 3.0, 2.0, 2.0).outer,
                6,
                6,
                Shared::No,
            ),
        ];
        for (name, other, first, second, shared) in cases {
            let seams = Seams::between(&yard, &other, Named::First, 1e-9).unwrap();
            let counts = seams.loops.each_ref().map(Vec::len);
            assert_eq!(counts, [first, second], "{name}");
            for walk in &seams.loops {
                let found = walk.iter().filter(|seam| seam.shared != Shared::No);
                let found: Vec<Shared> = found.map(|seam| seam.shared).collect();
                let wanted = if shared == Shared::No {
                    vec![]
                } else {
                    vec![shared]
                };
                assert_eq!(found, wanted, "{name}");
            }
        }
    }
}
