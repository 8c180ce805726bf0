//! The language server, on standard input and output: the only room that
//! names the protocol, its crate, the rope and the runtime.
//!
//! Messages are read by a thread of their own and handed on in the order in
//! which they came. All that is open belongs to one `session`, owned by one
//! thread; every notification and every request is one job on its queue, so a
//! request sees exactly the edits that came before it, and reading never
//! waits for an analysis. Specs that are not open are searched and read by a
//! thread of their own, see `workspace`. What goes out passes through one
//! `writer`.
//!
//! The room uses `analysis`, `format` and `ide`, and hands plain data to them.

mod actions;
mod backend;
mod capabilities;
mod changes;
mod checking;
mod client_requests;
mod commands;
mod completion;
mod diagnostics;
mod documents;
mod engine;
mod fast_requests;
mod file_rename;
mod files;
mod formatting;
mod frames;
mod hints;
mod hover;
mod message;
mod names;
mod numbered;
mod paths;
mod positions;
mod reading;
mod serve;
mod session;
mod settings;
mod signature;
mod snapshot;
mod surrogates;
mod symbols;
mod tokens;
mod workspace;
mod workspace_references;
mod writer;

#[cfg(test)]
mod fixture;

pub use commands::{COMMANDS, Command};
pub use serve::serve;
pub use settings::{SECTION, Setting, Takes, declared};
