//! Workings: how a figure came about, in the units of the job.

use super::counts::Counts;
use super::notes::{Amount, Notes};
use super::{
    FigureRef, Figures, Silent, dig, edges, gauging, joints, layers, levels, mixes, orders, shapes,
};
use crate::findings::Place;
use crate::model::{Job, Origin};
use crate::units::System;

/// How a figure was worked out.
#[derive(Debug, Clone, PartialEq)]
pub struct Working {
    /// What was worked out: `base of terrace`.
    pub title: String,
    /// The entry or section that it belongs to.
    pub place: Place,
    /// What went in.
    pub inputs: Vec<Input>,
    /// The steps in order; the last gives the figure.
    pub steps: Vec<Step>,
    /// What a reader should know besides.
    pub remarks: Vec<String>,
    system: System,
}

/// A value that went into a working.
#[derive(Debug, Clone, PartialEq)]
pub struct Input {
    /// What it is: `density, compacted`.
    pub name: String,
    /// The value, in the job's units.
    pub value: String,
    /// Where it comes from; `None` for a figure that was itself worked out.
    pub origin: Option<Origin>,
}

/// One step of a working.
#[derive(Debug, Clone, PartialEq)]
pub struct Step {
    /// What it gives: `volume in place`.
    pub gives: String,
    /// The formula in words and signs: `area × thickness`.
    pub formula: String,
    /// The same with numbers: `312.5 sq ft × 6"`; empty where the formula is
    /// words alone.
    pub numbers: String,
    /// What comes out: `5.79 cu yd`.
    pub result: String,
}

impl Working {
    /// An empty working, to be handed to the function that computes.
    pub fn new(title: impl Into<String>, place: Place, system: System) -> Working {
        Working {
            title: title.into(),
            place,
            inputs: Vec::new(),
            steps: Vec::new(),
            remarks: Vec::new(),
            system,
        }
    }

    /// The figure: what the last step gave.
    pub fn result(&self) -> Option<&str> {
        self.steps.last().map(|step| step.result.as_str())
    }
}

impl Notes for Working {
    fn input(&mut self, name: &str, value: Amount<'_>, origin: Option<Origin>) {
        self.inputs.push(Input {
            name: name.to_owned(),
            value: value.shown(self.system),
            origin,
        });
    }

