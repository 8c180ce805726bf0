//! A surface: its levels, its layers, its joints and edges, its dig.

use super::layers::layers;
use super::levels::levels;
use super::sheet::Sheet;
use crate::geometry::Outline;
use crate::model::Surface;
use crate::quantities::{
    BREAKAGE, BorderFigures, DigFigures, FigureRef, FootingFigures, JointFigures, LayerFigures,
    MovementFigures, SurfaceFigures, told_together, whole_units,
};
use crate::report::bearing::along;
use crate::report::trade::{UNKNOWN, area, length, mass, run, share, size, volume};
use crate::report::words::{counted, listed};
use crate::sources::Region;
use crate::units::{System, show};
use crate::vocabulary::{Role, Term};

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
    let of_units = [
        FigureRef::Layout(index),
        FigureRef::Joints(index),
        FigureRef::Edges(index),
    ];
    let after = FigureRef::borders(index, figures)
        .chain(of_units)
        .chain(FigureRef::footings(index, figures))
        .chain([FigureRef::Dig(index)]);
    [
        head,
        levels(sheet, own, figures),
        sheet.workings(figures.repeat.map(|_| FigureRef::Repeat(index))),
        water(sheet, index, own),
        sheet.workings([FigureRef::Levels(index), FigureRef::Water(index)]),
        layers(sheet, own, figures),
        sheet.workings((0..figures.layers.len()).map(of_layer)),
        after_a_blank_line([
            pieces(sheet, figures),
            waste(sheet, figures),
            borders(sheet, own, figures),
            layout(sheet, figures),
            joints(sheet, own, figures),
            edges(sheet, own, figures),
            dig(sheet, figures),
        ]),
        sheet.workings(after),
    ]
    .concat()
}

/// Where its water goes: an edge after the other.
fn water(sheet: &Sheet<'_>, index: usize, own: &Surface) -> String {
    let figures = sheet.analysis.figures.water.as_ref();
    let figures = figures.filter(|_| !own.is_border());
    let Some(water) = figures.and_then(|water| water.surfaces.get(index)) else {
        return String::new();
    };
    let Some(ways) = &water.ways else {
        return sheet.labelled("water", UNKNOWN);
    };
    let job = &sheet.analysis.job;
    let ways = told_together(ways, job, own);
    let reported = ways.into_iter().map(|(words, way)| {
        let (part, own_area) = (share(way.share), area(way.area_m2, sheet.system));
        let flow = way.flow_told(job).map(|flow| format!(" ({flow})"));
        format!("{own_area}, {part}, {words}{}", flow.unwrap_or_default())
    });
    let runoff = water
        .runoff
        .as_ref()
        .map_or_else(|| UNKNOWN.to_owned(), |runoff| show::share(runoff.value));
    let reported: Vec<String> = reported
        .chain([format!("{runoff} of the rain runs off")])
        .collect();
    sheet.labelled_parts("water", &reported)
}

/// The lines together, parted from what stands above; empty if they are.
fn after_a_blank_line(lines: [String; 7]) -> String {
    let lines = lines.concat();
    match lines.is_empty() {
        true => lines,
        false => format!("\n{lines}"),
    }
}

/// How many pieces the paving takes, and how many with its waste; where they
/// are laid out the lay-out tells that.
fn pieces(sheet: &Sheet<'_>, figures: &SurfaceFigures) -> String {
    if figures.layout.is_some() {
        return String::new();
    }
    let of_layer = |layer: &LayerFigures| {
        let (count, of) = (whole_units(layer.units?), &layer.material);
        let ordered = layer.units_with_waste().filter(|ordered| *ordered > count);
        let ordered = ordered.map(|ordered| format!(", {} with waste", show::number(ordered)));
        let words = format!(
            "{} of {of}{}",
            show::number(count),
            ordered.unwrap_or_default()
        );
        let sizes: Vec<String> = layer
            .sizes
            .iter()
            .map(|own| {
                let count = show::number(whole_units(own.units));
                format!("{count} of {}", size(own, sheet.system))
            })
            .collect();
        let sizes = match sizes.is_empty() {
            true => String::new(),
            false => sheet.labelled_parts("of each size", &sizes),
        };
        Some(sheet.labelled("pieces", &words) + &sizes)
    };
    let new = figures.layers.iter().filter(|layer| !layer.is_existing);
    new.filter_map(of_layer).collect()
}

