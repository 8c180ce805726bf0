//! What two texts have in common at both ends.

/// How many bytes are compared at once.
const STRIDE: usize = 4096;

/// How many bytes two texts have in common at their start and at their end:
/// together never more than the shorter text has.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Common {
    /// At the start.
    pub start: usize,
    /// At the end.
    pub end: usize,
}

impl Common {
    /// What two texts have in common.
    pub fn of(one: &str, other: &str) -> Self {
        let (one, other) = (one.as_bytes(), other.as_bytes());
        let start = common_start(one, other);
        let most = one.len().min(other.len()) - start;
        Self {
            start,
            end: match most {
                0 => 0,
                most => common_end(one, other).min(most),
            },
        }
    }

    /// What is in common with a text before two edits, where this is what the
    /// first left of it, and `later` what the second left of that.
    #[must_use]
    pub fn and_then(self, later: Common) -> Common {
        Common {
            start: self.start.min(later.start),
            end: self.end.min(later.end),
        }
    }

    /// Whether that is the whole of a text.
    pub fn is_all_of(&self, text: &str) -> bool {
        self.start + self.end == text.len()
    }
}

fn common_start(a: &[u8], b: &[u8]) -> usize {
    let chunks = a.chunks(STRIDE).zip(b.chunks(STRIDE));
    let same = STRIDE
        * chunks
            .take_while(|(x, y)| x == y && x.len() == STRIDE)
            .count();
    let (a, b) = (
        a.get(same..).unwrap_or_default(),
        b.get(same..).unwrap_or_default(),
    );
    same + a.iter().zip(b).take_while(|(x, y)| x == y).count()
}

fn common_end(a: &[u8], b: &[u8]) -> usize {
    let chunks = a.rchunks(STRIDE).zip(b.rchunks(STRIDE));
    let same = STRIDE
        * chunks
            .take_while(|(x, y)| x == y && x.len() == STRIDE)
            .count();
    let (a, b) = (
        a.get(..a.len() - same).unwrap_or_default(),
        b.get(..b.len() - same).unwrap_or_default(),
    );
    same + a
        .iter()
        .rev()
        .zip(b.iter().rev())
        .take_while(|(x, y)| x == y)
        .count()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn both_ends_are_found_and_never_overlap() {
        let long = "x".repeat(3 * STRIDE);
        for (one, other, start, end) in [
            ("", "", 0, 0),
            ("abc", "abc", 3, 0),
            ("abc", "axc", 1, 1),
            ("aa", "aaa", 2, 0),
            ("abab", "ab", 2, 0),
            ("½", "¼", 1, 0),
            (
                &format!("{long}a{long}"),
                &format!("{long}bb{long}"),
                3 * STRIDE,
                3 * STRIDE,
            ),
        ] {
            assert_eq!(Common::of(one, other), Common { start, end });
            assert_eq!(Common::of(other, one), Common { start, end });
        }
    }
}
