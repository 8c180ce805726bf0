//! The terms of a figure's formula.

use std::cell::RefCell;
use std::ops::{Add, Div, Mul, Sub};

use super::measures::Count;
use crate::units::{Number, show};

/// A value in a figure's formula. Arithmetic on terms gives the value and,
/// where a trace is kept, the formula: both from the one expression.
#[derive(Debug, Clone, Copy)]
pub(super) struct Term<'t, V> {
    pub value: V,
    pub(super) text: Option<TextRef<'t>>,
}

/// Where the text of a term stands in the trace.
#[derive(Debug, Clone, Copy)]
pub(super) struct TextRef<'t> {
    pub texts: &'t RefCell<Vec<Text>>,
    pub index: usize,
}

/// How a term is written.
#[derive(Debug, Clone)]
pub(super) struct Text {
    /// In names and signs: `area × thickness`.
    pub names: String,
    /// In numbers and signs: `312.5 sq ft × 6"`.
    pub numbers: String,
    pub binding: Binding,
}

/// How closely the parts of a term hold together, the loosest first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Binding {
    Words,
    Sum,
    Product,
    Name,
}

/// An operator as it is written.
#[derive(Debug, Clone, Copy)]
struct Sign {
    written: &'static str,
    binding: Binding,
    /// Whether a right side of its own kind takes parentheses.
    parts_right: bool,
}

impl Text {
    /// The text of what is called so.
    pub(crate) fn name(name: String, number: String) -> Text {
        Text {
            names: name,
            numbers: number,
            binding: Binding::Name,
        }
    }

    fn operated(&self, sign: Sign, right: &Text) -> Text {
        let left_parted = self.binding < sign.binding;
        let right_parted =
            right.binding < sign.binding || (sign.parts_right && right.binding == sign.binding);
        let both = |left: &str, right: &str| {
            let left = parted(left, left_parted);
            format!("{left} {} {}", sign.written, parted(right, right_parted))
        };
        Text {
            names: both(&self.names, &right.names),
            numbers: both(&self.numbers, &right.numbers),
            binding: sign.binding,
        }
    }
}

fn parted(text: &str, is_parted: bool) -> String {
    match is_parted {
        true => format!("({text})"),
        false => text.to_owned(),
    }
}

impl<'t> TextRef<'t> {
    /// Keeps a text among the others.
    pub(crate) fn put(texts: &'t RefCell<Vec<Text>>, text: Text) -> TextRef<'t> {
        let mut all = texts.borrow_mut();
        all.push(text);
        TextRef {
            texts,
            index: all.len() - 1,
        }
    }

    /// The text that is kept here.
    pub(crate) fn get(self) -> Option<Text> {
        self.texts.borrow().get(self.index).cloned()
    }

    fn rewritten(self, of: impl FnOnce(&Text) -> Text) -> Option<TextRef<'t>> {
        let text = self.texts.borrow().get(self.index).map(of)?;
        Some(TextRef::put(self.texts, text))
    }
}

impl<'t, V: Copy> Term<'t, V> {
    /// Another value, its text made of this one's.
    fn rewritten<W>(self, value: W, of: impl FnOnce(&Text) -> Text) -> Term<'t, W> {
        let text = self.text.and_then(|text| text.rewritten(of));
        Term { value, text }
    }

    /// The same term under another name.
    pub(crate) fn called(self, name: &str) -> Term<'t, V> {
        self.rewritten(self.value, |text| {
            Text::name(name.to_owned(), text.numbers.clone())
        })
    }

    /// What is made of the value, written the same.
    pub(crate) fn map<W>(self, of: impl FnOnce(V) -> W) -> Term<'t, W> {
        Term {
            value: of(self.value),
            text: self.text,
        }
    }

    /// What words after the term make of the value: `, rounded up`.
    pub(crate) fn then<W>(self, words: &str, of: impl FnOnce(V) -> W) -> Term<'t, W> {
        self.rewritten(of(self.value), |text| Text {
            names: text.names.clone() + words,
            numbers: text.numbers.clone() + words,
            binding: Binding::Words,
        })
    }

    /// What words before, between and after two terms make of their values.
    pub(crate) fn joined<W: Copy, U>(
        self,
        [before, between, after]: [&str; 3],
        other: Term<'t, W>,
        of: impl FnOnce(V, W) -> U,
    ) -> Term<'t, U> {
        let both = |left: &str, right: &str| format!("{before}{left}{between}{right}{after}");
        self.with(other, of(self.value, other.value), |left, right| Text {
            names: both(&left.names, &right.names),
            numbers: both(&left.numbers, &right.numbers),
            binding: Binding::Words,
        })
    }

    /// A value of two terms, its text made of theirs.
    fn with<W: Copy, U>(
        self,
        other: Term<'t, W>,
        value: U,
        of: impl FnOnce(&Text, &Text) -> Text,
    ) -> Term<'t, U> {
        match other.text.and_then(TextRef::get) {
            Some(right) => self.rewritten(value, |left| of(left, &right)),
            None => Term { value, text: None },
        }
    }
}

impl<'t, V> Term<'t, Option<V>> {
    /// The term, if its value is known.
    pub(crate) fn known(self) -> Option<Term<'t, V>> {
        let text = self.text;
        self.value.map(|value| Term { value, text })
    }
}

