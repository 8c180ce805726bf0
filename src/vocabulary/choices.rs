//! The choices: slots that take one of a few words.
//!
//! A choice is declared here once, as the type that the model keeps. A form
//! names it as it names a kind of value, `USE:use`; nowhere else are its words
//! written down. So a word that the table offers is always one that the model
//! knows, and whoever asks for it by `match` is told by the compiler when a
//! word is added.

use super::Role;
use crate::sources::Region;
use crate::units::System;

/// One of a few words.
pub trait Choice: Copy + Sized + 'static {
    /// Every one, in the order in which they are offered.
    const ALL: &'static [Self];

    /// The word for it in a spec.
    fn word(self) -> &'static str;

    /// The one with this word, in any case.
    fn from_word(word: &str) -> Option<Self> {
        let mut all = Self::ALL.iter().copied();
        all.find(|choice| choice.word().eq_ignore_ascii_case(word))
    }
}

/// Makes the types, their words and the list of choices out of one table.
macro_rules! choices {
    ($($(#[$outer:meta])* $name:ident $form:literal {
        $($(#[$inner:meta])* $variant:ident $word:literal,)+
    })+) => {
        $(
            $(#[$outer])*
            #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
            pub enum $name { $($(#[$inner])* $variant,)+ }

            impl $name {
                /// Every one, in the order in which they are offered.
                pub const ALL: &'static [$name] = &[$($name::$variant,)+];

                /// The word for it in a spec.
                pub const fn word(self) -> &'static str {
                    match self { $($name::$variant => $word,)+ }
                }

                /// The one with this word, in any case.
                pub fn from_word(word: &str) -> Option<$name> {
                    Choice::from_word(word)
                }
            }

            impl Choice for $name {
                const ALL: &'static [Self] = $name::ALL;

                fn word(self) -> &'static str {
                    $name::word(self)
                }
            }
        )+

        /// The choices, by the word that a form has for each.
        static CHOICES: &[(&str, &[&str])] = &[
            ("system", SYSTEMS),
            ("region", REGIONS),
            $(($form, &[$($word,)+]),)+
        ];
    };
}

choices! {
    /// What a surface is used for.
    #[derive(Default)]
    Use "use" {
        /// Foot traffic.
        #[default]
        Foot "foot",
        /// A private drive.
        Drive "drive",
        /// A street.
        Street "street",
        /// A ramp.
        Ramp "ramp",
        /// A landing.
        Landing "landing",
    }

    /// How units are laid.
    Pattern "pattern" {
        /// Irregular stones.
        Irregular "irregular",
        /// Running bond.
        RunningBond "running-bond",
        /// Stack bond.
        StackBond "stack-bond",
        /// Herringbone.
        Herringbone "herringbone",
        /// Basket weave.
        BasketWeave "basket-weave",
        /// Rings round a point.
        Rings "rings",
        /// Courses of one width, of units of all lengths.
        Courses "courses",
        /// Several sizes, each with its share of the area.
        Ashlar "ashlar",
    }

    /// Which way a path turns as one walks along it.
    Turn "turn" {
        /// To the left.
        Left "left",
        /// To the right.
        Right "right",
    }

    /// The sides of a course of a border.
    BorderSide "border-side" {
        /// Towards the field.
        Inner "inner",
        /// Towards the edge.
        Outer "outer",
    }

    /// Which way a door swings.
    Swing "swing" {
        /// Into the building.
        In "in",
        /// Out over the paving.
        Out "out",
    }

    /// Which side of the datum a level lies on.
    Sense "sense" {
        /// Below it.
        Below "below",
        /// Above it.
        Above "above",
    }

    /// Whether a thickness or a density is as compacted or as spread.
    State "state" {
        /// As compacted.
        Compacted "compacted",
        /// As spread.
        Loose "loose",
    }

    /// What a clay brick is made for.
    BrickClass "brick-class" {
        /// Paving for foot and light traffic.
        Paving "paving",
        /// Paving for streets.
        HeavyPaving "heavy-paving",
        /// The face of a wall.
        Facing "facing",
        /// The inside of a wall.
        Building "building",
    }

    /// How a brick stands wet and frost, as bodies class it.
    Durability "durability" {
        /// American paving brick for indoors.
        Nx "NX",
        /// American paving brick where nothing freezes.
        Mx "MX",
        /// American paving brick for wet and frost.
        Sx "SX",
        /// American wall brick for dry walls.
        Nw "NW",
        /// American wall brick for some weather.
        Mw "MW",
        /// American wall brick for wet and frost.
        Sw "SW",
        /// European brick that frost breaks.
        F0 "F0",
        /// European brick for some weather.
        F1 "F1",
        /// European brick for wet and frost.
        F2 "F2",
        /// European clay pavers that nobody tested in frost.
        Fp0 "FP0",
        /// European clay pavers that stand frost.
        Fp100 "FP100",
        /// Australian brick for sheltered walls.
        Pro "PRO",
        /// Australian brick for general use.
        Gp "GP",
        /// Australian brick for salt and frost.
        Exp "EXP",
    }

    /// What a mix is used for.
    MixUse "mix-use" {
        /// The setting bed.
        Bed "bed",
        /// The joints.
        Joint "joint",
        /// The coat on the back of the stone.
        Bond "bond",
        /// The coat on the slab or base.
        Slurry "slurry",
        /// A concrete slab.
        Slab "slab",
    }

    /// How parts are measured.
    #[derive(Default)]
    Measure "measure" {
        /// By loose volume.
        #[default]
        Volume "volume",
        /// By weight.
        Weight "weight",
    }

    /// The type of a mortar.
    MortarType "mortar-type" {
        /// The strongest.
        M "M",
        /// Strong in tension too.
        S "S",
        /// For general use.
        N "N",
        /// The weakest.
        O "O",
    }

    /// How wet a mix is.
    #[derive(Default)]
    Consistency "consistency" {
        /// Holds together when squeezed, no more.
        Dry "dry",
        /// Stands by itself.
        Stiff "stiff",
        /// Spreads under the trowel.
        #[default]
        Plastic "plastic",
        /// Pours.
        Fluid "fluid",
    }

    /// What the ground is.
    SoilWord "soil" {
        /// Gravel.
        Gravel "gravel",
        /// Sand.
        Sand "sand",
        /// Silt.
        Silt "silt",
        /// Clay.
        Clay "clay",
        /// Loam.
        Loam "loam",
        /// Peat.
        Peat "peat",
        /// Rock.
        Rock "rock",
        /// Made ground.
        Fill "fill",
    }

    /// What the walls of the building are.
    Walls "walls" {
        /// Solid or cavity masonry.
        Masonry "masonry",
        /// A skin of brick or stone before a frame.
        MasonryVeneer "masonry-veneer",
        /// A frame with a light skin.
        Framed "framed",
    }

    /// What was measured of a surface.
    Top "top" {
        /// The finished surface.
        Finish "finish",
        /// The top of the paving layer.
        Paving "paving",
        /// The top of loose surfacing.
        Surfacing "surfacing",
        /// The top of the bed.
        Bed "bed",
        /// The top of the slab.
        Slab "slab",
        /// The top of the base.
        Base "base",
        /// The top of the subbase.
        Subbase "subbase",
        /// The bottom of the dig.
        Dig "dig",
    }

    /// A kind of work, by the verb of the trade.
    Task "task" {
        /// Buried services are located.
        Locating "locating",
        /// Turf and topsoil come off.
        Stripping "stripping",
        /// The ground is dug out.
        Digging "digging",
        /// Spoil is taken away.
        Carting "carting",
        /// Drains are laid.
        Draining "draining",
        /// Fabric and sheets are laid.
        Lining "lining",
        /// A lift is compacted.
        Compacting "compacting",
        /// Edging is set.
        Edging "edging",
        /// Forms are set.
        Forming "forming",
        /// Concrete is poured.
        Pouring "pouring",
        /// Concrete is kept wet while it gains strength.
        Curing "curing",
        /// Stone is laid out to fit before it is set.
        DryLaying "dry-laying",
        /// Paving is laid and cut.
        Laying "laying",
        /// Joints are filled.
        Jointing "jointing",
        /// The surface is cleaned.
        Cleaning "cleaning",
        /// The surface is sealed.
        Sealing "sealing",
        /// The ground is made up again.
        Backfilling "backfilling",
        /// Steps are built.
        Building "building",
    }

    /// What is sold by the piece, in either word.
    ByPiece "piece" {
        /// Each.
        Each "each",
        /// Apiece.
        Apiece "apiece",
    }

    /// Whether a rate is of each who works or of all together.
    #[derive(Default)]
    Sharing "sharing" {
        /// Of each.
        #[default]
        Each "each",
        /// Of all together.
        Together "together",
    }

    /// A day of the week.
    Weekday "weekday" {
        /// The first.
        Monday "monday",
        /// The second.
        Tuesday "tuesday",
        /// The third.
        Wednesday "wednesday",
        /// The fourth.
        Thursday "thursday",
        /// The fifth.
        Friday "friday",
        /// The sixth.
        Saturday "saturday",
        /// The seventh.
        Sunday "sunday",
    }

    /// What a tax is on.
    Taxed "taxed" {
        /// The materials and their deliveries.
        Materials "materials",
        /// What is hired and its deliveries.
        Hire "hire",
        /// The labour.
        Labour "labour",
        /// The disposal of spoil.
        Disposal "disposal",
        /// The other items.
        Items "items",
        /// All of the price.
        Everything "everything",
    }

    /// Where there is a handrail, left and right as one goes up.
    Handrail "handrail" {
        /// On both sides.
        Both "both",
        /// On one side, whichever.
        One "one",
        /// On the left.
        Left "left",
        /// On the right.
        Right "right",
    }

    /// How grave a standard makes a rule.
    SeverityWord "severity" {
        /// An error.
        Error "error",
        /// A warning.
        Warning "warning",
        /// An advisory.
        Advisory "advisory",
    }
}

/// The words of [`System`], which stands on a lower floor.
const SYSTEMS: &[&str] = &[system_word(System::Imperial), system_word(System::Metric)];

const fn system_word(system: System) -> &'static str {
    match system {
        System::Imperial => "imperial",
        System::Metric => "metric",
    }
}

impl Choice for System {
    const ALL: &'static [Self] = &[System::Imperial, System::Metric];

    fn word(self) -> &'static str {
        system_word(self)
    }
}

/// The words of [`Region`], which stands on a lower floor too.
const REGIONS: &[&str] = &[
    Region::Us.word(),
    Region::Uk.word(),
    Region::Au.word(),
    Region::General.word(),
];

impl Choice for Region {
    const ALL: &'static [Self] = Region::ALL;

    fn word(self) -> &'static str {
        Region::word(self)
    }
}

/// The words of the choice that a form means by `form`.
pub(super) fn words(form: &str) -> Option<&'static [&'static str]> {
    let choice = CHOICES.iter().find(|(own, _)| *own == form);
    choice.map(|(_, words)| *words)
}

impl Top {
    /// The layer whose top it is; `None` for the finish and the dig.
    pub const fn role(self) -> Option<Role> {
        match self {
            Top::Finish | Top::Dig => None,
            Top::Paving => Some(Role::Paving),
            Top::Surfacing => Some(Role::Surfacing),
            Top::Bed => Some(Role::Bed),
            Top::Slab => Some(Role::Slab),
            Top::Base => Some(Role::Base),
            Top::Subbase => Some(Role::Subbase),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_word_leads_back_to_its_choice() {
        for choice in Consistency::ALL {
            assert_eq!(Consistency::from_word(choice.word()), Some(*choice));
        }
        assert_eq!(Region::from_word("UK"), Some(Region::Uk));
        assert_eq!(Pattern::from_word("random"), None);
    }

    #[test]
    fn no_choice_has_a_word_twice_or_only_one() {
        for (form, words) in CHOICES {
            let own: std::collections::BTreeSet<_> = words.iter().collect();
            assert!(own.len() > 1 && own.len() == words.len(), "{form}");
            assert_eq!(super::super::ValueKind::from_word(form), None, "{form}");
        }
    }
}
