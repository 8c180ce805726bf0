//! What the parts of a check cost.

use std::time::Duration;

use super::columns::{Columns, Side};

/// What a part of the work cost.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Timing {
    /// The rule, or the step of the analysis.
    pub name: &'static str,
    /// The time it took, all its runs together.
    pub time: Duration,
    /// How often it was run.
    pub runs: usize,
}

/// The costs as a table, the longest first, with their sum.
pub fn timings(mut all: Vec<Timing>) -> String {
    all.sort_by(|one, other| (other.time, one.name).cmp(&(one.time, other.name)));
    let whole: Duration = all.iter().map(|timing| timing.time).sum();
    let heads = [
        ("", Side::Left),
        ("time", Side::Right),
        ("share", Side::Right),
        ("runs", Side::Right),
    ];
    let mut columns = Columns::new(&heads);
    for timing in &all {
        columns.row([
            timing.name.to_owned(),
            milliseconds(timing.time),
            share(timing.time, whole),
            timing.runs.to_string(),
        ]);
    }
    columns.row([
        "all, on all threads".to_owned(),
        milliseconds(whole),
        share(whole, whole),
        String::new(),
    ]);
    columns.text()
}

fn milliseconds(time: Duration) -> String {
    format!("{:.3} ms", time.as_secs_f64() * 1e3)
}

fn share(time: Duration, whole: Duration) -> String {
    match whole.is_zero() {
        true => String::new(),
        false => format!("{:.1} %", time.as_secs_f64() / whole.as_secs_f64() * 100.0),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_longest_comes_first() {
        let timing = |name, micros, runs| Timing {
            name,
            time: Duration::from_micros(micros),
            runs,
        };
        let table = timings(vec![
            timing("lip", 500, 3),
            timing("reading", 1500, 2),
            timing("base-thin", 500, 3),
        ]);
        let lines = [
            "                            time     share   runs",
            "  reading               1.500 ms    60.0 %      2",
            "  base-thin             0.500 ms    20.0 %      3",
            "  lip                   0.500 ms    20.0 %      3",
            "  all, on all threads   2.500 ms   100.0 %",
            "",
        ];
        assert_eq!(table, lines.join("\n"));
        assert!(timings(Vec::new()).ends_with("0.000 ms\n"));
    }
}
