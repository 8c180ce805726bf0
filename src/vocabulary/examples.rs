//! Examples in the units and the money of the job that they are shown in.

use std::borrow::Cow;
use std::sync::LazyLock;

use rustc_hash::FxHashMap;

use super::{Key, SECTIONS};
use crate::units::{Currency, System, find_unit};

/// The signs of money that examples are written with.
const SIGNS: [char; 3] = ['$', '£', '€'];

/// Every key that has an example in both systems, by its example.
static BY_EXAMPLE: LazyLock<FxHashMap<&'static str, &'static Key>> = LazyLock::new(|| {
    let keys = SECTIONS.iter().flat_map(|kind| kind.keys);
    let shown = keys.filter(|key| key.twin.is_some() || key.example.contains(SIGNS));
    shown.map(|key| (key.example, key)).collect()
});

impl Key {
    /// The key's example in the units of a system and in a currency.
    pub fn example_in(&self, system: System, currency: Currency) -> Cow<'static, str> {
        let twin = self.twin.filter(|twin| units_of(twin) == Some(system));
        in_currency(twin.unwrap_or(self.example), currency)
    }
}

/// An example with the sign of a currency.
pub fn in_currency(example: &'static str, currency: Currency) -> Cow<'static, str> {
    match example.contains(SIGNS) {
        true => Cow::Owned(example.replace(SIGNS, currency.symbol())),
        false => Cow::Borrowed(example),
    }
}

/// A text whose examples of keys, each between backticks, are in the units of a
/// system and in a currency; nothing if they are already, or there are none.
pub fn examples_in(text: &str, system: System, currency: Currency) -> Option<String> {
    let mut is_other = false;
    let parts = text.split('`').map(|part| match BY_EXAMPLE.get(part) {
        Some(key) => {
            let example = key.example_in(system, currency);
            is_other |= example != part;
            example
        }
        None => Cow::Borrowed(part),
    });
    let parts: Vec<Cow<'_, str>> = parts.collect();
    is_other.then(|| parts.join("`"))
}

/// The system that the units of a text are of, which stand behind numbers;
/// nothing if they are of none.
fn units_of(text: &str) -> Option<System> {
    let words = text.split(|c: char| c.is_whitespace() || ",()/".contains(c));
    let words: Vec<&str> = words.filter(|word| !word.is_empty()).collect();
    let feet = |word: &&str| word.ends_with('\'').then_some(System::Imperial);
    let behind_number = |pair: &[&str]| match pair {
        [number, unit] if number.ends_with(|c: char| c.is_ascii_digit()) => match *unit {
            "°F" | "sq" | "cu" => Some(System::Imperial),
            "°C" => Some(System::Metric),
            unit => find_unit(unit)?.system,
        },
        _ => None,
    };
    let mut feet = words.iter().filter_map(feet);
    feet.next()
        .or_else(|| words.windows(2).find_map(behind_number))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_example_with_units_is_there_in_both_systems() {
        for kind in SECTIONS {
            for key in kind.keys.iter().filter(|key| key.word != "accept") {
                let (own, word) = (units_of(key.example), key.word);
                let twin = key.twin.and_then(units_of);
                assert_eq!(own.map(System::other), twin, "{} {word}", kind.word);
                if let Some(twin) = key.twin {
                    assert!(twin.starts_with(word), "{} {word}", kind.word);
                }
            }
        }
    }

    #[test]
    fn a_text_has_its_examples_in_the_units_and_money_of_the_job() {
        let text = "write it as in `price $42/ton`, and not `42`";
        for (system, currency, wanted) in [
            (System::Imperial, Currency::Usd, None),
            (
                System::Metric,
                Currency::Gbp,
                Some("write it as in `price £42/t`, and not `42`"),
            ),
            (
                System::Imperial,
                Currency::Eur,
                Some("write it as in `price €42/ton`, and not `42`"),
            ),
        ] {
            assert_eq!(examples_in(text, system, currency).as_deref(), wanted);
        }
        assert_eq!(
            examples_in("`price` of how much?", System::Metric, Currency::Gbp),
            None
        );
    }
}
