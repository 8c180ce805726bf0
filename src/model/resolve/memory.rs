//! What is kept of a job from one edit to the next.
//!
//! As long as no name has come, gone or moved, an edit is followed from the
//! sections that it touched to all that took them; the rest of the job is
//! taken over as it is. Otherwise the whole job is worked out.

use std::collections::BTreeMap;
use std::sync::Arc;

use rustc_hash::FxHashSet;

use super::super::job::{FileKind, Job, Named, Region};
use super::super::reading::DATE_OTHERWISE;
use super::contacts::Settled;
use super::currencies::told_once;
use super::definitions::{Definition, FileInput, LogicalSection};
use super::dependencies::Subject;
use super::draft::Draft;
use super::evaluate::{Outcomes, Resolver, Scope};
use super::parallel::parts;
use crate::findings::{FileId, Finding};
use crate::vocabulary::{NameSpace, examples_in};

/// What is kept of a job from one edit to the next.
#[derive(Debug, Default)]
pub struct Memory {
    files: Vec<FileInput>,
    scope: Arc<Scope>,
    done: Outcomes,
    settled: Settled,
    /// What the entries of a section of the file itself give to say, by its
    /// index.
    about_entries: BTreeMap<usize, Vec<Finding>>,
    /// What there is to say of the libraries' text and of all names.
    standing: Vec<Finding>,
    unused: Vec<Finding>,
    job: Option<Job>,
}

/// Which sections an edit has changed, by index.
type Changed = Vec<usize>;

impl Memory {
    /// Works out what a file says, together with the files that it uses. The
    /// first of `files` is the file itself.
    pub fn resolve(&mut self, files: &[FileInput]) -> Job {
        let Some(own) = files.first() else {
            *self = Memory::default();
            return Job::default();
        };
        let followed = self
            .changed(files)
            .and_then(|changed| Some((self.follow(files, &changed)?, changed)));
        if let Some((job, changed)) = followed {
            self.note(own, &changed);
            return job;
        }
        let job = self.whole(files, own);
        self.files = files.to_vec();
        // Its own list of the sections: the one that is handed in can then be
        // changed where it is.
        if let Some(kept) = self.files.first_mut() {
            kept.sections = Arc::new(own.sections.to_vec());
        }
        job
    }

    /// Keeps the sections of the file itself that have changed.
    fn note(&mut self, own: &FileInput, changed: &[usize]) {
        let Some(kept) = self.files.first_mut() else {
            return;
        };
        let kept = Arc::make_mut(&mut kept.sections);
        for index in changed {
            if let (Some(kept), Some(now)) = (kept.get_mut(*index), own.sections.get(*index)) {
                kept.clone_from(now);
            }
        }
    }

    /// The sections of the file itself that have changed; `None` if more has
    /// than an edit can be followed through.
    fn changed(&self, files: &[FileInput]) -> Option<Changed> {
        let is_same = |before: &FileInput, now: &FileInput| {
            before.path == now.path
                && before.kind == now.kind
                && before.uses == now.uses
                && before.lacks_some == now.lacks_some
                && before.sections.len() == now.sections.len()
        };
        let files_stay = self.files.len() == files.len()
            && self.files.iter().zip(files).all(|(a, b)| is_same(a, b));
        let ((before, libraries), (now, libraries_now)) = (
            self.files.split_first()?,
            files.split_first().filter(|_| files_stay)?,
        );
        let same_sections = |before: &FileInput, now: &FileInput| {
            if Arc::ptr_eq(&before.sections, &now.sections) {
                return true;
            }
            let mut pairs = before.sections.iter().zip(now.sections.iter());
            pairs.all(|(before, now)| before.is_same(now))
        };
        let mut libraries = libraries.iter().zip(libraries_now);
        if !libraries.all(|(before, now)| same_sections(before, now)) {
            return None;
        }
        let mut changed = Vec::new();
        let same_list = Arc::ptr_eq(&before.sections, &now.sections);
        let pairs = before.sections.iter().zip(now.sections.iter());
        for (index, (before, now)) in pairs.enumerate().filter(|_| !same_list) {
            if before.is_same(now) {
                continue;
            }
            if !before.is_known_as(now) || now.is("job") || now.is("use") || now.is("standard") {
                return None;
            }
            changed.push(index);
        }
        Some(changed)
    }

