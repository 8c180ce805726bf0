//! The borders of a surface.

use super::super::job::{Border, Origin, Shape, Side, Sourced, Stated, Surface, tagged_as};
use super::super::reading::{Clause, Entry};
use super::definitions::LogicalSection;
use super::draft::Along;
use super::evaluate::Resolver;
use super::want::Range;
use crate::findings::{FileId, Finding};
use crate::geometry::{self, Outline, Tag, difference_pieces};
use crate::units::Quantity;
use crate::vocabulary::{Role, ValueKind};

const OWN: FileId = FileId(0);

/// More courses than this are a mistake of a sort that would take long to work
/// out.
const MOST_COURSES: f64 = 100.0;

impl Resolver<'_> {
    /// The borders, the outermost first, each with the sides that it is to run
    /// along.
    pub(crate) fn borders(
        &mut self,
        section: &LogicalSection,
        shape: Option<&Shape>,
        meets_unread: bool,
    ) -> Vec<(Border, Along)> {
        let mut borders = Vec::new();
        for entry in section.all("border") {
            let along = shape.map_or(Along::Unknown, |shape| self.along(entry, shape));
            let along = match along {
                Along::Free { .. } if meets_unread => Along::Unknown,
                along => along,
            };
            borders.extend(self.border(entry).map(|border| (border, along)));
        }
        borders
    }

    fn border(&mut self, entry: &Entry) -> Option<Border> {
        let (name, place) = entry.filled.name("MATERIAL")?;
        let material = Stated::new(self.substance_named(name, place, OWN), place);
        let (soldier, stretcher) = (entry.clause("soldier"), entry.clause("stretcher"));
        if let (Some(_), Some(stretcher)) = (soldier, stretcher) {
            self.find(Finding::new(
                "entry-twice",
                stretcher.place,
                "a course is of soldiers or of stretchers; for both write two borders",
            ));
        }
        let mut is_known = true;
        let courses = match entry.values().next() {
            None => 1,
            Some(clause) => match self.courses(clause) {
                Some(courses) => courses,
                None => {
                    is_known = false;
                    1
                }
            },
        };
        let units = match entry.clause("units") {
            Some(clause) => {
                let units = self.sides_of(clause);
                is_known &= units.is_some();
                units
            }
            None => {
                let own = material.value.material();
                own.and_then(|material| material.unit)
            }
        };
        let joint = entry.clause("joint");
        let stated = joint.and_then(|clause| {
            let (filled, kind) = (&clause.filled, ValueKind::Length);
            self.wanted(filled, "JOINT", kind, Range::NotNegative, OWN)
        });
        is_known &= stated.is_some() == joint.is_some();
        let chosen = joint.and_then(|clause| clause.filled.chosen("SIDE"));
        let last = entry
            .clauses
            .last()
            .map_or(entry.place, |clause| clause.place);
        let build = entry.clause("on");
        let on = build.and_then(|clause| {
            let (name, place) = clause.filled.name("BUILD")?;
            let build = self.build_named(name, place, OWN)?;
            Some(Stated::new(build, clause.place))
        });
        is_known &= on.is_some() == build.is_some();
        if let Some(on) = &on
            && on.value.layer(Role::Paving).is_none()
            && !on.value.has_lost_line
        {
            let message =
                "how thick the border is, the paving layer of this build would say: it has none";
            self.find(Finding::new("entry-missing", on.place, message));
        }
        let (waste, is_waste_unread) = self.waste_of(entry);
        Some(Border {
            material,
            waste,
            is_waste_unread,
            is_soldier: soldier.is_some(),
            mitred: entry.clause("mitred").map(|clause| clause.place),
            courses,
            units,
            joint: stated,
            joint_at: chosen.map(|stated| stated.value),
            along: Vec::new(),
            is_known,
            is_placed: false,
            left: None,
            others_left: Vec::new(),
            on,
            strips: None,
            place: entry.place.to(last),
        })
    }

    fn courses(&mut self, clause: &Clause) -> Option<u32> {
        let (filled, kind) = (&clause.filled, ValueKind::Count);
        let count = self.wanted(filled, "COUNT", kind, Range::Positive, OWN)?;
        let courses = count.value.si();
        if courses <= MOST_COURSES && courses.fract() == 0.0 {
            return Some(courses as u32);
        }
        let message = "a border has a whole number of courses, up to 100";
        self.find(Finding::new("value-range", clause.place, message));
        None
    }

    fn sides_of(&mut self, clause: &Clause) -> Option<(Sourced<Quantity>, Sourced<Quantity>)> {
        let side = |resolver: &mut Self, slot| {
            let (filled, kind) = (&clause.filled, ValueKind::Length);
            let stated = resolver.wanted(filled, slot, kind, Range::Positive, OWN)?;
            Some(Sourced {
                value: stated.value,
                origin: Origin::Line(stated.place),
            })
        };
        let length = side(self, "LENGTH");
        length.zip(side(self, "WIDTH"))
    }
}

