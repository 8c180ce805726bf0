//! Ways by the compass as people write them: `toward SW`, `bearing NE, 3 m`,
//! `southwest 3 m`. The language has four words and bearings in degrees.

use super::misread::refused;
use super::source::Source;
use crate::findings::{Finding, Fix};
use crate::syntax::Item;
use crate::vocabulary::{DIRECTIONS, SectionKind};

/// The winds by their letters, an eighth of a turn from one to the next.
const LETTERS: [&str; 8] = ["n", "ne", "e", "se", "s", "sw", "w", "nw"];

/// The same by their words, without a hyphen.
const WORDS: [&str; 8] = [
    "north",
    "northeast",
    "east",
    "southeast",
    "south",
    "southwest",
    "west",
    "northwest",
];

/// The bearing of a wind, in degrees.
fn bearing_of(word: &str) -> Option<u32> {
    let plain = word.to_lowercase().replace('-', "");
    let is_it = |wind: &str| wind == plain;
    let at = LETTERS.iter().position(|wind| is_it(wind));
    let at = at.or_else(|| WORDS.iter().position(|wind| is_it(wind)))?;
    Some(45 * at as u32)
}

/// How the language writes a wind where a direction stands: `north`, or
/// `bearing 225°`; nothing for what is none, or is written so.
pub(super) fn as_direction(word: &str) -> Option<String> {
    let bearing = bearing_of(word)?;
    let own = DIRECTIONS.iter();
    let mut own = own.filter(|(_, degrees)| *degrees == f64::from(bearing));
    let written = match own.next() {
        Some((own, _)) => (*own).to_owned(),
        None => format!("bearing {bearing}°"),
    };
    (!written.eq_ignore_ascii_case(word)).then_some(written)
}

/// `toward SW`: a wind where a direction belongs.
pub(super) fn wind_as_direction(source: &Source<'_>, rest: &[Item]) -> Option<(usize, Finding)> {
    let word = source.word(rest.first()?)?;
    let written = as_direction(word)?;
    let message = format!("`{word}` is written `{written}`");
    refused(source, rest.get(..1)?, "word-unknown", message, &[written])
}

/// `bearing SW`: a wind where an angle belongs.
pub(super) fn wind_as_angle(source: &Source<'_>, rest: &[Item]) -> Option<(usize, Finding)> {
    let word = source.word(rest.first()?)?;
    let written = format!("{}°", bearing_of(word)?);
    let message = format!("a bearing is an angle: `{word}` is `{written}`");
    refused(source, rest.get(..1)?, "word-unknown", message, &[written])
}

/// `SW 3 m`: a wind that begins a step of a path.
pub(super) fn wind_as_key(kind: &SectionKind, source: &Source<'_>) -> Option<Finding> {
    let word = source.slice(source.line.word);
    let written = as_direction(word).filter(|_| kind.key("bearing").is_some())?;
    let place = source.place(source.line.word);
    let message = format!("`{word}` is written `{written}`");
    let finding = Finding::new("word-unknown", place, message);
    // Behind a bearing the length stands after a comma.
    let comma = match written.starts_with("bearing") {
        true => ",",
        false => "",
    };
    Some(finding.fix(Fix::judged(
        format!("Write `{written}`"),
        place,
        format!("{written}{comma}"),
    )))
}

#[cfg(test)]
mod tests {
    use super::as_direction;

    #[test]
    fn winds_are_told_by_the_words_of_the_language() {
        for (word, written) in [
            ("SW", Some("bearing 225°")),
            ("north-east", Some("bearing 45°")),
            ("northwest", Some("bearing 315°")),
            ("N", Some("north")),
            ("north", None),
            ("South", None),
            ("garden", None),
        ] {
            assert_eq!(as_direction(word).as_deref(), written, "{word}");
        }
    }
}
