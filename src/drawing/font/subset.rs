//! A font with the outlines of some glyphs alone, for a file that shows no
//! others. Every glyph keeps its number, so that what names one stays as it is.
//!
//! The tables are those of TrueType (ISO/IEC 14496-22): the directory names
//! each table by four letters; `loca` says where in `glyf` each outline starts.

use std::collections::BTreeSet;

/// The tables that a page needs; its letters are told by number, and need no
/// table that finds them.
const KEPT: [&[u8; 4]; 9] = [
    b"cvt ", b"fpgm", b"glyf", b"head", b"hhea", b"hmtx", b"loca", b"maxp", b"prep",
];
/// Where `head` says how long the numbers of `loca` are.
const LOCA_FORMAT: usize = 50;
/// The bits of a part of a composed glyph.
const WORDS: u16 = 0x0001;
const SCALED: u16 = 0x0008;
const MORE: u16 = 0x0020;
const SCALED_TWICE: u16 = 0x0040;
const MATRIX: u16 = 0x0080;

/// The font with these glyphs and what they are composed of; `None` of bytes
/// that are no such font.
pub(crate) fn subset(font: &[u8], glyphs: impl IntoIterator<Item = u16>) -> Option<Vec<u8>> {
    let outlines = Outlines::of(font)?;
    let kept = outlines.with_parts(glyphs);
    let (mut glyf, mut loca) = (Vec::new(), Vec::new());
    for glyph in 0..outlines.count {
        loca.extend(u32::try_from(glyf.len()).ok()?.to_be_bytes());
        if kept.contains(&glyph) {
            glyf.extend(outlines.of_glyph(glyph)?);
            pad(&mut glyf);
        }
    }
    loca.extend(u32::try_from(glyf.len()).ok()?.to_be_bytes());
    let mut head = table(font, b"head")?.to_vec();
    head.get_mut(LOCA_FORMAT..LOCA_FORMAT + 2)?
        .copy_from_slice(&1_u16.to_be_bytes());
    let tables: Vec<(&[u8; 4], Vec<u8>)> = KEPT
        .into_iter()
        .filter_map(|name| {
            let bytes = match name {
                b"glyf" => glyf.clone(),
                b"loca" => loca.clone(),
                b"head" => head.clone(),
                name => table(font, name)?.to_vec(),
            };
            Some((name, bytes))
        })
        .collect();
    written(font.get(..4)?, &tables)
}

/// The outlines of a font.
struct Outlines<'f> {
    glyf: &'f [u8],
    loca: &'f [u8],
    is_long: bool,
    count: u16,
}

impl<'f> Outlines<'f> {
    fn of(font: &'f [u8]) -> Option<Outlines<'f>> {
        Some(Outlines {
            glyf: table(font, b"glyf")?,
            loca: table(font, b"loca")?,
            is_long: word(table(font, b"head")?, LOCA_FORMAT)? == 1,
            count: word(table(font, b"maxp")?, 4)?,
        })
    }

    fn start(&self, glyph: usize) -> Option<usize> {
        match self.is_long {
            true => long(self.loca, 4 * glyph).map(|at| at as usize),
            false => word(self.loca, 2 * glyph).map(|half| 2 * usize::from(half)),
        }
    }

    fn of_glyph(&self, glyph: u16) -> Option<&'f [u8]> {
        let glyph = usize::from(glyph);
        self.glyf.get(self.start(glyph)?..self.start(glyph + 1)?)
    }

    /// Glyphs with all that they are composed of.
    fn with_parts(&self, glyphs: impl IntoIterator<Item = u16>) -> BTreeSet<u16> {
        let mut kept = BTreeSet::new();
        let mut open: Vec<u16> = glyphs.into_iter().collect();
        while let Some(glyph) = open.pop() {
            if kept.insert(glyph) {
                open.extend(self.parts(glyph));
            }
        }
        kept
    }

    /// The glyphs that one is composed of; none of one that has its own lines.
    fn parts(&self, glyph: u16) -> Vec<u16> {
        let outline = self.of_glyph(glyph).unwrap_or_default();
        if word(outline, 0).is_none_or(|lines| lines < 0x8000) {
            return Vec::new();
        }
        let (mut parts, mut at) = (Vec::new(), 10);
        while let Some((bits, part)) = word(outline, at).zip(word(outline, at + 2)) {
            parts.push(part);
            at += if bits & WORDS != 0 { 8 } else { 6 };
            at += match bits {
                bits if bits & SCALED != 0 => 2,
                bits if bits & SCALED_TWICE != 0 => 4,
                bits if bits & MATRIX != 0 => 8,
                _ => 0,
            };
            if bits & MORE == 0 {
                break;
            }
        }
        parts
    }
}

