//! Why a figure cannot be known, for the rules to say.

use crate::findings::Place;
use crate::geometry::Fault;
use crate::units::{Currency, Dimension};

/// A figure that cannot be known, and why. Only what no finding of the
/// reading already says is troubled about.
#[derive(Debug, Clone, PartialEq)]
pub struct Trouble {
    /// Why.
    pub kind: TroubleKind,
    /// The material, mix or surface that it is about.
    pub name: String,
    /// The line that is the cause, or that wants the figure.
    pub place: Place,
    /// What else takes part: what the material is used for.
    pub uses: Vec<Place>,
}

/// Why a figure cannot be known.
#[derive(Debug, Clone, PartialEq)]
pub enum TroubleKind {
    /// An order by mass or loose volume is wanted and the material has no
    /// density.
    NoDensity,
    /// The mass of a layer cannot be told: its material has no density. No
    /// order hangs on it.
    NoMass,
    /// A mix wants the density of a part's grains, and none is known.
    NoParticleDensity,
    /// Units are counted and their size is not known.
    NoUnitSize,
    /// A sheet laps and the size of its roll is not known, or no larger than
    /// the lap.
    NoRollSize,
    /// An edging stands in concrete and the three sides of its unit are not
    /// known.
    NoHeight,
    /// Joints are filled and the size of the units or stones between them is
    /// not known.
    NoJointShare,
    /// The material is sold by something that its use cannot be turned into.
    NotConvertible {
        /// What it is sold by: `ton`, `bag`.
        sold: String,
        /// What that measures.
        wants: Dimension,
    },
    /// The text states what a pack holds as a bare number. That counts pieces,
    /// and the material is not used by the piece.
    BareContent {
        /// The pack: `bag`.
        pack: String,
        /// What could be told of its use: a mass, a volume, an area or a
        /// length.
        used: Dimension,
    },
    /// The price is for something that the material is not sold by and that
    /// cannot be turned into it with what is known.
    PriceUnit {
        /// What the price is for.
        priced: Dimension,
        /// What it is sold by.
        sold: String,
    },
    /// The price is for a pack that the material is not sold in.
    PricePack {
        /// The pack that the price names.
        priced: String,
        /// What it is sold by.
        sold: String,
    },
    /// The price is in another currency than the job's.
    Currency {
        /// The currency of the price.
        priced: Currency,
        /// The currency of the job.
        job: Currency,
    },
    /// The size of a load, the step or the least that is sold is in something
    /// that the material is not sold by.
    Terms {
        /// Which of them: `delivery`, `in steps of`, `minimum`.
        what: &'static str,
        /// What it measures.
        stated: Dimension,
        /// What it is sold by.
        sold: String,
    },
    /// The layer's own outline cannot be made.
    Outline(Fault),
}

/// Adds a trouble about a use, unless the same is said of that use or name
/// already.
pub(super) fn add_unless_said(troubles: &mut Vec<Trouble>, new: &Trouble) {
    let says_it = |trouble: &Trouble| match (&trouble.kind, &new.kind) {
        (TroubleKind::NoDensity | TroubleKind::NoMass, TroubleKind::NoMass) => {
            trouble.name == new.name
        }
        (TroubleKind::NoUnitSize, TroubleKind::NoJointShare) => {
            new.uses.iter().all(|used| trouble.uses.contains(used))
        }
        _ => false,
    };
    if !troubles.iter().any(says_it) {
        troubles.push(new.clone());
    }
}
