//! Surfaces, with their levels, joints and dig.

use super::{comments, workings};
use crate::analysis::Analysis;
use crate::ide::cursor::Cursor;
use crate::ide::markdown::{paragraphs, table};
use crate::model::Surface;
use crate::quantities::{FigureRef, told_together};
use crate::units::show;

/// A surface's figures in short.
pub(crate) fn card(analysis: &Analysis, name: &str) -> Option<String> {
    let index = analysis
        .job
        .surfaces
        .iter()
        .position(|own| own.name.value == name)?;
    let (surface, figures) = (
        analysis.job.surfaces.get(index)?,
        analysis.figures.surfaces.get(index)?,
    );
    let system = analysis.job.heading.system();
    let length = |metres: Option<f64>| metres.map(|metres| show::length(metres, system));
    let volume = |volume: Option<f64>| volume.map(|volume| show::volume(volume, system));
    let rows = [
        ("area", figures.area_m2.map(|area| show::area(area, system))),
        (
            "in all",
            figures.repeat.map(|repeat| {
                let each = show::area(repeat.each_m2, system);
                format!("{} of {each}", repeat.count)
            }),
        ),
        (
            "from one to the next",
            length(figures.repeat.map(|repeat| repeat.gap_m)),
        ),
        ("perimeter", length(figures.perimeter_m)),
        ("fall", figures.fall.map(show::slope)),
        ("drop", length(figures.drop_m)),
        ("highest level", length(figures.highest_m)),
        ("lowest level", length(figures.lowest_m)),
        ("depth of the build", length(figures.depth_m)),
        (
            "units, whole and cut",
            figures
                .layout
                .as_ref()
                .map(|layout| format!("{} and {}", layout.whole, layout.cut)),
        ),
        (
            "joints",
            volume(figures.joints.as_ref().and_then(|joints| joints.volume_m3)),
        ),
        (
            "dig, in the bank",
            volume(figures.dig.map(|dig| dig.bank_m3)),
        ),
        (
            "dig, loose",
            volume(figures.dig.and_then(|dig| dig.loose_m3)),
        ),
    ];
    let rows: Vec<[String; 2]> = rows
        .into_iter()
        .filter_map(|(name, value)| Some([name.to_owned(), value?]))
        .collect();
    Some(paragraphs([
        format!("**{name}** · a surface"),
        comments::above_place(analysis, surface.place).unwrap_or_default(),
        table(["", ""], &rows),
        water(analysis, index, surface).unwrap_or_default(),
    ]))
}

/// What an entry of a surface comes to: of its level and fall the levels and
/// the drop, of how it is laid the units, of a joint what fills it, of what
/// runs along edges its length.
pub(crate) fn of_line(analysis: &Analysis, cursor: &Cursor<'_>) -> Vec<String> {
    let mut surfaces = analysis.job.surfaces.iter().enumerate();
    let own = surfaces.find(|(_, surface)| surface.section == cursor.section);
    let (Some((index, surface)), Some(key)) = (own, cursor.key()) else {
        return Vec::new();
    };
    let line = cursor.line_in_section();
    let mut borders = surface.borders.iter();
    let mut border = || borders.position(|border| line.overlaps(border.place.span));
    let figure = match key.word {
        "level" | "fall" => Some(FigureRef::Levels(index)),
        "laid" => Some(FigureRef::Layout(index)),
        "joint" => Some(FigureRef::Joints(index)),
        "border" => border().map(|border| FigureRef::Border {
            surface: index,
            border,
        }),
        "edging" | "isolation-joint" | "movement-joints" => Some(FigureRef::Edges(index)),
        "water" => Some(FigureRef::Water(index)),
        _ => None,
    };
    let card = figure.and_then(|of| workings::card(analysis, of));
    card.into_iter().collect()
}

/// Where its water goes, an edge a row.
fn water(analysis: &Analysis, index: usize, own: &Surface) -> Option<String> {
    let (job, water) = (&analysis.job, analysis.figures.water.as_ref()?);
    let ways = water.surfaces.get(index)?.ways.as_ref()?;
    let system = job.heading.system();
    let rows = told_together(ways, job, own)
        .into_iter()
        .map(|(words, way)| {
            let area = show::area(way.area_m2, system);
            let flow = way.flow_told(job).map(|flow| format!(" ({flow})"));
            [
                format!("{area}, {}", show::share(way.share)),
                words + &flow.unwrap_or_default(),
            ]
        });
    Some(table(["water", ""], &rows.collect::<Vec<_>>()))
}
