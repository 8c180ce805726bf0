//! Mixes, with what they take over the whole job.

use super::{comments, workings};
use crate::analysis::Analysis;
use crate::ide::markdown::{paragraphs, table_of_three};
use crate::ide::packs::counted;
use crate::quantities::FigureRef;
use crate::units::show;

/// A mix's ingredients for the job, and how what it makes is worked out.
pub(crate) fn card(analysis: &Analysis, name: &str) -> Option<String> {
    let system = analysis.job.heading.system();
    let index = analysis
        .figures
        .mixes
        .iter()
        .position(|own| own.name == name)?;
    let figures = analysis.figures.mixes.get(index)?;
    let mut rows: Vec<[String; 3]> = figures
        .ingredients
        .iter()
        .map(|taken| {
            let packs = taken.packs.zip(taken.pack.as_ref());
            [
                taken.material.clone(),
                taken
                    .mass_kg
                    .map_or(String::new(), |mass| show::mass(mass, system)),
                packs.map_or(String::new(), |(packs, word)| counted(packs, word)),
            ]
        })
        .collect();
    rows.extend(
        figures
            .water_kg
            .map(|mass| ["water".to_owned(), show::mass(mass, system), String::new()]),
    );
    let mixed = figures.mixed_m3.filter(|volume| *volume > 0.0);
    let total =
        mixed.map(|volume| format!("{} mixed for the whole job", show::volume(volume, system)));
    Some(paragraphs([
        format!("**{name}** · a mix"),
        comments::above_place(analysis, figures.place).unwrap_or_default(),
        total.unwrap_or_else(|| "No layer or joint of this job takes it.".to_owned()),
        mixed
            .map(|_| table_of_three(["of", "mass", "packs"], &rows))
            .unwrap_or_default(),
        workings::card(analysis, FigureRef::Gauging(index)).unwrap_or_default(),
    ]))
}
