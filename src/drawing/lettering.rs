//! Text set in the drawing's own type: how wide it is, and where each run of
//! letters stands. Sizes are the height of a capital, in millimetres.

use super::font::{self, Face};

/// The least height that is read on a building site.
pub(crate) const NOTE: f64 = 1.8;
/// Dimensions, levels and labels.
pub(crate) const LABEL: f64 = 2.5;
/// Headings.
pub(crate) const HEADING: f64 = 3.5;
/// The job's title.
pub(crate) const TITLE: f64 = 5.0;

/// Parts thousands; as wide as [`THIN`] says, and no glyph of the type.
pub(crate) const THIN_SPACE: char = '\u{2009}';
/// Stands between the figures of a fraction, which is set with a bar.
pub(crate) const FRACTION: char = '\u{2044}';

/// The width of a thin space, in ems.
const THIN: f64 = 0.11;
/// How far a hyphen moves towards the mark of feet before it, in ems.
const HYPHEN_PULL: f64 = 0.19;
/// The height of a capital, in ems.
pub(crate) const CAPITAL: f64 = 0.7;
/// How far letters reach under the base line, in ems.
const BELOW: f64 = 0.2;
/// The room between the bar of a fraction and its figures, and past them.
const BAR_GAP: f64 = 0.35;
const BAR_PAST: f64 = 0.15;
/// How heavy the bar is.
pub(crate) const BAR_WIDTH: f64 = 0.16;

/// Letters of one size in a row.
#[derive(Debug, Clone, PartialEq)]
pub struct Run {
    /// Where it starts along the line.
    pub along: f64,
    /// How far over the base line it stands.
    pub up: f64,
    /// The height of its capitals.
    pub capital: f64,
    /// How wide it is.
    pub width: f64,
    /// Its letters.
    pub text: String,
}

/// The bar of a fraction: where it starts along the line, how high, how long.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bar {
    /// Where it starts along the line.
    pub along: f64,
    /// How far over the base line.
    pub up: f64,
    /// How long.
    pub length: f64,
}

/// A line of text with its measures.
#[derive(Debug, Clone, PartialEq)]
pub struct Setting {
    /// The face.
    pub face: Face,
    /// Its runs, from left to right.
    pub runs: Vec<Run>,
    /// The bars of its fractions.
    pub bars: Vec<Bar>,
    /// How wide it is.
    pub width: f64,
    /// How far it reaches over the base line.
    pub above: f64,
    /// How far under it.
    pub below: f64,
}

impl Setting {
    /// The text as it is read, fractions with their stroke.
    pub fn words(&self) -> String {
        let mut words = String::new();
        let mut before: Option<&Run> = None;
        for run in &self.runs {
            if let Some(before) = before {
                let is_denominator = run.up < 0.0 && before.up > 0.0;
                words.push_str(if is_denominator { "/" } else { "" });
            }
            words.push_str(&run.text);
            before = Some(run);
        }
        words
    }
}

/// Sets a line of text.
pub(crate) fn set(text: &str, capital: f64, face: Face) -> Setting {
    let em = capital / CAPITAL;
    let mut line = Line {
        setting: Setting {
            face,
            runs: Vec::new(),
            bars: Vec::new(),
            width: 0.0,
            above: capital,
            below: BELOW * em,
        },
        capital,
        run: None,
    };
    let letters: Vec<char> = text.chars().map(printable).collect();
    let mut rest = letters.as_slice();
    while let Some((first, after)) = rest.split_first() {
        if let Some((over, under, left)) = fraction(rest) {
            line.fraction(&over, &under);
            rest = left;
            continue;
        }
        match *first {
            THIN_SPACE => line.skip(THIN * em),
            letter => {
                if letter == '-' && line.ends_with('′') {
                    line.skip(-HYPHEN_PULL * em);
                }
                line.letter(letter);
            }
        }
        rest = after;
    }
    line.end_run();
    line.setting
}

/// The words of a text broken into lines no wider than so many millimetres; a
/// word wider than that is parted at its hyphens, and cut where it has none.
pub(crate) fn broken(text: &str, capital: f64, face: Face, width: f64) -> Vec<Setting> {
    let mut lines: Vec<String> = Vec::new();
    let fits = |text: &str| set(text, capital, face).width <= width;
    for word in words_of(text) {
        let parts: Vec<&str> = match fits(&word) {
            true => vec![&word],
            false => word.split_inclusive('-').collect(),
        };
        for (number, part) in parts.into_iter().enumerate() {
            let blank = if number == 0 { " " } else { "" };
            let longer = lines.last().map(|line| format!("{line}{blank}{part}"));
            match (longer, lines.last_mut()) {
                (Some(longer), Some(line)) if fits(&longer) => *line = longer,
                _ => lines.push(cut(part, capital, face, width)),
            }
        }
    }
    lines.iter().map(|line| set(line, capital, face)).collect()
}

