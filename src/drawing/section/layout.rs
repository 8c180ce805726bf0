//! How each section stands on its paper, and to which scale.

use super::channel;
use super::cut::Cut;
use super::edging;
use super::ends;
use super::rows;
use crate::drawing::bare::FOOT;
use crate::drawing::lettering::HEADING;
use crate::drawing::scale::Scale;
use crate::units::System;

/// The most that the layers of a section take of the paper where one of them
/// is cut short, and the least at which thin ones can be told apart.
const DEEPEST: f64 = 48.0;
const LEAST_DEEP: f64 = 20.0;
/// The largest picture that a section is drawn at.
const LARGEST: f64 = 4.0;
/// From the heading down to the finished surface.
pub(crate) const OVER: f64 = HEADING + 15.0;
/// The least width at which the rows stand beside the ends, and the most at
/// which they stand under them.
const BESIDE: f64 = 185.0;

/// The sections of a job on paper.
pub(crate) struct Layout {
    /// The scale of all of them.
    pub scale: Scale,
    /// How wide each is.
    pub width: f64,
    /// Whether the rows stand under the ends, each with the number of its
    /// layer, and not beside them.
    pub is_narrow: bool,
}

impl Layout {
    /// The largest usual scale at which each fits in so much room; under the
    /// ends the rows fill it better than beside them.
    pub(crate) fn of(cuts: &[Cut<'_>], system: System, room: (f64, f64)) -> Layout {
        let usual = Scale::usual(system);
        let usual = usual.into_iter().filter(|scale| scale.ratio >= LARGEST);
        let forms = |scale: Scale| {
            let form = |is_narrow: bool| Layout {
                scale: scale.clone(),
                width: if is_narrow {
                    room.0.min(BESIDE)
                } else {
                    room.0
                },
                is_narrow,
            };
            [form(true), form(false)]
        };
        let all: Vec<Layout> = usual
            .flat_map(forms)
            .filter(|own| own.is_narrow || own.width >= BESIDE)
            .collect();
        let fits = |own: &Layout| cuts.iter().all(|cut| own.holds(cut, room.1));
        // Many thin layers take the same height at any scale.
        let deepest = cuts.iter().map(deep_m).fold(0.0, f64::max);
        let suits = |own: &Layout| deepest * own.per_metre() <= DEEPEST;
        let at = all
            .iter()
            .position(fits)
            .or_else(|| all.iter().position(suits));
        let at = at.unwrap_or(all.len().saturating_sub(1));
        all.into_iter().nth(at).unwrap_or_else(|| Layout {
            scale: Scale::whole(10.0),
            width: room.0,
            is_narrow: true,
        })
    }

    /// Whether a section has room so high.
    fn holds(&self, cut: &Cut<'_>, high: f64) -> bool {
        let on_paper = |metres: f64| metres * self.per_metre();
        let deep = on_paper(deep_m(cut));
        // What is shallow may be cut short past its edge, what holds it never.
        let past = match deep <= DEEPEST {
            true => edging::outside_m(cut),
            false => outside_m(cut),
        };
        let of_rows = rows::beside(cut, self);
        let under = if self.is_narrow {
            rows::height(cut)
        } else {
            0.0
        };
        let lower = ends::lower(cut, self.per_metre());
        let needed = OVER + lower + (deep + ends::UNDER).max(of_rows) + under + FOOT;
        needed <= high && on_paper(past) <= self.widest()
    }

    /// Whether the layers of all of them are told apart at its scale.
    pub(crate) fn is_clear(&self, cuts: &[Cut<'_>]) -> bool {
        let deepest = cuts.iter().map(deep_m).fold(0.0, f64::max);
        deepest * self.per_metre() >= LEAST_DEEP || self.scale.ratio <= 10.0
    }

    /// The most that is drawn of what goes past the edge.
    pub(crate) fn widest(&self) -> f64 {
        let share = if self.is_narrow { 0.16 } else { 0.12 };
        share * self.width
    }

    /// Millimetres of paper to a metre.
    pub(crate) fn per_metre(&self) -> f64 {
        1000.0 / self.scale.ratio
    }
}

/// How deep a section is drawn, in metres.
pub(crate) fn deep_m(cut: &Cut<'_>) -> f64 {
    cut.depth_m()
        .max(edging::under_m(cut))
        .max(channel::under_m(cut))
}

/// How far past the edge it goes, in metres.
pub(crate) fn outside_m(cut: &Cut<'_>) -> f64 {
    cut.beyond_m()
        .max(edging::outside_m(cut))
        .max(channel::outside_m(cut))
}
