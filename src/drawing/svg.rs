//! A drawing as SVG: one file, nothing asked of a network, text as text.

use std::fmt::Write;

use super::display_list::{Drawing, Ink, Item, Layer, Mark, Path, Pen, Text};
use super::font::{FAMILY, Face};
use super::lettering::{BAR_WIDTH, CAPITAL};
use crate::findings::Place;
use crate::geometry::Point;
use crate::text::is_unshown;

/// Where an entry stands, as a picture says it: lines move, these do not. The
/// place of its section among those of the file, and of its line among those
/// of the section.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct Anchor {
    /// The section, from 0.
    pub section: usize,
    /// The line in it, from 0.
    pub entry: usize,
}

impl From<(usize, usize)> for Anchor {
    fn from((section, entry): (usize, usize)) -> Anchor {
        Anchor { section, entry }
    }
}

/// What goes into an SVG besides the drawing.
pub struct Dress<'d> {
    /// Whether the type comes with it; a page that has it already leaves it
    /// out.
    pub has_type: bool,
    /// Where the entry at a place stands.
    pub anchor: &'d dyn Fn(Place) -> Option<Anchor>,
}

/// A drawing as SVG.
pub fn svg(drawing: &Drawing, dress: &Dress<'_>) -> String {
    let (width, height) = drawing.size;
    let mut out = format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{width}mm\" height=\"{height}mm\" \
         viewBox=\"0 0 {width} {height}\" role=\"img\">\n<title>{}</title>\n",
        escaped(&drawing.title)
    );
    if dress.has_type {
        out += &type_style(drawing);
    }
    let _ = writeln!(
        out,
        "<rect class=\"sheet\" width=\"{width}\" height=\"{height}\" fill=\"#ffffff\"/>\n\
         <g font-family=\"'{FAMILY}', 'Arial Narrow', sans-serif\" \
         fill-rule=\"evenodd\" \
         stroke-linejoin=\"round\">"
    );
    let mut open: Option<(Layer, Option<Anchor>)> = None;
    for item in &drawing.items {
        let group = (item.layer, item.link.and_then(dress.anchor));
        if open != Some(group) {
            out += if open.is_some() { "</g>\n" } else { "" };
            let _ = write!(out, "<g class=\"{}\"", item.layer.word());
            if let Some(anchor) = group.1 {
                let (section, entry) = (anchor.section, anchor.entry);
                let _ = write!(out, " data-section=\"{section}\" data-entry=\"{entry}\"");
            }
            out.push_str(">\n");
            open = Some(group);
        }
        draw(&mut out, height, item);
    }
    out += if open.is_some() { "</g>\n" } else { "" };
    out += "</g>\n</svg>\n";
    out
}

/// The style that brings the type along, in the weights that are used.
fn type_style(drawing: &Drawing) -> String {
    let mut style = String::from("<style>\ntext{font-kerning:none;font-variant-ligatures:none}\n");
    for face in Face::ALL {
        let is_used = drawing
            .items
            .iter()
            .any(|item| matches!(&item.mark, Mark::Text(text) if text.setting.face == face));
        if is_used {
            style += &type_face(face);
        }
    }
    style + "</style>\n"
}

/// The rule of a style sheet that brings one weight of the type.
pub fn type_face(face: Face) -> String {
    format!(
        "@font-face{{font-family:'{FAMILY}';font-weight:{};\
         src:url(data:font/woff2;base64,{})format('woff2')}}\n",
        face.weight(),
        face.packed()
    )
}

fn draw(out: &mut String, height: f64, item: &Item) {
    match &item.mark {
        Mark::Stroke(paths, pen) => stroke(out, height, paths, *pen),
        Mark::Fill(paths, ink) => {
            let _ = writeln!(
                out,
                "<path class=\"{}\" fill=\"{}\" d=\"{}\"/>",
                ink.word(),
                colour(*ink),
                data(height, paths)
            );
        }
        Mark::Text(text) => write_text(out, height, text),
    }
}

