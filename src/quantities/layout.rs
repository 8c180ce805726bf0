//! The lay-out of a surface's units: which lie whole, which are cut, and what
//! is to be bought for them.

use std::borrow::Cow;

use super::footprint::Footprint;
use super::joints::unit_size;
use super::measures::{Area, Count, Length};
use super::offcuts::{Piece, units_for};
use super::sharing::overlap;
use super::trace::Trace;
use crate::findings::Place;
use crate::geometry::{Edge, Motion, Outline, Point, Tiled, Tiling, Unit, Vector, intersection};
use crate::model::{Contact, Laid, Origin, Pattern, Sourced, Surface};
use crate::sources::Source;
use crate::vocabulary::Role;

/// Most places of units for which a lay-out is worked out at every edit.
pub const MOST_AT_ONCE: f64 = 20_000.0;

/// What is ordered over the stock where no waste is written, as a share of it:
/// what breaks or comes damaged.
pub const BREAKAGE: f64 = 0.02;

static COMMON: Source = Source::COMMON_PRACTICE;

/// The figures of a lay-out.
#[derive(Debug, Clone, PartialEq)]
pub struct LayoutFigures {
    /// How many units lie whole.
    pub whole: usize,
    /// How many units are cut at edges: each leaves one piece in place.
    pub cut: usize,
    /// How many units lie over a valley, no edge cutting them: each is cut
    /// along it, and all its pieces are laid.
    pub over_valleys: usize,
    /// From how many units the pieces come, off-cuts used again.
    pub cut_from: usize,
    /// The length of all cuts, in metres.
    pub cut_m: f64,
    /// The smallest piece at the edges, if any is cut there. Along a valley no
    /// start of the lay-out keeps small ones away.
    pub least: Option<LeastCut>,
    /// The area of a unit with its joint, in square metres.
    pub module_m2: f64,
    /// The `laid` entry.
    pub place: Place,
}

/// The smallest piece that is laid.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LeastCut {
    /// How far it reaches along the unit, in metres.
    pub length_m: f64,
    /// How far it reaches across the unit, in metres.
    pub width_m: f64,
    /// Its area as a share of a unit's.
    pub share: f64,
}

impl LeastCut {
    /// The lesser of its two sides, in metres.
    pub fn least_m(&self) -> f64 {
        self.length_m.min(self.width_m)
    }
}

impl LayoutFigures {
    /// How many units are to be bought, none broken.
    pub fn stock(&self) -> usize {
        self.whole + self.over_valleys + self.cut_from
    }

    /// How many units are cut, at edges and along valleys.
    pub fn all_cut(&self) -> usize {
        self.cut + self.over_valleys
    }
}

/// [`BREAKAGE`] with its source.
pub(super) fn breakage() -> Sourced<f64> {
    Sourced {
        value: BREAKAGE,
        origin: Origin::Default {
            what: "breakage over a lay-out",
            source: &COMMON,
        },
    }
}

/// The lay-out of a surface whose `laid` says where it starts, over what its
/// paving covers; `None` if it does not, if a line that cannot be read may be a
/// joint or a border, or if there is too much of it to be worked out at every
/// edit.
pub(super) fn layout(
    surface: &Surface,
    paving: Option<&Footprint>,
    trace: &Trace,
) -> Option<LayoutFigures> {
    let laid = surface.laid.as_ref().filter(|_| !surface.has_lost_line)?;
    laid.from.as_ref()?;
    let over = laid_over(surface, paving)?;
    let tiling = tiling(surface)?;
    (most_units(&tiling, &over) <= MOST_AT_ONCE).then_some(())?;
    let tiled = tiled(surface, &tiling, &over)?;
    let figures = figures(surface, laid, &tiled)?;
    tell(&figures, &tiled, &over, trace);
    Some(figures)
}

/// The ground that units of a surface lie on: of a shape that comes again that
/// of one, and of so many on which they lie alike.
#[derive(Debug, Clone)]
pub struct LaidOver<'s> {
    /// It, in pieces.
    pub pieces: Cow<'s, [Outline]>,
    /// How it lies to the one that the shape draws; `None` if it is that.
    motion: Option<Motion>,
    /// How often it comes.
    times: usize,
}

