//! What is to be built, in words.

use super::{plain, said};
use crate::analysis::Analysis;
use crate::drawing::Block;
use crate::model::{Drain, DrainBody, Layer, Outlet, Pattern, Pit, Region, Stated, Steps, Surface};
use crate::quantities::{DrainFigures, Flight, StepsFigures, SurfaceFigures};
use crate::report::trade::{UNKNOWN, area, length};
use crate::report::words::{counted, listed};
use crate::text::capital;
use crate::units::{Quantity, System, show};
use crate::vocabulary::{Handrail, compass_word};

/// Every surface in a few sentences, and the notes of the job.
pub(crate) fn what_is_built(analysis: &Analysis) -> Vec<Block> {
    let system = analysis.job.heading.system();
    let surfaces = analysis.job.surfaces.iter();
    let surfaces = surfaces.zip(analysis.figures.surfaces.iter());
    let mut blocks = vec![Block::Heading("What is to be built".to_owned())];
    for (own, figures) in surfaces {
        blocks.push(Block::Subheading(capital(&plain(&own.name.value))));
        blocks.push(Block::Text(sentences(own, figures, system)));
        blocks.extend(own.notes.iter().map(noted));
    }
    for (own, figures) in analysis.job.steps.iter().zip(analysis.figures.steps.iter()) {
        blocks.push(Block::Subheading(capital(&plain(&own.name.value))));
        blocks.push(Block::Text(flight(own, figures, system)));
        blocks.extend(own.notes.iter().map(noted));
    }
    let drains = analysis.job.drains.iter();
    let drains = drains.zip(analysis.figures.drains.iter());
    let region = analysis.job.heading.region();
    let drains: Vec<String> = drains
        .map(|(own, figures)| run(own, figures, system, region))
        .collect();
    if !drains.is_empty() {
        blocks.push(Block::Subheading("Drains".to_owned()));
        blocks.push(Block::List(drains));
    }
    if analysis.job.surfaces.is_empty() {
        blocks.push(Block::Text("Nothing yet: no surface is stated.".to_owned()));
    }
    blocks.extend(analysis.job.heading.notes.iter().map(noted));
    blocks
}

/// A note of the text, as a sentence of its own.
pub(crate) fn noted(note: &Stated<String>) -> Block {
    let words = capital(&said(&note.value));
    Block::Text(match words.ends_with(['.', '?', '!']) {
        true => format!("Note: {words}"),
        false => format!("Note: {words}."),
    })
}

fn sentences(own: &Surface, figures: &SurfaceFigures, system: System) -> String {
    let size = figures.area_m2.map(|metres| area(metres, system));
    let size = size.unwrap_or_else(|| format!("{UNKNOWN} (its area is not known)"));
    let size = match &figures.repeat {
        Some(repeat) => {
            let each = area(repeat.each_m2, system);
            format!("{size} ({} of {each})", repeat.count)
        }
        None => size,
    };
    let layers = own.build.iter().flat_map(|build| &build.value.layers);
    let layers: Vec<String> = layers.map(|layer| course(layer, system)).collect();
    let mut said_of = match layers.split_first() {
        Some((top, [])) => format!("{size} of {top}."),
        Some((top, rest)) => format!("{size} of {top}, on {}.", listed(rest)),
        None => format!("{size}; what it is built of is not stated."),
    };
    if let Some(laid) = &own.laid {
        let laid_so = match laid.pattern.value {
            Pattern::Irregular => "irregularly".to_owned(),
            Pattern::Ashlar => "as ashlar".to_owned(),
            pattern => format!("in {}", pattern.word().replace('-', " ")),
        };
        let joint = own.joint.as_ref().map(|joint| {
            let filled = joint.filling.as_ref();
            let filled = filled.map(|own| format!(" filled with {}", plain(own.value.name())));
            let width = length(joint.width.value.si(), system);
            format!(", joints {width} wide{}", filled.unwrap_or_default())
        });
        said_of += &format!(" Laid {laid_so}{}.", joint.unwrap_or_default());
    }
    let way = own.fall.as_ref().and_then(|fall| fall.away_from.as_ref());
    let way = way.map_or(String::new(), |(edge, _)| {
        let is_wind = (0..8).any(|eighth| compass_word(45.0 * f64::from(eighth)) == *edge);
        let side = if is_wind { " side" } else { "" };
        format!(" away from the {}{side}", plain(edge))
    });
    match figures.fall {
        Some(0.0) => said_of += " It is level.",
        Some(fall) if !own.facets.is_empty() => {
            said_of += &format!(
                " It falls to its drain from all sides, {} at least.",
                show::slope(fall)
            );
        }
        Some(fall) => said_of += &format!(" It falls {}{way}.", show::slope(fall)),
        None => said_of += " Its fall is not known.",
    }
    said_of += &edges(own, system);
    said_of += handrail(own.handrail.as_ref());
    if let Some(water) = &own.water {
        said_of += &format!(" The water goes to {}.", outlet(&water.value));
    }
    said_of
}

