//! Materials and mixes.

use std::sync::Arc;

use super::{Sourced, Stated};
use crate::findings::{Place, SectionRef};
use crate::materials::{self, Kind};
use crate::sources::Region;
use crate::units::{Quantity, Unit};
use crate::vocabulary::{
    BrickClass, Consistency, Durability, Measure, MixUse, MortarType, spelled_in,
};

/// What a layer, joint or edging is made of.
#[derive(Debug, Clone)]
pub enum Substance {
    /// A material.
    Material(Arc<Material>),
    /// A mix.
    Mix(Arc<Mix>),
    /// A name that nothing defines; a finding says so.
    Unknown(String),
}

impl Substance {
    /// Its name.
    pub fn name(&self) -> &str {
        match self {
            Substance::Material(material) => &material.name,
            Substance::Mix(mix) => &mix.name.value,
            Substance::Unknown(name) => name,
        }
    }

    /// The material, if it is one.
    pub fn material(&self) -> Option<&Arc<Material>> {
        match self {
            Substance::Material(material) => Some(material),
            _ => None,
        }
    }

    /// The mix, if it is one.
    pub fn mix(&self) -> Option<&Arc<Mix>> {
        match self {
            Substance::Mix(mix) => Some(mix),
            _ => None,
        }
    }

    /// What the rules take it for, if it is a material of a known kind.
    pub fn kind(&self) -> Option<Kind> {
        self.material().and_then(|material| material.kind)
    }

    /// Whether it sets with hydraulic lime, without cement.
    pub fn sets_with_lime(&self) -> bool {
        matches!(self, Substance::Mix(mix) if mix.is_of_hydraulic_lime())
    }
}

/// A pack that something is sold in: `bag of 94 lb`.
#[derive(Debug, Clone, PartialEq)]
pub struct Pack {
    /// The pack's word: bag, pallet, roll.
    pub word: String,
    /// What is in one: a mass, volume, area, length or number.
    pub content: Quantity,
    /// Where that is stated, if in a line.
    pub place: Option<Place>,
}

/// How a material is sold.
#[derive(Debug, Clone, PartialEq)]
pub enum Sold {
    /// By a unit of measure.
    Unit(&'static Unit),
    /// By the piece.
    Each,
    /// By the pack.
    Pack(Pack),
}

/// What each load begun costs to bring.
#[derive(Debug, Clone, PartialEq)]
pub struct Load {
    /// The cost of one load.
    pub price: Quantity,
    /// What one load holds.
    pub size: Quantity,
}

/// A material, all that is known of it put together: its own section, what
/// it is `like`, and the catalogue.
#[derive(Debug, Clone)]
pub struct Material {
    /// Its name.
    pub name: String,
    /// Where it is defined; `None` if only the catalogue has it.
    pub place: Option<Place>,
    /// Its section, if it has one.
    pub section: Option<SectionRef>,
    /// Whether this section changes a material of the catalogue.
    pub changes_catalogue: bool,
    /// The material of the catalogue that it is or starts from: a stone keeps
    /// its sort whatever it is named.
    pub stock: Option<&'static str>,
    /// What it is called: by the supplier, or in the catalogue.
    pub called: Option<String>,
    /// Who supplies it, as the text says.
    pub supplier: Option<String>,
    /// What the rules take it for.
    pub kind: Option<Kind>,
    /// Its density; the loose one if it has two.
    pub density: Option<Sourced<Quantity>>,
    /// Its compacted density, if it has two.
    pub compacted: Option<Sourced<Quantity>>,
    /// The density of its grains.
    pub particle_density: Option<Sourced<Quantity>>,
    /// How much it bulks when damp.
    pub bulking: Option<Sourced<Quantity>>,
    /// What a square metre of it weighs, or one piece.
    pub mass: Option<Sourced<Quantity>>,
    /// The class of a clay brick.
    pub class: Option<Stated<BrickClass>>,
    /// How it is classed for wet and frost.
    pub durability: Option<Stated<Durability>>,
    /// How much water it takes up.
    pub absorption: Option<Sourced<Quantity>>,
    /// The stress that breaks it.
    pub strength: Option<Sourced<Quantity>>,
    /// Length and width of a unit.
    pub unit: Option<(Sourced<Quantity>, Sourced<Quantity>)>,
    /// The least side of a unit whose three sides are all stated; the other
    /// two are then the greater ones, the greatest first.
    pub least_side: Option<Sourced<Quantity>>,
    /// How it is sold.
    pub sold: Option<Sourced<Sold>>,
    /// What one pack makes when mixed.
    pub makes: Option<Sourced<Quantity>>,
    /// The step that orders go in.
    pub step: Option<Sourced<Quantity>>,
    /// How far it goes, as the supplier says.
    pub covers: Option<Sourced<Quantity>>,
    /// Its price: money, or money over some unit.
    pub price: Option<Stated<Quantity>>,
    /// The pack that the price is for, if it names one: `$12 per bag`.
    pub price_pack: Option<String>,
    /// What bringing it costs.
    pub delivery: Option<Stated<Load>>,
    /// The least that is sold.
    pub minimum: Option<Stated<Quantity>>,
    /// Waste, unless the layer says.
    pub waste: Option<Sourced<Quantity>>,
    /// The entries that could not be made out, by their keys: what hangs on
    /// one of them is not known.
    pub unread: Vec<&'static str>,
}

impl Material {
    /// What the supplier calls it: as the spec says, or as the catalogue does,
    /// in the words of a region.
    pub fn called_in(&self, region: Region) -> Option<String> {
        let called = self.called.as_deref()?;
        let known = materials::materials().find(|known| known.called == called);
        Some(match known {
            Some(known) => spelled_in(region, known.called_in(region)).into_owned(),
            None => called.to_owned(),
        })
    }