    fn step(&mut self, gives: &str, formula: &str, terms: &[Amount<'_>], result: Amount<'_>) {
        self.steps.push(Step {
            gives: gives.to_owned(),
            formula: formula.replace(['{', '}'], ""),
            numbers: match terms {
                [] => String::new(),
                terms => filled(formula, terms, self.system),
            },
            result: result.shown(self.system),
        });
    }

    fn sum<'a>(
        &mut self,
        gives: &str,
        terms: impl IntoIterator<Item = (String, Amount<'a>)>,
        result: Amount<'_>,
    ) {
        let shown = |(what, term): (String, Amount<'a>)| (what, term.shown(self.system));
        let (names, numbers): (Vec<String>, Vec<String>) = terms.into_iter().map(shown).unzip();
        let result = result.shown(self.system);
        let (formula, numbers) = match names.as_slice() {
            // The step before has just given it.
            [_] if self.result() == Some(result.as_str()) => return,
            [what] => (what.clone(), String::new()),
            [] => ("nothing".to_owned(), String::new()),
            _ => ("sum".to_owned(), numbers.join(" + ")),
        };
        self.steps.push(Step {
            gives: gives.to_owned(),
            formula,
            numbers,
            result,
        });
    }

    fn remark(&mut self, text: &str) {
        self.remarks.push(text.to_owned());
    }
}

/// The formula with its terms in braces replaced by their values in turn.
fn filled(formula: &str, terms: &[Amount<'_>], system: System) -> String {
    let mut text = String::new();
    let mut terms = terms.iter();
    let mut rest = formula;
    while let Some((before, after)) = rest.split_once('{') {
        let (name, after) = after.split_once('}').unwrap_or((after, ""));
        text.push_str(before);
        match terms.next() {
            Some(term) => text.push_str(&term.shown(system)),
            None => text.push_str(name),
        }
        rest = after;
    }
    text + rest
}

/// The working of one figure; `None` if the job has no such figure.
pub fn working(job: &Job, figures: &Figures, of: FigureRef) -> Option<Working> {
    let system = job.heading.system();
    let start = |title: String, place: Place| Working::new(title, place, system);
    let mut notes;
    match of {
        FigureRef::Shape(index) => {
            let (name, shape) = job.shapes.get_index(index)?;
            notes = start(format!("shape {name}"), shape.name.place);
            shapes::shape(shape, &mut notes);
        }
        FigureRef::Levels(index) => {
            let surface = job.surfaces.get(index)?;
            notes = start(format!("levels of {}", surface.name.value), surface.place);
            levels::levels(job, surface, &mut notes);
        }
        FigureRef::Layer { surface, layer } => {
            let own = figures.surfaces.get(surface)?.layers.get(layer)?;
            let surface = job.surfaces.get(surface)?;
            let entry = surface.build.as_ref()?.value.layers.get(layer)?;
            let title = format!("{} of {}", entry.role.value.word(), surface.name.value);
            notes = start(title, entry.place);
            layers::layer(surface, entry, own.ground.clone(), &mut notes);
        }
        FigureRef::Joints(index) => {
            let surface = job.surfaces.get(index)?;
            let joint = surface.joint.as_ref()?;
            notes = start(format!("joints of {}", surface.name.value), joint.place);
            joints::joints(surface, joint, &mut notes);
        }
        FigureRef::Edges(index) => {
            let surface = job.surfaces.get(index)?;
            notes = start(format!("edges of {}", surface.name.value), surface.place);
            edges::edges(surface, &mut notes);
        }
        FigureRef::Dig(index) => {
            let own = figures.surfaces.get(index)?;
            let surface = job.surfaces.get(index)?;
            notes = start(format!("dig for {}", surface.name.value), surface.place);
            dig::dig(job, surface, own.dug.as_deref(), &mut notes)?;
        }
        FigureRef::Gauging(index) => {
            let mixes = mixes::mixes_of(job);
            let (name, mix) = mixes.get_index(index)?;
            notes = start(format!("what {name} makes"), mix.name.place);
            gauging::gauging(mix, system, &mut notes).ok()?;
        }
        FigureRef::Mix(index) => {
            let mixes = mixes::mixes_of(job);
            let (name, mix) = mixes.get_index(index)?;
            let used = mixes::uses(&figures.surfaces, mix);
            let gauging = gauging::gauging(mix, system, &mut Silent).ok();
            notes = start(format!("{name} for the whole job"), mix.name.place);
            mixes::mix(mix, &used, gauging.as_ref(), &mut notes);
        }
        FigureRef::Order(index) => {
            let order = figures.orders.get(index)?;
            let needs = orders::needs(job, &figures.surfaces, &figures.mixes);
            let (material, needs) = needs.get(&order.material)?;
            let place = needs.first().map(|need| need.place)?;
            notes = start(
                format!("order of {}", order.material),
                material.place.unwrap_or(place),
            );
            let counts = Counts::of(material, needs, system);
            orders::order(job, material, (needs, &counts), &mut notes, &mut Vec::new());
        }
    }
    Some(notes)
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
        area_of, catalogued, job, layer as a_layer, line, material, mix as a_mix, quantity, sold,
        sourced, stated, surface,
    };
    use super::*;
    use crate::model::Material;
    use crate::units::Dimension;
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
        let mut notes = Working::new("", line(1), system);
        let entries = &surface.build.as_ref().unwrap().value.layers;
        for (entry, figures) in entries.iter().zip(&own.layers) {
            let again = layers::layer(surface, entry, figures.ground.clone(), &mut notes);
            assert_eq!(&again, figures);
        }
        let joint = surface.joint.as_ref().unwrap();
        assert_eq!(Some(joints::joints(surface, joint, &mut notes)), own.joints);
        assert_eq!(
            dig::dig(&job, surface, own.dug.as_deref(), &mut notes),
            own.dig
        );
        let needs = orders::needs(&job, &found.surfaces, &found.mixes);
        for (order, (material, needs)) in found.orders.iter().zip(needs.values()) {
            let counts = Counts::of(material, needs, job.heading.system());
            let both = (needs.as_slice(), &counts);
            let again = orders::order(&job, material, both, &mut notes, &mut Vec::new());
            assert_eq!(&again, &**order);
        }
    }

    #[test]
    fn every_term_of_a_formula_is_filled() {
        let job = court();
        for working in workings(&job, &figures(&job)) {
            for step in &working.steps {
                assert!(!step.numbers.contains(['{', '}']), "{step:?}");
            }
            assert!(working.result().is_some(), "{}", working.title);
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
        ] {
            assert_eq!(working(&job, &none, of), None, "{of:?}");
        }
    }

    #[test]
    fn formulas_are_filled_in_turn() {
        let terms = [Amount::Number(2.0), Amount::Share(0.25)];
        for (formula, filled_in) in [
            ("{a} × (1 + {b})", "2 × (1 + 25 %)"),
            ("{a}", "2"),
            ("{a} + {b} + {c}", "2 + 25 % + c"),
            ("as stated", "as stated"),
            ("{a", "2"),
        ] {
            assert_eq!(
                filled(formula, &terms, System::Metric),
                filled_in,
                "{formula}"
            );
        }
    }

    #[test]
    fn amounts_are_shown_in_the_units_of_the_job() {
        let slope = quantity("1:60");
        for (amount, imperial, metric) in [
            (Amount::Length(0.1524), "6\"", "152 mm"),
            (Amount::Mass(1000.0), "1.1 tons", "1 t"),
            (Amount::Slope(0.02), "2 % (1:50)", "2 % (1:50)"),
            (Amount::Counted(12.0, "bag"), "12 bags", "12 bags"),
            (Amount::Counted(1.0, "bag"), "1 bag", "1 bag"),
            (Amount::Counted(2.0, "box"), "2 boxes", "2 boxes"),
            (Amount::Counted(504.0, "each"), "504 each", "504 each"),
            (Amount::Counted(14.7, "ton"), "14.7 tons", "14.7 tons"),
            (Amount::Counted(39.1, "m2"), "39.1 m²", "39.1 m²"),
            (Amount::Measured(0.1524, Dimension::LENGTH), "6\"", "152 mm"),
            (Amount::Quantity(&slope), "1.67 % (1:60)", "1.67 % (1:60)"),
        ] {
            assert_eq!(amount.shown(System::Imperial), imperial);
            assert_eq!(amount.shown(System::Metric), metric);
        }
    }

    #[test]
    fn one_term_is_named_and_several_are_added() {
        let feet = |feet: f64| Amount::Length(feet * 0.3048);
        let sum = |terms: &[(&str, f64)]| {
            let mut notes = Working::new("x", line(1), System::Imperial);
            let named = terms
                .iter()
                .map(|(what, own)| ((*what).to_owned(), feet(*own)));
            let all = terms.iter().map(|(_, own)| own).sum();
            notes.sum("perimeter", named, feet(all));
            let step = notes.steps.pop().unwrap();
            [step.formula, step.numbers, step.result]
        };
        for (terms, wanted) in [
            (&[("the rim", 9.0)][..], ["the rim", "", "9' 0\""]),
            (
                &[("one", 9.0), ("two", 3.0)],
                ["sum", "9' 0\" + 3' 0\"", "12' 0\""],
            ),
        ] {
            assert_eq!(sum(terms), wanted);
        }
    }
}
