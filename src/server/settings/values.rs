//! The settings that hold for some specs, as they were last told.

use serde_json::Value;

use super::declared::{self, SECTION, Setting, Takes, declared, of_hint};
use crate::findings::Severity;
use crate::ide::HintKind;
use crate::model::nearest;
use crate::units::System;
use crate::vocabulary::renamed;

/// The settings that hold for some specs.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Settings {
    /// The kinds of hint that are switched off.
    hidden: Vec<HintKind>,
    /// The units in which figures are shown; those of each job if none.
    pub units: Option<System>,
    /// The standard that applies to every spec, if one is named.
    pub standard: Option<String>,
    /// Whether specs that are not open are checked.
    pub workspace: bool,
    /// Findings from this severity up are shown as errors.
    pub deny: Severity,
    /// Findings from this severity up are shown.
    pub show: Severity,
    /// Whether a hover repeats what a finding says.
    pub repeats: bool,
    /// Whether a hover may hold a picture.
    pub pictures: bool,
}

impl Default for Settings {
    fn default() -> Settings {
        Settings::read(&[]).0
    }
}

impl Settings {
    /// Reads `{"hints": {"areas": false}}`, or the same as
    /// `{"hints.areas": false}`, with or without a `drylay` around it, from the
    /// first of several that sets it. What none sets, or the first that does
    /// to what it does not take, is as it usually is; what is wrong in the
    /// first of them is told in words.
    pub(crate) fn read(layers: &[&Value]) -> (Settings, Vec<String>) {
        let mut reader = Reader {
            layers,
            declared: declared(),
            wrong: Vec::new(),
        };
        let settings = Settings {
            hidden: HintKind::ALL
                .iter()
                .copied()
                .filter(|kind| !reader.switch(&of_hint(*kind)))
                .collect(),
            units: match reader.word(declared::UNITS) {
                "imperial" => Some(System::Imperial),
                "metric" => Some(System::Metric),
                _ => None,
            },
            standard: reader.path(declared::STANDARD),
            workspace: reader.switch(declared::WORKSPACE),
            deny: severity(reader.word(declared::DENY)),
            show: severity(reader.word(declared::SHOW)),
            repeats: reader.switch(declared::HOVER),
            pictures: reader.switch(declared::PICTURES),
        };
        reader.look_for_unknown();
        (settings, reader.wrong)
    }

    /// Whether hints of this kind are shown.
    pub(crate) fn shows(&self, kind: HintKind) -> bool {
        !self.hidden.contains(&kind)
    }
}

fn severity(word: &str) -> Severity {
    match word {
        "error" => Severity::Error,
        "warning" => Severity::Warning,
        _ => Severity::Advisory,
    }
}

/// What was told at one time without the section around it, if there is one.
fn within(told: &Value) -> &Value {
    told.get(SECTION).unwrap_or(told)
}

/// What a setting was set to at one time, however it is nested.
fn set<'a>(told: &'a Value, name: &str) -> Option<&'a Value> {
    let own = within(told);
    let mut parts = name.split('.');
    let nested = parts.try_fold(own, |value, part| value.get(part));
    nested
        .or_else(|| own.get(name))
        .or_else(|| told.get(format!("{SECTION}.{name}")))
        .filter(|value| !value.is_null())
}

struct Reader<'a> {
    layers: &'a [&'a Value],
    declared: Vec<Setting>,
    wrong: Vec<String>,
}