    /// Works everything out.
    fn whole(&mut self, files: &[FileInput], own: &FileInput) -> Job {
        let mut resolver = Resolver::new(files);
        let mut job = Job {
            kind: own.kind,
            ..Job::default()
        };
        resolver.on(Subject::Heading, |resolver| resolver.heading(&mut job));
        let mut standing = resolver.about_names();
        let libraries = files.iter().skip(1).flat_map(|file| file.sections.iter());
        for section in libraries {
            standing.extend(section.about_lines().cloned());
            standing.extend(section.about_entries());
        }
        let about_entries = own
            .sections
            .iter()
            .map(LogicalSection::about_entries)
            .enumerate()
            .filter(|(_, found)| !found.is_empty())
            .collect();
        resolver.on(Subject::Site, |resolver| resolver.site(&mut job));
        resolver.lets(&mut job);
        resolver.work_in_parts(parts(own.sections.len()));
        resolver.all_shapes(&mut job);
        resolver.all_substances();
        resolver.all_builds(&mut job);
        let drafts = resolver.all_surfaces();
        let (settled, surfaces) = Settled::of(drafts);
        job.surfaces = surfaces;
        job.list_builds_used(files);
        job.accepts = resolver.on(Subject::Accepts, Resolver::accepts);
        resolver.on(Subject::Steps, |resolver| resolver.all_steps(&mut job));
        resolver.on(Subject::Work, |resolver| resolver.work_stated(&mut job));
        resolver.on(Subject::Money, |resolver| resolver.money(&mut job));
        resolver.on(Subject::SettingOut, |resolver| {
            resolver.setting_out(&mut job);
            resolver.measured(&mut job);
        });
        resolver.on(Subject::Drains, |resolver| resolver.drains(&mut job));
        job.lay_border_beds();
        resolver.substances_listed(&mut job);
        job.see_currency();
        job.has_lost_heading = own.sections.iter().any(LogicalSection::has_lost_heading);
        job.written_tons = own
            .sections
            .iter()
            .flat_map(LogicalSection::unclear_units)
            .collect();
        let unused = match job.kind {
            FileKind::Spec => resolver.unused(),
            _ => Vec::new(),
        };
        let Resolver {
            scope,
            mut done,
            is_entangled,
            ..
        } = resolver;
        done.dependencies.settle_names();
        *self = Memory {
            files: Vec::new(),
            scope,
            done,
            settled,
            about_entries,
            standing,
            unused,
            job: None,
        };
        let findings = self.findings(own, &job);
        match is_entangled {
            true => *self = Memory::default(),
            false => self.job = Some(job.clone()),
        }
        Job { findings, ..job }
    }

