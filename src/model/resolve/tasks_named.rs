//! Tasks that others come before or after, by what they are called.

use super::super::job::{Beside, Work};
use super::super::reading::nearest;
use super::evaluate::Resolver;
use super::heading::text_of;
use super::money::OWN;
use crate::findings::{Finding, Fix, Place};
use crate::vocabulary::{NameSpace, Task};

impl Resolver<'_> {
    /// `after court`: words without quotes that are no kind of work: in quotes
    /// only where a task is called so.
    pub(super) fn task_without_quotes(&mut self, what: &str, place: Place) {
        let tasks = self.tasks_told();
        let alike = tasks.iter().find(|task| task.eq_ignore_ascii_case(what));
        if let Some(task) = alike {
            let message = "a task of this job is named in quotes";
            let finding = Finding::new("word-stray", place, message);
            let quoted = format!("\"{task}\"");
            self.find(finding.fix(Fix::judged("Put it in quotes", place, quoted)));
            return;
        }
        if !self.work_on(what, place) {
            self.no_task(what, place, &tasks);
        }
    }

    /// Tells of tasks that come after one that there is not.
    pub(super) fn about_other_tasks(&mut self, work: &Work) {
        if !work.unread.is_empty() {
            return;
        }
        let tasks = self.tasks_told();
        let all = work.tasks.iter();
        let besides = all.flat_map(|task| task.after.iter().chain(&task.before));
        for beside in besides {
            let Beside::Told(what) = &beside.value else {
                continue;
            };
            if !work.tasks.iter().any(|task| task.what == *what) {
                self.no_task(what, beside.place, &tasks);
            }
        }
    }

    /// What the job's other tasks are called.
    fn tasks_told(&self) -> Vec<String> {
        let sections = self.own("work").into_iter();
        let entries = sections.flat_map(|(_, section)| section.all("task"));
        let texts = entries.filter_map(|entry| text_of(Some(entry), "WHAT"));
        texts.map(|text| text.value).collect()
    }

    /// `after court`: whether it is something that is built, of which it does
    /// not say which work on it is meant.
    fn work_on(&mut self, what: &str, place: Place) -> bool {
        let spaces = [
            (NameSpace::Surfaces, Task::Cleaning),
            (NameSpace::Drains, Task::Draining),
            (NameSpace::Steps, Task::Building),
        ];
        let mut spaces = spaces.into_iter();
        let found = spaces.find(|(space, _)| self.seen(*space, what, OWN).is_some());
        let Some((space, last)) = found else {
            return false;
        };
        self.done.dependencies.use_name(space, what);
        let text = format!("{} of {what}", last.word());
        let noun = space.noun();
        let message = format!("`{what}` is {noun}: which work on it is meant, as in `{text}`?");
        let finding = Finding::new("word-stray", place, message);
        self.find(finding.fix(Fix::judged(format!("Write `{text}`"), place, text)));
        true
    }

    fn no_task(&mut self, what: &str, place: Place, tasks: &[String]) {
        let message = format!("no task here is called \"{what}\"");
        let finding = Finding::new("name-unknown", place, message);
        let near = nearest(what, tasks.iter().map(String::as_str));
        self.find(match near {
            Some(near) => {
                let quoted = format!("\"{near}\"");
                finding.fix(Fix::judged(format!("Write {quoted}"), place, quoted))
            }
            None => finding.help(
                "It is another task's text in quotes, or a kind of work, as in `after cleaning of court`.",
            ),
        });
    }
}
