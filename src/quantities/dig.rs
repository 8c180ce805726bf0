//! What is dug out under a surface, and what is filled.

use std::borrow::Cow;

use super::footprint::Footprint;
use super::measures::{Area, Length, Share, Volume};
use super::term::Term;
use super::trace::Trace;
use crate::geometry::{Outline, Plane, Tag, volumes_between};
use crate::model::{Build, Ground, Job, Layer, Surface};

/// The dig under a surface.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DigFigures {
    /// What is dug, as it lies in the ground.
    pub bank_m3: f64,
    /// What is carted away, loose; `None` if the swell is not known.
    pub loose_m3: Option<f64>,
    /// What is filled where the ground lies under the underside.
    pub fill_m3: f64,
    /// The area that is dug or filled.
    pub area_m2: f64,
    /// How far the underside lies below the finished surface.
    pub depth_m: f64,
    /// How far the ground lies over the underside where that is most; 0 where
    /// nothing is dug.
    pub deepest_m: f64,
}

/// The layers that are dug for: those with a thickness that do not lie there
/// already.
pub(super) fn dug_layers(build: &Build) -> impl Iterator<Item = &Layer> {
    build
        .layers
        .iter()
        .filter(|layer| layer.existing.is_none() && layer.thickness_m() > 0.0)
}

/// The layers from the top down to the lowest that does not lie there
/// already: what is between the finished surface and the underside. `None` if
/// there is no such layer.
pub(super) fn dug_through(build: &Build) -> Option<&[Layer]> {
    let lowest = dug_layers(build).last()?;
    let above = build
        .layers
        .iter()
        .position(|layer| std::ptr::eq(layer, lowest))?;
    build.layers.get(..=above)
}

/// How far below its finish a surface is dug; nothing where all of it is
/// there already. `None` if a thickness is not known.
pub(super) fn dug_depth(surface: &Surface) -> Option<f64> {
    let build = &surface.build.as_ref()?.value;
    build.depth_m()?;
    let layers = dug_through(build).unwrap_or_default();
    Some(layers.iter().map(Layer::thickness_m).sum())
}

/// How far past an edge of a surface, by its side's tag, it is dug: nothing
/// but past a free one.
pub(super) fn dug_beyond(surface: &Surface, side: Tag) -> f64 {
    let build = surface.build.as_ref().filter(|_| surface.is_open(side));
    let layers = build.into_iter().flat_map(|build| dug_layers(&build.value));
    layers.map(Layer::beyond_m).fold(0.0, f64::max)
}

/// Whether under these layers, the uppermost of a build, one lies there
/// already.
fn rests_on_existing(build: &Build, layers: &[Layer]) -> bool {
    let under = build.layers.get(layers.len()..).unwrap_or_default();
    under
        .iter()
        .any(|layer| layer.existing.is_some() && layer.thickness_m() > 0.0)
}

/// The dig under a surface: between the ground and the underside of the
/// lowest layer, which runs parallel to the finished plane, over the widest
/// outline. `None` if levels, ground, outline or a thickness are not known.
pub(super) fn dig(
    job: &Job,
    surface: &Surface,
    dug: Option<&Footprint>,
    trace: &Trace,
) -> Option<DigFigures> {
    let build = surface.build.as_ref()?;
    let ground = job.site.ground.as_ref()?;
    let dug = dug.filter(|_| surface.has_levels())?;
    // Without the thickness of every layer the underside is not known.
    build.value.depth_m()?;
    let layers = dug_through(&build.value)?;
    let depth = depth(layers, trace);
    let own = trace.term("widest outline", Area(dug.whole_m2()));
    let shared = Area(dug.shared_m2());
    let area = match shared.0 > 0.0 {
        true => {
            let shared = trace.term("ground that other surfaces cover", shared);
            trace.gives("area", own - shared)
        }
        false => own.called("area"),
    };
    // On a layer that lies there already nothing is filled.
    let is_filled = !rests_on_existing(&build.value, layers);
    let under = under(surface, dug, depth.value)?;
    let volumes = between(ground, &under);
    let (bank, fill) = match surface.plane {
        Some(finished) => {
            let between = Between {
                ground,
                finished,
                dug,
                volumes,
                is_filled,
            };
            between.volumes(area, depth, trace)
        }
        None => by_facets(volumes, is_filled, trace),
    };
    let loose = job.site.swell().map(|swell| {
        let swell = trace.sourced("swell", &swell, Share);
        trace.gives("loose volume", bank * (1.0 + swell))
    });
    Some(DigFigures {
        bank_m3: bank.value.0,
        loose_m3: loose.map(|loose| loose.value.0),
        fill_m3: fill.value.0,
        area_m2: area.value.0,
        depth_m: depth.value.0,
        deepest_m: deepest(ground, &under),
    })
}

