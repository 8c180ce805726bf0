//! What a rule is: one declaration, from which everything shown of it comes.

use super::Context;
use super::limits::Limit;
use crate::findings::{Finding, Severity};
use crate::model::{Build, Layer, Material, Mix, Stated, Surface};
use crate::sources::Source;

/// A rule of the trade, or of the text itself.
pub struct Rule {
    /// Its short name in the trade's words: subject, then defect. Never used
    /// again for something else.
    pub name: &'static str,
    /// The family that it is listed in.
    pub family: Family,
    /// How much it usually matters.
    pub severity: Severity,
    /// What it looks at, in one sentence.
    pub looks_at: &'static str,
    /// Why that matters.
    pub reason: &'static str,
    /// What to do about a finding.
    pub remedy: &'static str,
    /// Its limits; empty if it has none.
    pub limits: &'static [Limit],
    /// Where the rule comes from.
    pub sources: &'static [Source],
    /// A text that breaks it, the place between `«` and `»`. What it lacks is
    /// completed from a fixed sound job.
    pub breaks: &'static str,
    /// A text that keeps it.
    pub keeps: &'static str,
    /// `breaks` after its first fix, if it has one.
    pub mended: Option<&'static str>,
    /// How it is checked.
    pub check: Check,
}

/// How a rule is checked: what its function is called with.
#[derive(Clone, Copy)]
pub enum Check {
    /// It is found while the text is read; there is nothing to call.
    Reading,
    /// Once for a job.
    Job(fn(&Context<'_>, &mut Found)),
    /// Once for a job in which something holds of a surface.
    JobWith {
        /// What is to hold of a surface.
        holds: fn(&Surface) -> bool,
        /// Silent where the rule of this name, which says the same more
        /// closely, has found something.
        unless: Option<&'static str>,
        /// What is called where it holds.
        check: fn(&Context<'_>, &mut Found),
    },
    /// For each surface, and once for a job for what lies outside them.
    SurfaceAndJob(
        fn(&Context<'_>, &Surface, &mut Found),
        fn(&Context<'_>, &mut Found),
    ),
    /// For each surface.
    Surface(fn(&Context<'_>, &Surface, &mut Found)),
    /// For each surface that has a build.
    Built(fn(&Context<'_>, &Surface, &Build, &mut Found)),
    /// For each surface that has a build, and once for a job for what lies
    /// outside them.
    BuiltAndJob(
        fn(&Context<'_>, &Surface, &Build, &mut Found),
        fn(&Context<'_>, &mut Found),
    ),
    /// For each surface that has a build, and for each of its borders as if all
    /// of it were laid so.
    Units(fn(&Context<'_>, &Surface, &Build, &mut Found)),
    /// For each layer of each surface's build, and for the paving of each of its
    /// borders.
    Layer(fn(&Context<'_>, &Surface, &Build, &Layer, &mut Found)),
    /// For each build that the file itself states, used or not.
    Build(fn(&Context<'_>, &Build, &mut Found)),
    /// For each material that the file itself states.
    Material(fn(&Context<'_>, &Material, &mut Found)),
    /// For each mix that the file itself states.
    Mix(fn(&Context<'_>, &Mix, &mut Found)),
}

/// What a check has found so far.
#[derive(Debug, Default)]
pub struct Found {
    /// The findings, in the order in which they were found.
    pub findings: Vec<Finding>,
    is_trial: bool,
}

impl Found {
    /// For a check of what a fix would make: it offers no fixes of its own
    /// that would have to be tried in turn.
    pub fn trial() -> Found {
        Found {
            is_trial: true,
            ..Found::default()
        }
    }

    /// Whether a fix is being tried.
    pub fn is_trial(&self) -> bool {
        self.is_trial
    }

    /// Adds a finding.
    pub fn add(&mut self, finding: Finding) {
        self.findings.push(finding);
    }
}

macro_rules! families {
    ($($(#[$doc:meta])* $variant:ident $word:literal $title:literal,)*) => {
        /// The families in which rules are listed.
        #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub enum Family { $($(#[$doc])* $variant,)* }

        impl Family {
            /// Every family, in the order in which they are listed.
            pub const ALL: &'static [Family] = &[$(Family::$variant,)*];

            /// One word for it, as a command takes it.
            pub const fn word(self) -> &'static str {
                match self { $(Family::$variant => $word,)* }
            }

            /// Its title in a list.
            pub const fn title(self) -> &'static str {
                match self { $(Family::$variant => $title,)* }
            }
        }
    };
}

families! {
    /// Falls and water.
    Falls "falls" "Falls and water",
    /// Drains and soakaways.
    Drains "drains" "Drains and soakaways",
    /// Levels at the building.
    Levels "levels" "Levels at the building",
    /// Dig and ground.
    Ground "ground" "Dig and ground",
    /// The base.
    Base "base" "Base",
    /// Beds.
    Beds "beds" "Beds",
    /// Mixes.
    Mixes "mixes" "Mixes",
    /// Units and stone.
    Units "units" "Units and stone",
    /// Joints and movement.
    Joints "joints" "Joints and movement",
    /// Edges.
    Edges "edges" "Edges and overlaps",
    /// Steps.
    Steps "steps" "Steps",
    /// Ordering and cost.
    Ordering "ordering" "Ordering and cost",
    /// Work and cost.
    Work "work" "Work and its cost",
    /// What was measured.
    AsBuilt "as-built" "As built",
    /// Cautions.
    Cautions "cautions" "Cautions",
    /// The text itself.
    Text "text" "The text itself",
}

impl Rule {
    /// A finding of this rule, with its usual severity and no limit.
    pub fn finding(&self, place: crate::findings::Place, message: impl Into<Box<str>>) -> Finding {
        Finding::new(self.name, place, message).severity(self.severity)
    }

    /// The row that a standard's limit is for: the one that it names, else
    /// `plain`, else the first, which is the commonest.
    pub fn row_meant<'a>(&self, row: Option<&'a Stated<String>>) -> &'a str {
        match (row, self.limits.first()) {
            (Some(named), _) => &named.value,
            (None, Some(first)) if self.limit("plain").is_none() => first.row,
            (None, _) => "plain",
        }
    }

    /// The limit with this row.
    pub fn limit(&self, row: &str) -> Option<&'static Limit> {
        let limits: &'static [Limit] = self.limits;
        limits.iter().find(|limit| limit.row == row)
    }
}
