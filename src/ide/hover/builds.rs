//! Builds, layer by layer.

use super::comments;
use crate::analysis::Analysis;
use crate::ide::markdown::{paragraphs, table_of_three};
use crate::units::show;

/// A build's layers from the top down, with their thickness together.
pub(crate) fn card(analysis: &Analysis, name: &str) -> Option<String> {
    let build = analysis.job.builds.get(name)?;
    let system = analysis.job.heading.system();
    let rows: Vec<[String; 3]> = build
        .layers
        .iter()
        .map(|layer| {
            let thickness = layer.thickness.as_ref();
            [
                layer.role.value.word().to_owned(),
                layer.of.value.name().to_owned(),
                thickness.map_or(String::new(), |own| show::length(own.value.si(), system)),
            ]
        })
        .collect();
    let deep = build.depth_m().map_or(String::new(), |depth| {
        format!(", {} deep", show::length(depth, system))
    });
    Some(paragraphs([
        format!("**{name}** · a build{deep}"),
        comments::above_place(analysis, build.name.place).unwrap_or_default(),
        table_of_three(["layer", "of", "thickness"], &rows),
    ]))
}
