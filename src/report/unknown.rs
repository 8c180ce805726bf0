//! Why figures of a take-off are not known.

use indexmap::IndexMap;

use super::drains_unknown;
use super::words::listed;
use crate::analysis::Analysis;
use crate::model::{Job, Layer, Mix, Pattern, Steps, Substance, Surface};
use crate::quantities::{
    Figures, LayerFigures, MeasuredFigures, MixFigures, MoneyFigures, Order, PointMeasured,
    StepsFigures, SurfaceFigures, SurfaceWater, Trouble, TroubleKind, no_levels, tiling,
};

/// Why ground cannot be shared out where layers of two surfaces meet.
const WHOSE_GROUND: &str = "it meets ground of another surface, and which lies deeper is not known";

/// Why nobody knows which edges are free.
const WHERE_THEY_LIE: &str = "a surface that may lie beside it could not be read";

/// Every reason why a figure is not known, with the figures that it keeps
/// from being known: `no density of slate is known: mass of paving of court`.
pub fn unknown(analysis: &Analysis) -> Vec<String> {
    let (job, figures) = (&analysis.job, &analysis.figures);
    let mut reasons = Reasons::default();
    for (own, figures) in job.surfaces.iter().zip(figures.surfaces.iter()) {
        reasons.surface(job, own, figures, &analysis.figures.troubles);
    }
    for (own, figures) in job.drains.iter().zip(figures.drains.iter()) {
        for (why, figure) in drains_unknown::reasons(job, own, figures) {
            reasons.add(why, figure, &figures.name);
        }
    }
    for (own, figures) in job.steps.iter().zip(figures.steps.iter()) {
        reasons.steps(job, own, figures, &analysis.figures.troubles);
    }
    if let Some(water) = &figures.water {
        let all = job.surfaces.iter().zip(&water.surfaces);
        all.for_each(|(own, water)| reasons.water(own, water));
        for (own, water) in job.drains.iter().zip(&water.drains) {
            for (why, figure) in drains_unknown::of_water(own, water) {
                reasons.add(why, figure, &own.name.value);
            }
        }
    }
    for mix in figures.mixes.iter() {
        let own = job.mixes.get(mix.name.as_str()).map(AsRef::as_ref);
        reasons.mix(own, mix, &figures.troubles);
    }
    for order in figures.orders.iter() {
        reasons.order(job, order, figures);
    }
    let tasks = figures.schedule.iter().flat_map(|schedule| &schedule.tasks);
    for task in tasks {
        if let Some(why) = &task.unknown {
            reasons.add(why, "the days of", &task.name);
        }
    }
    if let Some(money) = &figures.money {
        reasons.money(money);
    }
    for own in &figures.measured {
        reasons.measured(job, own);
    }
    reasons.lines()
}

/// The figures that each reason keeps from being known: of each kind, such as
/// `cost of`, the names.
#[derive(Default)]
struct Reasons(IndexMap<String, IndexMap<String, Vec<String>>>);

impl Reasons {
    fn add(&mut self, why: impl Into<String>, figure: impl Into<String>, of: impl Into<String>) {
        let of_kind = self.0.entry(why.into()).or_default();
        let (names, name) = (of_kind.entry(figure.into()).or_default(), of.into());
        if !names.contains(&name) {
            names.push(name);
        }
    }

    fn lines(self) -> Vec<String> {
        let said = |(figure, names): (String, Vec<String>)| format!("{figure} {}", listed(&names));
        let lines = self.0.into_iter().map(|(why, figures)| {
            let figures: Vec<String> = figures.into_iter().map(said).collect();
            format!("{why}: {}", figures.join("; "))
        });
        lines.collect()
    }