    /// Whether an entry is there that could not be made out.
    pub fn is_unread(&self, key: &str) -> bool {
        self.unread.contains(&key)
    }

    /// Whether all that says by what it is sold, and how much of it at a time,
    /// could be made out.
    pub fn is_sale_read(&self) -> bool {
        let of_sale = ["sold", "covers", "minimum", "unit", "roll", "sheet"];
        !of_sale.iter().any(|key| self.is_unread(key))
    }

    /// Whether all that says how much is to be ordered could be made out.
    pub fn is_order_read(&self) -> bool {
        let mut unread = self.unread.iter();
        unread.all(|key| matches!(*key, "price" | "delivery"))
    }
}

/// One part of a mix.
#[derive(Debug, Clone)]
pub struct MixPart {
    /// How many parts.
    pub amount: Stated<Quantity>,
    /// The name as written.
    pub name: Stated<String>,
    /// The material, if the name is one.
    pub material: Option<Arc<Material>>,
}

/// A `mix` section.
#[derive(Debug, Clone)]
pub struct Mix {
    /// Its name.
    pub name: Stated<String>,
    /// Its section.
    pub section: SectionRef,
    /// What it is used for.
    pub uses: Vec<Stated<MixUse>>,
    /// Its parts; empty if they are not named.
    pub parts: Vec<MixPart>,
    /// Whether they could not be made out, so that those are some of what goes
    /// in, and how much of each is not known.
    pub are_parts_unread: bool,
    /// The `parts` entry.
    pub parts_place: Option<Place>,
    /// Parts written without names, `1:4`: as written.
    pub unlabelled: Option<Stated<Vec<Quantity>>>,
    /// How the parts are measured.
    pub measure: Measure,
    /// The mortar type that it is meant to be.
    pub mortar_type: Option<Stated<MortarType>>,
    /// The strength that it is made to reach, if stated.
    pub strength: Option<Stated<Quantity>>,
    /// How wet it is, if stated.
    pub consistency: Option<Stated<Consistency>>,
    /// Water to cement by mass, if stated.
    pub water: Option<Stated<Quantity>>,
    /// The air left in it, if stated.
    pub voids: Option<Stated<Quantity>>,
    /// How long it stays workable.
    pub pot_life: Option<Stated<Quantity>>,
    /// What is mixed at a time.
    pub batch: Option<Stated<Quantity>>,
    /// How long it takes to lay one batch.
    pub laid_in: Option<Stated<Quantity>>,
    /// Waste.
    pub waste: Option<Stated<Quantity>>,
    /// Whether a waste is stated that could not be made out.
    pub is_waste_unread: bool,
}

impl Mix {
    /// Whether the text gives this use.
    pub fn is_for(&self, used: MixUse) -> bool {
        self.uses.iter().any(|stated| stated.value == used)
    }

    /// Whether it is concrete: cement with stone, or any mix stated for a slab.
    pub fn is_concrete(&self) -> bool {
        let stone = self.amount_of(|kind| {
            matches!(
                kind,
                Kind::DenseAggregate | Kind::OpenAggregate | Kind::RoundedGravel
            )
        });
        self.is_for(MixUse::Slab) || stone > 0.0 && self.amount_of(Kind::is_cement) > 0.0
    }

    /// Whether hydraulic lime binds it, without cement.
    pub fn is_of_hydraulic_lime(&self) -> bool {
        let is_cement = |kind| matches!(kind, Kind::Cement | Kind::MasonryCement);
        self.amount_of(|kind| kind == Kind::HydraulicLime) > 0.0 && self.amount_of(is_cement) <= 0.0
    }

    /// The sum of the amounts of the parts whose material satisfies `which`; 0
    /// where the parts could not be made out.
    pub fn amount_of(&self, which: impl Fn(Kind) -> bool) -> f64 {
        self.parts
            .iter()
            .filter(|_| !self.are_parts_unread)
            .filter(|part| {
                part.material
                    .as_ref()
                    .and_then(|material| material.kind)
                    .is_some_and(&which)
            })
            .map(|part| part.amount.value.si())
            .sum()
    }
}