/// The ground that the units of a surface lie on: what its borders leave, less
/// what steps and channels take of what its paving covers.
pub fn laid_over<'s>(
    surface: &'s Surface,
    paving: Option<&Footprint>,
) -> Option<Vec<LaidOver<'s>>> {
    let fields = surface.fields()?;
    let taken = paving.filter(|paving| paving.under_steps_m2 > 0.0);
    let count = 1 + surface.others.len();
    let first = *fields.first()?;
    if taken.is_none() && fields.len() == 1 {
        return Some(vec![LaidOver {
            pieces: Cow::Borrowed(first),
            motion: None,
            times: count,
        }]);
    }
    let motions = surface.repeat.iter().flat_map(|own| &own.motions);
    let motions = std::iter::once(None).chain(motions.copied().map(Some));
    let each = motions.take(count).enumerate().map(|(index, motion)| {
        let field = match (fields.get(index), &motion) {
            (Some(own), _) => Cow::Borrowed(*own),
            (None, Some(motion)) => first.iter().map(|own| motion.outline(own)).collect(),
            (None, None) => Cow::Borrowed(first),
        };
        Some(LaidOver {
            pieces: match taken {
                Some(left) => Cow::Owned(common(&field, left)?),
                None => field,
            },
            motion,
            times: 1,
        })
    });
    each.collect()
}

/// What of a field lies on the ground that is left of a footprint.
fn common(field: &[Outline], left: &Footprint) -> Option<Vec<Outline>> {
    let mut all = Vec::new();
    for own in field {
        let around = own.bounding_box();
        let pieces = left.pieces.iter().map(|piece| &piece.outline);
        for piece in pieces.filter(|piece| overlap(piece.bounding_box(), around)) {
            all.extend(intersection(own, piece).ok()?);
        }
    }
    Some(all)
}