    fn water(&mut self, own: &Surface, water: &SurfaceWater) {
        let name = &own.name.value;
        // That of a border goes with what it borders.
        if own.is_border() {
            return;
        }
        if water.ways.is_none() && own.outline.is_some() {
            let why = "no fall says which way water runs";
            self.add(why, "where the water goes of", name);
        }
        let comes = water.ways.iter().flatten().map(|way| way.all.area_m2);
        if comes.flatten().count() < water.ways.iter().flatten().count() {
            let why = "how surfaces that meet lie against one another is not known";
            self.add(why, "what comes onto", name);
        }
        if water.runoff.is_none() {
            self.add("what it is paved with is not known", "runoff of", name);
        }
    }

    fn surface(
        &mut self,
        job: &Job,
        own: &Surface,
        figures: &SurfaceFigures,
        troubles: &[Trouble],
    ) {
        let name = &figures.name;
        if own.shape.is_none() {
            self.add("no shape is stated", "areas of", name);
        } else if figures.area_m2.is_none() {
            self.add("its shape has no sound outline", "areas of", name);
        }
        if own.build.is_none() {
            self.add("no build is stated", "layers of", name);
        }
        self.levels(job, figures, own);
        let layers = own.build.iter().flat_map(|build| &build.value.layers);
        for (layer, figures) in layers.zip(&figures.layers) {
            self.layer(layer, figures, own, troubles);
        }
        let is_beside_what = own.has_unplaced_neighbour();
        for (border, own) in figures.borders.iter().zip(&own.borders) {
            let of = format!("{} of {name}", border.material);
            if border.units.is_none() && figures.area_m2.is_some() {
                let why = match own.unit_m() {
                    None => "the size of its units is not known",
                    Some(_) if is_beside_what => WHERE_THEY_LIE,
                    Some(_) => "where it runs cannot be made out",
                };
                self.add(why, "border of", of);
            }
        }
        let starts = own.laid.as_ref().is_some_and(|laid| laid.from.is_some());
        if starts && figures.layout.is_none() && figures.area_m2.is_some() {
            let why = match tiling(own) {
                None => "its units lie in no pattern, or their size is not known",
                Some(_) => "more than 20,000 units would be laid out",
            };
            self.add(why, "lay-out of", name);
        }
        for edging in &figures.edgings {
            if edging.length_m.is_none() && figures.area_m2.is_some() {
                let why = match own.has_unplaced_neighbour() {
                    true => WHERE_THEY_LIE,
                    false => "along which edges it runs could not be read",
                };
                self.add(why, "length of", format!("{} of {name}", edging.material));
            }
            let Some(footing) = edging.footing.as_ref() else {
                continue;
            };
            let of = format!("{} of {name}", edging.material);
            if footing.volume_m3.is_none() {
                let why = format!(
                    "the height and the breadth of {} are not known",
                    edging.material
                );
                self.add(why, "concrete for", of);
            } else if footing.bank_m3.is_none() {
                let why = "ground, levels or the depth of the build are not known";
                self.add(why, "dig for", of);
            }
        }
        if let Some(joints) = &figures.joints {
            if joints.share.is_none() {
                let pattern = own.laid.as_ref().map(|laid| laid.pattern.value);
                self.add(
                    match pattern {
                        Some(Pattern::Courses) => "units of all lengths are not counted",
                        Some(Pattern::Rings) => "the joints of rings taper, ring by ring",
                        _ => "the size of the units or stones is not known",
                    },
                    "joints of",
                    name,
                );
            } else if joints.volume_m3.is_some() && joints.mass_kg.is_none() {
                let filling = own.joint.as_ref().and_then(|joint| joint.filling.as_ref());
                match filling {
                    Some(filling) => {
                        self.add(
                            no_mass(&filling.value, troubles),
                            "mass in the joints of",
                            name,
                        );
                    }
                    None => self.add(
                        "what fills the joints is not stated",
                        "mass in the joints of",
                        name,
                    ),
                }
            }
        }
    }

