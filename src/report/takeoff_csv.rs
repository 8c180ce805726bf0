//! The take-off as a table for a spreadsheet: one figure a line, in SI and in
//! the units of the job.

use super::trade::price_decimal;
use crate::analysis::Analysis;
use crate::quantities::{MixFigures, Order, SurfaceFigures};
use crate::units::unit::{
    CUBIC_METRE, CUBIC_YARD, FOOT, KILOGRAM, METRE, POUND, SQUARE_FOOT, SQUARE_METRE, Unit,
};
use crate::units::{Money, System};

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

/// What a figure measures: its unit in SI, and in a job in feet and pounds.
#[derive(Clone, Copy)]
struct Measure(&'static Unit, &'static Unit);

const LENGTH: Measure = Measure(&METRE, &FOOT);
const AREA: Measure = Measure(&SQUARE_METRE, &SQUARE_FOOT);
const VOLUME: Measure = Measure(&CUBIC_METRE, &CUBIC_YARD);
const MASS: Measure = Measure(&KILOGRAM, &POUND);

/// The take-off of a job as comma-separated values, the first line the heads
/// of the columns. A figure that is not known is left empty.
pub fn takeoff_csv(analysis: &Analysis) -> String {
    let figures = &analysis.figures;
    let mut table = Table {
        writer: csv::Writer::from_writer(Vec::new()),
        system: analysis.job.heading.system(),
    };
    table.line(HEADS.map(str::to_owned));
    for shape in &figures.shapes {
        let of = ["shape", &shape.name, "", ""];
        table.measure(of, "area", shape.area_m2, AREA);
        table.measure(of, "perimeter", shape.perimeter_m, LENGTH);
    }
    figures
        .surfaces
        .iter()
        .for_each(|surface| table.surface(surface));
    figures.mixes.iter().for_each(|mix| table.mix(mix));
    figures.orders.iter().for_each(|order| table.order(order));
    if let Some(total) = figures.total {
        table.money(["total", "", "", ""], "cost", Some(total));
    }
    let bytes = table.writer.into_inner().unwrap_or_default();
    String::from_utf8(bytes).unwrap_or_default()
}

struct Table {
    writer: csv::Writer<Vec<u8>>,
    system: System,
}

/// Part, name, item and material of a line.
type Of<'a> = [&'a str; 4];

impl Table {
    fn line(&mut self, cells: [String; 9]) {
        // Writing into memory never fails.
        let _ = self.writer.write_record(cells.map(|cell| harmless(&cell)));
    }

    fn figure(&mut self, of: Of<'_>, figure: &str, value: [String; 2], job: [String; 2]) {
        let [part, name, item, material] = of.map(str::to_owned);
        let ([value, unit], [job_value, job_unit]) = (value, job);
        let figure = figure.to_owned();
        self.line([
            part, name, item, material, figure, value, unit, job_value, job_unit,
        ]);
    }

    fn measure(&mut self, of: Of<'_>, figure: &str, value: Option<f64>, measure: Measure) {
        let Measure(si, imperial) = measure;
        let own = match self.system {
            System::Metric => si,
            System::Imperial => imperial,
        };
        let cell = |unit: &Unit| {
            let value = value.map(|value| number(unit.from_base(value)));
            [value.unwrap_or_default(), unit.symbol.to_owned()]
        };
        self.figure(of, figure, cell(si), cell(own));
    }

    /// A figure that is the same in both systems.
    fn count(&mut self, of: Of<'_>, figure: &str, value: Option<f64>, unit: &str) {
        let cell = [value.map(number).unwrap_or_default(), unit.to_owned()];
        self.figure(of, figure, cell.clone(), cell);
    }

    fn money(&mut self, of: Of<'_>, figure: &str, value: Option<Money>) {
        let unit = value.map(|money| money.currency.code().to_owned());
        let cell = [
            value.map(Money::decimal).unwrap_or_default(),
            unit.unwrap_or_default(),
        ];
        self.figure(of, figure, cell.clone(), cell);
    }

