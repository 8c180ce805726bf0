//! The tasks of a job: what there is to do for each surface, in the order in
//! which it is built up, and what else the spec states.

use super::super::{Figures, LayerFigures, SurfaceFigures};
use super::rates::{self, UsualRate};
use super::waits::is_loose;
use crate::findings::Place;
use crate::materials::Kind;
use crate::model::{Job, Layer, Pattern, Substance, Surface, Work};
use crate::units::Dimension;
use crate::vocabulary::{Role, Task};

/// What a task comes from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Source {
    /// What is built, by the verb of the trade.
    Surface(Task),
    /// A `task` of the spec, by its place among them.
    Other(usize),
}

/// How much there is to do, in each measure that is known.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Amounts {
    pub length_m: Option<f64>,
    pub area_m2: Option<f64>,
    pub volume_m3: Option<f64>,
    pub mass_kg: Option<f64>,
}

impl Amounts {
    /// The amount of a dimension, in base units.
    pub fn of(&self, dimension: Dimension) -> Option<f64> {
        match dimension {
            Dimension::LENGTH => self.length_m,
            Dimension::AREA => self.area_m2,
            Dimension::VOLUME => self.volume_m3,
            Dimension::MASS => self.mass_kg,
            _ => None,
        }
    }

    fn of_length(length_m: Option<f64>) -> Amounts {
        Amounts {
            length_m,
            ..Amounts::default()
        }
    }

    /// A share of it all.
    fn shared(self, share: f64) -> Amounts {
        let part = |own: Option<f64>| own.map(|own| own * share);
        Amounts {
            length_m: part(self.length_m),
            area_m2: part(self.area_m2),
            volume_m3: part(self.volume_m3),
            mass_kg: part(self.mass_kg),
        }
    }
}

/// A task as it is planned.
#[derive(Debug, Clone, PartialEq)]
pub struct Planned {
    /// What it comes from.
    pub source: Source,
    /// What it is called: `digging of court`.
    pub name: String,
    /// The surface that it is of, by its index.
    pub of: Option<usize>,
    /// The line that causes it.
    pub place: Place,
    /// How much there is to do.
    pub amounts: Amounts,
    /// How it usually goes.
    pub usual: Option<&'static UsualRate>,
    /// The planned tasks that it builds on.
    pub follows: Vec<usize>,
}

impl Planned {
    /// Its verb, if it is of a surface.
    pub fn task(&self) -> Option<Task> {
        match self.source {
            Source::Surface(task) => Some(task),
            Source::Other(_) => None,
        }
    }
}

/// More lifts than a layer is laid in.
const MOST_LIFTS: f64 = 40.0;

/// The tasks of a job in the order of its text. Services are located once,
/// before the first dig, unless the site says that they have been.
pub fn planned(job: &Job, work: &Work, figures: &Figures) -> Vec<Planned> {
    let mut all = Vec::new();
    let plain = |source, name: &str, place| Planned {
        source,
        name: name.to_owned(),
        of: None,
        place,
        amounts: Amounts::default(),
        usual: None,
        follows: Vec::new(),
    };
    let is_dug = job.surfaces.iter().any(|surface| has_dig(surface));
    if is_dug && job.site.services_located.is_none() {
        let locating = Source::Surface(Task::Locating);
        all.push(plain(locating, "locating services", work.place));
    }
    let located: Vec<usize> = (0..all.len()).collect();
    let surfaces = job.surfaces.iter().zip(figures.surfaces.iter());
    for (index, (surface, figures)) in surfaces.enumerate() {
        let mut plan = SurfacePlan {
            job,
            work,
            index,
            surface,
            figures,
            all: &mut all,
            last: located.clone(),
        };
        plan.plan();
    }
    for (index, other) in work.tasks.iter().enumerate() {
        all.push(plain(Source::Other(index), &other.what, other.place));
    }
    all
}

/// The tasks of one surface, as they are planned.
struct SurfacePlan<'a> {
    job: &'a Job,
    work: &'a Work,
    /// Its index.
    index: usize,
    surface: &'a Surface,
    figures: &'a SurfaceFigures,
    all: &'a mut Vec<Planned>,
    /// What its next task builds on.
    last: Vec<usize>,
}

