//! The site card: the levels of each surface, and how far under a string along
//! the finished surface each layer ends.

use super::{plain, said};
use crate::analysis::Analysis;
use crate::drawing::{Block, Column, Holds, Row, Table};
use crate::model::Surface;
use crate::quantities::SurfaceFigures;
use crate::report::trade::{UNKNOWN, length, volume};
use crate::text::capital;
use crate::units::{System, show};

/// A card for each surface that has a build.
pub(crate) fn cards(analysis: &Analysis) -> Vec<Block> {
    let system = analysis.job.heading.system();
    let surfaces = analysis.job.surfaces.iter();
    let surfaces = surfaces.zip(analysis.figures.surfaces.iter());
    let mut blocks = Vec::new();
    for (own, figures) in surfaces.filter(|(own, _)| own.build.is_some()) {
        if blocks.is_empty() {
            blocks.push(Block::NewPage);
            blocks.push(Block::Heading("On site".to_owned()));
            let datum = analysis.job.site.datum.as_ref();
            blocks.push(Block::Text(match datum {
                Some(datum) => format!("Level 0 is {}.", said(&datum.value)),
                None => "What level 0 is, is not stated.".to_owned(),
            }));
            blocks.push(Block::Quiet(
                "Set strings to the finished surface, to its fall. Each layer then ends at one \
                 mark under the string, wherever it is measured."
                    .to_owned(),
            ));
        }
        blocks.push(Block::Subheading(capital(&plain(&own.name.value))));
        blocks.push(Block::Text(levels(figures, system)));
        blocks.push(Block::Table(marks(own, system)));
    }
    blocks
}

fn levels(figures: &SurfaceFigures, system: System) -> String {
    let level = |metres: Option<f64>| {
        metres.map_or_else(|| UNKNOWN.to_owned(), |metres| signed(metres, system))
    };
    let fall = figures.fall.map_or_else(|| UNKNOWN.to_owned(), show::slope);
    let dig = figures.dig.as_ref();
    let dig = dig.map(|dig| format!("; dig {}", volume(dig.bank_m3, system)));
    format!(
        "Finished level {} at the high edge, {} at the low edge; fall {fall}{}.",
        level(figures.highest_m),
        level(figures.lowest_m),
        dig.unwrap_or_default()
    )
}

fn signed(metres: f64, system: System) -> String {
    let size = length(metres.abs(), system);
    match metres < 0.0 {
        true => format!("−{size}"),
        false => size,
    }
}

/// The marks on a rod, from the string down; the underside last.
fn marks(own: &Surface, system: System) -> Table {
    let columns = [
        ("Under the string", 3.0, Holds::Figures),
        ("is the top of", 6.0, Holds::Words),
        ("thick", 3.0, Holds::MoreFigures),
    ];
    let columns = columns.map(|(heading, share, holds)| Column {
        heading: heading.to_owned(),
        share,
        holds,
    });
    let mut under = Some(0.0);
    let mut rows = Vec::new();
    let shown = |metres: Option<f64>| {
        metres.map_or_else(|| UNKNOWN.to_owned(), |metres| length(metres, system))
    };
    for layer in own.build.iter().flat_map(|build| &build.value.layers) {
        let role = layer.role.value;
        let thick = layer.thickness.as_ref().map(|thick| thick.value.si());
        let of = plain(layer.of.value.name());
        rows.push(vec![
            shown(under),
            format!("{}: {of}", role.word()),
            if role.is_sheet() {
                "sheet".to_owned()
            } else {
                shown(thick)
            },
        ]);
        if !role.is_sheet() {
            under = under.zip(thick).map(|(top, thick)| top + thick);
        }
    }
    rows.push(vec![
        shown(under),
        "the ground as it is dug".to_owned(),
        String::new(),
    ]);
    let rows = rows.into_iter().map(|cells| Row {
        cells,
        is_total: false,
    });
    Table {
        columns: columns.to_vec(),
        rows: rows.collect(),
    }
}