    fn surface(&mut self, surface: &SurfaceFigures) {
        let of = ["surface", &surface.name, "", ""];
        self.measure(of, "area", surface.area_m2, AREA);
        self.count(of, "fall", surface.fall, "");
        self.measure(of, "drop", surface.drop_m, LENGTH);
        self.measure(of, "highest level", surface.highest_m, LENGTH);
        self.measure(of, "lowest level", surface.lowest_m, LENGTH);
        self.measure(of, "low edge over ground", surface.low_edge_step_m, LENGTH);
        self.measure(of, "depth of build", surface.depth_m, LENGTH);
        for layer in &surface.layers {
            let of = ["surface", &surface.name, layer.role.word(), &layer.material];
            self.measure(of, "area", layer.sheet_m2.or(layer.area_m2), AREA);
            if !layer.role.is_sheet() {
                self.measure(of, "thickness", layer.thickness_m, LENGTH);
                self.measure(of, "volume in place", layer.volume_m3, VOLUME);
                self.measure(of, "loose volume", layer.loose_volume_m3, VOLUME);
                self.measure(of, "mass", layer.mass_kg, MASS);
            }
        }
        if let Some(joints) = &surface.joints {
            let material = joints.material.as_deref().unwrap_or_default();
            let of = ["surface", &surface.name, "joints", material];
            self.count(of, "share of the area", joints.share, "");
            self.measure(of, "length", joints.length_m, LENGTH);
            self.measure(of, "volume in place", joints.volume_m3, VOLUME);
            self.measure(of, "mass", joints.mass_kg, MASS);
        }
        for edging in &surface.edgings {
            let of = ["surface", &surface.name, "edging", &edging.material];
            self.measure(of, "length", edging.length_m, LENGTH);
        }
        if surface.isolation_joint_m.is_some() {
            let of = ["surface", &surface.name, "isolation joint", ""];
            self.measure(of, "length", surface.isolation_joint_m, LENGTH);
        }
        if surface.dug.is_some() {
            let dig = surface.dig.as_ref();
            let of = ["surface", &surface.name, "dig", ""];
            self.measure(of, "bank volume", dig.map(|dig| dig.bank_m3), VOLUME);
            self.measure(of, "loose volume", dig.and_then(|dig| dig.loose_m3), VOLUME);
            self.measure(of, "fill", dig.map(|dig| dig.fill_m3), VOLUME);
        }
    }

    fn mix(&mut self, mix: &MixFigures) {
        let of = ["mix", &mix.name, "", ""];
        self.measure(of, "volume in place", mix.volume_m3, VOLUME);
        self.measure(of, "volume mixed", mix.mixed_m3, VOLUME);
        self.count(of, "batches", mix.batches, "");
        for part in &mix.ingredients {
            let of = ["mix", &mix.name, "ingredient", &part.material];
            self.measure(of, "mass", part.mass_kg, MASS);
            self.measure(of, "loose volume", part.loose_volume_m3, VOLUME);
            if let Some(pack) = &part.pack {
                self.count(of, "packs", part.packs, pack);
            }
        }
        self.measure(
            ["mix", &mix.name, "ingredient", "water"],
            "mass",
            mix.water_kg,
            MASS,
        );
    }

    fn order(&mut self, order: &Order) {
        let of = ["order", "", "", &order.material];
        self.count(of, "needed", order.needed, &order.unit);
        self.count(
            of,
            "ordered",
            order.ordered.map(|ordered| ordered.to_f64()),
            &order.unit,
        );
        let price = order.price.as_ref();
        let per = price
            .and_then(|price| price.currency)
            .map(|currency| format!("{} per {}", currency.code(), order.unit));
        let cell = [
            price.and_then(price_decimal).unwrap_or_default(),
            per.unwrap_or_default(),
        ];
        self.figure(of, "price", cell.clone(), cell);
        self.money(of, "cost", order.cost);
        if let Some(delivery) = &order.delivery {
            self.count(of, "loads", Some(delivery.loads), "");
            self.money(of, "delivery", Some(delivery.cost));
        }
    }
}

/// A number for a program, to twelve figures and without commas: the last
/// digits of a computed figure say nothing.
fn number(value: f64) -> String {
    let rounded = format!("{value:.11e}").parse::<f64>();
    let sound = rounded.ok().filter(|value| value.is_finite());
    sound.map_or_else(String::new, |value| value.to_string())
}

/// A cell that no spreadsheet takes for a formula.
fn harmless(cell: &str) -> String {
    let is_number = cell.parse::<f64>().is_ok();
    match cell.starts_with(['=', '+', '-', '@', '\t', '\r']) && !is_number {
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
        ] {
            assert_eq!(harmless(cell), safe);
        }
    }
}
