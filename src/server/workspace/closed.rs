//! What is kept of a spec that is not open.

use crate::server::numbered::Numbered;
use crate::server::symbols::Section;

/// What is kept of a spec that is not open.
#[derive(Debug, Default)]
pub(crate) struct Closed {
    /// Its findings.
    pub found: Numbered,
    /// Whether the client was sent findings of it.
    pub is_told: bool,
    /// Its sections.
    pub sections: Box<[Section]>,
}
