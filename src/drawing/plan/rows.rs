//! What is known of a field whose units are not drawn one by one: where rings
//! and courses run, which way ashlar and small units lie. The rest is texture:
//! no joint is claimed that is not known.

use super::canvas::Canvas;
use super::fields::{called, pattern_words, pieces, unit_size};
use super::ground::Ground;
use crate::drawing::clip;
use crate::drawing::display_list::{Ink, Layer, Mark, Path, Pen, Weight};
use crate::drawing::legend::{boxed, sample_field};
use crate::drawing::measure;
use crate::drawing::texture::{self, Texture};
use crate::findings::Place;
use crate::geometry::{Edge, NO_TAG, Outline, Point, Vector};
use crate::model::{Layer as Course, Pattern};
use crate::quantities::guide;

const ROWS: Pen = Pen::of(Weight::Fine).in_ink(Ink::Grey);

/// Rows nearer to one another on paper are not all drawn.
const NEAREST: f64 = 2.4;
/// The most rings, and the most points at which one is looked at, that one
/// field is drawn with.
const MOST: f64 = 2_000.0;
/// From one point of a ring to the next.
const STEP: f64 = 0.8;
/// How often the end of a ring is halved to find it.
const HALVINGS: u32 = 20;

/// Rows a fixed way apart on the paper; of narrow ones so many are one.
struct Rows {
    apart: f64,
    of: u32,
}

impl Rows {
    fn of(metres: f64, scale: f64) -> Option<Rows> {
        let one = metres * scale;
        let is_sound = one.is_finite() && one > 1e-3;
        let of = is_sound.then(|| (NEAREST / one).ceil().max(1.0))?;
        Some(Rows {
            apart: one * of,
            of: of as u32,
        })
    }

    /// What the legend says of them.
    fn words(&self, what: &str, across: &str) -> String {
        let every = match self.of {
            1 => format!("each {what} drawn"),
            2 => format!("every second {what} drawn"),
            3 => format!("every third {what} drawn"),
            more => format!("every {more}th {what} drawn"),
        };
        format!("{every}, {across} not")
    }
}

/// Draws a field of rings, courses or ashlar.
pub(crate) fn draw(canvas: &mut Canvas, ground: &Ground<'_>, pattern: Pattern, top: &Course) {
    let surface = ground.surface;
    let Some(laid) = surface.laid.as_ref() else {
        return;
    };
    let title = called(&top.of.value, canvas.region);
    let joint = surface.joint.as_ref();
    let joint = joint.map_or(0.0, |joint| joint.width.value.si());
    let scale = canvas.view.scale;
    let (size, rows) = match (pattern, &laid.wide, unit_size(surface)) {
        (Pattern::Courses, Some(wide), _) => {
            let wide = wide.value.si();
            let words = format!("{} wide, ", measure::thickness(wide, canvas.system));
            (words, Rows::of(wide + joint, scale))
        }
        (Pattern::Courses | Pattern::Rings, _, Some((long, short))) => (
            measure::unit(long, short, canvas.system) + ", ",
            Rows::of(short + joint, scale),
        ),
        _ => (String::new(), None),
    };
    let fields = pieces(canvas, ground);
    let place = laid.place;
    let words = format!("{size}{}", pattern_words(pattern));
    let centre = laid.centre.as_ref().map(|centre| centre.value);
    match (pattern, rows, centre) {
        (Pattern::Rings, Some(rows), Some(centre)) => {
            let middle = canvas.view.point(ground.laid_point(centre));
            let drawn = fields
                .iter()
                .flat_map(|field| rings(middle, rows.apart, field));
            let drawn = Mark::Stroke(drawn.collect(), ROWS);
            canvas.draw_within(Layer::Textures, surface, place, drawn);
            let field = sample_field();
            let below = field.centroid() + Vector::new(0.0, -6.0);
            let sample = Mark::Stroke(rings(below, NEAREST, &field), ROWS);
            let words = format!("{words}; {}", rows.words("ring", "joints across them"));
            canvas.explain(boxed(vec![sample]), &title, Some(words));
        }
        (Pattern::Courses, Some(rows), _) => {
            let way = way(ground);
            let start = guide(surface).map(|edge| canvas.view.point(ground.laid_point(edge.start)));
            let start = start.unwrap_or(canvas.view.origin);
            let drawn = fields
                .iter()
                .flat_map(|field| courses(start, way, rows.apart, field));
            let drawn = Mark::Stroke(drawn.collect(), ROWS);
            canvas.draw_within(Layer::Textures, surface, place, drawn);
            let east = Vector::new(1.0, 0.0);
            let sample = courses(Point::ORIGIN, east, NEAREST, &sample_field());
            let sample = Mark::Stroke(sample, ROWS);
            let words = format!("{words}; {}", rows.words("course", "joints across them"));
            canvas.explain(boxed(vec![sample]), &title, Some(words));
        }
        (Pattern::Ashlar, ..) => {
            let texture = Texture::Ashlar(way(ground));
            strewn(canvas, ground, texture, place);
            let words = format!("{words}; texture only, joints as the stones come");
            explain(
                canvas,
                Texture::Ashlar(Vector::new(1.0, 0.0)),
                &title,
                words,
            );
        }
        _ => {
            let words = format!("{words}; not drawn unit by unit");
            canvas.explain(boxed(Vec::new()), &title, Some(words));
        }
    }
}

