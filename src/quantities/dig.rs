//! What is dug out under a surface, and what is filled.

use super::grounds::{Covered, dug_layers};
use super::notes::{Amount, Notes};
use crate::geometry::{Plane, volumes_between};
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
}

/// The layers from the top down to the lowest that does not lie there
/// already: what is between the finished surface and the underside. `None` if
/// there is no such layer.
fn dug_through(build: &Build) -> Option<&[Layer]> {
    let lowest = dug_layers(build).last()?;
    let above = build
        .layers
        .iter()
        .position(|layer| std::ptr::eq(layer, lowest))?;
    build.layers.get(..=above)
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
    dug: Option<&Covered>,
    notes: &mut impl Notes,
) -> Option<DigFigures> {
    let build = surface.build.as_ref()?;
    let (finished, ground) = (surface.plane?, job.site.ground.as_ref()?);
    let dug = dug?;
    // Without the thickness of every layer the underside is not known.
    build.value.depth_m()?;
    let layers = dug_through(&build.value)?;
    let depth: f64 = layers.iter().map(Layer::thickness_m).sum();
    let thick = || layers.iter().filter(|layer| layer.thickness_m() > 0.0);
    let name = |layer: &Layer| format!("{} of {}", layer.role.value.word(), layer.of.value.name());
    for layer in thick() {
        notes.stated(
            &name(layer),
            Amount::Length(layer.thickness_m()),
            layer.place,
        );
    }
    let one = |layer: &Layer| format!("the thickness of the {}", name(layer));
    let thicknesses = thick().map(|layer| (one(layer), Amount::Length(layer.thickness_m())));
    notes.sum("depth to the underside", thicknesses, Amount::Length(depth));
    let underside = finished.raised(-depth);
    let (mut bank, mut fill) = (0.0, 0.0);
    for piece in &dug.pieces {
        let between = volumes_between(piece, &ground.plane, &underside);
        bank += between.above;
        // On a layer that lies there already nothing is filled.
        if !rests_on_existing(&build.value, layers) {
            fill += between.below;
        }
    }
    let area = dug.area_m2();
    let shared = dug.shared_m2();
    if shared > 0.0 {
        let terms = [Amount::Area(area + shared), Amount::Area(shared)];
        let formula = "{widest outline} − {ground that other surfaces cover}";
        notes.step("area", formula, &terms, Amount::Area(area));
    }
    volume_steps(ground, &finished, depth, dug, (bank, fill), notes);
    let loose = job.site.swell().map(|swell| {
        notes.input("swell", Amount::Share(swell.value), Some(swell.origin));
        (swell.value, bank * (1.0 + swell.value))
    });
    if let Some((swell, loose)) = loose {
        let terms = [Amount::Volume(bank), Amount::Share(swell)];
        notes.step(
            "loose volume",
            "{bank volume} × (1 + {swell})",
            &terms,
            Amount::Volume(loose),
        );
    }
    Some(DigFigures {
        bank_m3: bank,
        loose_m3: loose.map(|(_, loose)| loose),
        fill_m3: fill,
        area_m2: area,
        depth_m: depth,
    })
}

/// The volumes as area × depth at the middle, which is exact for planes as
/// long as they do not cross over the outline.
fn volume_steps(
    ground: &Ground,
    finished: &Plane,
    depth: f64,
    dug: &Covered,
    (bank, fill): (f64, f64),
    notes: &mut impl Notes,
) {
    let area = Amount::Area(dug.area_m2());
    let middle = dug.middle();
    let (level, over) = (ground.plane.level_at(middle), finished.level_at(middle));
    let (level, under) = (Amount::Length(level), Amount::Length(over - depth));
    for place in &ground.places {
        notes.stated("ground at the middle", level, *place);
    }
    let over = Amount::Length(over);
    notes.input("finished level at the middle", over, None);
    let formula = "{finished level at the middle} − {depth to the underside}";
    let terms = [over, Amount::Length(depth)];
    notes.step("underside at the middle", formula, &terms, under);
    let (bank_volume, fill_volume) = (Amount::Volume(bank), Amount::Volume(fill));
    if bank > 0.0 && fill > 0.0 {
        let formula = "what lies between, where the ground is under the underside";
        notes.step("fill", formula, &[], fill_volume);
        let formula = "what lies between, where the ground is over the underside";
        notes.step("bank volume", formula, &[], bank_volume);
    } else if fill > 0.0 {
        let formula = "{area} × ({underside at the middle} − {ground at the middle})";
        notes.step("fill", formula, &[area, under, level], fill_volume);
    } else if bank == 0.0 {
        let formula = "nothing: no ground lies over the underside";
        notes.step("bank volume", formula, &[], bank_volume);
    } else {
        let formula = "{area} × ({ground at the middle} − {underside at the middle})";
        notes.step("bank volume", formula, &[area, level, under], bank_volume);
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
