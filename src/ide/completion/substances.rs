//! Materials and mixes, each with its density and price.

use super::lending::lent;
use super::{About, Completion, CompletionKind};
use crate::analysis::Analysis;
use crate::ide::markdown::{paragraphs, table_of_three};
use crate::materials::{self, CatalogueMaterial};
use crate::model::{Material, Region, built_in};
use crate::units::show;
use crate::vocabulary::spelled_in;

/// The materials, and the mixes if they may stand here: those meant for the
/// entry first, the spec's own before the catalogue's.
pub(crate) fn offers(analysis: &Analysis, with_mixes: bool, entry: &str) -> Vec<Completion> {
    let job = &analysis.job;
    let region = job.heading.region();
    let mut ranked: Vec<(u8, Completion)> = Vec::new();
    if with_mixes {
        for (name, mix) in &*job.mixes {
            let is_for = mix.uses.iter().any(|used| used.value.word() == entry);
            let uses: Vec<&str> = mix.uses.iter().map(|used| used.value.word()).collect();
            let detail = match uses.as_slice() {
                [] => "a mix".to_owned(),
                uses => format!("a mix for {}", uses.join(" and ")),
            };
            ranked.push((if is_for { 0 } else { 3 }, named(name, detail)));
        }
    }
    for (name, material) in &*job.materials {
        let suits = material.kind.and_then(|kind| kind.suits(entry));
        let rank = match (material.place, suits) {
            (Some(_), Some(true) | None) => 1,
            (None, Some(true)) => 2,
            (Some(_), Some(false)) => 3,
            (None, _) => 4,
        };
        ranked.push((rank, named(name, figures(analysis, material))));
    }
    let kinds: &[&str] = if with_mixes {
        &["mix", "material"]
    } else {
        &["material"]
    };
    ranked.extend(lent(analysis, kinds).map(|offer| (1, offer)));
    for material in materials::materials() {
        let rank = if material.kind.suits(entry) == Some(true) {
            2
        } else {
            5
        };
        let offer = Completion {
            kind: CompletionKind::Catalogue,
            ..named(
                &spelled_in(region, material.name),
                catalogue_figures(material),
            )
        };
        ranked.push((rank, offer));
    }
    ranked.sort_by_key(|(rank, _)| *rank);
    ranked.into_iter().map(|(_, offer)| offer).collect()
}

/// The material of the catalogue that an entry usually takes.
pub(crate) fn usual(entry: &str) -> &'static str {
    let suits = |material: &&CatalogueMaterial| material.kind.suits(entry) == Some(true);
    let usual = materials::materials().find(suits);
    usual.map_or("crushed-stone", |material| material.name)
}

fn named(name: &str, detail: String) -> Completion {
    Completion::new(name, CompletionKind::Name, detail).about(About::Name(name.to_owned()))
}

fn figures(analysis: &Analysis, material: &Material) -> String {
    let system = analysis.job.heading.system();
    let density = material.compacted.as_ref().or(material.density.as_ref());
    let density = density.map(|own| show::quantity(&own.value, system));
    let price = material.price.as_ref();
    let price = price.map(|own| show::quantity(&own.value, system));
    let parts: Vec<String> = density.into_iter().chain(price).collect();
    parts.join(" · ")
}

fn catalogue_figures(material: &CatalogueMaterial) -> String {
    let density = material.compacted.as_ref().or(material.density.as_ref());
    let density = density.map(|own| own.text);
    density.unwrap_or(material.called).to_owned()
}

/// What the catalogue tells of a material.
pub(crate) fn of_catalogue(name: &str, region: Region) -> Option<String> {
    let material = built_in(name)?;
    let rows: Vec<[String; 3]> = material
        .figures()
        .map(|(of, figure)| {
            [
                of.to_owned(),
                figure.text.to_owned(),
                figure.source.to_string(),
            ]
        })
        .collect();
    Some(paragraphs([
        format!(
            "**{name}** · a material of the catalogue · {}",
            material.kind.word()
        ),
        spelled_in(region, material.called_in(region)).into_owned(),
        material.note.to_owned(),
        table_of_three(["", "", "from"], &rows),
    ]))
}
