//! The figures of a take-off as one list, for tables and comparisons.

use super::figure_value::Value;
use super::trade;
use crate::analysis::Analysis;
use crate::geometry::Vector;
use crate::model::DrainKind;
use crate::quantities::{
    DrainFigures, Flight, MeasuredFigures, MixFigures, MoneyFigures, Order, ScheduleFigures,
    StepsFigures, SurfaceFigures, whole_units,
};
use crate::units::{System, show};

/// A figure and what it is of.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Figure {
    /// Shape, surface, steps, drain, mix, order, total, work, hire, cost, quote or
    /// what was measured.
    pub part: &'static str,
    /// The name of the shape, surface, flight, drain, mix, hire or line of the cost, or who
    /// quotes.
    pub name: String,
    /// The layer's role, `joints`, `dig`; empty for the whole part.
    pub item: &'static str,
    /// The material, if it is of one.
    pub material: String,
    /// What it is: `volume in place`.
    pub what: &'static str,
    /// The figure.
    pub value: Value,
}

/// Every figure of a take-off, in the order of the sheet.
pub(super) fn figure_list(analysis: &Analysis) -> Vec<Figure> {
    let figures = &analysis.figures;
    let system = analysis.job.heading.system();
    let mut list = List(Vec::new());
    for shape in figures.shapes.iter() {
        let of = Of::part("shape", &shape.name);
        list.add(&of, "area", Value::Area(shape.area_m2));
        list.add(&of, "perimeter", Value::Length(shape.perimeter_m));
    }
    for (index, surface) in figures.surfaces.iter().enumerate() {
        list.surface(surface, system);
        list.facets(analysis, index);
        list.water(analysis, index);
    }
    figures.steps.iter().for_each(|steps| list.steps(steps));
    for (index, drain) in figures.drains.iter().enumerate() {
        list.drain(drain);
        list.comes(analysis, index);
    }
    figures.mixes.iter().for_each(|mix| list.mix(mix));
    for order in figures.orders.iter() {
        list.order(order, system);
    }
    if figures.total.is_some() {
        list.add(&Of::part("total", ""), "cost", Value::Cost(figures.total));
    }
    if let Some(schedule) = &figures.schedule {
        list.work(schedule);
    }
    if let Some(money) = &figures.money {
        list.money(money);
    }
    let system = analysis.job.heading.system();
    for own in &figures.measured {
        list.measured(own, system);
    }
    list.0
}

/// What a figure is of.
struct Of<'a> {
    part: &'static str,
    name: &'a str,
    item: &'static str,
    material: &'a str,
}

impl<'a> Of<'a> {
    fn part(part: &'static str, name: &'a str) -> Of<'a> {
        Of {
            part,
            name,
            item: "",
            material: "",
        }
    }

    fn item(&self, item: &'static str, material: &'a str) -> Of<'a> {
        Of {
            item,
            material,
            ..*self
        }
    }
}

struct List(Vec<Figure>);

impl List {
    fn add(&mut self, of: &Of<'_>, what: &'static str, value: Value) {
        self.0.push(Figure {
            part: of.part,
            name: of.name.to_owned(),
            item: of.item,
            material: of.material.to_owned(),
            what,
            value,
        });
    }

