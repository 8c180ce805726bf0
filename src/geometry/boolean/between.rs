//! Seams found by the two places between which they run.

use rustc_hash::FxHashMap;

use super::seam::Seam;

/// Seams, each with its place in a list, by their ends.
pub(super) struct Between(FxHashMap<(usize, usize), Vec<(usize, Seam)>>);

impl Between {
    /// The seams of a list.
    pub(crate) fn of<'a>(seams: impl Iterator<Item = &'a Seam>) -> Between {
        let mut between = Between(FxHashMap::default());
        for (place, &seam) in seams.enumerate() {
            let ends = (seam.from.min(seam.to), seam.from.max(seam.to));
            between.0.entry(ends).or_default().push((place, seam));
        }
        between
    }

    /// The seam most like one between two places, walked that way, with its
    /// place in the list.
    pub(crate) fn nearest(&self, from: usize, to: usize, bulge: f64) -> Option<(usize, Seam)> {
        let like = |&(place, seam): &(usize, Seam)| {
            let same_way = seam.from == from;
            (place, if same_way { seam } else { seam.reversed() })
        };
        let off = |(_, seam): &(usize, Seam)| (seam.bulge - bulge).abs();
        self.0
            .get(&(from.min(to), from.max(to)))?
            .iter()
            .map(like)
            .min_by(|a, b| off(a).total_cmp(&off(b)))
    }
}
