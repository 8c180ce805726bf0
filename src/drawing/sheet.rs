//! Sheets of paper and how they are parted: the plan, what is said beside it,
//! and the title block.

use super::display_list::Extents;
use crate::geometry::Point;

/// The sizes that are printed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Size {
    /// 297 × 210 mm.
    A4,
    /// 420 × 297 mm.
    A3,
    /// 11 × 8 1/2 in.
    Letter,
    /// 17 × 11 in.
    Tabloid,
}

impl Size {
    /// Every size.
    pub const ALL: &'static [Size] = &[Size::A4, Size::A3, Size::Letter, Size::Tabloid];

    /// Its name on the sheet.
    pub const fn name(self) -> &'static str {
        match self {
            Size::A4 => "A4",
            Size::A3 => "A3",
            Size::Letter => "Letter",
            Size::Tabloid => "Tabloid",
        }
    }

    /// Its long and its short side in millimetres.
    pub const fn sides(self) -> (f64, f64) {
        match self {
            Size::A4 => (297.0, 210.0),
            Size::A3 => (420.0, 297.0),
            Size::Letter => (279.4, 215.9),
            Size::Tabloid => (431.8, 279.4),
        }
    }

    const fn is_large(self) -> bool {
        matches!(self, Size::A3 | Size::Tabloid)
    }

    /// The next smaller one of its family.
    pub fn smaller(self) -> Option<Size> {
        let of_family = |own: &Size| own.larger() == Some(self);
        Size::ALL.iter().copied().find(of_family)
    }

    /// The next larger one of its family.
    pub const fn larger(self) -> Option<Size> {
        match self {
            Size::A4 => Some(Size::A3),
            Size::Letter => Some(Size::Tabloid),
            Size::A3 | Size::Tabloid => None,
        }
    }
}

/// A rectangle of the sheet between two corners.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Panel {
    /// Its lower left corner.
    pub low: Point,
    /// Its upper right corner.
    pub high: Point,
}

impl Panel {
    /// How wide it is.
    pub(crate) fn width(&self) -> f64 {
        self.high.x - self.low.x
    }

    /// How high it is.
    pub(crate) fn height(&self) -> f64 {
        self.high.y - self.low.y
    }

    /// As extents.
    pub(crate) fn extents(&self) -> Extents {
        Extents::between(self.low, self.high)
    }

    fn of(left: f64, bottom: f64, right: f64, top: f64) -> Panel {
        Panel {
            low: Point::new(left, bottom),
            high: Point::new(right, top),
        }
    }
}

/// A sheet, parted.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Sheet {
    /// Its size.
    pub size: Size,
    /// Whether it stands upright.
    pub is_upright: bool,
    /// Its width and height in millimetres.
    pub paper: (f64, f64),
    /// Whether it is no sheet but a place on a page: nothing stands round what
    /// is drawn on it.
    pub is_bare: bool,
    /// Within its margins.
    pub frame: Panel,
    /// Where the plan lies.
    pub plan: Panel,
    /// Where the scale bar stands, under the plan.
    pub foot: Panel,
    /// The columns of legend, key and notes, in order.
    pub columns: Vec<Panel>,
    /// The title block.
    pub title: Panel,
}

/// The room of the scale bar.
const FOOT: f64 = 13.0;
/// The white between a line of the frame and what stands in it.
const INSET: f64 = 4.0;
/// How wide a column of words is at least.
const COLUMN: f64 = 60.0;

impl Sheet {
    /// A sheet of a size, lying or upright.
    pub(crate) fn new(size: Size, is_upright: bool) -> Sheet {
        let (long, short) = size.sides();
        let (width, height) = if is_upright {
            (short, long)
        } else {
            (long, short)
        };
        let left = if size.is_large() { 20.0 } else { 15.0 };
        let frame = Panel::of(left, 10.0, width - 10.0, height - 10.0);
        let beside = match (is_upright, size.is_large()) {
            (false, true) => Beside::column(&frame, 86.0, 62.0),
            (false, false) => Beside::column(&frame, 64.0, 60.0),
            (true, true) => Beside::strip(&frame, 84.0, (96.0, 62.0)),
            (true, false) => Beside::strip(&frame, 88.0, (70.0, 60.0)),
        };
        let plan = beside.plan;
        Sheet {
            size,
            is_upright,
            paper: (width, height),
            is_bare: false,
            frame,
            plan: Panel::of(plan.low.x, plan.low.y + FOOT, plan.high.x, plan.high.y),
            foot: Panel::of(plan.low.x, plan.low.y, plan.high.x, plan.low.y + FOOT),
            columns: beside.columns,
            title: beside.title,
        }
    }
}