/// A table of a font.
fn table<'f>(font: &'f [u8], name: &[u8; 4]) -> Option<&'f [u8]> {
    let count = usize::from(word(font, 4)?);
    let mut entries = (0..count).map(|index| 12 + 16 * index);
    let entry = entries.find(|at| font.get(*at..at + 4) == Some(name))?;
    let (start, length) = (
        long(font, entry + 8)? as usize,
        long(font, entry + 12)? as usize,
    );
    font.get(start..start.checked_add(length)?)
}

/// A font of these tables, in the order of their names.
fn written(version: &[u8], tables: &[(&[u8; 4], Vec<u8>)]) -> Option<Vec<u8>> {
    let count = u16::try_from(tables.len()).ok()?;
    // How a search in halves over the directory begins.
    let power = count.checked_ilog2()?;
    let range = 16_u16 << power;
    let mut font = version.to_vec();
    for number in [count, range, u16::try_from(power).ok()?, 16 * count - range] {
        font.extend(number.to_be_bytes());
    }
    let mut at = 12 + 16 * tables.len();
    for (name, bytes) in tables {
        font.extend(**name);
        font.extend(sum(bytes).to_be_bytes());
        font.extend(u32::try_from(at).ok()?.to_be_bytes());
        font.extend(u32::try_from(bytes.len()).ok()?.to_be_bytes());
        at += bytes.len().next_multiple_of(4);
    }
    for (_, bytes) in tables {
        font.extend(bytes);
        pad(&mut font);
    }
    Some(font)
}

fn pad(bytes: &mut Vec<u8>) {
    bytes.resize(bytes.len().next_multiple_of(4), 0);
}

/// The sum of a table by which it is checked.
fn sum(bytes: &[u8]) -> u32 {
    bytes.chunks(4).fold(0_u32, |sum, part| {
        let part = part.iter().chain(&[0; 3]).take(4);
        let number = part.fold(0_u32, |number, byte| number << 8 | u32::from(*byte));
        sum.wrapping_add(number)
    })
}

fn word(bytes: &[u8], at: usize) -> Option<u16> {
    let own = bytes.get(at..at.checked_add(2)?)?;
    Some(u16::from_be_bytes(own.try_into().ok()?))
}

fn long(bytes: &[u8], at: usize) -> Option<u32> {
    let own = bytes.get(at..at.checked_add(4)?)?;
    Some(u32::from_be_bytes(own.try_into().ok()?))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::drawing::font::Face;
    use ttf_parser::{GlyphId, OutlineBuilder};

    /// The lines of an outline, as text.
    #[derive(Default)]
    struct Lines(String);

    impl OutlineBuilder for Lines {
        fn move_to(&mut self, x: f32, y: f32) {
            self.0 += &format!("m{x},{y}");
        }
        fn line_to(&mut self, x: f32, y: f32) {
            self.0 += &format!("l{x},{y}");
        }
        fn quad_to(&mut self, a: f32, b: f32, x: f32, y: f32) {
            self.0 += &format!("q{a},{b},{x},{y}");
        }
        fn curve_to(&mut self, a: f32, b: f32, c: f32, d: f32, x: f32, y: f32) {
            self.0 += &format!("c{a},{b},{c},{d},{x},{y}");
        }
        fn close(&mut self) {
            self.0 += "z";
        }
    }

    fn lines(font: &ttf_parser::Face<'_>, glyph: u16) -> String {
        let mut lines = Lines::default();
        font.outline_glyph(GlyphId(glyph), &mut lines);
        lines.0
    }

    #[test]
    fn what_is_kept_is_drawn_as_before_and_nothing_else_is_there() {
        for face in Face::ALL {
            let whole = face.font().expect("a font");
            let used: Vec<u16> = "Ä é 0−9 Patio ½"
                .chars()
                .map(|own| face.glyph(own))
                .collect();
            let bytes = subset(face.true_type(), used.iter().copied()).expect("a font");
            assert!(bytes.len() * 2 < face.true_type().len(), "{}", bytes.len());
            let small = ttf_parser::Face::parse(&bytes, 0).expect("a sound font");
            assert_eq!(small.number_of_glyphs(), whole.number_of_glyphs());
            for glyph in &used {
                assert_eq!(lines(&small, *glyph), lines(whole, *glyph), "{glyph}");
            }
            let other = face.glyph('Q');
            assert!(!lines(whole, other).is_empty() && lines(&small, other).is_empty());
        }
    }

    #[test]
    fn bytes_that_are_no_font_give_none() {
        let font = Face::Regular.true_type();
        for bytes in [
            &[][..],
            &font[..3],
            &font[..40],
            b"no font, and no table either",
        ] {
            assert_eq!(subset(bytes, [3]), None);
        }
        // Any byte may be wrong.
        for at in (0..400).chain((400..font.len()).step_by(997)) {
            let mut broken = font.to_vec();
            broken[at] ^= 0xff;
            let _ = subset(&broken, [3, 40, 41]);
        }
    }
}
