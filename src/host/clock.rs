//! The day that it is.

use std::time::{SystemTime, UNIX_EPOCH};

use crate::units::Day;

const SECONDS_A_DAY: u64 = 86_400;

/// Today by universal time, as `2027-01-12`.
pub fn today() -> String {
    let since = SystemTime::now()
        .duration_since(UNIX_EPOCH)
        .unwrap_or_default();
    let days = i64::try_from(since.as_secs() / SECONDS_A_DAY).unwrap_or_default();
    Day::after_1970(days).to_string()
}
