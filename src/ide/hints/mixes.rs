//! What mixes take over the whole job.

use super::HintKind;
use super::collecting::{Collecting, HintOf};
use crate::ide::packs::{begun, counted};
use crate::quantities::{FigureRef, Ingredient};
use crate::units::{System, show};

/// At a mix's heading: its packs and masses, waste included.
pub(crate) fn add(hints: &mut Collecting<'_>) {
    let (analysis, system) = (hints.analysis, hints.system);
    let mixes = analysis
        .job
        .mixes
        .values()
        .zip(analysis.figures.mixes.iter());
    for (index, (mix, figures)) in mixes.enumerate() {
        let of = HintOf::Figure(FigureRef::Mix(index));
        hints.add(HintKind::Mixes, of, mix.name.place, || {
            let used = figures.mixed_m3.is_some_and(|volume| volume > 0.0);
            let taken: Option<Vec<String>> = figures
                .ingredients
                .iter()
                .map(|taken| amount(taken, system))
                .collect();
            let taken = taken.filter(|taken| used && !taken.is_empty())?;
            Some(taken.join(" · "))
        });
    }
}

/// `6 bags portland-cement`, or `1,040 lb sharp-sand`.
fn amount(taken: &Ingredient, system: System) -> Option<String> {
    let amount = match (taken.packs, &taken.pack) {
        (Some(packs), Some(word)) => counted(begun(packs), word),
        _ => show::mass(taken.mass_kg?, system),
    };
    Some(format!("{amount} {}", taken.material))
}
