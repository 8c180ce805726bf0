//! Files as they were at a revision of a git repository.

use std::collections::BTreeSet;
use std::path::Path;
use std::process::{Command, Stdio};
use std::sync::Arc;

use super::problem::Problem;
use crate::analysis::Files;
use crate::host::{in_words, is_spec, text_from};
use crate::text::Text;

/// Why a file of another day is not read.
const MISSING: &str = "there is no such file";

/// A revision of the repository that a folder lies in.
pub(crate) struct Revision {
    /// The top of the repository.
    top: String,
    /// The commit, by its full name.
    commit: String,
    /// Every file of it, as seen from the top.
    paths: BTreeSet<String>,
}

impl Revision {
    /// The revision of this name, as seen from a folder.
    pub(crate) fn of(name: &str, folder: &str) -> Result<Revision, Problem> {
        let below = git(folder, &["rev-parse", "--show-prefix"])?;
        let below = below.trim_end_matches(['\n', '/']);
        let top = folder.strip_suffix(below).unwrap_or(folder);
        let commit = format!("{name}^{{commit}}");
        let commit = git(
            folder,
            &["rev-parse", "--verify", "--end-of-options", &commit],
        )
        .map_err(|_| Problem(format!("git knows no revision {name}")))?;
        let commit = commit.trim().to_owned();
        let paths = git(
            folder,
            &["ls-tree", "-r", "-z", "--name-only", "--full-tree", &commit],
        )?;
        let paths = paths.split('\0').filter(|path| !path.is_empty());
        Ok(Revision {
            top: top.trim_end_matches('/').to_owned(),
            commit,
            paths: paths.map(str::to_owned).collect(),
        })
    }

    /// The top of the repository.
    pub(crate) fn top(&self) -> &str {
        &self.top
    }

    /// Every spec in a folder and below it.
    pub(crate) fn specs_below(&self, folder: &str) -> Vec<String> {
        let folder = folder.trim_end_matches('/');
        let full = self.paths.iter().map(|path| format!("{}/{path}", self.top));
        let below = full.filter(|path| {
            let rest = path.strip_prefix(folder);
            rest.is_some_and(|rest| rest.starts_with('/')) && is_spec(Path::new(path))
        });
        below.collect()
    }

    /// A path as seen from the top; `None` if it lies elsewhere.
    fn seen<'p>(&self, path: &'p str) -> Option<&'p str> {
        path.strip_prefix(&self.top)?.strip_prefix('/')
    }
}

impl Files for Revision {
    fn read(&self, path: &str) -> Result<Text, String> {
        let path = self.seen(path).filter(|path| self.paths.contains(*path));
        let path = path.ok_or_else(|| MISSING.to_owned())?;
        let mut git = Command::new("git")
            .arg("-C")
            .arg(Path::new(&self.top).join(""))
            .args(["cat-file", "blob", &format!("{}:{path}", self.commit)])
            .stdin(Stdio::null())
            .stdout(Stdio::piped())
            .stderr(Stdio::null())
            .spawn()
            .map_err(|error| in_words(&error))?;
        let text = match git.stdout.take() {
            Some(mut out) => text_from(&mut out, 0),
            None => Err(MISSING.to_owned()),
        };
        let ended = git.wait().map_err(|error| in_words(&error))?;
        // One that is larger than is read ends by that.
        match ended.success() || text.is_err() {
            true => text,
            false => Err(MISSING.to_owned()),
        }
    }

    fn exists(&self, path: &str) -> bool {
        let Some(path) = self.seen(path) else {
            return path == self.top;
        };
        // The repository ends where it ends now.
        let below = format!("{path}/");
        let next = self.paths.range(below.clone()..).next();
        path == ".git"
            || self.paths.contains(path)
            || next.is_some_and(|next| next.starts_with(&below))
    }

    fn list(&self, folder: &str) -> Arc<[String]> {
        let below = match self.seen(folder) {
            Some(folder) => format!("{folder}/"),
            None if folder == self.top => String::new(),
            None => return Arc::default(),
        };
        let inside = self.paths.range(below.clone()..);
        let inside = inside.map_while(|path| path.strip_prefix(&below));
        let mut names: Vec<String> = inside
            .filter_map(|rest| rest.split('/').next())
            .map(str::to_owned)
            .collect();
        names.sort_unstable();
        names.dedup();
        names.into()
    }
}

/// What git says, seen from a folder.
fn git(folder: &str, arguments: &[&str]) -> Result<String, Problem> {
    let output = Command::new("git")
        .arg("-C")
        .arg(folder)
        .args(arguments)
        .output()
        .map_err(|error| Problem(format!("git could not be started: {}", in_words(&error))))?;
    match output.status.success() {
        true => Ok(String::from_utf8_lossy(&output.stdout).into_owned()),
        false => {
            let reported = String::from_utf8_lossy(&output.stderr);
            Err(Problem(format!("git says: {}", reported.trim())))
        }
    }
}
