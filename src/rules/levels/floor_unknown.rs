//! `floor-unknown`: a building whose floor and damp course nothing gives.

use crate::findings::Severity;
use crate::model::{Region, Stated};
use crate::rules::{Check, Context, Family, Found, Rule, slope};
use crate::sources::Source;
use crate::units::Quantity;

/// A building whose floor and damp course nothing gives.
pub(crate) static FLOOR_UNKNOWN: Rule = Rule {
    name: "floor-unknown",
    family: Family::Levels,
    severity: Severity::Warning,
    looks_at: "A surface with a level that meets a building, where the site gives neither floor nor damp course and the datum is called after neither; where it gives another level of the building, only if a door is stated.",
    reason: "How far the paving must lie below the floor and the damp course is not judged until one of them is known.",
    remedy: "State floor or damp-course in the site; where level 0 is the floor, floor 0.",
    limits: &[],
    sources: &[Source::computed("the entries of the site")],
    breaks: "\
site
  datum        «\"cover in the lane\"»
",
    keeps: "\
site
  datum        \"cover in the lane\"
  floor        0
",
    mended: None,
    check: Check::Job(check),
};

fn check(context: &Context<'_>, found: &mut Found) {
    let site = &context.job.site;
    let any = |levels: &[&Option<Stated<Quantity>>]| levels.iter().any(|own| own.is_some());
    // Those others are for the damp: the step at a door is judged by none.
    let others = any(&[&site.foundation, &site.weep_holes, &site.vents]);
    let mut doors = context.job.surfaces.iter().flat_map(|own| &own.doors);
    let door = doors.next().filter(|_| others);
    let is_known = any(&[&site.floor, &site.damp_course]) || (others && door.is_none());
    let Some(datum) = site.datum.as_ref().filter(|_| !is_known) else {
        return;
    };
    if context.is_misread_at(site.place) {
        return;
    }
    let surfaces = context.job.surfaces.iter();
    let mut at_building = surfaces
        .filter(|own| !own.levels.is_empty())
        .filter_map(|own| Some((own, slope::building_edges(own).next()?)));
    let Some((surface, edge)) = at_building.next() else {
        return;
    };
    let edge = surface.edge_name(edge.tag);
    let message = match context.region() {
        _ if door.is_some() => {
            "nothing says where the floor is, so the step down from the door cannot be judged. State floor; if level 0 is the floor, write floor 0".to_owned()
        }
        Region::Us => format!(
            "nothing says where the floor is, so the level at {edge} cannot be judged. State floor; if level 0 is the floor, write floor 0"
        ),
        _ => format!(
            "nothing says where the floor or the damp course is, so the level at {edge} cannot be judged. State floor or damp-course; if level 0 is the floor, write floor 0"
        ),
    };
    found.add(
        FLOOR_UNKNOWN
            .finding(datum.place, message)
            .related(surface.name.place, "this meets the building"),
    );
}
