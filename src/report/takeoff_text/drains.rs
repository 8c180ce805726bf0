//! A drain: where it runs, how deep it lies, what is dug and goes into it.

use super::sheet::Sheet;
use crate::model::{Drain, DrainBody, DrainKind};
use crate::quantities::{DrainDig, DrainFigures, FigureRef, Soaking, SoakingGap, StuffFigures};
use crate::report::trade::{UNKNOWN, area, length, mass, run, share, volume};
use crate::units::{System, show};
use crate::vocabulary::Term;

/// A drain, line by line.
pub(super) fn text(sheet: &Sheet<'_>, index: usize, own: &Drain, figures: &DrainFigures) -> String {
    let system = sheet.system;
    let mut text = format!("DRAIN {}\n", figures.name);
    let region = sheet.analysis.job.heading.region();
    let kind = own.kind().map_or("drain", |kind| kind.called_in(region));
    text += &sheet.labelled_parts(kind, &what(sheet, own, figures));
    text += &sheet.labelled_parts("invert", &inverts(own, figures, system));
    if own.kind() == Some(DrainKind::Pipe) {
        let over = match figures.cover_m() {
            Some(cover) if cover < 0.0 => {
                format!(
                    "none: it sticks out of the ground by {}",
                    length(-cover, system)
                )
            }
            cover => {
                let cover = known(cover, |cover| length(cover, system));
                format!("{cover} over the pipe where it is least")
            }
        };
        text += &sheet.labelled_parts("cover", &[over]);
    }
    if let Some(n) = &figures.roughness {
        let carries = known(figures.carries_m3s, |flow| show::flow(flow, system));
        let when = match own.kind() {
            Some(DrainKind::Channel) => "with the water up to its top",
            _ => "running full",
        };
        let n = format!("Manning's n {}", show::number(n.value));
        text += &sheet.labelled_parts("carries", &[format!("{carries} {when}"), n]);
    }
    text += &sheet.workings([FigureRef::DrainLevels(index)]);
    text += &comes(sheet, index, own, figures);
    text += &sheet.workings([FigureRef::DrainWater(index)]);
    if own.existing.is_some() {
        return text;
    }
    if figures.is_dug_with_pipe {
        let with = own.to.as_ref().map_or("its pipe", |to| to.value.shown());
        let words = format!("with {with}, up to its middle: how wide it is is not stated");
        text += &sheet.labelled_parts("dig", &[words]);
    }
    if figures.is_dug() {
        let dig = figures.dig.as_ref();
        let region = sheet.analysis.job.heading.region();
        let words = dig.map(|dig| dig_words(dig, system, Term::LooseSpoil.word(region)));
        text += &sheet.labelled_parts("dig", &words.unwrap_or_else(|| vec![UNKNOWN.to_owned()]));
    }
    for (label, stuff) in [
        ("laid in", &figures.bedding),
        ("filled with", &figures.fill),
    ] {
        if let Some(stuff) = stuff {
            text += &sheet.labelled_parts(label, &[stuff_words(sheet, stuff)]);
        }
    }
    if let Some(fabric) = &own.wrapped {
        let much = known(figures.fabric_m2, |fabric| area(fabric, system));
        let words = format!("{much} of {}", sheet.marked(fabric.value.name()));
        text += &sheet.labelled_parts("wrapped in", &[words]);
    }
    if own.filled.is_some() {
        let water = sheet.analysis.figures.water.as_ref();
        let water = water.and_then(|water| water.drains.get(index));
        let soaking = water.and_then(|water| water.soaking.as_ref());
        let need = soaking.and_then(|own| own.need_m3.or(own.at_least_m3));
        let holds = known(figures.storage_m3, |storage| {
            show::volume_beside(storage, need, system)
        });
        let voids = known(figures.voids.map(|voids| voids.value), share);
        let place = match own.kind() {
            Some(DrainKind::Trench) => "in the stone",
            _ => "below the inlet",
        };
        let words = [
            format!("{holds} of water {place}"),
            format!("voids {voids}"),
        ];
        text += &sheet.labelled_parts("holds", &words);
    }
    text + &sheet.workings([FigureRef::DrainWorks(index)])
}

/// What comes to it, and what a soakaway has to hold of that.
fn comes(sheet: &Sheet<'_>, index: usize, own: &Drain, figures: &DrainFigures) -> String {
    let (job, system) = (&sheet.analysis.job, sheet.system);
    let water = sheet.analysis.figures.water.as_ref();
    let Some(water) = water.and_then(|water| water.drains.get(index)) else {
        return String::new();
    };
    let mut parts: Vec<String> = water
        .inflows
        .iter()
        .map(|inflow| {
            let much = known(inflow.amount.area_m2, |much| area(much, system));
            format!("{much} from {}", inflow.from.described(job))
        })
        .collect();
    match (water.inflows.as_slice(), water.all.area_m2) {
        ([], Some(_)) => parts.push("nothing".to_owned()),
        ([], None) => parts.push(UNKNOWN.to_owned()),
        _ => {
            let weighted = known(water.all.weighted_m2, |much| area(much, system));
            parts.push(format!("{weighted} weighted by runoff"));
            let flow = known(water.flow, |flow| show::flow(flow, system));
            let of_it = water.flow.zip(figures.carries_m3s);
            let of_it = of_it.filter(|(_, carries)| *carries > 0.0);
            let of_it = of_it
                .map(|(flow, carries)| format!(", {} of what it carries", share(flow / carries)));
            parts.push(format!("{flow} at most{}", of_it.unwrap_or_default()));
        }
    }
    let label = if water.is_stated {
        "takes"
    } else {
        "comes to it"
    };
    let mut text = sheet.labelled_parts(label, &parts);
    if let Some(soaking) = &water.soaking {
        text += &sheet.labelled_parts(
            "has to hold",
            &has_to_hold(sheet, soaking, figures.storage_m3),
        );
    }
    if let Some(overflow) = &own.overflow {
        let to = format!("to {}", overflow.value.shown());
        text += &sheet.labelled_parts("when full", &[to]);
    }
    text
}

