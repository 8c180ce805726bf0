//! The strip of the plan that one side sweeps when it is moved to its right.

use super::super::edge::{Edge, NO_TAG, Tag};
use super::super::point::{Point, Vector};
use super::corner::MITRE_LIMIT;

/// The neighbours of a side that stay where they are.
pub(super) struct Sides<'a> {
    pub before: Option<&'a Edge>,
    pub after: Option<&'a Edge>,
}

/// How a strip ends.
#[derive(Clone, Copy)]
enum End {
    /// At right angles to the side.
    Square,
    /// On the line of the neighbour, which the moved side reaches at `meets`,
    /// `past` metres beyond where a square strip would end; negative when it
    /// ends short of that.
    OnLine { meets: Point, past: f64, tag: Tag },
}

/// The line of a neighbour that stays, seen from the corner at its end.
struct Line {
    corner: Point,
    /// Unit direction in which the side that moves would run on.
    onward: Vector,
    /// Unit direction in which it moves.
    outward: Vector,
    /// Unit direction in which the neighbour leaves the corner.
    along: Vector,
    tag: Tag,
}

/// The strip on the right of `edge`, `width` metres wide, anticlockwise. It
/// ends square at a neighbour that moves too, else on the neighbour's line.
pub(super) fn strip(edge: &Edge, width: f64, fixed: Sides) -> Vec<Vec<Edge>> {
    let (out, back) = (edge.direction_at_end(), -edge.direction_at_start());
    let before = fixed.before.map(|side| Line {
        corner: edge.start,
        onward: back,
        outward: back.left(),
        along: -side.direction_at_end(),
        tag: side.tag,
    });
    let after = fixed.after.map(|side| Line {
        corner: edge.end,
        onward: out,
        outward: out.right(),
        along: side.direction_at_start(),
        tag: side.tag,
    });
    let moved = Edge {
        start: edge.start + back.left() * width,
        end: edge.end + out.right() * width,
        ..*edge
    };
    if !edge.is_arc() {
        return vec![straight_strip(
            edge,
            &moved,
            before.map(|line| line.end(width)),
            after.map(|line| line.end(width)),
        )];
    }
    let radius = edge.radius();
    let moved_radius = radius + width * edge.bulge.signum();
    if moved_radius <= 1e-9 * radius {
        // The arc closes in on its centre and stops there.
        let centre = edge.start + edge.to_centre();
        return vec![vec![
            edge.reversed(),
            Edge::line(edge.start, centre, NO_TAG),
            Edge::line(centre, edge.end, NO_TAG),
        ]];
    }
    arc_strip(
        edge,
        &moved,
        before.map(|line| line.end_of_arc(width, &moved)),
        after.map(|line| line.end_of_arc(width, &moved)),
    )
}

fn straight_strip(edge: &Edge, moved: &Edge, before: Option<End>, after: Option<End>) -> Vec<Edge> {
    let (start, start_tag) = place(before, moved.start);
    let (end, end_tag) = place(after, moved.end);
    if (end - start).dot(edge.chord()) > 0.0 {
        return vec![
            edge.reversed(),
            Edge::line(edge.start, start, start_tag),
            Edge::line(start, end, edge.tag),
            Edge::line(end, edge.end, end_tag),
        ];
    }
    // The lines of both neighbours meet before the strip is full.
    let (left, right) = (start - edge.start, end - edge.end);
    let apex = edge.start + left * (edge.chord().cross(right) / left.cross(right));
    vec![
        edge.reversed(),
        Edge::line(edge.start, apex, start_tag),
        Edge::line(apex, edge.end, end_tag),
    ]
}

