//! Ground that flights of steps, drains and the concrete of kerbs take from
//! the surfaces on which or beside which they stand.

use std::sync::Arc;

use super::footprint::Footprint;
use super::sharing::{Piece, common, overlap, without};
use crate::geometry::{Fault, Outline, Point};
use crate::model::{Build, Layer};
use crate::vocabulary::Role;

/// Ground that something stands on or in.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Taken {
    /// Its outline.
    pub plan: Arc<Outline>,
    /// What of a surface's layers it takes there.
    pub what: What,
}

/// What of a surface's layers is taken.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum What {
    /// What lies over the base.
    OverBase,
    /// That, the base and what is under it.
    All,
    /// Of the base, and of a slab, what lies within.
    Within(Body),
}

/// Something that stands in a base, by how far below the finish it lies, in
/// metres.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Body {
    /// Its top.
    pub top: f64,
    /// Its underside, at the one end and at the other.
    pub bottoms: (f64, f64),
}

impl Body {
    /// One that is as deep all along.
    pub(crate) const fn level(top: f64, bottom: f64) -> Body {
        Body {
            top,
            bottoms: (bottom, bottom),
        }
    }

    /// How much of the height between two depths lies within it, on the
    /// average.
    fn height_in(&self, (top, under): (f64, f64)) -> f64 {
        let from = top.max(self.top);
        let (shallow, deep) = (
            self.bottoms.0.min(self.bottoms.1),
            self.bottoms.0.max(self.bottoms.1),
        );
        let within = |bottom: f64| bottom.max(from).min(under) - from;
        if under <= from {
            return 0.0;
        }
        if deep - shallow <= LEVEL {
            return within(deep);
        }
        // The integral of what lies within over its bottoms.
        let sum = |bottom: f64| {
            let within = within(bottom);
            0.5 * within * within + within * (bottom - under).max(0.0)
        };
        (sum(deep) - sum(shallow)) / (deep - shallow)
    }
}

/// What differs by less, in metres, is level.
const LEVEL: f64 = 1e-9;

/// A layer as it lies in its build: what it is for, and how far below the
/// finish its top and its underside lie.
#[derive(Debug, Clone, Copy)]
pub(super) struct Lying {
    role: Role,
    depths: (f64, f64),
}

impl Lying {
    pub(crate) fn of(build: &Build, layer: &Layer) -> Lying {
        let layers = build.layers.iter();
        let above = layers.take_while(|own| !std::ptr::eq(*own, layer));
        let top: f64 = above.map(Layer::thickness_m).sum();
        Lying {
            role: layer.role.value,
            depths: (top, top + layer.thickness_m()),
        }
    }

    const fn is_over_base(self) -> bool {
        match self.role {
            Role::Paving
            | Role::Surfacing
            | Role::Bond
            | Role::Bed
            | Role::Slurry
            | Role::Membrane => true,
            Role::Slab | Role::Base | Role::Subbase | Role::Mesh | Role::Fabric => false,
        }
    }
}

impl Taken {
    /// Whether a layer of a surface ends where it stands.
    const fn ends(&self, layer: Lying) -> bool {
        match self.what {
            What::OverBase => layer.is_over_base(),
            What::All => true,
            What::Within(_) => false,
        }
    }

    /// How much of a layer's thickness it takes where it stands in it.
    fn takes_of(&self, layer: Lying) -> f64 {
        match self.what {
            What::Within(body) if !layer.is_over_base() => body.height_in(layer.depths),
            _ => 0.0,
        }
    }

    /// Whether it may lie in an upright rectangle.
    pub(crate) fn is_near(&self, corners: (Point, Point)) -> bool {
        overlap(self.plan.bounding_box(), corners)
    }
}

/// What a layer covers, less what is taken of it.
pub(super) fn left_of(
    footprint: Arc<Footprint>,
    layer: Lying,
    taken: &[Taken],
) -> Result<Arc<Footprint>, Fault> {
    let is_taken = |taken: &Taken| taken.ends(layer) || taken.takes_of(layer) > LEVEL;
    if !taken.iter().any(is_taken) {
        return Ok(footprint);
    }
    let mut pieces = footprint.pieces.clone();
    for taken in taken.iter().filter(|taken| taken.ends(layer)) {
        pieces = without(pieces, &taken.plan)?;
    }
    let taken_m3 = within(pieces.clone(), layer, taken)?;
    let mut left = Footprint {
        outlines: footprint.outlines.clone(),
        pieces,
        under_steps_m2: 0.0,
        taken_m3,
    };
    left.under_steps_m2 = (footprint.area_m2() - left.area_m2()).max(0.0);
    Ok(Arc::new(left))
}

/// The volume of a layer that is taken by what stands in it, in cubic metres.
/// What two of them stand on is the first's.
fn within(mut pieces: Vec<Piece>, layer: Lying, taken: &[Taken]) -> Result<f64, Fault> {
    let mut volume = 0.0;
    for taken in taken {
        let height = taken.takes_of(layer);
        if height <= LEVEL {
            continue;
        }
        for piece in &pieces {
            let shared = common(piece, &taken.plan)?;
            let shared: f64 = shared.iter().map(Outline::area).sum();
            volume += shared * piece.share() * height;
        }
        pieces = without(pieces, &taken.plan)?;
    }
    Ok(volume)
}

#[cfg(test)]
mod tests {
    use super::Body;

    #[test]
    fn what_lies_within_a_layer_is_the_mean_along_its_bottom() {
        // A layer from 120 to 320 mm below the finish.
        let layer = (0.12, 0.32);
        for (top, bottoms, wanted) in [
            (0.0, (0.5, 0.5), 0.2),
            (0.0, (0.1, 0.1), 0.0),
            (0.0, (0.22, 0.22), 0.1),
            (0.2, (0.5, 0.4), 0.12),
            (0.33, (0.5, 0.5), 0.0),
            // Half of its way above the layer, half down to its middle.
            (0.0, (0.02, 0.22), 0.025),
            // From its middle to as far below it.
            (0.0, (0.42, 0.22), 0.175),
        ] {
            let found = Body { top, bottoms }.height_in(layer);
            assert!((found - wanted).abs() < 1e-12, "{top} {bottoms:?} {found}");
        }
    }
}
