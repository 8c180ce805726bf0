//! The needs of a material, each counted in what it is sold by: of many
//! needs one can change without the others being counted again.

use std::sync::Arc;

use super::measures::Count as Amount;
use super::measures::Share;
use super::needs::{Need, Purpose};
use super::selling::{Counting, Selling, Short, measured};
use super::term::Term;
use super::trace::Trace;
use crate::model::Material;
use crate::units::unit::{
    CUBIC_FOOT, CUBIC_METRE, CUBIC_YARD, FOOT, KILOGRAM, LITRE, METRE, POUND, SQUARE_FOOT,
    SQUARE_METRE, TON, TONNE,
};
use crate::units::{Dimension, System, Unit};
use crate::vocabulary::Role;

/// A need in sold units.
#[derive(Debug, Clone, Copy)]
pub(super) struct Count {
    /// How it was counted, its waste not in it; or why it cannot be.
    pub counted: Result<Counting, Short>,
    /// How many sold units that is, its waste in it; 0 if it cannot be.
    pub amount: f64,
}

/// The needs of a material, counted.
#[derive(Debug)]
pub(super) struct Counts {
    uses: Uses,
    /// What it is counted in where it does not say.
    pub usual: &'static Unit,
    /// Each of the needs, in order.
    pub each: Vec<Count>,
}

/// How many needs there are of each kind, by which a material is counted that
/// does not say in what it is sold.
#[derive(Debug, Default)]
struct Uses {
    all: usize,
    in_one_course: usize,
    edgings: usize,
    layers: usize,
    with_mass: usize,
}

impl Counts {
    /// These needs, counted.
    pub(crate) fn of(material: &Material, needs: &[Arc<Need>], system: System) -> Counts {
        let mut uses = Uses::default();
        needs.iter().for_each(|need| uses.add(need));
        let usual = uses.usual_unit(system);
        let selling = Selling::of(material, usual);
        Counts {
            uses,
            usual,
            each: needs.iter().map(|need| Count::of(&selling, need)).collect(),
        }
    }

    /// Counts the need at an index anew, which was `before`.
    pub(crate) fn renew(
        &mut self,
        material: &Material,
        needs: &[Arc<Need>],
        (index, before): (usize, &Need),
        system: System,
    ) {
        let Some(now) = needs.get(index) else {
            return;
        };
        self.uses.take_out(before);
        self.uses.add(now);
        if self.uses.usual_unit(system) != self.usual {
            *self = Counts::of(material, needs, system);
        } else if let Some(count) = self.each.get_mut(index) {
            *count = Count::of(&Selling::of(material, self.usual), now);
        }
    }
}

impl Count {
    fn of(selling: &Selling<'_>, need: &Need) -> Count {
        let counted = selling.counted(need);
        let amount = |counting| with_its_waste(counting, need, &Trace::silent()).value.0;
        Count {
            counted,
            amount: counted.map_or(0.0, amount),
        }
    }
}

/// A need in sold units, with its waste.
pub(super) fn with_its_waste<'t>(
    counting: Counting,
    need: &Need,
    trace: &'t Trace,
) -> Term<'t, Amount> {
    let amount = counting.amount(trace);
    match &need.waste {
        Some(waste) => amount * (1.0 + trace.sourced("waste", waste, Share)),
        None => amount,
    }
}

impl Uses {
    fn add(&mut self, need: &Need) {
        self.each_kind(need, |count| *count += 1);
    }

    fn take_out(&mut self, need: &Need) {
        self.each_kind(need, |count| *count = count.saturating_sub(1));
    }

    fn each_kind(&mut self, need: &Need, change: impl Fn(&mut usize)) {
        let one_course = matches!(need.purpose, Purpose::Layer(Role::Paving) | Purpose::Sheet);
        for (count, is_meant) in [
            (&mut self.all, true),
            (&mut self.in_one_course, one_course),
            (&mut self.edgings, need.purpose == Purpose::Edging),
            (&mut self.layers, matches!(need.purpose, Purpose::Layer(_))),
            (&mut self.with_mass, measured(need, Dimension::MASS).is_ok()),
        ] {
            if is_meant {
                change(count);
            }
        }
    }

    /// What a material that does not say is counted in.
    fn usual_unit(&self, system: System) -> &'static Unit {
        let has_mass = self.with_mass == self.all;
        let (imperial, metric): (&Unit, &Unit) = if self.in_one_course == self.all {
            (&SQUARE_FOOT, &SQUARE_METRE)
        } else if self.edgings == self.all {
            (&FOOT, &METRE)
        } else if has_mass && self.layers > 0 {
            (&TON, &TONNE)
        } else if has_mass {
            (&POUND, &KILOGRAM)
        } else if self.layers > 0 {
            (&CUBIC_YARD, &CUBIC_METRE)
        } else {
            (&CUBIC_FOOT, &LITRE)
        };
        match system {
            System::Imperial => imperial,
            System::Metric => metric,
        }
    }
}
