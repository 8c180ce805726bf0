//! What the rules take a material for.

/// Makes the kinds, their words and their help out of one table.
macro_rules! kinds {
    ($($kind:ident $word:literal $help:literal,)+) => {
        /// What a material is in the eyes of the rules; the value of `kind`.
        #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub enum Kind {
            $(#[doc = $help] $kind,)+
        }

        impl Kind {
/// Whether a kind of material is what such an entry usually takes; `None`
/// for an entry that takes any.
pub fn suits(self, entry: &str) -> Option<bool> {
    Some(match entry {
        "paving" => self.is_unit(),
        "surfacing" => self == Kind::RoundedGravel || self.is_aggregate(),
        "bed" => self == Kind::BeddingSand,
        "joint" => matches!(self, Kind::JointSand | Kind::PolymericSand),
        "bond" | "slurry" => self.is_bond_coat(),
        "slab" => self.is_concrete(),
        "base" | "subbase" => self.is_aggregate(),
        "fabric" => self.is_fabric(),
        "mesh" => self == Kind::Mesh,
        "membrane" => self.is_membrane(),
        "edging" => self.is_edging(),
        "channel" => self == Kind::DrainChannel,
        "gully" => self == Kind::Gully,
        "pipe" => self == Kind::Pipe,
        "bedded" => self == Kind::RoundedGravel || self.is_open_graded(),
        "filled" => self == Kind::Crate || self.is_open_graded(),
        "wrapped" => self.is_fabric(),
        "binder" => self.is_binder(),
        "parts" => self.is_sand(),
        _ => return None,
    })
}

            /// Every kind, in the order in which they are offered.
            pub const ALL: &'static [Kind] = &[$(Kind::$kind,)+];

            /// The word a spec writes after `kind`.
            pub const fn word(self) -> &'static str {
                match self {
                    $(Kind::$kind => $word,)+
                }
            }

            /// One line that says what belongs under the word.
            pub const fn help(self) -> &'static str {
                match self {
                    $(Kind::$kind => $help,)+
                }
            }
        }
    };
}

kinds! {
    ConcretePaver "concrete-paver"
        "Small concrete paving blocks that interlock",
    ConcreteFlag "concrete-flag"
        "Concrete paving slabs, cast or pressed",
    ClayPaver "clay-paver"
        "Fired clay pavers and paving brick",
    NaturalStone "natural-stone"
        "Slabs and flags of natural stone, sawn or split",
    Sett "sett"
        "Small blocks of natural stone, about as thick as wide",
    Porcelain "porcelain"
        "Vitrified paving tiles of 20 mm or so",
    DenseAggregate "dense-aggregate"
        "Crushed aggregate graded down to fines, which compacts to a dense base",
    OpenAggregate "open-aggregate"
        "Clean crushed stone without fines, which drains",
    RoundedGravel "rounded-gravel"
        "Rounded river or pit gravel, which does not lock together",
    StoneDust "stone-dust"
        "Stone dust and screenings, rich in fines",
    BeddingSand "bedding-sand"
        "Coarse washed sand for beds, mortar and concrete",
    MasonSand "mason-sand"
        "Fine sand for mortar; too fine for a bed of pavers",
    JointSand "joint-sand"
        "Fine dry sand, brushed into joints",
    PolymericSand "polymeric-sand"
        "Joint sand with a binder that sets when wetted",
    Cement "cement"
        "Portland cement, plain or white",
    MasonryCement "masonry-cement"
        "Cement blended for mortar, used without lime",
    Lime "lime"
        "Hydrated lime, which makes cement mortar workable",
    HydraulicLime "hydraulic-lime"
        "Lime that sets with water, a binder by itself",
    BaggedMortar "bagged-mortar"
        "Mortar blended dry in the bag; only water is added",
    BaggedConcrete "bagged-concrete"
        "Concrete blended dry in the bag; only water is added",
    BondCoat "bond-coat"
        "Adhesive mortar in a thin coat on stone or slab",
    MediumBed "medium-bed-mortar"
        "Bond coat for heavy stone and large tile, laid thicker than thin-set",
    JointingCompound "jointing-compound"
        "Resin-bound filling for joints, brushed or washed in",
    Concrete "concrete"
        "Concrete as placed, mixed off the site or in place already",
    Asphalt "asphalt"
        "Bound bituminous material",
    Fabric "fabric"
        "Geotextile that separates base and ground",
    WeedFabric "weed-fabric"
        "Light fabric against weeds, too weak to separate base and ground",
    Mesh "mesh"
        "Reinforcing mesh in a slab or bed",
    Membrane "membrane"
        "Sheet that stops water or breaks the bond of two layers",
    CrackMembrane "crack-membrane"
        "Sheet bonded between paving and slab, which keeps cracks from running through",
    Edging "edging"
        "Restraint along a free edge",
    JointFiller "joint-filler"
        "Compressible strip for a movement or isolation joint",
    Pipe "pipe"
        "Pipe that carries water underground",
    DrainChannel "drain-channel"
        "Channel with a grating, level with the paving",
    Gully "gully"
        "Pot with a grating that takes surface water",
    Crate "crate"
        "Hollow crates that hold water in a soakaway",
    Soil "soil"
        "Topsoil and loam, with roots and humus",
    Fill "fill"
        "Mixed ground or rubble of no known grading",
}

