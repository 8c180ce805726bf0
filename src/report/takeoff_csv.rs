//! The take-off as a table for a spreadsheet: one figure a line, in SI and in
//! the units of the job.

use super::Summary;
use super::figure_list::{Figure, figure_list};
use super::figure_value::Value;
use super::trade::price_decimal;
use crate::analysis::Analysis;
use crate::units::unit::{GALLON, LITRE, MINUTE, SQUARE_FOOT, SQUARE_METRE};
use crate::units::{Money, Quantity, System, Unit};

/// The heads of the columns.
const HEADS: [&str; 9] = [
    "part",
    "name",
    "item",
    "material",
    "figure",
    "value",
    "unit",
    "job value",
    "job unit",
];

/// The take-off of a job as comma-separated values, the first line the heads
/// of the columns, the next two how many errors and warnings the check finds.
/// A figure that is not known is left empty.
pub fn takeoff_csv(analysis: &Analysis) -> String {
    let system = analysis.job.heading.system();
    let mut table = csv::Writer::from_writer(Vec::new());
    // Writing into memory never fails.
    let _ = table.write_record(HEADS);
    let standing = Summary::standing(analysis);
    for (what, count) in [("errors", standing.errors), ("warnings", standing.warnings)] {
        let count = count.to_string();
        let cells = ["check", "", "", "", what, &count, "", &count, ""];
        let _ = table.write_record(cells);
    }
    for figure in figure_list(analysis) {
        let _ = table.write_record(cells(&figure, system).map(|cell| harmless(&cell)));
    }
    let bytes = table.into_inner().unwrap_or_default();
    String::from_utf8(bytes).unwrap_or_default()
}

fn cells(figure: &Figure, system: System) -> [String; 9] {
    let ([value, unit], [job_value, job_unit]) = in_both(&figure.value, system);
    [
        figure.part.to_owned(),
        figure.name.clone(),
        figure.item.to_owned(),
        figure.material.clone(),
        figure.what.to_owned(),
        value,
        unit,
        job_value,
        job_unit,
    ]
}

/// A figure and its unit, in SI and as the job has it.
fn in_both(value: &Value, system: System) -> ([String; 2], [String; 2]) {
    if let Some((si, imperial)) = value.units() {
        let own = if system == System::Metric {
            si
        } else {
            imperial
        };
        let cell = |unit: &Unit| {
            let figure = value.number().map(|value| number(unit.from_base(value)));
            [figure.unwrap_or_default(), unit.symbol.to_owned()]
        };
        return (cell(si), cell(own));
    }
    let code = |money: &Money| money.currency.code().to_owned();
    let cell = match value {
        Value::Cost(money) => [
            money.map(Money::decimal).unwrap_or_default(),
            money.as_ref().map(code).unwrap_or_default(),
        ],
        Value::Price(price, unit) => {
            let price = price.as_ref();
            let per = price.and_then(|price| price.currency);
            let per = per.map(|currency| format!("{} per {unit}", currency.code()));
            [
                price.and_then(price_decimal).unwrap_or_default(),
                per.unwrap_or_default(),
            ]
        }
        Value::Flow(flow) => return flow_in_both(*flow, system),
        Value::PerArea(price) => return per_area(price.as_ref(), system),
        Value::Bearing(degrees) | Value::Angle(degrees) => {
            [degrees.map(number).unwrap_or_default(), "°".to_owned()]
        }
        Value::Hours(hours) => [hours.map(number).unwrap_or_default(), "h".to_owned()],
        Value::Words(words) => [words.clone().unwrap_or_default(), String::new()],
        Value::Count(count, unit) => [count.map(number).unwrap_or_default(), unit.clone()],
        other => [
            other.number().map(number).unwrap_or_default(),
            String::new(),
        ],
    };
    (cell.clone(), cell)
}

/// A flow and its unit: cubic metres a second, and litres a second or gallons
/// a minute.
fn flow_in_both(flow: Option<f64>, system: System) -> ([String; 2], [String; 2]) {
    let cell = |size: f64, unit: &str| {
        let figure = flow.map(|flow| number(flow / size)).unwrap_or_default();
        [figure, unit.to_owned()]
    };
    let own = match system {
        System::Imperial => (GALLON.size().to_f64() / MINUTE.size().to_f64(), "gal/min"),
        System::Metric => (LITRE.size().to_f64(), "L/s"),
    };
    (cell(1.0, "m3/s"), cell(own.0, own.1))
}

/// Money over area and its unit, for a square metre and as the job has it.
fn per_area(price: Option<&Quantity>, system: System) -> ([String; 2], [String; 2]) {
    let cell = |unit: &Unit| {
        let amount = price.and_then(|price| price.times(Quantity::one(unit)).ok());
        let amount = amount.and_then(|amount| Money::round(&amount));
        let per = |money: Money| format!("{} per {}", money.currency.code(), unit.symbol);
        [
            amount.map(Money::decimal).unwrap_or_default(),
            amount.map(per).unwrap_or_default(),
        ]
    };
    let own = match system {
        System::Imperial => &SQUARE_FOOT,
        System::Metric => &SQUARE_METRE,
    };
    (cell(&SQUARE_METRE), cell(own))
}

/// A number for a program, to twelve figures and without commas: the last
/// digits of a computed figure say nothing.
pub(super) fn number(value: f64) -> String {
    let rounded = format!("{value:.11e}").parse::<f64>();
    let sound = rounded.ok().filter(|value| value.is_finite());
    sound.map_or_else(String::new, |value| value.to_string())
}

/// What a spreadsheet may take for the beginning of a formula, in full width
/// too.
const FORMULA: &[char] = &['=', '+', '-', '@', '\t', '\r', '\n', '＝', '＋', '－', '＠'];

/// A cell that no spreadsheet takes for a formula, whatever blanks it begins
/// with.
pub(super) fn harmless(cell: &str) -> String {
    let is_number = cell.parse::<f64>().is_ok();
    let begins = cell.starts_with(FORMULA) || cell.trim_start().starts_with(FORMULA);
    match begins && !is_number {
        true => format!("'{cell}"),
        false => cell.to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use super::{harmless, number};

    #[test]
    fn numbers_have_twelve_figures() {
        for (value, text) in [
            (1.440_000_000_000_000_4, "1.44"),
            (-0.15, "-0.15"),
            (1.0 / 3.0, "0.333333333333"),
            (13_253.258_587_378_396, "13253.2585874"),
            (f64::NAN, ""),
        ] {
            assert_eq!(number(value), text);
        }
    }

    #[test]
    fn no_cell_is_a_formula() {
        for (cell, safe) in [
            ("=1+1", "'=1+1"),
            ("@sum", "'@sum"),
            ("-0.15", "-0.15"),
            ("-x", "'-x"),
            ("base", "base"),
            (" =1+1", "' =1+1"),
            ("\n=1+1", "'\n=1+1"),
            ("＝1+1", "'＝1+1"),
            ("＠sum", "'＠sum"),
            ("2 = 2", "2 = 2"),
        ] {
            assert_eq!(harmless(cell), safe);
        }
    }
}
