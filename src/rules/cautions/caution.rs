//! How a caution is said: once, at the job's title.

use crate::findings::Place;
use crate::model::{Job, Layer, Surface};
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

/// Every layer of a surface that is built; what lies there already is left
/// out.
pub(super) fn built_layers(surface: &Surface) -> impl Iterator<Item = &Layer> {
    let build = surface.build.iter();
    let layers = build.flat_map(|build| &build.value.layers);
    layers.filter(|layer| layer.existing.is_none())
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
