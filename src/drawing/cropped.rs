//! Marks cut off at the sides of a rectangle of the paper.

use super::display_list::{Extents, Item, Mark, Path};
use super::sheet::Panel;
use crate::geometry::{Edge, NO_TAG, Point};

/// Into how many straight pieces an arc is cut where it leaves the rectangle.
const PIECES: u32 = 24;

/// What of an item lies in a rectangle; text that does not lie in it wholly is
/// left out.
pub(crate) fn cropped(item: &Item, panel: &Panel) -> Option<Item> {
    let mark = match &item.mark {
        Mark::Stroke(paths, pen) => {
            let paths: Vec<Path> = paths.iter().flat_map(|path| stroke(path, panel)).collect();
            if paths.is_empty() {
                return None;
            }
            Mark::Stroke(paths, *pen)
        }
        Mark::Fill(paths, ink) => {
            let paths: Vec<Path> = paths.iter().filter_map(|path| area(path, panel)).collect();
            if paths.is_empty() {
                return None;
            }
            Mark::Fill(paths, *ink)
        }
        Mark::Text(text) => {
            let room = panel.extents();
            room.holds(&text.extents())
                .then(|| Mark::Text(text.clone()))?
        }
    };
    Some(Item {
        mark,
        ..item.clone()
    })
}

/// Points along an edge, its end left out.
fn along(edge: &Edge) -> impl Iterator<Item = Point> + '_ {
    let pieces = if edge.is_arc() { PIECES } else { 1 };
    let step = edge.length() / f64::from(pieces);
    (0..pieces).map(move |piece| match piece {
        0 => edge.start,
        piece => edge.point_at(f64::from(piece) * step),
    })
}

fn holds(panel: &Panel, point: Point) -> bool {
    let room: Extents = panel.extents();
    room.holds(&Extents::about(point, 0.0, 0.0))
}

/// The points of a path with its arcs cut into pieces.
fn points(path: &Path) -> Vec<Point> {
    let mut points: Vec<Point> = path.edges.iter().flat_map(along).collect();
    points.extend(path.edges.last().map(|edge| edge.end));
    points
}

/// The pieces of a line that lie in a rectangle; all of it as it is where it
/// lies in it wholly.
fn stroke(path: &Path, panel: &Panel) -> Vec<Path> {
    let points = points(path);
    if points.iter().all(|point| holds(panel, *point)) {
        return vec![path.clone()];
    }
    let pairs = points.iter().zip(points.iter().skip(1));
    let pieces = pairs.filter_map(|(from, to)| piece(*from, *to, panel));
    pieces.map(|(from, to)| Path::line(from, to)).collect()
}

/// What of a straight line lies in a rectangle.
fn piece(from: Point, to: Point, panel: &Panel) -> Option<(Point, Point)> {
    let way = to - from;
    let (mut enters, mut leaves) = (0.0_f64, 1.0_f64);
    for (start, run, low, high) in [
        (from.x, way.x, panel.low.x, panel.high.x),
        (from.y, way.y, panel.low.y, panel.high.y),
    ] {
        if run.abs() < 1e-12 {
            if start < low || start > high {
                return None;
            }
            continue;
        }
        let (first, second) = ((low - start) / run, (high - start) / run);
        enters = enters.max(first.min(second));
        leaves = leaves.min(first.max(second));
    }
    (enters < leaves).then(|| (from + way * enters, from + way * leaves))
}

