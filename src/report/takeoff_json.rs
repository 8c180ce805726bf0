//! The take-off as JSON, for programs: in SI, the unit in the key. What is
//! not known is null.

use crate::report::json;
use serde::Serialize;

use super::as_built_json::{Measured, measured};
use super::drains_json::{DrainLine, drains};
use super::facets_json::{FacetLine, facets};
use super::laying_json::{Border, Footing, Layout, PieceSize, border, footing, layout, piece_size};
use super::money_json::{Cost, Hire, Quote, Work, cost, hire, listed, quote, work};
use super::standing::Standing;
use super::steps_json::{Steps, steps};
use super::trade::price_decimal;
use super::water_json::{Draining, water};
use super::{cautions, unknown};
use crate::analysis::Analysis;
use crate::geometry::Vector;
use crate::quantities::{
    DigFigures, EdgeLevels, JointFigures, LayerFigures, MixFigures, Order, ShapeFigures,
    SurfaceFigures,
};
use crate::units::{Money, System};

/// The take-off of a job as one JSON document.
pub fn takeoff_json(analysis: &Analysis) -> String {
    let figures = &analysis.figures;
    let money = figures.money.as_deref();
    let document = Document {
        version: 1,
        job: job(analysis),
        check: Standing::of(analysis),
        shapes: figures.shapes.iter().map(|own| shape(own)).collect(),
        surfaces: surfaces(analysis),
        steps: (!figures.steps.is_empty()).then(|| {
            let all = figures.steps.iter();
            all.map(|own| steps(&analysis.job, own)).collect()
        }),
        drains: drains(&analysis.job, figures),
        mixes: figures.mixes.iter().map(|own| mix(own)).collect(),
        orders: figures.orders.iter().map(|own| order(own)).collect(),
        total: figures.total.map(Money::decimal),
        work: figures.schedule.as_deref().map(work),
        hires: listed(money, |money| &money.hires, hire),
        costs: listed(money, |money| &money.costs, cost),
        quotes: listed(money, |money| &money.quotes, quote),
        measured: (!figures.measured.is_empty())
            .then(|| figures.measured.iter().map(measured).collect()),
        unknown: unknown(analysis),
        cautions: cautions(analysis),
    };
    json::written(&document)
}

/// What `drylay takeoff --format json` writes: SI, the unit in the key, null where a figure is not known.
#[derive(Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(super) struct Document<'a> {
    version: u32,
    job: Job<'a>,
    /// Nothing should be ordered from a spec with errors.
    check: Standing,
    /// The shapes, in order.
    shapes: Vec<Shape<'a>>,
    /// The surfaces, in order.
    surfaces: Vec<Surface<'a>>,
    /// The flights of steps; left out where there are none.
    #[serde(skip_serializing_if = "Option::is_none")]
    steps: Option<Vec<Steps<'a>>>,
    /// The drains; left out where there are none.
    #[serde(skip_serializing_if = "Option::is_none")]
    drains: Option<Vec<DrainLine<'a>>>,
    /// What each mix is made of, the water too.
    mixes: Vec<Mix<'a>>,
    /// What to buy, with waste, in whole units of sale.
    orders: Vec<OrderLine<'a>>,
    /// The orders' costs and deliveries, in the job's currency; null where one of them is not known.
    total: Option<String>,
    /// The schedule in short; left out where nothing is said of work.
    #[serde(skip_serializing_if = "Option::is_none")]
    work: Option<Work>,
    /// What is hired; left out where nothing is.
    #[serde(skip_serializing_if = "Option::is_none")]
    hires: Option<Vec<Hire<'a>>>,
    /// The cost by heading; left out where there is no budget.
    #[serde(skip_serializing_if = "Option::is_none")]
    costs: Option<Vec<Cost<'a>>>,
    /// What others ask for the job; left out where there are none.
    #[serde(skip_serializing_if = "Option::is_none")]
    quotes: Option<Vec<Quote<'a>>>,
    /// What was measured, beside its design; left out where nothing was.
    #[serde(skip_serializing_if = "Option::is_none")]
    measured: Option<Vec<Measured<'a>>>,
    /// Why figures are null.
    unknown: Vec<String>,
    /// What to heed on site; no findings.
    cautions: Vec<String>,
}