impl Sheet {
    /// The same with no plan, for words alone: columns all over it, under so
    /// much that is kept at the top.
    pub(crate) fn of_words(&self, kept: f64) -> Sheet {
        let (low, high) = (self.foot.low, self.plan.high);
        let count = ((high.x - low.x) / COLUMN).floor().max(1.0);
        let wide = (high.x - low.x) / count;
        let column = |number: u32| {
            let left = low.x + wide * f64::from(number);
            Panel::of(
                left + INSET,
                low.y + INSET,
                left + wide - INSET / 2.0,
                high.y - kept - INSET,
            )
        };
        let over = (0..count as u32).map(column);
        Sheet {
            columns: over.chain(self.columns.iter().copied()).collect(),
            ..self.clone()
        }
    }

    /// A place on a page, so wide and so high.
    pub(crate) fn bare((width, height): (f64, f64)) -> Sheet {
        let all = Panel::of(0.0, 0.0, width, height);
        let none = Panel::of(0.0, 0.0, 0.0, 0.0);
        Sheet {
            size: Size::A4,
            is_upright: true,
            paper: (width, height),
            is_bare: true,
            frame: all,
            plan: all,
            foot: none,
            columns: Vec::new(),
            title: none,
        }
    }
}

struct Beside {
    plan: Panel,
    columns: Vec<Panel>,
    title: Panel,
}

impl Beside {
    /// A column at the right, the title block at its foot.
    fn column(frame: &Panel, width: f64, title: f64) -> Beside {
        let (low, high) = (frame.low, frame.high);
        let left = high.x - width;
        Beside {
            plan: Panel::of(low.x, low.y, left, high.y),
            columns: vec![Panel::of(
                left + INSET,
                low.y + title + INSET / 2.0,
                high.x - INSET,
                high.y - INSET,
            )],
            title: Panel::of(left, low.y, high.x, low.y + title),
        }
    }

    /// A strip at the foot, the title block in its lower right corner.
    fn strip(frame: &Panel, height: f64, title: (f64, f64)) -> Beside {
        let (low, high) = (frame.low, frame.high);
        let (top, right) = (low.y + height, high.x - title.0);
        let over = low.y + title.1;
        let half = (right - low.x) / 2.0;
        let column = |left: f64, foot: f64, right: f64| {
            Panel::of(left + INSET, foot + INSET / 2.0, right, top - INSET)
        };
        Beside {
            plan: Panel::of(low.x, top, high.x, high.y),
            columns: vec![
                column(low.x, low.y, low.x + half - INSET / 2.0),
                column(low.x + half, low.y, right - INSET / 2.0),
                column(right, over, high.x - INSET),
            ],
            title: Panel::of(right, low.y, high.x, over),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_parts_of_a_sheet_lie_beside_one_another() {
        for size in Size::ALL {
            for is_upright in [false, true] {
                let sheet = Sheet::new(*size, is_upright);
                let mut parts = vec![sheet.plan, sheet.foot, sheet.title];
                parts.extend(sheet.columns.iter().copied());
                for (at, one) in parts.iter().enumerate() {
                    assert!(sheet.frame.extents().holds(&one.extents()), "{size:?}");
                    assert!(one.width() > 20.0 && one.height() > 10.0, "{size:?}");
                    for other in parts.iter().skip(at + 1) {
                        assert!(!one.extents().overlaps(&other.extents()), "{size:?}");
                    }
                }
            }
        }
    }
}
