//! Expressions worked out.

use std::cmp::Ordering;
use std::hash::Hash;
use std::sync::Arc;

use rustc_hash::{FxHashMap, FxHashSet};

use super::super::job::{Build, Job, Region, Repeat, Shape, Stated, Substance};
use super::super::reading::{Expression, Operation};
use super::currencies;
use super::definitions::{Definition, Definitions, FileInput, LogicalSection};
use super::dependencies::{Dependencies, Subject};
use super::draft::Draft;
use crate::findings::{FileId, Finding, Place, SectionRef};
use crate::geometry::Edge;
use crate::units::{ArithmeticError, Currency, Kind, Quantity, System};
use crate::vocabulary::NameSpace;

/// Something that is worked out at most once.
#[derive(Debug, Clone)]
pub(crate) enum Worked<T> {
    /// It is being worked out now: to ask for it again is to go in a circle.
    Begun,
    /// It is done, with its value if it has one.
    Done(Option<T>),
}

/// How deep the work may be nested, so that the stack holds: an operation or
/// a parenthesis counts for one, a definition for [`DEFINITION`].
const DEEPEST: usize = 256;

/// How much of [`DEEPEST`] it takes to work out a definition.
const DEFINITION: usize = 4;

/// What is still to do for a let.
enum Step {
    /// To see which others it takes.
    Begin(Definition),
    /// To work it out, those others known.
    End(Definition),
}

/// The names of all files, and which file sees which.
#[derive(Debug, Default)]
pub(crate) struct Scope {
    pub definitions: Definitions,
    /// For each file, which files it sees: itself and what it uses.
    visible: Vec<Vec<bool>>,
    /// For each file, whether one that it sees lacks some that it uses.
    lacking: Vec<bool>,
    /// The sections of the file itself by their kind.
    own: FxHashMap<&'static str, Vec<Definition>>,
    /// The surfaces of the file itself that lay several of a shape.
    repeating: Vec<Definition>,
}

impl Scope {
    /// The names of these files.
    pub(crate) fn of(files: &[FileInput]) -> Scope {
        let mut own: FxHashMap<&'static str, Vec<Definition>> = FxHashMap::default();
        let mut repeating = Vec::new();
        let sections = files
            .first()
            .into_iter()
            .flat_map(|file| file.sections.iter());
        for (index, section) in sections.enumerate() {
            if let Some(kind) = section.kind() {
                let definition = Definition {
                    file: FileId(0),
                    section: index,
                };
                own.entry(kind.word).or_default().push(definition);
                repeating.extend(section.repeats().map(|_| definition));
            }
        }
        let visible = (0..files.len()).map(|index| seen_from(files, index));
        let visible: Vec<Vec<bool>> = visible.collect();
        let lacks_some = |seen: &Vec<bool>| {
            let mut each = seen.iter().zip(files);
            each.any(|(is_seen, file)| *is_seen && file.lacks_some)
        };
        Scope {
            own,
            repeating,
            definitions: Definitions::of(files),
            lacking: visible.iter().map(lacks_some).collect(),
            visible,
        }
    }
}

impl Scope {
    /// Whether one file sees what another defines.
    pub(crate) fn sees(&self, file: FileId, other: FileId) -> bool {
        let seen = self.visible.get(usize::from(file.0));
        let other = usize::from(other.0);
        seen.and_then(|seen| seen.get(other)).is_some_and(|is| *is)
    }

    /// Whether names may be defined for a file in others that could not be
    /// read.
    pub(crate) fn lacks_some(&self, file: FileId) -> bool {
        let lacking = self.lacking.get(usize::from(file.0));
        lacking.is_some_and(|is| *is)
    }

    /// The sections of the file itself with this kind.
    pub(crate) fn own(&self, kind: &str) -> &[Definition] {
        self.own.get(kind).map_or(&[], Vec::as_slice)
    }

