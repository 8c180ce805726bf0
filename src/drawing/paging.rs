//! Figures put on sheets of one size: several on one where they have room, each
//! kind to the largest scale that lets them.

use rayon::prelude::*;

use super::bare::WHITE;
use super::figure::Figure;
use super::sheet::{Panel, Sheet};
use crate::geometry::Point;

/// The white round all figures of a sheet, and between two.
const MARGIN: f64 = 5.0;
const GAP: f64 = 6.0;
/// How a sheet is parted to see how much room a figure may have: so many beside
/// one another, so many one under the other.
const PARTED: [(f64, f64); 5] = [(1.0, 1.5), (1.0, 2.0), (1.0, 3.0), (2.0, 1.0), (2.0, 2.0)];

/// Where figures stand: for each its sheet, from 0, and its lower left corner.
type Places = Vec<(usize, Point)>;

/// Figures of several kinds on the sheets that they take.
pub(crate) struct Paged {
    /// The sheet of all of them.
    pub sheet: Sheet,
    /// Each figure with its kind, its sheet and its lower left corner, in order.
    pub placed: Vec<(usize, usize, Point, Figure)>,
    /// How good that is.
    rank: Rank,
}

/// Draws the figures of a kind, each in so much room.
pub(crate) type Draw<'a> = &'a (dyn Fn((f64, f64)) -> Vec<Figure> + Sync);

impl Paged {
    /// Figures of kinds on such sheets, so many millimetres of each taken by a
    /// warning: on the fewest of them, and there as large as may be.
    pub(crate) fn of(sheet: Sheet, warning: f64, kinds: &[Draw<'_>]) -> Paged {
        let panel = Panel {
            low: Point::new(sheet.foot.low.x + MARGIN, sheet.foot.low.y + MARGIN),
            high: Point::new(
                sheet.plan.high.x - MARGIN,
                sheet.plan.high.y - MARGIN - warning,
            ),
        };
        let whole = kinds.par_iter();
        let whole = whole.map(|draw| drawn(*draw, &panel, (1.0, 1.0)).0);
        let whole: Vec<Vec<Figure>> = whole.collect();
        let is_one = whole.iter().map(Vec::len).sum::<usize>() <= 1;
        let ways = kinds.par_iter().zip(whole).map(|(draw, whole)| {
            let has_parts = !is_one && whole.iter().all(|own| own.is_clear);
            let parts = PARTED.par_iter();
            let parts = parts.filter(|_| has_parts && !whole.is_empty());
            let parts = parts.map(|parts| drawn(*draw, &panel, *parts));
            let parts = parts
                .filter(|(_, suits)| *suits)
                .map(|(figures, _)| figures);
            let parts: Vec<Vec<Figure>> = parts.collect();
            std::iter::once(whole).chain(parts).collect()
        });
        let mut drawn: Vec<Vec<Vec<Figure>>> = ways.collect();
        let mut best: Option<(Vec<usize>, Places, Rank)> = None;
        for choice in choices(&drawn) {
            let own = || {
                let chosen = drawn.iter().zip(&choice);
                chosen.filter_map(|(ways, at)| ways.get(*at)).flatten()
            };
            let sizes: Vec<(f64, f64)> = own().map(|figure| figure.drawing.size).collect();
            let places = places(&sizes, &panel);
            let count = places.last().map_or(0, |(page, _)| page + 1);
            let drawn_on: f64 = sizes.iter().map(|(wide, high)| wide * high).sum();
            let rank = Rank {
                is_clear: own().all(|figure| figure.is_clear),
                count,
                filled: drawn_on / (panel.width() * panel.height() * count.max(1) as f64),
            };
            if best.as_ref().is_none_or(|(.., best)| rank.is_before(best)) {
                best = Some((choice, places, rank));
            }
        }
        let (choice, places, rank) = best.unwrap_or_default();
        let figures = drawn.iter_mut().zip(choice).enumerate();
        let figures = figures.flat_map(|(kind, (ways, at))| {
            let own = ways.get_mut(at).map(std::mem::take).unwrap_or_default();
            own.into_iter().map(move |figure| (kind, figure))
        });
        let placed = figures.zip(places);
        Paged {
            placed: placed
                .map(|((kind, figure), (page, corner))| (kind, page, corner, figure))
                .collect(),
            rank,
            sheet,
        }
    }

    /// How many sheets it takes.
    pub(crate) fn count(&self) -> usize {
        self.rank.count
    }

    /// Whether all is large enough to be made out.
    pub(crate) fn is_clear(&self) -> bool {
        self.rank.is_clear
    }

    /// Whether less than half of its sheets is drawn on.
    pub(crate) fn is_bare(&self) -> bool {
        self.rank.filled < 0.5
    }

    /// Whether these sheets are better than others: what they show can be made
    /// out, there are fewer of them, and they are filled better.
    pub(crate) fn is_before(&self, other: &Paged) -> bool {
        self.rank.is_before(&other.rank)
    }
}

/// How good a choice is: whether all can be made out, how many sheets it takes,
/// and how much of one is drawn on in the middle.
#[derive(Default)]
struct Rank {
    is_clear: bool,
    count: usize,
    filled: f64,
}

impl Rank {
    fn is_before(&self, other: &Rank) -> bool {
        let order = (other.is_clear.cmp(&self.is_clear))
            .then(self.count.cmp(&other.count))
            .then(other.filled.total_cmp(&self.filled));
        order.is_lt()
    }
}

/// The figures of a kind in a part of a panel, and whether that suits: each
/// keeps its room and can be made out.
fn drawn(draw: Draw<'_>, panel: &Panel, (beside, under): (f64, f64)) -> (Vec<Figure>, bool) {
    let part = |all: f64, parts: f64| (all - GAP * (parts - 1.0)) / parts;
    let room = (part(panel.width(), beside), part(panel.height(), under));
    let figures = draw((room.0 - 2.0 * WHITE, room.1 - 2.0 * WHITE));
    let suits = figures.iter().all(|own| {
        let (wide, high) = own.drawing.size;
        own.is_clear && wide <= room.0 + 1e-6 && high <= room.1 + 1e-6
    });
    (figures, suits)
}

/// Every way to choose one of the ways of each kind.
fn choices(drawn: &[Vec<Vec<Figure>>]) -> Vec<Vec<usize>> {
    drawn.iter().fold(vec![Vec::new()], |choices, ways| {
        let longer = choices
            .iter()
            .flat_map(|choice| (0..ways.len()).map(|at| [choice.as_slice(), &[at]].concat()));
        longer.collect()
    })
}

/// Where figures so large stand, in order: one beside the other, row under row,
/// sheet after sheet.
fn places(sizes: &[(f64, f64)], panel: &Panel) -> Places {
    let mut places = Places::new();
    let mut page = 0;
    let (mut x, mut top, mut row) = (panel.low.x, panel.high.y, 0.0_f64);
    for (wide, high) in sizes {
        if x > panel.low.x && x + wide > panel.high.x + 1e-6 {
            (x, top, row) = (panel.low.x, top - row - GAP, 0.0);
        }
        let is_full = top - high < panel.low.y - 1e-6;
        if is_full && top < panel.high.y {
            page += 1;
            (x, top, row) = (panel.low.x, panel.high.y, 0.0);
        }
        places.push((page, Point::new(x, top - high)));
        x += wide + GAP;
        row = row.max(*high);
    }
    places
}
