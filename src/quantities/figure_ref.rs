//! Which figure of a job is meant.

use super::mixes::mixes_of;
use super::steps::StepsFigure;
use super::{Figures, SurfaceFigures};
use crate::findings::Place;
use crate::model::Job;

/// One figure of a job, by its place in [`Figures`].
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum FigureRef {
    /// Area and perimeter of a shape.
    Shape(usize),
    /// How the shape of a surface comes again.
    Repeat(usize),
    /// Fall, drop and levels of a surface.
    Levels(usize),
    /// Where the water of a surface goes.
    Water(usize),
    /// A layer of a surface.
    Layer {
        /// The surface.
        surface: usize,
        /// The layer, from the top down.
        layer: usize,
    },
    /// The lay-out of the units of a surface.
    Layout(usize),
    /// A border of a surface.
    Border {
        /// The surface.
        surface: usize,
        /// The border, the outermost first.
        border: usize,
    },
    /// The joints of a surface.
    Joints(usize),
    /// The edging, the isolation joint and the movement joints of a surface.
    Edges(usize),
    /// The concrete that an edging stands in.
    Footing {
        /// The surface.
        surface: usize,
        /// The edging, in the order of its entries.
        edging: usize,
    },
    /// The dig under a surface.
    Dig(usize),
    /// A figure of a flight of steps.
    Steps {
        /// The flight.
        steps: usize,
        /// Which of its figures.
        figure: StepsFigure,
    },
    /// What one measure of a mix makes.
    Gauging(usize),
    /// A mix over the whole job.
    Mix(usize),
    /// An order line.
    Order(usize),
    /// Where a drain lies and how deep.
    DrainLevels(usize),
    /// What comes to a drain.
    DrainWater(usize),
    /// What is dug for a drain, what goes into it and what it holds.
    DrainWorks(usize),
    /// A task of the schedule.
    Task(usize),
    /// The hours of all tasks together.
    Hours,
    /// What is hired.
    Hire(usize),
    /// A line of the cost by heading.
    Cost(usize),
    /// A quote beside the cost.
    Quote(usize),
    /// What was measured.
    Measured(usize),
}

impl FigureRef {
    /// Every figure of a job, in the order of the take-off.
    pub fn all(figures: &Figures) -> impl Iterator<Item = FigureRef> {
        let shapes = (0..figures.shapes.len()).map(FigureRef::Shape);
        let has_water = figures.water.is_some();
        let surfaces = figures
            .surfaces
            .iter()
            .enumerate()
            .flat_map(move |(surface, own)| {
                let layers =
                    (0..own.layers.len()).map(move |layer| FigureRef::Layer { surface, layer });
                let water = has_water.then_some(FigureRef::Water(surface));
                let repeat = own.repeat.map(|_| FigureRef::Repeat(surface));
                let repeat = repeat.into_iter();
                repeat
                    .chain([FigureRef::Levels(surface)])
                    .chain(water)
                    .chain(layers)
                    .chain(FigureRef::borders(surface, own))
                    .chain([
                        FigureRef::Layout(surface),
                        FigureRef::Joints(surface),
                        FigureRef::Edges(surface),
                    ])
                    .chain(FigureRef::footings(surface, own))
                    .chain([FigureRef::Dig(surface)])
            });
        let drains = (0..figures.drains.len()).flat_map(move |drain| {
            let water = has_water.then_some(FigureRef::DrainWater(drain));
            std::iter::once(FigureRef::DrainLevels(drain))
                .chain(water)
                .chain([FigureRef::DrainWorks(drain)])
        });
        let steps = (0..figures.steps.len())
            .flat_map(|steps| StepsFigure::ALL.map(|figure| FigureRef::Steps { steps, figure }));
        let mixes =
            (0..figures.mixes.len()).flat_map(|mix| [FigureRef::Gauging(mix), FigureRef::Mix(mix)]);
        let orders = (0..figures.orders.len()).map(FigureRef::Order);
        let money = figures.money.iter().flat_map(|money| {
            let hires = (0..money.hires.len()).map(FigureRef::Hire);
            let costs = (0..money.costs.len()).map(FigureRef::Cost);
            let quotes = (0..money.quotes.len()).map(FigureRef::Quote);
            hires.chain(costs).chain(quotes)
        });
        let schedule = figures.schedule.iter().flat_map(|schedule| {
            let tasks = (0..schedule.tasks.len()).map(FigureRef::Task);
            tasks.chain([FigureRef::Hours])
        });
        let built = shapes
            .chain(surfaces)
            .chain(steps)
            .chain(drains)
            .chain(mixes);
        let measured = (0..figures.measured.len()).map(FigureRef::Measured);
        let paid = built.chain(orders).chain(schedule).chain(money);
        paid.chain(measured)
    }

    /// The borders of a surface.
    pub fn borders(surface: usize, own: &SurfaceFigures) -> impl Iterator<Item = FigureRef> {
        (0..own.borders.len()).map(move |border| FigureRef::Border { surface, border })
    }

    /// The concrete under each edging of a surface that says what it stands in.
    pub fn footings(surface: usize, own: &SurfaceFigures) -> impl Iterator<Item = FigureRef> {
        let edgings = own.edgings.iter().enumerate();
        let on_concrete = edgings.filter(|(_, edging)| edging.footing.is_some());
        on_concrete.map(move |(edging, _)| FigureRef::Footing { surface, edging })
    }

