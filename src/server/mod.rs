//! The language server, on standard input and output: the only room that
//! names the protocol, its crate, the rope and the runtime.
//!
//! Messages are read by a thread of their own and handed on in the order in
//! which they came. All that is open lies on one `desk`, owned by one
//! thread; every notification and every request is one job on its queue, so a
//! request sees exactly the edits that came before it, and reading never
//! waits for an analysis. Specs that are not open are searched and read by a
//! thread of their own, see `workspace`. What goes out passes through one
//! `tray`.
//!
//! The room uses `analysis`, `format` and `ide`, and hands plain data to them.

mod actions;
mod answers;
mod backend;
mod capabilities;
mod changes;
mod checking;
mod commands;
mod completion;
mod desk;
mod diagnostics;
mod disk;
mod documents;
mod engine;
mod everywhere;
mod files;
mod formatting;
mod frames;
mod gravest;
mod hints;
mod json;
mod life;
mod look;
mod message;
mod moving;
mod names;
mod outbox;
mod pages;
mod paths;
mod positions;
mod prepared;
mod questions;
mod reading;
mod serve;
mod settings;
mod shell;
mod signature;
mod standing;
mod symbols;
mod tokens;
mod tray;
mod workspace;

#[cfg(test)]
mod fixture;

pub use pages::{PAGES, Page};
pub use serve::serve;
