//! Numbers, dimensions, quantities, money, the table of units, and showing
//! all of them to people.
//!
//! This room knows no specification: it is given numbers and names of units
//! and says what they are. It may use `text` and nothing else of ours.
//! Everything in it is total: what cannot be worked out is an
//! [`ArithmeticError`] or nothing, never a panic.

mod currency;
mod day;
mod dimension;
mod dimension_name;
mod exact;
mod find_unit;
mod money;
mod number;
mod numeral;
mod quantity;
mod quantity_arithmetic;
pub(crate) mod rounding;
pub mod show;
mod system;
mod temperature;
pub mod unit;

pub use currency::Currency;
pub use day::Day;
pub use dimension::Dimension;
pub use find_unit::{find_unit, unit_readings};
pub use money::Money;
pub use number::Number;
pub use numeral::{LONGEST_NUMBER, NumberFault, read_number};
pub use quantity::{Kind, Quantity};
pub use quantity_arithmetic::ArithmeticError;
pub use system::System;
pub use temperature::{Scale, degrees_in, temperature_from};
pub use unit::{UNITS, Unit};
