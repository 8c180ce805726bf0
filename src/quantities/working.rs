//! Workings: how a figure came about, in the units of the job.

use super::counts::Counts;
use super::trace::{Trace, Working};
use super::{
    FigureRef, Figures, as_built, borders, dig, drains, edges, footings, gauging, joints, layers,
    layout, levels, mixes, money, orders, repeats, schedule, shapes, steps, water,
};
use crate::findings::Place;
use crate::model::Job;

/// The working of one figure; `None` if the job has no such figure.
pub fn working(job: &Job, figures: &Figures, of: FigureRef) -> Option<Working> {
    let system = job.heading.system();
    let start = |title: String, place: Place| Trace::of(title, place, system);
    let trace;
    match of {
        FigureRef::Shape(index) => {
            let (name, shape) = job.shapes.get_index(index)?;
            trace = start(format!("shape {name}"), shape.name.place);
            shapes::shape(shape, &trace);
        }
        FigureRef::Repeat(index) => {
            let surface = job.surfaces.get(index)?;
            let repeat = surface.repeat.as_ref()?;
            let title = format!("all of {}", surface.name.value);
            trace = start(title, repeat.place);
            repeats::repeats(surface, &trace)?;
        }
        FigureRef::Levels(index) => {
            let surface = job.surfaces.get(index)?;
            trace = start(format!("levels of {}", surface.name.value), surface.place);
            levels::levels(job, surface, &trace);
        }
        FigureRef::Water(index) => {
            let surface = job.surfaces.get(index)?;
            let own = figures.water.as_ref()?.surfaces.get(index)?;
            trace = start(format!("water of {}", surface.name.value), surface.place);
            water::traced(job, surface, own, &trace);
        }
        FigureRef::Layer { surface, layer } => {
            let own = figures.surfaces.get(surface)?.layers.get(layer)?;
            let surface = job.surfaces.get(surface)?;
            let entry = surface.build.as_ref()?.value.layers.get(layer)?;
            let title = format!("{} of {}", entry.role.value.word(), surface.name.value);
            trace = start(title, entry.place);
            let laid = borders::laid_m3(job, surface);
            layers::layer(surface, entry, own.ground.clone(), laid, &trace);
        }
        FigureRef::Border { surface, border } => {
            let surface = job.surfaces.get(surface)?;
            let own = surface.borders.get(border)?;
            let (material, name) = (own.material.value.name(), &surface.name.value);
            trace = start(format!("border of {material} of {name}"), own.place);
            borders::border(surface, border, &trace)?;
        }
        FigureRef::Layout(index) => {
            let surface = job.surfaces.get(index)?;
            let laid = surface.laid.as_ref()?;
            trace = start(format!("lay-out of {}", surface.name.value), laid.place);
            let own = figures.surfaces.get(index)?;
            layout::layout(surface, own.paved(), &trace)?;
        }
        FigureRef::Joints(index) => {
            let surface = job.surfaces.get(index)?;
            let joint = surface.joint.as_ref()?;
            trace = start(format!("joints of {}", surface.name.value), joint.place);
            let taken = figures.surfaces.get(index)?.under_steps_m2();
            joints::joints(surface, joint, taken, &trace);
        }
        FigureRef::Edges(index) => {
            let surface = job.surfaces.get(index)?;
            trace = start(format!("edges of {}", surface.name.value), surface.place);
            edges::edges(job, surface, &trace);
        }
        FigureRef::Footing { surface, edging } => {
            let surface = job.surfaces.get(surface)?;
            let edging = surface.edgings.get(edging)?;
            let (material, name) = (edging.material.value.name(), &surface.name.value);
            trace = start(format!("concrete for {material} of {name}"), edging.place);
            footings::footing(job, surface, edging, &trace)?;
        }
        FigureRef::Dig(index) => {
            let own = figures.surfaces.get(index)?;
            let surface = job.surfaces.get(index)?;
            trace = start(format!("dig for {}", surface.name.value), surface.place);
            dig::dig(job, surface, own.dug.as_deref(), &trace)?;
        }
        FigureRef::Gauging(index) => {
            let mixes = mixes::mixes_of(job);
            let (name, mix) = mixes.get_index(index)?;
            trace = start(format!("what {name} makes"), mix.name.place);
            gauging::traced_gauging(mix, system, &trace).ok()?;
        }
        FigureRef::Mix(index) => {
            let mixes = mixes::mixes_of(job);
            let (name, mix) = mixes.get_index(index)?;
            let used = mixes::uses(figures, mix);
            let gauging = gauging::gauging(mix, system).ok();
            trace = start(format!("{name} for the whole job"), mix.name.place);
            mixes::mix(mix, &used, gauging.as_ref(), &trace);
        }
        FigureRef::Order(index) => {
            let order = figures.orders.get(index)?;
            let needs = orders::needs(job, figures);
            let (material, needs) = needs.get(&order.material)?;
            let place = needs.first().map(|need| need.place)?;
            trace = start(
                format!("order of {}", order.name(system)),
                material.place.unwrap_or(place),
            );
            let counts = Counts::of(material, needs, system);
            let before = figures.orders.iter().take(index);
            let before = before.filter(|own| own.material == order.material);
            let shown = (&trace, before.count());
            orders::orders(job, material, (needs, &counts), shown, &mut Vec::new());
        }
        FigureRef::DrainLevels(index) => {
            let own = job.drains.get(index)?;
            trace = start(format!("levels of {}", own.name.value), own.place);
            drains::levels_of(job, own, &trace);
        }
        FigureRef::DrainWater(index) => {
            let own = job.drains.get(index)?;
            let comes = figures.water.as_ref()?.drains.get(index)?;
            trace = start(format!("water to {}", own.name.value), own.place);
            water::traced_to_drain(job, own, comes, &trace);
        }
        FigureRef::DrainWorks(index) => {
            let own = job.drains.get(index)?;
            trace = start(format!("work on {}", own.name.value), own.place);
            drains::works_of(job, own, &trace);
        }
        FigureRef::Steps {
            steps: index,
            figure,
        } => {
            let own = job.steps.get(index)?;
            let known = figures.steps.get(index)?;
            let title = format!("{} {}", figure.title(), own.name.value);
            trace = start(title, figure.place(own));
            let both = (own.as_ref(), known.as_ref());
            steps::traced(job, both, &figures.surfaces, figure, &trace)?;
        }
        FigureRef::Task(index) => {
            let task = figures.schedule.as_ref()?.tasks.get(index)?;
            trace = start(task.name.clone(), task.place);
            schedule::trace_task(job, figures, index, &trace)?;
        }
        FigureRef::Hours => {
            let place = job.work.as_ref()?.place;
            trace = start("hours of the job".to_owned(), place);
            schedule::trace_hours(figures.schedule.as_ref()?, &trace)?;
        }
        FigureRef::Hire(index) => {
            let own = job.hires.get(index)?;
            trace = start(format!("hire of {}", own.name.value), own.place);
            let schedule = figures.schedule.as_deref();
            money::hire(own, schedule, job.heading.currency(), &trace);
        }
        FigureRef::Cost(index) => {
            let (money, budget) = figures.money.as_ref().zip(job.budget.as_ref())?;
            let line = money.costs.get(index)?;
            trace = start(line.name.clone(), line.place);
            let ground = money::Ground::of(job, budget, figures, &money.hires);
            let before = money.costs.get(..index)?;
            ground.amount(line.heading, before, &trace).ok()?;
        }
        FigureRef::Measured(index) => {
            let own = job.measured.get(index)?;
            let surface = own.surface.as_ref();
            let of = surface.and_then(|surface| figures.surfaces.get(surface.value));
            trace = start(own.what.value.clone(), own.place);
            as_built::measured(job, own, of.map(AsRef::as_ref), &trace);
        }
        FigureRef::Quote(index) => {
            let total = figures.money.as_ref()?.total();
            let own = job.budget.as_ref()?.quotes.get(index)?;
            trace = start("quote".to_owned(), own.place);
            money::quote(job, own, total, money::own_hours(job, figures), &trace);
        }
    }
    trace.working()
}