/// What is ordered over what lies in place, of what says so.
fn waste(sheet: &Sheet<'_>, figures: &SurfaceFigures) -> String {
    let of_layer = |layer: &LayerFigures| Some((layer.role.word(), layer.waste.as_ref()?.value));
    let layers = figures
        .layers
        .iter()
        .filter(|layer| !layer.is_existing)
        .filter_map(of_layer);
    let joints = figures.joints.as_ref();
    let joints = joints.and_then(|joints| Some(("joints", joints.waste.as_ref()?.value)));
    let borders = figures
        .borders
        .iter()
        .filter_map(|border| Some((border.material.as_str(), border.waste.as_ref()?.value)));
    let borders = borders.map(|(of, part)| (format!("border of {}", sheet.marked(of)), part));
    let edgings = figures
        .edgings
        .iter()
        .filter_map(|edging| Some((edging.material.as_str(), edging.waste.as_ref()?.value)));
    let edgings = edgings.map(|(of, part)| (format!("edging of {}", sheet.marked(of)), part));
    let said: Vec<String> = layers
        .chain(joints)
        .map(|(of, part)| (of.to_owned(), part))
        .chain(borders)
        .chain(edgings)
        .map(|(of, part)| format!("{} on the {of}", show::share(part)))
        .collect();
    match said.is_empty() {
        true => String::new(),
        false => sheet.labelled("waste to order", &listed(&said)),
    }
}

/// The borders, the outermost first, and what they leave.
fn borders(sheet: &Sheet<'_>, own: &Surface, figures: &SurfaceFigures) -> String {
    let system = sheet.system;
    let mut text = String::new();
    for border in &figures.borders {
        text += &sheet.labelled_parts("border", &border_words(sheet, border));
    }
    if let Some(fields) = own.fields().filter(|_| !figures.borders.is_empty()) {
        let (pieces, one) = (fields.concat(), fields.len() == 1 && own.count() > 1.0);
        let left = area(pieces.iter().map(Outline::area).sum(), system);
        let each = if one { " each" } else { "" };
        let words = match pieces.len() {
            1 => format!("{left}{each}"),
            count => format!("{left}{each} in {count} pieces"),
        };
        text += &sheet.labelled("field", &words);
    }
    text
}

fn border_words(sheet: &Sheet<'_>, border: &BorderFigures) -> Vec<String> {
    let system = sheet.system;
    let known = |value: Option<String>| value.unwrap_or_else(|| UNKNOWN.to_owned());
    let courses = match border.courses {
        1 => String::new(),
        count => format!("{count} courses, "),
    };
    let way = if border.is_soldier {
        "soldiers"
    } else {
        "stretchers"
    };
    let units = border.units.map(|units| show::number(whole_units(units)));
    let mut parts = vec![
        format!(
            "{courses}{} {way} of {} along {}",
            known(units),
            sheet.marked(&border.material),
            known(border.length_m.map(|length| run(length, system))),
        ),
        format!(
            "{} wide, {}",
            known(border.width_m.map(|width| length(width, system))),
            known(border.area_m2.map(|own| area(own, system))),
        ),
    ];
    parts.extend(border.mass_kg.map(|kilograms| mass(kilograms, system)));
    parts.extend(border.mitres.map(|mitres| match mitres.corners {
        0 => "no corner of straight edges to mitre".to_owned(),
        corners => format!(
            "{}, {} of cuts",
            counted(corners, "corner mitred", "corners mitred"),
            run(mitres.cut_m, system)
        ),
    }));
    parts.extend(border.taper.map(|taper| {
        let (tight, wide) = (length(taper.tight_m, system), length(taper.wide_m, system));
        format!("joints {tight} to {wide} on the curve")
    }));
    parts
}

/// How many units lie whole and how many are cut, and what to buy for them.
fn layout(sheet: &Sheet<'_>, figures: &SurfaceFigures) -> String {
    let Some(layout) = &figures.layout else {
        return String::new();
    };
    let paving = figures.layer(Role::Paving);
    let written = paving.and_then(|paving| paving.waste.as_ref()?.origin.place());
    let number = |count: usize| show::number(count as f64);
    let whole = number(layout.whole);
    let mut parts = vec![match layout.cut {
        0 if layout.over_valleys > 0 => format!("{whole} units whole, none cut at edges"),
        0 => format!("{whole} units whole, none cut"),
        cut => format!(
            "{whole} units whole, {} cut, from {}",
            number(cut),
            number(layout.cut_from)
        ),
    }];
    parts.extend(match layout.over_valleys {
        0 => None,
        count => Some(format!("{} cut along the valleys", number(count))),
    });
    let stock = number(layout.stock());
    parts.push(match written {
        Some(_) => format!("{stock} to buy, if none breaks"),
        None => format!("{stock} to buy, and {} for breakage", show::share(BREAKAGE)),
    });
    if layout.all_cut() > 0 {
        parts.push(format!("{} of cuts", run(layout.cut_m, sheet.system)));
    }
    if let Some(least) = &layout.least {
        parts.push(format!(
            "smallest piece{} {}, {} of a unit",
            if layout.over_valleys > 0 {
                " at the edges"
            } else {
                ""
            },
            show::sides([least.length_m, least.width_m], sheet.system).join(" by "),
            share(least.share),
        ));
    }
    sheet.labelled_parts("lay-out", &parts)
}

