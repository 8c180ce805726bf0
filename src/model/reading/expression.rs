//! Expressions: quantities with names, calls and arithmetic, built from the
//! flat items of a phrase and not yet worked out.

use super::number::{negative_item, number_item};
use super::source::Source;
use crate::findings::Place;
use crate::syntax::{Item, ItemKind, Operator, Phrase};
use crate::units::unit::SECOND;
use crate::units::{Dimension, Quantity, find_unit};
use crate::vocabulary::{FUNCTIONS, SMALL_WORDS};

/// A quantity as it is written. Sums and products are flat lists, so that
/// only parentheses nest, and the depth of those is bounded.
#[derive(Debug, Clone, PartialEq)]
pub enum Expression {
    /// A number with its unit.
    Literal(Quantity, Place),
    /// A `let`.
    Name(String, Place),
    /// `area(terrace)`: the function, what stands in its parenthesis.
    Call {
        /// The function's name.
        function: String,
        /// The name's place.
        name: Place,
        /// What it is called with.
        arguments: Vec<Argument>,
        /// The whole call.
        place: Place,
    },
    /// A negative value.
    Negative(Box<Expression>, Place),
    /// Terms added and taken away in turn.
    Sum(Vec<(Operation, Expression)>, Place),
    /// Factors multiplied and divided in turn.
    Product(Vec<(Operation, Expression)>, Place),
}

/// What joins a term or factor to those before it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Operation {
    /// `+`
    Add,
    /// `-`
    Subtract,
    /// `*`
    Multiply,
    /// `/` and `per`
    Divide,
    /// `over`: a drop over a run.
    Over,
}

/// What a function is called with.
#[derive(Debug, Clone, PartialEq)]
pub enum Argument {
    /// A name alone, which may be a shape, a surface or a let.
    Name(String, Place),
    /// An edge of a shape.
    Edge {
        /// The shape.
        owner: String,
        /// The edge.
        name: String,
        /// Both.
        place: Place,
    },
    /// A point.
    Point(Box<(Expression, Expression)>, Place),
    /// Any other quantity.
    Value(Expression),
}

impl Argument {
    fn add_names<'e>(&'e self, names: &mut Vec<&'e str>) {
        match self {
            Argument::Name(name, _) => names.push(name),
            Argument::Edge { .. } => {}
            Argument::Point(point, _) => {
                point.0.add_names(names);
                point.1.add_names(names);
            }
            Argument::Value(value) => value.add_names(names),
        }
    }
}

/// Why no expression could be built.
#[derive(Debug, Clone, PartialEq)]
pub(crate) enum Trouble {
    /// Nothing there could start one.
    Missing,
    /// A finding of the line's own already tells.
    Told,
    /// A number that cannot be held.
    Number(Place, &'static str),
    /// A function and its parenthesis with a blank between them, and how they
    /// are written without it.
    CallParted(Place, String),
    /// Something that does not belong in an expression.
    Unexpected(Place),
}

impl Expression {
    /// Where it stands.
    pub fn place(&self) -> Place {
        match self {
            Expression::Literal(_, place)
            | Expression::Name(_, place)
            | Expression::Call { place, .. }
            | Expression::Negative(_, place)
            | Expression::Sum(_, place)
            | Expression::Product(_, place) => *place,
        }
    }

    /// The names in it that may be lets, in order. Its depth is bounded by
    /// the reading.
    pub fn names(&self) -> Vec<&str> {
        let mut names = Vec::new();
        self.add_names(&mut names);
        names
    }

    fn add_names<'e>(&'e self, names: &mut Vec<&'e str>) {
        match self {
            Expression::Literal(..) => {}
            Expression::Name(name, _) => names.push(name),
            Expression::Negative(inner, _) => inner.add_names(names),
            Expression::Sum(parts, _) | Expression::Product(parts, _) => {
                for (_, part) in parts {
                    part.add_names(names);
                }
            }
            Expression::Call { arguments, .. } => {
                for argument in arguments {
                    argument.add_names(names);
                }
            }
        }
    }

    /// The number that it begins with.
    pub fn first_literal(&self) -> Option<Quantity> {
        match self {
            Expression::Product(factors, _) => factors.first()?.1.literal(),
            own => own.literal(),
        }
    }