/// The workings of all figures, in the order of the take-off.
pub fn workings(job: &Job, figures: &Figures) -> Vec<Working> {
    FigureRef::all(figures)
        .filter_map(|of| working(job, figures, of))
        .filter(|working| !working.steps.is_empty())
        .collect()
}

#[cfg(test)]
mod tests {
    use super::super::figures;
    use super::super::fixture::{
        area_of, catalogued, job, layer as a_layer, line, material, mix as a_mix, sold, sourced,
        stated, surface,
    };
    use super::*;
    use crate::model::{Material, Origin};
    use crate::vocabulary::Role;

    /// A court of flags with mortar joints on a base, all of it known.
    fn court() -> Job {
        let flag = Material {
            unit: sourced("12 in").zip(sourced("24 in")),
            density: sourced("150 lb/cu ft"),
            sold: sold("by sq ft"),
            price: Some(stated("$5.80/sq ft")),
            ..material("flag")
        };
        let stone = Material {
            density: sourced("95 lb/cu ft"),
            compacted: sourced("125 lb/cu ft"),
            sold: sold("by ton"),
            ..material("stone")
        };
        let mortar = a_mix(
            "mortar",
            &[
                ("1", catalogued("portland-cement")),
                ("3", catalogued("sharp-sand")),
            ],
        );
        let mut base = a_layer(Role::Base, stone, "6 in");
        base.beyond = Some(stated("6 in"));
        let layers = vec![a_layer(Role::Paving, flag, "2 in"), base];
        let court = surface("court", area_of("24 ft", "12 ft"), layers)
            .meeting(2)
            .falling("-12 in", "1:60")
            .jointed("1/2 in", "", Some(mortar.into()));
        let mut job = job(vec![court]).on_ground("-4 in");
        job.site.swell = Some(stated("30 %"));
        job
    }

