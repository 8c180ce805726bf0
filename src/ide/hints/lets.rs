//! The values of lets.

use super::HintKind;
use super::collecting::{Collecting, HintOf};
use crate::units::show;

/// At a `let`: its value in the job's units.
pub(crate) fn add(hints: &mut Collecting<'_>) {
    let (analysis, system) = (hints.analysis, hints.system);
    for (name, value) in &analysis.job.lets {
        hints.add(HintKind::Lets, HintOf::Let(name.place), name.place, || {
            let value = value.as_ref()?;
            Some(format!("= {}", show::quantity(value, system)))
        });
    }
}