/// What of an area lies in a rectangle: side by side, what lies beyond it is
/// cut off (Sutherland and Hodgman).
fn area(path: &Path, panel: &Panel) -> Option<Path> {
    let mut points = points(path);
    if points.iter().all(|point| holds(panel, *point)) {
        return Some(path.clone());
    }
    points.pop();
    type Side = (fn(Point) -> f64, f64, f64);
    let sides: [Side; 4] = [
        (|at| at.x, panel.low.x, 1.0),
        (|at| at.x, panel.high.x, -1.0),
        (|at| at.y, panel.low.y, 1.0),
        (|at| at.y, panel.high.y, -1.0),
    ];
    for (of, limit, sign) in sides {
        let inside = |at: Point| sign * (of(at) - limit);
        let next = points.iter().cycle().skip(1);
        let mut kept = Vec::new();
        for (from, to) in points.iter().zip(next) {
            let (one, other) = (inside(*from), inside(*to));
            if one >= 0.0 {
                kept.push(*from);
            }
            if one * other < 0.0 {
                kept.push(*from + (*to - *from) * (one / (one - other)));
            }
        }
        points = kept;
    }
    let edges = points.iter().zip(points.iter().cycle().skip(1));
    let edges: Vec<Edge> = edges
        .map(|(from, to)| Edge::line(*from, *to, NO_TAG))
        .collect();
    (edges.len() > 2).then_some(Path {
        edges,
        is_closed: true,
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::drawing::display_list::{Ink, Layer, Pen, Weight};

    const PANEL: Panel = Panel {
        low: Point { x: 0.0, y: 0.0 },
        high: Point { x: 10.0, y: 10.0 },
    };

    fn item(mark: Mark) -> Item {
        Item {
            layer: Layer::Units,
            link: None,
            within: None,
            mark,
        }
    }

    fn ends(paths: &[Path]) -> Vec<(f64, f64, f64, f64)> {
        let edges = paths.iter().flat_map(|path| &path.edges);
        edges
            .map(|edge| (edge.start.x, edge.start.y, edge.end.x, edge.end.y))
            .collect()
    }

    #[test]
    fn lines_end_at_the_sides() {
        let cut = |from: (f64, f64), to: (f64, f64)| {
            let line = Path::line(Point::new(from.0, from.1), Point::new(to.0, to.1));
            let mark = Mark::Stroke(vec![line], Pen::of(Weight::Fine));
            match cropped(&item(mark), &PANEL).map(|item| item.mark) {
                Some(Mark::Stroke(paths, _)) => ends(&paths),
                _ => Vec::new(),
            }
        };
        assert_eq!(cut((-5.0, 5.0), (15.0, 5.0)), [(0.0, 5.0, 10.0, 5.0)]);
        assert_eq!(cut((2.0, 3.0), (4.0, 5.0)), [(2.0, 3.0, 4.0, 5.0)]);
        assert_eq!(cut((-5.0, 0.0), (5.0, 10.0)), [(0.0, 5.0, 5.0, 10.0)]);
        assert!(cut((-5.0, 12.0), (15.0, 12.0)).is_empty());
        assert!(cut((11.0, 0.0), (11.0, 9.0)).is_empty());
    }

    #[test]
    fn areas_keep_what_lies_inside() {
        let size = |low: (f64, f64), high: (f64, f64)| {
            let path = Path::rectangle(Point::new(low.0, low.1), Point::new(high.0, high.1));
            let mark = Mark::Fill(vec![path], Ink::Black);
            let Some(Mark::Fill(paths, _)) = cropped(&item(mark), &PANEL).map(|item| item.mark)
            else {
                return 0.0;
            };
            let twice: f64 = ends(&paths)
                .iter()
                .map(|(ax, ay, bx, by)| ax * by - ay * bx)
                .sum();
            (0.5 * twice).abs()
        };
        assert_eq!(size((2.0, 2.0), (5.0, 5.0)), 9.0);
        assert_eq!(size((-5.0, -5.0), (5.0, 5.0)), 25.0);
        assert_eq!(size((-5.0, -5.0), (50.0, 50.0)), 100.0);
        assert_eq!(size((20.0, 20.0), (50.0, 50.0)), 0.0);
    }

    #[test]
    fn a_circle_keeps_its_half() {
        let mark = Mark::Fill(vec![Path::circle(Point::new(10.0, 5.0), 3.0)], Ink::Black);
        let Some(Mark::Fill(paths, _)) = cropped(&item(mark), &PANEL).map(|item| item.mark) else {
            panic!("half of it lies inside");
        };
        let points = ends(&paths);
        assert!(
            points
                .iter()
                .all(|(x, y, ..)| *x <= 10.0 + 1e-9 && *y >= 0.0)
        );
        assert!(points.iter().any(|(x, ..)| (*x - 7.0).abs() < 0.1));
    }
}