    /// The figures that belong to an entry or a heading: a layer once for
    /// each surface that it lies under.
    pub fn at(job: &Job, figures: &Figures, place: Place) -> Vec<FigureRef> {
        let meant = |own: Place| own.section == place.section && own.span.covers(place.span);
        let is_at = |of: &FigureRef| match *of {
            FigureRef::Shape(index) => job
                .shapes
                .get_index(index)
                .is_some_and(|(_, shape)| meant(shape.name.place)),
            FigureRef::Repeat(index) => {
                let own = figures.surfaces.get(index);
                let repeat = own.and_then(|own| own.repeat.as_ref());
                repeat.is_some_and(|repeat| meant(repeat.place))
            }
            FigureRef::Levels(index)
            | FigureRef::Water(index)
            | FigureRef::Dig(index)
            | FigureRef::Edges(index) => job
                .surfaces
                .get(index)
                .is_some_and(|surface| meant(surface.place)),
            FigureRef::Border { surface, border } => {
                let own = job.surfaces.get(surface);
                let own = own.and_then(|own| own.borders.get(border));
                own.is_some_and(|own| meant(own.place))
            }
            FigureRef::Layout(index) => {
                let own = figures.surfaces.get(index);
                let layout = own.and_then(|own| own.layout.as_ref());
                layout.is_some_and(|layout| meant(layout.place))
            }
            FigureRef::Joints(index) => {
                let joints = figures
                    .surfaces
                    .get(index)
                    .and_then(|own| own.joints.as_ref());
                joints.is_some_and(|joints| meant(joints.place))
            }
            FigureRef::Footing { surface, edging } => {
                let own = job.surfaces.get(surface);
                let own = own.and_then(|own| own.edgings.get(edging));
                own.is_some_and(|own| meant(own.place))
            }
            FigureRef::Layer { surface, layer } => {
                let own = figures
                    .surfaces
                    .get(surface)
                    .and_then(|own| own.layers.get(layer));
                own.is_some_and(|own| meant(own.place))
            }
            FigureRef::Steps { steps, figure } => {
                let own = job.steps.get(steps);
                own.is_some_and(|own| meant(figure.place(own)))
            }
            FigureRef::Gauging(index) | FigureRef::Mix(index) => mixes_of(job)
                .get_index(index)
                .is_some_and(|(_, mix)| meant(mix.name.place)),
            FigureRef::Order(index) => {
                let order = figures.orders.get(index);
                let material = order.and_then(|order| job.materials.get(order.material.as_str()));
                material
                    .and_then(|material| material.place)
                    .is_some_and(meant)
            }
            FigureRef::DrainLevels(index)
            | FigureRef::DrainWater(index)
            | FigureRef::DrainWorks(index) => {
                let drain = job.drains.get(index);
                drain.is_some_and(|drain| meant(drain.place))
            }
            FigureRef::Task(index) => {
                let schedule = figures.schedule.as_ref();
                let task = schedule.and_then(|schedule| schedule.tasks.get(index));
                task.is_some_and(|task| meant(task.place))
            }
            FigureRef::Hours => {
                let work = job.work.as_ref();
                work.is_some_and(|work| meant(work.place))
            }
            FigureRef::Hire(index) => {
                let hire = job.hires.get(index);
                hire.is_some_and(|hire| meant(hire.place))
            }
            FigureRef::Cost(index) => {
                let money = figures.money.as_ref();
                let line = money.and_then(|money| money.costs.get(index));
                line.is_some_and(|line| meant(line.place))
            }
            FigureRef::Measured(index) => {
                let own = job.measured.get(index);
                own.is_some_and(|own| {
                    meant(own.place) || own.points.iter().any(|point| meant(point.place))
                })
            }
            FigureRef::Quote(index) => {
                let money = figures.money.as_ref();
                let quote = money.and_then(|money| money.quotes.get(index));
                quote.is_some_and(|quote| meant(quote.place))
            }
        };
        FigureRef::all(figures).filter(is_at).collect()
    }
}

#[cfg(test)]
mod tests {
    use super::super::figures;
    use super::super::fixture::{area_of, job, layer, line, material, surface};
    use super::*;
    use crate::vocabulary::Role;

    #[test]
    fn a_line_leads_to_its_figures() {
        let layers = || vec![layer(Role::Base, material("stone"), "6 in")];
        let surfaces = ["a", "b"].map(|name| surface(name, area_of("1 ft", "1 ft"), layers()));
        let job = job(surfaces.into());
        let figures = figures(&job);
        let base = |surface| FigureRef::Layer { surface, layer: 0 };
        for (place, expected) in [
            (line(7), vec![base(0), base(1)]),
            (line(8), vec![FigureRef::Shape(0), FigureRef::Shape(1)]),
            (line(99), vec![]),
        ] {
            assert_eq!(FigureRef::at(&job, &figures, place), expected);
        }
        let inside = Place {
            span: crate::text::Span::new(710, 712),
            ..line(7)
        };
        assert_eq!(FigureRef::at(&job, &figures, inside).len(), 2);
    }
}