/// Draws a field of units too small to be drawn one by one: strokes the way that
/// they lie, both ways where they lie crosswise.
pub(crate) fn small_units(
    canvas: &mut Canvas,
    ground: &Ground<'_>,
    (pattern, along): (Pattern, Vector),
    (title, words): (&str, String),
    link: Place,
) {
    let is_crosswise = matches!(pattern, Pattern::Herringbone | Pattern::BasketWeave);
    let texture = |along: Vector| Texture::Units(along, is_crosswise);
    strewn(canvas, ground, texture(along), link);
    let words = format!("{words}; too small to draw at this scale, texture only");
    explain(canvas, texture(Vector::new(1.0, 0.0)), title, words);
}

fn strewn(canvas: &mut Canvas, ground: &Ground<'_>, texture: Texture, link: Place) {
    let seed = texture::seed(&ground.surface.name.value);
    for piece in pieces(canvas, ground) {
        for mark in texture::marks(texture, seed, canvas.view.origin, &piece) {
            canvas.draw_within(Layer::Textures, ground.surface, link, mark);
        }
    }
}

fn explain(canvas: &mut Canvas, texture: Texture, title: &str, words: String) {
    let sample = texture::marks(texture, 7, Point::ORIGIN, &sample_field());
    canvas.explain(boxed(sample), title, Some(words));
}

/// Which way the long joints run on the paper.
fn way(ground: &Ground<'_>) -> Vector {
    let along = guide(ground.surface).map_or(Vector::new(1.0, 0.0), |edge| edge.chord().unit());
    let laid = ground.surface.laid.as_ref();
    let angle = laid.and_then(|laid| laid.angle.as_ref());
    let angle = angle.map_or(0.0, |angle| angle.value.si().to_radians());
    along.turned(ground.turn() - angle)
}

/// Lines so far apart, one of them through a point, as far as they lie in an
/// outline.
fn courses(start: Point, way: Vector, apart: f64, field: &Outline) -> Vec<Path> {
    let off = |at: Point, along: Vector| along.dot(at - start);
    let ends = |along: Vector| {
        let (least, most) = field.extremes(along);
        let own = off(Point::ORIGIN, along);
        (least + own, most + own)
    };
    let ((first, last), (low, high)) = (ends(way), ends(way.left()));
    if (high - low) / apart > MOST {
        return Vec::new();
    }
    let rows = (low / apart).ceil() as i64..=(high / apart).floor() as i64;
    let lines = rows.flat_map(|row| {
        let on = start + way.left() * (row as f64 * apart);
        clip::inside(on + way * first, on + way * last, field)
    });
    let lines = lines.filter(|(from, to)| from.distance(*to) > 0.05);
    lines.map(|(from, to)| Path::line(from, to)).collect()
}