    fn surface(&mut self, surface: &SurfaceFigures, system: System) {
        let whole = Of::part("surface", &surface.name);
        self.add(&whole, "area", Value::Area(surface.area_m2));
        if let Some(repeat) = &surface.repeat {
            let count = Value::Count(Some(repeat.count as f64), String::new());
            self.add(&whole, "in all", count);
            self.add(&whole, "area of one", Value::Area(Some(repeat.each_m2)));
            self.add(
                &whole,
                "centres apart",
                Value::Length(Some(repeat.centres_m)),
            );
            self.add(&whole, "gap", Value::Length(Some(repeat.gap_m)));
        }
        self.add(&whole, "fall", Value::Slope(surface.fall));
        let toward = surface.toward.map(Vector::bearing);
        self.add(&whole, "falls toward", Value::Bearing(toward));
        self.add(&whole, "drop", Value::Length(surface.drop_m));
        self.add(&whole, "highest level", Value::Level(surface.highest_m));
        self.add(&whole, "lowest level", Value::Level(surface.lowest_m));
        let (least, most) = surface.low_edge_steps_m.unzip();
        self.add(&whole, "low edge over ground", Value::Level(least));
        if least != most {
            self.add(&whole, "low edge over ground, at most", Value::Level(most));
        }
        self.add(&whole, "depth of build", Value::Length(surface.depth_m));
        for levels in &surface.edge_levels {
            let of = whole.item("levels at", &levels.edge);
            self.add(&of, "start", Value::Level(Some(levels.start_m)));
            self.add(&of, "end", Value::Level(Some(levels.end_m)));
            self.add(&of, "lowest", Value::Level(Some(levels.lowest_m)));
            self.add(&of, "highest", Value::Level(Some(levels.highest_m)));
        }
        for layer in &surface.layers {
            let of = whole.item(layer.role.word(), &layer.material);
            self.add(&of, "area", Value::Area(layer.needed_m2()));
            if !layer.role.is_sheet() {
                self.add(&of, "thickness", Value::Length(layer.thickness_m));
                self.add(&of, "volume in place", Value::Volume(layer.volume_m3));
                self.add(&of, "loose volume", Value::Volume(layer.loose_volume_m3));
                self.add(&of, "mass", Value::Mass(layer.mass_kg));
            }
            if layer.units.is_some() {
                let count = |units: Option<f64>| Value::Count(units, String::new());
                self.add(&of, "pieces", count(layer.units.map(whole_units)));
                self.add(&of, "pieces with waste", count(layer.units_with_waste()));
            }
            for size in &layer.sizes {
                let words = trade::size(size, system);
                let of = whole.item("size", &words);
                self.add(&of, "share of the area", Value::Share(Some(size.share)));
                let pieces = Value::Count(Some(whole_units(size.units)), String::new());
                self.add(&of, "pieces", pieces);
            }
        }
        for border in &surface.borders {
            let of = whole.item("border", &border.material);
            self.add(&of, "area", Value::Area(border.area_m2));
            self.add(&of, "length", Value::Length(border.length_m));
            self.add(&of, "width", Value::Length(border.width_m));
            self.add(&of, "units", Value::Count(border.units, String::new()));
            self.add(&of, "volume in place", Value::Volume(border.volume_m3));
            self.add(&of, "mass", Value::Mass(border.mass_kg));
            self.add(&of, "joints", Value::Volume(border.joint_m3));
            if let Some(mitres) = &border.mitres {
                let corners = Value::Count(Some(mitres.corners as f64), String::new());
                self.add(&of, "mitred corners", corners);
                self.add(
                    &of,
                    "length of mitre cuts",
                    Value::Length(Some(mitres.cut_m)),
                );
            }
            if let Some(taper) = &border.taper {
                self.add(&of, "tightest joint", Value::Length(Some(taper.tight_m)));
                self.add(&of, "widest joint", Value::Length(Some(taper.wide_m)));
            }
        }
        if let Some(layout) = &surface.layout {
            let of = whole.item("lay-out", "");
            let count = |count: usize| Value::Count(Some(count as f64), String::new());
            self.add(&of, "whole units", count(layout.whole));
            self.add(&of, "cut units", count(layout.cut));
            if layout.over_valleys > 0 {
                self.add(&of, "units cut along valleys", count(layout.over_valleys));
            }
            self.add(&of, "units to cut from", count(layout.cut_from));
            self.add(&of, "units to buy", count(layout.stock()));
            self.add(&of, "length of cuts", Value::Length(Some(layout.cut_m)));
            if let Some(least) = &layout.least {
                self.add(
                    &of,
                    "smallest piece, along",
                    Value::Length(Some(least.length_m)),
                );
                self.add(
                    &of,
                    "smallest piece, across",
                    Value::Length(Some(least.width_m)),
                );
                self.add(
                    &of,
                    "smallest piece, share",
                    Value::Share(Some(least.share)),
                );
            }
        }
        if let Some(joints) = &surface.joints {
            let of = whole.item("joints", joints.material.as_deref().unwrap_or_default());
            self.add(&of, "share of the area", Value::Share(joints.share));
            self.add(&of, "length", Value::Length(joints.length_m));
            self.add(&of, "volume in place", Value::Volume(joints.volume_m3));
            self.add(&of, "mass", Value::Mass(joints.mass_kg));
        }
        for edging in &surface.edgings {
            let of = whole.item("edging", &edging.material);
            self.add(&of, "length", Value::Length(edging.length_m));
            if let Some(footing) = &edging.footing {
                let of = whole.item("under the edging", &footing.material);
                self.add(&of, "bed", Value::Volume(footing.bed_m3));
                self.add(&of, "haunch", Value::Volume(footing.haunch_m3));
                self.add(&of, "volume in place", Value::Volume(footing.volume_m3));
                self.add(&of, "mass", Value::Mass(footing.mass_kg));
                self.add(&of, "bank volume", Value::Volume(footing.bank_m3));
                self.add(&of, "loose volume", Value::Volume(footing.loose_m3));
            }
        }
        if surface.isolation_joint_m.is_some() {
            let of = whole.item("isolation joint", "");
            self.add(&of, "length", Value::Length(surface.isolation_joint_m));
        }
        if surface.dug.is_some() {
            let (dig, of) = (surface.dig.as_ref(), whole.item("dig", ""));
            self.add(
                &of,
                "bank volume",
                Value::Volume(dig.map(|dig| dig.bank_m3)),
            );
            self.add(
                &of,
                "loose volume",
                Value::Volume(dig.and_then(|dig| dig.loose_m3)),
            );
            self.add(&of, "fill", Value::Volume(dig.map(|dig| dig.fill_m3)));
        }
    }

