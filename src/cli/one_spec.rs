//! The one spec of which a command makes something: read and analysed.

use std::fmt::Display;
use std::sync::Arc;

use super::arguments::{OutputArguments, SpecArguments};
use super::output::{refuse_inputs, tell};
use super::problem::Problem;
use super::source::{Source, current_folder};
use crate::analysis::{Analyser, Analysis};
use crate::drawing::{Drawing, lacking};
use crate::host::Disk;
use crate::host::today;
use crate::model::FileKind;
use crate::report::shown_path;

/// So many letters that a type lacks are named.
const SHOWN: usize = 8;

/// A spec, and from where and when it was looked at.
pub(crate) struct OneSpec {
    /// The folder that the command runs in.
    pub folder: String,
    /// The day.
    pub today: String,
    /// The spec's path, as seen from the folder.
    pub path: String,
    /// What is known of it.
    pub analysis: Arc<Analysis>,
}

impl OneSpec {
    /// Reads and analyses the spec that the command line names. Refuses to
    /// write over it, and a standard, with `purpose`: what there would be to
    /// do, `take off`.
    pub(crate) fn named(
        arguments: &SpecArguments,
        output: &OutputArguments,
        purpose: &str,
    ) -> Result<OneSpec, Problem> {
        let folder = current_folder()?;
        let spec = arguments.spec.as_deref();
        refuse_inputs(output.output.as_deref(), spec)?;
        let source = Source::named(spec, &arguments.stdin, &folder)?;
        let today = today();
        let analysis = Analyser::new().analyse(&source.path, source.text, &Disk, &today);
        let own = OneSpec {
            path: shown_path(&source.path, &folder),
            folder,
            today,
            analysis,
        };
        match own.analysis.job.kind {
            FileKind::Standard => {
                Err(own.problem(format!("it is a standard, which has nothing to {purpose}")))
            }
            _ => Ok(own),
        }
    }

    /// The name of the file, without its folders.
    pub(crate) fn file(&self) -> &str {
        self.path.rsplit('/').next().unwrap_or(&self.path)
    }

    /// Says which letters of drawings are boxes, for their type has none; in
    /// another format the reader's own type shows them.
    pub(crate) fn tell_lacking<'d>(
        &self,
        drawings: impl IntoIterator<Item = &'d Drawing>,
        other: &str,
    ) {
        let lacking = lacking(drawings);
        let letters: Vec<String> = lacking.iter().take(SHOWN).map(char::to_string).collect();
        let more = match lacking.len().saturating_sub(SHOWN) {
            0 => String::new(),
            more => format!(" and {more} more"),
        };
        if !letters.is_empty() {
            tell(&format!(
                "{}: the type of the sheets has no {}{more}: such letters are boxes here. As {other} \
                 they are shown.",
                self.path,
                letters.join(" ")
            ));
        }
    }

    /// A problem with the spec.
    pub(crate) fn problem(&self, why: impl Display) -> Problem {
        Problem::with_file(&self.path, why)
    }
}