    /// The surfaces of the file itself that lay several of a shape.
    pub(crate) fn repeating(&self) -> &[Definition] {
        &self.repeating
    }

    /// Whether something has its name together with something else.
    pub(crate) fn is_one_of_several(&self, subject: &Subject, files: &[FileInput]) -> bool {
        let several = |space: NameSpace, name: &str| self.definitions.all(space, name).len() > 1;
        let definition = match subject {
            Subject::Heading
            | Subject::Site
            | Subject::Work
            | Subject::Money
            | Subject::SettingOut
            | Subject::Drains
            | Subject::Steps
            | Subject::Accepts => return false,
            Subject::Substance(name) => return several(NameSpace::Substances, name),
            Subject::Let(definition)
            | Subject::Shape(definition)
            | Subject::Build(definition)
            | Subject::Plane(definition)
            | Subject::Line(definition)
            | Subject::Repeat(definition)
            | Subject::Surface(definition) => definition,
        };
        let file = files.get(definition.file.0 as usize);
        let section = file.and_then(|file| file.sections.get(definition.section));
        section.is_some_and(|section| {
            let space = section.kind().and_then(|kind| kind.defines);
            let named = space.zip(section.name());
            named.is_some_and(|(space, name)| several(space, name.value))
        })
    }
}

/// What has been worked out, each with what it came upon.
#[derive(Debug, Default)]
pub(crate) struct Outcomes {
    pub lets: FxHashMap<Definition, Worked<Quantity>>,
    pub shapes: FxHashMap<Definition, Worked<Arc<Shape>>>,
    pub substances: FxHashMap<String, Worked<Substance>>,
    pub builds: FxHashMap<Definition, Worked<Arc<Build>>>,
    pub planes: FxHashMap<Definition, Worked<crate::geometry::Plane>>,
    pub lines: FxHashMap<Definition, Arc<Vec<Edge>>>,
    pub repeats: FxHashMap<Definition, Worked<Arc<Repeat>>>,
    /// Those that are still to be taken into the job; nothing for others.
    pub surfaces: FxHashMap<Definition, Option<Box<Draft>>>,
    pub dependencies: Dependencies,
}

impl Outcomes {
    /// Forgets subjects and all that took them; gives all that is forgotten.
    pub(crate) fn forget(
        &mut self,
        subjects: impl IntoIterator<Item = Subject>,
    ) -> FxHashSet<Subject> {
        let forgotten = self.dependencies.forget(subjects);
        forgotten.iter().for_each(|subject| self.remove(subject));
        forgotten
    }

    /// Forgets what was worked out only for others that no longer take it.
    pub(crate) fn forget_untaken(&mut self, is_wanted: impl Fn(&Subject) -> bool) {
        let forgotten = self.dependencies.forget_untaken(is_wanted);
        forgotten.iter().for_each(|subject| self.remove(subject));
    }

    /// Adds what was worked out elsewhere and is not here yet.
    pub(crate) fn gather(&mut self, other: Outcomes) {
        gather(&mut self.lets, other.lets);
        gather(&mut self.shapes, other.shapes);
        gather(&mut self.substances, other.substances);
        gather(&mut self.builds, other.builds);
        gather(&mut self.planes, other.planes);
        gather(&mut self.lines, other.lines);
        gather(&mut self.repeats, other.repeats);
        gather(&mut self.surfaces, other.surfaces);
        self.dependencies.gather(other.dependencies);
    }

    fn remove(&mut self, subject: &Subject) {
        match subject {
            Subject::Heading
            | Subject::Site
            | Subject::Work
            | Subject::Money
            | Subject::SettingOut
            | Subject::Drains
            | Subject::Steps
            | Subject::Accepts => {}
            Subject::Let(definition) => drop(self.lets.remove(definition)),
            Subject::Shape(definition) => drop(self.shapes.remove(definition)),
            Subject::Substance(name) => drop(self.substances.remove(name)),
            Subject::Build(definition) => drop(self.builds.remove(definition)),
            Subject::Plane(definition) => drop(self.planes.remove(definition)),
            Subject::Line(definition) => drop(self.lines.remove(definition)),
            Subject::Repeat(definition) => drop(self.repeats.remove(definition)),
            Subject::Surface(definition) => drop(self.surfaces.remove(definition)),
        }
    }
}

