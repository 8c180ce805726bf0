//! Flights of steps: the ground that each takes, its nosings with the risers
//! numbered from the foot, and an arrow that climbs it.

use super::canvas::Canvas;
use super::ground::View;
use crate::analysis::Analysis;
use crate::drawing::display_list::{Extents, Ink, Layer, Mark, Path, Pen, Weight};
use crate::drawing::font::Face;
use crate::drawing::labels::{Label, room};
use crate::drawing::legend::SAMPLE;
use crate::drawing::lettering::{self, LABEL, NOTE, Setting};
use crate::drawing::measure;
use crate::geometry::{Outline, Point, Vector};
use crate::model::Steps;
use crate::quantities::Flight;
use crate::vocabulary::Handrail;

/// The length of the arrow's head and half its width, in millimetres of paper.
const HEAD: (f64, f64) = (2.4, 0.7);

/// How far inside a side its handrail is drawn.
const INSIDE: f64 = 1.2;

/// The radius of a handrail's post.
const POST: f64 = 0.7;

/// How far the arrow reaches past a single riser to each side.
const ACROSS: f64 = 4.0;

/// The widest line of a label.
const WIDEST: f64 = 48.0;

const NOSING: Pen = Pen::of(Weight::Mid);

/// The ground that the flights of a job take, on the paper.
pub(crate) fn outlines(analysis: &Analysis, view: &View) -> Vec<Outline> {
    let flights = analysis.figures.steps.iter();
    flights
        .filter_map(|figures| figures.flight.as_ref()?.plan.as_ref())
        .map(|plan| view.outline(plan))
        .collect()
}

/// Every point that a plan has to hold for its flights: one of a single riser
/// takes no ground, and is drawn by its line and its arrow.
pub(crate) fn corners(analysis: &Analysis, view: &View) -> Vec<Point> {
    let mut corners = Vec::new();
    for (_, flight) in flights(analysis) {
        for index in 0..flight.risers {
            let (left, right) = nosing(view, flight, index);
            corners.extend([left, right]);
        }
        let (low, high) = arrow_line(view, flight);
        corners.extend([low, high]);
        let plan = flight.plan.as_deref().into_iter();
        corners.extend(plan.flat_map(Outline::corners).map(|at| view.point(at)));
    }
    corners
}

/// The flights that are known, each with its section.
fn flights(analysis: &Analysis) -> impl Iterator<Item = (&Steps, &Flight)> {
    let figures = analysis.figures.steps.iter();
    let all = analysis.job.steps.iter().zip(figures);
    all.filter_map(|(own, figures)| Some((own.as_ref(), figures.flight.as_ref()?)))
}

/// Draws the flights of a job over what they stand on.
pub(crate) fn draw(canvas: &mut Canvas, analysis: &Analysis) {
    for (own, figures) in analysis.job.steps.iter().zip(analysis.figures.steps.iter()) {
        if let Some(why) = figures.unknown {
            canvas.note(format!("{}: {why}, and it is not drawn.", own.name.value));
        }
    }
    for (own, flight) in flights(analysis) {
        let link = Some(own.place);
        if let Some(plan) = &flight.plan {
            let round = vec![Path::round(&canvas.view.outline(plan).outer)];
            canvas.draw(Layer::Outlines, link, Mark::Fill(round.clone(), Ink::Paper));
            canvas.draw(Layer::Outlines, link, Mark::Stroke(round, NOSING));
        }
        let lines: Vec<(Point, Point)> = (0..flight.risers)
            .map(|index| nosing(&canvas.view, flight, index))
            .collect();
        let paths = lines.iter().map(|(from, to)| Path::line(*from, *to));
        canvas.draw(Layer::Outlines, link, Mark::Stroke(paths.collect(), NOSING));
        for (from, to) in lines {
            canvas.board.take_line(from, to);
        }
        let (low, high) = arrow_line(&canvas.view, flight);
        for mark in arrow(low, high) {
            canvas.draw(Layer::Outlines, link, mark);
        }
        canvas.explain(sample(), "Steps, the arrow climbs", None);
        handrail(canvas, own, flight);
    }
}

