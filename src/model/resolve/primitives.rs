//! Rectangles, circles and polygons.

use super::super::job::EdgeLabel;
use super::super::reading::Entry;
use super::evaluate::Resolver;
use super::path::{Traced, tag_of};
use super::want::Range;
use crate::findings::{FileId, Finding};
use crate::geometry::{Edge, Point, Vector, bulge_of_sweep};
use crate::units::show;
use crate::vocabulary::ValueKind;

impl Resolver<'_> {
    /// A rectangle, its corners rounded and itself turned if it says so.
    pub(crate) fn rectangle(&mut self, entry: &Entry, file: FileId) -> Option<Traced> {
        let side = |resolver: &mut Self, slot: &str| {
            resolver
                .wanted(
                    &entry.filled,
                    slot,
                    ValueKind::Length,
                    Range::Positive,
                    file,
                )
                .map(|stated| stated.value.si())
        };
        let east = side(self, "EAST")?;
        let north = side(self, "NORTH")?;
        let corner = match entry.clause("at") {
            Some(clause) => self.point(&clause.filled, "POINT", file)?.value,
            // What could not be read may say where it lies.
            None if !entry.is_sound => return None,
            None => Point::ORIGIN,
        };
        let radius = match entry.clause("corners") {
            Some(clause) => {
                let stated = self.wanted(
                    &clause.filled,
                    "RADIUS",
                    ValueKind::Length,
                    Range::Positive,
                    file,
                )?;
                let room = east.min(north) / 2.0;
                if stated.value.si() > room + 1e-9 {
                    self.find(Finding::new(
                        "corner-large",
                        clause.place,
                        format!(
                            "this corner is too large for its sides; {} is the most",
                            show::length(room, self.system)
                        ),
                    ));
                    return None;
                }
                stated.value.si()
            }
            None => 0.0,
        };
        let turn = match entry.clause("turned") {
            Some(clause) => {
                let angle =
                    self.wanted(&clause.filled, "ANGLE", ValueKind::Angle, Range::Any, file)?;
                -(angle.value.si() % 360.0).to_radians()
            }
            None => 0.0,
        };
        let at = |x: f64, y: f64| corner + Vector::new(x, y).turned(turn);
        let corners = [
            (0.0, 0.0, 1.0, 0.0),
            (east, 0.0, 0.0, 1.0),
            (east, north, -1.0, 0.0),
            (0.0, north, 0.0, -1.0),
        ];
        let names = ["south", "east", "north", "west"];
        let mut traced = Traced {
            edges: Vec::new(),
            labels: Vec::new(),
            closing: None,
        };
        let next = corners.iter().cycle().skip(1);
        for (((x, y, along_x, along_y), next), name) in corners.iter().zip(next).zip(names) {
            let (next_x, next_y, next_along_x, next_along_y) = next;
            let start = at(x + along_x * radius, y + along_y * radius);
            let end = at(next_x - along_x * radius, next_y - along_y * radius);
            traced.push(Edge::line(start, end, 0), Some(name), entry);
            if radius > 0.0 {
                let after = at(
                    next_x + next_along_x * radius,
                    next_y + next_along_y * radius,
                );
                let quarter = bulge_of_sweep(std::f64::consts::FRAC_PI_2);
                traced.push(Edge::arc(end, after, quarter, 0), None, entry);
            }
        }
        traced.edges.retain(|edge| edge.length() > 1e-9);
        Some(traced)
    }

    /// A circle, as two half turns that share the name `rim`.
    pub(crate) fn circle_shape(&mut self, entry: &Entry, file: FileId) -> Option<Traced> {
        let size = |resolver: &mut Self, slot: &str| {
            entry.filled.quantity(slot)?;
            resolver
                .wanted(
                    &entry.filled,
                    slot,
                    ValueKind::Length,
                    Range::Positive,
                    file,
                )
                .map(|stated| stated.value.si())
        };
        let radius = match size(self, "RADIUS") {
            Some(radius) => radius,
            None => size(self, "DIAMETER")? / 2.0,
        };
        let centre = match entry.clause("centre") {
            Some(clause) => self.point(&clause.filled, "POINT", file)?.value,
            None if !entry.is_sound => return None,
            None => Point::ORIGIN,
        };
        let out = Vector::new(radius, 0.0);
        let (east, west) = (centre + out, centre + -out);
        Some(Traced {
            edges: vec![Edge::arc(east, west, 1.0, 0), Edge::arc(west, east, 1.0, 0)],
            labels: vec![EdgeLabel {
                owner: None,
                also: Vec::new(),
                name: Some("rim".to_owned()),
                place: entry.place,
            }],
            closing: None,
        })
    }

    /// A polygon.
    pub(crate) fn polygon(&mut self, entry: &Entry, file: FileId) -> Option<Traced> {
        if !entry.is_sound {
            return None;
        }
        let mut corners = Vec::new();
        for (value, place) in entry.filled.all("POINT") {
            corners.push(self.point_of(value, place, file)?.value);
        }
        if corners.len() < 3 {
            self.find(Finding::new(
                "outline-open",
                entry.place,
                "a polygon needs three points or more",
            ));
            return None;
        }
        let mut traced = Traced {
            edges: Vec::new(),
            labels: Vec::new(),
            closing: None,
        };
        for (start, end) in corners.iter().zip(corners.iter().cycle().skip(1)) {
            traced.push(Edge::line(*start, *end, 0), None, entry);
        }
        Some(traced)
    }
}

impl Traced {
    fn push(&mut self, edge: Edge, name: Option<&str>, entry: &Entry) {
        let tag = tag_of(self.labels.len());
        self.labels.push(EdgeLabel {
            owner: None,
            also: Vec::new(),
            name: name.map(str::to_owned),
            place: entry.place,
        });
        self.edges.push(Edge { tag, ..edge });
    }
}
