//! The kinds of value that a slot takes.

use crate::units::Dimension;

/// Where a name is looked up: shapes may share a name with surfaces, but
/// materials and mixes live together.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum NameSpace {
    /// `let`.
    Lets,
    /// `shape`.
    Shapes,
    /// `surface`.
    Surfaces,
    /// `build`.
    Builds,
    /// `drain`.
    Drains,
    /// `material` and `mix`.
    Substances,
    /// `steps`.
    Steps,
}

impl NameSpace {
    /// What a name in it stands for: `a shape`.
    pub const fn noun(self) -> &'static str {
        match self {
            NameSpace::Lets => "a let",
            NameSpace::Shapes => "a shape",
            NameSpace::Surfaces => "a surface",
            NameSpace::Builds => "a build",
            NameSpace::Drains => "a drain",
            NameSpace::Substances => "a material or mix",
            NameSpace::Steps => "a flight of steps",
        }
    }
}

macro_rules! kinds {
    ($($(#[$doc:meta])* $variant:ident $word:literal $noun:literal,)*) => {
        /// What a slot takes.
        #[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
        pub enum ValueKind { $($(#[$doc])* $variant,)* }

        impl ValueKind {
            /// Every kind.
            pub const ALL: &'static [ValueKind] = &[$(ValueKind::$variant,)*];

            /// The kind with this word in a form.
            pub fn from_word(word: &str) -> Option<ValueKind> {
                match word { $($word => Some(ValueKind::$variant),)* _ => None }
            }

            /// What it is called in a message: `a length`.
            pub const fn noun(self) -> &'static str {
                match self { $(ValueKind::$variant => $noun,)* }
            }
        }
    };
}

kinds! {
    /// A length.
    Length "length" "a length",
    /// An area.
    Area "area" "an area",
    /// A volume.
    Volume "volume" "a volume",
    /// A mass.
    Mass "mass" "a mass",
    /// A mass over a volume.
    Density "density" "a density",
    /// A force over an area.
    Strength "strength" "a strength",
    /// An area over a mass.
    Coverage "coverage" "an area per mass",
    /// A slope: `1:60`, `2 %`, a drop over a run.
    Slope "slope" "a slope",
    /// A share of the whole, in per cent.
    Share "share" "a share in per cent",
    /// An amount of money, or money for each of some unit.
    Price "price" "a price",
    /// A time.
    Time "time" "a time",
    /// A time in working days.
    Days "days" "a number of days",
    /// Working days for so much: `1 day per m2`.
    DaysFor "days-for" "days for so much",
    /// A time in calendar days.
    Stay "stay" "a number of days",
    /// A time of day: `8:00`.
    Clock "clock" "a time of day",
    /// A temperature.
    Temperature "temperature" "a temperature",
    /// A date.
    Date "date" "a date",
    /// An angle.
    Angle "angle" "an angle",
    /// Rain, depth over time.
    Rainfall "rainfall" "a rainfall",
    /// How fast the ground takes water: a depth over a time, or a time over a
    /// depth.
    Infiltration "infiltration" "a depth of water in a time",
    /// A plain number.
    Number "number" "a plain number",
    /// A whole number.
    Count "count" "a whole number",
    /// A quantity of any dimension.
    Quantity "quantity" "a quantity",
    /// A point of the plan.
    Point "point" "a point",
    /// The parts of a mix.
    Parts "parts" "parts with their names",
    /// Text in quotes.
    Text "text" "text in quotes",
    /// A name that is being given.
    Name "name" "a name",
    /// Any word, such as the pack that something is sold in.
    Word "word" "a word",
    /// A unit of measure.
    Unit "unit" "a unit",
    /// The name of a shape.
    Shape "shape" "a shape",
    /// The name of a surface.
    Surface "surface" "a surface",
    /// The name of a build.
    Build "build" "a build",
    /// The name of a drain.
    Drain "drain" "a drain",
    /// The name of what work is done on.
    Built "built" "a surface, a drain or steps",
    /// The name of a material.
    Material "material" "a material",
    /// The name of a material or mix.
    Substance "substance" "a material or mix",
    /// What a material is taken for by the rules.
    MaterialKind "material-kind" "a kind of material",
    /// An edge of a shape.
    Edge "edge" "an edge",
    /// An edge of a surface, with its name: `court.wall`.
    SurfaceEdge "surface-edge" "an edge of a surface",
    /// A direction of the plan: a compass word or `bearing` and an angle.
    Direction "direction" "a direction",
    /// A direction of the plan or an edge.
    Heading "heading" "a direction or an edge",
    /// An edge or a point.
    Place "place" "an edge or a point",
    /// The name of a rule.
    Rule "rule" "a rule",
}

impl ValueKind {
    /// The dimension that a quantity in this slot must have; `None` if the
    /// slot takes no quantity, or one of any dimension.
    pub const fn dimension(self) -> Option<Dimension> {
        match self {
            ValueKind::Length => Some(Dimension::LENGTH),
            ValueKind::Area => Some(Dimension::AREA),
            ValueKind::Volume => Some(Dimension::VOLUME),
            ValueKind::Mass => Some(Dimension::MASS),
            ValueKind::Density => Some(Dimension::DENSITY),
            ValueKind::Strength => Some(Dimension::STRENGTH),
            ValueKind::Coverage => Some(Dimension::COVERAGE),
            ValueKind::Time | ValueKind::Days | ValueKind::Stay => Some(Dimension::TIME),
            ValueKind::Angle => Some(Dimension::ANGLE),
            ValueKind::Temperature => Some(Dimension::TEMPERATURE),
            ValueKind::Rainfall | ValueKind::Infiltration => Some(Dimension::RAINFALL),
            ValueKind::Slope | ValueKind::Share | ValueKind::Number | ValueKind::Count => {
                Some(Dimension::NONE)
            }
            _ => None,
        }
    }

    /// Whether the name of something that is defined or drawn stands here.
    pub const fn is_name(self) -> bool {
        matches!(
            self,
            ValueKind::Shape
                | ValueKind::Surface
                | ValueKind::Build
                | ValueKind::Drain
                | ValueKind::Built
                | ValueKind::Material
                | ValueKind::Substance
                | ValueKind::Edge
                | ValueKind::SurfaceEdge
                | ValueKind::Heading
                | ValueKind::Place
        )
    }

    /// Whether an expression may stand here.
    pub const fn is_quantity(self) -> bool {
        let is_of_any = matches!(
            self,
            ValueKind::Quantity | ValueKind::Price | ValueKind::DaysFor
        );
        self.dimension().is_some() || is_of_any
    }
}