/// The strip of an arc, and at an end that lies past the arc the triangle in
/// which it runs on along the tangent.
fn arc_strip(edge: &Edge, moved: &Edge, before: Option<End>, after: Option<End>) -> Vec<Vec<Edge>> {
    let length = moved.length();
    let short = |end: Option<End>| match end {
        Some(End::OnLine { past, .. }) if past < 0.0 => -past,
        _ => 0.0,
    };
    let (from, to) = (short(before), length - short(after));
    if from >= to {
        return arc_strip(edge, moved, None, None);
    }
    let (start, start_tag) = place(before, moved.start);
    let (end, end_tag) = place(after, moved.end);
    let mut arc = moved.between(from, to);
    let mut pieces = Vec::new();
    let triangle = |corners: [Point; 3], tags: [Tag; 3]| -> Vec<Edge> {
        let [a, b, c] = corners;
        let [first, second, third] = tags;
        vec![
            Edge::line(a, b, first),
            Edge::line(b, c, second),
            Edge::line(c, a, third),
        ]
    };
    if from > 0.0 {
        arc.start = start;
    } else {
        pieces.push(triangle(
            [edge.start, start, arc.start],
            [start_tag, edge.tag, NO_TAG],
        ));
    }
    if to < length {
        arc.end = end;
    } else {
        pieces.push(triangle(
            [edge.end, arc.end, end],
            [NO_TAG, edge.tag, end_tag],
        ));
    }
    pieces.push(vec![
        edge.reversed(),
        Edge::line(edge.start, arc.start, start_tag),
        arc,
        Edge::line(arc.end, edge.end, end_tag),
    ]);
    // The strip first: the triangles meet the outline along its ends only.
    pieces.reverse();
    pieces
}

/// Where the moved side ends, and the tag of the strip's end.
fn place(end: Option<End>, square: Point) -> (Point, Tag) {
    match end {
        Some(End::OnLine { meets, tag, .. }) => (meets, tag),
        Some(End::Square) | None => (square, NO_TAG),
    }
}

impl Line {
    /// The end of the strip of a straight side. A neighbour that goes on in
    /// nearly the same line would be met too far off: the strip ends square.
    fn end(&self, width: f64) -> End {
        let aside = self.along.dot(self.outward);
        if aside.abs() * MITRE_LIMIT < 1.0 {
            return End::Square;
        }
        let past = self.along * (width / aside);
        End::OnLine {
            meets: self.corner + past,
            past: past.dot(self.onward),
            tag: self.tag,
        }
    }

    /// The end of the strip of an arc. Past the arc it runs on along the
    /// tangent, as for a straight side. Short of that it ends where the
    /// concentric arc crosses the neighbour's line, however far back, since it
    /// would otherwise go on beyond that line.
    fn end_of_arc(&self, width: f64, moved: &Edge) -> End {
        let aside = self.along.dot(self.outward);
        let ahead = self.along.dot(self.onward);
        if aside.abs() > 1e-9 && ahead * aside >= 0.0 {
            return self.end(width);
        }
        if ahead < 0.0 && aside.abs() <= 1e-9 {
            return End::Square;
        }
        let way = if aside > 1e-9 {
            self.along
        } else {
            -self.along
        };
        self.crossed_by(way, moved).unwrap_or(End::Square)
    }

    /// The nearest point along `way` from the corner that lies on the moved
    /// arc.
    fn crossed_by(&self, way: Vector, moved: &Edge) -> Option<End> {
        let to_centre = (moved.start - self.corner) + moved.to_centre();
        let foot = way.dot(to_centre);
        let off = moved.off_circle(self.corner + way * foot);
        let half = (-off * (2.0 * moved.radius() + off)).max(0.0).sqrt();
        let length = moved.length();
        let from_start = self.corner.distance(moved.start) < self.corner.distance(moved.end);
        [foot - half, foot + half]
            .into_iter()
            .filter(|&distance| off <= 0.0 && distance > 0.0)
            .map(|distance| self.corner + way * distance)
            .map(|meets| (meets, moved.distance_along(meets)))
            .find(|&(_, along)| along > 0.0 && along < length)
            .map(|(meets, along)| {
                let past = if from_start { -along } else { along - length };
                End::OnLine {
                    meets,
                    past,
                    tag: self.tag,
                }
            })
    }
}
