//! `drylay check --fix` and `--diff`: putting right what can be put right
//! unseen.

use std::path::Path;

use super::checking::Checking;
use super::output::{rewrite, tell};
use super::problem::Problem;
use super::search::Search;
use super::source::Source;
use crate::report::{Unread, counted, line_difference, mended, shown_path};
use crate::text::Text;

/// One fix may make room for another; so often is looked again.
const MOST_ROUNDS: usize = 10;

/// A text before and after it was put right.
struct Mended {
    path: String,
    before: Text,
    after: Text,
    fixes: usize,
}

impl Mended {
    /// Applies safe fixes round by round until none is left.
    fn of(checking: &Checking<'_>, source: Source) -> Mended {
        let Source { path, text } = source;
        let mut analyser = checking.analyser();
        let mut mending = Mended {
            path,
            before: text.clone(),
            after: text,
            fixes: 0,
        };
        for _ in 0..MOST_ROUNDS {
            let now = Source {
                path: mending.path.clone(),
                text: mending.after.clone(),
            };
            let file = checking.one(&mut analyser, now);
            let Some((text, fixes)) = mended(&mending.after, file.standing()) else {
                break;
            };
            mending.after = Text::from(text);
            mending.fixes += fixes;
        }
        mending
    }

    fn is_changed(&self) -> bool {
        self.before != self.after
    }
}

/// Puts files right where they lie. One that cannot be written is noted in
/// the search as unread, and the others go on.
pub(crate) fn fix(checking: &Checking<'_>, search: &mut Search) -> Result<(), Problem> {
    if checking.reads_input() {
        return Err(Problem(
            "what comes from standard input cannot be fixed: use --diff".to_owned(),
        ));
    }
    let (mut fixes, mut files) = (0, 0);
    for path in &search.specs {
        // One that cannot be read is told when it is checked.
        let Ok(source) = Source::at(path, &checking.folder) else {
            continue;
        };
        let mending = Mended::of(checking, source);
        if !mending.is_changed() {
            continue;
        }
        match rewrite(mending.after.as_bytes(), Path::new(path)) {
            Ok(()) => {
                checking.disk.forget(path);
                fixes += mending.fixes;
                files += 1;
            }
            Err(problem) => search.unread.push(Unread {
                path: shown_path(path, &checking.folder),
                why: format!("it could not be written: {problem}"),
            }),
        }
    }
    if fixes > 0 {
        let (fixes, files) = (
            counted(fixes, "finding", "findings"),
            counted(files, "file", "files"),
        );
        tell(&format!("fixed {fixes} in {files}"));
    }
    Ok(())
}

/// What would be changed if everything were put right that can be.
pub(crate) fn diff(checking: &Checking<'_>, search: &mut Search) -> Result<String, Problem> {
    let mut sources = Vec::new();
    if checking.reads_input() {
        sources.push(checking.input()?);
    }
    sources.extend(
        search
            .specs
            .iter()
            .map(|path| Source::at(path, &checking.folder)),
    );
    let mut text = String::new();
    for source in sources {
        match source {
            Ok(source) => {
                let mending = Mended::of(checking, source);
                let path = shown_path(&mending.path, &checking.folder);
                text += &line_difference(&path, &mending.before, &mending.after);
            }
            Err(unread) => search.unread.push(unread),
        }
    }
    Ok(text)
}
