//! Jobs made by hand, for the tests of this room.

use std::sync::Arc;

use crate::findings::{FileId, Place, SectionRef};
use crate::geometry::{Outline, Plane, Point, Tag};
use crate::materials::find;
use crate::model::{
    Build, Contact, EdgeLabel, Ground, Job, Joint, Layer, Material, Mix, MixPart, Origin, Pack,
    Shape, Side, Sold, Sourced, Stated, Substance, Surface,
};
use crate::syntax::SectionId;
use crate::text::Span;
use crate::units::{Currency, Number, Quantity, find_unit, read_number, unit};
use crate::vocabulary::Role;

const SECTION: SectionRef = SectionRef {
    file: FileId(0),
    section: SectionId(0),
};

/// A line of a spec that is not there.
pub(crate) fn line(number: u32) -> Place {
    Place {
        section: SECTION,
        span: Span::new(number * 100, number * 100 + 50),
    }
}

/// A quantity as a spec writes it: `6 in`, `125 lb/cu ft`, `12 %`, `1:60`,
/// `$38/ton`, `4`.
pub(crate) fn quantity(text: &str) -> Quantity {
    let text = text.trim();
    if let Some(positive) = text.strip_prefix('-') {
        return quantity(positive).negated().unwrap();
    }
    if let Some(sign) = text
        .chars()
        .next()
        .and_then(|c| Currency::parse(c.encode_utf8(&mut [0; 4])))
    {
        let amount = text.trim_start_matches(sign.symbol());
        let (amount, per) = amount.split_once('/').unwrap_or((amount, ""));
        let money = Quantity::money(read_number(amount).unwrap(), sign);
        return match find_unit(per) {
            Some(unit) => money
                .divided_by(Quantity::of(Number::ONE, unit).unwrap())
                .unwrap(),
            None => money,
        };
    }
    if let Some(run) = text.strip_prefix("1:") {
        let run = read_number(run).unwrap();
        return Quantity::proportion(Number::ONE.divided_by(run).unwrap());
    }
    let end = text
        .find(|c: char| c.is_ascii_alphabetic() || c == '%')
        .unwrap_or(text.len());
    let (number, unit) = text.split_at(end);
    let number = read_number(number.trim()).unwrap();
    match unit.split_once('/') {
        None if unit.is_empty() => Quantity::plain(number),
        None if unit == "%" => Quantity::percent(number).unwrap(),
        None => Quantity::of(number, find_unit(unit).expect(unit)).unwrap(),
        Some((above, below)) => Quantity::of(number, find_unit(above).expect(above))
            .unwrap()
            .divided_by(Quantity::of(Number::ONE, find_unit(below).expect(below)).unwrap())
            .unwrap(),
    }
}

/// The same in base units.
pub(crate) fn si(text: &str) -> f64 {
    quantity(text).si()
}

/// A stated quantity.
pub(crate) fn stated(text: &str) -> Stated<Quantity> {
    Stated::new(quantity(text), line(1))
}

/// A sourced quantity.
pub(crate) fn sourced(text: &str) -> Option<Sourced<Quantity>> {
    Some(Sourced {
        value: quantity(text),
        origin: Origin::Line(line(2)),
    })
}

/// How a material is sold: `by ton`, `by each`, `by bag of 94 lb`.
pub(crate) fn sold(text: &str) -> Option<Sourced<Sold>> {
    let text = text.strip_prefix("by ").unwrap_or(text);
    let value = match text.split_once(" of ") {
        Some((word, content)) => Sold::Pack(Pack {
            word: word.to_owned(),
            content: quantity(content),
            place: Some(line(4)),
        }),
        None if text == "each" => Sold::Each,
        None => Sold::Unit(find_unit(text).expect(text)),
    };
    Some(Sourced {
        value,
        origin: Origin::Line(line(3)),
    })
}

