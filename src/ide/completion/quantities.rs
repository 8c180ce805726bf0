//! What may stand where a quantity belongs: lets, functions, units.

use super::lending::lent;
use super::{About, Completion, CompletionKind};
use crate::analysis::Analysis;
use crate::units::{Dimension, System, UNITS, show};
use crate::vocabulary::{FUNCTIONS, ValueKind};

/// The lets, those of the right dimension first, then the functions.
pub(crate) fn offers(analysis: &Analysis, kind: ValueKind) -> Vec<Completion> {
    let system = analysis.job.heading.system();
    let mut lets: Vec<(bool, Completion)> = analysis
        .job
        .lets
        .iter()
        .map(|(name, value)| {
            let fits = match (value, kind.dimension()) {
                (Some(value), Some(wanted)) => value.dimension == wanted,
                _ => true,
            };
            let shown = value.as_ref().map(|value| show::quantity(value, system));
            let offer =
                Completion::new(&name.value, CompletionKind::Name, shown.unwrap_or_default());
            (!fits, offer.about(About::Name(name.value.clone())))
        })
        .collect();
    lets.extend(lent(analysis, &["let"]).map(|offer| (false, offer)));
    lets.sort_by_key(|(misfits, _)| *misfits);
    let lets = lets.into_iter().map(|(_, offer)| offer);
    lets.chain(functions(kind)).collect()
}

fn functions(kind: ValueKind) -> impl Iterator<Item = Completion> {
    let gives = |word: &str| match word {
        "area" => Some(Dimension::AREA),
        "perimeter" | "length" | "level" => Some(Dimension::LENGTH),
        _ => None,
    };
    let fits = move |word: &str| match (gives(word), kind.dimension()) {
        (Some(given), Some(wanted)) => given == wanted,
        _ => true,
    };
    let functions = FUNCTIONS.iter().filter(move |(word, ..)| fits(word));
    functions.map(|(word, form, help)| Completion {
        text: format!("{word}($0)"),
        has_stops: true,
        about: About::Help(format!("`{form}`\n\n{help}")),
        ..Completion::new(*word, CompletionKind::Function, *form)
    })
}

/// The units of a kind of value, those of the job's system first.
pub(crate) fn units(analysis: &Analysis, kind: ValueKind) -> Vec<Completion> {
    let unit = |symbol: &str| Completion::new(symbol, CompletionKind::Unit, kind.noun());
    match kind {
        ValueKind::Slope => {
            let mut units = ["%", "mm per m", "in per ft"];
            if analysis.job.heading.system() == System::Imperial {
                units.reverse();
            }
            return units.map(unit).to_vec();
        }
        ValueKind::Share => return vec![unit("%")],
        ValueKind::Density => return ["kg/m3", "t/m3", "lb/cu ft", "pcf"].map(unit).to_vec(),
        ValueKind::Coverage => return ["m2/t", "sq ft/ton"].map(unit).to_vec(),
        ValueKind::Rainfall => return ["mm/h", "in/h"].map(unit).to_vec(),
        ValueKind::Infiltration => {
            let mut units = ["mm/h", "m/s", "min/in", "in/h"];
            if analysis.job.heading.system() == System::Imperial {
                units.reverse();
            }
            return units.map(unit).to_vec();
        }
        ValueKind::Price => return Vec::new(),
        _ => {}
    }
    let system = analysis.job.heading.system();
    let wanted = kind.dimension();
    if wanted == Some(Dimension::NONE) {
        return Vec::new();
    }
    let mut fitting: Vec<_> = UNITS
        .iter()
        .filter(|unit| wanted.is_none_or(|wanted| unit.dimension == wanted))
        .collect();
    fitting.sort_by_key(|unit| unit.system.is_some_and(|own| own != system));
    fitting.into_iter().map(|own| unit(own.symbol)).collect()
}

/// The surfaces.
pub(crate) fn surfaces(analysis: &Analysis) -> Vec<Completion> {
    let surfaces = analysis.job.surfaces.iter();
    surfaces
        .map(|surface| {
            let name = &surface.name.value;
            Completion::new(name, CompletionKind::Name, "a surface")
                .about(About::Name(name.clone()))
        })
        .collect()
}
