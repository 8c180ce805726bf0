//! The tasks of a surface, in the order in which it is built up.

use super::super::{BorderFigures, LayerFigures, SurfaceFigures};
use super::rates::{self, UsualRate};
use super::tasks::{Amounts, Chain, MOST_LIFTS, Plans, Usual, digging_rate, rate};
use super::waits::is_loose;
use super::work_on::WorkOn;
use crate::findings::Place;
use crate::geometry::Tag;
use crate::materials::Kind;
use crate::model::{
    Drain, DrainKind, DrainLine, Job, Layer, Pattern, Stated, Substance, Surface, Work,
};
use crate::vocabulary::{Role, Task};

/// Plans the tasks of the surfaces.
pub(crate) fn plan(plans: &mut Plans<'_>) {
    let surfaces = plans.job.surfaces.iter();
    for (index, (surface, figures)) in surfaces.zip(plans.figures.surfaces.iter()).enumerate() {
        let on = WorkOn::Surface(index);
        let name = &surface.name.value;
        let mut plan = SurfacePlan {
            job: plans.job,
            work: plans.work,
            on,
            surface,
            figures,
            chain: Chain::of(&mut plans.all, &plans.located, on, name),
        };
        plan.plan();
    }
}

/// The tasks of one surface, as they are planned.
struct SurfacePlan<'a, 'p> {
    job: &'a Job,
    work: &'a Work,
    on: WorkOn,
    surface: &'a Surface,
    figures: &'a SurfaceFigures,
    chain: Chain<'p>,
}

impl SurfacePlan<'_, '_> {
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
                        self.chain.waits_for_what_sets();
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
        self.chain.add("", task, place, amounts, usual);
    }

    fn is_rated(&self, task: Task) -> bool {
        rate(self.job, self.work, task, Some(self.on)).is_some()
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
            self.add(Task::Digging, place, volume(bank), digging_rate(self.job));
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
        self.chain
            .add(&part, Task::Lining, layer.place, amounts, usual);
    }

    /// A base is compacted lift by lift.
    fn lifts(&mut self, layer: &Layer, own: &LayerFigures) {
        let lifts = own.lifts.unwrap_or(1.0).clamp(1.0, MOST_LIFTS) as u32;
        let part = layer.role.value.word();
        self.chain.lifts(part, lifts, layer.place, of_layer(own));
    }

    /// Forms, mesh, concrete, and the days that it takes to cure.
    fn slab(&mut self, (layer, own): (&Layer, &LayerFigures), layers: &[(&Layer, &LayerFigures)]) {
        let surface = self.surface;
        let free = surface.outline.as_ref().map(|_| {
            let free = surface.edges().filter(|edge| surface.is_free(edge.tag));
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
            let of = &edging.material.value;
            let usual = match of.kind() {
                Some(Kind::Edging) | None if !edging.stands_in_concrete() => &rates::EDGING,
                _ => &rates::KERBING,
            };
            let amounts = Amounts::of_length(own.length_m);
            self.add(Task::Edging, own.place, amounts, Some(usual));
            if edging.stands_in_concrete() {
                self.chain.sets();
            }
        }
        let channels = surface.channels.iter();
        let channels: Vec<_> = channels.filter(|own| !self.is_drain(own)).collect();
        for channel in channels {
            let length = surface.outline.as_ref().map(|_| {
                let along = surface.edges().filter(|edge| {
                    let side = surface.sides.get(edge.tag as usize);
                    side.is_some_and(|side| channel.value.1.contains(&side.edge))
                });
                along.map(|edge| edge.length()).sum()
            });
            let (amounts, usual) = (Amounts::of_length(length), Some(&rates::DRAINING));
            self.add(Task::Draining, channel.place, amounts, usual);
        }
    }

    /// Whether a channel is a drain of the job, whose tasks are its own.
    fn is_drain(&self, channel: &Stated<(String, Vec<Tag>)>) -> bool {
        let is_it = |drain: &Drain| {
            let line = drain.line.as_ref().map(|line| &line.value);
            let Some(DrainLine::Along { surface, tags, .. }) = line else {
                return false;
            };
            let mut tags = tags.iter();
            drain.kind() == Some(DrainKind::Channel)
                && *surface == self.surface.name.value
                && tags.any(|tag| channel.value.1.contains(tag))
        };
        self.job.drains.iter().any(|drain| is_it(drain))
    }

    /// The borders that lie on the build of the field are laid with it; those
    /// on builds of their own are surfaces of theirs.
    fn paving(&mut self, layer: &Layer, own: &LayerFigures) {
        let field = Amounts {
            length_m: self.figures.perimeter_m,
            ..of_layer(own)
        };
        let borders = self.surface.borders.iter().zip(&self.figures.borders);
        let borders = borders.filter(|(own, _)| own.on.is_none());
        let borders = borders.map(|(border, own)| {
            let rate = laying_rate(self.surface, &border.material.value, Role::Paving, None);
            (rate, of_border(own))
        });
        let borders: Vec<_> = borders
            .filter(|_| layer.role.value == Role::Paving)
            .collect();
        let all = borders.iter().fold(field, |all, (_, own)| all.and(own));
        if layer.role.value == Role::Paving && self.is_rated(Task::DryLaying) {
            self.add(Task::DryLaying, layer.place, all, None);
        }
        let pattern = self.surface.laid.as_ref().map(|laid| laid.pattern.value);
        let role = layer.role.value;
        let rate = laying_rate(self.surface, &layer.of.value, role, pattern);
        let mut usual: Vec<Usual> = Vec::new();
        for (rate, amounts) in std::iter::once((rate, field)).chain(borders) {
            let Some(rate) = rate else {
                usual.clear();
                break;
            };
            match usual.iter_mut().find(|(own, _)| own.of == rate.of) {
                Some((_, own)) => *own = own.and(&amounts),
                None => usual.push((rate, amounts)),
            }
        }
        self.chain
            .add_usual("", Task::Laying, layer.place, all, usual);
    }

    /// Joints, cleaning and sealing.
    fn finish(&mut self) {
        let area = |area_m2| Amounts {
            area_m2,
            ..Amounts::default()
        };
        let whole = area(self.figures.area_m2);
        let strips_m2 = self.surface.strips_m2();
        let own = area(self.figures.area_m2.map(|whole| whole - strips_m2));
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
            self.add(Task::Jointing, joints.place, whole, Some(usual));
        }
        let paving = self.figures.layer(Role::Paving);
        if let Some(paving) = paving.filter(|own| !own.is_existing) {
            self.add(Task::Cleaning, paving.place, own, Some(&rates::CLEANING));
        }
        let is_new = self.figures.layers.iter().any(|own| !own.is_existing);
        if is_new && self.is_rated(Task::Sealing) {
            self.add(Task::Sealing, self.surface.place, own, None);
        }
    }
}

