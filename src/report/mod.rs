//! reports
pub mod reference;
