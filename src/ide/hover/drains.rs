//! Drains, with where they run and how deep they lie.

use super::{comments, workings};
use crate::analysis::Analysis;
use crate::ide::cursor::Cursor;
use crate::ide::markdown::{paragraphs, table};
use crate::quantities::FigureRef;
use crate::units::show;

/// How the figures of the line under the pointer came about: at what a drain
/// is, its fall and its inverts where it lies; at what it is laid in, filled
/// with or wrapped in how much that is.
pub(crate) fn cards(analysis: &Analysis, cursor: &Cursor<'_>) -> Vec<String> {
    let of: fn(usize) -> FigureRef = match cursor.key().map_or("", |key| key.word) {
        "channel" | "gully" | "pipe" | "trench" | "fall" | "invert" => FigureRef::DrainLevels,
        "to" | "takes" | "overflow" => FigureRef::DrainWater,
        "soakaway" | "bedded" | "filled" | "wrapped" => FigureRef::DrainWorks,
        _ => return Vec::new(),
    };
    let mut drains = analysis.job.drains.iter();
    let index = drains.position(|drain| drain.section == cursor.section);
    let card = index.and_then(|index| workings::card(analysis, of(index)));
    card.into_iter().collect()
}

/// A drain's figures in short.
pub(crate) fn card(analysis: &Analysis, name: &str) -> Option<String> {
    let mut drains = analysis.job.drains.iter();
    let index = drains.position(|own| own.name.value == name)?;
    let drain = analysis.job.drains.get(index)?;
    let figures = analysis.figures.drains.get(index)?;
    let system = analysis.job.heading.system();
    let length = |metres: Option<f64>| metres.map(|metres| show::length(metres, system));
    let volume = |volume: Option<f64>| volume.map(|volume| show::volume(volume, system));
    let water = analysis.figures.water.as_ref();
    let comes = water.and_then(|water| water.drains.get(index));
    let shown_flow = |flow: Option<f64>| flow.map(|flow| show::flow(flow, system));
    let soaking = comes.and_then(|comes| comes.soaking.as_ref());
    let (need, holds) = (soaking.and_then(|own| own.need_m3), figures.storage_m3);
    let beside = |one: Option<f64>, other| Some(show::volume_beside(one?, other, system));
    let to = drain.to.as_ref();
    let rows = [
        ("length", length(figures.length_m)),
        ("invert at the head", length(figures.head_m)),
        ("invert at the outlet", length(figures.outlet_m)),
        ("fall", figures.fall.map(show::slope)),
        ("least cover", length(figures.cover_m())),
        (
            "dig, in the bank",
            volume(figures.dig.map(|dig| dig.bank_m3)),
        ),
        (
            "comes to it",
            comes.and_then(|comes| shown_flow(comes.flow)),
        ),
        ("carries", shown_flow(figures.carries_m3s)),
        ("has to hold", beside(need, holds)),
        ("holds", beside(holds, need)),
        ("runs to", to.map(|to| to.value.shown().to_owned())),
    ];
    let rows: Vec<[String; 2]> = rows
        .into_iter()
        .filter_map(|(name, value)| Some([name.to_owned(), value?]))
        .collect();
    let region = analysis.job.heading.region();
    let kind = drain.kind().map_or("drain", |kind| kind.called_in(region));
    Some(paragraphs([
        format!("**{name}** · a {kind}"),
        comments::above_place(analysis, drain.place).unwrap_or_default(),
        table(["", ""], &rows),
    ]))
}
