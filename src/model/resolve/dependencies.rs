//! Who took what: for each thing that is worked out, what it found, which
//! others it took and which names it used. By this it is known after an edit
//! what must be worked out anew, and that all the rest holds.

use std::sync::Arc;

use rustc_hash::{FxHashMap, FxHashSet};

use super::definitions::Definition;
use crate::findings::Finding;
use crate::vocabulary::NameSpace;

/// One thing that is worked out.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub(crate) enum Subject {
    /// The job's heading.
    Heading,
    /// The site.
    Site,
    /// The work.
    Work,
    /// What is hired, and the budget.
    Money,
    /// How the job is set out, and what was measured of it.
    SettingOut,
    /// The drains.
    Drains,
    /// The flights of steps.
    Steps,
    /// The acceptances.
    Accepts,
    /// A let.
    Let(Definition),
    /// A shape.
    Shape(Definition),
    /// A material or a mix, by its name.
    Substance(String),
    /// A build.
    Build(Definition),
    /// The plane of a surface, for a function that asks for a level.
    Plane(Definition),
    /// The line of a shape that is drawn as a path, for what follows it.
    Line(Definition),
    /// How the shape of a surface comes again.
    Repeat(Definition),
    /// A surface.
    Surface(Definition),
}

/// What the working out of a subject has come upon.
#[derive(Debug, Default)]
struct Account {
    findings: Vec<Finding>,
    took: Vec<Subject>,
    used: Vec<(NameSpace, Arc<str>)>,
}

/// Those that took a subject: one, nearly always, or any number.
#[derive(Debug)]
enum Takers {
    One(Subject),
    Many(FxHashSet<Subject>),
}

impl Takers {
    fn add(&mut self, subject: &Subject) {
        match self {
            Takers::One(only) if only == subject => {}
            Takers::One(only) => {
                *self = Takers::Many(FxHashSet::from_iter([only.clone(), subject.clone()]));
            }
            Takers::Many(all) => drop(all.insert(subject.clone())),
        }
    }

    /// Takes one out; whether none is left.
    fn take_out(&mut self, subject: &Subject) -> bool {
        match self {
            Takers::One(only) => only == subject,
            Takers::Many(all) => {
                all.remove(subject);
                all.is_empty()
            }
        }
    }

    fn into_vec(self) -> Vec<Subject> {
        match self {
            Takers::One(only) => vec![only],
            Takers::Many(all) => all.into_iter().collect(),
        }
    }
}

/// The accounts of all subjects.
#[derive(Debug, Default)]
pub(crate) struct Dependencies {
    accounts: FxHashMap<Subject, Account>,
    /// Those that have found something.
    telling: FxHashSet<Subject>,
    taken_by: FxHashMap<Subject, Takers>,
    used: FxHashMap<NameSpace, FxHashMap<Arc<str>, u32>>,
    /// Names whose use has changed since the last look, each with whether
    /// it was used then.
    turned: FxHashMap<(NameSpace, Arc<str>), bool>,
    under_way: Vec<(Subject, Account)>,
    /// What was taken by a subject that has been forgotten since.
    let_go: Vec<Subject>,
}

impl Dependencies {
    /// Work on a subject begins.
    pub(crate) fn begin(&mut self, subject: Subject) {
        self.under_way.push((subject, Account::default()));
    }

    /// Work on the subject that was begun last ends.
    pub(crate) fn end(&mut self) {
        if let Some((subject, account)) = self.under_way.pop() {
            self.enter(subject, account);
        }
    }

    fn enter(&mut self, subject: Subject, mut account: Account) {
        // It is kept for long, and most come upon little.
        account.findings.shrink_to_fit();
        account.took.shrink_to_fit();
        account.used.shrink_to_fit();
        for taken in &account.took {
            match self.taken_by.get_mut(taken) {
                Some(takers) => takers.add(&subject),
                None => {
                    let only = Takers::One(subject.clone());
                    self.taken_by.insert(taken.clone(), only);
                }
            }
        }
        if !account.findings.is_empty() {
            self.telling.insert(subject.clone());
        }
        self.accounts.insert(subject, account);
    }

    /// Adds the accounts of subjects that have none here. Names are settled
    /// after it.
    pub(crate) fn gather(&mut self, other: Dependencies) {
        self.accounts.reserve(other.accounts.len());
        self.taken_by.reserve(other.taken_by.len());
        for (subject, account) in other.accounts {
            if self.accounts.contains_key(&subject) {
                continue;
            }
            let used = account.used.iter();
            let used = used.map(|(space, name)| (*space, self.count_use(*space, name).0));
            let used = used.collect();
            self.enter(subject, Account { used, ..account });
        }
    }

    /// Counts one more use of a name; gives the name as it is kept, and how
    /// many uses there are now.
    fn count_use(&mut self, space: NameSpace, name: &str) -> (Arc<str>, u32) {
        let names = self.used.entry(space).or_default();
        let kept = match names.get_key_value(name) {
            Some((kept, _)) => Arc::clone(kept),
            None => Arc::from(name),
        };
        let count = names.entry(Arc::clone(&kept)).or_default();
        *count += 1;
        (kept, *count)
    }

