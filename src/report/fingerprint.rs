//! Fingerprints, by which a finding is known again in a later check.

use std::fmt;

use rustc_hash::FxHashMap;
use serde::{Serialize, Serializer};

/// Knows a finding again in a later check of its file: by its mark, and as
/// which finding of that mark it stands in the file.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct Fingerprint {
    mark: Mark,
    count: u32,
}

/// Makes the fingerprints of one file, each only once.
#[derive(Debug, Default)]
pub(super) struct Fingerprints {
    given: FxHashMap<Mark, u32>,
}

/// What a finding is known by, which it may share with others of its file.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub(super) struct Mark(u64);

impl Mark {
    /// The mark of what the words name.
    pub(crate) fn of(words: &[&str]) -> Mark {
        Mark(fowler_noll_vo(words))
    }
}

/// One mark for several texts, which changes with each of them.
pub(super) fn state_of<'a>(texts: impl Iterator<Item = &'a str>) -> String {
    let texts: Vec<&str> = texts.collect();
    let Mark(hash) = Mark::of(&texts);
    format!("{hash:016x}")
}

impl Fingerprint {
    /// The fingerprint of the first finding of a mark.
    pub(super) fn first(mark: Mark) -> Fingerprint {
        Fingerprint { mark, count: 1 }
    }
}

/// That of the second of a mark ends in `-2`, and so on.
impl fmt::Display for Fingerprint {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Mark(hash) = self.mark;
        match self.count {
            1 => write!(out, "{hash:016x}"),
            count => write!(out, "{hash:016x}-{count}"),
        }
    }
}

impl Serialize for Fingerprint {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_str(self)
    }
}

impl Fingerprints {
    /// The fingerprint of the next finding of the mark that this one has.
    pub(crate) fn next(&mut self, first: Fingerprint) -> Fingerprint {
        let count = self.given.entry(first.mark).or_insert(0);
        *count = count.saturating_add(1);
        Fingerprint {
            count: *count,
            ..first
        }
    }
}

/// The 64-bit hash FNV-1a of Fowler, Noll and Vo, which is the same in every
/// build and on every machine, of words parted by a zero byte.
fn fowler_noll_vo(words: &[&str]) -> u64 {
    const BASIS: u64 = 0xcbf2_9ce4_8422_2325;
    const PRIME: u64 = 0x0000_0100_0000_01b3;
    let bytes = words.iter().flat_map(|word| word.bytes().chain([0]));
    bytes.fold(BASIS, |hash, byte| {
        (hash ^ u64::from(byte)).wrapping_mul(PRIME)
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_hash_is_the_published_one() {
        // Of "a" alone it is af63dc4c8601ec8c; one zero byte follows here.
        let of_a = 0xaf63_dc4c_8601_ec8c_u64;
        assert_eq!(
            fowler_noll_vo(&["a"]),
            of_a.wrapping_mul(0x0000_0100_0000_01b3)
        );
    }

    #[test]
    fn each_fingerprint_is_given_once() {
        let mut fingerprints = Fingerprints::default();
        let court = Mark::of(&["lip", "surface court"]);
        let first = Fingerprint::first(court);
        for ending in ["", "-2", "-3"] {
            let next = fingerprints.next(first);
            assert_eq!(next.to_string(), format!("{first}{ending}"));
        }
        assert_ne!(Mark::of(&["lipsurface", " court"]), court);
    }
}