    fn levels(&mut self, job: &Job, figures: &SurfaceFigures, own: &Surface) {
        let name = &figures.name;
        if figures.fall.is_none() && figures.area_m2.is_some() {
            let why = match own.entry("fall") {
                Some(_) => "the fall cannot be worked out",
                None => "no fall is stated",
            };
            self.add(why, "fall of", name);
        }
        if figures.highest_m.is_none() && figures.area_m2.is_some() {
            self.add(no_levels(own), "levels of", name);
        } else if job.site.ground.is_none() && figures.area_m2.is_some() {
            self.add("no ground level is stated", "step at the low edge of", name);
        }
        let is_dug = own.build.is_some() && figures.dug.is_some();
        let mut layers = own.build.iter().flat_map(|build| &build.value.layers);
        let has_new = layers.any(|layer| layer.existing.is_none());
        match &figures.dig {
            Some(dig) if dig.loose_m3.is_none() => {
                self.add(
                    "neither soil nor swell is stated",
                    "what is carted away from",
                    name,
                );
            }
            None if is_dug && figures.highest_m.is_none() => {
                self.add(no_levels(own), "dig for", name);
            }
            None if is_dug && job.site.ground.is_none() => {
                self.add("no ground level is stated", "dig for", name);
            }
            None if has_new && own.outline.is_some() && figures.dug.is_none() => {
                let unread = own.build.iter().flat_map(|build| &build.value.layers);
                if own.has_unplaced_neighbour() {
                    self.add(WHERE_THEY_LIE, "dig for", name);
                } else if own.meets_unread || unread.clone().any(|layer| layer.is_unread("beyond"))
                {
                    let why = "how far a layer goes past the edges is not known";
                    self.add(why, "dig for", name);
                } else {
                    self.add(WHOSE_GROUND, "dig for", name);
                }
            }
            None if is_dug && figures.depth_m.is_none() => {
                self.add("the thickness of a layer is not known", "dig for", name);
            }
            _ => {}
        }
    }

    fn layer(
        &mut self,
        layer: &Layer,
        figures: &LayerFigures,
        own: &Surface,
        troubles: &[Trouble],
    ) {
        let of = format!("{} of {}", figures.role.word(), own.name.value);
        if own.outline.is_some() && figures.area_m2.is_none() {
            let fault = troubles.iter().find(|trouble| {
                trouble.place == layer.place && matches!(trouble.kind, TroubleKind::Outline(_))
            });
            let unread = match layer.is_unread("beyond") {
                true => "how far it goes past the edges could not be read",
                false if own.has_unplaced_neighbour() => WHERE_THEY_LIE,
                false if own.meets_unread => "which edges meet the building is not known in full",
                false => WHOSE_GROUND,
            };
            self.add(
                fault.map_or_else(|| unread.to_owned(), why),
                "area of the",
                of,
            );
        } else if !figures.role.is_sheet() && figures.thickness_m.is_none() {
            self.add(
                "no thickness that can be used is stated",
                "volume of the",
                of,
            );
        } else if figures.volume_m3.is_some() && figures.mass_kg.is_none() {
            self.add(no_mass(&layer.of.value, troubles), "mass of the", of);
        }
    }

    fn steps(&mut self, job: &Job, own: &Steps, figures: &StepsFigures, troubles: &[Trouble]) {
        let name = &figures.name;
        if let Some(why) = figures.unknown {
            self.add(why, "all figures of", name);
            return;
        }
        let is_unfaced = figures.unfaced_m(own).is_some();
        for ((_, of), (word, part)) in own.made_of().zip(figures.parts()) {
            let of_part = format!("{word} of {name}");
            match (part.volume_m3, part.mass_kg) {
                (None, _) if is_unfaced && matches!(word, "core" | "risers") => {
                    let why = "treads with their bed are as thick as the risers are high";
                    self.add(why, "volume of the", of_part);
                }
                (None, _) if word == "core" => {
                    let why =
                        "how far down it reaches, or how thick treads and facing are, is not known";
                    self.add(why, "volume of the", of_part);
                }
                (None, _) if word == "risers" => {
                    let why = "neither its thickness nor the size of a brick is known";
                    self.add(why, "volume of the", of_part);
                }
                (None, _) if part.area_m2.is_none() => {
                    self.add("its size is not known", "volume of the", of_part);
                }
                (None, _) => self.add("no thickness is stated", "volume of the", of_part),
                (Some(_), None) => self.add(no_mass(of, troubles), "mass of the", of_part),
                _ => {}
            }
        }
        if figures.base.is_none() {
            return;
        }
        match &figures.dig {
            Some(dig) if dig.loose_m3.is_none() => {
                let why = "neither soil nor swell is stated";
                self.add(why, "what is carted away from", name);
            }
            Some(_) => {}
            None if job.site.ground.is_none() => {
                self.add("no ground level is stated", "dig for", name);
            }
            None => self.add(
                "how deep it is dug, there or for the surface that it stands on, is not known",
                "dig for",
                name,
            ),
        }
    }

