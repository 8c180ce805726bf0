//! The patio specification language: reading it, working out its figures,
//! and checking it against the rules of the trade.
//!
//! Data flows one way through the rooms below, each of which may use only
//! those above it:
//! text → syntax, units, geometry → vocabulary, materials → model →
//! quantities → rules → analysis, format → drawing → ide, report → server,
//! preview → cli.

pub mod analysis;
pub mod cli;
pub mod drawing;
pub mod findings;
pub mod format;
pub mod geometry;
pub mod host;
pub mod ide;
pub mod materials;
pub mod model;
pub mod preview;
pub mod quantities;
pub mod report;
pub mod rules;
pub mod server;
pub mod sources;
pub mod syntax;
pub mod text;
pub mod units;
pub mod vocabulary;