/// A material of which nothing but the name is known.
pub(crate) fn material(name: &str) -> Material {
    Material {
        name: name.to_owned(),
        place: Some(line(4)),
        section: None,
        changes_catalogue: false,
        stock: None,
        called: None,
        supplier: None,
        kind: None,
        density: None,
        compacted: None,
        particle_density: None,
        bulking: None,
        mass: None,
        class: None,
        durability: None,
        absorption: None,
        strength: None,
        unit: None,
        least_side: None,
        sold: None,
        makes: None,
        step: None,
        covers: None,
        price: None,
        price_pack: None,
        delivery: None,
        minimum: None,
        waste: None,
        unread: Vec::new(),
    }
}

/// A material as the catalogue has it for a job in feet.
pub(crate) fn catalogued(name: &str) -> Material {
    let own = find(name).expect(name);
    let figure =
        |given: &Option<crate::materials::Sourced>| given.and_then(|given| sourced(given.text));
    Material {
        kind: Some(own.kind),
        density: figure(&own.density),
        compacted: figure(&own.compacted),
        particle_density: figure(&own.particle_density),
        bulking: figure(&own.bulking),
        sold: sold(own.sold.imperial.by),
        makes: figure(&own.sold.imperial.makes),
        waste: figure(&own.waste),
        ..material(name)
    }
}

/// A mix of parts of materials, by volume.
pub(crate) fn mix(name: &str, parts: &[(&str, Material)]) -> Mix {
    Mix {
        name: Stated::new(name.to_owned(), line(5)),
        section: SECTION,
        uses: Vec::new(),
        parts: parts
            .iter()
            .map(|(amount, material)| MixPart {
                amount: stated(amount),
                name: Stated::new(material.name.clone(), line(6)),
                material: Some(Arc::new(material.clone())),
            })
            .collect(),
        are_parts_unread: false,
        parts_place: None,
        unlabelled: None,
        measure: Default::default(),
        mortar_type: None,
        strength: None,
        consistency: None,
        water: None,
        voids: None,
        pot_life: None,
        batch: None,
        laid_in: None,
        waste: None,
        is_waste_unread: false,
    }
}

impl From<Material> for Substance {
    fn from(material: Material) -> Substance {
        Substance::Material(Arc::new(material))
    }
}

impl From<Mix> for Substance {
    fn from(mix: Mix) -> Substance {
        Substance::Mix(Arc::new(mix))
    }
}

/// A layer; an empty thickness is none.
pub(crate) fn layer(role: Role, of: impl Into<Substance>, thickness: &str) -> Layer {
    Layer {
        unread: Vec::new(),
        role: Stated::new(role, line(7)),
        of: Stated::new(of.into(), line(7)),
        thickness: (!thickness.is_empty()).then(|| stated(thickness)),
        state: None,
        lifts: None,
        joints: None,
        corners_jointed: None,
        range: None,
        beyond: None,
        waste: None,
        existing: None,
        lap: None,
        turned_up: None,
        is_misread: false,
        place: line(7),
    }
}

/// A rectangle with its south-west corner at a point; its sides are tagged 0
/// south, 1 east, 2 north, 3 west.
pub(crate) fn rectangle(x: &str, y: &str, width: &str, depth: &str) -> Outline {
    Outline::rectangle(Point::new(si(x), si(y)), si(width), si(depth), [0, 1, 2, 3]).unwrap()
}

/// A rectangle at the origin.
pub(crate) fn area_of(width: &str, depth: &str) -> Outline {
    rectangle("0 m", "0 m", width, depth)
}

/// A shape with this outline, its edges named by their tags.
pub(crate) fn shape(name: &str, outline: Outline) -> Shape {
    let last = outline.edges().map(|edge| edge.tag).max().unwrap_or(0);
    Shape {
        name: Stated::new(name.to_owned(), line(8)),
        section: SECTION,
        outline: Some(outline),
        labels: (0..=last)
            .map(|tag| EdgeLabel {
                owner: None,
                also: Vec::new(),
                name: Some(format!("side-{tag}")),
                place: line(8),
            })
            .collect(),
        closing: None,
        sketch: None,
        lost: Vec::new(),
    }
}