    fn drain(&mut self, drain: &DrainFigures) {
        let whole = Of::part("drain", &drain.name);
        let is_run = drain.kind.is_some_and(DrainKind::is_run);
        if is_run {
            self.add(&whole, "length", Value::Length(drain.length_m));
            self.add(&whole, "fall", Value::Slope(drain.fall));
            self.add(&whole, "invert at the head", Value::Level(drain.head_m));
            self.add(&whole, "invert at the outlet", Value::Level(drain.outlet_m));
        } else {
            self.add(&whole, "invert", Value::Level(drain.head_m));
        }
        if drain.kind == Some(DrainKind::Pipe) {
            self.add(&whole, "least cover", Value::Length(drain.cover_m()));
        }
        if drain.roughness.is_some() {
            self.add(&whole, "carries", Value::Flow(drain.carries_m3s));
        }
        if drain.is_existing {
            return;
        }
        if drain.is_dug() {
            let (dig, of) = (drain.dig.as_ref(), whole.item("dig", ""));
            let deepest = dig.map(|dig| dig.deepest_m);
            self.add(&of, "depth", Value::Length(deepest));
            self.add(
                &of,
                "bank volume",
                Value::Volume(dig.map(|dig| dig.bank_m3)),
            );
            let loose = dig.and_then(|dig| dig.loose_m3);
            let again = dig.map(|dig| dig.filled_in_m3).filter(|again| *again > 0.0);
            if again.is_some() {
                self.add(&of, "filled in again", Value::Volume(again));
            }
            self.add(&of, "loose volume", Value::Volume(loose));
        }
        for (item, stuff) in [("laid in", &drain.bedding), ("filled with", &drain.fill)] {
            let Some(stuff) = stuff else { continue };
            let of = whole.item(item, &stuff.material);
            self.add(&of, "volume in place", Value::Volume(stuff.volume_m3));
            self.add(&of, "mass", Value::Mass(stuff.mass_kg));
        }
        if drain.fabric_m2.is_some() {
            let of = whole.item("wrapped in fabric", "");
            self.add(&of, "area", Value::Area(drain.fabric_m2));
        }
        if drain.fill.is_some() {
            self.add(
                &whole.item("storage", ""),
                "water held",
                Value::Volume(drain.storage_m3),
            );
        }
    }

    fn steps(&mut self, steps: &StepsFigures) {
        let whole = Of::part("steps", &steps.name);
        let flight = steps.flight.as_ref();
        let length = |of: fn(&Flight) -> f64| Value::Length(flight.map(of));
        let risers = flight.map(|flight| f64::from(flight.risers));
        self.add(&whole, "risers", Value::Count(risers, String::new()));
        self.add(&whole, "rise of each", length(|flight| flight.riser_m));
        self.add(&whole, "lowest riser", length(Flight::lowest_m));
        self.add(&whole, "total rise", length(|flight| flight.rise_m));
        let level = |of: fn(&Flight) -> f64| Value::Level(flight.map(of));
        self.add(&whole, "level of the foot", level(|flight| flight.foot_m));
        self.add(&whole, "level of the top", level(|flight| flight.top_m));
        self.add(&whole, "going", length(|flight| flight.going_m));
        self.add(&whole, "run", length(|flight| flight.run_m));
        self.add(&whole, "width", length(|flight| flight.width_m));
        let pitch = flight.map(|flight| flight.pitch_degrees);
        self.add(&whole, "pitch", Value::Angle(pitch));
        let stride = length(|flight| flight.stride_m);
        self.add(&whole, "two risers and a going", stride);
        let plan = flight.map(|flight| flight.plan_m2);
        self.add(&whole, "area that it stands on", Value::Area(plan));
        for (word, part) in steps.parts() {
            let of = whole.item(word, &part.material);
            if word != "core" {
                self.add(&of, "area", Value::Area(part.area_m2));
            }
            self.add(&of, "volume in place", Value::Volume(part.volume_m3));
            if part.loose_volume_m3.is_some() {
                let loose = Value::Volume(part.loose_volume_m3);
                self.add(&of, "loose volume", loose);
            }
            self.add(&of, "mass", Value::Mass(part.mass_kg));
            if part.pieces.is_some() {
                self.add(&of, "pieces", Value::Count(part.pieces, String::new()));
            }
        }
        if steps.base.is_some() {
            let (dig, of) = (steps.dig.as_ref(), whole.item("dig", ""));
            let bank = dig.map(|dig| dig.bank_m3);
            self.add(&of, "bank volume", Value::Volume(bank));
            let loose = dig.and_then(|dig| dig.loose_m3);
            self.add(&of, "loose volume", Value::Volume(loose));
            let fill = dig.map(|dig| dig.fill_m3);
            self.add(&of, "fill", Value::Volume(fill));
        }
    }