/// What runs along its edges and parts it: borders, edgings, joints.
fn edges(own: &Surface, system: System) -> String {
    let named = |names: Vec<&str>| {
        let mut all: Vec<String> = Vec::new();
        for name in names {
            let name = plain(name);
            if !all.contains(&name) {
                all.push(name);
            }
        }
        listed(&all)
    };
    let borders = own
        .borders
        .iter()
        .map(|border| border.material.value.name());
    let edgings = own
        .edgings
        .iter()
        .map(|edging| edging.material.value.name());
    let mut said_of = String::new();
    for (what, names) in [
        ("Bordered with", borders.collect::<Vec<_>>()),
        ("Edged with", edgings.collect()),
    ] {
        if !names.is_empty() {
            said_of += &format!(" {what} {}.", named(names));
        }
    }
    if let Some(joint) = &own.isolation_joint {
        let wide = length(joint.value.si(), system);
        said_of += &format!(" A joint {wide} wide parts it from the building.");
    }
    if let Some(joints) = &own.movement_joints {
        let apart = length(joints.value.si(), system);
        said_of += &format!(" Movement joints every {apart} at most.");
    }
    said_of
}

/// Where water goes: a drain by its name, what is quoted as it is written.
fn outlet(to: &Outlet) -> String {
    match to {
        Outlet::Drain(name) => plain(name),
        Outlet::Text(text) => said(text),
    }
}

/// A flight of steps: how it climbs, and what it is made of.
fn flight(own: &Steps, figures: &StepsFigures, system: System) -> String {
    let climbs = match &figures.flight {
        Some(flight) => format!(
            "{} of {}{}, {} in all; {} wide.",
            counted(flight.risers as usize, "riser", "risers"),
            length(flight.riser_m, system),
            odd_riser(flight, system),
            length(flight.rise_m, system),
            length(flight.width_m, system)
        ),
        None => format!("{UNKNOWN} How it climbs is not known."),
    };
    let made: Vec<String> = figures
        .parts()
        .map(|(word, part)| format!("{word} of {}", plain(&part.material)))
        .collect();
    let made = match made.is_empty() {
        true => String::new(),
        false => format!(" {}.", capital(&listed(&made))),
    };
    format!("{climbs}{made}{}", handrail(own.handrail.as_ref()))
}

/// The lowest riser where it is another than the rest; nothing where it is not.
fn odd_riser(flight: &Flight, system: System) -> String {
    let lowest = flight.odd_lowest_m(system);
    lowest.map_or_else(String::new, |lowest| {
        format!(", the lowest {}", length(lowest, system))
    })
}

/// On which sides there is a handrail, as a sentence; nothing where there is
/// none.
fn handrail(stated: Option<&Stated<Handrail>>) -> &'static str {
    match stated.map(|stated| stated.value) {
        Some(Handrail::Both) => " A handrail on both sides.",
        Some(Handrail::One) => " A handrail on one side.",
        Some(Handrail::Left) => " A handrail on the left as one goes up.",
        Some(Handrail::Right) => " A handrail on the right as one goes up.",
        None => "",
    }
}