/// The handrail along the sides that are stated, a post at each end: where
/// along them it stands, and how high, is not stated.
fn handrail(canvas: &mut Canvas, own: &Steps, flight: &Flight) {
    let Some(handrail) = &own.handrail else {
        return;
    };
    let sides: &[f64] = match handrail.value {
        Handrail::Both => &[1.0, -1.0],
        Handrail::Left => &[1.0],
        Handrail::Right => &[-1.0],
        Handrail::One => {
            canvas.note(format!(
                "{}: on which side its handrail is, is not stated, and it is not drawn.",
                own.name.value
            ));
            return;
        }
    };
    let link = Some(handrail.place);
    let (low, high) = arrow_line(&canvas.view, flight);
    let way = (high - low).unit();
    let left = way.left() * (0.5 * flight.width_m * canvas.view.scale);
    for side in sides {
        let off = left * *side + way.left() * (-INSIDE * side);
        for mark in rail(low + off, high + off) {
            canvas.draw(Layer::Outlines, link, mark);
        }
        canvas.board.take_line(low + off, high + off);
        for post in [low + off, high + off] {
            canvas.board.take(Extents::about(post, POST, POST));
        }
    }
    let y = SAMPLE.1 / 2.0;
    let sample = rail(Point::new(1.0, y), Point::new(SAMPLE.0 - 1.0, y));
    canvas.explain(sample, "Handrail", Some("not at its width".to_owned()));
}

/// A double line with a post at each end.
fn rail(from: Point, to: Point) -> Vec<Mark> {
    let aside = (to - from).unit().left() * 0.35;
    let lines = [aside, -aside].map(|off| Path::line(from + off, to + off));
    let posts = [from, to].map(|at| Path::circle(at, POST));
    vec![
        Mark::Stroke(lines.to_vec(), Pen::of(Weight::Fine)),
        Mark::Fill(posts.to_vec(), Ink::Black),
    ]
}

/// Numbers the risers and says which flight it is: what finds no room beside
/// its nosing is left out, for the name tells how many there are.
pub(crate) fn label(canvas: &mut Canvas, analysis: &Analysis) {
    for (own, flight) in flights(analysis) {
        let (low, high) = arrow_line(&canvas.view, flight);
        let way = flight.climbing;
        canvas.board.take(Extents {
            centre: low.midpoint(high),
            half: (0.5 * low.distance(high), HEAD.1),
            angle: way.y.atan2(way.x),
        });
        if let Some(plan) = &flight.plan {
            let plan = canvas.view.outline(plan);
            canvas.board.take_outline(&plan);
        }
        let sides = [way.right(), way.left()];
        let beside = sides.map(|side| (low + side * HEAD.1, way, side));
        let before = sides.map(|side| (low + side * HEAD.1, -way, side));
        tuck(canvas, own, "up", &[beside, before].concat());
        for index in 0..flight.risers {
            let (left, right) = nosing(&canvas.view, flight, index);
            let middle = left.midpoint(right);
            let ends = [
                (right, way, way.left()),
                (left, way, way.right()),
                // Beside the arrow, or outside the flight, where rails run.
                (middle + way.right() * HEAD.1, way, way.right()),
                (middle + way.left() * HEAD.1, way, way.left()),
                (right, way, way.right()),
                (left, way, way.left()),
            ];
            tuck(canvas, own, &(index + 1).to_string(), &ends);
        }
        name(canvas, own, flight);
    }
}

/// Both ends of a riser's nosing, the left one first as one goes up.
fn nosing(view: &View, flight: &Flight, index: u32) -> (Point, Point) {
    let (middle, left) = flight.riser_line(index);
    (view.point(middle + left), view.point(middle + -left))
}

/// From the lowest nosing to the top one, or across the only one.
fn arrow_line(view: &View, flight: &Flight) -> (Point, Point) {
    let (foot, _) = flight.riser_line(0);
    let (foot, top) = (view.point(foot), view.point(flight.at));
    let past = match flight.treads() {
        0 => flight.climbing * ACROSS,
        _ => Vector::default(),
    };
    (foot + -past, top + past)
}