impl SurfacePlan<'_> {
    fn plan(&mut self) {
        if has_dig(self.surface) {
            self.dig();
        }
        let Some(build) = &self.surface.build else {
            return;
        };
        let layers: Vec<(&Layer, &LayerFigures)> = build
            .value
            .layers
            .iter()
            .zip(&self.figures.layers)
            .collect();
        let new = |(own, _): &&(&Layer, &LayerFigures)| own.existing.is_none();
        let has_slab = layers
            .iter()
            .filter(new)
            .any(|(own, _)| own.role.value == Role::Slab);
        let mut is_edged = false;
        for (layer, own) in layers.iter().filter(new).rev().copied() {
            match layer.role.value {
                Role::Mesh if has_slab => {}
                role if role.is_sheet() => self.sheet(layer, own),
                Role::Base | Role::Subbase => self.lifts(layer, own),
                Role::Slab => self.slab((layer, own), &layers),
                Role::Surfacing | Role::Paving => {
                    if !std::mem::replace(&mut is_edged, true) {
                        self.edges();
                    }
                    self.paving(layer, own);
                }
                _ => {}
            }
        }
        if !is_edged {
            self.edges();
        }
        self.finish();
    }

    fn add(
        &mut self,
        task: Task,
        place: Place,
        amounts: Amounts,
        usual: Option<&'static UsualRate>,
    ) {
        self.add_part("", task, place, amounts, usual);
    }

    /// Adds a task of a part of the surface: `, base, lift 1 of 2`.
    fn add_part(
        &mut self,
        part: &str,
        task: Task,
        place: Place,
        amounts: Amounts,
        usual: Option<&'static UsualRate>,
    ) {
        let index = self.all.len();
        self.all.push(Planned {
            source: Source::Surface(task),
            name: format!("{} of {}{part}", task.word(), self.surface.name.value),
            of: Some(self.index),
            place,
            amounts,
            usual,
            follows: std::mem::replace(&mut self.last, vec![index]),
        });
    }

    fn is_rated(&self, task: Task) -> bool {
        self.work.rate(task).is_some()
    }

    fn dig(&mut self) {
        let dig = self.figures.dig.as_ref();
        let place = self.surface.place;
        let volume = |volume_m3| Amounts {
            volume_m3,
            area_m2: dig.map(|dig| dig.area_m2),
            ..Amounts::default()
        };
        let (bank, loose) = (dig.map(|dig| dig.bank_m3), dig.and_then(|dig| dig.loose_m3));
        let fill = dig.map(|dig| dig.fill_m3).filter(|fill| *fill > 0.0);
        if self.is_rated(Task::Stripping) {
            self.add(Task::Stripping, place, volume(None), None);
        }
        if bank.is_none_or(|bank| bank > 0.0) {
            let soil = self.job.site.soil.as_ref().map(|soil| soil.value.word);
            self.add(Task::Digging, place, volume(bank), digging_rate(soil));
            self.add(Task::Carting, place, volume(loose), Some(&rates::CARTING));
        }
        if fill.is_some() {
            let usual = Some(&rates::BACKFILLING);
            self.add(Task::Backfilling, place, volume(fill), usual);
        }
    }

    fn sheet(&mut self, layer: &Layer, own: &LayerFigures) {
        let part = format!(", {}", layer.role.value.word());
        let (amounts, usual) = (of_layer(own), Some(&rates::LINING));
        self.add_part(&part, Task::Lining, layer.place, amounts, usual);
    }

    /// A base is compacted lift by lift.
    fn lifts(&mut self, layer: &Layer, own: &LayerFigures) {
        let lifts = own.lifts.unwrap_or(1.0).clamp(1.0, MOST_LIFTS) as u32;
        let amounts = of_layer(own).shared(1.0 / f64::from(lifts));
        let part = format!(", {}", layer.role.value.word());
        for lift in 1..=lifts {
            let part = match lifts {
                1 => part.clone(),
                _ => format!("{part}, lift {lift} of {lifts}"),
            };
            let usual = Some(&rates::COMPACTING);
            self.add_part(&part, Task::Compacting, layer.place, amounts, usual);
        }
    }

    /// Forms, mesh, concrete, and the days that it takes to cure.
    fn slab(&mut self, (layer, own): (&Layer, &LayerFigures), layers: &[(&Layer, &LayerFigures)]) {
        let outline = self.surface.outline.as_ref();
        let free = outline.map(|outline| {
            let free = outline
                .edges()
                .filter(|edge| self.surface.is_free(edge.tag));
            free.map(|edge| edge.length()).sum()
        });
        let forms = Amounts::of_length(free);
        self.add(Task::Forming, layer.place, forms, Some(&rates::FORMING));
        let is_mesh = |layer: &Layer| layer.role.value == Role::Mesh && layer.existing.is_none();
        for (mesh, own) in layers.iter().filter(|(own, _)| is_mesh(own)) {
            self.sheet(mesh, own);
        }
        let usual = match layer.of.value.kind() {
            Some(Kind::Concrete) => &rates::POURING,
            _ => &rates::POURING_MIXED,
        };
        self.add(Task::Pouring, layer.place, of_layer(own), Some(usual));
        self.add(Task::Curing, layer.place, Amounts::default(), None);
    }

    /// Edging and channels, before what they hold.
    fn edges(&mut self) {
        let (surface, figures) = (self.surface, self.figures);
        for (edging, own) in surface.edgings.iter().zip(&figures.edgings) {
            let usual = match edging.material.value.kind() {
                Some(Kind::Edging) | None => &rates::EDGING,
                Some(_) => &rates::KERBING,
            };
            let amounts = Amounts::of_length(own.length_m);
            self.add(Task::Edging, own.place, amounts, Some(usual));
        }
        for channel in &surface.channels {
            let length = surface.outline.as_ref().map(|outline| {
                let along = outline.edges().filter(|edge| {
                    let side = surface.sides.get(edge.tag as usize);
                    side.is_some_and(|side| channel.value.1.contains(&side.edge))
                });
                along.map(|edge| edge.length()).sum()
            });
            let (amounts, usual) = (Amounts::of_length(length), Some(&rates::DRAINING));
            self.add(Task::Draining, channel.place, amounts, usual);
        }
    }

    fn paving(&mut self, layer: &Layer, own: &LayerFigures) {
        let amounts = Amounts {
            length_m: self.figures.perimeter_m,
            ..of_layer(own)
        };
        if layer.role.value == Role::Paving && self.is_rated(Task::DryLaying) {
            self.add(Task::DryLaying, layer.place, amounts, None);
        }
        let usual = laying_rate(self.surface, layer);
        self.add(Task::Laying, layer.place, amounts, Some(usual));
    }

    /// Joints, cleaning and sealing.
    fn finish(&mut self) {
        let area = Amounts {
            area_m2: self.figures.area_m2,
            ..Amounts::default()
        };
        let filling = self
            .surface
            .joint
            .as_ref()
            .and_then(|joint| joint.filling.as_ref());
        if let (Some(joints), Some(filling)) = (self.figures.new_joints(), filling) {
            let usual = match is_loose(&filling.value) {
                true => &rates::SWEEPING,
                false => &rates::POINTING,
            };
            self.add(Task::Jointing, joints.place, area, Some(usual));
        }
        let paving = self.figures.layer(Role::Paving);
        if let Some(paving) = paving.filter(|own| !own.is_existing) {
            self.add(Task::Cleaning, paving.place, area, Some(&rates::CLEANING));
        }
        let is_new = self.figures.layers.iter().any(|own| !own.is_existing);
        if is_new && self.is_rated(Task::Sealing) {
            self.add(Task::Sealing, self.surface.place, area, None);
        }
    }
}

