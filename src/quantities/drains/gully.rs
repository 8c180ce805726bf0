//! The hole of a gully: what is dug for it, and what it is set in.

use super::amounts::{Ground, filled_in};
use super::course::over_point;
use super::{DrainDig, StuffFigures};
use crate::model::Stated;
use crate::quantities::measures::{Length, Volume};
use crate::quantities::term::Term;
use crate::quantities::trace::Trace;
use crate::units::Quantity;

impl<'t> Ground<'_, 't> {
    /// What is dug for a gully, and what it is set in.
    pub(super) fn gully(
        &self,
        wide: Option<&Stated<Quantity>>,
        trace: &'t Trace,
    ) -> (Option<DrainDig>, Option<StuffFigures>) {
        let hole = wide.and_then(|wide| self.hole(wide, trace));
        let around = hole.and_then(|(_, around)| around);
        let bedding = self.bedding_of(around, trace);
        (hole.map(|(dig, _)| dig), bedding)
    }

    /// The hole, down to what lies under the invert, and how much of it is
    /// round the gully; nothing is filled in over that.
    fn hole(
        &self,
        wide: &Stated<Quantity>,
        trace: &'t Trace,
    ) -> Option<(DrainDig, Option<Term<'t, Volume>>)> {
        let at = self.course?.head;
        let invert = self.levels.head?;
        let (top, from) = over_point(self.job, at);
        let (top, from) = (top?.level_at(at), from?.level_at(at));
        let wide = trace.stated("width of the gully", Length(wide.value.si()), wide.place);
        let round = self.drain.bedded.as_ref();
        let round = round.and_then(|bedded| bedded.round.as_ref());
        let round = round
            .map(|round| trace.stated("what it is laid in", Length(round.value.si()), round.place));
        let (side, bottom) = match round {
            Some(round) => (
                trace.gives("width of the dig", wide + round + round),
                trace.gives("bottom", invert.called("invert") - round),
            ),
            None => (wide.called("width of the dig"), invert.called("bottom")),
        };
        let below_top_m = top - bottom.value.0;
        if from <= bottom.value.0 {
            let dig = DrainDig {
                width_m: None,
                deepest_m: 0.0,
                below_top_m,
                bank_m3: 0.0,
                filled_in_m3: 0.0,
                loose_m3: Some(0.0),
            };
            return Some((dig, None));
        }
        let from = trace.input("where the digging begins", Length(from), None);
        let depth = trace.gives("depth of the dig", from - bottom);
        let bank = trace.gives("bank volume", side * side * depth);
        let (filled_in_m3, carted) = filled_in(bank, None, trace);
        let dig = DrainDig {
            width_m: None,
            deepest_m: depth.value.0,
            below_top_m,
            bank_m3: bank.value.0,
            filled_in_m3,
            loose_m3: self.loose(carted, trace),
        };
        let around = round.map(|round| {
            let pot = match depth.value > round.value {
                true => trace.gives("depth of the gully in it", depth - round),
                false => trace.term("nothing", Length(0.0)),
            };
            trace.gives("what it is laid in", bank - wide * wide * pot)
        });
        Some((dig, around))
    }
}