    /// The fall of each facet of a surface that falls to a drain.
    fn facets(&mut self, analysis: &Analysis, index: usize) {
        let Some(own) = analysis.job.surfaces.get(index) else {
            return;
        };
        let whole = Of::part("surface", &own.name.value);
        for facet in &own.facets {
            let edge = own.side_name(facet.tag);
            let of = whole.item("facet", &edge);
            self.add(&of, "fall", Value::Slope(Some(facet.plane.slope())));
        }
    }

    fn water(&mut self, analysis: &Analysis, index: usize) {
        let figures = analysis.figures.water.as_ref();
        let water = figures.and_then(|water| water.surfaces.get(index));
        let own = analysis.job.surfaces.get(index);
        let Some((own, water)) = own.filter(|own| !own.is_border()).zip(water) else {
            return;
        };
        let whole = Of::part("surface", &own.name.value);
        let of = whole.item("water", "");
        let runoff = water.runoff.as_ref().map(|runoff| runoff.value);
        self.add(&of, "runoff", Value::Share(runoff));
        self.add(&of, "weighted area", Value::Area(water.weighted_m2));
        for way in water.ways.iter().flatten() {
            let reported = way.described(&analysis.job, own);
            let of = whole.item("water", &reported);
            self.add(&of, "area", Value::Area(Some(way.area_m2)));
            self.add(&of, "share of the area", Value::Share(Some(way.share)));
            self.add(&of, "weighted area", Value::Area(way.weighted_m2));
            self.add(&of, "all that comes there", Value::Area(way.all.area_m2));
            self.add(&of, "all of it, weighted", Value::Area(way.all.weighted_m2));
            self.add(&of, "flow", Value::Flow(way.flow));
        }
    }

    /// What comes to a drain.
    fn comes(&mut self, analysis: &Analysis, index: usize) {
        let (job, figures) = (&analysis.job, analysis.figures.water.as_ref());
        let water = figures.and_then(|water| water.drains.get(index));
        let Some((own, water)) = job.drains.get(index).zip(water) else {
            return;
        };
        let whole = Of::part("drain", &own.name.value);
        for inflow in &water.inflows {
            let from = inflow.from.described(job);
            let of = whole.item("comes from", &from);
            self.add(&of, "area", Value::Area(inflow.amount.area_m2));
            self.add(&of, "weighted area", Value::Area(inflow.amount.weighted_m2));
        }
        let of = whole.item("comes to it", "");
        self.add(&of, "area", Value::Area(water.all.area_m2));
        self.add(&of, "weighted area", Value::Area(water.all.weighted_m2));
        self.add(&of, "flow", Value::Flow(water.flow));
        if let Some(soaking) = &water.soaking {
            let hours = |seconds: Option<f64>| Value::Hours(seconds.map(|own| own / 3600.0));
            let (need, built) = match soaking.is_whole {
                true => ("has to hold, empty in", "as built, empty in"),
                false => ("has to hold, half empty in", "as built, half empty in"),
            };
            self.add(&whole, "has to hold", Value::Volume(soaking.need_m3));
            self.add(&whole, need, hours(soaking.empties_need_s));
            self.add(&whole, built, hours(soaking.empties_built_s));
        }
    }

