//! Values wanted of a kind: worked out, checked for what they measure and for
//! being in range.

use super::super::job::Stated;
use super::super::reading::{Expression, Filled, Value, odd_when_worked_out};
use super::evaluate::{Resolver, order};
use crate::findings::{FileId, Finding, Fix, Place};
use crate::geometry::{LARGEST, Point, Vector};
use crate::units::{Dimension, Kind, Quantity, System, unit};
use crate::vocabulary::{Sense, ValueKind};

/// In pascals: no stone, brick or concrete is stronger.
const STRONGEST: f64 = 400e6;

/// The same as a number of psi.
const STRONGEST_IN_PSI: f64 = 58_000.0;

/// Which values a slot takes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Range {
    /// Any.
    Any,
    /// 0 and more.
    NotNegative,
    /// More than 0.
    Positive,
    /// A share from 0 to under 100 %.
    Share,
    /// A whole number from 1 up.
    Whole,
    /// A whole number, 0 too.
    WholeOrNone,
}

impl Resolver<'_> {
    /// The quantity in a slot.
    pub(crate) fn wanted(
        &mut self,
        filled: &Filled,
        slot: &str,
        kind: ValueKind,
        range: Range,
        file: FileId,
    ) -> Option<Stated<Quantity>> {
        let expression = filled.quantity(slot)?;
        let stated = self.want(expression, kind, range, file)?;
        let (value, place) = (stated.value, stated.place);
        if let Some(odd) = odd_when_worked_out(filled, slot, value, self.system, place) {
            self.find(odd);
        }
        match slot {
            "LEVEL" => self.by_its_sense(filled, stated),
            _ => Some(stated),
        }
    }

    /// A level that is stated below the datum, as the negative one that it is.
    fn by_its_sense(
        &mut self,
        filled: &Filled,
        stated: Stated<Quantity>,
    ) -> Option<Stated<Quantity>> {
        let Some(sense) = filled.chosen::<Sense>("SENSE") else {
            return Some(stated);
        };
        if sense.value == Sense::Above {
            return Some(stated);
        }
        if stated.value.number.is_negative() {
            self.find(Finding::new(
                "level-unclear",
                stated.place.to(sense.place),
                "a minus and `below` together could mean above the datum: keep one of the two",
            ));
            return None;
        }
        Some(Stated::new(stated.value.negated().ok()?, stated.place))
    }

    /// The value of an expression, checked.
    pub(crate) fn want(
        &mut self,
        expression: &Expression,
        kind: ValueKind,
        range: Range,
        file: FileId,
    ) -> Option<Stated<Quantity>> {
        let place = expression.place();
        let value = self.value(expression, file)?;
        let is_written = matches!(expression, Expression::Literal(..));
        if !self.measures(value, kind, (place, is_written))
            || !self.in_range(value, kind, range, place)
        {
            return None;
        }
        Some(Stated::new(value, place))
    }

    /// Whether a value measures what is wanted; `is_written` says that it is a
    /// number of the text and not worked out.
    fn measures(
        &mut self,
        value: Quantity,
        kind: ValueKind,
        (place, is_written): (Place, bool),
    ) -> bool {
        let plain = value.dimension.is_none() && value.kind == Kind::Plain;
        let fits = match kind {
            ValueKind::Quantity | ValueKind::DaysFor => true,
            ValueKind::Price => value.currency.is_some(),
            ValueKind::Slope | ValueKind::Share => {
                value.currency.is_none()
                    && value.dimension.is_none()
                    && (value.kind == Kind::Proportion || value.number.is_zero())
            }
            ValueKind::Infiltration if value.dimension == Dimension::PERCOLATION => {
                value.currency.is_none()
            }
            _ => {
                value.currency.is_none()
                    && (kind.dimension() == Some(value.dimension) || value.is_bare_zero())
            }
        };
        if fits {
            return true;
        }
        let in_days = value.in_unit(&unit::DAY);
        let in_days = in_days.filter(|days| days.floor() == *days);
        let finding = if let (ValueKind::Count, Some(days)) = (kind, in_days) {
            let message = format!("this is a time: {} belongs here", kind.noun());
            let finding = Finding::new("dimension-wrong", place, message);
            let text = format!("{}", days.to_f64());
            finding.fix(Fix::judged(format!("Write `{text}`"), place, text))
        } else if plain {
            let message = format!("this is a plain number: {} belongs here", kind.noun());
            let finding = Finding::new("unit-missing", place, message);
            match (kind, is_written) {
                (ValueKind::Length, true) => self.with_a_unit(finding),
                (ValueKind::Count, true) | (_, false) => finding,
                (_, true) => self.with_its_sign(finding, kind),
            }
        } else {
            let found = match value.kind {
                Kind::Proportion if value.dimension.is_none() => "a slope or share".to_owned(),
                _ => value.dimension.name(),
            };
            let finding = Finding::new(
                "dimension-wrong",
                place,
                format!("this is {found}: {} belongs here", kind.noun()),
            );
            // `65/day` lacks no more than its sign.
            let powers = [
                value.dimension.length,
                value.dimension.mass,
                value.dimension.time,
            ];
            match value.currency.is_none() && powers.iter().all(|power| *power <= 0) {
                true => self.with_its_sign(finding, kind),
                false => self.with_what_lacks(value, kind, finding),
            }
        };
        self.find(finding);
        false
    }

    /// A number where a length belongs is most likely in one of the job's own
    /// units.
    fn with_a_unit(&self, finding: Finding) -> Finding {
        let units = match self.system {
            System::Imperial => ["ft", "in"],
            System::Metric => ["m", "mm"],
        };
        let end = finding.place.end();
        units.into_iter().fold(finding, |finding, unit| {
            finding.fix(Fix::judged(
                format!("Write {unit} after it"),
                end,
                format!(" {unit}"),
            ))
        })
    }

    /// A number where money belongs is most likely in the job's own.
    fn with_its_sign(&self, finding: Finding, kind: ValueKind) -> Finding {
        if kind != ValueKind::Price {
            return finding;
        }
        let sign = self.currency.symbol();
        let place = finding.place.start();
        finding.fix(Fix::judged(format!("Write {sign} before it"), place, sign))
    }

    /// With what a figure lacks to be of the wanted kind.
    fn with_what_lacks(&self, value: Quantity, kind: ValueKind, finding: Finding) -> Finding {
        match (kind, value.dimension) {
            (ValueKind::Density, Dimension::MASS) => {
                finding.help("A density is a mass per volume, such as `150 lb/cu ft`.")
            }
            (ValueKind::Slope, Dimension::LENGTH) => finding.help(match self.system {
                System::Metric => "It falls so much over what? Write `1:60`, or `100 mm over 6 m`.",
                System::Imperial => {
                    "It falls so much over what? Write `1:50`, or `1 in over 4 ft`."
                }
            }),
            _ => finding,
        }
    }

    fn in_range(&mut self, value: Quantity, kind: ValueKind, range: Range, place: Place) -> bool {
        let si = value.si();
        let message = match range {
            _ if !si.is_finite() => Some("this is too large to work with".to_owned()),
            _ if kind == ValueKind::Length && si.abs() > LARGEST => {
                Some("this is longer than 1,000 km".to_owned())
            }
            _ if kind == ValueKind::Strength && si > STRONGEST => Some(
                "no stone, brick or concrete is as strong as this: 400 MPa is 58,000 psi"
                    .to_owned(),
            ),
            Range::Any => None,
            Range::NotNegative if si < 0.0 => {
                Some(format!("{} cannot be negative here", kind.noun()))
            }
            Range::Positive if si <= 0.0 => {
                Some(format!("{} must be more than 0 here", kind.noun()))
            }
            Range::Share if !(0.0..1.0).contains(&si) => {
                Some("a share here lies between 0 and 100 %".to_owned())
            }
            Range::Whole => {
                let whole = value.number.floor() == value.number;
                (!whole || !(1.0..=1e6).contains(&si))
                    .then(|| "a whole number from 1 up belongs here".to_owned())
            }
            Range::WholeOrNone => {
                let whole = value.number.floor() == value.number;
                (!whole || !(0.0..=1e6).contains(&si))
                    .then(|| "a whole number belongs here".to_owned())
            }
            _ => None,
        };
        let Some(message) = message else { return true };
        let mut finding = Finding::new("value-range", place, message);
        if matches!(range, Range::NotNegative | Range::Positive)
            && si < 0.0
            && let Ok(positive) = value.negated()
        {
            let shown = match (kind, 1.0 / positive.si()) {
                // As people write it: `1:60`, or `1.3 %` where that is no whole
                // number.
                (ValueKind::Slope, run) if (run - run.round()).abs() < 1e-6 * run => {
                    format!("1:{}", run.round())
                }
                _ => {
                    let shown = crate::units::show::quantity(&positive, self.system);
                    let share = shown.split(" (").next();
                    share.map_or(shown.clone(), str::to_owned)
                }
            };
            finding = finding.fix(Fix::judged(format!("Write `{shown}`"), place, shown));
        }
        // A figure in psi to which MPa was written is so many times too high.
        let in_psi = si / 1e6;
        let is_whole = in_psi.fract() == 0.0 && (0.0..STRONGEST_IN_PSI).contains(&in_psi);
        if kind == ValueKind::Strength && si > STRONGEST && is_whole {
            let shown = format!("{in_psi} psi");
            finding = finding.fix(Fix::judged(format!("Write `{shown}`"), place, shown));
        }
        self.find(finding);
        false
    }

    /// The point in a slot, in metres.
    pub(crate) fn point(
        &mut self,
        filled: &Filled,
        slot: &str,
        file: FileId,
    ) -> Option<Stated<Point>> {
        let (value, place) = filled.get(slot)?;
        self.point_of(value, place, file)
    }

    /// A point, in metres.
    pub(crate) fn point_of(
        &mut self,
        value: &Value,
        place: Place,
        file: FileId,
    ) -> Option<Stated<Point>> {
        let Value::Point(point) = value else {
            return None;
        };
        let (east, north) = &**point;
        let east = self.want(east, ValueKind::Length, Range::Any, file)?;
        let north = self.want(north, ValueKind::Length, Range::Any, file)?;
        Some(Stated::new(
            Point::new(east.value.si(), north.value.si()),
            place,
        ))
    }

    /// A compass word or bearing, as a unit vector of the plan.
    pub(crate) fn direction(&mut self, value: &Value, file: FileId) -> Option<Vector> {
        match value {
            Value::Compass(degrees) => Some(Vector::from_bearing(*degrees)),
            Value::Bearing(angle) => {
                let angle = self.want(angle, ValueKind::Angle, Range::Any, file)?;
                Some(Vector::from_bearing(angle.value.si() % 360.0))
            }
            _ => None,
        }
    }

    /// The lesser of two values that measure the same.
    pub(crate) fn is_less(left: Quantity, right: Quantity) -> bool {
        order(left, right) == Some(std::cmp::Ordering::Less)
    }
}
