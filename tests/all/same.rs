//! Whether two jobs come to the same figures.

use drylay::analysis::Analysis;
use drylay::vocabulary::Role;

/// How a figure grows when a plan is drawn larger.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Grows {
    /// Not at all.
    Not,
    /// As a length.
    Length,
    /// As an area.
    Area,
}

/// Every figure of a job that a plan may be moved, turned and mirrored
/// without changing, each with its name.
pub fn figures(analysis: &Analysis) -> Vec<(String, Grows, Option<f64>)> {
    let mut all = Vec::new();
    let figures = &analysis.figures;
    for shape in figures.shapes.iter() {
        let name = &shape.name;
        all.push((format!("area of {name}"), Grows::Area, shape.area_m2));
        all.push((format!("round {name}"), Grows::Length, shape.perimeter_m));
    }
    for surface in figures.surfaces.iter() {
        let mut add = |what: &str, grows, figure| {
            all.push((format!("{what} of {}", surface.name), grows, figure));
        };
        add("area", Grows::Area, surface.area_m2);
        add("fall", Grows::Not, surface.fall);
        add("drop", Grows::Length, surface.drop_m);
        add("depth", Grows::Not, surface.depth_m);
        add("building", Grows::Length, surface.building_m);
        for layer in &surface.layers {
            let role = layer.role.word();
            add(&format!("area of {role}"), Grows::Area, layer.area_m2);
            add(&format!("volume of {role}"), Grows::Area, layer.volume_m3);
            add(&format!("mass of {role}"), Grows::Area, layer.mass_kg);
            if layer.role == Role::Base {
                add("loose base", Grows::Area, layer.loose_volume_m3);
            }
        }
        if let Some(joints) = &surface.joints {
            add("joints", Grows::Area, joints.volume_m3);
        }
        for edging in &surface.edgings {
            add("edging", Grows::Length, edging.length_m);
        }
    }
    for order in figures.orders.iter() {
        all.push((
            format!("order of {}", order.material),
            Grows::Not,
            order.needed,
        ));
    }
    all
}

/// The volumes that are dug and filled, and the levels, which depend on how
/// the job lies to its ground.
pub fn ground(analysis: &Analysis) -> Vec<(String, Grows, Option<f64>)> {
    let mut all = Vec::new();
    for surface in analysis.figures.surfaces.iter() {
        let dig = surface.dig.as_ref();
        for (what, figure) in [
            ("highest", surface.highest_m),
            ("lowest", surface.lowest_m),
            ("dig", dig.map(|dig| dig.bank_m3)),
            ("cart", dig.and_then(|dig| dig.loose_m3)),
            ("fill", dig.map(|dig| dig.fill_m3)),
        ] {
            all.push((format!("{what} of {}", surface.name), Grows::Not, figure));
        }
    }
    all
}

/// Rules and lines of what is found.
pub fn findings(analysis: &Analysis) -> Vec<(u32, &'static str)> {
    let place = |finding: &std::sync::Arc<drylay::findings::Finding>| {
        let (_, line) = analysis.line(finding.place).expect("a finding has a place");
        (line + 1, finding.rule)
    };
    analysis.findings.iter().map(place).collect()
}