    /// Works out what an edit of these sections has touched. `None` if that
    /// is everything.
    fn follow(&mut self, files: &[FileInput], changed: &[usize]) -> Option<Job> {
        let mut job = self.job.take()?;
        job.forget_border_beds();
        let own = files.first()?;
        let section = |index: &usize| own.sections.get(*index);
        let before = |index: &usize| self.files.first()?.sections.get(*index);
        let touched = changed
            .iter()
            .filter_map(|index| Some((*index, section(index)?)))
            .flat_map(|(index, section)| subjects_of(index, section));
        let of_whole = [
            Subject::Heading,
            Subject::Site,
            Subject::Work,
            Subject::Money,
            Subject::SettingOut,
            Subject::Drains,
            Subject::Steps,
        ];
        let either = |is: &dyn Fn(&LogicalSection) -> bool| {
            changed
                .iter()
                .any(|index| section(index).is_some_and(is) || before(index).is_some_and(is))
        };
        let accepts = either(&LogicalSection::accepts).then_some(Subject::Accepts);
        let tons_written = either(&|section| section.unclear_units().next().is_some());
        let heading_lost = either(&LogicalSection::has_lost_heading);
        let unread = either(&LogicalSection::is_any_unread);
        let mut done = std::mem::take(&mut self.done);
        let forgotten = done.forget(touched.chain(of_whole).chain(accepts));
        // Which of two of one name is meant is told by the whole only.
        let has_twins = self.standing.iter().any(|found| found.rule == "name-twice");
        let is_twin = |subject: &Subject| self.scope.is_one_of_several(subject, files);
        if has_twins && forgotten.iter().any(is_twin) {
            return None;
        }
        let mut resolver = Resolver::going_on(files, Arc::clone(&self.scope), done);
        let shown = (job.heading.system(), job.heading.region());
        // What is seen of prices is seen after the values are worked out.
        let currency_seen = job.heading.currency_seen.take();
        resolver.on(Subject::Heading, |resolver| resolver.heading(&mut job));
        job.heading.currency_seen = currency_seen;
        // A first length in the other system turns all that is shown, another
        // region what is called otherwise there.
        if shown != (job.heading.system(), job.heading.region()) {
            return None;
        }
        resolver.on(Subject::Site, |resolver| resolver.site(&mut job));
        resolver.follow(&forgotten, &mut job);
        let drafts = resolver.drafts_after(&forgotten, self.settled.count())?;
        if !drafts.is_empty() {
            self.settled.change(drafts, &mut job.surfaces);
        }
        job.list_builds_used(files);
        if forgotten.contains(&Subject::Accepts) {
            job.accepts = resolver.on(Subject::Accepts, Resolver::accepts);
        }
        resolver.on(Subject::Steps, |resolver| resolver.all_steps(&mut job));
        resolver.on(Subject::Work, |resolver| resolver.work_stated(&mut job));
        resolver.on(Subject::Money, |resolver| resolver.money(&mut job));
        resolver.on(Subject::SettingOut, |resolver| {
            resolver.setting_out(&mut job);
            resolver.measured(&mut job);
        });
        resolver.on(Subject::Drains, |resolver| resolver.drains(&mut job));
        job.lay_border_beds();
        resolver.forget_untaken();
        let turned =
            |is_meant: fn(NameSpace) -> bool| resolver.done.dependencies.has_turned(is_meant);
        let lists_anew = forgotten
            .iter()
            .any(|subject| matches!(subject, Subject::Substance(_)));
        let uses_anew = turned(|_| true);
        if lists_anew || turned(|space| space == NameSpace::Substances) {
            resolver.substances_listed(&mut job);
        }
        job.see_currency();
        if tons_written {
            let sections = own.sections.iter();
            job.written_tons = sections.flat_map(LogicalSection::unclear_units).collect();
        }
        if heading_lost {
            job.has_lost_heading = own.sections.iter().any(LogicalSection::has_lost_heading);
        }
        if (uses_anew || unread) && job.kind == FileKind::Spec {
            self.unused = resolver.unused();
        }
        if resolver.is_entangled {
            return None;
        }
        self.done = resolver.done;
        self.done.dependencies.settle_names();
        for index in changed {
            match section(index).map(LogicalSection::about_entries) {
                Some(found) if !found.is_empty() => self.about_entries.insert(*index, found),
                _ => self.about_entries.remove(index),
            };
        }
        let findings = self.findings(own, &job);
        self.job = Some(job.clone());
        Some(Job { findings, ..job })
    }

    /// All that the reading and the working out found. The job that is kept
    /// goes without: there may be as many as there are lines.
    fn findings(&self, own: &FileInput, job: &Job) -> Vec<Finding> {
        let about_lines = own.sections.iter().flat_map(LogicalSection::about_lines);
        let about_entries = self.about_entries.values().flatten();
        let standing = self.standing.iter().chain(&self.unused);
        let found = about_lines.chain(about_entries);
        let found = found.chain(self.done.dependencies.findings());
        let found = found.chain(standing).cloned();
        let found = found.chain(job.in_other_currencies()).collect();
        let mut found = told_once(job, found);
        found
            .iter_mut()
            .for_each(|finding| with_examples_of(job, finding));
        found
    }
}

/// A finding whose examples are in the units and the money of the job, and
/// whose days are read as where it is: the month first in the United States.
fn with_examples_of(job: &Job, finding: &mut Finding) {
    if job.heading.region() == Region::Us && &*finding.message == DATE_OTHERWISE {
        finding.fixes.reverse();
    }
    let (system, currency) = (job.heading.system(), job.heading.currency());
    let in_those = |text: &str| examples_in(text, system, currency);
    if let Some(message) = in_those(&finding.message) {
        finding.message = message.into();
    }
    if let Some(help) = finding.help.as_deref().and_then(in_those) {
        finding.help = Some(help.into());
    }
}

/// What is worked out of a section of the file itself.
fn subjects_of(index: usize, section: &LogicalSection) -> Vec<Subject> {
    let definition = Definition {
        file: FileId(0),
        section: index,
    };
    match section.kind().and_then(|kind| kind.defines) {
        Some(NameSpace::Lets) => vec![Subject::Let(definition)],
        Some(NameSpace::Shapes) => vec![Subject::Shape(definition), Subject::Line(definition)],
        Some(NameSpace::Builds) => vec![Subject::Build(definition)],
        Some(NameSpace::Surfaces) => {
            vec![
                Subject::Surface(definition),
                Subject::Plane(definition),
                Subject::Repeat(definition),
            ]
        }
        Some(NameSpace::Substances) => section
            .name()
            .map(|name| Subject::Substance(name.value.to_owned()))
            .into_iter()
            .collect(),
        // They are worked out anew at every edit.
        Some(NameSpace::Drains | NameSpace::Steps) | None => Vec::new(),
    }
}

