//! Sections matched against the vocabulary: which key, which value, which
//! clauses, and what could not be read.
//!
//! A reading depends on the section's text and on the section in force above
//! it, and on nothing else, so that it can be kept while both stay the same.
//! Names are not looked up here, and nothing is worked out.

mod bare_number;
mod clause;
mod clock;
mod commas;
mod dates;
mod depths_in_time;
mod entry;
mod expression;
mod fault;
mod fit;
mod literal;
mod lost_headings;
mod lost_indents;
mod marks;
mod minus;
mod misread;
mod missing_words;
mod number;
mod odd_numbers;
mod other_keys;
mod parts;
mod powers;
mod repeats;
mod said_otherwise;
mod sale;
mod section;
mod source;
mod spelled_units;
mod spoken_lines;
mod spoken_money;
mod spoken_names;
mod spoken_places;
mod spoken_sales;
mod suggest;
mod tell;
mod temperatures;
mod trial;
mod turned_round;
mod units_noted;
mod usual;
mod value;
mod weekdays;
mod winds;
mod working_time;

pub(crate) use dates::MESSAGE as DATE_OTHERWISE;
pub(crate) use expression::Operation;
pub use expression::{Argument, Expression};
pub use literal::literal;
pub use lost_indents::{is_bare, is_lost_entry};
pub(crate) use sale::sale;
pub use section::{SectionReading, kind_after, read_lost_entry, read_section};
pub(crate) use source::meant;
pub use suggest::nearest;
pub(crate) use suggest::{ending_in, held_in, slip_of};
pub(crate) use usual::odd_when_worked_out;
pub(crate) use value::{Clause, NamedPart};
pub use value::{Entry, Filled, Value};