/// The greatest number of places at which units may lie.
pub fn most_units(tiling: &Tiling, over: &[LaidOver<'_>]) -> f64 {
    let each = over
        .iter()
        .map(|own| own.times as f64 * tiling.most_units(&own.pieces));
    each.sum()
}

/// What is laid on each ground, and how often.
fn tiled(surface: &Surface, tiling: &Tiling, over: &[LaidOver<'_>]) -> Option<Vec<(Tiled, usize)>> {
    let each = over.iter().map(|own| {
        let moved = own.motion.map(|motion| Tiling {
            origin: motion.point(tiling.origin),
            along: tiling.along.turned(motion.turn),
            ..tiling.clone()
        });
        let tiling = moved.as_ref().unwrap_or(tiling);
        let tiled = tiling.over(&own.pieces, &valleys(surface, &own.pieces));
        Some((tiled.ok()?, own.times))
    });
    each.collect()
}

/// The valleys of a surface that falls to a drain, as far as they run through
/// the ground of its units.
fn valleys(surface: &Surface, over: &[Outline]) -> Vec<Edge> {
    let all = surface.facets.iter().map(crate::geometry::Facet::valley);
    let inside = all.flat_map(|valley| {
        let stretches = over
            .iter()
            .flat_map(move |own| own.stretches_inside(&valley));
        stretches.map(move |(from, to)| valley.between(from, to))
    });
    inside.collect()
}

/// The figures of what is laid.
fn figures(surface: &Surface, laid: &Laid, tiled: &[(Tiled, usize)]) -> Option<LayoutFigures> {
    let (length, width) = size(surface)?;
    let joint = joint(surface);
    let count = |of: fn(&Tiled) -> usize| tiled.iter().map(|(own, times)| times * of(own)).sum();
    let cuts = tiled
        .iter()
        .flat_map(|(own, times)| std::iter::repeat_n(&own.cuts, *times).flatten());
    let pieces = cuts.map(|cut| Piece::of(cut.length_m, cut.width_m));
    let least = tiled
        .iter()
        .flat_map(|(own, _)| &own.cuts)
        .min_by(|a, b| a.area_m2.total_cmp(&b.area_m2))
        .map(|cut| LeastCut {
            length_m: cut.length_m,
            width_m: cut.width_m,
            share: cut.area_m2 / cut.whole_m2,
        });
    let cut_m = |own: &Tiled| own.folded_cut_m + own.cuts.iter().map(|cut| cut.cut_m).sum::<f64>();
    Some(LayoutFigures {
        whole: count(|own| own.whole),
        cut: count(|own| own.cuts.len()),
        over_valleys: count(|own| own.folded),
        cut_from: units_for(pieces.collect(), Piece::of(length, width)),
        cut_m: sum(tiled, cut_m),
        least,
        module_m2: (length + joint) * (width + joint),
        place: laid.place,
    })
}

/// What something of each ground comes to, as often as it comes.
fn sum(tiled: &[(Tiled, usize)], of: impl Fn(&Tiled) -> f64) -> f64 {
    let each = tiled.iter().map(|(own, times)| *times as f64 * of(own));
    each.sum()
}

/// How the figures came about.
fn tell(figures: &LayoutFigures, tiled: &[(Tiled, usize)], over: &[LaidOver<'_>], trace: &Trace) {
    let count = |count: usize| Count(count as f64);
    let whole = "those of which the outline takes nothing off";
    let whole = trace.found("whole units", count(figures.whole), whole);
    trace.found(
        "cut units",
        count(figures.cut),
        "those that the outline cuts",
    );
    let how = "each piece from the smallest off-cut that it fits, the longest piece first";
    let cut_from = trace.found("units to cut from", count(figures.cut_from), how);
    if figures.over_valleys == 0 {
        trace.gives("units to buy", whole + cut_from);
        let how = "the sides of the outline, as far as they run through units";
        trace.found("length of the cuts", Length(figures.cut_m), how);
    } else {
        let how = "those through which a valley runs: cut along it, both pieces are laid";
        let over_valleys = trace.found("units over valleys", count(figures.over_valleys), how);
        trace.gives("units to buy", whole + over_valleys + cut_from);
        let how = "the sides of the outline and the valleys, as far as they run through units";
        trace.found("length of the cuts", Length(figures.cut_m), how);
    }
    let units = |own: &Tiled| own.whole_m2 + own.folded_m2 + own.cuts_m2();
    let units = Area(sum(tiled, units));
    let units = trace.found("area of whole units and pieces", units, "their sum");
    let each = over.iter().map(|own| {
        let area: f64 = own.pieces.iter().map(Outline::area).sum();
        own.times as f64 * area
    });
    let all = trace.term("area", Area(each.sum()));
    trace.gives(
        "area of the joints",
        all - units.called("area of whole units and pieces"),
    );
}

/// What a lay-out from another start would come to; for a start that is still
/// sought.
pub fn layout_of(
    surface: &Surface,
    tiling: &Tiling,
    over: &[LaidOver<'_>],
) -> Option<LayoutFigures> {
    let tiled = tiled(surface, tiling, over)?;
    figures(surface, surface.laid.as_ref()?, &tiled)
}

/// The long and the short side of a surface's units in metres, as laid or else
/// the paving's.
fn size(surface: &Surface) -> Option<(f64, f64)> {
    let build = surface.build.as_ref();
    let paving = build.and_then(|build| build.value.layer(Role::Paving));
    let material = paving.and_then(|paving| paving.of.value.material());
    let (one, other) = unit_size(surface, material.map(AsRef::as_ref))?;
    let (length, width) = (one.value.max(other.value), one.value.min(other.value));
    (width > 0.0).then_some((length, width))
}

fn joint(surface: &Surface) -> f64 {
    let joint = surface.joint.as_ref();
    joint.map_or(0.0, |joint| joint.width.value.si())
}

/// The pattern of a surface on the plan: from the corner that `laid` states,
/// else from the start of the edge that it keeps to. `None` if its units have
/// no size, or lie in no pattern.
pub fn tiling(surface: &Surface) -> Option<Tiling> {
    let start = surface.laid.as_ref()?.from.as_ref();
    tiling_from(surface, start.map(|from| from.value))
}

/// The same from a start: its first unit lies on the ground, to whichever side
/// of the start that is, so that a field begun at any of its corners is laid
/// alike.
pub fn tiling_from(surface: &Surface, start: Option<Point>) -> Option<Tiling> {
    let (laid, outline) = (surface.laid.as_ref()?, surface.outline.as_ref()?);
    let (length, width) = size(surface)?;
    let joint = joint(surface);
    let offset = laid.offset.as_ref().map_or(0.5, |offset| offset.value.si());
    let (units, steps) = units(laid.pattern.value, [length, width, joint], offset)?;
    let along = courses(surface);
    let ways = start.map_or(FORWARD, |start| inward(surface, start, along));
    let guide = guide(surface);
    let first = guide.or(outline.outer.edges.first())?.start;
    Some(Tiling {
        origin: start.unwrap_or(first),
        along,
        units: units.into_iter().map(|unit| mirrored(unit, ways)).collect(),
        steps: steps.map(|step| Vector::new(ways.x * step.x, ways.y * step.y)),
    })
}

/// Along the courses, and to their left.
const FORWARD: Vector = Vector { x: 1.0, y: 1.0 };
/// How far from a start it is asked on which side of it the ground lies.
const PROBED: f64 = 0.002;

/// On which sides of a start the ground of the units lies, 1 or -1 along the
/// courses and to their left: forward where it lies all round.
fn inward(surface: &Surface, start: Point, along: Vector) -> Vector {
    let ways = [(1.0, 1.0), (-1.0, 1.0), (1.0, -1.0), (-1.0, -1.0)];
    let ways = ways.map(|(x, y)| Vector::new(x, y));
    let at = |way: Vector| start + along * (way.x * PROBED) + along.left() * (way.y * PROBED);
    let fields = surface.fields().unwrap_or_default();
    let outlines = || fields.iter().flat_map(|field| field.iter());
    let is_on_field = |way: &Vector| outlines().any(|field| field.contains(at(*way)));
    let on_field = ways.into_iter().find(is_on_field);
    let beside = || {
        // A corner that is rounded off lies outside.
        let middle = surface.outline.as_ref()?.centroid() - start;
        let side = |reach: f64| if reach < 0.0 { -1.0 } else { 1.0 };
        Some(Vector::new(
            side(along.dot(middle)),
            side(along.left().dot(middle)),
        ))
    };
    on_field.or_else(beside).unwrap_or(FORWARD)
}

/// A unit turned to the other side of the origin.
fn mirrored(unit: Unit, ways: Vector) -> Unit {
    let corner = |way: f64, corner: f64, size: f64| match way < 0.0 {
        true => -corner - size,
        false => corner,
    };
    Unit {
        corner: Vector::new(
            corner(ways.x, unit.corner.x, unit.size.x),
            corner(ways.y, unit.corner.y, unit.size.y),
        ),
        ..unit
    }
}

/// The way that the courses of a surface run: along the edge that they keep to,
/// turned by the angle that is stated.
pub fn courses(surface: &Surface) -> Vector {
    let along = guide(surface).map_or(Vector::new(1.0, 0.0), |edge| edge.chord().unit());
    let angle = surface.laid.as_ref().and_then(|laid| laid.angle.as_ref());
    let angle = angle.map_or(0.0, |angle| (angle.value.si() % 360.0).to_radians());
    along.turned(-angle)
}

/// The edge that a pattern keeps to: as stated, else one at the building, else
/// the longest straight one.
pub fn guide(surface: &Surface) -> Option<&Edge> {
    let outline = surface.outline.as_ref()?;
    let straight = || outline.outer.edges.iter().filter(|edge| !edge.is_arc());
    let source = |edge: &Edge| surface.sides.get(edge.tag as usize).map(|side| side.edge);
    let along = surface.laid.as_ref().and_then(|laid| laid.along.as_ref());
    if let Some((_, tags)) = along {
        let is_named = |edge: &&Edge| source(edge).is_some_and(|tag| tags.contains(&tag));
        return longest(straight().filter(is_named));
    }
    let at_building = |edge: &&Edge| surface.contact(edge.tag) == Some(Contact::Building);
    longest(straight().filter(at_building)).or_else(|| longest(straight()))
}

/// The longest edge; of edges as long the last, to a millionth of a metre.
fn longest<'e>(edges: impl Iterator<Item = &'e Edge>) -> Option<&'e Edge> {
    edges.max_by(|a, b| {
        (a.length() - b.length())
            .partial_cmp(&1e-6)
            .unwrap_or(std::cmp::Ordering::Equal)
    })
}

/// The units of a pattern that come again, and the steps by which they do, of
/// units with a length, a width and a joint.
fn units(
    pattern: Pattern,
    [length, width, joint]: [f64; 3],
    offset: f64,
) -> Option<(Vec<Unit>, [Vector; 2])> {
    let (long, wide) = (length + joint, width + joint);
    let flat = |along, across| Unit {
        corner: Vector::new(along, across),
        size: Vector::new(length, width),
        is_turned: false,
    };
    let turned = |along, across| Unit {
        corner: Vector::new(along, across),
        size: Vector::new(width, length),
        is_turned: true,
    };
    let rows = |moved| [Vector::new(long, 0.0), Vector::new(moved, wide)];
    Some(match pattern {
        Pattern::Irregular | Pattern::Rings | Pattern::Courses | Pattern::Ashlar => return None,
        Pattern::StackBond => (vec![flat(0.0, 0.0)], rows(0.0)),
        Pattern::RunningBond => (vec![flat(0.0, 0.0)], rows(offset * long)),
        Pattern::Herringbone => (
            vec![flat(0.0, 0.0), turned(long, wide - long)],
            [Vector::new(wide, wide), Vector::new(long, -long)],
        ),
        Pattern::BasketWeave => {
            // As many as make a square; the joints take what is left over.
            let count = (long / wide).round().clamp(1.0, 12.0);
            let each = (0..count as usize).map(|place| place as f64 * long / count);
            let both = each.flat_map(|at| [flat(0.0, at), turned(long + at, 0.0)]);
            let steps = [Vector::new(long, long), Vector::new(long, -long)];
            (both.collect(), steps)
        }
    })
}

/// Starts that a mason would try: a unit flush with either side of the ground of
/// the units, in its middle, or a joint there, along and across, and the start
/// that holds now.
pub fn starts(surface: &Surface, tiling: &Tiling, over: &[LaidOver<'_>]) -> Vec<Point> {
    let (Some(unit), Some(over)) = (tiling.units.first(), over.first()) else {
        return Vec::new();
    };
    let way = |direction: Vector, size: f64| {
        let pieces = over.pieces.iter().map(|piece| piece.extremes(direction));
        let around = pieces.reduce(|all, one| (all.0.min(one.0), all.1.max(one.1)));
        let (least, most) = around.unwrap_or_default();
        let start = direction.dot(tiling.origin - Point::ORIGIN);
        let (from, to) = (least - start, most - start);
        let middle = 0.5 * (from + to);
        [
            from,
            0.0,
            to - size,
            middle - 0.5 * size,
            middle + 0.5 * joint(surface),
        ]
    };
    let (along, across) = (tiling.along, tiling.along.left());
    let rows = way(across, unit.size.y);
    let columns = way(along, unit.size.x);
    let of_row = |row: f64| columns.map(|column| tiling.origin + along * column + across * row);
    rows.into_iter().flat_map(of_row).collect()
}

#[cfg(test)]
mod tests {
    use super::super::figures;
    use super::super::fixture::{
        area_of, close, job, layer, line, material, sold, stated, surface,
    };
    use super::*;
    use crate::model::{Material, Stated};

    fn court(pattern: Pattern, from: bool, waste: Option<&str>) -> Surface {
        let brick = Material {
            sold: sold("by each"),
            ..material("brick")
        };
        let mut paving = layer(Role::Paving, brick, "60 mm");
        paving.waste = waste.map(stated);
        let mut court = surface("court", area_of("6 m", "4 m"), vec![paving]);
        let corner = court.outline.as_ref().and_then(|own| own.corners().next());
        court.laid = Some(Laid {
            pattern: Stated::new(pattern, line(1)),
            stones: None,
            units: Some((stated("200 mm"), stated("100 mm"))),
            sizes: Vec::new(),
            wide: None,
            centre: None,
            angle: None,
            along: None,
            offset: None,
            from: corner
                .filter(|_| from)
                .map(|corner| Stated::new(corner, line(1))),
            place: line(1),
        });
        court
    }

    #[test]
    fn the_order_is_what_the_lay_out_takes_and_what_breaks() {
        // 1,180 bricks whole and 40 halves from 20: 1,200, and 2 %.
        for (from, waste, ordered) in [
            (true, None, 1224.0),
            (true, Some("10 %"), 1320.0),
            (false, None, 1200.0),
        ] {
            let court = court(Pattern::RunningBond, from, waste);
            let figures = figures(&job(vec![court]));
            let found = figures.order("brick").unwrap().ordered.unwrap().to_f64();
            assert_eq!(found, ordered, "{from} {waste:?}");
        }
    }

    #[test]
    fn a_lay_out_is_told_of_and_adds_up() {
        let figures = figures(&job(vec![court(Pattern::RunningBond, true, None)]));
        let layout = figures.surfaces[0].layout.clone().unwrap();
        assert_eq!((layout.whole, layout.cut, layout.cut_from), (1180, 40, 20));
        assert!(close(layout.cut_m, 40.0 * 0.1, 1e-9));
        let least = layout.least.unwrap();
        assert!(close(least.length_m, 0.1, 1e-9) && close(least.share, 0.5, 1e-9));
        let bare = figures.surfaces[0].area_m2.unwrap();
        assert!(close(bare, 24.0, 1e-12));
    }

    #[test]
    fn without_a_start_or_a_pattern_there_is_no_lay_out() {
        for court in [
            court(Pattern::RunningBond, false, None),
            court(Pattern::Irregular, true, None),
        ] {
            assert_eq!(figures(&job(vec![court])).surfaces[0].layout, None);
        }
    }
}
