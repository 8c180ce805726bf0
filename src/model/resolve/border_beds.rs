//! Borders that stand on a build of their own: each strip is built as a surface
//! is, on the plane of the one that it borders.

use std::sync::Arc;

use super::super::job::{Border, Held, Job, Stated, Surface};

impl Job {
    /// Takes out the strips of borders: what is left are the surfaces that the
    /// text states.
    pub(crate) fn forget_border_beds(&mut self) {
        if self.surfaces.iter().any(|own| own.is_border()) {
            Arc::make_mut(&mut self.surfaces).retain(|own| !own.is_border());
        }
    }

    /// Adds the strips of borders on builds of their own after the surfaces
    /// that the text states.
    pub(crate) fn lay_border_beds(&mut self) {
        let mut beds: Vec<Arc<Surface>> = Vec::new();
        let stated = self.surfaces.len();
        for surface in self.surfaces.iter() {
            for border in &surface.borders {
                let index = stated + beds.len();
                beds.extend(bed(surface, border, index).map(Arc::new));
            }
        }
        if !beds.is_empty() {
            Arc::make_mut(&mut self.surfaces).extend(beds);
        }
    }
}

/// The strips of a border as a surface, if it stands on a build of its own:
/// what stands along its edges is that of the surface that it borders, and
/// counted there.
fn bed(surface: &Surface, border: &Border, index: usize) -> Option<Surface> {
    let strips = border.on.as_ref().and(border.strips.as_ref())?;
    let (first, others) = strips.split_first()?;
    let name = format!(
        "{} border of {}",
        border.material.value.name(),
        surface.name.value
    );
    let held = surface.edgings.iter().map(|edging| Held {
        along: edging.along.clone(),
        is_there: false,
        place: edging.place,
    });
    let held = held.chain(surface.held.iter().cloned()).collect();
    Some(Surface {
        name: Stated::new(name, border.place),
        place: border.place,
        index,
        border_of: Some(surface.index),
        outline: Some(first.clone()),
        others: others.to_vec(),
        repeat: None,
        overlaps: Vec::new(),
        build: Some(border.build(surface)?),
        borders: Vec::new(),
        edgings: Vec::new(),
        held,
        laid: None,
        joint: None,
        isolation_joint: None,
        movement_joints: None,
        weeps: None,
        doors: Vec::new(),
        guards: Vec::new(),
        handrail: None,
        front: None,
        water: None,
        runoff: None,
        notes: Vec::new(),
        ..surface.clone()
    })
}
