//! How a material is sold, and how a need of it is counted in that.

use std::sync::Arc;

use super::measures::{Count, Counted, Measured};
use super::needs::{Need, Purpose};
use super::states::loose_density;
use super::term::Term;
use super::trace::Trace;
use crate::model::{Material, Sold};
use crate::units::unit::{CUBIC_METRE, CUBIC_YARD, METRE, SQUARE_METRE, TON, TONNE};
use crate::units::{Dimension, Number, Quantity, Unit};
use crate::vocabulary::Role;

/// How a material is sold.
#[derive(Debug, Clone, Copy)]
pub(super) struct Selling<'a> {
    pub material: &'a Material,
    goods: Goods<'a>,
}

#[derive(Debug, Clone, Copy)]
enum Goods<'a> {
    Unit(&'static Unit),
    Each,
    Pack {
        word: &'a str,
        content: &'a Quantity,
    },
}

/// How a need is counted in sold units.
#[derive(Debug, Clone, Copy)]
pub(super) struct Counting {
    /// How it was counted.
    pub by: By,
    /// What is taken.
    pub taken: Measured,
    /// What one sold unit gives of it.
    pub each: Measured,
}

/// How a need was counted.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum By {
    /// By what the goods measure.
    Measure,
    /// By what a pack makes when mixed.
    Makes,
    /// By the area that the supplier says they cover.
    Cover,
}

impl Counting {
    fn new(by: By, (taken, dimension): (f64, Dimension), each: f64) -> Counting {
        let measured = |value| Measured { value, dimension };
        Counting {
            by,
            taken: measured(taken),
            each: measured(each),
        }
    }

    /// How many sold units a need is, its waste not in it.
    pub(crate) fn amount(self, trace: &Trace) -> Term<'_, Count> {
        let taken = trace.term("what is taken", self.taken);
        taken / trace.term("what one gives", self.each)
    }
}

/// Why a need cannot be counted in what a material is sold by.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Short {
    /// The figure itself is not known, which is said elsewhere.
    Unknown,
    /// A density is missing.
    NoDensity,
    /// The size of a piece is missing.
    NoUnitSize,
    /// It cannot be counted so.
    NotConvertible,
}

impl<'a> Selling<'a> {
    /// How a material is sold: as it says, else by what is usual.
    pub(crate) fn of(material: &'a Material, usual: &'static Unit) -> Selling<'a> {
        let goods = match material.sold.as_ref().map(|sold| &sold.value) {
            Some(Sold::Unit(unit)) => Goods::Unit(unit),
            Some(Sold::Each) => Goods::Each,
            Some(Sold::Pack(pack)) => Goods::Pack {
                word: &pack.word,
                content: &pack.content,
            },
            None => Goods::Unit(usual),
        };
        Selling { material, goods }
    }

    /// The unit or the pack's word: `ton`, `bag`, `each`.
    pub(crate) fn word(&self) -> &str {
        match self.goods {
            Goods::Unit(unit) => unit.symbol,
            Goods::Each => "each",
            Goods::Pack { word, .. } => word,
        }
    }

    /// So many of what is sold.
    pub(crate) fn counted_in<N>(&self, number: N) -> Counted<'_, N> {
        Counted {
            number,
            unit: self.word(),
        }
    }

    /// What one pack holds.
    pub(crate) fn content(&self) -> Option<&'a Quantity> {
        match self.goods {
            Goods::Pack { content, .. } => Some(content),
            _ => None,
        }
    }

    /// What one sold unit measures, in base units, and of what; a piece
    /// counts one.
    pub(crate) fn one(&self) -> (Number, Dimension) {
        match self.goods {
            Goods::Unit(unit) => (unit.size(), unit.dimension),
            Goods::Each => (Number::ONE, Dimension::NONE),
            Goods::Pack { content, .. } => (content.number, content.dimension),
        }
    }

    /// The step that orders go in where none is stated. Those of ton, tonne,
    /// cubic yard and metre, square foot and metre are the language's; a
    /// metre of edging goes in tenths, and everything else in whole ones.
    pub(crate) fn usual_step(&self) -> Number {
        let (above, below) = match self.goods {
            Goods::Unit(unit) if unit == &TON || unit == &TONNE => (1, 10),
            Goods::Unit(unit) if unit == &CUBIC_YARD => (1, 4),
            Goods::Unit(unit) if unit == &CUBIC_METRE || unit == &SQUARE_METRE => (1, 10),
            Goods::Unit(unit) if unit == &METRE => (1, 10),
            _ => (1, 1),
        };
        Number::ratio(above, below).unwrap_or(Number::ONE)
    }

    /// How many sold units a need takes, waste not counted.
    pub(crate) fn counted(&self, need: &Need) -> Result<Counting, Short> {
        let has_body = matches!(need.purpose, Purpose::Layer(_) | Purpose::Joint);
        if let Some(makes) = self.makes().filter(|_| has_body) {
            let volume = need.volume_m3.ok_or(Short::Unknown)?;
            return Ok(Counting::new(By::Makes, (volume, Dimension::VOLUME), makes));
        }
        let by_cover = self.covered(need);
        if let Some(counted) = by_cover.filter(|_| trusts_cover(need.purpose)) {
            return Ok(counted);
        }
        let (one, dimension) = self.one();
        match measured(need, dimension) {
            Ok(measure) => Ok(Counting::new(
                By::Measure,
                (measure, dimension),
                one.to_f64(),
            )),
            Err(short) => by_cover.ok_or(short),
        }
    }

    /// The volume that one pack makes when mixed.
    fn makes(&self) -> Option<f64> {
        let makes = self.material.makes.as_ref().map(|makes| makes.value.si());
        makes.filter(|makes| *makes > 0.0 && matches!(self.goods, Goods::Pack { .. }))
    }

    /// How many sold units cover a need's area, as the supplier says.
    fn covered(&self, need: &Need) -> Option<Counting> {
        let covers = &self.material.covers.as_ref()?.value;
        let (one, dimension) = self.one();
        let each = if covers.dimension == Dimension::AREA {
            covers.si()
        } else if Dimension::AREA.divided_by(covers.dimension) == Some(dimension) {
            // Area over mass or volume, and sold by mass or volume.
            covers.si() * one.to_f64()
        } else {
            return None;
        };
        let counted = Counting::new(By::Cover, (need.area_m2?, Dimension::AREA), each);
        let amount = counted.amount(&Trace::silent()).value;
        amount.0.is_finite().then_some(counted)
    }

    /// A stated quantity in sold units: as it is if it is a bare number, else
    /// turned into what one sold unit measures.
    pub(crate) fn in_sold_units(&self, quantity: &Quantity, needs: &[Arc<Need>]) -> Option<Number> {
        let (one, dimension) = self.one();
        if quantity.dimension.is_none() {
            return Some(quantity.number);
        }
        if quantity.dimension == dimension {
            return quantity.number.divided_by(one);
        }
        let per_unit = self.measured_by(Number::ONE, quantity.dimension, needs)?;
        quantity.number.divided_by(per_unit)
    }

    /// So many sold units in another measure: by their own, by the loose
    /// density, by what they cover, or in the proportion that the needs have.
    pub(crate) fn measured_by(
        &self,
        ordered: Number,
        wanted: Dimension,
        needs: &[Arc<Need>],
    ) -> Option<Number> {
        let (one, dimension) = self.one();
        let measure = ordered.times(one)?;
        if wanted == dimension {
            return Some(measure);
        }
        if wanted.is_none() {
            return Some(ordered);
        }
        let density = damp_density(needs).or_else(|| {
            let density = loose_density(self.material)?;
            Some(density.value.number)
        });
        match (dimension, wanted) {
            (Dimension::VOLUME, Dimension::MASS) => return measure.times(density?),
            (Dimension::MASS, Dimension::VOLUME) => return measure.divided_by(density?),
            _ => {}
        }
        if let Some(covers) = self.material.covers.as_ref().map(|covers| covers.value)
            && wanted == Dimension::AREA
        {
            let per = covers.dimension;
            if per == Dimension::AREA {
                return ordered.times(covers.number);
            }
            if Dimension::AREA.divided_by(per) == Some(dimension) {
                return measure.times(covers.number);
            }
        }
        let sum = |of: &dyn Fn(&Need) -> Option<f64>| {
            needs.iter().map(|need| of(need)).sum::<Option<f64>>()
        };
        let sold = sum(&|need| {
            let counted = self.counted(need).ok()?;
            Some(counted.amount(&Trace::silent()).value.0)
        })?;
        let other = sum(&|need| measured(need, wanted).ok())?;
        Number::near(other / sold)?.times(ordered)
    }
}

