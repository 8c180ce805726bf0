//! A surface: its levels, its layers, its joints and edges, its dig.

use super::sheet::{Sheet, labelled, labelled_parts};
use crate::model::Surface;
use crate::quantities::{
    DigFigures, FigureRef, JointFigures, LayerFigures, MovementFigures, SurfaceFigures, is_granular,
};
use crate::report::columns::{Columns, Side};
use crate::report::trade::{UNKNOWN, area, length, mass, run, share, volume};
use crate::report::words::listed;
use crate::units::{System, show};

/// A surface with its layers from the top down.
pub(super) fn text(
    sheet: &Sheet<'_>,
    index: usize,
    own: &Surface,
    figures: &SurfaceFigures,
) -> String {
    let head = format!("SURFACE {}\n", figures.name);
    let of_layer = |layer| FigureRef::Layer {
        surface: index,
        layer,
    };
    let after = [
        FigureRef::Joints(index),
        FigureRef::Edges(index),
        FigureRef::Dig(index),
    ];
    [
        head,
        levels(sheet, own, figures),
        sheet.workings([FigureRef::Levels(index)]),
        layers(sheet, own, figures),
        sheet.workings((0..figures.layers.len()).map(of_layer)),
        "\n".to_owned(),
        waste(figures),
        joints(sheet, own, figures),
        edges(sheet, own, figures),
        dig(sheet, figures),
        sheet.workings(after),
    ]
    .concat()
}

fn levels(sheet: &Sheet<'_>, own: &Surface, figures: &SurfaceFigures) -> String {
    let system = sheet.system;
    let of_shape = figures
        .shape
        .as_ref()
        .map_or(String::new(), |shape| format!(", of shape {shape}"));
    let whole = match (figures.area_m2, figures.perimeter_m) {
        (Some(inside), Some(edges)) => {
            format!(
                "{} within {} of edge{of_shape}",
                area(inside, system),
                length(edges, system)
            )
        }
        _ => UNKNOWN.to_owned(),
    };
    let mut text = labelled("area", &whole);
    let fall = figures.fall.map_or_else(|| UNKNOWN.to_owned(), show::slope);
    let drop = figures
        .drop_m
        .map(|drop| format!("; the surface drops {}", length(drop, system)));
    let way = own.fall.as_ref().and_then(|fall| fall.away_from.as_ref());
    let way = way.map_or(String::new(), |(edge, _)| format!(" away from {edge}"));
    text += &labelled("fall", &format!("{fall}{way}{}", drop.unwrap_or_default()));
    let known = figures.highest_m.zip(figures.lowest_m);
    let (high, low) = match known {
        Some((high, low)) => (level(high, system), level(low, system)),
        None => (UNKNOWN.to_owned(), UNKNOWN.to_owned()),
    };
    let datum = sheet.analysis.job.site.datum.as_ref();
    let datum = datum
        .filter(|_| known.is_some())
        .map(|datum| format!(" ({})", datum.value));
    text += &labelled("high edge", &format!("{high}{}", datum.unwrap_or_default()));
    let step = figures
        .low_edge_step_m
        .map(|step| format!("; {}", over_ground(step, system)));
    text += &labelled("low edge", &format!("{low}{}", step.unwrap_or_default()));
    if let Some(depth) = figures.depth_m {
        text += &labelled(
            "build",
            &format!("{} from top to underside", length(depth, system)),
        );
    }
    text
}

/// A level against the datum, in words.
fn level(metres: f64, system: System) -> String {
    let zero = length(0.0, system);
    match (length(metres.abs(), system), metres < 0.0) {
        (size, _) if size == zero => "at the datum".to_owned(),
        (size, true) => format!("{size} below the datum"),
        (size, false) => format!("{size} above the datum"),
    }
}

fn over_ground(step: f64, system: System) -> String {
    let zero = length(0.0, system);
    match (length(step.abs(), system), step < 0.0) {
        (size, _) if size == zero => "level with the ground there".to_owned(),
        (size, true) => format!("{size} below the ground there"),
        (size, false) => format!("a step of {size} above the ground there"),
    }
}

fn layers(sheet: &Sheet<'_>, own: &Surface, figures: &SurfaceFigures) -> String {
    if figures.layers.is_empty() {
        return String::new();
    }
    let mut columns = Columns::new(&[
        ("layer", Side::Left),
        ("of", Side::Left),
        ("area", Side::Right),
        ("thickness", Side::Right),
        ("in place", Side::Right),
        ("loose", Side::Right),
        ("mass", Side::Right),
    ]);
    let entries = own.build.iter().flat_map(|build| &build.value.layers);
    for (entry, layer) in entries.zip(&figures.layers) {
        let material = entry.of.value.material();
        let is_granular = material.is_some_and(|material| is_granular(material));
        columns.row(layer_cells(sheet, layer, is_granular));
    }
    let existing = figures.layers.iter().any(|layer| layer.is_existing);
    let note = if existing {
        "  (there) lies there already: not dug for, not ordered.\n"
    } else {
        ""
    };
    format!("\n{}{note}", columns.text())
}