fn gather<K: Eq + Hash, V>(here: &mut FxHashMap<K, V>, other: FxHashMap<K, V>) {
    here.reserve(other.len());
    for (key, value) in other {
        here.entry(key).or_insert(value);
    }
}

/// Works out a job.
pub(crate) struct Resolver<'a> {
    pub files: &'a [FileInput],
    pub scope: Arc<Scope>,
    pub done: Outcomes,
    pub currency: Currency,
    pub system: System,
    /// Where the job is.
    pub region: Region,
    /// How deep the work at hand is nested.
    pub depth: usize,
    /// Whether something hung on where the work began: what depends on
    /// itself, or nests too deep. Nothing of it holds after an edit.
    pub is_entangled: bool,
}

impl<'a> Resolver<'a> {
    /// Before anything is worked out.
    pub(crate) fn new(files: &'a [FileInput]) -> Resolver<'a> {
        Resolver::going_on(files, Arc::new(Scope::of(files)), Outcomes::default())
    }

    /// With what is worked out already.
    pub(crate) fn going_on(
        files: &'a [FileInput],
        scope: Arc<Scope>,
        done: Outcomes,
    ) -> Resolver<'a> {
        Resolver {
            files,
            scope,
            done,
            currency: Currency::Dollar,
            system: System::Metric,
            region: Region::General,
            depth: 0,
            is_entangled: false,
        }
    }

    /// Works on a subject; what is found meanwhile, taken and used, is its.
    pub(crate) fn on<T>(&mut self, subject: Subject, work: impl FnOnce(&mut Self) -> T) -> T {
        self.done.dependencies.begin(subject);
        let made = work(self);
        self.done.dependencies.end();
        made
    }