/// Lays the borders of a surface, whose sides are known, one inside the other.
/// Of a shape that comes again those of the one that is drawn do for all, where
/// all are bordered alike and on what their surface stands on.
pub(crate) fn lay_borders(surface: &mut Surface) {
    let (sides, count) = (&surface.sides, 1 + surface.others.len());
    let is_alike = |border: &Border| border.on.is_none() && is_alike(&border.along, sides, count);
    let laid = match surface.borders.iter().all(is_alike) {
        true => 1,
        false => count,
    };
    let outlines: Vec<Outline> = surface.outlines().take(laid).cloned().collect();
    if outlines.is_empty() {
        return;
    }
    let joint = surface.joint.as_ref().map(|joint| joint.width.clone());
    let mut left = Some(Vec::from_iter(outlines.iter().map(|own| vec![own.clone()])));
    for border in &mut surface.borders {
        let around = left.clone();
        if border.joint.is_none() {
            border.joint.clone_from(&joint);
        }
        let width = border
            .width_m()
            .filter(|_| border.is_known && border.is_placed);
        left = left.zip(width).and_then(|(each, width)| {
            let free = |edge: &geometry::Edge| border.along.contains(&edge.tag);
            let inside = |pieces: Vec<Outline>| {
                let inside = pieces
                    .iter()
                    .map(|piece| geometry::narrowed(piece, width, &free));
                Some(inside.collect::<Result<Vec<_>, _>>().ok()?.concat())
            };
            each.into_iter().map(inside).collect()
        });
        let bounds = border.on.as_ref().and(around).zip(left.as_ref());
        border.strips = bounds.and_then(|(around, left)| {
            let each = around.iter().zip(left).zip(&outlines);
            let strips = each.map(|((around, left), whole)| strips(around, left, whole));
            Some(strips.collect::<Option<Vec<_>>>()?.concat())
        });
        let mut each = left.clone().into_iter().flatten();
        border.left = each.next();
        border.others_left = each.collect();
    }
}

/// Whether what runs along sides runs along the same of each of so many
/// outlines: what is counted of one then holds for all.
fn is_alike(along: &[Tag], sides: &[Side], count: usize) -> bool {
    let runs = (0..)
        .zip(sides)
        .map(|(tag, side)| (side.edge, along.contains(&tag)));
    let runs: Vec<(Tag, bool)> = runs.collect();
    let mut each = runs.chunks(sides.len().div_ceil(count).max(1));
    let first = each.next();
    each.all(|other| Some(other) == first)
}

/// What lies between outlines and what is left inside them.
fn strips(around: &[Outline], left: &[Outline], whole: &Outline) -> Option<Vec<Outline>> {
    let mut strips = around.to_vec();
    for inner in left {
        let rest = strips
            .iter()
            .map(|strip| difference_pieces(strip, inner).ok());
        strips = rest.collect::<Option<Vec<_>>>()?.concat();
    }
    Some(strips.iter().map(|strip| tagged_as(strip, whole)).collect())
}
