//! A drawing as a PNG picture.

use tiny_skia::{
    Color, FillRule, LineCap, LineJoin, Paint, PathBuilder, Pixmap, Stroke, StrokeDash, Transform,
};

use super::curves::curves;
use super::display_list::{Drawing, Ink, Mark, Path, Pen, Text};
use super::glyphs::{Pencil, trace};
use crate::geometry::Point;

/// Dots to a millimetre: 200 to the inch, within the rounding of a dot.
pub(crate) const DOTS: f64 = 7.874;

/// A drawing as PNG, 200 dots to the inch; `None` if the picture cannot be
/// held.
pub fn png(drawing: &Drawing) -> Option<Vec<u8>> {
    let (width, height) = drawing.size;
    let dots = |side: f64| (side * DOTS).round().clamp(1.0, 20_000.0) as u32;
    let mut canvas = Canvas {
        pixels: Pixmap::new(dots(width), dots(height))?,
        height,
    };
    canvas.pixels.fill(Color::WHITE);
    for item in &drawing.items {
        match &item.mark {
            Mark::Stroke(paths, pen) => canvas.stroke(paths, *pen),
            Mark::Fill(paths, ink) => canvas.fill(canvas.outline(paths), *ink, FillRule::EvenOdd),
            Mark::Text(text) => canvas.text(text),
        }
    }
    canvas.pixels.encode_png().ok()
}

struct Canvas {
    pixels: Pixmap,
    height: f64,
}

fn paint(ink: Ink) -> Paint<'static> {
    let (red, green, blue) = ink.rgb();
    let mut paint = Paint {
        anti_alias: true,
        ..Paint::default()
    };
    paint.set_color_rgba8(red, green, blue, 255);
    paint
}

impl Canvas {
    fn dot(&self, at: Point) -> (f32, f32) {
        ((at.x * DOTS) as f32, ((self.height - at.y) * DOTS) as f32)
    }

    fn outline(&self, paths: &[Path]) -> Option<tiny_skia::Path> {
        let mut tracing = Tracing::of(self);
        for path in paths {
            let Some(start) = path.start() else { continue };
            tracing.start(start);
            for edge in &path.edges {
                let bends = curves(edge);
                if bends.is_empty() {
                    tracing.line(edge.end);
                }
                for [one, other, to] in bends {
                    let ((a, b), (c, d), (x, y)) = (self.dot(one), self.dot(other), self.dot(to));
                    tracing.builder.cubic_to(a, b, c, d, x, y);
                }
            }
            if path.is_closed {
                tracing.close();
            }
        }
        tracing.builder.finish()
    }

    fn fill(&mut self, outline: Option<tiny_skia::Path>, ink: Ink, rule: FillRule) {
        if let Some(outline) = outline {
            self.pixels
                .fill_path(&outline, &paint(ink), rule, Transform::identity(), None);
        }
    }

    fn stroke(&mut self, paths: &[Path], pen: Pen) {
        let dash: Vec<f32> = pen.dash.iter().map(|part| (part * DOTS) as f32).collect();
        self.line(self.outline(paths), pen.weight.width(), pen.ink, dash);
    }

    fn line(&mut self, line: Option<tiny_skia::Path>, width: f64, ink: Ink, dash: Vec<f32>) {
        let stroke = Stroke {
            width: (width * DOTS) as f32,
            line_cap: LineCap::Butt,
            line_join: LineJoin::Round,
            dash: StrokeDash::new(dash, 0.0),
            ..Stroke::default()
        };
        if let Some(line) = line {
            self.pixels
                .stroke_path(&line, &paint(ink), &stroke, Transform::identity(), None);
        }
    }

    fn text(&mut self, text: &Text) {
        let mut tracing = Tracing::of(self);
        trace(text, &mut tracing);
        let letters = tracing.builder.finish();
        self.fill(letters, text.ink, FillRule::Winding);
        for bar in &text.setting.bars {
            let ends =
                [bar.along, bar.along + bar.length].map(|along| text.on_sheet(along, bar.up));
            let line = self.outline(&[Path::through(&ends)]);
            self.line(line, super::lettering::BAR_WIDTH, text.ink, Vec::new());
        }
    }
}

/// Lines in dots.
struct Tracing {
    builder: PathBuilder,
    height: f64,
}

impl Tracing {
    fn of(canvas: &Canvas) -> Tracing {
        Tracing {
            builder: PathBuilder::new(),
            height: canvas.height,
        }
    }

    fn dot(&self, at: Point) -> (f32, f32) {
        ((at.x * DOTS) as f32, ((self.height - at.y) * DOTS) as f32)
    }
}

impl Pencil for Tracing {
    fn start(&mut self, at: Point) {
        let (x, y) = self.dot(at);
        self.builder.move_to(x, y);
    }

    fn line(&mut self, to: Point) {
        let (x, y) = self.dot(to);
        self.builder.line_to(x, y);
    }

    fn bend(&mut self, handle: Point, to: Point) {
        let ((a, b), (x, y)) = (self.dot(handle), self.dot(to));
        self.builder.quad_to(a, b, x, y);
    }

    fn close(&mut self) {
        self.builder.close();
    }
}
