//! Hydraulics: rain to flow, what pipes and channels carry, and how large a
//! soakaway has to be. Pure functions in SI that know no spec.
//!
//! Flows are cubic metres a second, slopes fractions of one, Manning's n in
//! s/m^(1/3). What has no answer is `None`; nothing here fails otherwise.

mod channel;
mod manning;
mod rain;
mod roughness;
mod soakaway;

#[cfg(test)]
mod worked_examples;

pub use channel::{Carried, Channel, Regime};
pub use manning::{Pipe, Rectangle, Section};
pub use rain::{Storm, peak_flow};
pub use roughness::{Bore, Roughness};
pub use soakaway::{Chamber, Method, Sizing, size};

/// The standard acceleration of free fall, in m/s².
const GRAVITY: f64 = 9.80665;