impl<'a> Reader<'a> {
    fn find(&self, name: &str) -> Option<&'a Value> {
        self.layers.iter().find_map(|told| set(told, name))
    }

    fn takes(&self, name: &str) -> Option<Takes> {
        let mut settings = self.declared.iter();
        Some(settings.find(|setting| setting.name == name)?.takes)
    }

    fn switch(&mut self, name: &str) -> bool {
        let usual = matches!(self.takes(name), Some(Takes::Switch { usual: true }));
        self.read(name, Value::as_bool).unwrap_or(usual)
    }

    fn word(&mut self, name: &str) -> &'static str {
        let words = match self.takes(name) {
            Some(Takes::Word(words)) => words,
            _ => &[],
        };
        let listed = |written: &str| {
            let mut listed = words.iter().map(|(word, _)| *word);
            listed.find(|word| *word == written)
        };
        let written = self.find(name).and_then(Value::as_str);
        let now = written.and_then(renamed).and_then(listed);
        if let Some((written, now)) = written.zip(now) {
            self.wrong.push(format!(
                "`{SECTION}.{name}`: `{written}` is called `{now}` now; it is read as before."
            ));
            return now;
        }
        let word = self.read(name, |value| listed(value.as_str()?));
        word.unwrap_or_else(|| words.first().map_or("", |(word, _)| word))
    }

    fn path(&mut self, name: &str) -> Option<String> {
        let path = self.read(name, |value| Some(value.as_str()?.trim().to_owned()))?;
        Some(path).filter(|path| !path.is_empty())
    }

    /// What a setting is set to, as `take` takes it; where it does not take
    /// it, that is told of the newest.
    fn read<T>(&mut self, name: &str, take: impl Fn(&Value) -> Option<T>) -> Option<T> {
        let value = self.find(name)?;
        let taken = take(value);
        let is_newest = self
            .layers
            .first()
            .is_some_and(|told| set(told, name).is_some());
        if taken.is_none()
            && is_newest
            && let Some(takes) = self.takes(name)
        {
            self.wrong.push(format!(
                "The setting `{SECTION}.{name}` takes {}, not `{value}`; it stays at `{}`.",
                takes.in_words(),
                takes.usual()
            ));
        }
        taken
    }

    /// Tells of names that are no setting but nearly one. An editor may keep
    /// settings of its own in the same section; those are ignored.
    fn look_for_unknown(&mut self) {
        let known = self.declared.iter().map(|setting| setting.name.as_str());
        let known: Vec<&str> = known.collect();
        // `hints.areas` belongs to the group `hints`.
        let is_group = |name: &str| {
            let mut parts = known.iter().filter_map(|own| own.strip_prefix(name));
            parts.any(|rest| rest.starts_with('.'))
        };
        let newest = self
            .layers
            .first()
            .and_then(|told| within(told).as_object());
        for (name, value) in newest.into_iter().flatten() {
            let (inside, is_own) = match value.as_object() {
                Some(inside) if is_group(name) => {
                    let names = inside.keys().map(|inner| format!("{name}.{inner}"));
                    (names.collect(), true)
                }
                _ => (vec![name.clone()], false),
            };
            for full in inside {
                let near = nearest(&full, known.iter().copied());
                if !known.contains(&full.as_str()) && (is_own || near.is_some()) {
                    let meant = near.map(|near| format!(" Did you mean `{SECTION}.{near}`?"));
                    self.wrong.push(format!(
                        "There is no setting `{SECTION}.{full}`.{}",
                        meant.unwrap_or_default()
                    ));
                }
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use serde_json::json;

    #[test]
    fn hints_are_on_unless_they_are_set_to_false() {
        for (value, hidden) in [
            (json!(null), vec![]),
            (json!({}), vec![]),
            (json!([1]), vec![]),
            (
                json!({"hints": {"areas": false, "lets": true}}),
                vec![HintKind::Areas],
            ),
            (
                json!({"drylay": {"hints": {"orders": false}}}),
                vec![HintKind::Orders],
            ),
            (json!({"hints.falls": false}), vec![HintKind::Falls]),
            (json!({"drylay.hints.falls": false}), vec![HintKind::Falls]),
            (json!({"other": {"hints": {"areas": false}}}), vec![]),
        ] {
            let (settings, wrong) = Settings::read(&[&value]);
            for kind in HintKind::ALL {
                assert_eq!(
                    settings.shows(*kind),
                    !hidden.contains(kind),
                    "{value} {kind:?}"
                );
            }
            assert_eq!(wrong, [] as [String; 0], "{value}");
        }
    }

    #[test]
    fn every_setting_is_read() {
        let usual = Settings::default();
        assert!(usual.workspace && usual.units.is_none() && usual.standard.is_none());
        assert!(!usual.repeats);
        assert_eq!(
            (usual.deny, usual.show),
            (Severity::Error, Severity::Advisory)
        );
        let (set, wrong) = Settings::read(&[&json!({"drylay": {
            "units": "metric", "standard": " house/standard.patio ",
            "findings": {"workspace": false, "deny": "warning", "show": "error", "hover": true},
            "trace": {"server": "off"}, "path": "/bin/drylay",
        }})]);
        assert_eq!(wrong, [] as [String; 0]);
        assert_eq!(set.units, Some(System::Metric));
        assert_eq!(set.standard.as_deref(), Some("house/standard.patio"));
        assert!(!set.workspace && set.repeats);
        assert_eq!((set.deny, set.show), (Severity::Warning, Severity::Error));
    }

    #[test]
    fn a_word_of_an_earlier_version_is_read() {
        let former = json!({"findings": {"deny": "advice"}});
        let (settings, reported) = Settings::read(&[&former]);
        assert_eq!(settings.deny, Severity::Advisory);
        let [only] = reported.as_slice() else {
            panic!("{reported:?}")
        };
        assert!(only.contains("`advice` is called `advisory` now"), "{only}");
    }

    #[test]
    fn what_is_wrong_is_told_and_the_usual_kept() {
        for (value, reported) in [
            (
                json!({"hints": {"mixes": "no"}}),
                "`drylay.hints.mixes` takes `true` or `false`, not `\"no\"`; it stays at `true`",
            ),
            (
                json!({"units": "feet"}),
                "`\"job\"`, `\"imperial\"` or `\"metric\"`, not `\"feet\"`",
            ),
            (json!({"standard": 7}), "the path of a file"),
            (
                json!({"hints": {"area": false}}),
                "no setting `drylay.hints.area`. Did you mean `drylay.hints.areas`?",
            ),
            (
                json!({"unit": "metric"}),
                "no setting `drylay.unit`. Did you mean `drylay.units`?",
            ),
            (
                json!({"findings": {"colour": 1}}),
                "no setting `drylay.findings.colour`.",
            ),
        ] {
            let (settings, wrong) = Settings::read(&[&value]);
            let [only] = wrong.as_slice() else {
                panic!("{value}: {wrong:?}")
            };
            assert!(only.contains(reported), "{only}");
            assert_eq!(settings, Settings::default(), "{value}");
        }
    }

    #[test]
    fn the_first_that_sets_it_counts() {
        let newest = json!({"units": "metric", "hints": {"areas": true}, "standard": null});
        let oldest = json!({
            "units": "imperial", "hints": {"areas": false, "falls": false},
            "standard": "house.patio", "findings": {"deny": "nothing"},
        });
        let (settings, wrong) = Settings::read(&[&newest, &json!(null), &oldest]);
        assert_eq!(settings.units, Some(System::Metric));
        assert_eq!(settings.standard.as_deref(), Some("house.patio"));
        assert!(settings.shows(HintKind::Areas) && !settings.shows(HintKind::Falls));
        assert_eq!(wrong, [] as [String; 0], "only the newest is told of");
        assert_eq!(Settings::read(&[&oldest, &newest]).1.len(), 1);
    }
}