    fn mix(&mut self, mix: &MixFigures) {
        let whole = Of::part("mix", &mix.name);
        self.add(&whole, "volume in place", Value::Volume(mix.volume_m3));
        self.add(&whole, "volume mixed", Value::Volume(mix.mixed_m3));
        self.add(&whole, "batches", Value::Count(mix.batches, String::new()));
        for part in &mix.ingredients {
            let of = whole.item("ingredient", &part.material);
            self.add(&of, "mass", Value::Mass(part.mass_kg));
            self.add(&of, "loose volume", Value::Volume(part.loose_volume_m3));
            if let Some(pack) = &part.pack {
                self.add(&of, "packs", Value::Count(part.packs, pack.clone()));
            }
        }
        self.add(
            &whole.item("ingredient", "water"),
            "mass",
            Value::Mass(mix.water_kg),
        );
    }

    fn order(&mut self, order: &Order, system: System) {
        let name = order.name(system);
        let of = Of::part("order", "").item("", &name);
        let unit = || order.unit.clone();
        let ordered = order.ordered.map(|ordered| ordered.to_f64());
        self.add(&of, "needed", Value::Count(order.needed, unit()));
        self.add(&of, "ordered", Value::Count(ordered, unit()));
        self.add(&of, "price", Value::Price(order.price, unit()));
        self.add(&of, "cost", Value::Cost(order.cost));
        if let Some(delivery) = &order.delivery {
            self.add(
                &of,
                "loads",
                Value::Count(Some(delivery.loads), String::new()),
            );
            self.add(&of, "delivery", Value::Cost(Some(delivery.cost)));
        }
        if let Some(size) = &order.size {
            self.add(&of, "size", Value::Words(Some(size.shown(system))));
        }
        if order.supplier.is_some() {
            self.add(&of, "supplier", Value::Words(order.supplier.clone()));
        }
    }

    fn measured(&mut self, own: &MeasuredFigures, system: System) {
        let whole = Of::part("measured", &own.what);
        let slope = own.plane.as_ref().map(|plane| plane.slope());
        let worst = own.worst_point().map(|(_, off)| off);
        self.add(&whole, "mean too high", Value::Level(own.mean_m));
        self.add(&whole, "worst too high", Value::Level(worst));
        self.add(&whole, "fall as built", Value::Slope(slope));
        if let Some(takes) = &own.takes {
            let of = whole.item(takes.role.word(), &takes.material);
            self.add(&of, "thickness", Value::Length(Some(takes.mean_m)));
            self.add(&of, "least", Value::Length(Some(takes.least_m)));
            self.add(&of, "greatest", Value::Length(Some(takes.greatest_m)));
            self.add(&of, "more in place", Value::Volume(takes.more_m3));
        }
        for point in &own.points {
            let [east, north] = [point.at.x, point.at.y].map(|metres| show::length(metres, system));
            let at = format!("({east}, {north})");
            let of = whole.item("point", &at);
            self.add(&of, "level", Value::Level(point.level_m));
            self.add(&of, "design", Value::Level(point.design_m));
            self.add(&of, "too high", Value::Level(point.off_m));
        }
    }

    fn work(&mut self, schedule: &ScheduleFigures) {
        let of = Of::part("work", "");
        let moment = |moment: Option<i64>| moment.map(|moment| schedule.moment(moment));
        self.add(&of, "hours", Value::Hours(schedule.hours));
        self.add(&of, "done", Value::Words(moment(schedule.end_min)));
        if let Some(end) = schedule.end_with_rain_min {
            self.add(&of, "done with rain", Value::Words(moment(Some(end))));
        }
    }

    fn money(&mut self, money: &MoneyFigures) {
        for hire in &money.hires {
            let of = Of::part("hire", &hire.name);
            let days = hire.days.map(f64::from);
            self.add(&of, "kept", Value::Count(days, "day".to_owned()));
            self.add(&of, "hire", Value::Cost(hire.hire));
            if hire.delivery.is_some() {
                self.add(&of, "delivery", Value::Cost(hire.delivery));
            }
            self.add(&of, "cost", Value::Cost(hire.cost));
        }
        for line in &money.costs {
            let of = Of::part("cost", &line.name);
            self.add(&of, "amount", Value::Cost(line.amount));
            self.add(&of, "per area", Value::PerArea(line.per_area));
        }
        for quote in &money.quotes {
            let of = Of::part("quote", quote.by.as_deref().unwrap_or_default());
            self.add(&of, "asked", Value::Cost(quote.asked));
            self.add(&of, "saved", Value::Cost(quote.saved));
            if quote.saved_per_hour.is_some() {
                self.add(&of, "saved per hour", Value::Cost(quote.saved_per_hour));
            }
        }
    }
}
