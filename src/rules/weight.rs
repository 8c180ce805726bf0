//! How much a finding matters once a practice's standards have spoken.

use super::limits::Limits;
use crate::findings::{Place, Severity};
use crate::model::Standard;

impl Limits {
    /// How much a finding of a rule matters that usually matters so much;
    /// nothing if the rule is switched off.
    ///
    /// The nearest standard that says anything of the rule decides; an `off`
    /// or `ease` without a reason, or of a rule that a standard further out
    /// holds firm, says nothing.
    pub fn weigh(&self, rule: &str, usual: Severity) -> Option<Severity> {
        for (index, standard) in self.standards.iter().enumerate() {
            let held = self.firm_beyond(index + 1, rule).is_some();
            let is_off = standard
                .off
                .iter()
                .any(|(name, reason)| name.value == rule && is_given(reason.as_deref()));
            if is_off && !held {
                return None;
            }
            let set = standard.severities.iter().rev().find(|set| {
                set.rule.value == rule && (!set.eases || (!held && is_given(set.reason.as_deref())))
            });
            match set {
                Some(set) if set.eases => return Some(usual.min(set.severity)),
                Some(set) => return Some(usual.max(set.severity)),
                None => {}
            }
        }
        Some(usual)
    }

    /// The line that holds a rule firm against the job itself, and its
    /// standard.
    pub fn firm(&self, rule: &str) -> Option<(Place, &Standard)> {
        self.firm_beyond(0, rule)
    }

    /// The same, among the standards from one on, the nearest first.
    pub(super) fn firm_beyond(&self, index: usize, rule: &str) -> Option<(Place, &Standard)> {
        let further_out = self.standards.iter().skip(index);
        further_out
            .filter_map(|standard| {
                let line = standard.firm.iter().find(|name| name.value == rule)?;
                Some((line.place, standard.as_ref()))
            })
            .next()
    }
}

/// Whether a reason is one.
pub fn is_given(reason: Option<&str>) -> bool {
    reason.is_some_and(|reason| !reason.trim().is_empty())
}

#[cfg(test)]
mod tests {
    use std::sync::Arc;

    use super::*;
    use crate::findings::{FileId, SectionRef};
    use crate::model::{SetSeverity, Stated};
    use crate::syntax::SectionId;
    use crate::text::Span;

    const PLACE: Place = Place {
        section: SectionRef {
            file: FileId(1),
            section: SectionId(0),
        },
        span: Span::new(0, 4),
    };

    fn named(rule: &str) -> Stated<String> {
        Stated::new(rule.to_owned(), PLACE)
    }

    fn off(reason: Option<&str>) -> Standard {
        Standard {
            off: vec![(named("lip"), reason.map(str::to_owned))],
            ..Standard::default()
        }
    }

    fn set(severity: Severity, eases: bool, reason: Option<&str>) -> Standard {
        Standard {
            severities: vec![SetSeverity {
                rule: named("lip"),
                severity,
                eases,
                reason: reason.map(str::to_owned),
                place: PLACE,
            }],
            ..Standard::default()
        }
    }

    fn firm() -> Standard {
        Standard {
            firm: vec![named("lip")],
            ..Standard::default()
        }
    }

    fn weighed(standards: Vec<Standard>, usual: Severity) -> Option<Severity> {
        let standards = standards.into_iter().map(Arc::new).collect();
        Limits { standards }.weigh("lip", usual)
    }

    #[test]
    fn standards_say_how_much_a_rule_matters() {
        use Severity::{Advice, Error, Warning};
        let why = Some("it drains");
        for (standards, usual, wanted) in [
            (vec![], Warning, Some(Warning)),
            (vec![off(why)], Warning, None),
            (vec![off(None)], Warning, Some(Warning)),
            (vec![off(Some("  "))], Warning, Some(Warning)),
            (vec![set(Error, false, None)], Warning, Some(Error)),
            (vec![set(Advice, false, None)], Warning, Some(Warning)),
            (vec![set(Advice, true, why)], Warning, Some(Advice)),
            (vec![set(Advice, true, None)], Warning, Some(Warning)),
            (
                vec![set(Error, false, None), off(why)],
                Warning,
                Some(Error),
            ),
            (vec![Standard::default(), off(why)], Warning, None),
            (vec![off(why), firm()], Error, Some(Error)),
            (vec![set(Advice, true, why), firm()], Error, Some(Error)),
            (vec![set(Error, false, None), firm()], Advice, Some(Error)),
            (vec![firm(), off(why)], Error, None),
        ] {
            assert_eq!(weighed(standards, usual), wanted);
        }
    }

    #[test]
    fn a_firm_rule_is_found_wherever_it_is_held() {
        let limits = Limits {
            standards: vec![Arc::new(Standard::default()), Arc::new(firm())],
        };
        assert_eq!(limits.firm("lip").map(|(place, _)| place), Some(PLACE));
        assert!(limits.firm("fall-flat").is_none());
    }
}