/// The words of a text; a sign of per cent stays with its figure.
fn words_of(text: &str) -> Vec<String> {
    let mut words: Vec<String> = Vec::new();
    for word in text.split_whitespace() {
        match words.last_mut() {
            Some(last) if word.starts_with('%') && last.ends_with(is_figure) => {
                *last += &format!(" {word}");
            }
            _ => words.push(word.to_owned()),
        }
    }
    words
}

const fn is_figure(letter: char) -> bool {
    letter.is_ascii_digit()
}

/// The sizes that a line is set in, the largest first, before it is cut.
const SIZES: [f64; 7] = [TITLE, 4.0, HEADING, 3.0, LABEL, 2.1, NOTE];

/// A line in so wide a place: as large as is asked for, smaller where only that
/// leaves it whole, and cut where it is too long for the smallest type.
pub(crate) fn fitted(text: &str, capital: f64, face: Face, width: f64) -> Setting {
    let smaller = SIZES.into_iter().filter(|size| *size < capital);
    let sizes = std::iter::once(capital).chain(smaller);
    let mut set = sizes.map(|size| set(text, size, face));
    let whole = set.find(|setting| setting.width <= width);
    whole.unwrap_or_else(|| {
        let least = capital.min(NOTE);
        self::set(&cut(text, least, face, width), least, face)
    })
}

/// A text in so wide a place and so many lines: as large as is asked for, smaller
/// where only that leaves it whole; what is too long for the smallest type is cut.
pub(crate) fn fitted_lines(
    text: &str,
    capital: f64,
    face: Face,
    (width, most): (f64, usize),
) -> Vec<Setting> {
    let is_whole = |lines: &Vec<Setting>| {
        lines.len() <= most && lines.iter().all(|line| !line.words().ends_with('…'))
    };
    let smaller = SIZES.into_iter().filter(|size| *size < capital);
    let sizes = std::iter::once(capital).chain(smaller);
    let mut broken = sizes.map(|size| broken(text, size, face, width));
    if let Some(whole) = broken.find(is_whole) {
        return whole;
    }
    let mut lines = self::broken(text, NOTE, face, width);
    let is_longer = lines.len() > most;
    lines.truncate(most);
    if let Some(last) = lines.last_mut().filter(|_| is_longer) {
        let words = format!("{} …", last.words());
        *last = set(&cut(&words, NOTE, face, width), NOTE, face);
    }
    lines
}

/// As much of a text as a width takes, with dots for the rest.
pub(crate) fn cut(text: &str, capital: f64, face: Face, width: f64) -> String {
    if set(text, capital, face).width <= width {
        return text.to_owned();
    }
    let mut kept = String::new();
    for letter in text.chars() {
        let longer = format!("{kept}{letter}…");
        if set(&longer, capital, face).width > width {
            break;
        }
        kept.push(letter);
    }
    kept.trim_end().to_owned() + "…"
}

/// A letter that may be written in any format: what only controls a terminal
/// or a reader is a blank.
fn printable(letter: char) -> char {
    let turns = ('\u{200e}'..='\u{200f}').contains(&letter)
        || ('\u{202a}'..='\u{202e}').contains(&letter)
        || ('\u{2066}'..='\u{2069}').contains(&letter);
    let is_none = ('\u{fdd0}'..='\u{fdef}').contains(&letter) || (letter as u32) & 0xfffe == 0xfffe;
    if letter.is_control() || turns || is_none {
        ' '
    } else {
        letter
    }
}

/// The figures over and under the bar that a text starts with, and the rest.
fn fraction(letters: &[char]) -> Option<(String, String, &[char])> {
    let figures = |letters: &[char]| letters.iter().take_while(|c| c.is_ascii_digit()).count();
    let over = figures(letters);
    let (above, rest) = letters.split_at_checked(over)?;
    let (mark, rest) = rest.split_first()?;
    let under = figures(rest);
    let (below, rest) = rest.split_at_checked(under)?;
    let is_one = *mark == FRACTION && over > 0 && under > 0;
    is_one.then(|| (above.iter().collect(), below.iter().collect(), rest))
}

struct Line {
    setting: Setting,
    capital: f64,
    run: Option<Run>,
}

impl Line {
    fn ends_with(&self, letter: char) -> bool {
        self.run
            .as_ref()
            .is_some_and(|run| run.text.ends_with(letter))
    }

    fn letter(&mut self, letter: char) {
        let advance = font::advance(self.setting.face, letter) * self.capital / CAPITAL;
        let along = self.setting.width;
        let capital = self.capital;
        let run = self.run.get_or_insert_with(|| Run {
            along,
            up: 0.0,
            capital,
            width: 0.0,
            text: String::new(),
        });
        run.text.push(letter);
        run.width += advance;
        self.setting.width += advance;
    }

