//! Sheets and machine-readable results, made from an analysis: text in, text
//! out, and no file touched.

pub mod reference;
