//! Layers from the top down.

use super::{Sourced, Stated, Substance};
use crate::findings::{Place, SectionRef};
use crate::units::Quantity;
use crate::vocabulary::{Role, State};

/// How far in metres a layer's thickness may lie off the side of its unit that
/// it is: nominal and actual sizes differ by a joint.
const SAME_SIDE: f64 = 0.013;

/// One layer.
#[derive(Debug, Clone)]
pub struct Layer {
    /// What it is for.
    pub role: Stated<Role>,
    /// What it is made of.
    pub of: Stated<Substance>,
    /// Its thickness; `None` for a sheet, or if it is missing.
    pub thickness: Option<Stated<Quantity>>,
    /// The least and the greatest thickness, where stone of uneven thickness
    /// is laid; `thickness` is then the middle.
    pub range: Option<(Stated<Quantity>, Stated<Quantity>)>,
    /// Whether that is as compacted or as spread, if stated.
    pub state: Option<Stated<State>>,
    /// In how many lifts, if stated.
    pub lifts: Option<Stated<Quantity>>,
    /// The spacing of the joints of a slab.
    pub joints: Option<Stated<Quantity>>,
    /// The words by which a joint runs out from every inside corner.
    pub corners_jointed: Option<Place>,
    /// How far past the free edges.
    pub beyond: Option<Stated<Quantity>>,
    /// Waste, if stated here.
    pub waste: Option<Stated<Quantity>>,
    /// Where the text says that it is there already.
    pub existing: Option<Place>,
    /// The lap of sheets.
    pub lap: Option<Stated<Quantity>>,
    /// How far a sheet is turned up.
    pub turned_up: Option<Stated<Quantity>>,
    /// The clauses whose value could not be made out, by their words: what
    /// hangs on one of them is not known.
    pub unread: Vec<&'static str>,
    /// Whether something of its line is in error, so that a clause which seems
    /// to be missing may be there.
    pub is_misread: bool,
    /// The whole entry.
    pub place: Place,
}

impl Layer {
    /// Whether a clause is there whose value could not be made out.
    pub fn is_unread(&self, clause: &str) -> bool {
        self.unread.contains(&clause)
    }

    /// Whether a clause that is not there may have been meant.
    pub fn may_say(&self, clause: &str) -> bool {
        self.is_misread || self.is_unread(clause)
    }

    /// Its thickness in metres; 0 for a sheet or where none is known.
    pub fn thickness_m(&self) -> f64 {
        self.thickness
            .as_ref()
            .map_or(0.0, |stated| stated.value.si())
    }

    /// The thickness of its thinnest piece in metres.
    pub fn thinnest_m(&self) -> f64 {
        let least = self.range.as_ref().map(|(least, _)| least.value.si());
        least.unwrap_or_else(|| self.thickness_m())
    }

    /// The thickness of its thickest piece in metres.
    pub fn thickest_m(&self) -> f64 {
        let most = self.range.as_ref().map(|(_, most)| most.value.si());
        most.unwrap_or_else(|| self.thickness_m())
    }

    /// The two sides of its units that show: of three the one that is as long
    /// as the layer is thick lies upright, as in a brick laid on its edge.
    pub fn face(&self) -> Option<(&Sourced<Quantity>, &Sourced<Quantity>)> {
        let material = self.of.value.material()?;
        let (long, wide) = material.unit.as_ref()?;
        let (Some(least), Some(thickness)) = (&material.least_side, &self.thickness) else {
            return Some((long, wide));
        };
        let off = |side: &Sourced<Quantity>| (side.value.si() - thickness.value.si()).abs();
        let nearest = off(least).min(off(wide)).min(off(long));
        Some(match nearest {
            _ if off(least) <= nearest || nearest > SAME_SIDE => (long, wide),
            _ if off(wide) <= nearest => (long, least),
            _ => (wide, least),
        })
    }

    /// How far it goes past the free edges, in metres.
    pub fn beyond_m(&self) -> f64 {
        self.beyond.as_ref().map_or(0.0, |stated| stated.value.si())
    }
}

/// A `build` section.
#[derive(Debug, Clone)]
pub struct Build {
    /// Its name.
    pub name: Stated<String>,
    /// Its section.
    pub section: SectionRef,
    /// Its layers from the top down.
    pub layers: Vec<Layer>,
    /// Whether a line of it could not be made out, which may be one more layer.
    pub has_lost_line: bool,
    /// Where the text calls it permeable.
    pub permeable: Option<Place>,
    /// The share of its base that can hold water.
    pub voids: Option<Stated<Quantity>>,
}

impl Build {
    /// The layers with this role, from the top down.
    pub fn layers_for(&self, role: Role) -> impl Iterator<Item = &Layer> {
        self.layers
            .iter()
            .filter(move |layer| layer.role.value == role)
    }

    /// The uppermost layer with this role.
    pub fn layer(&self, role: Role) -> Option<&Layer> {
        self.layers_for(role).next()
    }

    /// Its total thickness in metres; `None` if that of a layer is not known, or
    /// there may be another.
    pub fn depth_m(&self) -> Option<f64> {
        if self.has_lost_line {
            return None;
        }
        self.layers
            .iter()
            .filter(|layer| !layer.role.value.is_sheet())
            .map(|layer| Some(layer.thickness.as_ref()?.value.si()))
            .sum()
    }
}
