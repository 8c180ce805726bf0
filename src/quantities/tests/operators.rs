//! For `tests/outside/operators`, which asks whether a test would find a wrong
//! operator in a figure's terms: it runs the tests of this room once for each
//! operator, changed. So that nothing is built anew, the operator is changed
//! where the tests run, by the place of the source at which it stands.

use std::fs::OpenOptions;
use std::io::Write;
use std::panic::Location;
use std::sync::LazyLock;

/// The place whose operator is to be changed: `src/quantities/dig.rs:90:41`.
static CHANGED: LazyLock<Option<String>> = LazyLock::new(|| variable("DRYLAY_CHANGED_OPERATOR"));

/// The file that every place with an operator is written to.
static LISTED: LazyLock<Option<String>> = LazyLock::new(|| variable("DRYLAY_LISTED_OPERATORS"));

fn variable(name: &str) -> Option<String> {
    std::env::var(name).ok()
}

/// The operation on two numbers, or the opposite one where that is asked for.
#[track_caller]
pub(crate) fn operate(sign: &str, left: f64, right: f64) -> f64 {
    let is_changed = match (&*CHANGED, &*LISTED) {
        (None, None) => false,
        (changed, listed) => {
            let place = Location::caller().to_string();
            if let Some(path) = listed {
                list(path, &place, sign);
            }
            changed.as_ref() == Some(&place)
        }
    };
    match (sign, is_changed) {
        ("+", false) | ("-", true) => left + right,
        ("-", false) | ("+", true) => left - right,
        ("*", false) | ("/", true) => left * right,
        _ => left / right,
    }
}

fn list(path: &str, place: &str, sign: &str) {
    let file = OpenOptions::new().create(true).append(true).open(path);
    // In one go, for the tests run side by side.
    let line = format!("{place} {sign}\n");
    file.unwrap().write_all(line.as_bytes()).unwrap();
}