/// An arrow that climbs: an open dot at its foot, a filled head at its top.
fn arrow(low: Point, high: Point) -> Vec<Mark> {
    const DOT: f64 = 0.55;
    let way = (high - low).unit();
    let neck = high + way * -HEAD.0.min(0.6 * low.distance(high));
    let half = way.left() * HEAD.1;
    let dot = vec![Path::circle(low, DOT)];
    vec![
        Mark::Stroke(vec![Path::line(low, neck)], NOSING),
        Mark::Fill(dot.clone(), Ink::Paper),
        Mark::Stroke(dot, NOSING),
        Mark::Fill(
            vec![Path::polygon(&[high, neck + half, neck + -half])],
            Ink::Black,
        ),
    ]
}

/// Three treads for the legend.
fn sample() -> Vec<Mark> {
    let (wide, high) = SAMPLE;
    let upright = |x: f64| Path::line(Point::new(x, 0.0), Point::new(x, high));
    let nosings = [1.0, 2.0].map(|third| upright(third * wide / 3.0));
    let field = Path::rectangle(Point::new(0.0, 0.0), Point::new(wide, high));
    let mut marks = vec![Mark::Stroke(
        [vec![field], nosings.to_vec()].concat(),
        NOSING,
    )];
    marks.extend(arrow(
        Point::new(0.0, high / 2.0),
        Point::new(wide, high / 2.0),
    ));
    marks
}

fn label_of(own: &Steps, lines: Vec<Setting>, anchor: Point) -> Label {
    Label::of(lines, anchor, Some(own.place))
}

/// The middle of a label that lies on one side of a point.
fn off(label: &Label, way: Vector) -> Vector {
    let half = room(label);
    way * ((way.x * half.0).abs() + (way.y * half.1).abs() + 0.1)
}

/// Writes a word into the first corner where it is free: a point, and the two
/// ways from there between which it lies.
fn tuck(canvas: &mut Canvas, own: &Steps, word: &str, corners: &[(Point, Vector, Vector)]) {
    let setting = lettering::set(word, NOTE, Face::Regular);
    let mut label = label_of(own, vec![setting], Point::ORIGIN);
    let half = room(&label);
    let middles = corners
        .iter()
        .map(|(corner, one, other)| *corner + off(&label, *one) + off(&label, *other));
    let is_free = |at: &Point| {
        let extents = Extents::about(*at, half.0, half.1);
        canvas.board.is_free(&extents, label.minds_lines)
    };
    if let Some(middle) = middles.into_iter().find(is_free) {
        label.anchor = middle;
        label.places = vec![middle];
        canvas.board.place(&label);
    }
}

/// Names a flight beside it, with its risers and its going.
fn name(canvas: &mut Canvas, own: &Steps, flight: &Flight) {
    if flight.plan.is_some() {
        let way = flight.climbing;
        let scale = canvas.view.scale;
        canvas.board.take(Extents {
            centre: canvas.view.point(flight.at + way * (-0.5 * flight.run_m)),
            half: (0.5 * flight.run_m * scale, 0.5 * flight.width_m * scale),
            angle: way.y.atan2(way.x),
        });
    }
    let shown = |metres| measure::thickness(metres, canvas.system);
    let name = own.name.value.replace('-', " ");
    let name = lettering::cut(&name, LABEL, Face::Medium, WIDEST);
    let mut words = match flight.risers {
        1 => format!("1 riser of {}", shown(flight.riser_m)),
        more => format!("{more} risers of {}", shown(flight.riser_m)),
    };
    if let Some(lowest) = flight.odd_lowest_m(canvas.system) {
        words += &format!(", the lowest {}", shown(lowest));
    }
    if flight.treads() > 0 {
        words += &format!(", going {}", shown(flight.going_m));
    }
    let words = lettering::cut(&words, NOTE, Face::Regular, WIDEST);
    let lines = vec![
        lettering::set(&name, LABEL, Face::Medium),
        lettering::set(&words, NOTE, Face::Regular),
    ];
    let (_, left) = flight.riser_line(0);
    let middle = flight.at + flight.climbing * (-0.5 * flight.run_m);
    let [left, right] = [left, -left].map(|side| canvas.view.point(middle + side));
    let mut label = label_of(own, lines, right);
    let way = flight.climbing;
    label.places = [(right, way.right()), (left, way.left())]
        .map(|(end, out)| end + out * 1.0 + off(&label, out))
        .to_vec();
    canvas.board.place(&label);
}
