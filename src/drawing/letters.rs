//! The letters of the drains: the same on the plan and in the long sections,
//! wherever the name of one has no room.

use crate::model::{Drain, Job};

const LETTERS: &[u8; 26] = b"abcdefghijklmnopqrstuvwxyz";

/// The letter of a drain, by its place in the job: `a`, `b`; after `z` they
/// begin again with two, `aa`, `ab`.
pub(crate) fn letter_of(job: &Job, drain: &Drain) -> String {
    let mut drains = job.drains.iter();
    let place = drains.position(|own| own.place == drain.place);
    lettered(place.unwrap_or_default())
}

fn lettered(place: usize) -> String {
    let letter = LETTERS.get(place % LETTERS.len());
    let last = letter.map_or('a', |letter| char::from(*letter));
    match place / LETTERS.len() {
        0 => last.to_string(),
        before => format!("{}{last}", lettered(before - 1)),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn letters_go_on_after_the_last() {
        for (place, letters) in [(0, "a"), (25, "z"), (26, "aa"), (51, "az"), (702, "aaa")] {
            assert_eq!(lettered(place), letters);
        }
    }
}
