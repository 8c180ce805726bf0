//! Why figures of the setting out are not known, and what was assumed.

use std::collections::BTreeSet;

use crate::analysis::Analysis;
use crate::model::{Origin, Surface};
use crate::quantities::{
    DrivenInto, SettingOutFigures, SurfaceSettingOut, board_length, no_levels, unplaced,
};
use crate::report::words::listed;

use super::words::tape;

/// Every reason why a figure is not known, with the figures that it keeps from
/// being known.
pub(in crate::report) fn unknown(analysis: &Analysis, found: &SettingOutFigures) -> Vec<String> {
    let job = &analysis.job;
    let mut reasons = Vec::new();
    if job.surfaces.is_empty() {
        reasons.push("no surface is stated: there is nothing to set out".to_owned());
        return reasons;
    }
    if found.marks.is_none() {
        let is_unread = is_unread(analysis, "from");
        reasons.push(match is_unread {
            true => "the line `from` could not be made out: tapes".to_owned(),
            false => "no surface meets the building and no marks are stated: tapes".to_owned(),
        });
    }
    let on = found.surfaces.iter().flat_map(|own| &own.pegs);
    let dug = on.filter(|on| matches!(on.driven_into, DrivenInto::Dig(_)));
    let dug: BTreeSet<u32> = dug.map(|on| on.peg).collect();
    if !dug.is_empty() {
        let numbers: Vec<String> = dug.iter().map(u32::to_string).collect();
        let numbers: Vec<&str> = numbers.iter().map(String::as_str).collect();
        let (pegs, they) = match numbers.as_slice() {
            [_] => ("peg", "it"),
            _ => ("pegs", "them"),
        };
        reasons.push(format!(
            "no ground in reach of a string is clear of every dig: a clear place for {pegs} {}; \
             take {they} over to a wall or a profile board before it is dug there",
            listed(&numbers),
        ));
    }
    if !found.cramped.is_empty() {
        let names = found.cramped.iter();
        let names: Vec<String> = names
            .map(|(surface, edge)| format!("{edge} in {surface}"))
            .collect();
        let names: Vec<&str> = names.iter().map(String::as_str).collect();
        reasons.push(format!(
            "the hole is too narrow for a peg to stand clear of the dig: clear pegs of {}",
            listed(&names),
        ));
    }
    let unplaced = unplaced(job, &found.spots);
    if !unplaced.is_empty() {
        let names = listed(&unplaced);
        reasons.push(format!(
            "where it lies could not be made out: points of {names}"
        ));
    }
    let pairs = || job.surfaces.iter().zip(&found.surfaces);
    let mut add = |why: &str, what: &str, is: &dyn Fn(&Surface, &SurfaceSettingOut) -> bool| {
        let named = pairs().filter(|(own, figures)| is(own, figures));
        let names: Vec<&str> = named.map(|(own, _)| own.name.value.as_str()).collect();
        if !names.is_empty() {
            reasons.push(format!("{why}: {what} {}", listed(&names)));
        }
    };
    add("no sound outline", "pegs of", &|_, figures| {
        figures.pegs.is_empty()
    });
    let lacking = |own: &Surface, figures: &SurfaceSettingOut| {
        (!own.has_levels() && !figures.pegs.is_empty()).then(|| no_levels(own))
    };
    let whys: BTreeSet<&str> = pairs()
        .filter_map(|(own, figures)| lacking(own, figures))
        .collect();
    for why in whys {
        add(why, "levels and board marks of", &|own, figures| {
            lacking(own, figures) == Some(why)
        });
    }
    add(
        "no build is stated",
        "layers below the string of",
        &|own, _| own.build.is_none(),
    );
    let lacks = |figures: &SurfaceSettingOut| figures.rod.iter().any(|mark| mark.below_m.is_none());
    let (string, board) = (is_unread(analysis, "string"), is_unread(analysis, "board"));
    add(
        match string {
            true => "the line `string` could not be made out",
            false => "the thickness of a layer is not known",
        },
        "depths below the string of",
        &|_, figures| lacks(figures),
    );
    add(
        "the line `board` could not be made out",
        "board marks of",
        &|own, _| board && own.has_levels(),
    );
    reasons
}

fn is_unread(analysis: &Analysis, key: &str) -> bool {
    let setting_out = analysis.job.setting_out.as_ref();
    setting_out.is_some_and(|own| own.is_unread(key))
}

/// What was taken where nothing is stated.
pub(super) fn assumed(analysis: &Analysis, found: &SettingOutFigures) -> Vec<String> {
    let job = &analysis.job;
    let system = job.heading.system();
    let mut assumed = Vec::new();
    if found.marks.is_some_and(|marks| marks.place.is_none()) {
        let why = "marks A and B at the ends of the building edge, as none are stated";
        assumed.push(why.to_owned());
    }
    let setting_out = job.setting_out.as_ref();
    let has = |key: &str, is_stated: bool| is_stated || is_unread(analysis, key);
    let is_clear = setting_out.is_some_and(|own| own.clear.is_some());
    if !found.pegs.is_empty() && !has("clear", is_clear) {
        let why = "pegs on the spot, which go when it is dug, as no way `clear` of the dig is \
            stated";
        assumed.push(why.to_owned());
    }
    if !has(
        "string",
        setting_out.is_some_and(|own| own.string.is_some()),
    ) {
        assumed.push("strings at the finished surface, as no height is stated".to_owned());
    }
    if let Some(board) = board_length(job)
        && let Origin::Default { source, .. } = board.origin
    {
        let length = tape(board.value, system);
        assumed.push(format!("a board of {length}, as none is stated ({source})"));
    }
    let drains = analysis.figures.drains.iter().zip(job.drains.iter());
    let drains = drains.filter(|(figures, own)| figures.is_way_assumed && own.fall.is_some());
    assumed.extend(drains.map(|(figures, _)| {
        format!(
            "{} falls in the order in which its edges are written, as nothing says to which end",
            figures.name
        )
    }));
    assumed
}