    /// The subject at hand takes another.
    pub(crate) fn take(&mut self, subject: Subject) {
        if let Some((_, account)) = self.under_way.last_mut()
            && !account.took.contains(&subject)
        {
            account.took.push(subject);
        }
    }

    /// The subject at hand uses a name.
    pub(crate) fn use_name(&mut self, space: NameSpace, name: &str) {
        if self.under_way.is_empty() {
            return;
        }
        let (kept, count) = self.count_use(space, name);
        let Some((_, account)) = self.under_way.last_mut() else {
            return;
        };
        account.used.push((space, kept.clone()));
        if count == 1 {
            self.turned.entry((space, kept)).or_insert(false);
        }
    }

    /// The subject at hand finds something.
    pub(crate) fn find(&mut self, finding: Finding) {
        if let Some((_, account)) = self.under_way.last_mut() {
            account.findings.push(finding);
        }
    }

    /// The same, but said once where it says what was found already: there with
    /// this place too.
    pub(crate) fn find_once(&mut self, finding: Finding) {
        let Some((_, account)) = self.under_way.last_mut() else {
            return;
        };
        let is_same =
            |known: &&mut Finding| known.rule == finding.rule && known.message == finding.message;
        match account.findings.iter_mut().find(is_same) {
            Some(known) => *known = known.clone().related(finding.place, "and here"),
            None => account.findings.push(finding),
        }
    }

    /// Of what the subject at hand has found, keeps some.
    pub(crate) fn keep_found(&mut self, keep: impl Fn(&Finding) -> bool) {
        if let Some((_, account)) = self.under_way.last_mut() {
            account.findings.retain(keep);
        }
    }

    /// Whether anything uses a name.
    pub(crate) fn uses(&self, space: NameSpace, name: &str) -> bool {
        self.used
            .get(&space)
            .and_then(|names| names.get(name))
            .is_some_and(|count| *count > 0)
    }

    /// The names of a space that are in use, in no order.
    pub(crate) fn names_used(&self, space: NameSpace) -> impl Iterator<Item = &str> {
        let names = self.used.get(&space).into_iter().flatten();
        names.map(|(name, _)| &**name)
    }

    /// Whether a name of a space has come into use or gone out of it since
    /// this was last asked of all.
    pub(crate) fn has_turned(&self, is_meant: impl Fn(NameSpace) -> bool) -> bool {
        self.turned
            .iter()
            .any(|((space, name), was)| is_meant(*space) && self.uses(*space, name) != *was)
    }

    /// From now on the names in use are those to which later ones are held.
    pub(crate) fn settle_names(&mut self) {
        self.turned.clear();
    }

    /// What was found, in an order that is always the same.
    pub(crate) fn findings(&self) -> impl Iterator<Item = &Finding> {
        let telling = self.telling.iter();
        let accounts = telling.filter_map(|subject| self.accounts.get(subject));
        let mut found: Vec<&Finding> = accounts.flat_map(|account| &account.findings).collect();
        found.sort_by(|one, other| {
            let key = |finding: &Finding| (finding.place, finding.rule);
            key(one)
                .cmp(&key(other))
                .then_with(|| one.message.cmp(&other.message))
        });
        found.into_iter()
    }

    /// Forgets subjects and all that took them, by any road; gives everything
    /// that is forgotten.
    pub(crate) fn forget(
        &mut self,
        subjects: impl IntoIterator<Item = Subject>,
    ) -> FxHashSet<Subject> {
        let mut forgotten = FxHashSet::default();
        let mut waiting: Vec<Subject> = subjects.into_iter().collect();
        while let Some(subject) = waiting.pop() {
            if forgotten.contains(&subject) {
                continue;
            }
            if let Some(account) = self.accounts.remove(&subject) {
                self.close(&subject, account);
            }
            let takers = self.taken_by.remove(&subject);
            waiting.extend(takers.into_iter().flat_map(Takers::into_vec));
            forgotten.insert(subject);
        }
        forgotten
    }

    /// Forgets what was worked out only for others that no longer take it;
    /// gives it.
    pub(crate) fn forget_untaken(&mut self, is_wanted: impl Fn(&Subject) -> bool) -> Vec<Subject> {
        let mut forgotten = Vec::new();
        while let Some(subject) = self.let_go.pop() {
            if self.taken_by.contains_key(&subject) || is_wanted(&subject) {
                continue;
            }
            if let Some(account) = self.accounts.remove(&subject) {
                self.close(&subject, account);
                forgotten.push(subject);
            }
        }
        forgotten
    }

    fn close(&mut self, subject: &Subject, account: Account) {
        self.telling.remove(subject);
        for taken in account.took {
            let takers = self.taken_by.get_mut(&taken);
            if takers.is_some_and(|takers| takers.take_out(subject)) {
                self.taken_by.remove(&taken);
                self.let_go.push(taken);
            }
        }
        for (space, name) in account.used {
            let names = self.used.entry(space).or_default();
            let Some(count) = names.get_mut(&name) else {
                continue;
            };
            *count = count.saturating_sub(1);
            if *count == 0 {
                names.remove(&name);
                self.turned.entry((space, name)).or_insert(true);
            }
        }
    }
}
