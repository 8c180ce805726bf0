//! Cautions: what is said once a job, at its title, to whoever builds it.

mod care_cement;
mod care_connection;
mod care_dust;
mod care_lifting;
mod care_services;
mod care_steps;
mod care_trench;
mod care_vibration;
mod caution;

use super::Rule;

/// The family's rules, in the order in which they are listed.
pub(crate) static RULES: &[&Rule] = &[
    &care_dust::CARE_DUST,
    &care_cement::CARE_CEMENT,
    &care_lifting::CARE_LIFTING,
    &care_vibration::CARE_VIBRATION,
    &care_services::CARE_SERVICES,
    &care_steps::CARE_STEPS,
    &care_trench::CARE_TRENCH,
    &care_connection::CARE_CONNECTION,
];
