//! The functions that an expression may call.

use super::super::reading::{Argument, nearest};
use super::dependencies::Subject;
use super::evaluate::{Resolver, Worked};
use crate::findings::{FileId, Finding, Fix, Place};
use crate::geometry::Point;
use crate::units::{Dimension, Quantity};
use crate::vocabulary::{FUNCTIONS, NameSpace};

impl Resolver<'_> {
    /// The value of a call.
    pub(crate) fn call(
        &mut self,
        function: &str,
        name: Place,
        arguments: &[Argument],
        place: Place,
        file: FileId,
    ) -> Option<Quantity> {
        let lower = function.to_ascii_lowercase();
        let value = match (lower.as_str(), arguments) {
            ("area", [Argument::Name(shape, at)]) => {
                let shape = self.shape_named(shape, *at, file)?;
                Quantity::near(shape.outline.as_ref()?.area(), Dimension::AREA)
            }
            ("perimeter", [Argument::Name(shape, at)]) => {
                let shape = self.shape_named(shape, *at, file)?;
                Quantity::near(shape.outline.as_ref()?.perimeter(), Dimension::LENGTH)
            }
            ("length", [Argument::Edge { owner, name, place }]) => {
                let shape = self.shape_named(owner, *place, file)?;
                let tags = self.edge_tags(&shape, None, name, *place)?;
                let outline = shape.outline.as_ref()?;
                let length: f64 = outline
                    .edges()
                    .filter(|edge| tags.contains(&edge.tag))
                    .map(|edge| edge.length())
                    .sum();
                Quantity::near(length, Dimension::LENGTH)
            }
            ("level", [Argument::Name(surface, at), Argument::Point(point, _)]) => {
                let east = self.value(&point.0, file)?.si();
                let north = self.value(&point.1, file)?.si();
                let plane = self.plane_named(surface, *at, file)?;
                Quantity::near(plane.level_at(Point::new(east, north)), Dimension::LENGTH)
            }
            ("min" | "max", [first, rest @ ..]) => {
                let mut best = self.argument(first, file)?;
                for other in rest {
                    let other = self.argument(other, file)?;
                    let chosen = if lower == "min" {
                        best.min(other)
                    } else {
                        best.max(other)
                    };
                    best = self.outcome(chosen, place)?;
                }
                Some(best)
            }
            ("round-up", [value, step]) => {
                let value = self.argument(value, file)?;
                let step = self.argument(step, file)?;
                let rounded = value.round_up_to_step(step);
                Some(self.outcome(rounded, place)?)
            }
            _ => {
                self.wrong_call(&lower, name, place);
                return None;
            }
        };
        if value.is_none() {
            self.find(Finding::new(
                "value-range",
                place,
                "this comes to too large a number",
            ));
        }
        value
    }

    fn argument(&mut self, argument: &Argument, file: FileId) -> Option<Quantity> {
        match argument {
            Argument::Value(expression) => self.value(expression, file),
            Argument::Name(name, place) => {
                let definition = self.look_up(NameSpace::Lets, name, *place, file)?;
                self.work_let(definition, *place)
            }
            Argument::Edge { place, .. } | Argument::Point(_, place) => {
                self.find(Finding::new(
                    "dimension-wrong",
                    *place,
                    "a quantity belongs here",
                ));
                None
            }
        }
    }

    fn wrong_call(&mut self, function: &str, name: Place, place: Place) {
        let known = FUNCTIONS.iter().find(|(word, _, _)| *word == function);
        if let Some((_, form, _)) = known {
            self.find(Finding::new(
                "dimension-wrong",
                place,
                format!("this is written `{form}`"),
            ));
            return;
        }
        let words = FUNCTIONS.iter().map(|(word, _, _)| *word);
        let finding = match nearest(function, words.clone()) {
            Some(near) => Finding::new(
                "name-unknown",
                name,
                format!("there is no function `{function}`; did you mean `{near}`?"),
            )
            .fix(Fix::judged(format!("Write `{near}`"), name, near)),
            None => Finding::new(
                "name-unknown",
                name,
                format!("there is no function `{function}`"),
            )
            .help(format!(
                "There are {}. A word and a point have a space between them.",
                words.collect::<Vec<_>>().join(", ")
            )),
        };
        self.find(finding);
    }

    /// The finished plane of a surface of the file itself.
    fn plane_named(
        &mut self,
        name: &str,
        place: Place,
        file: FileId,
    ) -> Option<crate::geometry::Plane> {
        let definition = self.look_up(NameSpace::Surfaces, name, place, file)?;
        self.done.dependencies.take(Subject::Plane(definition));
        match self.done.planes.get(&definition) {
            Some(Worked::Done(plane)) => return *plane,
            Some(Worked::Begun) => {
                self.circle(definition, place);
                return None;
            }
            None => {}
        }
        let section = self.section(definition)?;
        self.done.planes.insert(definition, Worked::Begun);
        let plane = self.on(Subject::Plane(definition), |resolver| {
            let plane = resolver.deeper(place, |resolver| {
                resolver.plane_of(section, definition.file)
            });
            // What is wrong with that surface is told where it is built.
            let dependencies = &mut resolver.done.dependencies;
            dependencies.keep_found(|finding| finding.rule == "circular");
            plane
        });
        self.done.planes.insert(definition, Worked::Done(plane));
        plane
    }
}