impl<'t> Term<'t, Count> {
    /// The next whole number, where digits far behind the point are taken for
    /// rounding.
    pub(crate) fn rounded_up(self) -> Option<Term<'t, Count>> {
        let whole = |count: Count| Some(Count(Number::near(count.0)?.ceil().to_f64()));
        self.then(", rounded up", whole).known()
    }

    /// The term times itself.
    #[cfg_attr(test, track_caller)]
    pub(crate) fn squared(self) -> Term<'t, Count> {
        let value = self.value * self.value;
        self.rewritten(value, |text| {
            let is_parted = text.binding < Binding::Name;
            Text {
                names: parted(&text.names, is_parted) + "²",
                numbers: parted(&text.numbers, true) + "²",
                binding: Binding::Product,
            }
        })
    }
}

/// Lifts an operator from values to terms of them.
macro_rules! operators {
    ($($operator:ident $method:ident $written:literal $binding:ident $parts_right:literal;)*) => {$(
        impl<'t, A: $operator<B> + Copy, B: Copy> $operator<Term<'t, B>> for Term<'t, A> {
            type Output = Term<'t, A::Output>;

            #[inline]
            #[cfg_attr(test, track_caller)]
            fn $method(self, other: Term<'t, B>) -> Self::Output {
                let sign = Sign {
                    written: $written,
                    binding: Binding::$binding,
                    parts_right: $parts_right,
                };
                let value = self.value.$method(other.value);
                self.with(other, value, |left, right| {
                    left.operated(sign, right)
                })
            }
        }

        impl<'t, B: Copy> $operator<Term<'t, B>> for f64
        where
            f64: $operator<B>,
        {
            type Output = Term<'t, <f64 as $operator<B>>::Output>;

            #[inline]
            #[cfg_attr(test, track_caller)]
            fn $method(self, other: Term<'t, B>) -> Self::Output {
                let text = other.text.map(|text| {
                    let own = show::number(self);
                    TextRef::put(text.texts, Text::name(own.clone(), own))
                });
                Term { value: self, text }.$method(other)
            }
        }
    )*}
}

operators! {
    Add add "+" Sum false;
    Sub sub "−" Sum true;
    Mul mul "×" Product false;
    Div div "÷" Product true;
}

#[cfg(test)]
mod tests {
    use super::super::fixture::line;
    use super::super::measures::{Area, Length};
    use super::super::trace::{Step, Trace};
    use super::*;
    use crate::units::System;

    fn tracing() -> Trace {
        Trace::of("x".to_owned(), line(1), System::Metric)
    }

    fn last_step(trace: Trace) -> Step {
        trace.working().unwrap().steps.pop().unwrap()
    }

    #[test]
    fn a_term_gives_its_value_and_is_written_from_one_expression() {
        let trace = tracing();
        let length = trace.term("length", Length(2.0));
        let width = trace.term("width", Length(3.0));
        let gap = trace.term("gap", Length(0.5));
        let Area(area) = trace.gives("area", (length + gap) * (width - gap)).value;
        assert_eq!(area, 6.25);
        assert_eq!(
            last_step(trace),
            Step {
                gives: "area".to_owned(),
                formula: "(length + gap) × (width − gap)".to_owned(),
                numbers: "(2 m + 500 mm) × (3 m − 500 mm)".to_owned(),
                result: "6.25 m²".to_owned(),
            }
        );
    }

    #[test]
    fn parentheses_stand_where_they_are_needed() {
        let trace = tracing();
        let [a, b, c] = ["a", "b", "c"].map(|name| trace.term(name, Count(2.0)));
        for (term, formula) in [
            (a * b / c, "a × b ÷ c"),
            (a / (b * c), "a ÷ (b × c)"),
            (a * (b / c), "a × b ÷ c"),
            (a - (b - c), "a − (b − c)"),
            (a + (b - c), "a + b − c"),
            (a - b + c, "a − b + c"),
            (a - (b + c), "a − (b + c)"),
            (a * (b + c), "a × (b + c)"),
            (a * b + c, "a × b + c"),
            (a + b * c, "a + b × c"),
            (1.0 - a, "1 − a"),
            (a * (1.0 + b), "a × (1 + b)"),
            ((a / (b + c)).squared(), "(a ÷ (b + c))²"),
            (a.squared() * b, "a² × b"),
            ((a / b).rounded_up().unwrap() * c, "(a ÷ b, rounded up) × c"),
            (a.called("d") * b, "d × b"),
        ] {
            assert_eq!(term.text.unwrap().get().unwrap().names, formula);
        }
    }

    #[test]
    fn a_silent_term_has_its_value_alone() {
        let trace = Trace::silent();
        let length = trace.term("length", Length(2.0));
        let area = trace.gives("area", length * length);
        assert_eq!((area.value, area.text.is_none()), (Area(4.0), true));
        assert_eq!(trace.working(), None);
    }

    #[test]
    fn digits_far_behind_the_point_are_taken_for_rounding() {
        let trace = Trace::silent();
        for (value, whole) in [(3.0 + 1e-13, 3.0), (3.001, 4.0), (0.0, 0.0)] {
            let rounded = trace.term("x", Count(value)).rounded_up().unwrap();
            assert_eq!(rounded.value, Count(whole), "{value}");
        }
    }
}
