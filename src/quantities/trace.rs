//! The trace of a figure: what went into it and by which steps it came about,
//! taken down from the very terms that it is worked out with; or nothing, at
//! no cost.

use std::cell::RefCell;
use std::fmt::Display;
use std::iter::Sum;

use super::measures::Measure;
use super::term::{Binding, Term, Text, TextRef};
use crate::findings::Place;
use crate::model::{Origin, Sourced};
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
    /// The figure: what the last step gave.
    pub fn result(&self) -> Option<&str> {
        self.steps.last().map(|step| step.result.as_str())
    }
}

/// What the functions of this room work figures out with: it makes the terms
/// of their formulas, and takes down the steps if it is to.
#[derive(Debug)]
pub(super) struct Trace(Option<Record>);

/// What is taken down.
#[derive(Debug)]
struct Record {
    working: RefCell<Working>,
    texts: RefCell<Vec<Text>>,
    system: System,
}

impl Trace {
    /// Takes nothing down.
    pub(crate) const fn silent() -> Trace {
        Trace(None)
    }

    /// Takes down how a figure comes about, in the units of a system.
    pub(crate) fn of(title: String, place: Place, system: System) -> Trace {
        let working = Working {
            title,
            place,
            inputs: Vec::new(),
            steps: Vec::new(),
            remarks: Vec::new(),
        };
        Trace(Some(Record {
            working: RefCell::new(working),
            texts: RefCell::default(),
            system,
        }))
    }

    /// Whether nothing is taken down, so that nothing need be worked out for it.
    pub(crate) const fn is_silent(&self) -> bool {
        self.0.is_none()
    }

    /// What was taken down; `None` if nothing was to be.
    pub(crate) fn working(self) -> Option<Working> {
        self.0.map(|record| record.working.into_inner())
    }

    /// A value that goes in, and where it comes from; `None` for one that
    /// was itself worked out, which its name says.
    pub(crate) fn input<V: Measure>(
        &self,
        name: impl Display,
        value: V,
        origin: Option<Origin>,
    ) -> Term<'_, V> {
        let term = self.term(name, value);
        if let (Some(record), Some(text)) = (&self.0, term.text.and_then(TextRef::get)) {
            record.working.borrow_mut().inputs.push(Input {
                name: text.names,
                value: text.numbers,
                origin,
            });
        }
        term
    }

    /// A value that a line of the spec states.
    pub(crate) fn stated<V: Measure>(
        &self,
        name: impl Display,
        value: V,
        place: Place,
    ) -> Term<'_, V> {
        self.input(name, value, Some(Origin::Line(place)))
    }

    /// A value with its origin, as the measure that it is.
    pub(crate) fn sourced<T: Copy, V: Measure>(
        &self,
        name: impl Display,
        sourced: &Sourced<T>,
        measure: impl FnOnce(T) -> V,
    ) -> Term<'_, V> {
        self.input(name, measure(sourced.value), Some(sourced.origin))
    }

    /// A value that an earlier step or another working has given.
    pub(crate) fn term<V: Measure>(&self, name: impl Display, value: V) -> Term<'_, V> {
        let text = self.0.as_ref().map(|record| {
            let text = Text::name(name.to_string(), value.shown(record.system));
            TextRef::put(&record.texts, text)
        });
        Term { value, text }
    }

    /// A step: what it gives, and the term that gives it. It can be named in
    /// the terms of later steps.
    pub(crate) fn gives<'t, V: Measure>(
        &'t self,
        name: impl Display,
        term: Term<'t, V>,
    ) -> Term<'t, V> {
        match term.text.and_then(TextRef::get) {
            Some(text) if text.binding == Binding::Name => {
                self.step(name, term.value, text.names, String::new())
            }
            Some(text) => self.step(name, term.value, text.names, text.numbers),
            None => term,
        }
    }

    /// A step that is told in words alone, of a value that geometry gives.
    pub(crate) fn found<V: Measure>(
        &self,
        name: impl Display,
        value: V,
        how: impl Display,
    ) -> Term<'_, V> {
        match self.0 {
            Some(_) => self.step(name, value, how.to_string(), String::new()),
            None => self.term(name, value),
        }
    }

    /// A step that adds up values; `one` says what a single one is.
    pub(crate) fn sum<V: Measure + Sum>(
        &self,
        name: impl Display,
        one: impl Display,
        values: impl Iterator<Item = V>,
    ) -> Term<'_, V> {
        let Some(record) = &self.0 else {
            return self.term(name, values.sum());
        };
        let values: Vec<V> = values.collect();
        let value: V = values.iter().copied().sum();
        let numbers = values.iter().map(|value| value.shown(record.system));
        let numbers: Vec<String> = numbers.collect();
        let result = value.shown(record.system);
        let is_given = record.working.borrow().result() == Some(result.as_str());
        match numbers.as_slice() {
            // The step before has just given it.
            [_] if is_given => self.term(name, value),
            [_] => self.step(name, value, one.to_string(), String::new()),
            [] => self.step(name, value, "nothing".to_owned(), String::new()),
            _ => self.step(name, value, "sum".to_owned(), numbers.join(" + ")),
        }
    }

    /// Something that a reader of the working should know.
    pub(crate) fn remark(&self, text: &str) {
        if let Some(record) = &self.0 {
            record.working.borrow_mut().remarks.push(text.to_owned());
        }
    }

    fn step<V: Measure>(
        &self,
        name: impl Display,
        value: V,
        formula: String,
        numbers: String,
    ) -> Term<'_, V> {
        let term = self.term(name, value);
        if let (Some(record), Some(text)) = (&self.0, term.text.and_then(TextRef::get)) {
            record.working.borrow_mut().steps.push(Step {
                gives: text.names,
                formula,
                numbers,
                result: text.numbers,
            });
        }
        term
    }
}

#[cfg(test)]
mod tests {
    use super::super::fixture::line;
    use super::super::measures::Length;
    use super::*;

    #[test]
    fn one_value_is_named_and_several_are_added() {
        let sum = |feet: &[f64]| {
            let trace = Trace::of("x".to_owned(), line(1), System::Imperial);
            let values = feet.iter().map(|feet| Length(feet * 0.3048));
            trace.sum("perimeter", "the rim", values);
            let step = trace.working().unwrap().steps.pop().unwrap();
            [step.formula, step.numbers, step.result]
        };
        for (feet, wanted) in [
            (&[][..], ["nothing", "", "0\""]),
            (&[9.0], ["the rim", "", "9' 0\""]),
            (&[9.0, 3.0], ["sum", "9' 0\" + 3' 0\"", "12' 0\""]),
        ] {
            assert_eq!(sum(feet), wanted);
        }
    }

    #[test]
    fn a_value_that_is_passed_on_is_told_without_numbers() {
        let trace = Trace::of("x".to_owned(), line(1), System::Imperial);
        let fall = trace.term("fall", Length(0.3048));
        trace.gives("drop", fall);
        let step = trace.working().unwrap().steps.pop().unwrap();
        assert_eq!((step.formula.as_str(), step.numbers.as_str()), ("fall", ""));
    }
}