/// A piece of what is dug under one plane: the plane of the underside, the
/// outline, and the share of it that is the surface's own.
struct Under<'a> {
    underside: Plane,
    outline: Cow<'a, Outline>,
    share: f64,
}

/// What is dug, parted where the underside has a valley. `None` if it cannot be
/// parted.
fn under<'a>(surface: &Surface, dug: &'a Footprint, depth: Length) -> Option<Vec<Under<'a>>> {
    let mut all = Vec::new();
    for piece in &dug.pieces {
        let parts = surface.parted(&piece.outline).ok()?.into_iter();
        all.extend(parts.map(|(finished, outline)| Under {
            underside: finished.raised(-depth.0),
            outline,
            share: piece.share(),
        }));
    }
    Some(all)
}

/// What lies between the ground and the underside: over that and under it.
fn between(ground: &Ground, under: &[Under<'_>]) -> (f64, f64) {
    let (mut above, mut below) = (0.0, 0.0);
    for part in under {
        let between = volumes_between(&part.outline, &ground.plane, &part.underside);
        above += between.above * part.share;
        below += between.below * part.share;
    }
    (above, below)
}

/// How far the ground lies over the underside where that is most; 0 where
/// nothing is dug.
fn deepest(ground: &Ground, under: &[Under<'_>]) -> f64 {
    let over = |part: &Under<'_>| {
        let above = ground.plane.less(&part.underside);
        above.levels_over(&part.outline).1
    };
    // A number of which nothing is left has no sign.
    under.iter().map(over).fold(0.0, f64::max) + 0.0
}

/// The volumes that are dug and filled under a surface of several planes.
fn by_facets(
    (over, under): (f64, f64),
    is_filled: bool,
    trace: &Trace,
) -> (Term<'_, Volume>, Term<'_, Volume>) {
    let how = "what lies between the ground and the underside, facet by facet";
    let fill = if is_filled { under } else { 0.0 };
    (
        trace.found("bank volume", Volume(over), how),
        trace.found("fill", Volume(fill), how),
    )
}

/// How far the underside of the layers lies below the finished surface.
fn depth<'t>(layers: &[Layer], trace: &'t Trace) -> Term<'t, Length> {
    let thick = || layers.iter().filter(|layer| layer.thickness_m() > 0.0);
    let name = |layer: &Layer| format!("{} of {}", layer.role.value.word(), layer.of.value.name());
    for layer in thick() {
        trace.stated(name(layer), Length(layer.thickness_m()), layer.place);
    }
    let one = thick().next().map_or_else(String::new, name);
    let one = format_args!("the thickness of the {one}");
    let thicknesses = thick().map(|layer| Length(layer.thickness_m()));
    trace.sum("depth to the underside", one, thicknesses)
}

/// What lies between the ground and the underside of a build.
struct Between<'a> {
    ground: &'a Ground,
    finished: Plane,
    dug: &'a Footprint,
    /// What lies over the underside and under it.
    volumes: (f64, f64),
    is_filled: bool,
}

