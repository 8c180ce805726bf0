//! What applies at a path: to a spec, or to any that may lie in a folder.

use std::path::Path;
use std::sync::Arc;

use super::problem::Problem;
use super::source::{Source, path_of};
use crate::analysis::{Analyser, Analysis};
use crate::host::Disk;
use crate::host::today;
use crate::model::FileKind;
use crate::text::Text;

/// The analysis of the spec at a path, or of an empty text in the folder. Of
/// a standard, what it applies to is meant. Paths that are told are seen from
/// `folder`.
pub(crate) fn applied_at(path: &Path, folder: &str) -> Result<Arc<Analysis>, Problem> {
    let full = path_of(path)?;
    if path.is_dir() {
        return Ok(any_in(full.trim_end_matches('/'), Analyser::new()));
    }
    let source =
        Source::at(&full, folder).map_err(|unread| Problem::with_file(unread.path, unread.why))?;
    let analysis = Analyser::new().analyse(&source.path, source.text, &Disk, &today());
    if analysis.job.kind != FileKind::Standard {
        return Ok(analysis);
    }
    let (above, name) = full.rsplit_once('/').unwrap_or(("", &full));
    Ok(match name {
        "standard.patio" => any_in(above, Analyser::new()),
        _ => any_in(above, Analyser::with_standard(full.clone())),
    })
}

/// What is known of any spec in a folder.
fn any_in(folder: &str, mut analyser: Analyser) -> Arc<Analysis> {
    let path = format!("{folder}/any.patio");
    analyser.analyse(&path, Text::from(""), &Disk, &today())
}