impl Kind {
    /// The kind a spec means by a word, if it is one.
    pub fn from_word(word: &str) -> Option<Kind> {
        Kind::ALL.iter().copied().find(|kind| kind.word() == word)
    }

    /// Laid piece by piece: pavers, flags, setts, stone.
    pub const fn is_unit(self) -> bool {
        matches!(
            self,
            Kind::ConcretePaver
                | Kind::ConcreteFlag
                | Kind::ClayPaver
                | Kind::NaturalStone
                | Kind::Sett
                | Kind::Porcelain
        )
    }

    /// Small blocks of concrete or clay, laid with narrow joints.
    pub const fn is_paver(self) -> bool {
        matches!(self, Kind::ConcretePaver | Kind::ClayPaver)
    }

    /// Pavers and brick of fired clay.
    pub const fn is_brick(self) -> bool {
        matches!(self, Kind::ClayPaver)
    }

    /// Large thin units: stone flags, concrete slabs, porcelain.
    pub const fn is_flag(self) -> bool {
        matches!(
            self,
            Kind::ConcreteFlag | Kind::NaturalStone | Kind::Porcelain
        )
    }

    /// Cut or split from rock.
    pub const fn is_natural_stone(self) -> bool {
        matches!(self, Kind::NaturalStone | Kind::Sett)
    }

    /// Plain sand of any grading, without a binder.
    pub const fn is_sand(self) -> bool {
        matches!(self, Kind::BeddingSand | Kind::MasonSand | Kind::JointSand)
    }

    /// Joint sand that sets: neither plain sand nor mortar.
    pub const fn is_stabilised_sand(self) -> bool {
        matches!(self, Kind::PolymericSand)
    }

    /// Too rich in fines for the bed of sand-set pavers.
    pub const fn is_too_fine_for_bed(self) -> bool {
        matches!(self, Kind::StoneDust | Kind::MasonSand)
    }

    /// Portland cement by itself.
    pub const fn is_cement(self) -> bool {
        matches!(self, Kind::Cement)
    }

    /// Lime that is added to cement mortar.
    pub const fn is_lime(self) -> bool {
        matches!(self, Kind::Lime)
    }

    /// Powders that bind a mix.
    pub const fn is_binder(self) -> bool {
        matches!(
            self,
            Kind::Cement | Kind::MasonryCement | Kind::Lime | Kind::HydraulicLime
        )
    }

    /// Blended dry in the bag, sand and all.
    pub const fn is_premix(self) -> bool {
        matches!(
            self,
            Kind::BaggedMortar | Kind::BaggedConcrete | Kind::BondCoat | Kind::MediumBed
        )
    }

    /// Mortar out of a bag, for a bed or a joint.
    pub const fn is_mortar(self) -> bool {
        matches!(self, Kind::BaggedMortar)
    }

    /// A thin coat that bonds stone to what is below it.
    pub const fn is_bond_coat(self) -> bool {
        matches!(self, Kind::BondCoat | Kind::MediumBed)
    }

    /// Concrete, whether mixed off the site or out of bags.
    pub const fn is_concrete(self) -> bool {
        matches!(self, Kind::Concrete | Kind::BaggedConcrete)
    }

    /// Wet, it burns skin: cement, lime and all that holds them.
    pub const fn is_caustic(self) -> bool {
        self.is_binder() || self.is_premix() || matches!(self, Kind::Concrete)
    }

    /// Graded down to fines, so that it makes a dense base.
    pub const fn is_dense_aggregate(self) -> bool {
        matches!(self, Kind::DenseAggregate)
    }

