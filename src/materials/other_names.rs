//! What else materials are called, on either side of the ocean.

/// A name that people write, and the catalogue's.
const OTHER_NAMES: &[(&str, &str)] = &[
    ("mot", "type-1"),
    ("mot-type-1", "type-1"),
    ("mot-1", "type-1"),
    ("mot-type-3", "type-3"),
    ("dense-grade", "crushed-stone"),
    ("dga", "crushed-stone"),
    ("crushed-rock", "crushed-stone"),
    ("crushed-aggregate", "crushed-stone"),
    ("aggregate-base", "crushed-stone"),
    ("road-base", "crusher-run"),
    ("scalpings", "crusher-run"),
    ("clean-stone", "open-stone"),
    ("drain-rock", "open-stone"),
    ("screenings", "stone-dust"),
    ("dg", "decomposed-granite"),
    ("grit-sand", "sharp-sand"),
    ("washed-sand", "sharp-sand"),
    ("torpedo-sand", "concrete-sand"),
    ("soft-sand", "building-sand"),
    ("masons-sand", "mason-sand"),
    ("poly-sand", "polymeric-sand"),
    ("paver-sand", "joint-sand"),
    ("jointing-sand", "joint-sand"),
    ("pea-shingle", "pea-gravel"),
    ("cement", "portland-cement"),
    ("opc", "portland-cement"),
    ("nhl", "hydraulic-lime"),
    ("thinset", "thin-set"),
    ("ready-mix", "concrete"),
    ("readymix", "concrete"),
    ("tarmac", "asphalt"),
    ("blacktop", "asphalt"),
    ("filter-fabric", "geotextile"),
    ("landscape-fabric", "weed-fabric"),
    ("weed-membrane", "weed-fabric"),
    ("dpm", "polythene-sheet"),
    ("wire-mesh", "welded-mesh"),
    ("steel-mesh", "welded-mesh"),
    ("reinforcing-mesh", "welded-mesh"),
    ("uncoupling-sheet", "crack-membrane"),
    ("uncoupling-membrane", "crack-membrane"),
    ("block-paving", "block-paver"),
    ("paving-slab", "concrete-flag"),
    ("yorkstone", "york-stone"),
    ("metal-edge", "steel-edge"),
    ("pvc-pipe", "plastic-pipe"),
    ("upvc-pipe", "plastic-pipe"),
    ("drain-pipe", "plastic-pipe"),
    ("perf-pipe", "perforated-pipe"),
    ("corrugated-pipe", "coiled-pipe"),
    ("channel-drain", "polymer-channel"),
    ("linear-drain", "polymer-channel"),
    ("soakaway-crate", "crate"),
    ("soakaway-crates", "crate"),
    ("washed-stone", "open-stone"),
];

/// The catalogue's name of a material that is called otherwise; `name` in
/// lower case.
pub fn other_name(name: &str) -> Option<&'static str> {
    let mut all = OTHER_NAMES.iter();
    all.find(|(other, _)| *other == name).map(|(_, own)| *own)
}

#[cfg(test)]
mod tests {
    use super::super::find;
    use super::*;

    #[test]
    fn other_names_lead_to_the_catalogue() {
        for (other, own) in OTHER_NAMES {
            assert!(find(own).is_some(), "{own} is not in the catalogue");
            assert!(find(other).is_none(), "{other} is in the catalogue");
            assert_eq!(other_name(other), Some(*own));
        }
        assert_eq!(other_name("moon-dust"), None);
    }
}
