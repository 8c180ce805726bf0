//! `drylay preview`: a page in a browser that follows a spec.

use super::output::tell;
use super::problem::Problem;
use super::sheet_arguments::PreviewArguments;
use super::source::{Source, current_folder, path_of};
use super::status::Status;
use crate::analysis::Analyser;
use crate::host::Disk;
use crate::host::{in_words, today};
use crate::model::FileKind;
use crate::preview::{House, Look, Page};
use crate::report::{PREVIEW, preview as page_of, shown_path};

/// Shows a spec in a browser until it is stopped.
pub(crate) fn preview(arguments: &PreviewArguments) -> Result<Status, Problem> {
    let folder = current_folder()?;
    let path = path_of(&arguments.spec)?;
    let shown = shown_path(&path, &folder);
    // What is not there is said here, not on a page.
    Source::at(&path, &folder).map_err(|unread| Problem::with_file(unread.path, unread.why))?;
    let house = House::open(arguments.port).map_err(|error| {
        let why = in_words(&error);
        Problem(format!(
            "port {} cannot be listened at: {why}",
            arguments.port
        ))
    })?;
    tell(&format!(
        "{shown} is at {}, for this machine alone, and follows the file; Ctrl-C ends it",
        house.address()
    ));
    let page = Page {
        html: PREVIEW.html.to_owned(),
        style: PREVIEW.style(),
        script: PREVIEW.script.to_owned(),
    };
    let mut analyser = Analyser::new();
    let mut reads = Vec::new();
    let look = || match Source::at(&path, &folder) {
        Err(unread) => {
            let why = format!("{}: {}", unread.path, unread.why);
            (Look::Trouble(why), reads.clone())
        }
        Ok(source) => {
            let analysis = analyser.analyse(&source.path, source.text, &Disk, &today());
            reads.clone_from(&analysis.reads);
            let look = match analysis.job.kind {
                FileKind::Standard => Look::Trouble(format!(
                    "{shown}: it is a standard, which has nothing to show"
                )),
                _ => Look::Job(page_of(&analysis, &folder)),
            };
            (look, reads.clone())
        }
    };
    let ended = house.show(page, &path, look);
    let why = ended.map_or_else(|error| in_words(&error), |()| "it ended".to_owned());
    Err(Problem::with_file(
        shown,
        format!("it cannot be followed: {why}"),
    ))
}