    fn mix(&mut self, own: Option<&Mix>, figures: &MixFigures, troubles: &[Trouble]) {
        let name = &figures.name;
        if figures.volume_m3.is_none() {
            self.add(
                "what it is used for is not known in full",
                "volume of",
                name,
            );
        } else if figures.water_kg.is_none() && figures.volume_m3 != Some(0.0) {
            let why = own.map_or_else(|| not_gauged(name, troubles), |own| no_yield(own, troubles));
            self.add(why, "ingredients of", name);
        }
    }

    fn measured(&mut self, job: &Job, own: &MeasuredFigures) {
        let lacks = |of: fn(&PointMeasured) -> Option<f64>| {
            own.points.iter().any(|point| of(point).is_none())
        };
        if lacks(|point| point.design_m) {
            let why = "levels, fall or thicknesses give no design level";
            self.add(why, "how far off is", &own.what);
        }
        if lacks(|point| point.level_m) {
            let why = "what a reading counts from is not known";
            self.add(why, "levels measured in", &own.what);
        }
        if own.plane.is_none() {
            let surface = own.surface.and_then(|index| job.surfaces.get(index));
            let why = match surface.is_some_and(|surface| !surface.facets.is_empty()) {
                true => "a surface that falls to a drain lies in several planes",
                false => "a plane takes three readings that are not in line",
            };
            self.add(why, "fall as built of", &own.what);
        }
    }

    fn money(&mut self, money: &MoneyFigures) {
        for hire in &money.hires {
            if let Some(why) = hire.unknown {
                self.add(why, "what is paid for", &hire.name);
            }
        }
        for line in &money.costs {
            if let Some(why) = &line.unknown {
                self.add(why, "in the cost, the", &line.name);
            }
        }
    }

    fn order(&mut self, job: &Job, order: &Order, figures: &Figures) {
        let troubles = &figures.troubles;
        // In another currency it is priced, too.
        let is_foreign = |own: &Trouble| matches!(own.kind, TroubleKind::Currency { .. });
        let is_priced = figures.orders.iter().any(|order| order.price.is_some())
            || troubles.iter().any(is_foreign);
        let name = &order.material;
        let own = || troubles.iter().filter(|trouble| trouble.name == *name);
        let material = job.materials.get(name.as_str());
        if order.is_delivery_unread {
            self.add(
                "its delivery cannot be made out",
                "what it costs to bring",
                name,
            );
        }
        if material.is_some_and(|own| !own.is_sale_read()) {
            self.add("how it is sold cannot be made out", "order of", name);
            return;
        }
        if order.needed.is_none() {
            let trouble = own().find(|trouble| is_about_amount(&trouble.kind));
            let why = trouble.map_or_else(|| "what needs it is not known in full".to_owned(), why);
            self.add(why, "order of", name);
        }
        if order.price.is_none() {
            let stated = material.is_some_and(|own| own.price.is_some());
            let is_unread = material.is_some_and(|own| own.is_unread("price"));
            let trouble = own().find(|trouble| {
                matches!(
                    trouble.kind,
                    TroubleKind::PriceUnit { .. }
                        | TroubleKind::PricePack { .. }
                        | TroubleKind::Currency { .. }
                )
            });
            match trouble {
                Some(trouble) => self.add(why(trouble), "cost of", name),
                None if stated => self.add("its price cannot be used", "cost of", name),
                None if is_unread => self.add("its price cannot be made out", "cost of", name),
                None if is_priced => self.add("no price is stated", "cost of", name),
                None => self.add("no price is stated", "cost of", "every order"),
            }
        }
        for trouble in own() {
            match trouble.kind {
                TroubleKind::Currency { .. } => self.add(why(trouble), "total of", "the orders"),
                TroubleKind::Terms { what, .. } => {
                    self.add(why(trouble), format!("{what} of"), name)
                }
                _ => {}
            }
        }
    }
}