/// What the job says of itself.
#[derive(Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
struct Job<'a> {
    title: Option<&'a str>,
    reference: Option<&'a str>,
    /// As written: a day.
    date: Option<&'a str>,
    /// `imperial` or `metric`: how the sheets show figures. Here all are in SI.
    units: &'static str,
    region: &'static str,
    /// As ISO 4217 writes it.
    currency: &'static str,
}

/// A shape, cuts taken off.
#[derive(Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
struct Shape<'a> {
    name: &'a str,
    area_m2: Option<f64>,
    perimeter_m: Option<f64>,
}

/// So many of one shape.
#[derive(Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
struct Repeat {
    /// How many there are in all.
    count: usize,
    /// The area of one.
    each_m2: f64,
    /// From the centre of one to that of the next.
    centres_m: f64,
    /// From the edge of one to that of the next, at the least.
    gap_m: f64,
}

/// A surface and what it is built of.
#[derive(Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
struct Surface<'a> {
    name: &'a str,
    shape: Option<&'a str>,
    area_m2: Option<f64>,
    perimeter_m: Option<f64>,
    /// The surface that it borders, where it is what a border on a build of
    /// its own stands on; left out of every other.
    #[serde(skip_serializing_if = "Option::is_none")]
    border_of: Option<&'a str>,
    /// How its shape comes again; left out where it does not.
    #[serde(skip_serializing_if = "Option::is_none")]
    repeat: Option<Repeat>,
    /// A ratio: 0.02 is 1:50.
    fall: Option<f64>,
    /// The way it falls, in degrees from north, clockwise.
    toward_deg: Option<f64>,
    /// From its highest point to its lowest.
    drop_m: Option<f64>,
    highest_m: Option<f64>,
    lowest_m: Option<f64>,
    /// One to each edge, where it falls to a drain; left out where it has one
    /// plane.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    facets: Vec<FacetLine>,
    /// The level at the ends of each edge that has a name.
    edge_levels: Vec<EdgeLevel<'a>>,
    /// How far its low edge lies above the ground, where that is least;
    /// negative below.
    low_edge_step_m: Option<f64>,
    /// The same where that is most.
    greatest_low_edge_step_m: Option<f64>,
    /// Of all layers.
    depth_m: Option<f64>,
    /// From the top down.
    layers: Vec<Layer<'a>>,
    /// From the outside in; left out where there are none.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    borders: Vec<Border<'a>>,
    /// How its units lie; left out where it is not laid out.
    #[serde(skip_serializing_if = "Option::is_none")]
    layout: Option<Layout>,
    joints: Option<Joints<'a>>,
    /// How long it meets buildings.
    building_m: Option<f64>,
    isolation_joint_m: Option<f64>,
    /// What holds its edges.
    edgings: Vec<Edging<'a>>,
    dig: Option<Dig>,
    /// Where its water goes; left out where nothing of that is known.
    #[serde(skip_serializing_if = "Option::is_none")]
    water: Option<Draining<'a>>,
}

/// The level along an edge; on an arc the lowest and highest may lie between its ends.
#[derive(Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
struct EdgeLevel<'a> {
    edge: &'a str,
    start_m: f64,
    end_m: f64,
    lowest_m: f64,
    highest_m: f64,
}

/// A layer.
#[derive(Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
struct Layer<'a> {
    /// `paving`, `bed`, `base` and so on.
    role: &'static str,
    material: &'a str,
    /// Whether it is there already; then nothing of it is ordered.
    existing: bool,
    /// Under the paving and beyond its edges, shared ground counted once.
    area_m2: Option<f64>,
    /// Of a membrane or fabric, laps counted.
    sheet_m2: Option<f64>,
    /// As built.
    thickness_m: Option<f64>,
    /// As built.
    volume_m3: Option<f64>,
    /// As delivered.
    loose_volume_m3: Option<f64>,
    mass_kg: Option<f64>,
    /// The pieces of paving, without waste.
    units: Option<f64>,
    units_with_waste: Option<f64>,
    /// Of ashlar how many of each size, without waste; else empty.
    sizes: Vec<Size>,
}

/// A size of ashlar.
#[derive(Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
struct Size {
    length_m: f64,
    width_m: f64,
    /// Of the area, joints counted.
    share: f64,
    units: f64,
}

/// The joints of the paving.
#[derive(Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
struct Joints<'a> {
    /// Of the area.
    share: Option<f64>,
    depth_m: Option<f64>,
    length_m: Option<f64>,
    volume_m3: Option<f64>,
    mass_kg: Option<f64>,
    /// What fills them; null where nothing does.
    material: Option<&'a str>,
}

