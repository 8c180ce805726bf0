//! What a spec means, evaluated.

mod bed;
mod border;
mod budget;
mod build;
mod drain;
mod drains;
mod heading;
mod hire;
mod measured;
mod origin;
mod part;
mod repeat;
mod setting_out;
mod shape;
mod site;
mod standard;
mod steps;
mod substance;
mod surface;
mod uses;
mod work;

use std::sync::Arc;

use indexmap::IndexMap;

pub use crate::sources::Region;
pub(crate) use bed::tagged_as;
pub use border::Border;
pub use budget::{Budget, Disposal, Item, Labour, Profit, Quote, Tax};
pub use build::{Build, Layer};
pub use drain::{
    Bedding, Drain, DrainBody, DrainKind, DrainLine, DrainSeen, Filling, Invert, Outlet, Pipe, Pit,
    Taken, Takes, spells,
};
pub use drains::{Drains, Outfall};
pub use heading::{FileKind, Heading};
pub use hire::{Hire, Period, PeriodPrice, Stretch};
pub use measured::{Measured, Measurement, ReadBy, Sight};
pub use origin::{Origin, Sourced, Stated};
pub use part::Part;
pub use repeat::Repeat;
pub use setting_out::{PegsAlong, SettingOut};
pub use shape::{EdgeLabel, Shape};
pub use site::{DesignStorm, Fiercest, Ground, Rain, Site, SoilCondition, Tree};
pub use standard::{SetLimit, SetSeverity, Standard, UnsetLimit};
pub use steps::{Core, CoreFoot, Ending, Facing, Steps, StepsBase, Tread, TreadBed};
pub use substance::{Load, Material, Mix, MixPart, Pack, Sold, Substance};
pub use surface::{
    AshlarSize, Contact, Door, Edging, Fall, FallTo, Footing, Guard, Haunch, Held, Joint, Laid,
    Level, LevelAt, Side, Stones, Surface,
};
pub use uses::{Used, UsedAs};
pub use work::{
    Beside, Built, Length, OtherTask, Pause, StatedWait, TaskRate, Work, WorkingDay, measures_of,
};

pub use crate::vocabulary::{
    BrickClass, Consistency, Durability, Handrail, Measure, MixUse, MortarType, Pattern, Sharing,
    State, Task, Taxed, Use, Walls, Weekday,
};

use crate::findings::{Finding, Place};

/// Things by name, in order; a copy costs nothing.
pub type Named<T> = Arc<IndexMap<Arc<str>, Arc<T>>>;

/// Things in order; a copy costs nothing.
pub type Listed<T> = Arc<Vec<Arc<T>>>;

/// Everything that a spec says, as far as it could be made out.
#[derive(Debug, Clone, Default)]
pub struct Job {
    /// What kind of file it is.
    pub kind: FileKind,
    /// The `job` section, or the defaults where there is none.
    pub heading: Heading,
    /// The `site` section, or an empty one.
    pub site: Site,
    /// The shapes by name, in order.
    pub shapes: Named<Shape>,
    /// The surfaces in order.
    pub surfaces: Listed<Surface>,
    /// The flights of steps, in order.
    pub steps: Listed<Steps>,
    /// The builds by name, in order.
    pub builds: Named<Build>,
    /// The mixes by name, in order.
    pub mixes: Named<Mix>,
    /// The materials that the spec states or uses, by name, in order; those
    /// of the catalogue only where they are used.
    pub materials: Named<Material>,
    /// The drains, in order.
    pub drains: Arc<Drains>,
    /// The `work` section, if there is one.
    pub work: Option<Arc<Work>>,
    /// What is hired, in order.
    pub hires: Listed<Hire>,
    /// The `budget` section, if there is one.
    pub budget: Option<Arc<Budget>>,
    /// The `setting-out` section, if there is one.
    pub setting_out: Option<Arc<SettingOut>>,
    /// What was measured, in order.
    pub measured: Listed<Measured>,
    /// The lets of the file itself, in order, each with its value if it has
    /// one.
    pub lets: Vec<(Stated<String>, Option<crate::units::Quantity>)>,
    /// Whether a heading of the file could not be made out: what seems to be
    /// missing may stand under it.
    pub has_lost_heading: bool,
    /// Where `ton` or `gal` is written in the file.
    pub written_tons: Vec<Stated<String>>,
    /// The `accept` lines of the file.
    pub accepts: Vec<Accept>,
    /// What the reading found.
    pub findings: Vec<Finding>,
}

/// An `accept` line.
#[derive(Debug, Clone)]
pub struct Accept {
    /// The rule that it takes.
    pub rule: Stated<String>,
    /// As far as this figure, if one is given.
    pub figure: Option<Stated<crate::units::Quantity>>,
    /// Why; without a reason it does not hold.
    pub reason: Option<String>,
    /// By whom.
    pub by: Option<String>,
    /// The last day that it holds, as `2027-03-01`.
    pub until: Option<String>,
    /// The whole line.
    pub place: Place,
    /// Whether it stands in a section, and so takes only what was computed
    /// from that section.
    pub inside_section: bool,
}