impl Between<'_> {
    /// The volumes that are dug and filled. Between two planes a volume is
    /// the area times their distance at its middle, as long as they do not
    /// cross over it.
    fn volumes<'t>(
        &self,
        area: Term<'t, Area>,
        depth: Term<'t, Length>,
        trace: &'t Trace,
    ) -> (Term<'t, Volume>, Term<'t, Volume>) {
        let (over, under) = self.volumes;
        let middle = self.dug.middle();
        let finished = Length(self.finished.level_at(middle));
        let ground = Length(self.ground.plane.level_at(middle));
        for place in &self.ground.places {
            trace.stated("ground at the middle", ground, *place);
        }
        let ground = trace.term("ground at the middle", ground);
        let finished = trace.input("finished level at the middle", finished, None);
        let underside = trace.gives("underside at the middle", finished - depth);
        let nothing = trace.term("nothing", Volume(0.0));
        match (over > 0.0, under > 0.0 && self.is_filled) {
            (true, true) => {
                let how = "what lies between, where the ground is under the underside";
                let fill = trace.found("fill", Volume(under), how);
                let how = "what lies between, where the ground is over the underside";
                (trace.found("bank volume", Volume(over), how), fill)
            }
            (false, true) => (nothing, trace.gives("fill", area * (underside - ground))),
            (true, false) if under > 0.0 => {
                let how = "what lies between, where the ground is over the underside";
                (trace.found("bank volume", Volume(over), how), nothing)
            }
            (true, false) => (
                trace.gives("bank volume", area * (ground - underside)),
                nothing,
            ),
            (false, false) => {
                let how = "nothing: no ground lies over the underside";
                (trace.found("bank volume", Volume(0.0), how), nothing)
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use std::sync::Arc;

    use super::super::fixture::{
        area_of, close, in_unit, job, layer, line, material, stated, surface,
    };
    use crate::model::{Job, Layer};
    use crate::quantities::{DigFigures, figures};
    use crate::vocabulary::Role;

    fn entry(role: Role, thickness: &str) -> Layer {
        layer(role, material("stone"), thickness)
    }

    fn level_job(layers: Vec<Layer>, level: &str, ground: &str) -> Job {
        let court = surface("court", area_of("24 ft", "12 ft"), layers).falling(level, "0 %");
        job(vec![court]).on_ground(ground)
    }

    fn found(job: &Job) -> Option<DigFigures> {
        figures(job).surfaces[0].dig
    }

    fn existing(mut layer: Layer) -> Layer {
        layer.existing = Some(line(1));
        layer
    }

    #[test]
    fn the_dig_reaches_from_the_ground_to_the_underside() {
        let two = || vec![entry(Role::Paving, "2 in"), entry(Role::Base, "6 in")];
        for (layers, level, ground, depth, dug, filled) in [
            (two(), "0 in", "0 in", 8.0, 8.0, 0.0),
            (two(), "-6 in", "-4 in", 8.0, 10.0, 0.0),
            (two(), "0 in", "-12 in", 8.0, 0.0, 4.0),
            (
                vec![
                    entry(Role::Paving, "2 in"),
                    existing(entry(Role::Slab, "4 in")),
                ],
                "0 in",
                "0 in",
                2.0,
                2.0,
                0.0,
            ),
            (
                vec![
                    entry(Role::Paving, "2 in"),
                    existing(entry(Role::Slab, "4 in")),
                ],
                "0 in",
                "-6 in",
                2.0,
                0.0,
                0.0,
            ),
            (
                vec![
                    existing(entry(Role::Slab, "4 in")),
                    entry(Role::Base, "6 in"),
                ],
                "0 in",
                "0 in",
                10.0,
                10.0,
                0.0,
            ),
            (
                vec![entry(Role::Paving, "2 in"), entry(Role::Fabric, "")],
                "0 in",
                "0 in",
                2.0,
                2.0,
                0.0,
            ),
        ] {
            let found = found(&level_job(layers, level, ground)).unwrap();
            assert!(close(in_unit(Some(found.depth_m), "in"), depth, 1e-9));
            assert!(close(
                in_unit(Some(found.bank_m3), "cu ft"),
                288.0 * dug / 12.0,
                1e-9
            ));
            assert!(close(
                in_unit(Some(found.fill_m3), "cu ft"),
                288.0 * filled / 12.0,
                1e-9
            ));
        }
    }

    #[test]
    fn the_finished_plane_is_carried_on_past_the_paving() {
        // Falling south at 1:12 from the north edge at the ground's level, a
        // base 12 in thick that goes 1 ft beyond on every side.
        let mut base = entry(Role::Base, "12 in");
        base.beyond = Some(stated("1 ft"));
        let court =
            surface("court", area_of("24 ft", "12 ft"), vec![base]).falling("-1 ft", "1:12");
        let dug = found(&job(vec![court]).on_ground("0 in")).unwrap();
        // At the middle, 6 ft north of the south edge, it lies 6 in down.
        assert!(close(
            in_unit(Some(dug.bank_m3), "cu ft"),
            26.0 * 14.0 * 1.5,
            1e-9
        ));
        assert!(dug.fill_m3.abs() < 1e-9);
    }

    #[test]
    fn dug_ground_swells_if_the_soil_is_known() {
        let mut job = level_job(vec![entry(Role::Base, "6 in")], "0 in", "0 in");
        assert_eq!(found(&job).unwrap().loose_m3, None);
        job.site.swell = Some(stated("30 %"));
        let dug = found(&job).unwrap();
        assert!(close(dug.loose_m3.unwrap(), dug.bank_m3 * 1.3, 1e-12));
    }

    #[test]
    fn without_levels_ground_or_new_layers_there_is_no_dig() {
        let base = || vec![entry(Role::Base, "6 in")];
        let mut no_plane = level_job(base(), "0 in", "0 in");
        Arc::make_mut(&mut Arc::make_mut(&mut no_plane.surfaces)[0]).plane = None;
        let mut no_ground = level_job(base(), "0 in", "0 in");
        no_ground.site.ground = None;
        let all_there = level_job(vec![existing(entry(Role::Slab, "4 in"))], "0 in", "0 in");
        let sheets = level_job(vec![entry(Role::Fabric, "")], "0 in", "0 in");
        for job in [no_plane, no_ground, all_there, sheets] {
            assert_eq!(found(&job), None);
        }
    }
}