/// A surface over an outline, all edges free, made of these layers.
pub(crate) fn surface(name: &str, outline: Outline, layers: Vec<Layer>) -> Surface {
    let own = shape(name, outline.clone());
    let side = |tag| Side {
        edge: tag,
        contact: Contact::Free,
    };
    let build = Build {
        name: Stated::new(format!("{name}-build"), line(9)),
        section: SECTION,
        layers,
        has_lost_line: false,
        permeable: None,
        voids: None,
    };
    Surface {
        index: 0,
        has_lost_line: false,
        meets_unread: false,
        laid_unread: false,
        name: Stated::new(name.to_owned(), line(10)),
        section: SECTION,
        place: line(10),
        sides: (0..).take(own.labels.len()).map(side).collect(),
        shape: Some(Stated::new(Arc::new(own), line(11))),
        outline: Some(outline),
        overlaps: Vec::new(),
        used_for: Default::default(),
        used_for_place: None,
        seating: None,
        accessible: None,
        front: None,
        exit: None,
        covered: None,
        written: Vec::new(),
        meets: Vec::new(),
        channels: Vec::new(),
        drained: Vec::new(),
        fall_to: None,
        facets: Vec::new(),
        border_of: None,
        repeat: None,
        repeat_unread: false,
        others: Vec::new(),
        doors: Vec::new(),
        guards: Vec::new(),
        handrail: None,
        levels: Vec::new(),
        fall: None,
        plane: None,
        build: Some(Stated::new(Arc::new(build), line(12))),
        laid: None,
        joint: None,
        borders: Vec::new(),
        edgings: Vec::new(),
        held: Vec::new(),
        isolation_joint: None,
        movement_joints: None,
        weeps: None,
        runoff: None,
        water: None,
        notes: Vec::new(),
    }
}

impl Surface {
    /// With an edge against the building.
    pub fn meeting(mut self, tag: Tag) -> Surface {
        self.sides[tag as usize].contact = Contact::Building;
        self
    }

    /// With a finished plane that falls to the south from a level at the
    /// origin.
    pub fn falling(mut self, level: &str, slope: &str) -> Surface {
        let south = crate::geometry::Vector::new(0.0, -1.0);
        self.plane = Some(Plane::falling(si(level), Point::ORIGIN, south, si(slope)));
        self
    }

    /// With joints of a width; an empty depth is none.
    pub fn jointed(mut self, width: &str, depth: &str, filling: Option<Substance>) -> Surface {
        self.joint = Some(Joint {
            width: stated(width),
            depth: (!depth.is_empty()).then(|| stated(depth)),
            filling: filling.map(|filling| Stated::new(filling, line(13))),
            place: line(13),
        });
        self
    }
}

/// A job of surfaces, in feet and dollars.
pub(crate) fn job(surfaces: Vec<Surface>) -> Job {
    let mut job = Job::default();
    job.heading.written_imperial = true;
    job.heading.currency = Some(Stated::new(Currency::Usd, line(14)));
    for surface in &surfaces {
        if let Some(shape) = &surface.shape {
            let name = shape.value.name.value.as_str().into();
            Arc::make_mut(&mut job.shapes).insert(name, Arc::clone(&shape.value));
        }
    }
    job.surfaces = Arc::new(surfaces.into_iter().map(Arc::new).collect());
    job
}

/// A job of one layer of a material over so many square feet, a foot deep
/// north, which is what most tests of ordering want.
pub(crate) fn job_of(
    role: Role,
    of: impl Into<Substance>,
    square_feet: &str,
    thickness: &str,
) -> Job {
    let outline = area_of(&format!("{square_feet} ft"), "1 ft");
    job(vec![surface(
        "court",
        outline,
        vec![layer(role, of, thickness)],
    )])
}

impl Job {
    /// With level ground.
    pub fn on_ground(mut self, level: &str) -> Job {
        self.site.ground = Some(Ground {
            plane: Plane::level(si(level)),
            levels: Vec::new(),
            places: vec![line(15)],
        });
        self
    }
}

/// So many of a unit, from base units.
pub(crate) fn in_unit(value: Option<f64>, symbol: &str) -> f64 {
    value.map_or(f64::NAN, |value| {
        find_unit(symbol).unwrap_or(&unit::METRE).from_base(value)
    })
}

/// Whether two figures agree to a relative tolerance.
pub(crate) fn close(found: f64, expected: f64, tolerance: f64) -> bool {
    (found - expected).abs() <= tolerance * expected.abs().max(1e-9)
}
