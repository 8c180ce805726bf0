//! Names of rules and families on the command line.

use crate::model::nearest;
use crate::report::{explained_word, explained_words};
use crate::rules::{self, Family};

/// The name of a rule, if there is one of this name.
pub(crate) fn rule_name(text: &str) -> Result<String, String> {
    match rules::find(text) {
        Some(rule) => Ok(rule.name.to_owned()),
        None => Err(none_of("rule", text, rules::all().map(|rule| rule.name))),
    }
}

/// The name of a rule, or a word of the language.
pub(crate) fn rule_or_word(text: &str) -> Result<String, String> {
    if rules::find(text).is_some() || explained_word(text).is_some() {
        return Ok(text.to_owned());
    }
    let names = rules::all().map(|rule| rule.name).chain(explained_words());
    Err(format!(
        "{}. `drylay explain --search {text}` lists the rules that speak of it",
        none_of("rule or word of the language", text, names)
    ))
}

/// A family by its word.
pub(crate) fn family(text: &str) -> Result<Family, String> {
    let mut all = Family::ALL.iter();
    let words = || Family::ALL.iter().map(|family| family.word());
    let found = all.find(|family| family.word() == text);
    found.copied().ok_or_else(|| {
        let listed: Vec<&str> = words().collect();
        format!(
            "{}; there are {}",
            none_of("family", text, words()),
            crate::report::listed(&listed)
        )
    })
}

/// That there is none of this name, with the one that may be meant.
fn none_of<'a>(what: &str, text: &str, names: impl Iterator<Item = &'a str>) -> String {
    match nearest(text, names) {
        Some(near) => format!("there is no such {what}; did you mean {near}?"),
        None => format!("there is no such {what}"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_are_looked_up() {
        assert_eq!(rule_name("fall-flat").as_deref(), Ok("fall-flat"));
        let near = rule_name("fall-flt").unwrap_err();
        assert_eq!(near, "there is no such rule; did you mean fall-flat?");
        for word in [
            "surface",
            "edging",
            "sharp-sand",
            "herringbone",
            "fall-flat",
        ] {
            assert_eq!(rule_or_word(word).as_deref(), Ok(word));
        }
        let none = rule_or_word("gazebo").unwrap_err();
        assert!(none.contains("drylay explain --search gazebo"), "{none}");
        assert_eq!(family("base"), Ok(Family::Base));
        assert!(family("bass").unwrap_err().contains("did you mean base?"));
    }
}