fn layer_cells(sheet: &Sheet<'_>, layer: &LayerFigures, is_granular: bool) -> [String; 7] {
    let system = sheet.system;
    let known = |value: Option<f64>, shown: fn(f64, System) -> String| {
        value.map_or_else(|| UNKNOWN.to_owned(), |value| shown(value, system))
    };
    let if_thick = |cell: String| {
        if layer.role.is_sheet() {
            String::new()
        } else {
            cell
        }
    };
    let there = if layer.is_existing { " (there)" } else { "" };
    [
        format!("{}{there}", layer.role.word()),
        sheet.marked(&layer.material),
        known(layer.sheet_m2.or(layer.area_m2), area),
        if_thick(known(layer.thickness_m, length)),
        if_thick(known(layer.volume_m3, volume)),
        match is_granular {
            true => if_thick(known(layer.loose_volume_m3, volume)),
            false => String::new(),
        },
        if_thick(known(layer.mass_kg, mass)),
    ]
}

/// What is ordered over what lies in place, of what says so.
fn waste(figures: &SurfaceFigures) -> String {
    let of_layer = |layer: &LayerFigures| Some((layer.role.word(), layer.waste.as_ref()?.value));
    let layers = figures
        .layers
        .iter()
        .filter(|layer| !layer.is_existing)
        .filter_map(of_layer);
    let joints = figures.joints.as_ref();
    let joints = joints.and_then(|joints| Some(("joints", joints.waste.as_ref()?.value)));
    let said: Vec<String> = layers
        .chain(joints)
        .map(|(of, part)| format!("{} on the {of}", show::share(part)))
        .collect();
    match said.is_empty() {
        true => String::new(),
        false => labelled("waste to order", &listed(&said)),
    }
}

fn joints(sheet: &Sheet<'_>, own: &Surface, figures: &SurfaceFigures) -> String {
    match (&figures.joints, &own.joint) {
        (Some(joints), Some(joint)) => {
            let width = length(joint.width.value.si(), sheet.system);
            labelled_parts("joints", &joint_words(sheet, joints, &width))
        }
        _ => String::new(),
    }
}

fn joint_words(sheet: &Sheet<'_>, joints: &JointFigures, width: &str) -> Vec<String> {
    let system = sheet.system;
    let depth = joints
        .depth_m
        .map_or_else(|| UNKNOWN.to_owned(), |depth| length(depth, system));
    let part = joints.share.map_or_else(|| UNKNOWN.to_owned(), share);
    let takes = joints
        .volume_m3
        .map_or_else(|| UNKNOWN.to_owned(), |taken| volume(taken, system));
    let of = joints
        .material
        .as_ref()
        .map(|of| format!(" of {}", sheet.marked(of)));
    let mass = joints
        .mass_kg
        .map(|kilograms| format!(", {}", mass(kilograms, system)));
    let takes = format!(
        "{takes}{}{}",
        of.unwrap_or_default(),
        mass.unwrap_or_default()
    );
    let run = joints
        .length_m
        .map(|metres| format!("{} of joint", run(metres, system)));
    let mut parts = vec![
        format!("{width} wide, {depth} deep, {part} of the area"),
        takes,
    ];
    parts.extend(run);
    parts
}

fn edges(sheet: &Sheet<'_>, own: &Surface, figures: &SurfaceFigures) -> String {
    let system = sheet.system;
    let known = |metres: Option<f64>| {
        metres.map_or_else(|| UNKNOWN.to_owned(), |metres| run(metres, system))
    };
    let mut text = String::new();
    if let Some(building) = figures.building_m.filter(|building| *building > 0.0) {
        text += &labelled("at the building", &known(Some(building)));
    }
    for edging in &figures.edgings {
        let words = format!(
            "{} of {}",
            known(edging.length_m),
            sheet.marked(&edging.material)
        );
        text += &labelled("edging", &words);
    }
    if let Some(width) = &own.isolation_joint {
        let width = length(width.value.si(), system);
        let words = format!("{}, {width} wide", known(figures.isolation_joint_m));
        text += &labelled("isolation joint", &words);
    }
    if let Some(movement) = &figures.movement {
        text += &labelled("movement joints", &movement_words(movement, system));
    }
    text
}

fn movement_words(movement: &MovementFigures, system: System) -> String {
    let one_way = |count: f64, size: f64| {
        let panels = if count == 1.0 { "panel" } else { "panels" };
        format!(
            "{} {panels} of {}",
            show::number(count),
            length(size, system)
        )
    };
    format!(
        "{} along the longest edge, {} across",
        one_way(movement.panels_along, movement.along_m),
        one_way(movement.panels_across, movement.across_m)
    )
}

fn dig(sheet: &Sheet<'_>, figures: &SurfaceFigures) -> String {
    let Some(dig) = &figures.dig else {
        return match figures.dug {
            Some(_) => labelled("dig", UNKNOWN),
            None => String::new(),
        };
    };
    labelled_parts("dig", &dig_words(dig, sheet.system))
}

fn dig_words(dig: &DigFigures, system: System) -> [String; 3] {
    let loose = dig
        .loose_m3
        .map_or_else(|| UNKNOWN.to_owned(), |loose| volume(loose, system));
    let filled = match dig.fill_m3 > 0.0 {
        true => format!("fill {}", volume(dig.fill_m3, system)),
        false => "nothing to fill".to_owned(),
    };
    let (bank, over) = (volume(dig.bank_m3, system), area(dig.area_m2, system));
    [
        format!("{bank} as it lies in the ground, over {over}"),
        format!("{loose} loose to cart away"),
        filled,
    ]
}
