//! Borders: the units that stand along the edges, their joints, and what they
//! leave of the surface.

use super::area::times;
use super::layers::mass_of;
use super::measures::{Area, Count, Length, Volume};
use super::states::{own_waste, own_waste_is_read, waste_share};
use super::term::Term;
use super::trace::Trace;
use crate::findings::Place;
use crate::geometry::{Edge, Mitre, Outline, mitres};
use crate::model::{Border, Job, Sourced, Surface};
use crate::units::Number;
use crate::vocabulary::{BorderSide, Role};

/// The figures of a border.
#[derive(Debug, Clone, PartialEq)]
pub struct BorderFigures {
    /// The name of its material.
    pub material: String,
    /// How many courses lie side by side.
    pub courses: u32,
    /// Whether its units are soldiers.
    pub is_soldier: bool,
    /// How far it reaches into the surface.
    pub width_m: Option<f64>,
    /// Its area.
    pub area_m2: Option<f64>,
    /// How long it runs: its area over its width.
    pub length_m: Option<f64>,
    /// How many units it takes, not rounded; those that mitres cut count whole.
    pub units: Option<f64>,
    /// The volume of its units, as thick as the paving.
    pub volume_m3: Option<f64>,
    /// Their mass.
    pub mass_kg: Option<f64>,
    /// What its joints take, as deep as those of the surface.
    pub joint_m3: Option<f64>,
    /// Its mitred corners.
    pub mitres: Option<MitreFigures>,
    /// The widest and the narrowest that its joints get on a curve.
    pub taper: Option<Taper>,
    /// The share wasted; `None` if nothing is said of it.
    pub waste: Option<Sourced<f64>>,
    /// Whether what is said of its waste could be made out.
    pub is_waste_known: bool,
    /// Its entry.
    pub place: Place,
}

/// The mitred corners of a border.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MitreFigures {
    /// How many corners are mitred.
    pub corners: usize,
    /// The length of the cuts, of the units on both sides of each mitre.
    pub cut_m: f64,
}

/// The joints of a course on the curve where they open most.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Taper {
    /// Their width where the course is tighter, in metres.
    pub tight_m: f64,
    /// Their width where it is wider, in metres.
    pub wide_m: f64,
    /// The depth of a unit across the course, in metres.
    pub deep_m: f64,
    /// The side of a unit along the course, in metres.
    pub along_m: f64,
}

impl Taper {
    /// The radius, in metres, of the wider side of a course whose joints open
    /// from `tight_m` to `wide_m`: L (w + j) ÷ (j − i) for a unit of depth L and
    /// side w, with joints of i and j; `None` where they hardly open.
    pub fn radius_m(&self, tight_m: f64, wide_m: f64) -> Option<f64> {
        let opens = wide_m - tight_m;
        (opens > HARDLY_OPEN).then(|| self.deep_m * (self.along_m + wide_m) / opens)
    }
}

/// Joints that open by less, in metres, stay as they are, but for rounding.
const HARDLY_OPEN: f64 = 1e-6;

/// What a surface's borders take of its area, in square metres; `None` if that
/// cannot be made out.
pub(super) fn bordered_m2(surface: &Surface) -> Option<f64> {
    let fields = surface.fields()?;
    let outlines = surface.outlines().take(fields.len());
    let whole: f64 = outlines.map(Outline::area).sum();
    let field: f64 = fields.concat().iter().map(Outline::area).sum();
    let times = surface.count() / fields.len() as f64;
    Some(times * (whole - field).max(0.0))
}

/// The volume of the units in a border on a build of its own, which is counted
/// with the surface that it borders.
pub(super) fn laid_m3(job: &Job, strip: &Surface) -> Option<f64> {
    let surface = job.surfaces.get(strip.border_of?)?;
    let mut borders = surface.borders.iter();
    let index = borders.position(|own| own.place == strip.place)?;
    border(surface, index, &Trace::silent())?.volume_m3
}

/// What borders of so many square metres leave of an area; `None` where they
/// take more than there is, which leaves no field to reckon with.
pub(super) fn field_inside<'t>(
    area: Term<'t, Area>,
    borders_m2: f64,
    trace: &'t Trace,
) -> Option<Term<'t, Area>> {
    let borders = trace.term("area of the borders", Area(borders_m2));
    let field = trace.gives("area of the field", area - borders);
    (field.value.0 >= -ROUNDING_M2).then(|| field.called("area"))
}

/// What of an area, in square metres, is rounding.
const ROUNDING_M2: f64 = 1e-9;

