//! Which layer makes up what the one below it is off.

use super::super::measures::{Area, Length};
use super::super::surface::SurfaceFigures;
use super::super::term::Term;
use super::super::trace::Trace;
use crate::model::Surface;
use crate::vocabulary::{Role, Top};

/// What the layer above the one that was measured makes up. Lengths are in
/// metres.
#[derive(Debug, Clone, PartialEq)]
pub struct Takes {
    /// The layer.
    pub role: Role,
    /// What it is of.
    pub material: String,
    /// As thick as it is designed.
    pub designed_m: f64,
    /// As thick as it comes out on average.
    pub mean_m: f64,
    /// Where it is thinnest.
    pub least_m: f64,
    /// Where it is thickest.
    pub greatest_m: f64,
    /// How much more of it that is, in place, in cubic metres; negative for
    /// less. `None` where its area is not known.
    pub more_m3: Option<f64>,
}

/// What the layer above a top makes up, if it is to come out at the finish:
/// the points are so much too high, and so much on average. `None` for the
/// finish itself, and where the thickness is not known.
pub(super) fn takes(
    surface: &Surface,
    figures: &SurfaceFigures,
    top: Top,
    (offs, mean): (&[f64], Term<'_, Length>),
    trace: &Trace,
) -> Option<Takes> {
    let build = surface.build.as_ref()?.value.as_ref();
    let layers = &build.layers;
    let end = match top.role() {
        _ if top == Top::Finish => return None,
        Some(role) => layers.iter().position(|layer| layer.role.value == role)?,
        None => {
            build.depth_m()?;
            super::dug_through(build)?.len()
        }
    };
    let above = layers.get(..end)?.iter().enumerate().rev();
    let mut above = above.filter(|(_, layer)| !layer.role.value.is_sheet());
    let (index, layer) = above.next()?;
    let stated = layer.thickness.as_ref()?;
    let role = layer.role.value;
    let name = format!("thickness of the {}", role.word());
    let designed = trace.stated(name, Length(stated.value.si()), stated.place);
    let average = trace.gives(format!("{} on average", role.word()), designed - mean);
    let area = figures.layers.get(index).and_then(|layer| layer.area_m2);
    let more = area.map(|area| {
        let area = trace.term(format!("area of the {}", role.word()), Area(area));
        trace.gives(format!("more {}", role.word()), area * (average - designed))
    });
    let thickness = |off: &f64| stated.value.si() - off;
    Some(Takes {
        role,
        material: layer.of.value.name().to_owned(),
        designed_m: stated.value.si(),
        mean_m: average.value.0,
        least_m: offs.iter().map(thickness).fold(f64::INFINITY, f64::min),
        greatest_m: offs.iter().map(thickness).fold(f64::NEG_INFINITY, f64::max),
        more_m3: more.map(|more| more.value.0),
    })
}
