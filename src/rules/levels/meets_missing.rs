//! `meets-missing`: an edge called after the building that meets none.

use crate::findings::{Finding, Fix, Severity};
use crate::model::{Contact, Surface};
use crate::rules::{Check, Context, Family, Found, Rule};
use crate::sources::Source;
use crate::vocabulary::entry;

/// An edge called after the building that meets none.
pub(crate) static MEETS_MISSING: Rule = Rule {
    name: "meets-missing",
    family: Family::Levels,
    severity: Severity::Advisory,
    looks_at: "A surface that meets no building, though it has a door or a joint against it, or one of its edges is called house, wall, kitchen or the like.",
    reason: "Only where an edge meets the building do the rules look at the damp course, the fall away from it and the joint against it; else they are silent.",
    remedy: "Say which edge stands against the building, as in meets house; or give the edge another name.",
    limits: &[],
    sources: &[Source::computed("the names of the edges")],
    breaks: "\
shape court
  start        (0 m, 4 m)
  south        4 m
  east         6 m
  north        4 m
  close, named house
  # no rectangle

surface «court»
  # no meets
  level        -160 mm at house
  fall         1:50 away from house
",
    keeps: "\
shape court
  start        (0 m, 4 m)
  south        4 m
  east         6 m
  north        4 m
  close, named house
  # no rectangle

surface court
  meets        house
  level        -160 mm at house
  fall         1:50 away from house
",
    mended: Some(
        "\
shape court
  start        (0 m, 4 m)
  south        4 m
  east         6 m
  north        4 m
  close, named house
  # no rectangle

surface court
  meets        house
  shape        court
  level        -160 mm at house
  fall         1:50 away from house
",
    ),
    check: Check::SurfaceAndJob(check, at_none),
};

/// What people call an edge along the building by. A garden wall has a name
/// of more words.
const BUILDINGS: &[&str] = &[
    "house",
    "home",
    "building",
    "kitchen",
    "garage",
    "conservatory",
    "extension",
    "cottage",
    "bungalow",
    "porch",
    "lounge",
    "veranda",
    "verandah",
    "annexe",
    "annex",
];

/// What is planted at a house and called after it.
const PLANTED: &[&str] = &["garden", "lawn", "bed", "border", "planter", "hedge"];

fn check(context: &Context<'_>, surface: &Surface, found: &mut Found) {
    if surface.entry("meets").is_some() || context.is_misread(surface.section) {
        return;
    }
    let finding = at_building(surface).or_else(|| along_building(surface));
    found.findings.extend(finding);
}

/// A surface with an edge that is called after the building.
fn along_building(surface: &Surface) -> Option<Finding> {
    let alone = surface
        .sides
        .iter()
        .filter(|side| side.contact == Contact::Free);
    let mut names = alone.map(|side| surface.edge_name(side.edge));
    let name = names.find(|name| is_of_building(name))?;
    let message = format!(
        "does {name} stand against the building? Till you say so, the level, the fall and the joint there go unchecked"
    );
    let place = surface.name.place;
    let entry = format!("\n  {}", entry("meets", &name));
    let title = format!("Add `meets {name}`");
    let finding = MEETS_MISSING.finding(place, message);
    Some(finding.fix(Fix::judged(title, place.end(), entry)))
}

/// A surface of which something tells that it stands against the building, and
/// that says of no edge that it does.
fn at_building(surface: &Surface) -> Option<Finding> {
    let named = surface
        .entry("isolation-joint")
        .map(|place| (place, "a joint against the building"));
    let door = surface.entry("door").map(|place| (place, "a door"));
    let (place, what) = door.or(named)?;
    let borders_other = surface
        .sides
        .iter()
        .any(|side| matches!(side.contact, Contact::Surface(_)));
    if borders_other && door.is_none() {
        return None;
    }
    let message = format!(
        "{what} is stated here, and no edge of {} meets the building: say which does, as in meets north, or the level, the fall and the joint there go unchecked",
        surface.name.value
    );
    let finding = MEETS_MISSING.finding(place, message);
    // A pool has such a joint round it, too.
    Some(match door {
        Some(_) => finding.severity(Severity::Warning),
        None => finding,
    })
}

/// A job that gives levels of a building and says of no surface that it stands
/// there: told at its first surface with a level.
fn at_none(context: &Context<'_>, found: &mut Found) {
    let site = &context.job.site;
    let of_building = [
        &site.damp_course,
        &site.cladding,
        &site.vents,
        &site.weep_holes,
    ];
    let Some(stated) = of_building.into_iter().flatten().next() else {
        return;
    };
    let mut all = context.job.surfaces.iter();
    let Some(surface) = all.clone().find(|own| !own.levels.is_empty()) else {
        return;
    };
    let is_met = all.any(|own| !own.meets.is_empty() || own.entry("meets").is_some());
    let datum = site.datum.as_ref();
    let is_its = datum.is_some_and(|datum| datum.place == stated.place);
    let is_told = at_building(surface).is_some() || along_building(surface).is_some();
    if is_met || is_its || is_told || context.is_misread(surface.section) {
        return;
    }
    let message = "the building's levels are given, and no surface meets it: if one does, say so, as in meets north, or the level, the fall and the joint there go unchecked";
    let finding = MEETS_MISSING.finding(surface.name.place, message);
    found.add(finding.related(stated.place, "a level of the building"));
}

fn is_of_building(name: &str) -> bool {
    // `house-lawn` is a lawn.
    let last = name.rsplit('-').next().unwrap_or(name);
    let is_planted = PLANTED.contains(&last);
    name == "wall" || !is_planted && name.split('-').any(|part| BUILDINGS.contains(&part))
}