/// The figures of a border of a surface, by its place among them.
pub(super) fn border(surface: &Surface, index: usize, trace: &Trace) -> Option<BorderFigures> {
    let own = surface.borders.get(index)?;
    // The joint may be said by a line that could not be read.
    let is_joint_lost = surface.has_lost_line && surface.joint.is_none() && own.joint.is_none();
    let counted = match is_joint_lost {
        true => None,
        false => counted(surface, own, index, trace),
    };
    let counted = match own.others_left.is_empty() {
        true => counted.map(|one| one.in_all(surface, trace)),
        false => counted,
    };
    let build = own.on.as_ref().or(surface.build.as_ref());
    let paving = build.and_then(|build| build.value.layer(Role::Paving));
    let on_own = paving.filter(|_| own.on.is_some());
    let thickness = paving.and_then(|paving| paving.thickness.as_ref());
    let thickness = thickness.map(|stated| {
        trace.stated(
            "thickness of the paving",
            Length(stated.value.si()),
            stated.place,
        )
    });
    let area = counted.as_ref().map(|counted| counted.area);
    let units = counted.as_ref().map(|counted| counted.units);
    let (along, across) = own.unit_m().unwrap_or_default();
    let laid = counted.as_ref().map(|counted| counted.laid);
    let covered = laid.map(|laid| Area(laid.0 * along * across));
    let volume = covered.zip(thickness).map(|(covered, thickness)| {
        let covered = trace.term("area of its units", covered);
        trace.gives(
            "volume of the units",
            covered * thickness.called("thickness"),
        )
    });
    let material = own.material.value.material();
    let mass = material
        .zip(volume)
        .and_then(|(material, volume)| mass_of(material, None, volume, trace));
    let stated = surface
        .joint
        .as_ref()
        .and_then(|joint| joint.depth.as_ref());
    let depth = stated.map(|depth| Length(depth.value.si()));
    let depth = depth.or(thickness.map(|thickness| thickness.value));
    let joints = area
        .zip(covered)
        .zip(depth)
        .map(|((area, covered), depth)| {
            let (area, covered) = (
                trace.term("area of the border", area),
                trace.term("area of its units", covered),
            );
            let depth = trace.term("depth of the joints", depth);
            trace.gives("volume of its joints", (area - covered) * depth)
        });
    let width = own.width_m();
    let on_build = on_own.and_then(|paving| paving.waste.as_ref());
    let stated_waste = own.waste.as_ref().or(on_build);
    Some(BorderFigures {
        material: own.material.value.name().to_owned(),
        courses: own.courses,
        is_soldier: own.is_soldier,
        width_m: width,
        area_m2: area.map(|area| area.0),
        length_m: area
            .zip(width)
            .filter(|(_, width)| *width > 0.0)
            .map(|(area, width)| area.0 / width),
        units: units.map(|units| units.0),
        volume_m3: volume.map(|volume| volume.value.0),
        mass_kg: mass.map(|mass| mass.value.0),
        joint_m3: joints.map(|joints: super::term::Term<'_, Volume>| joints.value.0.max(0.0)),
        mitres: counted.as_ref().and_then(|counted| counted.mitres),
        taper: counted.and_then(|counted| counted.taper),
        waste: waste_share(
            stated_waste,
            material.and_then(|material| own_waste(material)),
        ),
        is_waste_known: match (stated_waste, on_own) {
            _ if own.is_waste_unread => false,
            (Some(_), _) => true,
            (None, Some(paving)) if paving.is_unread("waste") => false,
            _ => own_waste_is_read(&own.material.value),
        },
        place: own.place,
    })
}

/// What stands in a border.
struct Counted {
    area: Area,
    /// What its units come to in place.
    laid: Count,
    /// What is taken for them, those that mitres cut whole.
    units: Count,
    mitres: Option<MitreFigures>,
    taper: Option<Taper>,
}

impl Counted {
    /// The same of all outlines of a surface whose shape comes again.
    fn in_all(self, surface: &Surface, trace: &Trace) -> Counted {
        let Some(count) = times(surface, trace) else {
            return self;
        };
        let area = trace.term("area of the border of one", self.area);
        let laid = trace.term("units of one in place", self.laid);
        let units = trace.term("units of one", self.units);
        Counted {
            area: trace.gives("area of the border in all", count * area).value,
            laid: trace.gives("units in place in all", count * laid).value,
            units: trace.gives("units in all", count * units).value,
            mitres: self.mitres.map(|one| MitreFigures {
                corners: one.corners * (1 + surface.others.len()),
                cut_m: surface.count() * one.cut_m,
            }),
            taper: self.taper,
        }
    }
}

/// The units of a border: on straight edges as many as its area takes, on
/// curves as many as stand along the tighter side of each course; on a whole
/// circle a whole number.
fn counted(surface: &Surface, own: &Border, index: usize, trace: &Trace) -> Option<Counted> {
    let around: Vec<&Outline> = match index.checked_sub(1) {
        None => surface.outlines().take(1 + own.others_left.len()).collect(),
        Some(before) => surface.borders.get(before)?.all_left()?.collect(),
    };
    let left: Vec<&Outline> = own.all_left()?.collect();
    let sum = |pieces: &[&Outline]| pieces.iter().map(|piece| piece.area()).sum::<f64>();
    let outside = trace.found(
        "area before it",
        Area(sum(&around)),
        "what the border lies on",
    );
    let inside = trace.found("area inside it", Area(sum(&left)), "what the border leaves");
    let area = trace.gives("area of the border", outside - inside);
    let (along, across) = own.unit_m()?;
    let (joint, width) = (own.joint_m(), own.width_m()?);
    let is_along = |edge: &&Edge| edge.is_arc() && own.along.contains(&edge.tag);
    let is_circle = |outline: &Outline| {
        let mut edges = outline.outer.edges.iter();
        let first = edges.clone().next().map_or(0.0, Edge::radius);
        edges.all(|edge| {
            edge.is_arc() && own.along.contains(&edge.tag) && (edge.radius() - first).abs() < 1e-6
        })
    };
    let mut curved = Curved::default();
    for piece in &around {
        let arcs = || piece.edges().filter(is_along);
        curved.area += arcs().map(|arc| sector(arc, width)).sum::<f64>();
        for course in 0..own.courses {
            let from = f64::from(course) * (across + joint);
            let sides = arcs().map(|arc| Course::of(arc, from, across));
            let unit = Standing {
                along,
                joint,
                at: own.joint_at,
            };
            curved.add(sides.collect(), unit, is_circle(piece));
        }
    }
    let is_straight = curved.area == 0.0;
    // What rounding leaves of a ring is no straight edge.
    let straight = area.value.0 - curved.area;
    let straight = Area(if straight > 1e-6 { straight } else { 0.0 });
    let units = match is_straight {
        true => area,
        false => trace.found(
            "area along straight edges",
            straight,
            "the border less what lies along curves",
        ),
    };
    let wide = trace.term("width of the border", Length(width));
    let one = trace.term("unit and joint along the edge", Length(along + joint));
    let courses = trace.term("courses", Count(f64::from(own.courses)));
    let on_straight = trace.gives("units on straight edges", units / (wide * one) * courses);
    let all = match is_straight {
        true => on_straight,
        false => {
            let how = "for each course, the length of its tighter side over a unit and its joint";
            let on_curves = trace.found("units on curves", Count(curved.units), how);
            trace.gives("units", on_straight + on_curves)
        }
    };
    let mitres = own.mitred.map(|_| mitred(&around, own, width));
    let units = match &mitres {
        Some((of, half_turns)) if of.corners > 0 => {
            let how =
                "what the triangles cut off at its mitres come to along the edges, all courses";
            let run = Length(half_turns * across * f64::from(own.courses));
            let run = trace.found("run cut off at mitres", run, how);
            let more = trace.gives("units cut off at mitres", run / one);
            trace
                .gives("units to take", all.called("units") + more)
                .value
        }
        _ => all.value,
    };
    Some(Counted {
        area: area.value,
        laid: all.value,
        units,
        mitres: mitres.map(|(of, _)| of),
        taper: curved.taper,
    })
}

/// The mitres of a border, and the sum of the tangents of half their turns: as
/// often as a course is deep, so much of it is cut off along the edges.
fn mitred(around: &[&Outline], own: &Border, width: f64) -> (MitreFigures, f64) {
    let is_along = |edge: &Edge| own.along.contains(&edge.tag);
    let all: Vec<Mitre> = around
        .iter()
        .flat_map(|piece| mitres(piece, &is_along))
        .collect();
    let figures = MitreFigures {
        corners: all.len(),
        cut_m: all.iter().map(|mitre| 2.0 * mitre.length(width)).sum(),
    };
    (figures, all.iter().map(|mitre| mitre.half_turn.abs()).sum())
}

/// The area that a strip inside an outline takes along an arc, in square
/// metres.
fn sector(arc: &Edge, width: f64) -> f64 {
    let inner = arc.radius() - width * arc.bulge.signum();
    let radius = arc.radius();
    0.5 * arc.sweep().abs() * (radius * radius - inner.max(0.0) * inner.max(0.0)).abs()
}

/// A course along an arc: how much of a turn it makes, and the radii of its
/// outer and its inner side.
#[derive(Clone, Copy)]
struct Course {
    turn: f64,
    outer: f64,
    inner: f64,
    deep: f64,
}

impl Course {
    fn of(arc: &Edge, from: f64, deep: f64) -> Course {
        let at = |inward: f64| (arc.radius() - inward * arc.bulge.signum()).max(0.0);
        Course {
            turn: arc.sweep().abs(),
            outer: at(from),
            inner: at(from + deep),
            deep,
        }
    }

    fn tight(&self) -> f64 {
        self.outer.min(self.inner)
    }

    fn wide(&self) -> f64 {
        self.outer.max(self.inner)
    }
}

/// A unit in a course, and the joint beside it.
#[derive(Clone, Copy)]
struct Standing {
    along: f64,
    joint: f64,
    at: Option<BorderSide>,
}

/// What stands along curves.
#[derive(Default)]
struct Curved {
    area: f64,
    units: f64,
    taper: Option<Taper>,
}

impl Curved {
    fn add(&mut self, sides: Vec<Course>, unit: Standing, is_whole: bool) {
        let Standing { along, joint, at } = unit;
        let mut units: f64 = 0.0;
        for course in &sides {
            let stated = match at {
                Some(BorderSide::Inner) => course.inner,
                Some(BorderSide::Outer) => course.outer,
                None => course.tight(),
            };
            units += course.turn * stated / (along + joint);
        }
        if is_whole {
            // No part of a unit closes a ring.
            units = Number::near(units).map_or(units, |exact| exact.floor().to_f64());
        }
        self.units += units;
        let Some(first) = sides.iter().min_by(|a, b| a.tight().total_cmp(&b.tight())) else {
            return;
        };
        let ring: f64 = sides.iter().map(|course| course.turn).sum();
        let per_turn = match is_whole && units > 0.0 {
            true => ring / units,
            false => {
                let stated = match at {
                    Some(BorderSide::Inner) => first.inner,
                    Some(BorderSide::Outer) => first.outer,
                    None => first.tight(),
                };
                (along + joint) / stated.max(f64::MIN_POSITIVE)
            }
        };
        let taper = Taper {
            tight_m: per_turn * first.tight() - along,
            wide_m: per_turn * first.wide() - along,
            deep_m: first.deep,
            along_m: along,
        };
        if self.taper.is_none_or(|own| taper.wide_m > own.wide_m) {
            self.taper = Some(taper);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::fixture::{close, layer, line, material, sourced, stated, surface};
    use super::*;
    use crate::geometry::{self, Point};
    use crate::model::{Border, Stated};

    /// A surface with a border of soldiers of so much by so much, and a joint.
    fn bordered(outline: Outline, unit: (&str, &str), joint: &str) -> Surface {
        let brick = material("brick");
        let mut court = surface("court", outline, vec![layer(Role::Paving, brick, "60 mm")]);
        let along = (0..).take(court.sides.len()).collect();
        let border = Border {
            waste: None,
            is_waste_unread: false,
            material: Stated::new(material("brick").into(), line(1)),
            is_soldier: true,
            mitred: None,
            courses: 1,
            units: sourced(unit.0).zip(sourced(unit.1)),
            joint: Some(stated(joint)),
            joint_at: None,
            along,
            is_known: true,
            is_placed: true,
            left: None,
            others_left: Vec::new(),
            on: None,
            strips: None,
            place: line(1),
        };
        let width = border.width_m().unwrap();
        let outline = court.outline.clone().unwrap();
        let left = geometry::narrowed(&outline, width, &|_| true).unwrap();
        court.borders.push(Border {
            left: Some(left),
            ..border
        });
        court
    }

    fn figures(surface: &Surface) -> BorderFigures {
        border(surface, 0, &Trace::silent()).unwrap()
    }

    fn rectangle(east: f64, north: f64) -> Outline {
        Outline::rectangle(Point::ORIGIN, east, north, [0, 1, 2, 3]).unwrap()
    }

    /// A soldier course 200 mm deep inside 6 by 4 m, units 100 mm wide with
    /// joints of 3 mm: 186.4 units, and 5.6 by 3.6 m of field. Computed.
    #[test]
    fn a_border_round_a_rectangle() {
        let court = bordered(rectangle(6.0, 4.0), ("197 mm", "100 mm"), "3 mm");
        let found = figures(&court);
        assert!(close(found.units.unwrap(), 19.2 / 0.103, 1e-9));
        assert!(close(found.length_m.unwrap(), 19.2, 1e-9));
        assert!(close(court.field().unwrap()[0].area(), 20.16, 1e-9));
        assert!(close(bordered_m2(&court).unwrap(), 3.84, 1e-9));
        assert_eq!(found.taper, None);
    }

    /// Mitred, each of the four courses is cut as long as the outside: 20 m of
    /// it in place of 19.2, for triangles as deep as a unit at each corner; what
    /// lies in place stays.
    #[test]
    fn mitres_take_the_triangles_that_they_cut_off() {
        let plain = bordered(rectangle(6.0, 4.0), ("200 mm", "100 mm"), "0 mm");
        let mut mitred = plain.clone();
        mitred.borders[0].mitred = Some(mitred.borders[0].place);
        let (plain, found) = (figures(&plain), figures(&mitred));
        assert!(close(found.units.unwrap(), 200.0, 1e-9));
        assert!(close(plain.units.unwrap(), 192.0, 1e-9));
        assert_eq!((plain.volume_m3, plain.mitres), (found.volume_m3, None));
        let mitres = found.mitres.unwrap();
        assert_eq!(mitres.corners, 4);
        assert!(close(mitres.cut_m, 8.0 * 0.2 * 2.0_f64.sqrt(), 1e-9));
        // A corner that points inward has as much cut off; a circle none.
        let corners = [
            (0.0, 0.0),
            (6.0, 0.0),
            (6.0, 4.0),
            (3.0, 4.0),
            (3.0, 2.0),
            (0.0, 2.0),
        ];
        let corners = corners.map(|(x, y)| Point::new(x, y));
        let turned = Outline::polygon(&corners, |side| side as geometry::Tag).unwrap();
        let circle = Outline::circle(Point::ORIGIN, 3.0, 0).unwrap();
        for (outline, count, more) in [(turned, 6, 12.0), (circle, 0, 0.0)] {
            let mut court = bordered(outline, ("200 mm", "100 mm"), "0 mm");
            let plain = figures(&court).units.unwrap();
            court.borders[0].mitred = Some(court.borders[0].place);
            let found = figures(&court);
            assert_eq!(found.mitres.unwrap().corners, count);
            assert!(close(found.units.unwrap() - plain, more, 1e-9));
        }
    }

    /// Whole blocks of 200 by 100 mm set radially, with joints of 2 mm or a
    /// little more at the inner end: how many, and the joints that they make.
    /// Computed, beside a trade page's least radius of 5.1 to 5.2 m.
    #[test]
    fn a_ring_takes_whole_units() {
        for (radius, units, tight, wide) in [
            (2.0, 110.0, Some(2.82), 14.24),
            (3.0, 172.0, None, 9.59),
            (5.2, 307.0, None, 6.43),
        ] {
            let circle = Outline::circle(Point::ORIGIN, radius, 0).unwrap();
            let found = figures(&bordered(circle, ("200 mm", "100 mm"), "2 mm"));
            assert_eq!(found.units, Some(units), "{radius}");
            let taper = found.taper.unwrap();
            let hundredths = |metres: f64| (metres * 1e5).round() / 100.0;
            assert_eq!(hundredths(taper.wide_m), wide, "{radius}");
            assert!(tight.is_none_or(|tight| hundredths(taper.tight_m) == tight));
        }
    }

    /// The least radius of units 200 by 100 mm across the edge, with joints of
    /// 5 mm at one end and 1 or 3 mm at the other: 5.1 to 5.2 m and 10.6 m,
    /// as a UK trade page prints; by the formula 5.25 and 10.5 m.
    #[test]
    fn the_least_radius_is_that_of_the_trade() {
        for (tight_m, least, printed) in [(0.001, 5.25, 5.15), (0.003, 10.5, 10.6)] {
            let taper = Taper {
                tight_m,
                wide_m: 0.0,
                deep_m: 0.2,
                along_m: 0.1,
            };
            let found = taper.radius_m(taper.tight_m, 0.005).unwrap();
            assert!(close(found, least, 1e-9));
            assert!(close(found, printed, 0.03));
        }
    }
}