fn stroke(out: &mut String, height: f64, paths: &[Path], pen: Pen) {
    let _ = write!(
        out,
        "<path class=\"{}\" fill=\"none\" stroke=\"{}\" stroke-width=\"{}\"",
        pen.ink.word(),
        colour(pen.ink),
        pen.weight.width()
    );
    if !pen.dash.is_empty() {
        let dash: Vec<String> = pen.dash.iter().map(ToString::to_string).collect();
        let _ = write!(out, " stroke-dasharray=\"{}\"", dash.join(" "));
    }
    let _ = writeln!(out, " d=\"{}\"/>", data(height, paths));
}

fn colour(ink: Ink) -> String {
    let (red, green, blue) = ink.rgb();
    format!("#{red:02x}{green:02x}{blue:02x}")
}

/// A coordinate to a hundredth of a millimetre, without needless zeros.
fn number(value: f64) -> String {
    let text = format!("{value:.2}");
    let short = text.trim_end_matches('0').trim_end_matches('.');
    match short {
        "-0" | "" => "0".to_owned(),
        short => short.to_owned(),
    }
}

fn data(height: f64, paths: &[Path]) -> String {
    let mut text = String::new();
    let place = |point: Point| format!("{} {}", number(point.x), number(height - point.y));
    for path in paths {
        let Some(start) = path.start() else { continue };
        let _ = write!(text, "M{}", place(start));
        let mut at = start;
        for edge in &path.edges {
            if edge.start.distance(at) > 0.005 {
                let _ = write!(text, "M{}", place(edge.start));
            }
            let radius = edge.radius();
            if edge.is_arc() && radius < 1e5 {
                let long = u8::from(edge.bulge.abs() > 1.0);
                // The paper counts upward, the picture downward.
                let sweep = u8::from(edge.bulge < 0.0);
                let radius = number(radius);
                let _ = write!(
                    text,
                    "A{radius} {radius} 0 {long} {sweep} {}",
                    place(edge.end)
                );
            } else {
                let _ = write!(text, "L{}", place(edge.end));
            }
            at = edge.end;
        }
        text += if path.is_closed { "Z" } else { "" };
    }
    text
}

fn write_text(out: &mut String, height: f64, text: &Text) {
    let weight = text.setting.face.weight();
    let ink = text.ink;
    for run in &text.setting.runs {
        if run.text.trim().is_empty() {
            continue;
        }
        let at = text.on_sheet(run.along, run.up);
        let _ = write!(
            out,
            "<text class=\"{}\" fill=\"{}\"",
            ink.word(),
            colour(ink)
        );
        let (x, y) = (number(at.x), number(height - at.y));
        if text.angle.abs() > 1e-9 {
            let turn = number(-text.angle.to_degrees());
            let _ = write!(out, " transform=\"translate({x} {y}) rotate({turn})\"");
        } else {
            let _ = write!(out, " x=\"{x}\" y=\"{y}\"");
        }
        let _ = writeln!(
            out,
            " font-size=\"{}\" font-weight=\"{weight}\" textLength=\"{}\" \
             lengthAdjust=\"spacingAndGlyphs\" xml:space=\"preserve\">{}</text>",
            number(run.capital / CAPITAL),
            number(run.width),
            escaped(&run.text)
        );
    }
    for bar in &text.setting.bars {
        let ends = [bar.along, bar.along + bar.length].map(|along| text.on_sheet(along, bar.up));
        let _ = writeln!(
            out,
            "<path class=\"{}\" fill=\"none\" stroke=\"{}\" stroke-width=\"{BAR_WIDTH}\" d=\"{}\"/>",
            ink.word(),
            colour(ink),
            data(height, &[Path::line(ends[0], ends[1])])
        );
    }
}

/// Text that may stand between tags and in quotes. What no XML may hold is
/// already a blank.
fn escaped(text: &str) -> String {
    let mut safe = String::with_capacity(text.len());
    for letter in text.chars() {
        match letter {
            '&' => safe.push_str("&amp;"),
            '<' => safe.push_str("&lt;"),
            '>' => safe.push_str("&gt;"),
            '"' => safe.push_str("&quot;"),
            '\'' => safe.push_str("&#39;"),
            unshown if is_unshown(unshown) => safe.push(' '),
            '\u{fffe}' | '\u{ffff}' => safe.push(' '),
            other => safe.push(other),
        }
    }
    safe
}
