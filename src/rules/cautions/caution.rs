//! How a caution is said: once, at the job's title.

use std::sync::Arc;

use crate::findings::Place;
use crate::model::{Build, Job, Layer, Surface};
use crate::rules::{Context, Found, Rule};

/// Says a rule's caution at the job's title.
pub(super) fn say(rule: &Rule, message: &str, context: &Context<'_>, found: &mut Found) {
    if let Some(place) = place(context.job) {
        found.add(rule.finding(place, message));
    }
}

fn place(job: &Job) -> Option<Place> {
    let title = job.heading.title.as_ref().map(|title| title.place);
    title.or(job.heading.place)
}

/// Every layer that is built, with its surface and build; what lies there
/// already is left out.
pub(super) fn built_layers(job: &Job) -> impl Iterator<Item = (&Surface, &Build, &Layer)> {
    let surfaces = job.surfaces.iter().map(Arc::as_ref);
    surfaces.flat_map(|surface| {
        let build = surface.build.as_ref().map(|build| build.value.as_ref());
        build.into_iter().flat_map(move |build| {
            let layers = build.layers.iter();
            layers
                .filter(|layer| layer.existing.is_none())
                .map(move |layer| (surface, build, layer))
        })
    })
}

/// A job in which nothing is cut, mixed, lifted, compacted or dug blind: the
/// example that keeps every caution.
pub(super) const HARMLESS: &str = "site
  soil         gravel, firm
  datum        \"hall floor\"
  ground       -200 mm
  services     located 2027-03-02

surface court
  shape        court
  meets        north
  level        -160 mm at north
  fall         1:50 away from north
  build        gravel-path
  edging       steel-edge, along free
  water        to \"planting bed\"

build gravel-path
  surfacing    pea-gravel, 50 mm
  fabric       geotextile
";