/// An edging.
#[derive(Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
struct Edging<'a> {
    material: &'a str,
    length_m: Option<f64>,
    /// What it stands in; left out where nothing is said of that.
    #[serde(skip_serializing_if = "Option::is_none")]
    concrete: Option<Footing<'a>>,
}

/// What is dug and filled.
#[derive(Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(super) struct Dig {
    /// As it lies in the ground.
    bank_m3: f64,
    /// As carted away.
    loose_m3: Option<f64>,
    /// Where the ground lies below the underside.
    fill_m3: f64,
    area_m2: f64,
    depth_m: f64,
}

/// A mix.
#[derive(Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
struct Mix<'a> {
    name: &'a str,
    /// In place.
    volume_m3: Option<f64>,
    /// With waste.
    mixed_m3: Option<f64>,
    batches: Option<f64>,
    ingredients: Vec<Part<'a>>,
    water_kg: Option<f64>,
}

/// An ingredient of a mix.
#[derive(Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
struct Part<'a> {
    material: &'a str,
    mass_kg: Option<f64>,
    loose_volume_m3: Option<f64>,
    packs: Option<f64>,
    /// What it is sold in, if it is sold in packs.
    pack: Option<&'a str>,
}

/// What to buy of a material.
#[derive(Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
struct OrderLine<'a> {
    material: &'a str,
    /// The size of one piece; null where it is not bought by its size, or that is not known.
    size: Option<PieceSize>,
    /// Who supplies it; null where the spec does not say.
    supplier: Option<&'a str>,
    /// In the unit of sale, waste counted.
    needed: Option<f64>,
    /// Rounded up to what is sold.
    ordered: Option<f64>,
    /// The unit of sale.
    unit: &'a str,
    /// For one unit, in the job's currency.
    price: Option<String>,
    /// Without delivery.
    cost: Option<String>,
    /// Null where nothing is said of it.
    delivery: Option<Delivery>,
}

/// How it comes.
#[derive(Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
struct Delivery {
    loads: f64,
    cost: String,
}

fn job(analysis: &Analysis) -> Job<'_> {
    let heading = &analysis.job.heading;
    Job {
        title: heading.title.as_ref().map(|stated| stated.value.as_str()),
        reference: heading
            .reference
            .as_ref()
            .map(|stated| stated.value.as_str()),
        date: heading.date.as_ref().map(|stated| stated.value.as_str()),
        units: match heading.system() {
            System::Imperial => "imperial",
            System::Metric => "metric",
        },
        region: heading.region().word(),
        currency: heading.currency().code(),
    }
}

fn shape(shape: &ShapeFigures) -> Shape<'_> {
    Shape {
        name: &shape.name,
        area_m2: shape.area_m2,
        perimeter_m: shape.perimeter_m,
    }
}

fn surfaces(analysis: &Analysis) -> Vec<Surface<'_>> {
    let (job, figures) = (&analysis.job, &analysis.figures);
    let all = job.surfaces.iter().zip(figures.surfaces.iter()).enumerate();
    let all = all.map(|(index, (own, figured))| {
        let all_water = figures.water.as_ref();
        let flowing = all_water.and_then(|water| water.surfaces.get(index));
        Surface {
            water: flowing
                .filter(|_| !own.is_border())
                .map(|flowing| water(job, own, flowing)),
            border_of: own
                .border_of
                .and_then(|index| job.surfaces.get(index))
                .map(|of| of.name.value.as_str()),
            facets: facets(own),
            ..surface(figured)
        }
    });
    all.collect()
}