/// What a soakaway has to hold, in which storm, and when it is empty again.
fn has_to_hold(sheet: &Sheet<'_>, soaking: &Soaking, holds: Option<f64>) -> Vec<String> {
    let system = sheet.system;
    let storms = &sheet.analysis.job.site.storms;
    let storm = soaking.storm.and_then(|index| storms.get(index));
    let storm = storm.and_then(|storm| {
        let (deep, lasts) = (storm.depth_m()?, storm.duration_s()?);
        let deep = show::rain_depth(deep, system);
        Some(format!(" in the storm of {deep} in {}", show::time(lasts)))
    });
    let storm = storm.unwrap_or_default();
    let empty = if soaking.is_whole {
        "empty"
    } else {
        "half empty"
    };
    let mut parts = Vec::new();
    match (soaking.need_m3, soaking.at_least_m3) {
        _ if soaking.unknown == Some(SoakingGap::Overflow) => {
            parts.push("what overflows to it; how much that is, is not worked out".to_owned());
        }
        // Nothing is in no storm, and at no time half of it.
        (Some(need), _) if need <= 0.0 && soaking.storm.is_none() => {
            parts.push("nothing".to_owned());
        }
        (Some(need), _) => {
            let need = show::volume_beside(need, holds, system);
            parts.push(format!("{need} of water{storm}, the most of those stated"));
        }
        (None, Some(least)) => {
            let least = show::volume_beside(least, holds, system);
            parts.push(format!(
                "{UNKNOWN}; {least} of water or more{storm}, the longest stated"
            ));
        }
        (None, None) => parts.push(UNKNOWN.to_owned()),
    }
    if let Some(seconds) = soaking.empties_need_s {
        parts.push(format!("that is {empty} in {}", show::time(seconds)));
    }
    if let Some(seconds) = soaking.empties_built_s {
        parts.push(format!("as built {empty} in {}", show::time(seconds)));
    }
    parts
}

fn known(figure: Option<f64>, shown: impl FnOnce(f64) -> String) -> String {
    figure.map_or_else(|| UNKNOWN.to_owned(), shown)
}

/// What it is of and how long, and where it leads.
fn what(sheet: &Sheet<'_>, own: &Drain, figures: &DrainFigures) -> Vec<String> {
    let system = sheet.system;
    let mut parts = Vec::new();
    if own.existing.is_some() {
        parts.push("there already".to_owned());
    }
    let of = own.body.as_ref().and_then(|body| match &body.value {
        DrainBody::Channel { of, .. } | DrainBody::Gully { of: Some(of), .. } => Some(of),
        body => body.pipe().map(|pipe| &pipe.of),
    });
    let of = of.map(|of| sheet.marked(of.value.name()));
    let long = figures.length_m.map(|metres| run(metres, system));
    match (long, of) {
        (Some(long), Some(of)) => parts.push(format!("{long} of {of}")),
        (long, of) => parts.extend(long.into_iter().chain(of)),
    }
    if let (Some(bought), Some(long)) = (figures.bought_m, figures.length_m)
        && long - bought > 0.005
    {
        parts.push(format!("{} to the face of the pits", run(bought, system)));
    }
    if let Some(fall) = figures.fall {
        parts.push(format!("falls {}", show::slope(fall)));
    }
    match &own.to {
        Some(to) => parts.push(format!("to {}", to.value.shown())),
        None if own.kind() == Some(DrainKind::Soakaway) => parts.push("into the ground".to_owned()),
        None => {}
    }
    match parts.is_empty() {
        true => vec![UNKNOWN.to_owned()],
        false => parts,
    }
}

fn inverts(own: &Drain, figures: &DrainFigures, system: System) -> Vec<String> {
    let shown = |invert: Option<f64>| known(invert, |level| length(level, system));
    match own.kind().is_some_and(DrainKind::is_run) {
        true => vec![
            format!("{} at the head", shown(figures.head_m)),
            format!("{} at the outlet", shown(figures.outlet_m)),
        ],
        false => vec![shown(figures.head_m)],
    }
}

fn dig_words(dig: &DrainDig, system: System, loose_word: &str) -> Vec<String> {
    if dig.bank_m3 <= 0.0 {
        return vec![
            "nothing more: it lies within what is dug for the paving, or above the ground"
                .to_owned(),
        ];
    }
    let deep = length(dig.deepest_m, system);
    let size = match dig.width_m {
        Some(width) => format!("{} wide, {deep} deep at most", length(width, system)),
        None => format!("{deep} deep"),
    };
    let loose = known(dig.loose_m3, |loose| volume(loose, system));
    let mut words = vec![
        size,
        format!("{} as it lies in the ground", volume(dig.bank_m3, system)),
    ];
    if dig.filled_in_m3 > 0.0 {
        let again = volume(dig.filled_in_m3, system);
        words.push(format!("{again} of it filled in again"));
    }
    words.push(format!("{loose} {loose_word}"));
    words
}

fn stuff_words(sheet: &Sheet<'_>, stuff: &StuffFigures) -> String {
    let much = known(stuff.volume_m3, |much| volume(much, sheet.system));
    let mass = stuff
        .mass_kg
        .map(|own| format!(", {}", mass(own, sheet.system)));
    format!(
        "{much} of {}{}",
        sheet.marked(&stuff.material),
        mass.unwrap_or_default()
    )
}
