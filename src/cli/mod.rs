//! The command line: arguments, files, colours, exit status.
//!
//! Only this room names the crates for arguments and for marked source lines,
//! and only it and `server` touch files. It uses everything up to `report`,
//! and knows nothing of the server but how to start it, and of `preview` how to
//! open its page.

mod applied;
mod arguments;
mod check;
mod checking;
mod clocks;
mod compare;
mod drawing;
mod explain;
mod findings_text;
mod git;
mod layout;
mod manual;
mod marked;
mod mending;
mod one_spec;
mod output;
mod page;
mod preview;
mod problem;
mod report;
mod rule_names;
mod run;
mod schedule;
mod schedule_arguments;
mod search;
mod setout;
mod sheet_arguments;
mod source;
mod standard;
mod status;
mod takeoff;
mod terminal;

pub use run::run;
