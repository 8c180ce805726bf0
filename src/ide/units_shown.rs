//! A spec with its figures shown in other units than its own.

use crate::analysis::Analysis;
use crate::units::System;

/// The analysis as it would be if the job were in these units; `None` if it
/// is. What the spec says and what was found in it stays as it is.
pub fn in_units(analysis: &Analysis, system: System) -> Option<Analysis> {
    if analysis.job.heading.system() == system {
        return None;
    }
    let mut shown = analysis.clone();
    let heading = &mut shown.job.heading;
    match &mut heading.units {
        Some(stated) => stated.value = system,
        None => heading.written_imperial = system == System::Imperial,
    }
    Some(shown)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::ide::fixture::{COURT, analysed};
    use crate::ide::hints;
    use crate::text::Span;

    #[test]
    fn figures_are_shown_in_the_units_that_are_wanted() {
        let labels = |analysis: &Analysis| -> String {
            let hints = hints(analysis, Span::from(0..COURT.len()), |_| true);
            hints.into_iter().map(|hint| hint.label + "\n").collect()
        };
        let court = analysed(COURT);
        assert!(in_units(&court, System::Metric).is_none());
        let feet = in_units(&court, System::Imperial).expect("another system");
        assert!(labels(&feet).contains("258.3 sq ft"), "{}", labels(&feet));
        assert_eq!(feet.findings, court.findings);
        let back = in_units(&feet, System::Metric).expect("the first again");
        assert_eq!(labels(&back), labels(&court));
    }
}
