//! Noticing that files change, without asking again and again.

use std::collections::BTreeSet;
use std::io;
use std::path::{Path, PathBuf};
use std::sync::mpsc::{Receiver, channel};
use std::time::{Duration, Instant};

use notify::event::EventKind;
use notify::{Event, RecommendedWatcher, RecursiveMode, Watcher};

/// Changes that follow one another closer than this are one.
const PAUSE: Duration = Duration::from_millis(30);

/// How long one may follow another before it is looked at all the same.
const LONGEST: Duration = Duration::from_millis(500);

/// Watches the folders of files: whoever saves a file may put another in its
/// place.
pub(crate) struct Watching {
    watcher: RecommendedWatcher,
    events: Receiver<notify::Result<Event>>,
    spec: PathBuf,
    files: BTreeSet<PathBuf>,
    folders: BTreeSet<PathBuf>,
}

impl Watching {
    /// Watches a spec.
    ///
    /// # Errors
    /// Where its folder cannot be watched.
    pub(crate) fn of(spec: &str) -> io::Result<Watching> {
        let (tell, events) = channel();
        let watcher = notify::recommended_watcher(tell).map_err(io::Error::other)?;
        let spec = PathBuf::from(spec);
        let mut watching = Watching {
            watcher,
            events,
            files: BTreeSet::new(),
            folders: BTreeSet::new(),
            spec: spec.clone(),
        };
        let folder = spec.parent().unwrap_or(Path::new("/"));
        let watched = watching.watcher.watch(folder, RecursiveMode::NonRecursive);
        watched.map_err(io::Error::other)?;
        watching.folders.insert(folder.to_owned());
        watching.turn_to(BTreeSet::new());
        Ok(watching)
    }

    /// Watches these files, there or not, beside the spec, and what links
    /// among them lead to. Whether a folder is watched that was not before: a
    /// file in it may have changed meanwhile.
    pub(crate) fn turn_to(&mut self, files: BTreeSet<String>) -> bool {
        let named = files.into_iter().map(PathBuf::from);
        let named: Vec<PathBuf> = named.chain([self.spec.clone()]).collect();
        let led_to = named.iter().filter_map(|file| file.canonicalize().ok());
        self.files = led_to.chain(named.iter().cloned()).collect();
        let mut is_new = false;
        for folder in self.files.iter().filter_map(|file| file.parent()) {
            if !self.folders.contains(folder)
                && self
                    .watcher
                    .watch(folder, RecursiveMode::NonRecursive)
                    .is_ok()
            {
                self.folders.insert(folder.to_owned());
                is_new = true;
            }
        }
        is_new
    }

    /// Waits until one of the files has changed and none does any more.
    ///
    /// # Errors
    /// Where nothing is watched any longer.
    pub(crate) fn wait(&mut self) -> io::Result<()> {
        loop {
            let event = self.events.recv().map_err(io::Error::other)?;
            if self.is_of_interest(event) {
                break;
            }
        }
        let start = Instant::now();
        while start.elapsed() < LONGEST && self.events.recv_timeout(PAUSE).is_ok() {}
        Ok(())
    }

    /// Whether a file may have changed; where the system has lost count, or a
    /// folder goes, any may.
    fn is_of_interest(&mut self, event: notify::Result<Event>) -> bool {
        let Ok(event) = event else { return true };
        if event.need_rescan() {
            return true;
        }
        if matches!(event.kind, EventKind::Access(_)) {
            return false;
        }
        let mut is_ours = false;
        for path in &event.paths {
            // A folder that went may come again, and be watched again then.
            is_ours |= self.folders.remove(path) || self.files.contains(path);
        }
        is_ours
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_file_is_followed_however_it_is_saved() {
        let home = tempfile::tempdir().expect("a folder");
        let spec = home.path().join("a.patio");
        let path = |name: &str| home.path().join(name);
        std::fs::write(&spec, "job").expect("it is written");
        let mut watching = Watching::of(spec.to_str().expect("text")).expect("it is watched");
        std::fs::write(path("other.txt"), "nothing").expect("it is written");
        std::fs::write(&spec, "job \"A\"").expect("it is written");
        watching.wait().expect("it changed in place");
        std::fs::write(path("new"), "job \"B\"").expect("it is written");
        std::fs::rename(path("new"), &spec).expect("it is put in its place");
        watching.wait().expect("another was put in its place");
        // A file that is looked for and not there.
        let below = home.path().join("below");
        std::fs::create_dir(&below).expect("a folder");
        let library = below.join("library.patio");
        let named = || BTreeSet::from([library.display().to_string()]);
        assert!(watching.turn_to(named()), "a folder more");
        assert!(!watching.turn_to(named()), "it is watched already");
        std::fs::write(&library, "material a").expect("it is written");
        watching.wait().expect("it came");
    }

    #[cfg(unix)]
    #[test]
    fn what_a_link_leads_to_is_followed() {
        let home = tempfile::tempdir().expect("a folder");
        let folder = home.path().join("elsewhere");
        std::fs::create_dir(&folder).expect("a folder");
        std::fs::write(folder.join("a.patio"), "job").expect("it is written");
        let link = home.path().join("link.patio");
        std::os::unix::fs::symlink(folder.join("a.patio"), &link).expect("a link");
        let mut watching = Watching::of(link.to_str().expect("text")).expect("it is watched");
        std::fs::write(folder.join("a.patio"), "job \"A\"").expect("it is written");
        watching.wait().expect("it changed");
    }
}
