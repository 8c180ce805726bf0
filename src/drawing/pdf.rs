//! Drawings as PDF: a page of its own size for each, the type within the file,
//! text as text.

use std::collections::BTreeMap;

use pdf_writer::types::{CidFontType, FontFlags, SystemInfo, UnicodeCmap};
use pdf_writer::{Content, Filter, Finish, Name, Pdf, Rect, Ref, Str, TextStr};

use super::curves::curves;
use super::display_list::{Drawing, Ink, Mark, Path, Text};
use super::font::{EM, Face, subset};
use super::lettering::{BAR_WIDTH, CAPITAL};
use crate::geometry::Point;

/// Points of a PDF to a millimetre.
const POINTS: f64 = 72.0 / 25.4;

const CATALOG: Ref = Ref::new(1);
const PAGES: Ref = Ref::new(2);
const INFO: Ref = Ref::new(3);
/// The first of the objects of a face; each has six.
const FONTS: i32 = 10;

const IDENTITY: SystemInfo<'static> = SystemInfo {
    registry: Str(b"Adobe"),
    ordering: Str(b"Identity"),
    supplement: 0,
};

/// The objects of the pages: each page and its content, after the faces.
fn page_objects(index: usize) -> (Ref, Ref) {
    let first = FONTS + 6 * Face::ALL.len() as i32 + 2 * index as i32;
    (Ref::new(first), Ref::new(first + 1))
}

/// Drawings as PDF, a page each; the first one's title is that of the file.
pub fn pdf<'d>(drawings: impl IntoIterator<Item = &'d Drawing>) -> Vec<u8> {
    let drawings: Vec<&Drawing> = drawings.into_iter().collect();
    let mut pdf = Pdf::new();
    pdf.catalog(CATALOG).pages(PAGES);
    let pages = (0..drawings.len()).map(|index| page_objects(index).0);
    pdf.pages(PAGES).kids(pages).count(drawings.len() as i32);
    let title = drawings.first().map_or("", |first| &first.title);
    let mut info = pdf.document_info(INFO);
    info.title(TextStr(title)).creator(TextStr("drylay"));
    info.finish();
    let mut used: BTreeMap<Face, Used> = BTreeMap::new();
    for (index, drawing) in drawings.into_iter().enumerate() {
        let page = page(drawing, used);
        let (object_of_page, object_of_content) = page_objects(index);
        let (width, height) = drawing.size;
        let mut sheet = pdf.page(object_of_page);
        sheet
            .parent(PAGES)
            .media_box(Rect::new(0.0, 0.0, points(width), points(height)))
            .contents(object_of_content);
        let mut resources = sheet.resources();
        let mut fonts = resources.fonts();
        for face in page.used.keys() {
            fonts.pair(Name(name(*face)), object(*face, 0));
        }
        fonts.finish();
        resources.finish();
        sheet.finish();
        let content = packed(&page.content.finish());
        pdf.stream(object_of_content, &content)
            .filter(Filter::FlateDecode);
        used = page.used;
    }
    for (face, used) in &used {
        embed(&mut pdf, *face, used);
    }
    pdf.finish()
}

/// What is drawn on a page, and the letters that it and those before it use.
fn page(drawing: &Drawing, used: BTreeMap<Face, Used>) -> Page {
    let mut page = Page {
        content: Content::new(),
        used,
    };
    page.content
        .set_line_join(pdf_writer::types::LineJoinStyle::RoundJoin);
    for item in &drawing.items {
        match &item.mark {
            Mark::Stroke(paths, pen) => {
                let dash = pen.dash.iter().map(|part| points(*part));
                page.stroke(paths, pen.weight.width(), pen.ink, dash);
            }
            Mark::Fill(paths, ink) => {
                page.fill_in(*ink);
                page.trace(paths);
                page.content.fill_even_odd();
            }
            Mark::Text(text) => page.text(text),
        }
    }
    page
}

/// Points to a hundredth: what is finer is not seen, and makes a file long.
fn points(millimetres: f64) -> f32 {
    ((millimetres * POINTS * 100.0).round() / 100.0) as f32
}

fn packed(bytes: &[u8]) -> Vec<u8> {
    // More effort takes three times as long and makes a sheet little shorter.
    miniz_oxide::deflate::compress_to_vec_zlib(bytes, 3)
}

const fn name(face: Face) -> &'static [u8] {
    match face {
        Face::Regular => b"R",
        Face::Medium => b"M",
    }
}

fn object(face: Face, which: i32) -> Ref {
    let first = match face {
        Face::Regular => FONTS,
        Face::Medium => FONTS + 6,
    };
    Ref::new(first + which)
}

/// The glyphs of a face that are used, each with the letter that it shows.
type Used = BTreeMap<u16, char>;

struct Page {
    content: Content,
    used: BTreeMap<Face, Used>,
}

