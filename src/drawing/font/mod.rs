//! The type of the drawings: Barlow Semi Condensed in two weights, with
//! figures that stand in columns. `subset.py` beside this file makes the
//! fonts, `LICENSE.txt` is theirs.

mod subset;

pub(crate) use subset::subset;

use std::sync::LazyLock;

/// A weight of the type.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Face {
    /// For explanation.
    Regular,
    /// For what is built to.
    Medium,
}

/// The name by which a drawing asks for the type.
pub(crate) const FAMILY: &str = "Barlow Semi Condensed";

/// The parts that the font divides an em into.
pub(crate) const EM: f64 = 1000.0;

impl Face {
    /// Both.
    pub const ALL: [Face; 2] = [Face::Regular, Face::Medium];

    /// Its weight as style sheets count it.
    pub const fn weight(self) -> u16 {
        match self {
            Face::Regular => 400,
            Face::Medium => 500,
        }
    }

    /// The font as TrueType.
    pub const fn true_type(self) -> &'static [u8] {
        match self {
            Face::Regular => include_bytes!("regular.ttf"),
            Face::Medium => include_bytes!("medium.ttf"),
        }
    }

    /// The font packed for the web, in base 64.
    pub const fn packed(self) -> &'static str {
        match self {
            Face::Regular => include_str!("regular.woff2.base64"),
            Face::Medium => include_str!("medium.woff2.base64"),
        }
    }

    /// The font, to be asked for glyphs.
    pub fn font(self) -> Option<&'static ttf_parser::Face<'static>> {
        static REGULAR: LazyLock<Option<ttf_parser::Face<'static>>> =
            LazyLock::new(|| ttf_parser::Face::parse(Face::Regular.true_type(), 0).ok());
        static MEDIUM: LazyLock<Option<ttf_parser::Face<'static>>> =
            LazyLock::new(|| ttf_parser::Face::parse(Face::Medium.true_type(), 0).ok());
        match self {
            Face::Regular => REGULAR.as_ref(),
            Face::Medium => MEDIUM.as_ref(),
        }
    }

    /// The glyph of a letter; the empty box, 0, where the font has none.
    pub fn glyph(self, letter: char) -> u16 {
        let found = self.font().and_then(|font| font.glyph_index(letter));
        found.map_or(0, |glyph| glyph.0)
    }
}

/// How many letters are measured once and for all: those of the Latin script.
const MEASURED: usize = 0x180;

/// How far a letter moves the line on, in ems.
pub(crate) fn advance(face: Face, letter: char) -> f64 {
    static REGULAR: LazyLock<Vec<f64>> = LazyLock::new(|| measured(Face::Regular));
    static MEDIUM: LazyLock<Vec<f64>> = LazyLock::new(|| measured(Face::Medium));
    let known = match face {
        Face::Regular => &REGULAR,
        Face::Medium => &MEDIUM,
    };
    let known = known.get(letter as usize).copied();
    known.unwrap_or_else(|| advance_in_font(face, letter))
}

fn measured(face: Face) -> Vec<f64> {
    let letters = (0..MEASURED as u32).map(|letter| char::from_u32(letter).unwrap_or(' '));
    letters
        .map(|letter| advance_in_font(face, letter))
        .collect()
}

fn advance_in_font(face: Face, letter: char) -> f64 {
    let width = face.font().and_then(|font| {
        let glyph = ttf_parser::GlyphId(face.glyph(letter));
        font.glyph_hor_advance(glyph)
    });
    f64::from(width.unwrap_or(500)) / EM
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn figures_stand_in_columns_and_the_trade_s_marks_are_there() {
        for face in Face::ALL {
            assert_eq!(f64::from(face.font().expect("a font").units_per_em()), EM);
            let widths: Vec<f64> = ('0'..='9').map(|figure| advance(face, figure)).collect();
            assert!(widths.iter().all(|width| (width - widths[0]).abs() < 1e-9));
            for letter in "AZaz09 .,:-−′″×·Ø°%()/ÄéñčłŻ–…“”".chars() {
                assert_ne!(face.glyph(letter), 0, "{letter}");
            }
            assert_eq!(face.glyph('\u{4e00}'), 0);
            // What is measured once is what the font says.
            for letter in ('\0'..='\u{250}').chain(['−', '\u{4e00}']) {
                assert_eq!(advance(face, letter), advance_in_font(face, letter));
            }
        }
    }
}
