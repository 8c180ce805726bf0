//! The courses of a border as rules on units and joints look at them: as if all
//! of the surface were laid so.

use crate::model::{Border, Joint, Laid, Origin, Sourced, Stated, Surface};
use crate::units::Quantity;
use crate::vocabulary::Pattern;

/// A surface as its border is laid: of the border's material, units and joint,
/// on what the border stands on. `None` where that is not known.
pub(super) fn laid_as(surface: &Surface, border: &Border) -> Option<Surface> {
    let build = border.build(surface)?;
    let stated = |side: &Sourced<Quantity>| match side.origin {
        Origin::Line(place) => Some(Stated::new(side.value, place)),
        _ => None,
    };
    let units = border.units.as_ref();
    let units = units.and_then(|(one, other)| Some((stated(one)?, stated(other)?)));
    let joint = border.joint.clone().map(|width| {
        let own = surface.joint.as_ref();
        Joint {
            width,
            depth: own.and_then(|own| own.depth.clone()),
            filling: own.and_then(|own| own.filling.clone()),
            place: own.map_or(border.place, |own| own.place),
        }
    });
    Some(Surface {
        build: Some(build),
        laid: units.map(|units| Laid {
            pattern: Stated::new(Pattern::StackBond, border.place),
            stones: None,
            units: Some(units),
            sizes: Vec::new(),
            wide: None,
            centre: None,
            angle: None,
            along: None,
            offset: None,
            from: None,
            place: border.place,
        }),
        joint,
        borders: Vec::new(),
        isolation_joint: None,
        ..surface.clone()
    })
}