impl Page {
    fn fill_in(&mut self, ink: Ink) {
        let [red, green, blue] = shares(ink);
        self.content.set_fill_rgb(red, green, blue);
    }

    fn stroke(
        &mut self,
        paths: &[Path],
        width: f64,
        ink: Ink,
        dash: impl IntoIterator<Item = f32>,
    ) {
        let [red, green, blue] = shares(ink);
        self.content.set_stroke_rgb(red, green, blue);
        self.content.set_line_width(points(width));
        self.content.set_dash_pattern(dash, 0.0);
        self.trace(paths);
        self.content.stroke();
    }

    fn trace(&mut self, paths: &[Path]) {
        let at = |point: Point| (points(point.x), points(point.y));
        for path in paths {
            let Some(start) = path.start() else { continue };
            let (x, y) = at(start);
            self.content.move_to(x, y);
            for edge in &path.edges {
                let bends = curves(edge);
                if bends.is_empty() {
                    let (x, y) = at(edge.end);
                    self.content.line_to(x, y);
                }
                for [one, other, to] in bends {
                    let ((a, b), (c, d), (x, y)) = (at(one), at(other), at(to));
                    self.content.cubic_to(a, b, c, d, x, y);
                }
            }
            if path.is_closed {
                self.content.close_path();
            }
        }
    }

    fn text(&mut self, text: &Text) {
        let face = text.setting.face;
        let (sin, cos) = text.angle.sin_cos();
        self.fill_in(text.ink);
        for run in &text.setting.runs {
            let mut shown = Vec::new();
            for letter in run.text.chars() {
                let glyph = face.glyph(letter);
                shown.extend(glyph.to_be_bytes());
                self.used
                    .entry(face)
                    .or_default()
                    .entry(glyph)
                    .or_insert(letter);
            }
            let at = text.on_sheet(run.along, run.up);
            let (sin, cos) = (sin as f32, cos as f32);
            self.content.begin_text();
            self.content
                .set_font(Name(name(face)), points(run.capital / CAPITAL));
            self.content
                .set_text_matrix([cos, sin, -sin, cos, points(at.x), points(at.y)]);
            self.content.show(Str(&shown));
            self.content.end_text();
        }
        for bar in &text.setting.bars {
            let ends =
                [bar.along, bar.along + bar.length].map(|along| text.on_sheet(along, bar.up));
            self.stroke(&[Path::through(&ends)], BAR_WIDTH, text.ink, []);
        }
    }
}

fn shares(ink: Ink) -> [f32; 3] {
    let (red, green, blue) = ink.rgb();
    [red, green, blue].map(|part| f32::from(part) / 255.0)
}

/// Writes a face: the outlines that are used, and which letters they show.
fn embed(pdf: &mut Pdf, face: Face, used: &Used) {
    let (font, cid, descriptor, letters, file) = (
        object(face, 0),
        object(face, 1),
        object(face, 2),
        object(face, 3),
        object(face, 4),
    );
    let full: &[u8] = match face {
        Face::Regular => b"DRYLAY+BarlowSemiCondensed-Regular",
        Face::Medium => b"DRYLAY+BarlowSemiCondensed-Medium",
    };
    let base = Name(full);
    pdf.type0_font(font)
        .base_font(base)
        .encoding_predefined(Name(b"Identity-H"))
        .descendant_font(cid)
        .to_unicode(letters);
    let mut own = pdf.cid_font(cid);
    own.subtype(CidFontType::Type2)
        .base_font(base)
        .system_info(IDENTITY)
        .font_descriptor(descriptor)
        .default_width(500.0)
        .cid_to_gid_map_predefined(Name(b"Identity"));
    let mut widths = own.widths();
    for (glyph, letter) in used {
        let width = super::font::advance(face, *letter) * EM;
        widths.consecutive(*glyph, [width as f32]);
    }
    widths.finish();
    own.finish();
    pdf.font_descriptor(descriptor)
        .name(base)
        .flags(FontFlags::NON_SYMBOLIC)
        .bbox(Rect::new(-200.0, -250.0, 1200.0, 1000.0))
        .italic_angle(0.0)
        .ascent(1000.0)
        .descent(-200.0)
        .cap_height(700.0)
        .stem_v(80.0)
        .font_file2(file);
    let mut cmap = UnicodeCmap::new(Name(b"Letters"), IDENTITY);
    for (glyph, letter) in used {
        // The box that stands for a letter the font has not shows none.
        let letter = if *glyph == 0 { '\u{fffd}' } else { *letter };
        cmap.pair(*glyph, letter);
    }
    pdf.cmap(letters, &cmap.finish());
    let whole = face.true_type();
    let small = subset(whole, used.keys().copied());
    let bytes = small.as_deref().unwrap_or(whole);
    let file_bytes = packed(bytes);
    let mut stream = pdf.stream(file, &file_bytes);
    stream.filter(Filter::FlateDecode);
    stream.pair(Name(b"Length1"), bytes.len() as i32);
    stream.finish();
}
