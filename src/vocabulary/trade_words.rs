//! The words of the trade as they are said where the job is. Messages, sheets
//! and editors take them from here and write none of them out. Words that are
//! only spelled in two ways stand in `spelling`.

use crate::sources::Region;

macro_rules! terms {
    ($($(#[$doc:meta])* $term:ident: $us:literal, $other:literal $(, $au:literal)?;)*) => {
        /// A thing, or a doing, that the trade names one way in the United
        /// States and another elsewhere, in Australia at times a third.
        #[derive(Debug, Clone, Copy, PartialEq, Eq)]
        pub enum Term { $($(#[$doc])* $term,)* }

        impl Term {
            /// Every term.
            pub const ALL: &'static [Term] = &[$(Term::$term,)*];

            /// The word for it in a region; where no region is stated, that
            /// of Britain.
            pub const fn word(self, region: Region) -> &'static str {
                match (self, region) {
                    $(
                        (Term::$term, Region::Us) => $us,
                        $((Term::$term, Region::Au) => $au,)?
                        (Term::$term, _) => $other,
                    )*
                }
            }
        }
    };
}

terms! {
    /// The layer under the base.
    Subbase: "subbase", "sub-base";
    /// What everything lies on.
    Formation: "subgrade", "formation";
    /// A drain along an edge, with a grating.
    Channel: "trench drain", "channel drain";
    /// A pit with a grating.
    Gully: "catch basin", "gully";
    /// A pit from which water soaks away.
    Soakaway: "dry well", "soakaway", "soakage pit";
    /// The same, more than one.
    Channels: "trench drains", "channel drains";
    /// Stone with no fines.
    OpenStone: "open-graded stone", "open-graded stone";
    /// Of spoil: as it is taken away.
    LooseSpoil: "loose, to haul off", "loose, to cart away";
    /// Taking spoil away.
    CartAway: "haul off", "cart away";
    /// How stone is cut without dust.
    WetCut: "wet-cut, or use a vacuum shroud", "cut wet or with extraction";
    /// What is done about buried services before a dig.
    LocateServices: "call before you dig (811)", "have services located (CAT scan, plans)";
    /// How spacings are given: `24 in on center`.
    Centres: "on center", "centres";
    /// What brings stone and sand by the load.
    Tipper: "truck", "tipper";
    /// Putting concrete behind an edging.
    Haunch: "Back it with concrete", "Haunch it";
    /// Standing a channel or an edging in concrete.
    InConcrete: "set it in concrete and back it up", "bed and haunch it in concrete";
    /// What stone is weighed by.
    Tonne: "ton", "tonne";
    /// What lifts a slab that is too heavy for two hands.
    VacuumLifter: "vacuum lifter", "vacuum lifter";
    /// What keeps damp out of a wall.
    DampCourse: "damp course", "DPC";
    /// What is spread on the back of stone before it is laid.
    BondCoat: "bond coat, thin-set on the back", "priming slurry on the back";
    /// The coat on a slab that a bed is laid into.
    SlurryCoat: "slurry coat on the slab", "slurry coat on the slab";
    /// A mix with hardly any water.
    DryMix: "dry-pack", "semi-dry";
    /// Of goods: one by one.
    Singly: "by the piece", "singly";
    /// A corner of a slab that points inward.
    InsideCorner: "re-entrant corner", "re-entrant corner";
    /// The walk beside a road.
    Footway: "sidewalk", "footway", "footpath";
    /// What carries waste water away.
    FoulSewer: "sanitary sewer", "foul sewer", "sewer";
    /// A way out that must stay one.
    EscapeDoor: "required egress door", "escape door";
    /// What plans in metres are measured in.
    Metres: "meters and millimeters", "metres and millimetres";
    /// A ton of 1,000 kilograms.
    MetricTon: "metric ton", "tonne";
    /// What clads a framed wall.
    Cladding: "siding", "cladding";
    /// The ready-made mix of sharp stones and fines.
    GradedBase: "dense-graded base", "graded sub-base";
    /// The sand that paving is bedded on.
    BeddingSand: "concrete sand", "sharp sand";
    /// Large thin stones to walk on.
    Flags: "flagstones", "flags", "flagstones";
}

impl Term {
    /// A spacing as it is given: `24 in on center`, `600 mm centres`.
    pub fn spacing(figure: &str, region: Region) -> String {
        format!("{figure} {}", Term::Centres.word(region))
    }

    /// How deep the ground freezes: `42 in frost depth`, `frost depth 450 mm`.
    pub fn frost_depth(figure: &str, region: Region) -> String {
        match region {
            Region::Us => format!("{figure} frost depth"),
            Region::Uk | Region::Au | Region::General => format!("frost depth {figure}"),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::vocabulary::spelled_in;

    #[test]
    fn the_trade_is_heard_in_the_words_of_the_region() {
        for (term, us, uk) in [
            (Term::Channel, "trench drain", "channel drain"),
            (Term::Formation, "subgrade", "formation"),
            (Term::Gully, "catch basin", "gully"),
            (Term::Soakaway, "dry well", "soakaway"),
            (Term::Subbase, "subbase", "sub-base"),
            (Term::Singly, "by the piece", "singly"),
        ] {
            assert_eq!((term.word(Region::Us), term.word(Region::Uk)), (us, uk));
            assert_eq!(term.word(Region::General), uk);
        }
        for (term, au) in [
            (Term::Subbase, "sub-base"),
            (Term::Footway, "footpath"),
            (Term::Soakaway, "soakage pit"),
            (Term::Flags, "flagstones"),
        ] {
            assert_eq!(term.word(Region::Au), au);
        }
        assert_eq!(Term::spacing("24 in", Region::Us), "24 in on center");
        assert_eq!(
            Term::frost_depth("450 mm", Region::Uk),
            "frost depth 450 mm"
        );
    }

    #[test]
    fn americans_read_american_spelling() {
        for term in Term::ALL {
            let word = term.word(Region::Us);
            assert_eq!(spelled_in(Region::Us, word), word);
            assert!(!word.contains("metre"), "{word}");
        }
    }
}