/// A drain: what it is, how long, how it falls, and where its water goes.
fn run(own: &Drain, figures: &DrainFigures, system: System, region: Region) -> String {
    let kind = own.kind().map_or(UNKNOWN, |kind| kind.called_in(region));
    let existing = if figures.is_existing { "existing " } else { "" };
    let size = own
        .body
        .as_ref()
        .and_then(|body| sizes(&body.value, system));
    let long = figures.length_m;
    let long = long.map(|metres| format!(", {} long", length(metres, system)));
    let fall = figures.fall.filter(|fall| *fall > 0.0);
    let fall = fall.map(|fall| format!(", falls {}", show::slope(fall)));
    let to = own.to.as_ref();
    let to = to.map(|to| format!(", to {}", outlet(&to.value)));
    let parts = [size, long, fall, to].into_iter().flatten();
    let parts: String = parts.collect();
    let name = capital(&plain(&own.name.value));
    format!("{name}: {existing}{kind}{parts}.")
}

/// The sizes of a drain, after what it is: ` 110 mm`, ` 200 mm wide and 350 mm
/// deep with a pipe of 100 mm`.
fn sizes(body: &DrainBody, system: System) -> Option<String> {
    let shown = |size: &Stated<Quantity>| length(size.value.si(), system);
    let si = |size: &Stated<Quantity>| size.value.si();
    let both = |one: &Stated<Quantity>, other: &Stated<Quantity>| {
        show::sides([si(one), si(other)], system)
    };
    match body {
        DrainBody::Channel { clear, .. } => {
            let (wide, deep) = clear.as_ref()?;
            let [wide, deep] = both(wide, deep);
            Some(format!(" {wide} wide and {deep} deep inside"))
        }
        DrainBody::Gully { wide, .. } => Some(format!(" {} wide", shown(wide.as_ref()?))),
        DrainBody::Pipe(pipe) => Some(format!(" {}", shown(pipe.size.as_ref()?))),
        DrainBody::Trench { wide, deep, pipe } => {
            let pipe = pipe.as_ref().and_then(|pipe| pipe.size.as_ref());
            let pipe = pipe.map(|size| format!(" with a pipe of {}", shown(size)));
            let pipe = pipe.unwrap_or_default();
            Some(match deep {
                Some(deep) => {
                    let [wide, deep] = both(wide, deep);
                    format!(" {wide} wide and {deep} deep{pipe}")
                }
                None => format!(" {} wide{pipe}", shown(wide)),
            })
        }
        DrainBody::Soakaway { pit, deep, .. } => Some(match (pit, deep) {
            (Pit::Box(wide, long), Some(deep)) => {
                let sides = both(wide, long).join(" by ");
                format!(" {sides} and {} deep", shown(deep))
            }
            (Pit::Box(wide, long), None) => format!(" {}", both(wide, long).join(" by ")),
            (Pit::Round(across), Some(deep)) => {
                let [across, deep] = both(across, deep);
                format!(" {across} across and {deep} deep")
            }
            (Pit::Round(across), None) => format!(" {} across", shown(across)),
        }),
    }
}

/// A layer: `crushed stone (base, 150 mm thick)`.
fn course(layer: &Layer, system: System) -> String {
    let of = plain(layer.of.value.name());
    let role = layer.role.value;
    let existing = if layer.existing.is_some() {
        "existing "
    } else {
        ""
    };
    let thick = layer.thickness.as_ref();
    match thick.filter(|_| !role.is_sheet()) {
        Some(thick) => {
            let thick = length(thick.value.si(), system);
            format!("{existing}{of} ({}, {thick} thick)", role.word())
        }
        None => format!("{existing}{of} ({})", role.word()),
    }
}