/// Circles so far apart about a point, as far as they lie in an outline.
fn rings(centre: Point, apart: f64, field: &Outline) -> Vec<Path> {
    let (low, high) = field.bounding_box();
    let corners = [
        low,
        high,
        Point::new(low.x, high.y),
        Point::new(high.x, low.y),
    ];
    let farthest = corners.iter().map(|corner| corner.distance(centre));
    let count = farthest.fold(0.0, f64::max) / apart;
    if count > MOST {
        return Vec::new();
    }
    let radii = (1..=count as u32).map(|ring| f64::from(ring) * apart);
    radii
        .flat_map(|radius| ring(centre, radius, field))
        .collect()
}

/// The parts of a circle that lie in an outline.
fn ring(centre: Point, radius: f64, field: &Outline) -> Vec<Path> {
    let all = std::f64::consts::TAU;
    let count = (all * radius / STEP).clamp(24.0, MOST) as u32;
    let angle = |step: u32| all * f64::from(step) / f64::from(count);
    let at = |angle: f64| centre + Vector::new(radius, 0.0).turned(angle);
    let is_in = |angle: f64| field.contains(at(angle));
    let inside: Vec<bool> = (0..count).map(|step| is_in(angle(step))).collect();
    if inside.iter().all(|own| *own) {
        return vec![Path::circle(centre, radius)];
    }
    // Where it goes in and out, each found between two points.
    let turns = (0..count).zip(inside.iter().zip(inside.iter().cycle().skip(1)));
    let turns = turns.filter(|(_, (one, next))| one != next);
    let turns = turns.map(|(step, (one, _))| {
        let (mut from, mut to) = (angle(step), angle(step + 1));
        for _ in 0..HALVINGS {
            let middle = f64::midpoint(from, to);
            match is_in(middle) == *one {
                true => from = middle,
                false => to = middle,
            }
        }
        (f64::midpoint(from, to), !*one)
    });
    let turns: Vec<(f64, bool)> = turns.collect();
    let next = turns.iter().cycle().skip(1);
    let arcs = turns.iter().zip(next).filter(|((_, goes_in), _)| *goes_in);
    let arcs = arcs.map(|((from, _), (to, _))| {
        let sweep = (to - from).rem_euclid(all);
        let bulge = (0.25 * sweep).tan();
        Path::edge(Edge::arc(at(*from), at(from + sweep), bulge, NO_TAG))
    });
    arcs.collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn rings_and_courses_end_where_their_field_does() {
        let field = Outline::rectangle(Point::ORIGIN, 20.0, 10.0, [0; 4]).expect("a field");
        let middle = Point::new(10.0, 5.0);
        let drawn = rings(middle, 2.0, &field);
        // Of 2 and 4 mm whole circles; from 6 to 10 two arcs each; no farther
        // one goes past the corners, at 11.18.
        for path in &drawn {
            let edges = path.edges.iter();
            for end in edges.flat_map(|edge| [edge.start, edge.end]) {
                let off = end.distance(middle) % 2.0;
                assert!(off.min(2.0 - off) < 1e-6, "{end:?}");
                assert!(end.x > -1e-3 && end.x < 20.001 && end.y > -1e-3 && end.y < 10.001);
            }
        }
        assert_eq!(drawn.len(), 2 + 2 * 3);
        let east = Vector::new(1.0, 0.0);
        let lines = courses(Point::new(0.0, -1.0), east, 3.0, &field);
        let heights: Vec<f64> = lines
            .iter()
            .filter_map(|path| Some(path.start()?.y))
            .collect();
        assert_eq!(heights, [2.0, 5.0, 8.0]);
        // A row of no width is none, and a field of too many none at all.
        assert!(Rows::of(0.0, 20.0).is_none() && Rows::of(f64::NAN, 20.0).is_none());
        assert!(courses(Point::ORIGIN, east, 1e-9, &field).is_empty());
        assert!(rings(middle, 1e-9, &field).is_empty());
    }

    #[test]
    fn narrow_rows_are_drawn_several_as_one() {
        for (metres, of, words) in [
            (0.1, 2, "every second ring drawn, joints not"),
            (0.2, 1, "each ring drawn, joints not"),
            (0.02, 6, "every 6th ring drawn, joints not"),
        ] {
            let rows = Rows::of(metres, 20.0).expect("rows");
            assert_eq!(rows.of, of, "{metres}");
            assert!(rows.apart >= NEAREST - 1e-9);
            assert_eq!(rows.words("ring", "joints"), words);
        }
    }
}
