//! What the catalogue tells of a material.

use crate::materials::documents::COMMON;
use crate::materials::kind::Kind;
use crate::sources::{Region, Source};

/// A figure as a spec would write it, with its source.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Sourced {
    /// Number and unit, read by the ordinary reader of values.
    pub text: &'static str,
    /// Where the figure comes from.
    pub source: Source,
}

/// How a material is sold in one system of units.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Sale {
    /// What a spec writes after `sold`: "by ton", "by bag of 94 lb".
    pub by: &'static str,
    /// The volume that one pack makes when mixed.
    pub makes: Option<Sourced>,
    /// How it is known that it is sold so.
    pub source: Source,
}

/// How a material is sold where a job counts in feet and where in metres.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Sold {
    /// For a job in `units imperial`.
    pub imperial: Sale,
    /// For a job in `units metric`.
    pub metric: Sale,
}

impl Sold {
    /// By weight, as aggregates and sands are.
    pub(super) const BY_WEIGHT: Sold = Sold::plain("by ton", "by t");
    /// By volume, as ready-mixed concrete and topsoil are.
    pub(super) const BY_VOLUME: Sold = Sold::plain("by cu yd", "by m3");
    /// By area, as paving and sheets are.
    pub(super) const BY_AREA: Sold = Sold::plain("by sq ft", "by m2");
    /// By length, as edgings are.
    pub(super) const BY_LENGTH: Sold = Sold::plain("by ft", "by m");
    /// By the piece.
    pub(super) const EACH: Sold = Sold::plain("by each", "by each");

    /// Sold so by common practice; makes no volume of its own.
    pub(super) const fn plain(imperial: &'static str, metric: &'static str) -> Sold {
        Sold {
            imperial: Sale {
                by: imperial,
                makes: None,
                source: COMMON,
            },
            metric: Sale {
                by: metric,
                makes: None,
                source: COMMON,
            },
        }
    }

    /// The same, but mixed out of the pack: what one pack makes.
    pub(super) const fn making(
        self,
        imperial: &'static str,
        metric: &'static str,
        source: Source,
    ) -> Sold {
        Sold {
            imperial: Sale {
                makes: given(imperial, source),
                ..self.imperial
            },
            metric: Sale {
                makes: given(metric, source),
                ..self.metric
            },
        }
    }
}

/// A material of the built-in catalogue.
///
/// Densities are dry. Of a material that is mixed out of a bag, the density is
/// the dry mass that goes into a unit of finished volume, so that bags counted
/// by mass and by what one makes agree.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct CatalogueMaterial {
    /// The name a spec uses: "crushed-stone".
    pub name: &'static str,
    /// A plain description: "Crushed stone, graded down to fines".
    pub called: &'static str,
    /// The same in the words and measures of the United States; empty where
    /// they are no other.
    pub in_us: &'static str,
    /// What the rules take it for.
    pub kind: Kind,
    /// Its one density, or the loose one where `compacted` is given too.
    pub density: Option<Sourced>,
    /// Its density in place, where it has two.
    pub compacted: Option<Sourced>,
    /// The density of its grains, without the air between them.
    pub particle_density: Option<Sourced>,
    /// How large its largest stones are, in millimetres, where the name fixes
    /// it: what is sold under it by common practice.
    pub grain_mm: Option<u32>,
    /// How much larger its volume is damp than dry, a share.
    pub bulking: Option<Sourced>,
    /// The most water it takes up, a share of its mass.
    pub absorption: Option<Sourced>,
    /// The size of one piece, where the name fixes it: "4 in by 8 in".
    pub unit: Option<Sourced>,
    /// What is ordered beyond what is in place, where a document says so.
    pub waste: Option<Sourced>,
    /// How it is sold.
    pub sold: Sold,
    /// Where sources disagree or a figure is shaky; empty if there is nothing
    /// to say.
    pub note: &'static str,
}

impl CatalogueMaterial {
    /// A material of which nothing is known but how it is sold; the groups
    /// fill in the rest.
    pub(super) const fn sold(sold: Sold) -> CatalogueMaterial {
        CatalogueMaterial {
            name: "",
            called: "",
            in_us: "",
            kind: Kind::Fill,
            density: None,
            compacted: None,
            particle_density: None,
            grain_mm: None,
            bulking: None,
            absorption: None,
            unit: None,
            waste: None,
            sold,
            note: "",
        }
    }

    /// What it is called where a job lies, as it is spelled in Britain.
    pub fn called_in(&self, region: Region) -> &'static str {
        match region {
            Region::Us if !self.in_us.is_empty() => self.in_us,
            _ => self.called,
        }
    }

    /// The figures it has, each with its field's name, in the order of a
    /// spec's keys.
    pub fn figures(&self) -> impl Iterator<Item = (&'static str, &Sourced)> {
        [
            ("density", &self.density),
            ("compacted", &self.compacted),
            ("particle-density", &self.particle_density),
            ("bulking", &self.bulking),
            ("absorption", &self.absorption),
            ("unit", &self.unit),
            ("waste", &self.waste),
        ]
        .into_iter()
        .filter_map(|(key, figure)| Some((key, figure.as_ref()?)))
    }
}

/// A figure that is given.
pub(super) const fn given(text: &'static str, source: Source) -> Option<Sourced> {
    Some(Sourced { text, source })
}