/// The mass of a loose cubic metre where all of a material goes into mixes and
/// is gauged damp: it lies looser than a dry one.
fn damp_density(needs: &[Arc<Need>]) -> Option<Number> {
    let is_gauged = |need: &Arc<Need>| need.purpose == Purpose::Ingredient;
    if needs.is_empty() || !needs.iter().all(is_gauged) {
        return None;
    }
    let sum =
        |of: &dyn Fn(&Need) -> Option<f64>| needs.iter().map(|need| of(need)).sum::<Option<f64>>();
    let (mass, loose) = (sum(&|need| need.mass_kg)?, sum(&|need| need.loose_m3)?);
    Number::near(mass / loose)
}

/// Whether what a supplier says of the area covered goes before thickness
/// and density: for what lies in one course. How far a base goes depends on
/// how thick it is.
fn trusts_cover(purpose: Purpose) -> bool {
    match purpose {
        Purpose::Layer(role) => matches!(role, Role::Paving | Role::Bond | Role::Slurry),
        Purpose::Sheet | Purpose::Joint => true,
        Purpose::Edging | Purpose::Ingredient => false,
    }
}

/// A need in a measure, in base units.
pub(super) fn measured(need: &Need, wanted: Dimension) -> Result<f64, Short> {
    let has_body = !matches!(need.purpose, Purpose::Sheet | Purpose::Edging);
    let is_layer = matches!(need.purpose, Purpose::Layer(_) | Purpose::Sheet);
    let or_no_density = match need.volume_m3.or(need.mass_kg) {
        Some(_) => Short::NoDensity,
        None => Short::Unknown,
    };
    match wanted {
        Dimension::MASS if has_body => need.mass_kg.ok_or(or_no_density),
        Dimension::VOLUME if has_body => need.loose_m3.ok_or(or_no_density),
        Dimension::AREA if is_layer => need.area_m2.ok_or(Short::Unknown),
        Dimension::LENGTH if need.purpose == Purpose::Edging => need.length_m.ok_or(Short::Unknown),
        Dimension::NONE
            if matches!(need.purpose, Purpose::Layer(Role::Paving) | Purpose::Edging) =>
        {
            let known = need.area_m2.or(need.length_m).is_some();
            need.pieces.ok_or(if known {
                Short::NoUnitSize
            } else {
                Short::Unknown
            })
        }
        _ => Err(Short::NotConvertible),
    }
}