    /// The quantity, if it is written as a number and nothing else.
    pub fn literal(&self) -> Option<Quantity> {
        match self {
            Expression::Literal(quantity, _) => Some(*quantity),
            Expression::Negative(inner, _) => inner.literal()?.negated().ok(),
            _ => None,
        }
    }
}

/// Reads items one after the other.
pub(crate) struct Cursor<'a> {
    /// The line that they stand in.
    pub source: Source<'a>,
    /// The items.
    pub items: &'a [Item],
    /// The next one.
    pub next: usize,
    /// The word at which an expression ends here although it could go on:
    /// `per` before `load`.
    pub stop: Option<&'static str>,
    /// Whether `s` below a slash is a second, and no name.
    pub seconds: bool,
}

impl<'a> Cursor<'a> {
    /// The next item.
    pub(crate) fn peek(&self) -> Option<&'a Item> {
        self.items.get(self.next)
    }

    fn advance(&mut self) {
        self.next += 1;
    }

    /// Whether an expression ends before an item although it could go on:
    /// at `per load`, and at the slash of `$16/bag`.
    fn stops(&self, item: &Item, factors: &Chain) -> bool {
        let Some(word) = self.stop else {
            return false;
        };
        if item.kind == ItemKind::Operator(Operator::Divide) {
            let is_money = |factor: &Expression| {
                factor
                    .literal()
                    .is_some_and(|amount| amount.dimension == Dimension::MONEY)
            };
            let next = self.items.get(self.next + 1);
            return word == "per"
                && factors.all(is_money)
                && next.is_some_and(|next| next.kind == ItemKind::Word);
        }
        self.source.is_word(item, word)
    }

    /// From an item to the last one that was read.
    fn place_from(&self, start: usize) -> Place {
        self.source
            .place_of(self.items.get(start..self.next).unwrap_or_default())
    }

    /// A sum of products, as far as it goes.
    pub(crate) fn expression(&mut self) -> Result<Expression, Trouble> {
        let start = self.next;
        let mut terms = Chain::of(Operation::Add, self.product()?);
        while let Some(item) = self.peek() {
            let operation = match item.kind {
                ItemKind::Operator(Operator::Add) => Operation::Add,
                ItemKind::Operator(Operator::Subtract) => Operation::Subtract,
                _ => break,
            };
            self.advance();
            let term = self.product()?;
            terms.add(operation, term);
        }
        Ok(terms.joined(|| self.place_from(start), Expression::Sum))
    }

    fn product(&mut self) -> Result<Expression, Trouble> {
        let start = self.next;
        let mut factors = Chain::of(Operation::Multiply, self.factor()?);
        while let Some(item) = self.peek() {
            if self.stops(item, &factors) {
                break;
            }
            let operation = match &item.kind {
                ItemKind::Operator(Operator::Multiply) => Operation::Multiply,
                ItemKind::Operator(Operator::Divide | Operator::Per) => Operation::Divide,
                ItemKind::Operator(Operator::Over) => Operation::Over,
                ItemKind::Per { unit } => {
                    let place = self.source.place(item.span);
                    let Some(unit) = find_unit(self.source.slice(*unit)) else {
                        return Err(Trouble::Unexpected(place));
                    };
                    self.advance();
                    factors.add(
                        Operation::Divide,
                        Expression::Literal(Quantity::one(unit), place),
                    );
                    continue;
                }
                _ => break,
            };
            self.advance();
            let second = match operation {
                Operation::Divide => self.second(),
                _ => None,
            };
            let factor = second.map_or_else(|| self.factor(), Ok)?;
            factors.add(operation, factor);
        }
        Ok(factors.joined(|| self.place_from(start), Expression::Product))
    }

    /// A second, where one may stand.
    fn second(&mut self) -> Option<Expression> {
        let item = self.peek().filter(|_| self.seconds)?;
        if !self.source.is_word(item, SECOND.symbol) {
            return None;
        }
        self.advance();
        let place = self.source.place(item.span);
        Some(Expression::Literal(Quantity::one(&SECOND), place))
    }

    fn factor(&mut self) -> Result<Expression, Trouble> {
        let Some(item) = self.peek() else {
            return Err(Trouble::Missing);
        };
        let place = self.source.place(item.span);
        match &item.kind {
            ItemKind::Negative => {
                self.advance();
                if let Some(next) = self.peek()
                    && let Some(quantity) = negative_item(&self.source, next)
                {
                    self.advance();
                    let whole = place.to(self.source.place(next.span));
                    return Ok(Expression::Literal(quantity, whole));
                }
                let inner = self.factor()?;
                let whole = place.to(inner.place());
                Ok(Expression::Negative(Box::new(inner), whole))
            }
            ItemKind::Number { .. } | ItemKind::Ratio { .. } => {
                self.advance();
                match number_item(&self.source, item) {
                    Ok(quantity) => Ok(Expression::Literal(quantity, place)),
                    Err(why) => Err(Trouble::Number(place, why)),
                }
            }
            ItemKind::Word => {
                let word = self.source.slice(item.span);
                if SMALL_WORDS.contains(&word) {
                    return Err(Trouble::Missing);
                }
                if let Some(group) = self.items.get(self.next + 1)
                    && matches!(group.kind, ItemKind::Group { .. })
                    && FUNCTIONS.iter().any(|(name, _, _)| *name == word)
                {
                    let whole = place.to(self.source.place(group.span));
                    let written = format!("{word}{}", self.source.slice(group.span));
                    return Err(Trouble::CallParted(whole, written));
                }
                self.advance();
                Ok(Expression::Name(self.source.name(item.span), place))
            }
            ItemKind::Group { phrases } => {
                let [phrase] = &**phrases else {
                    return Err(Trouble::Unexpected(place));
                };
                self.advance();
                self.inside(phrase)
            }
            ItemKind::Call { name, phrases } => {
                self.advance();
                let arguments = phrases
                    .iter()
                    .map(|phrase| self.argument(phrase))
                    .collect::<Result<Vec<_>, _>>()?;
                Ok(Expression::Call {
                    function: self.source.slice(*name).to_owned(),
                    name: self.source.place(*name),
                    arguments,
                    place,
                })
            }
            ItemKind::Stray if self.source.has_fault(item.span) => Err(Trouble::Told),
            _ => Err(Trouble::Missing),
        }
    }

    /// The whole of a phrase inside a parenthesis.
    pub(crate) fn inside(&self, phrase: &'a Phrase) -> Result<Expression, Trouble> {
        let mut inner = Cursor {
            source: self.source,
            items: &phrase.items,
            next: 0,
            stop: None,
            seconds: self.seconds,
        };
        let expression = inner.expression()?;
        match inner.peek() {
            None => Ok(expression),
            Some(left) if self.source.has_fault(left.span) => Err(Trouble::Told),
            Some(left) => Err(Trouble::Unexpected(self.source.place(left.span))),
        }
    }

    fn argument(&self, phrase: &'a Phrase) -> Result<Argument, Trouble> {
        if let [item] = &*phrase.items {
            let place = self.source.place(item.span);
            match &item.kind {
                ItemKind::Word => {
                    return Ok(Argument::Name(self.source.name(item.span), place));
                }
                ItemKind::Reference { owner, edge } => {
                    return Ok(Argument::Edge {
                        owner: self.source.name(*owner),
                        name: self.source.name(*edge),
                        place,
                    });
                }
                ItemKind::Group { phrases } => {
                    if let [east, north] = &**phrases {
                        let pair = (self.inside(east)?, self.inside(north)?);
                        return Ok(Argument::Point(Box::new(pair), place));
                    }
                }
                _ => {}
            }
        }
        self.inside(phrase).map(Argument::Value)
    }
}

/// Terms or factors as they are read. Most expressions are one alone, and
/// take no list.
struct Chain {
    operation: Operation,
    first: Expression,
    rest: Vec<(Operation, Expression)>,
}

impl Chain {
    fn of(operation: Operation, first: Expression) -> Chain {
        Chain {
            operation,
            first,
            rest: Vec::new(),
        }
    }

    fn add(&mut self, operation: Operation, next: Expression) {
        self.rest.push((operation, next));
    }

    fn all(&self, holds: impl Fn(&Expression) -> bool) -> bool {
        holds(&self.first) && self.rest.iter().all(|(_, next)| holds(next))
    }

    /// The one alone, or all of them joined.
    fn joined(
        self,
        whole: impl FnOnce() -> Place,
        join: fn(Vec<(Operation, Expression)>, Place) -> Expression,
    ) -> Expression {
        if self.rest.is_empty() {
            return self.first;
        }
        let mut parts = Vec::with_capacity(1 + self.rest.len());
        parts.push((self.operation, self.first));
        parts.extend(self.rest);
        join(parts, whole())
    }
}
