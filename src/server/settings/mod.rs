//! What the user sets in the editor: every setting is declared once, in
//! `declared`; how it is read, what is told of a wrong one, and the pages for
//! editors all come from there.

mod declared;
mod scopes;
mod values;

pub use declared::{SECTION, Setting, Takes, declared};
pub(crate) use scopes::Scopes;
pub(crate) use values::Settings;
