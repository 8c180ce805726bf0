//! The thread that searches folders and reads specs that are not open.

use std::io;
use std::ops::ControlFlow;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::path::Path;
use std::sync::mpsc::{Receiver, Sender, channel};
use std::sync::{Arc, Condvar, Mutex, MutexGuard, PoisonError};
use std::thread;
use std::time::Duration;

use crate::analysis::{Analyser, Analysis};
use crate::host::{Looked, Watch, specs_below, text_at, today};
use crate::server::checking::analyser;
use crate::server::files::OpenFirst;

/// Room for trees that are deep.
const STACK: usize = 16 << 20;

/// How long an editor is given to open its documents before the first search:
/// those are not to be read from disk as well.
const OPENING: Duration = Duration::from_millis(100);

/// After how long without a task nothing is kept for the next.
const REST: Duration = Duration::from_millis(250);

/// How long whoever opens a spec waits for its reading: a disk may not answer.
const LONGEST_WAIT: Duration = Duration::from_secs(2);

/// How many files and folders a search looks at: a folder with more is a whole
/// disk and no workspace.
const MOST_LOOKED_AT: usize = 500_000;

/// How many specs are found at most.
const MOST_SPECS: usize = 20_000;

/// What the thread is to do.
pub(crate) enum Task {
    /// Find the specs in folders.
    Search(Vec<String>),
    /// Read a spec.
    Read(Reading),
    /// Look whether files or folders have changed.
    Look(Vec<String>),
    /// Files that are known to have changed.
    Note(Vec<String>),
}

/// A spec to be read.
pub(crate) struct Reading {
    /// Its path.
    pub path: String,
    /// What it may read.
    pub files: OpenFirst,
    /// The standard that applies, if one is named.
    pub standard: Option<String>,
}

/// What the thread has done.
pub(crate) enum Done {
    /// The specs that were found, and whether those were all.
    Found(Vec<String>, bool),
    /// A spec that was read; nothing if it is not there any more.
    Read(String, Option<Arc<Analysis>>),
    /// The files and folders that have changed since they were last looked at.
    Looked(Vec<String>),
}

/// The way to the thread; it ends when this is dropped.
pub(crate) struct Worker {
    tasks: Sender<Task>,
    last: Arc<Last>,
}

/// The analyser that read a spec last, with all that it keeps: of the libraries
/// for the next spec that uses them, of the spec itself for when it is opened.
#[derive(Default)]
struct Last {
    state: Mutex<State>,
    is_read: Condvar,
}

#[derive(Default)]
struct State {
    known: Option<Known>,
    /// The spec that is being read now.
    reading: Option<String>,
}

struct Known {
    path: String,
    standard: Option<String>,
    analyser: Analyser,
}

impl Last {
    fn state(&self) -> MutexGuard<'_, State> {
        self.state.lock().unwrap_or_else(PoisonError::into_inner)
    }

    /// Takes the analyser out for the next spec, if it applied this standard.
    fn begin(&self, path: &str, standard: &Option<String>) -> Option<Analyser> {
        let mut state = self.state();
        state.reading = Some(path.to_owned());
        let known = state.known.take()?;
        (known.standard == *standard).then_some(known.analyser)
    }

    /// Puts back what is to be kept.
    fn put(&self, known: Option<Known>) {
        let mut state = self.state();
        state.reading = None;
        let before = std::mem::replace(&mut state.known, known);
        drop(state);
        self.is_read.notify_all();
        // It may take a while to let go of much, and nobody waits for that.
        drop(before);
    }

    /// Takes out the analyser of a spec; waits for it a while if that is being
    /// read.
    fn take(&self, path: &str, standard: Option<&str>) -> Option<Analyser> {
        let is_under_way = |state: &mut State| state.reading.as_deref() == Some(path);
        let waited = self
            .is_read
            .wait_timeout_while(self.state(), LONGEST_WAIT, is_under_way);
        let (mut state, _) = waited.unwrap_or_else(PoisonError::into_inner);
        let is_it = |known: &mut Known| known.path == path && known.standard.as_deref() == standard;
        Some(state.known.take_if(is_it)?.analyser)
    }
}

impl Worker {
    /// Starts the thread. What it has done it tells to `done`.
    pub(crate) fn start(done: impl Fn(Done) + Send + 'static) -> io::Result<Worker> {
        let (tasks, waiting) = channel();
        let last = Arc::<Last>::default();
        let own = Arc::clone(&last);
        let thread = thread::Builder::new()
            .name("workspace".to_owned())
            .stack_size(STACK);
        thread.spawn(move || work(&waiting, &own, done))?;
        Ok(Worker { tasks, last })
    }

    /// The analyser of a spec that was read just now, for when it is opened;
    /// `standard` as for its reading. One that is being read is waited for a
    /// while: to begin anew would take longer.
    pub(crate) fn lately(&self, path: &str, standard: Option<&str>) -> Option<Analyser> {
        self.last.take(path, standard)
    }

