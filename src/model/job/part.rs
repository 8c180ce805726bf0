//! The parts of a surface, each an outline that lies on one plane, and its
//! levels.

use std::borrow::Cow;

use super::{Job, Surface};
use crate::geometry::{Edge, Fault, Outline, Plane, Point};

/// A part of a surface.
#[derive(Debug, Clone)]
pub struct Part<'a> {
    /// Its outline.
    pub outline: Cow<'a, Outline>,
    /// The finished plane over it, if levels and fall give one.
    pub plane: Option<Plane>,
}

impl Surface {
    /// Its outlines: one, or all of a shape that comes again.
    pub fn outlines(&self) -> impl Iterator<Item = &Outline> + Clone {
        self.outline.iter().chain(&self.others)
    }

    /// The edges of all its outlines.
    pub fn edges(&self) -> impl Iterator<Item = &Edge> {
        self.outlines().flat_map(Outline::edges)
    }

    /// How many outlines it has; a shape that does not come again is one.
    pub fn count(&self) -> f64 {
        (1 + self.others.len()) as f64
    }

    /// Its area, in square metres; `None` without an outline.
    pub fn area_m2(&self) -> Option<f64> {
        self.measured(Outline::area)
    }

    /// The length of its edges, those of holes too, in metres; `None` without
    /// an outline.
    pub fn perimeter_m(&self) -> Option<f64> {
        self.measured(Outline::perimeter)
    }

    /// What all its outlines come to: of a shape that comes again as often as it
    /// does, of a border in several pieces their sum.
    fn measured(&self, of: impl Fn(&Outline) -> f64) -> Option<f64> {
        let first = of(self.outline.as_ref()?);
        Some(match self.repeat {
            Some(_) => self.count() * first,
            None => self.others.iter().fold(first, |sum, other| sum + of(other)),
        })
    }

    /// The corners of the upright rectangle around it, arcs included.
    pub fn bounding_box(&self) -> Option<(Point, Point)> {
        let boxes = self.outlines().map(Outline::bounding_box);
        boxes.reduce(|(low, high), (other_low, other_high)| {
            (
                Point::new(low.x.min(other_low.x), low.y.min(other_low.y)),
                Point::new(high.x.max(other_high.x), high.y.max(other_high.y)),
            )
        })
    }

    /// Whether a point lies on it.
    pub fn contains(&self, at: Point) -> bool {
        self.outlines().any(|outline| outline.contains(at))
    }

    /// Its parts: its facets, or each of its outlines on its one plane.
    pub fn parts(&self) -> Vec<Part<'_>> {
        if self.is_border() || self.facets.is_empty() {
            let all = self.outlines().flat_map(|own| self.parts_of(own));
            return all.collect();
        }
        let facets = self.facets.iter().map(|facet| Part {
            outline: Cow::Borrowed(&facet.outline),
            plane: Some(facet.plane),
        });
        facets.collect()
    }

    /// Its parts less the strips of borders on builds of their own.
    pub fn bed_parts(&self) -> Vec<Part<'_>> {
        let Some(beds) = self.strips().next().and(self.beds()) else {
            return self.parts();
        };
        let parts = beds.iter().flat_map(|bed| self.parts_of(bed));
        let owned = parts.map(|part| Part {
            outline: Cow::Owned(part.outline.into_owned()),
            plane: part.plane,
        });
        owned.collect()
    }

    /// An outline on its one plane, or parted at its valleys.
    fn parts_of<'a>(&self, outline: &'a Outline) -> Vec<Part<'a>> {
        if self.facets.is_empty() {
            return vec![Part {
                outline: Cow::Borrowed(outline),
                plane: self.plane,
            }];
        }
        let parted = self.parted(outline).unwrap_or_default().into_iter();
        let parts = parted.map(|(plane, outline)| Part {
            outline,
            plane: Some(plane),
        });
        parts.collect()
    }

    /// What lies under an outline of its ground, that may go past its edges,
    /// plane by plane: between the valleys carried on. Nothing where its levels
    /// are not known.
    ///
    /// # Errors
    /// Where it cannot be parted.
    pub fn parted<'a>(&self, ground: &'a Outline) -> Result<Vec<(Plane, Cow<'a, Outline>)>, Fault> {
        if let Some(plane) = self.plane {
            return Ok(vec![(plane, Cow::Borrowed(ground))]);
        }
        let mut parts = Vec::new();
        for facet in &self.facets {
            let under = facet.part_of(ground)?.into_iter();
            parts.extend(under.map(|own| (facet.plane, Cow::Owned(own))));
        }
        Ok(parts)
    }

    /// The finished plane at an edge of its own or one along it: its own, or
    /// that of the facet there.
    pub fn plane_along(&self, edge: &Edge) -> Option<Plane> {
        let mut facets = self.facets.iter();
        let facet = || facets.find(|own| own.is_along(edge)).map(|own| own.plane);
        self.plane.or_else(facet)
    }

    /// The finished plane at a point of it, or carried on to one beside it.
    pub fn plane_at(&self, at: Point) -> Option<Plane> {
        let mut facets = self.facets.iter();
        let facet = || facets.find(|own| own.is_toward(at)).map(|own| own.plane);
        self.plane.or_else(facet)
    }

    /// The finished level at a point of it, or carried on to one beside it.
    pub fn level_at(&self, at: Point) -> Option<f64> {
        self.plane_at(at).map(|plane| plane.level_at(at))
    }

    /// Whether its finished levels are known.
    pub fn has_levels(&self) -> bool {
        self.plane.is_some() || !self.facets.is_empty()
    }

    /// How far down from its edges the drain to which it falls lies, and the
    /// slopes of its facets, the least and the most.
    pub fn falls_to_drain(&self) -> Option<(f64, f64, f64)> {
        let slopes = || self.facets.iter().map(|own| own.plane.slope());
        let first = self.facets.first()?;
        let drop = first.plane.slope() * first.run;
        let (least, most) = (slopes().reduce(f64::min)?, slopes().reduce(f64::max)?);
        Some((drop, least, most))
    }
}

impl Job {
    /// The level of the paving at a point, the highest of several, else of the
    /// ground.
    pub fn level_at(&self, at: Point) -> Option<f64> {
        let paved = self.surfaces.iter().filter(|surface| surface.contains(at));
        let levels = paved.filter_map(|surface| surface.level_at(at));
        let ground = self.site.ground.as_ref();
        levels
            .max_by(f64::total_cmp)
            .or_else(|| Some(ground?.plane.level_at(at)))
    }
}