    /// The section of a definition.
    pub(crate) fn section(&self, definition: Definition) -> Option<&'a LogicalSection> {
        self.files
            .get(definition.file.0 as usize)?
            .sections
            .get(definition.section)
    }

    /// The sections of the file itself with this kind, with their
    /// definitions.
    pub(crate) fn own(&self, kind: &str) -> Vec<(Definition, &'a LogicalSection)> {
        let own = self.scope.own(kind).iter();
        own.filter_map(|definition| Some((*definition, self.section(*definition)?)))
            .collect()
    }

    /// Whether a line of a section is in error, so that what seems to be
    /// missing or idle there may only be misread.
    pub(crate) fn is_misread(&self, at: SectionRef) -> bool {
        let file = self.files.get(usize::from(at.file.0));
        let mut sections = file.into_iter().flat_map(|file| file.sections.iter());
        let section = sections.find(|section| section.at() == at);
        section.is_some_and(LogicalSection::is_any_unread)
    }

    /// Adds a finding.
    pub(crate) fn find(&mut self, finding: Finding) {
        self.done.dependencies.find(finding);
    }

    /// The value of an expression that stands in a file, or `None` and a
    /// finding that says why there is none.
    pub(crate) fn value(&mut self, expression: &Expression, file: FileId) -> Option<Quantity> {
        match expression {
            Expression::Literal(quantity, place) => self.literal(*quantity, *place),
            Expression::Name(name, place) => self.let_value(name, *place, file),
            nested => self.nested(1, nested.place(), |resolver| {
                resolver.composite(nested, file)
            }),
        }
    }

    fn composite(&mut self, expression: &Expression, file: FileId) -> Option<Quantity> {
        match expression {
            Expression::Literal(..) | Expression::Name(..) => self.value(expression, file),
            Expression::Call {
                function,
                name,
                arguments,
                place,
            } => self.call(function, *name, arguments, *place, file),
            Expression::Negative(inner, place) => {
                let value = self.value(inner, file)?;
                self.outcome(value.negated(), *place)
            }
            Expression::Sum(terms, place) => self.fold(terms, *place, file),
            Expression::Product(factors, place) => self.fold(factors, *place, file),
        }
    }

    fn literal(&mut self, quantity: Quantity, place: Place) -> Option<Quantity> {
        let Some(currency) = quantity.currency else {
            return Some(quantity);
        };
        let resolved = quantity.resolved(self.currency);
        // A library's price is told of where it is used.
        if resolved.currency.is_some_and(|own| own != self.currency)
            && place.section.file == FileId(0)
            && self.currency != Currency::Dollar
        {
            let own = self.currency;
            self.find(currencies::in_another(quantity, currency, own, place));
            return None;
        }
        Some(resolved)
    }

    fn fold(
        &mut self,
        parts: &[(Operation, Expression)],
        place: Place,
        file: FileId,
    ) -> Option<Quantity> {
        let mut so_far: Option<Quantity> = None;
        for (operation, part) in parts {
            let value = self.value(part, file)?;
            so_far = match so_far {
                None => Some(value),
                Some(left) => Some(self.outcome(combined(left, *operation, value), place)?),
            };
        }
        so_far
    }

    /// The value of some arithmetic, or the finding that says why it has
    /// none.
    pub(crate) fn outcome(
        &mut self,
        outcome: Result<Quantity, ArithmeticError>,
        place: Place,
    ) -> Option<Quantity> {
        match outcome {
            Ok(value) => Some(value),
            Err(error) => {
                let rule = match error {
                    ArithmeticError::DivisionByZero | ArithmeticError::TooLarge => "value-range",
                    _ => "dimension-wrong",
                };
                self.find(Finding::new(rule, place, error.to_string()));
                None
            }
        }
    }

    fn let_value(&mut self, name: &str, place: Place, file: FileId) -> Option<Quantity> {
        let definition = self.look_up(NameSpace::Lets, name, place, file)?;
        self.work_let(definition, place)
    }

    /// The value of a let. The lets that it takes are worked out before it,
    /// one after the other, so that a long chain of them nests nothing.
    pub(crate) fn work_let(&mut self, definition: Definition, place: Place) -> Option<Quantity> {
        self.done.dependencies.take(Subject::Let(definition));
        match self.done.lets.get(&definition) {
            Some(Worked::Done(value)) => return *value,
            Some(Worked::Begun) => {
                self.circle(definition, place);
                return None;
            }
            None => {}
        }
        let mut steps = vec![Step::Begin(definition)];
        while let Some(step) = steps.pop() {
            match step {
                Step::Begin(one) if self.done.lets.contains_key(&one) => {}
                Step::Begin(one) => {
                    self.done.lets.insert(one, Worked::Begun);
                    steps.push(Step::End(one));
                    if let Some(expression) = self.expression_of(one) {
                        let taken = self.lets_in(expression, one.file);
                        steps.extend(taken.into_iter().rev().map(Step::Begin));
                    }
                }
                Step::End(one) => {
                    let expression = self.expression_of(one);
                    let value = self.on(Subject::Let(one), |resolver| {
                        let expression = expression?;
                        resolver.deeper(place, |resolver| resolver.value(expression, one.file))
                    });
                    self.done.lets.insert(one, Worked::Done(value));
                }
            }
        }
        match self.done.lets.get(&definition) {
            Some(Worked::Done(value)) => *value,
            _ => None,
        }
    }

    fn expression_of(&self, definition: Definition) -> Option<&'a Expression> {
        self.section(definition)?
            .heading()?
            .filled
            .quantity("VALUE")
    }

    /// The lets that an expression names, in order.
    fn lets_in(&self, expression: &Expression, file: FileId) -> Vec<Definition> {
        expression
            .names()
            .into_iter()
            .filter_map(|name| self.seen(NameSpace::Lets, name, file))
            .collect()
    }

    /// Tells that a definition depends on itself.
    pub(crate) fn circle(&mut self, definition: Definition, place: Place) {
        let Some(section) = self.section(definition) else {
            return;
        };
        self.is_entangled = true;
        let name = section.name().map_or("this", |name| name.value);
        self.find(
            Finding::new(
                "circular",
                place,
                format!("`{name}` depends on itself, so it has no value"),
            )
            .related(section.place(), format!("`{name}` is defined here")),
        );
    }

    /// Works out what a definition says, unless too many lean on one another.
    pub(crate) fn deeper<T>(
        &mut self,
        place: Place,
        work: impl FnOnce(&mut Self) -> Option<T>,
    ) -> Option<T> {
        self.nested(DEFINITION, place, work)
    }

    /// Does something that nests so much deeper, unless that is too deep.
    fn nested<T>(
        &mut self,
        by: usize,
        place: Place,
        work: impl FnOnce(&mut Self) -> Option<T>,
    ) -> Option<T> {
        if self.depth + by > DEEPEST {
            self.is_entangled = true;
            self.find(Finding::new(
                "circular",
                place,
                "too many definitions here depend on one another",
            ));
            return None;
        }
        self.depth += by;
        let result = work(self);
        self.depth -= by;
        result
    }

    /// The lets of the file itself, worked out in order.
    pub(crate) fn lets(&mut self, job: &mut Job) {
        job.lets.clear();
        for (definition, section) in self.own("let") {
            let value = self.work_let(definition, section.place());
            if let Some(name) = section.name() {
                job.lets
                    .push((Stated::new(name.value.to_owned(), name.place), value));
            }
        }
    }
}