fn joints(sheet: &Sheet<'_>, own: &Surface, figures: &SurfaceFigures) -> String {
    match (&figures.joints, &own.joint) {
        (Some(joints), Some(joint)) => {
            let width = length(joint.width.value.si(), sheet.system);
            sheet.labelled_parts("joints", &joint_words(sheet, joints, &width))
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
        text += &sheet.labelled("at the building", &known(Some(building)));
    }
    for edging in &figures.edgings {
        let words = format!(
            "{} of {}",
            known(edging.length_m),
            sheet.marked(&edging.material)
        );
        text += &sheet.labelled("edging", &words);
        if let Some(footing) = &edging.footing {
            text += &sheet.labelled_parts("under the edging", &footing_words(sheet, footing));
        }
    }
    if let Some(width) = &own.isolation_joint {
        let width = length(width.value.si(), system);
        let words = format!("{}, {width} wide", known(figures.isolation_joint_m));
        text += &sheet.labelled("isolation joint", &words);
    }
    if let Some(movement) = &figures.movement {
        text += &sheet.labelled("movement joints", &movement_words(movement, system));
    }
    text
}

/// What an edging stands in, and what is dug for it.
fn footing_words(sheet: &Sheet<'_>, footing: &FootingFigures) -> Vec<String> {
    let system = sheet.system;
    let known = |value: Option<f64>| {
        value.map_or_else(|| UNKNOWN.to_owned(), |value| volume(value, system))
    };
    let of = sheet.marked(&footing.material);
    let mut parts = vec![format!("{} of {of}", known(footing.volume_m3))];
    if footing.haunch_m3.is_some_and(|haunch| haunch > 0.0) {
        let (bed, haunch) = (known(footing.bed_m3), known(footing.haunch_m3));
        parts.push(format!("bed {bed}, haunch {haunch}"));
    }
    let loose = Term::LooseSpoil.word(sheet.analysis.job.heading.region());
    parts.push(format!("dig {} beside the base", known(footing.bank_m3)));
    parts.push(format!("{} {loose}", known(footing.loose_m3)));
    parts
}

fn movement_words(movement: &MovementFigures, system: System) -> String {
    let one_way = |count: f64, size: f64| {
        let panels = if count == 1.0 { "panel" } else { "panels" };
        let (count, size) = (show::number(count), length(size, system));
        format!("{count} {panels} of {size}")
    };
    format!(
        "{} {}, {} {}",
        one_way(movement.panels_along, movement.along_m),
        along(movement.along),
        one_way(movement.panels_across, movement.across_m),
        along(movement.along.left()),
    )
}

fn dig(sheet: &Sheet<'_>, figures: &SurfaceFigures) -> String {
    let Some(dig) = &figures.dig else {
        return match figures.dug {
            Some(_) => sheet.labelled("dig", UNKNOWN),
            None => String::new(),
        };
    };
    // What is laid over what lies there is not dug for.
    if dig.bank_m3 == 0.0 && dig.fill_m3 == 0.0 {
        return String::new();
    }
    sheet.labelled_parts(
        "dig",
        &dig_words(dig, sheet.system, sheet.analysis.job.heading.region()),
    )
}

pub(super) fn dig_words(dig: &DigFigures, system: System, region: Region) -> Vec<String> {
    let loose = dig
        .loose_m3
        .map_or_else(|| UNKNOWN.to_owned(), |loose| volume(loose, system));
    let filled = match dig.fill_m3 > 0.0 {
        true => format!("fill {}", volume(dig.fill_m3, system)),
        false => "nothing to fill".to_owned(),
    };
    if dig.bank_m3 == 0.0 {
        return vec!["nothing".to_owned(), filled];
    }
    let (bank, over) = (volume(dig.bank_m3, system), area(dig.area_m2, system));
    vec![
        format!("{bank} as it lies in the ground, over {over}"),
        format!("{loose} {}", Term::LooseSpoil.word(region)),
        filled,
    ]
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn where_nothing_is_dug_no_volume_is_told() {
        let raised = DigFigures {
            bank_m3: 0.0,
            loose_m3: Some(0.0),
            fill_m3: 2.5,
            area_m2: 24.0,
            depth_m: 0.3,
            deepest_m: 0.0,
        };
        let words = |dig| dig_words(&dig, System::Metric, Region::Uk).join("; ");
        assert_eq!(words(raised), "nothing; fill 2.50 m³");
        let dug = DigFigures {
            bank_m3: 1.0,
            ..raised
        };
        assert!(words(dug).starts_with("1.00 m³ as it lies"));
    }
}