/// Whether anything of a surface is dug for.
pub(crate) fn has_dig(surface: &Surface) -> bool {
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
        area_m2: own.sheet_m2.or(own.area_m2),
        volume_m3: own.volume_m3,
        mass_kg: own.mass_kg,
        ..Amounts::default()
    }
}

/// What there is to lay of a border; its edges are counted with the surface.
fn of_border(own: &BorderFigures) -> Amounts {
    Amounts {
        length_m: Some(0.0),
        area_m2: own.area_m2,
        volume_m3: own.volume_m3,
        mass_kg: own.mass_kg,
        ..Amounts::default()
    }
}

/// How paving is laid: by what it is, and what it lies on. Asphalt is laid by
/// machine, at no rate that is usual.
fn laying_rate(
    surface: &Surface,
    of: &Substance,
    role: Role,
    pattern: Option<Pattern>,
) -> Option<&'static UsualRate> {
    match of.kind() {
        Some(Kind::Asphalt) => return None,
        Some(Kind::Concrete) => return Some(&rates::POURING),
        Some(Kind::BaggedConcrete) => return Some(&rates::POURING_MIXED),
        Some(kind) if kind.is_granular() => return Some(&rates::SURFACING),
        _ if role == Role::Surfacing => return Some(&rates::SURFACING),
        _ => {}
    }
    let layers = surface.build.iter().flat_map(|build| &build.value.layers);
    let under = |layer: &&Layer| matches!(layer.role.value, Role::Bed | Role::Bond);
    let mut under = layers.filter(under);
    let in_mortar = under.any(|own| own.role.value == Role::Bond || !is_loose(&own.of.value));
    let is_small = of
        .kind()
        .is_some_and(|kind| kind.is_paver() || kind == Kind::Sett);
    Some(match (is_small, in_mortar, pattern) {
        (true, true, _) => &rates::IN_MORTAR,
        (true, false, Some(Pattern::Herringbone)) => &rates::HERRINGBONE,
        (true, false, _) => &rates::PAVERS,
        (false, true, _) => &rates::FLAGS_IN_MORTAR,
        (false, false, _) => &rates::FLAGS_DRY,
    })
}