    /// Clean stone without fines, which drains and hardly compacts.
    pub const fn is_open_graded(self) -> bool {
        matches!(self, Kind::OpenAggregate)
    }

    /// Clean stone that lies loose and rolls: gravel and chippings.
    pub const fn is_loose_stone(self) -> bool {
        matches!(self, Kind::OpenAggregate | Kind::RoundedGravel)
    }

    /// Stone in grains: crushed, rounded or dust.
    pub const fn is_aggregate(self) -> bool {
        matches!(
            self,
            Kind::DenseAggregate | Kind::OpenAggregate | Kind::RoundedGravel | Kind::StoneDust
        )
    }

    /// Lies in grains, so that a loose and a compacted volume differ.
    pub const fn is_granular(self) -> bool {
        self.is_aggregate()
            || self.is_sand()
            || self.is_stabilised_sand()
            || matches!(self, Kind::Soil | Kind::Fill)
    }

    /// Does not lock under a plate compactor: no material for a dense base.
    pub const fn is_unfit_for_base(self) -> bool {
        self.is_sand()
            || self.is_stabilised_sand()
            || matches!(self, Kind::RoundedGravel | Kind::Soil | Kind::Fill)
    }

    /// Holds roots and humus, so that it settles.
    pub const fn is_organic(self) -> bool {
        matches!(self, Kind::Soil)
    }

    /// A sheet without a thickness to speak of: fabric, mesh, membrane.
    pub const fn is_sheet(self) -> bool {
        self.is_fabric() || self.is_membrane() || matches!(self, Kind::Mesh)
    }

    /// Fabric of any weight.
    pub const fn is_fabric(self) -> bool {
        matches!(self, Kind::Fabric | Kind::WeedFabric)
    }

    /// Sheet that stops water, cracks or bond.
    pub const fn is_membrane(self) -> bool {
        matches!(self, Kind::Membrane | Kind::CrackMembrane)
    }

    /// Full of fines or of unknown make: no aggregate for concrete.
    pub const fn is_unfit_for_concrete(self) -> bool {
        matches!(
            self,
            Kind::DenseAggregate | Kind::StoneDust | Kind::Soil | Kind::Fill
        )
    }

    /// Restraint along a free edge.
    pub const fn is_edging(self) -> bool {
        matches!(self, Kind::Edging)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_word_leads_back_to_its_kind() {
        for &kind in Kind::ALL {
            assert_eq!(Kind::from_word(kind.word()), Some(kind));
        }
        for word in ["", "Cement", "paver", "stone"] {
            assert_eq!(Kind::from_word(word), None, "{word}");
        }
    }

    #[test]
    fn help_is_one_line_without_a_full_stop() {
        for kind in Kind::ALL {
            let help = kind.help();
            assert!(help.starts_with(char::is_uppercase), "{help}");
            assert!(!help.contains('\n') && !help.ends_with('.'), "{help}");
        }
    }

    /// The kinds for which a question is answered with yes.
    fn yes(question: fn(Kind) -> bool) -> Vec<&'static str> {
        Kind::ALL
            .iter()
            .copied()
            .filter(|&kind| question(kind))
            .map(Kind::word)
            .collect()
    }

    #[test]
    fn each_question_picks_its_kinds() {
        for (question, kinds) in [
            (
                Kind::is_unit as fn(Kind) -> bool,
                "concrete-paver concrete-flag clay-paver natural-stone sett porcelain",
            ),
            (Kind::is_paver, "concrete-paver clay-paver"),
            (Kind::is_flag, "concrete-flag natural-stone porcelain"),
            (Kind::is_natural_stone, "natural-stone sett"),
            (Kind::is_sand, "bedding-sand mason-sand joint-sand"),
            (Kind::is_too_fine_for_bed, "stone-dust mason-sand"),
            (Kind::is_binder, "cement masonry-cement lime hydraulic-lime"),
            (
                Kind::is_premix,
                "bagged-mortar bagged-concrete bond-coat medium-bed-mortar",
            ),
            (
                Kind::is_unfit_for_concrete,
                "dense-aggregate stone-dust soil fill",
            ),
            (
                Kind::is_unfit_for_base,
                "rounded-gravel bedding-sand mason-sand joint-sand polymeric-sand soil fill",
            ),
            (Kind::is_concrete, "bagged-concrete concrete"),
            (
                Kind::is_sheet,
                "fabric weed-fabric mesh membrane crack-membrane",
            ),
        ] {
            assert_eq!(yes(question).join(" "), kinds);
        }
    }
}
