//! The command line: arguments, files, colours, exit status.
//!
//! Only this room names the crates for arguments and for marked source lines,
//! and only it and `server` touch files. It uses everything up to `report`,
//! and knows nothing of the server but how to start it.

mod arguments;
mod check;
mod disk;
mod findings_text;
mod manual;
mod marked;
mod output;
mod page;
mod problem;
mod run;
mod search;
mod source;
mod takeoff;
mod terminal;
mod today;

pub use run::run;