fn is_about_amount(kind: &TroubleKind) -> bool {
    matches!(
        kind,
        TroubleKind::NoDensity
            | TroubleKind::NoUnitSize
            | TroubleKind::NoRollSize
            | TroubleKind::NotConvertible { .. }
            | TroubleKind::BareContent { .. }
            | TroubleKind::NoParticleDensity
    )
}

/// Why a volume of something has no mass.
fn no_mass(substance: &Substance, troubles: &[Trouble]) -> String {
    match substance {
        Substance::Material(material) => format!("no density of {} is known", material.name),
        Substance::Mix(mix) => no_yield(mix, troubles),
        Substance::Unknown(name) => format!("{name} is defined nowhere"),
    }
}

/// Why it is not known what a mix makes.
fn no_yield(mix: &Mix, troubles: &[Trouble]) -> String {
    let name = &mix.name.value;
    if mix.are_parts_unread {
        return format!("the parts of {name} could not be read");
    }
    if mix.parts.is_empty() {
        return format!("the parts of {name} are not named");
    }
    match mix.parts.iter().find(|part| part.material.is_none()) {
        Some(part) => format!("{} is defined nowhere", part.name.value),
        None => not_gauged(name, troubles),
    }
}

fn not_gauged(name: &str, troubles: &[Trouble]) -> String {
    let grains = troubles.iter().find(|trouble| {
        matches!(
            trouble.kind,
            TroubleKind::NoParticleDensity | TroubleKind::NoDensity
        )
    });
    grains.map_or_else(|| format!("what {name} makes cannot be worked out"), why)
}

/// A trouble in words.
fn why(trouble: &Trouble) -> String {
    let name = &trouble.name;
    match &trouble.kind {
        TroubleKind::NoDensity | TroubleKind::NoMass => format!("no density of {name} is known"),
        TroubleKind::NoParticleDensity => {
            format!("the density of the grains of {name} is not known")
        }
        TroubleKind::NoUnitSize => format!("the size of one {name} is not known"),
        TroubleKind::NoRollSize => format!("the size of a roll or sheet of {name} is not known"),
        TroubleKind::NoHeight => format!("the height and the breadth of {name} are not known"),
        TroubleKind::NoJointShare => "the size of the units or stones is not known".to_owned(),
        TroubleKind::NotConvertible { sold, .. } => {
            format!("{name} is sold by the {sold}, which its use cannot be turned into")
        }
        TroubleKind::BareContent { pack, .. } => {
            format!("what one {pack} of {name} holds is stated without a unit")
        }
        TroubleKind::PriceUnit { sold, .. } => {
            format!(
                "the price of {name} cannot be turned into one for the {sold} that it is sold by"
            )
        }
        TroubleKind::PricePack { priced, sold } => {
            format!("the price of {name} is for a {priced}, and it is sold by the {sold}")
        }
        TroubleKind::Currency { priced, job } => {
            format!("the price of {name} is in {priced}, and the job in {job}")
        }
        TroubleKind::Terms { what, sold, .. } => {
            format!("the {what} of {name} cannot be turned into the {sold} that it is sold by")
        }
        TroubleKind::Outline(fault) => format!("the outline of its own cannot be made ({fault})"),
    }
}
