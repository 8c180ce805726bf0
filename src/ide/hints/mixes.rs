//! What mixes take over the whole job.

use super::HintKind;
use super::collecting::Collecting;
use crate::quantities::Ingredient;
use crate::units::{System, show};

/// At a mix's heading: its packs and masses, waste included.
pub fn add(hints: &mut Collecting<'_>) {
    let (analysis, system) = (hints.analysis, hints.system);
    for (mix, figures) in analysis.job.mixes.values().zip(&analysis.figures.mixes) {
        hints.add(HintKind::Mixes, mix.name.place, || {
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
        (Some(packs), Some(word)) => counted(packs, word),
        _ => show::mass(taken.mass_kg?, system),
    };
    Some(format!("{amount} {}", taken.material))
}

/// Packs begun: `1 bag`, `6 bags`. The last digits of a computed number do
/// not begin a pack.
fn counted(packs: f64, word: &str) -> String {
    let packs = (packs - 1e-9 * packs.abs().max(1.0)).ceil();
    let plural = if packs == 1.0 { "" } else { "s" };
    format!("{} {word}{plural}", show::number(packs))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn packs_are_counted_begun() {
        for (packs, shown) in [
            (0.2, "1 bag"),
            (1.0, "1 bag"),
            (1.000_000_000_01, "1 bag"),
            (1.01, "2 bags"),
            (1_200.5, "1,201 bags"),
        ] {
            assert_eq!(counted(packs, "bag"), shown);
        }
    }
}