/// Whether anything of a surface is dug for.
fn has_dig(surface: &Surface) -> bool {
    let layers = surface.build.iter().flat_map(|build| &build.value.layers);
    let mut new = layers.filter(|layer| layer.existing.is_none());
    let is_on_old = surface.build.iter().any(|build| {
        let lowest = build
            .value
            .layers
            .iter()
            .rev()
            .find(|own| !own.role.value.is_sheet());
        lowest.is_some_and(|lowest| lowest.existing.is_some())
    });
    !is_on_old && new.any(|layer| layer.thickness_m() > 0.0)
}

fn of_layer(own: &LayerFigures) -> Amounts {
    Amounts {
        length_m: None,
        area_m2: own.sheet_m2.or(own.area_m2),
        volume_m3: own.volume_m3,
        mass_kg: own.mass_kg,
    }
}

/// How a soil is dug by hand; rock goes by no rate that is usual.
fn digging_rate(soil: Option<&str>) -> Option<&'static UsualRate> {
    match soil {
        Some("sand" | "loam" | "peat" | "fill") => Some(&rates::DIGGING_LIGHT),
        Some("clay") => Some(&rates::DIGGING_HEAVY),
        Some("rock") => None,
        _ => Some(&rates::DIGGING_MEDIUM),
    }
}

/// How paving is laid: by what it is, and what it lies on.
fn laying_rate(surface: &Surface, layer: &Layer) -> &'static UsualRate {
    if layer.role.value == Role::Surfacing {
        return &rates::SURFACING;
    }
    let layers = surface.build.iter().flat_map(|build| &build.value.layers);
    let under = |layer: &&Layer| matches!(layer.role.value, Role::Bed | Role::Bond);
    let mut under = layers.filter(under);
    let in_mortar = under.any(|own| own.role.value == Role::Bond || !is_loose(&own.of.value));
    let kind = match &layer.of.value {
        Substance::Material(material) => material.kind,
        _ => None,
    };
    let pattern = surface.laid.as_ref().map(|laid| laid.pattern.value);
    let is_small = kind.is_some_and(|kind| kind.is_paver() || kind == Kind::Sett);
    match (is_small, in_mortar, pattern) {
        (true, true, _) => &rates::IN_MORTAR,
        (true, false, Some(Pattern::Herringbone)) => &rates::HERRINGBONE,
        (true, false, _) => &rates::PAVERS,
        (false, true, _) => &rates::FLAGS_IN_MORTAR,
        (false, false, _) => &rates::FLAGS_DRY,
    }
}
