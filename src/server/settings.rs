//! What the user sets in the editor.

use serde_json::Value;

use crate::ide::HintKind;

/// The settings of a session.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Settings {
    /// The kinds of hint that are switched off.
    hidden: Vec<HintKind>,
}

impl Settings {
    /// Reads `{"hints": {"areas": false}}`, with or without a `drylay` around
    /// it. What is not set, or set to something that is no yes or no, is on.
    pub fn read(value: &Value) -> Settings {
        let own = value.get("drylay").unwrap_or(value);
        let is_off = |kind: &HintKind| {
            own.get("hints").and_then(|hints| hints.get(kind.setting()))
                == Some(&Value::Bool(false))
        };
        Settings {
            hidden: HintKind::ALL.iter().copied().filter(is_off).collect(),
        }
    }

    /// Whether hints of this kind are shown.
    pub fn shows(&self, kind: HintKind) -> bool {
        !self.hidden.contains(&kind)
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
            (json!({"hints": {"mixes": "no"}}), vec![]),
            (json!({"other": {"hints": {"areas": false}}}), vec![]),
        ] {
            let settings = Settings::read(&value);
            for kind in HintKind::ALL {
                assert_eq!(
                    settings.shows(*kind),
                    !hidden.contains(kind),
                    "{value} {kind:?}"
                );
            }
        }
    }
}
