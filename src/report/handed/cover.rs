//! The cover: the plan, and the two or three facts that its reader looks for
//! first.

use super::{Reader, plain, said, schedule};
use crate::analysis::Analysis;
use crate::drawing::{Block, Choice, Fact, plan};
use crate::quantities::CostHeading;
use crate::report::trade::{UNKNOWN, area};
use crate::report::words::{counted, listed};
use crate::text::capital;

/// How wide and how high the plan may be, in millimetres.
const ROOM: (f64, f64) = (172.0, 132.0);

/// The cover under the title.
pub(crate) fn blocks(analysis: &Analysis, reader: Reader) -> Vec<Block> {
    let choice = Choice {
        room: Some(ROOM),
        is_alone: true,
        ..Choice::default()
    };
    let mut blocks = vec![Block::Text(in_brief(analysis))];
    let has_outline = analysis
        .job
        .surfaces
        .iter()
        .any(|own| own.outline.is_some());
    if let Ok(drawing) = plan(analysis, "", &choice)
        && has_outline
    {
        let notes = drawing.notes.iter().map(|note| said(note));
        let notes: Vec<String> = notes.collect();
        blocks.push(Block::Figure(Box::new(drawing)));
        if !notes.is_empty() {
            blocks.push(Block::Quiet(notes.join(" ")));
        }
    }
    let facts: Vec<Fact> = match reader {
        Reader::Client => [Some(price(analysis)), schedule::on_site(analysis)],
        Reader::Office => [total(analysis), schedule::on_site(analysis)],
        Reader::Crew | Reader::Supplier => [schedule::on_site(analysis), crew(analysis)],
    }
    .into_iter()
    .flatten()
    .chain([size(analysis)])
    .collect();
    blocks.push(Block::Facts(facts));
    blocks
}

/// What is built, in a sentence: `A patio of bluestone and two flights of
/// steps.`
fn in_brief(analysis: &Analysis) -> String {
    let job = &analysis.job;
    // A border goes with what it borders.
    let stated = job.surfaces.iter().filter(|own| !own.is_border());
    let mut by_top: Vec<(Option<&str>, Vec<String>)> = Vec::new();
    for own in stated {
        let layers = own.build.iter().flat_map(|build| &build.value.layers);
        let top = layers.map(|layer| layer.of.value.name()).next();
        let name = plain(&own.name.value);
        match by_top.iter_mut().find(|(other, _)| *other == top) {
            Some((_, names)) => names.push(name),
            None => by_top.push((top, vec![name])),
        }
    }
    let surfaces = by_top.iter().map(|(top, names)| match top {
        Some(top) => format!("{} of {}", listed(names), plain(top)),
        None => listed(names),
    });
    let mut parts: Vec<String> = surfaces.collect();
    let several = |count: usize, one: &str, more: &str| match count {
        1 => format!("a {one}"),
        _ => counted(count, one, more),
    };
    let flights = job.steps.len();
    if flights > 0 {
        parts.push(several(flights, "flight of steps", "flights of steps"));
    }
    let drains = job.drains.iter().filter(|own| own.existing.is_none());
    let drains = drains.count();
    if drains > 0 {
        parts.push(several(drains, "drain", "drains"));
    }
    match parts.is_empty() {
        true => "Nothing yet: no surface is stated.".to_owned(),
        false => format!("{}.", capital(&listed(&parts))),
    }
}

fn fact(caption: &str, value: String, note: &str) -> Fact {
    Fact {
        caption: caption.to_owned(),
        value,
        note: note.to_owned(),
    }
}

/// What the client pays in all, where the budget says what is earned by it: a
/// sum of bare costs is no price.
fn price(analysis: &Analysis) -> Fact {
    let money = analysis.figures.money.as_deref();
    let money = money.filter(|money| money.is_price());
    let total = money.and_then(|money| money.total());
    match total {
        Some(total) => {
            let mut lines = money.into_iter().flat_map(|money| &money.costs);
            let is_taxed = lines.any(|line| {
                let heading = line.heading;
                matches!(
                    heading,
                    CostHeading::Tax(_) | CostHeading::TaxOnEverything(_)
                )
            });
            let note = match is_taxed {
                true => "in all, with tax",
                false => "in all; no tax is stated",
            };
            fact("Price", total.to_string(), note)
        }
        None => fact(
            "Price",
            UNKNOWN.to_owned(),
            "not known yet: this is not ready to sign",
        ),
    }
}

/// What it costs in all, or what the orders do where that is all there is.
fn total(analysis: &Analysis) -> Option<Fact> {
    let figures = &analysis.figures;
    let of_budget = figures.money.as_deref().and_then(|money| money.total());
    let all = of_budget.map(|total| fact("Total", total.to_string(), "of the budget"));
    let note = match figures.unpriced() {
        0 => "what is ordered",
        _ => "what is ordered and priced",
    };
    let orders = figures
        .total
        .map(|total| fact("Orders", total.to_string(), note));
    all.or(orders)
}

fn crew(analysis: &Analysis) -> Option<Fact> {
    let schedule = analysis.figures.schedule.as_deref()?;
    let hours = crate::quantities::shown_hours(schedule.day_hours());
    let people = counted(schedule.crew as usize, "person", "people");
    Some(fact("Crew", people, &format!("{hours} a day")))
}

fn size(analysis: &Analysis) -> Fact {
    let system = analysis.job.heading.system();
    let surfaces = analysis.job.surfaces.iter();
    let surfaces = surfaces.zip(analysis.figures.surfaces.iter());
    let stated = surfaces.filter(|(own, _)| !own.is_border());
    let all: Option<f64> = stated.clone().map(|(_, own)| own.area_m2).sum();
    let shown = all.map_or_else(|| UNKNOWN.to_owned(), |metres| area(metres, system));
    let note = match (all, stated.count()) {
        (None, _) => "not known of all",
        (_, 1) => "",
        _ => "all surfaces",
    };
    fact("Area", shown, note)
}