fn surface(surface: &SurfaceFigures) -> Surface<'_> {
    let edgings = surface.edgings.iter();
    Surface {
        name: &surface.name,
        shape: surface.shape.as_deref(),
        area_m2: surface.area_m2,
        perimeter_m: surface.perimeter_m,
        border_of: None,
        repeat: surface.repeat.as_ref().map(|own| Repeat {
            count: own.count,
            each_m2: own.each_m2,
            centres_m: own.centres_m,
            gap_m: own.gap_m,
        }),
        fall: surface.fall.map(signless),
        toward_deg: surface.toward.map(bearing_deg),
        drop_m: surface.drop_m.map(signless),
        highest_m: surface.highest_m.map(signless),
        lowest_m: surface.lowest_m.map(signless),
        facets: Vec::new(),
        edge_levels: surface.edge_levels.iter().map(edge_level).collect(),
        low_edge_step_m: surface.low_edge_steps_m.map(|(least, _)| signless(least)),
        greatest_low_edge_step_m: surface.low_edge_steps_m.map(|(_, most)| signless(most)),
        depth_m: surface.depth_m,
        layers: surface.layers.iter().map(layer).collect(),
        borders: surface.borders.iter().map(border).collect(),
        layout: surface.layout.as_ref().map(layout),
        joints: surface.joints.as_ref().map(joints),
        building_m: surface.building_m,
        isolation_joint_m: surface.isolation_joint_m,
        edgings: edgings
            .map(|edging| Edging {
                material: &edging.material,
                length_m: edging.length_m,
                concrete: edging.footing.as_ref().map(footing),
            })
            .collect(),
        dig: surface.dig.as_ref().map(dig),
        water: None,
    }
}

/// A way of the plan in degrees from north, clockwise, to a millionth: its
/// last digits say nothing.
fn bearing_deg(way: Vector) -> f64 {
    let degrees = (way.bearing() * 1e6).round() / 1e6;
    signless(degrees.rem_euclid(360.0))
}

fn edge_level(levels: &EdgeLevels) -> EdgeLevel<'_> {
    EdgeLevel {
        edge: &levels.edge,
        start_m: signless(levels.start_m),
        end_m: signless(levels.end_m),
        lowest_m: signless(levels.lowest_m),
        highest_m: signless(levels.highest_m),
    }
}

fn layer(layer: &LayerFigures) -> Layer<'_> {
    Layer {
        role: layer.role.word(),
        material: &layer.material,
        existing: layer.is_existing,
        area_m2: layer.area_m2,
        sheet_m2: layer.sheet_m2,
        thickness_m: layer.thickness_m,
        volume_m3: layer.volume_m3,
        loose_volume_m3: layer.loose_volume_m3,
        mass_kg: layer.mass_kg,
        units: layer.units,
        units_with_waste: layer.units_with_waste(),
        sizes: layer
            .sizes
            .iter()
            .map(|size| Size {
                length_m: size.length_m,
                width_m: size.width_m,
                share: size.share,
                units: size.units,
            })
            .collect(),
    }
}

fn joints(joints: &JointFigures) -> Joints<'_> {
    Joints {
        share: joints.share,
        depth_m: joints.depth_m,
        length_m: joints.length_m,
        volume_m3: joints.volume_m3,
        mass_kg: joints.mass_kg,
        material: joints.material.as_deref(),
    }
}

/// What is dug and filled.
pub(super) fn dig(dig: &DigFigures) -> Dig {
    Dig {
        bank_m3: signless(dig.bank_m3),
        loose_m3: dig.loose_m3.map(signless),
        fill_m3: signless(dig.fill_m3),
        area_m2: dig.area_m2,
        depth_m: dig.depth_m,
    }
}

/// A number of which nothing has no sign: no `-0.0`.
fn signless(number: f64) -> f64 {
    number + 0.0
}

fn mix(mix: &MixFigures) -> Mix<'_> {
    let ingredients = mix.ingredients.iter();
    Mix {
        name: &mix.name,
        volume_m3: mix.volume_m3,
        mixed_m3: mix.mixed_m3,
        batches: mix.batches,
        ingredients: ingredients
            .map(|part| Part {
                material: &part.material,
                mass_kg: part.mass_kg,
                loose_volume_m3: part.loose_volume_m3,
                packs: part.packs,
                pack: part.pack.as_deref(),
            })
            .collect(),
        water_kg: mix.water_kg,
    }
}

fn order(order: &Order) -> OrderLine<'_> {
    OrderLine {
        material: &order.material,
        size: order.size.as_ref().map(piece_size),
        supplier: order.supplier.as_deref(),
        needed: order.needed,
        ordered: order.ordered.map(|ordered| ordered.to_f64()),
        unit: &order.unit,
        price: order.price.as_ref().and_then(price_decimal),
        cost: order.cost.map(Money::decimal),
        delivery: order.delivery.as_ref().map(|delivery| Delivery {
            loads: delivery.loads,
            cost: delivery.cost.decimal(),
        }),
    }
}