    fn end_run(&mut self) {
        self.setting.runs.extend(self.run.take());
    }

    /// Leaves room, or takes it back.
    fn skip(&mut self, room: f64) {
        self.end_run();
        self.setting.width += room;
    }

    fn fraction(&mut self, over: &str, under: &str) {
        self.end_run();
        let capital = NOTE.min(self.capital);
        let wide = |text: &str| -> f64 {
            let ems = text.chars().map(|c| font::advance(self.setting.face, c));
            ems.sum::<f64>() * capital / CAPITAL
        };
        let (wide_over, wide_under) = (wide(over), wide(under));
        let length = wide_over.max(wide_under) + 2.0 * BAR_PAST;
        let bar_at = self.capital / 2.0;
        let start = self.setting.width;
        for (text, width, up) in [
            (over, wide_over, bar_at + BAR_GAP),
            (under, wide_under, bar_at - BAR_GAP - capital),
        ] {
            self.setting.runs.push(Run {
                along: start + (length - width) / 2.0,
                up,
                capital,
                width,
                text: text.to_owned(),
            });
        }
        self.setting.bars.push(Bar {
            along: start,
            up: bar_at,
            length,
        });
        self.setting.width += length + BAR_PAST;
        self.setting.above = self.setting.above.max(bar_at + BAR_GAP + capital);
        self.setting.below = self.setting.below.max(BAR_GAP + capital - bar_at);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_line_is_as_wide_as_its_letters() {
        let (one, two) = (set("1", 2.5, Face::Medium), set("11", 2.5, Face::Medium));
        assert!((two.width - 2.0 * one.width).abs() < 1e-9);
        let thousand = set("1\u{2009}000", 2.5, Face::Medium);
        assert!(thousand.width > set("1000", 2.5, Face::Medium).width);
        assert_eq!(thousand.runs.len(), 2);
        assert_eq!(set("", 2.5, Face::Medium).runs, []);
    }

    #[test]
    fn a_fraction_stands_over_its_bar_and_is_never_too_small() {
        let level = set("−4 5⁄8″", 2.5, Face::Medium);
        assert_eq!(level.words(), "−4 5/8″");
        assert_eq!(level.bars.len(), 1);
        assert!(level.runs.iter().all(|run| run.capital >= NOTE));
        assert!(level.above > 2.5 && level.below > 0.5);
        // A stroke that is none of a fraction.
        assert_eq!(set("a⁄b", 2.5, Face::Medium).bars, []);
    }

    #[test]
    fn long_texts_are_broken_and_long_words_cut() {
        let lines = broken(
            "to the flower beds on the south side",
            1.8,
            Face::Regular,
            20.0,
        );
        assert!(lines.len() > 1 && lines.iter().all(|line| line.width <= 20.0));
        let cut = cut(&"w".repeat(99), 1.8, Face::Regular, 20.0);
        assert!(cut.ends_with('…') && set(&cut, 1.8, Face::Regular).width <= 20.0);
    }

    #[test]
    fn what_is_long_is_set_smaller_before_it_is_cut() {
        let words = "Terrace, steps and long walk at Upper Mill";
        let line = |width: f64| fitted(words, HEADING, Face::Medium, width);
        let (roomy, close, tight) = (line(200.0), line(50.0), line(20.0));
        assert_eq!(
            (roomy.words(), close.words()),
            (words.to_owned(), words.to_owned())
        );
        assert!(close.width < roomy.width && close.width <= 50.0);
        assert!(tight.words().ends_with('…') && tight.width <= 20.0);
        let lines = |width: f64| fitted_lines(words, TITLE, Face::Medium, (width, 2));
        let whole = lines(45.0);
        assert!(whole.len() <= 2 && !whole.iter().any(|line| line.words().contains('…')));
        let cut = lines(12.0);
        assert!(cut.len() == 2 && cut.iter().any(|line| line.words().contains('…')));
    }

    #[test]
    fn a_long_word_is_parted_at_its_hyphens_and_a_short_one_is_not() {
        let told = |text: &str, width: f64| -> Vec<String> {
            let lines = broken(text, 1.8, Face::Regular, width);
            lines.iter().map(Setting::words).collect()
        };
        let long = told("soakaway-beyond-the-compost-yard", 20.0);
        assert!(
            long.len() > 1 && long.concat() == "soakaway-beyond-the-compost-yard",
            "{long:?}"
        );
        assert_eq!(told("north-east", 20.0), ["north-east"]);
        // Nor is a figure from its sign.
        let width = set("It falls 2", 1.8, Face::Regular).width + 0.1;
        assert_eq!(told("It falls 2 %", width), ["It falls", "2 %"]);
    }

    #[test]
    fn what_is_no_letter_is_a_blank() {
        assert_eq!(set("a\u{1b}\u{202e}b", 2.5, Face::Regular).words(), "a  b");
    }
}