    #[test]
    fn a_layer_shows_its_working() {
        let job = court();
        let figures = figures(&job);
        let of = FigureRef::Layer {
            surface: 0,
            layer: 1,
        };
        let working = working(&job, &figures, of).unwrap();
        assert_eq!(working.title, "base of court");
        let steps: Vec<_> = working
            .steps
            .iter()
            .map(|step| {
                format!(
                    "{}: {} = {} = {}",
                    step.gives, step.formula, step.numbers, step.result
                )
            })
            .collect();
        assert_eq!(
            steps,
            [
                "area pushed out: area of the surface pushed out beyond along the free edges \
                 = 288 sq ft pushed out 6\" along the free edges = 312.5 sq ft",
                "volume in place: area × thickness = 312.5 sq ft × 6\" = 5.79 cu yd",
                "mass: volume × density = 5.79 cu yd × 125 lb/cu ft = 9.77 tons",
                "loose volume: mass ÷ loose density = 9.77 tons ÷ 95 lb/cu ft = 7.61 cu yd",
            ]
        );
        let density = working
            .inputs
            .iter()
            .find(|input| input.name == "density, compacted")
            .unwrap();
        assert_eq!(density.value, "125 lb/cu ft");
        assert_eq!(density.origin, Some(Origin::Line(line(2))));
    }

    #[test]
    fn every_figure_of_a_whole_job_has_a_working() {
        let job = court();
        let figures = figures(&job);
        let titles: Vec<_> = workings(&job, &figures)
            .into_iter()
            .map(|working| working.title)
            .collect();
        for title in [
            "shape court",
            "levels of court",
            "paving of court",
            "base of court",
            "joints of court",
            "dig for court",
            "what mortar makes",
            "mortar for the whole job",
            "order of flag",
            "order of stone",
            "order of portland-cement",
            "order of sharp-sand",
        ] {
            assert!(
                titles.iter().any(|found| found == title),
                "{title} of {titles:?}"
            );
        }
    }

    #[test]
    fn taking_down_a_figure_does_not_change_it() {
        let job = court();
        let found = figures(&job);
        let (surface, own) = (&job.surfaces[0], &found.surfaces[0]);
        let system = job.heading.system();
        let trace = Trace::of(String::new(), line(1), system);
        let entries = &surface.build.as_ref().unwrap().value.layers;
        for (entry, figures) in entries.iter().zip(&own.layers) {
            let again = layers::layer(surface, entry, figures.ground.clone(), None, &trace);
            assert_eq!(&again, figures);
        }
        let joint = surface.joint.as_ref().unwrap();
        assert_eq!(
            Some(joints::joints(surface, joint, 0.0, &trace)),
            own.joints
        );
        assert_eq!(dig::dig(&job, surface, own.dug.as_deref(), &trace), own.dig);
        let needs = orders::needs(&job, &found);
        for (order, (material, needs)) in found.orders.iter().zip(needs.values()) {
            let counts = Counts::of(material, needs, job.heading.system());
            let both = (needs.as_slice(), &counts);
            let again = orders::orders(&job, material, both, (&trace, 0), &mut Vec::new());
            assert_eq!(again.first(), Some(order.as_ref()));
        }
    }

    #[test]
    fn a_figure_that_is_not_there_has_no_working() {
        let job = job(Vec::new());
        let none = figures(&job);
        for of in [
            FigureRef::Shape(0),
            FigureRef::Levels(0),
            FigureRef::Layer {
                surface: 0,
                layer: 0,
            },
            FigureRef::Joints(0),
            FigureRef::Edges(0),
            FigureRef::Dig(0),
            FigureRef::Gauging(0),
            FigureRef::Mix(0),
            FigureRef::Order(0),
            FigureRef::DrainLevels(0),
            FigureRef::DrainWater(0),
            FigureRef::DrainWorks(0),
        ] {
            assert_eq!(working(&job, &none, of), None, "{of:?}");
        }
    }
}
