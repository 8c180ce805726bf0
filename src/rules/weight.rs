//! How much a finding matters once a practice's standards have spoken.

use super::limits::Limits;
use crate::findings::{Place, Severity};
use crate::model::Standard;
use crate::text::capital;

/// How much the findings of a rule matter, and what says so.
#[derive(Debug, Clone, Copy)]
pub struct Weight<'a> {
    /// How much they matter; nothing if the rule is switched off.
    pub severity: Option<Severity>,
    /// The line of a standard that says so, with its reason; `None` if no
    /// standard does.
    pub line: Option<(Place, Option<&'a str>)>,
}

impl Weight<'_> {
    /// What a standard says of a rule, as a sentence; `None` if none does.
    /// `line` names the line of a place.
    pub fn in_words(&self, usual: Severity, line: &dyn Fn(Place) -> String) -> Option<String> {
        let (place, reason) = self.line?;
        let because = reason.map_or_else(String::new, |reason| format!(", because \"{reason}\""));
        Some(match self.severity {
            None => format!("Switched off by {}{because}.", line(place)),
            Some(severity) if severity == usual => {
                format!("{} with or without {}.", capital(usual.word()), line(place))
            }
            Some(severity) => format!(
                "{} instead of {}, by {}{because}.",
                capital(severity.word()),
                usual.word(),
                line(place)
            ),
        })
    }
}

impl Limits {
    /// How much a finding of a rule matters that usually matters so much;
    /// nothing if the rule is switched off.
    pub fn weigh(&self, rule: &str, usual: Severity) -> Option<Severity> {
        self.weight(rule, usual).severity
    }

    /// The same, with the line that says so.
    ///
    /// The nearest standard that says anything of the rule decides; an `off`
    /// or `ease` without a reason, or of a rule that a standard further out
    /// holds firm, says nothing. Where one is held firm the gravest counts
    /// that is said as far out as that.
    pub fn weight(&self, rule: &str, usual: Severity) -> Weight<'_> {
        let mut gravest: Option<Weight<'_>> = None;
        for (index, standard) in self.standards.iter().enumerate() {
            let held = self.firm_beyond(index + 1, rule).is_some();
            let mut off = standard.off.iter();
            let off = off.find(|(name, reason)| name.value == rule && is_given(reason.as_deref()));
            if let Some((name, reason)) = off.filter(|_| !held && gravest.is_none()) {
                return Weight {
                    severity: None,
                    line: Some((name.place, reason.as_deref())),
                };
            }
            let set = standard.severities.iter().rev().find(|set| {
                set.rule.value == rule && (!set.eases || (!held && is_given(set.reason.as_deref())))
            });
            if let Some(set) = set {
                let severity = match set.eases {
                    true => usual.min(set.severity),
                    false => usual.max(set.severity),
                };
                let said = Weight {
                    severity: Some(severity),
                    line: Some((set.place, set.reason.as_deref())),
                };
                let said = match gravest {
                    Some(before) if before.severity >= said.severity => before,
                    _ => said,
                };
                if !held {
                    return said;
                }
                gravest = Some(said);
            }
        }
        gravest.unwrap_or(Weight {
            severity: Some(usual),
            line: None,
        })
    }

    /// The line that holds a rule firm against the job itself, and its
    /// standard.
    pub fn firm(&self, rule: &str) -> Option<(Place, &Standard)> {
        self.firm_beyond(0, rule)
    }

    /// The same, among the standards from one on, the nearest first.
    pub(crate) fn firm_beyond(&self, index: usize, rule: &str) -> Option<(Place, &Standard)> {
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
pub(crate) fn is_given(reason: Option<&str>) -> bool {
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

    #[test]
    fn the_line_that_decides_is_told() {
        let limits = |standards: Vec<Standard>| Limits {
            standards: standards.into_iter().map(Arc::new).collect(),
        };
        for (standards, line) in [
            (vec![], None),
            (vec![firm()], None),
            (vec![off(None)], None),
            (
                vec![off(Some("it drains"))],
                Some((PLACE, Some("it drains"))),
            ),
            (vec![set(Severity::Error, false, None)], Some((PLACE, None))),
        ] {
            let limits = limits(standards);
            assert_eq!(limits.weight("lip", Severity::Warning).line, line);
        }
    }

    #[test]
    fn what_a_standard_says_of_a_rule_is_a_sentence() {
        use Severity::{Advisory, Error, Warning};
        for (standard, sentence) in [
            (Standard::default(), None),
            (
                off(Some("it drains")),
                Some("Switched off by line 2, because \"it drains\"."),
            ),
            (
                set(Error, false, None),
                Some("Error instead of warning, by line 2."),
            ),
            (
                set(Advisory, true, Some("it drains")),
                Some("Advisory instead of warning, by line 2, because \"it drains\"."),
            ),
            (
                set(Warning, false, None),
                Some("Warning with or without line 2."),
            ),
        ] {
            let limits = Limits {
                standards: vec![Arc::new(standard)],
            };
            let said = limits
                .weight("lip", Warning)
                .in_words(Warning, &|_| "line 2".to_owned());
            assert_eq!(said.as_deref(), sentence);
        }
    }

    fn weighed(standards: Vec<Standard>, usual: Severity) -> Option<Severity> {
        let standards = standards.into_iter().map(Arc::new).collect();
        Limits { standards }.weigh("lip", usual)
    }

    #[test]
    fn standards_say_how_much_a_rule_matters() {
        use Severity::{Advisory, Error, Warning};
        let why = Some("it drains");
        for (standards, usual, wanted) in [
            (vec![], Warning, Some(Warning)),
            (vec![off(why)], Warning, None),
            (vec![off(None)], Warning, Some(Warning)),
            (vec![off(Some("  "))], Warning, Some(Warning)),
            (vec![set(Error, false, None)], Warning, Some(Error)),
            (vec![set(Advisory, false, None)], Warning, Some(Warning)),
            (vec![set(Advisory, true, why)], Warning, Some(Advisory)),
            (vec![set(Advisory, true, None)], Warning, Some(Warning)),
            (
                vec![set(Error, false, None), off(why)],
                Warning,
                Some(Error),
            ),
            (vec![Standard::default(), off(why)], Warning, None),
            (vec![off(why), firm()], Error, Some(Error)),
            (vec![set(Advisory, true, why), firm()], Error, Some(Error)),
            (vec![set(Error, false, None), firm()], Advisory, Some(Error)),
            (vec![firm(), off(why)], Error, None),
            (
                vec![
                    set(Warning, false, None),
                    Standard {
                        firm: vec![named("lip")],
                        ..set(Error, false, None)
                    },
                ],
                Advisory,
                Some(Error),
            ),
            (
                vec![set(Warning, false, None), set(Error, false, None)],
                Advisory,
                Some(Warning),
            ),
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