    /// Gives the thread something to do.
    pub(crate) fn tell(&self, task: Task) {
        // The thread outlives the way to it.
        let _ = self.tasks.send(task);
    }
}

fn work(tasks: &Receiver<Task>, last: &Last, done: impl Fn(Done)) {
    let mut watch = Watch::default();
    let mut opening = Some(OPENING);
    loop {
        let task = tasks.recv_timeout(REST).or_else(|_| {
            // What was kept of the last spec may be much.
            last.put(None);
            tasks.recv()
        });
        let Ok(task) = task else { return };
        done(match task {
            Task::Look(paths) => Done::Looked(watch.look(paths)),
            Task::Note(paths) => {
                watch.note(&paths);
                continue;
            }
            Task::Search(folders) => {
                opening.take().into_iter().for_each(thread::sleep);
                watch.begin(&folders);
                let (specs, is_all) = search(&folders);
                Done::Found(specs, is_all)
            }
            Task::Read(reading) => {
                watch.begin([&reading.path]);
                let standard = reading.standard.clone();
                let known = last.begin(&reading.path, &standard);
                let mut analyser = known.unwrap_or_else(|| analyser(standard.clone()));
                let read = catch_unwind(AssertUnwindSafe(|| read(&reading, &mut analyser)));
                last.put(read.is_ok().then(|| Known {
                    path: reading.path.clone(),
                    standard,
                    analyser,
                }));
                let read = read.ok().flatten();
                watch.begin(read.iter().flat_map(|own| &own.reads));
                Done::Read(reading.path, read)
            }
        });
    }
}

/// The specs in folders, in order, each once; and whether those are all.
fn search(folders: &[String]) -> (Vec<String>, bool) {
    let mut specs = Vec::new();
    let mut looked_at = 0_usize;
    let mut look = |looked: Looked| {
        looked_at += 1;
        if let Looked::Spec(path) = looked {
            specs.extend(path.to_str().map(|path| path.replace('\\', "/")));
        }
        match looked_at < MOST_LOOKED_AT && specs.len() < MOST_SPECS {
            true => ControlFlow::Continue(()),
            false => ControlFlow::Break(()),
        }
    };
    let mut all = folders
        .iter()
        .flat_map(|folder| specs_below(Path::new(folder)));
    let is_all = all.try_for_each(&mut look).is_continue();
    specs.sort();
    specs.dedup();
    (specs, is_all)
}

fn read(reading: &Reading, analyser: &mut Analyser) -> Option<Arc<Analysis>> {
    // Its own text is read past the memory of the disk: that would grow with
    // every spec.
    let text = text_at(Path::new(&reading.path)).ok()?;
    Some(analyser.analyse(&reading.path, text, &reading.files, &today()))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A spec to be read while nothing is open.
    fn alone(path: &str) -> Reading {
        Reading {
            path: path.to_owned(),
            files: OpenFirst::default(),
            standard: None,
        }
    }

    #[test]
    fn what_goes_before_the_first_look_is_noticed() {
        let folder = tempfile::tempdir().unwrap();
        let path = |name: &str| folder.path().join(name).to_str().unwrap().to_owned();
        let (yard, library) = (path("yard.patio"), path("library.patio"));
        std::fs::write(&yard, "use \"library.patio\"\n").unwrap();
        std::fs::write(&library, "let a = 1 in\n").unwrap();
        let (reported, hear) = channel();
        let worker = Worker::start(move |done| drop(reported.send(done))).unwrap();
        worker.tell(Task::Read(alone(&yard)));
        assert!(matches!(hear.recv(), Ok(Done::Read(_, Some(_)))));
        std::fs::remove_file(&yard).unwrap();
        std::fs::remove_file(&library).unwrap();
        worker.tell(Task::Look(vec![library.clone(), yard.clone()]));
        let looked = hear.recv();
        assert!(
            matches!(&looked, Ok(Done::Looked(gone)) if *gone == [library, yard]),
            "a file is missed"
        );
    }

    #[test]
    fn who_opens_what_was_read_last_takes_over_what_is_kept_of_it() {
        let folder = tempfile::tempdir().unwrap();
        let file = folder.path().join("yard.patio");
        std::fs::write(&file, "job \"Yard\"\n").unwrap();
        let path = file.to_str().unwrap().to_owned();
        let (reported, hear) = channel();
        let worker = Worker::start(move |done| drop(reported.send(done))).unwrap();
        let read = || {
            worker.tell(Task::Read(alone(&path)));
            assert!(matches!(hear.recv(), Ok(Done::Read(_, Some(_)))));
        };
        read();
        assert!(worker.lately("/other.patio", None).is_none());
        assert!(worker.lately(&path, Some("/standard.patio")).is_none());
        assert_eq!(worker.lately(&path, None).unwrap().lines_parsed(&path), 1);
        assert!(worker.lately(&path, None).is_none());
        read();
        assert!(worker.lately(&path, None).is_some());
    }
}