/// Two values joined by an operator.
pub(crate) fn combined(
    left: Quantity,
    operation: Operation,
    right: Quantity,
) -> Result<Quantity, ArithmeticError> {
    match operation {
        Operation::Add => left.plus(right),
        Operation::Subtract => left.minus(right),
        Operation::Multiply => left.times(right),
        Operation::Divide => left.divided_by(right),
        Operation::Over => left.divided_by(right).map(|quotient| Quantity {
            kind: if quotient.dimension.is_none() {
                Kind::Proportion
            } else {
                quotient.kind
            },
            ..quotient
        }),
    }
}

/// The value of an expression of numbers alone.
pub(crate) fn constant(expression: &Expression) -> Option<Quantity> {
    match expression {
        Expression::Literal(quantity, _) => Some(*quantity),
        Expression::Negative(inner, _) => constant(inner)?.negated().ok(),
        Expression::Sum(parts, _) | Expression::Product(parts, _) => {
            let mut values = parts.iter();
            let mut so_far = constant(&values.next()?.1)?;
            for (operation, part) in values {
                so_far = combined(so_far, *operation, constant(part)?).ok()?;
            }
            Some(so_far)
        }
        Expression::Name(..) | Expression::Call { .. } => None,
    }
}

/// The files that a file sees: itself and, by any road, what it uses.
fn seen_from(files: &[FileInput], index: usize) -> Vec<bool> {
    let mut seen = vec![false; files.len()];
    let mut next = vec![index];
    while let Some(file) = next.pop() {
        let is_new = |seen: &mut bool| !std::mem::replace(seen, true);
        if seen.get_mut(file).is_some_and(is_new)
            && let Some(input) = files.get(file)
        {
            next.extend(input.uses.iter().map(|used| usize::from(used.0)));
        }
    }
    seen
}

/// Which of two values is the greater, where they can be compared.
pub(crate) fn order(left: Quantity, right: Quantity) -> Option<Ordering> {
    left.compare(right).ok()
}
