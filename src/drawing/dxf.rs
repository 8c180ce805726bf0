//! A drawing as DXF of the release that every reader takes, R12: in the
//! plan's own measure, millimetres or inches, a layer for each kind of thing.

use std::fmt::Write;

use super::display_list::{Drawing, Ink, Item, Layer, Mark, Path, Pen, Text};
use crate::geometry::{Edge, Point};

/// The patterns of broken lines, by their strokes and gaps and how much larger
/// they are than on paper.
type Dashes = Vec<(&'static [f64], f64)>;

/// A drawing as DXF. Fills that only clear or tint the paper are left out: the
/// release has no tints, and in full ink one would hide what it lies under. No
/// tint carries a meaning alone, for the lines about it do too.
pub fn dxf(drawing: &Drawing) -> String {
    let measure = if drawing.is_imperial { 25.4 } else { 1.0 };
    let mut out = Writer {
        text: String::new(),
        origin: drawing.origin,
        factor: drawing.scale / measure,
        inset: None,
        dashes: Dashes::new(),
    };
    let items: Vec<(Option<(Point, f64)>, &Item)> = (drawing.items.iter().enumerate())
        .map(|(index, item)| {
            let mut insets = drawing.insets.iter();
            let inset = insets.find(|own| own.items.contains(&index));
            (inset.map(|own| (own.corner, own.scale / measure)), item)
        })
        .collect();
    for (inset, item) in &items {
        out.inset = *inset;
        if let Mark::Stroke(_, pen) = &item.mark {
            out.add_dash(*pen);
        }
    }
    out.inset = None;
    out.header(drawing);
    out.tables();
    out.pair(0, "SECTION");
    out.pair(2, "ENTITIES");
    for (inset, item) in items {
        out.inset = inset;
        match &item.mark {
            Mark::Stroke(paths, pen) => out.stroke(item.layer, paths, *pen),
            Mark::Fill(_, Ink::Paper | Ink::WaterTint | Ink::Tint) => {}
            Mark::Fill(paths, ink) => out.fill(item.layer, paths, *ink),
            Mark::Text(own) => out.text(item.layer, own),
        }
    }
    out.pair(0, "ENDSEC");
    out.pair(0, "EOF");
    out.text
}

/// The colour of an ink by its number: black on white and white on black, the
/// greys, and blue.
const fn colour(ink: Ink) -> i32 {
    match ink {
        Ink::Black | Ink::Paper => 7,
        Ink::Grey | Ink::Tint => 8,
        Ink::Pale => 9,
        Ink::Water | Ink::WaterTint => 5,
    }
}

struct Writer {
    text: String,
    origin: Point,
    factor: f64,
    /// The corner of the inset that is being written, and its own factor: it
    /// stands where it does on the sheet and is as large as what it shows.
    inset: Option<(Point, f64)>,
    dashes: Dashes,
}

impl Writer {
    fn pair(&mut self, code: i32, value: &str) {
        let _ = write!(self.text, "{code}\n{value}\n");
    }

    fn number(&mut self, code: i32, value: f64) {
        let _ = write!(self.text, "{code}\n{value:.6}\n");
    }

    fn count(&mut self, code: i32, value: i32) {
        let _ = write!(self.text, "{code}\n{value}\n");
    }

    /// A place in the plan's measure.
    fn place(&self, at: Point) -> (f64, f64) {
        let (corner, own) = self.inset.unwrap_or((at, self.factor));
        let off = (corner - self.origin) * self.factor + (at - corner) * own;
        (off.x, off.y)
    }

    /// What a millimetre of paper comes to in the plan's measure.
    fn own_factor(&self) -> f64 {
        self.inset.map_or(self.factor, |(_, own)| own)
    }

    fn point(&mut self, code: i32, at: Point) {
        let (x, y) = self.place(at);
        self.number(code, x);
        self.number(code + 10, y);
        self.number(code + 20, 0.0);
    }

    fn header(&mut self, drawing: &Drawing) {
        self.pair(0, "SECTION");
        self.pair(2, "HEADER");
        self.pair(9, "$ACADVER");
        self.pair(1, "AC1009");
        self.pair(9, "$INSUNITS");
        self.count(70, if drawing.is_imperial { 1 } else { 4 });
        self.pair(9, "$MEASUREMENT");
        self.count(70, if drawing.is_imperial { 0 } else { 1 });
        let (width, height) = drawing.size;
        self.pair(9, "$EXTMIN");
        self.point(10, Point::ORIGIN);
        self.pair(9, "$EXTMAX");
        self.point(10, Point::new(width, height));
        self.pair(0, "ENDSEC");
    }

    fn tables(&mut self) {
        self.pair(0, "SECTION");
        self.pair(2, "TABLES");
        self.pair(0, "TABLE");
        self.pair(2, "LTYPE");
        self.count(70, self.dashes.len() as i32 + 1);
        self.line_type("CONTINUOUS", (&[], 1.0));
        for (number, dash) in self.dashes.clone().into_iter().enumerate() {
            self.line_type(&format!("BROKEN-{}", number + 1), dash);
        }
        self.pair(0, "ENDTAB");
        self.pair(0, "TABLE");
        self.pair(2, "LAYER");
        self.count(70, Layer::ALL.len() as i32);
        for layer in Layer::ALL {
            let ink = match layer {
                Layer::Water | Layer::Falls => Ink::Water,
                Layer::Units => Ink::Grey,
                _ => Ink::Black,
            };
            self.pair(0, "LAYER");
            self.pair(2, &name(*layer));
            self.count(70, 0);
            self.count(62, colour(ink));
            self.pair(6, "CONTINUOUS");
        }
        self.pair(0, "ENDTAB");
        self.pair(0, "TABLE");
        self.pair(2, "STYLE");
        self.count(70, 1);
        self.pair(0, "STYLE");
        self.pair(2, "STANDARD");
        self.count(70, 0);
        for (code, value) in [(40, 0.0), (41, 1.0), (50, 0.0)] {
            self.number(code, value);
        }
        self.count(71, 0);
        self.number(42, 2.5);
        self.pair(3, "txt");
        self.pair(4, "");
        self.pair(0, "ENDTAB");
        self.pair(0, "ENDSEC");
    }

    fn line_type(&mut self, name: &str, (dash, factor): (&[f64], f64)) {
        self.pair(0, "LTYPE");
        self.pair(2, name);
        self.count(70, 0);
        self.pair(3, "");
        self.count(72, 65);
        self.count(73, dash.len() as i32);
        self.number(40, dash.iter().sum::<f64>() * factor);
        for (number, part) in dash.iter().enumerate() {
            // A gap is a length below zero.
            let sign = if number % 2 == 0 { 1.0 } else { -1.0 };
            self.number(49, sign * part * factor);
        }
    }

    /// What every entity begins with.
    fn entity(&mut self, kind: &str, layer: Layer, ink: Ink) {
        self.pair(0, kind);
        self.pair(8, &name(layer));
        self.count(62, colour(ink));
    }

    fn add_dash(&mut self, pen: Pen) {
        let own = (pen.dash, self.own_factor());
        if !pen.dash.is_empty() && !self.dashes.contains(&own) {
            self.dashes.push(own);
        }
    }

    fn stroke(&mut self, layer: Layer, paths: &[Path], pen: Pen) {
        let own = (pen.dash, self.own_factor());
        let broken = self.dashes.iter().position(|dash| *dash == own);
        let line = broken.map_or("CONTINUOUS".to_owned(), |at| format!("BROKEN-{}", at + 1));
        for path in paths {
            self.path(layer, path, pen.ink, &line);
        }
    }

    fn path(&mut self, layer: Layer, path: &Path, ink: Ink, line: &str) {
        match path.edges.as_slice() {
            [] => {}
            [edge] if !edge.is_arc() => {
                self.entity("LINE", layer, ink);
                self.pair(6, line);
                self.point(10, edge.start);
                self.point(11, edge.end);
            }
            edges => self.polyline(layer, edges, path.is_closed, ink, line),
        }
    }

    /// Lines and arcs in a row: each corner has the bulge of what follows.
    fn polyline(&mut self, layer: Layer, edges: &[Edge], is_closed: bool, ink: Ink, line: &str) {
        self.entity("POLYLINE", layer, ink);
        self.pair(6, line);
        self.count(66, 1);
        for code in [10, 20, 30] {
            self.number(code, 0.0);
        }
        self.count(70, i32::from(is_closed));
        for edge in edges {
            self.vertex(layer, edge.start, edge.bulge);
        }
        if let Some(last) = edges.last()
            && !is_closed
        {
            self.vertex(layer, last.end, 0.0);
        }
        self.pair(0, "SEQEND");
        self.pair(8, &name(layer));
    }

    fn vertex(&mut self, layer: Layer, at: Point, bulge: f64) {
        self.pair(0, "VERTEX");
        self.pair(8, &name(layer));
        self.point(10, at);
        if bulge != 0.0 {
            self.number(42, bulge);
        }
    }

    /// Three or four corners are filled; what is round is drawn as its line.
    fn fill(&mut self, layer: Layer, paths: &[Path], ink: Ink) {
        for path in paths {
            let corners: Vec<Point> = path.edges.iter().map(|edge| edge.start).collect();
            let is_straight = path.edges.iter().all(|edge| !edge.is_arc());
            let solid = match corners.as_slice() {
                [a, b, c] if is_straight => Some([*a, *b, *c, *c]),
                // The last two change places: so the format has it.
                [a, b, c, d] if is_straight => Some([*a, *b, *d, *c]),
                _ => None,
            };
            match solid {
                Some(corners) => {
                    self.entity("SOLID", layer, ink);
                    for (code, corner) in (10..).zip(corners) {
                        self.point(code, corner);
                    }
                }
                None => self.path(layer, path, ink, "CONTINUOUS"),
            }
        }
    }

    fn text(&mut self, layer: Layer, text: &Text) {
        let words = escaped(&text.setting.words());
        let capital = text.setting.runs.iter().map(|run| run.capital);
        let capital = capital.fold(0.0, f64::max);
        if words.trim().is_empty() {
            return;
        }
        self.entity("TEXT", layer, text.ink);
        self.point(10, text.at);
        self.number(40, capital * self.own_factor());
        self.pair(1, &words);
        self.number(50, text.angle.to_degrees());
        // Letters of this width in the type that readers have.
        self.number(41, 0.8);
    }
}

fn name(layer: Layer) -> String {
    layer.word().to_ascii_uppercase()
}

/// Text on one line in plain characters: others by their number, and nothing
/// that a reader would take for a command.
fn escaped(text: &str) -> String {
    let mut safe = String::new();
    for letter in text.chars() {
        match letter {
            '\\' => safe.push('/'),
            '%' if safe.ends_with('%') => safe.push_str(" %"),
            '^' => safe.push('\''),
            '\u{2033}' => safe.push('"'),
            '\u{2032}' => safe.push('\''),
            ' '..='~' => safe.push(letter),
            control if control.is_control() => safe.push(' '),
            other => {
                let mut units = [0; 2];
                for unit in other.encode_utf16(&mut units) {
                    let _ = write!(safe, "\\U+{unit:04X}");
                }
            }
        }
    }
    safe
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::drawing::beside::sheet_item;
    use crate::drawing::display_list::{Inset, Weight};

    #[test]
    fn an_inset_is_as_large_as_what_it_shows() {
        let line = |from: (f64, f64), to: (f64, f64)| {
            let (from, to) = (Point::new(from.0, from.1), Point::new(to.0, to.1));
            let pen = Pen::of(Weight::Mid).dashed(&[2.0, 1.0]);
            sheet_item(None, Mark::Stroke(vec![Path::line(from, to)], pen))
        };
        let drawing = Drawing {
            title: "Steps".to_owned(),
            size: (100.0, 100.0),
            scale: 50.0,
            origin: Point::ORIGIN,
            is_imperial: false,
            items: vec![
                line((0.0, 0.0), (10.0, 0.0)),
                line((20.0, 5.0), (30.0, 5.0)),
            ],
            insets: vec![Inset {
                items: 1..2,
                corner: Point::new(20.0, 5.0),
                scale: 5.0,
            }],
            notes: Vec::new(),
        };
        let text = dxf(&drawing);
        let line = |from: (f64, f64), to: (f64, f64)| {
            format!(
                "10\n{:.6}\n20\n{:.6}\n30\n0.000000\n11\n{:.6}\n21\n{:.6}\n",
                from.0, from.1, to.0, to.1
            )
        };
        // To 1:50, and where it stands on the sheet, but to 1:5.
        assert!(text.contains(&line((0.0, 0.0), (500.0, 0.0))), "{text}");
        assert!(
            text.contains(&line((1000.0, 250.0), (1050.0, 250.0))),
            "{text}"
        );
        // Strokes of 2 mm are broken as they are on paper.
        for length in ["49\n100.000000\n", "49\n10.000000\n"] {
            assert!(text.contains(length), "{text}");
        }
    }

    #[test]
    fn text_is_no_command() {
        for (text, safe) in [
            ("a %%c b", "a % %c b"),
            ("\\U+0041", "/U+0041"),
            ("Ø 4′-6″", "\\U+00D8 4'-6\""),
            ("a\nb", "a b"),
        ] {
            assert_eq!(escaped(text), safe);
        }
    }
}