impl Resolver<'_> {
    /// Works out anew what was forgotten of the file itself, and puts it in
    /// its place in the job.
    fn follow(&mut self, forgotten: &FxHashSet<Subject>, job: &mut Job) {
        let has = |is: &dyn Fn(&Subject) -> bool| forgotten.iter().any(is);
        if has(&|subject| matches!(subject, Subject::Let(_))) {
            self.lets(job);
        }
        for subject in forgotten {
            let (Subject::Shape(definition)
            | Subject::Build(definition)
            | Subject::Surface(definition)) = subject
            else {
                continue;
            };
            let Some(section) = self.section(*definition) else {
                continue;
            };
            if definition.file != FileId(0) {
                continue;
            }
            match subject {
                Subject::Shape(_) => {
                    let shape = self.work_shape(*definition, section.place());
                    put(&mut job.shapes, section, shape);
                }
                Subject::Build(_) => {
                    let build = self.work_build(*definition);
                    put(&mut job.builds, section, build);
                }
                _ => self.work_surface(*definition),
            }
        }
        if has(&|subject| matches!(subject, Subject::Substance(_))) {
            self.all_substances();
        }
    }

    /// Forgets what was worked out only for others that no longer take it:
    /// what the file itself states is worked out for its own sake.
    fn forget_untaken(&mut self) {
        let is_own = |definition: &Definition| definition.file == FileId(0);
        let scope = Arc::clone(&self.scope);
        self.done.forget_untaken(|subject| match subject {
            Subject::Heading
            | Subject::Site
            | Subject::Work
            | Subject::Money
            | Subject::SettingOut
            | Subject::Drains
            | Subject::Steps
            | Subject::Accepts => true,
            Subject::Let(definition)
            | Subject::Shape(definition)
            | Subject::Build(definition)
            | Subject::Surface(definition) => is_own(definition),
            Subject::Plane(_) | Subject::Line(_) | Subject::Repeat(_) => false,
            Subject::Substance(name) => {
                let stated = scope.definitions.all(NameSpace::Substances, name);
                stated.iter().any(is_own)
            }
        });
    }

    /// The surfaces by themselves that had to be worked out anew, by their
    /// places among those before; `None` if one has come or gone.
    fn drafts_after(
        &mut self,
        forgotten: &FxHashSet<Subject>,
        before: usize,
    ) -> Option<Vec<(usize, Draft)>> {
        let anew = forgotten.iter().filter_map(|subject| match subject {
            Subject::Surface(definition) => Some(*definition),
            _ => None,
        });
        let anew: Vec<Definition> = anew.collect();
        let scope = Arc::clone(&self.scope);
        let own = scope.own("surface");
        // One without a name is no surface.
        if !anew.is_empty() && own.len() != before {
            return None;
        }
        let place = |definition: &Definition| own.binary_search(definition).ok();
        anew.iter()
            .map(|definition| Some((place(definition)?, self.take_surface(*definition)?)))
            .collect()
    }
}

/// Puts a thing where the one of its name stands.
fn put<T>(all: &mut Named<T>, section: &LogicalSection, thing: Option<Arc<T>>)
where
    T: Clone,
{
    if let (Some(name), Some(thing)) = (section.name(), thing)
        && let Some(place) = Arc::make_mut(all).get_mut(name.value)
    {
        *place = thing;
    }
}

impl Job {
    /// Lists after the builds of the file itself those of libraries that its
    /// surfaces use, if there are libraries.
    fn list_builds_used(&mut self, files: &[FileInput]) {
        if files.len() < 2 {
            return;
        }
        let is_own = |file: FileId| file == FileId(0);
        if self
            .builds
            .values()
            .any(|build| !is_own(build.section.file))
        {
            Arc::make_mut(&mut self.builds).retain(|_, build| is_own(build.section.file));
        }
        for surface in self.surfaces.iter() {
            if let Some(build) = &surface.build
                && !is_own(build.value.section.file)
            {
                Arc::make_mut(&mut self.builds)
                    .entry(build.value.name.value.as_str().into())
                    .or_insert_with(|| Arc::clone(&build.value));
            }
        }
    }
}
