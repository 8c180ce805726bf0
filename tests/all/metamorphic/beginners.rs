//! Mistakes that beginners make: no fix that is offered for one changes a
//! figure by more than its title says, and what may be read in two ways is
//! offered in both, or in none.

use crate::checked::checked;

/// A line, what it belongs to, and the fixes that are offered for it: each is
/// the line afterwards.
const MISTAKES: &[(&str, &str, &[&str])] = &[
    (
        "build",
        "base type-1, 150 mm, waste 0.08",
        &[
            "base type-1, 150 mm, waste 8 %",
            "base type-1, 150 mm, waste 0.08 %",
        ],
    ),
    ("build", "paving concrete-flag, 600x600", &[]),
    ("build", "paving concrete-flag, 600 x 600 mm", &[]),
    (
        "build",
        "paving concrete slabs, 100 mm",
        &["paving concrete-flag, 100 mm"],
    ),
    (
        "build",
        "slabs concrete-flag, 50 mm",
        &["paving concrete-flag, 50 mm", "slab concrete-flag, 50 mm"],
    ),
    ("build", "base MOT type 1, 150 mm", &["base type-1, 150 mm"]),
    ("build", "bed sharp sand, 40 mm", &["bed sharp-sand, 40 mm"]),
    (
        "build",
        "base 6 in crushed-stone",
        &["base crushed-stone, 6 in"],
    ),
    (
        "build",
        "base type-1, 16ft6in",
        &["base type-1, 16 ft 6 in"],
    ),
    ("build", "base type-1, 12'6", &["base type-1, 12' 6\""]),
    (
        "build",
        "base type-1, 150 mm, 2 lifts",
        &["base type-1, 150 mm, lifts 2"],
    ),
    (
        "build",
        "setting-bed sharp-sand, 40 mm",
        &["bed sharp-sand, 40 mm"],
    ),
    (
        "build",
        "sub-base type-1, 150 mm",
        &["subbase type-1, 150 mm"],
    ),
    ("material", "mass 28 pounds/m2", &["mass 28 lb/m2"]),
    (
        "material",
        "sold by yard",
        &["sold by cu yd", "sold by sq yd", "sold by yd"],
    ),
    (
        "surface",
        "fall 2 degrees toward south",
        &["fall 3.49 % toward south"],
    ),
    (
        "surface",
        "fall 2° toward south",
        &["fall 3.49 % toward south"],
    ),
    (
        "surface",
        "fall 0.02 toward south",
        &["fall 2 % toward south", "fall 0.02 % toward south"],
    ),
    (
        "surface",
        "fall 60 toward south",
        &["fall 1:60 toward south", "fall 60 % toward south"],
    ),
    (
        "surface",
        "fall 60:1 toward south",
        &["fall 1:60 toward south"],
    ),
    (
        "surface",
        "fall 1 in 60 toward south",
        &["fall 1:60 toward south"],
    ),
    (
        "surface",
        "pitch 1:60 toward south",
        &["fall 1:60 toward south"],
    ),
    ("surface", "elevation -150 mm", &["level -150 mm"]),
    ("surface", "grout 5 mm", &["joint 5 mm"]),
    ("surface", "laid stretcher-bond", &["laid running-bond"]),
    ("surface", "laid stretcher bond", &["laid running-bond"]),
    (
        "surface",
        "edging steel-edge, along north, east",
        &["edging steel-edge, along north and east"],
    ),
    ("shape", "square 4 m", &["rectangle 4 m by 4 m"]),
    ("shape", "size 6 m by 4 m", &["rectangle 6 m by 4 m"]),
    (
        "shape",
        "rectangle 6 metres by 4 m",
        &["rectangle 6 m by 4 m"],
    ),
    (
        "site",
        "utilities located 2027-04-02",
        &["services located 2027-04-02"],
    ),
    ("site", "drywell at (3 m, 9 m)", &["soakaway at (3 m, 9 m)"]),
    (
        "mix",
        "parts 4:1",
        &["parts 4 sharp-sand : 1 portland-cement"],
    ),
    (
        "mix",
        "parts 1 portland-cement to 4 sharp-sand",
        &["parts 1 portland-cement : 4 sharp-sand"],
    ),
    (
        "mix",
        "parts 1 portland-cement and 4 sharp sand",
        &["parts 1 portland-cement : 4 sharp-sand"],
    ),
    (
        "mix",
        "parts 1 portland-cement + 1 hydrated-lime + 6 sharp-sand",
        &["parts 1 portland-cement : 1 hydrated-lime : 6 sharp-sand"],
    ),
    ("mix", "use bed", &["for bed"]),
    (
        "mix",
        "mix 1 portland-cement : 4 sharp-sand",
        &["parts 1 portland-cement : 4 sharp-sand"],
    ),
    ("mix", "consistency wet", &["consistency plastic"]),
    // A minus at the start of a value makes it negative.
    ("surface", "level - 150 mm", &["level -150 mm"]),
    ("site", "ground - 200 mm", &["ground -200 mm"]),
    ("site", "ground level -200 mm", &["ground -200 mm"]),
    // A letter at a number is part of it.
    ("budget", "quote £9.8k", &["quote £9,800"]),
    ("material", "price 92p each", &["price £0.92 each"]),
    ("material", "price 92¢ each", &["price $0.92 each"]),
    ("material", "price £24,50/m2", &["price £24.50/m2"]),
    ("material", "price $4.25 psf", &["price $4.25/sq ft"]),
    ("material", "price $0.92 ea", &["price $0.92 each"]),
    ("material", "price £52/bulk bag", &["price £52/bulk-bag"]),
    (
        "material",
        "sold in packs of 18.9 m2",
        &["sold by pack of 18.9 m2"],
    ),
    ("material", "sold in cu yd", &["sold by cu yd"]),
    (
        "material",
        "sold by bulk bag of 850 kg",
        &["sold by bulk-bag of 850 kg"],
    ),
    (
        "material",
        "delivery $75 per load of 12 yards",
        &[
            "delivery $75 per load of 12 cu yd",
            "delivery $75 per load of 12 sq yd",
            "delivery $75 per load of 12 yd",
        ],
    ),
    ("shape", "east 5m50", &["east 5.50 m"]),
    ("work", "start Monday 3 May 2027", &["start 2027-05-03"]),
    ("surface", "drain to \"lawn\"", &["water to \"lawn\""]),
    ("surface", "use foot", &["for foot"]),
    ("surface", "water to back lawn", &["water to \"back lawn\""]),
    ("surface", "meets the house", &["meets house"]),
    ("surface", "border 200 mm clay-paver", &[]),
    ("drain", "fall 1:200 east", &["fall 1:200 toward east"]),
    (
        "build",
        "fabric geotextile, 300 mm laps",
        &["fabric geotextile, lap 300 mm"],
    ),
    (
        "build",
        "base type-1, 150 mm, overdig 100 mm",
        &["base type-1, 150 mm, beyond 100 mm"],
    ),
    (
        "build",
        "material sandstone, 22 mm",
        &["paving sandstone, 22 mm"],
    ),
    (
        "build",
        "bed mortar mix, 40 mm",
        &["bed bagged-mortar, 40 mm"],
    ),
    (
        "build",
        "paving concrete pavers, 60 mm",
        &["paving concrete-paver, 60 mm"],
    ),
    ("build", "base #57, 250 mm", &["base open-stone, 250 mm"]),
    ("steps", "steps 2", &["risers 2"]),
    (
        "mix",
        "parts 1:4",
        &["parts 1 portland-cement : 4 sharp-sand"],
    ),
];

#[test]
fn fixes_of_beginners_mistakes_say_what_they_change() {
    for (section, line, wanted) in MISTAKES {
        let name = match *section {
            "site" | "budget" | "work" => "",
            _ => " trial",
        };
        let text = format!("{section}{name}\n  {line}\n");
        let checked = checked(&text);
        let mut offered: Vec<String> = Vec::new();
        for finding in checked.findings().iter() {
            for fix in &finding.fixes {
                let mended = checked.with(fix);
                let own = mended.lines().nth(1).unwrap_or_default().trim();
                if own != *line && mended.lines().count() == 2 {
                    offered.push(own.to_owned());
                }
            }
        }
        assert_eq!(offered, *wanted, "{line}");
    }
}

#[test]
fn a_clause_on_a_line_of_its_own_goes_back_to_its_entry() {
    let text = "\
surface trial
  fall 1:60 toward south
  cross 1 % toward east
";
    let checked = checked(text);
    let found = checked.findings().iter();
    let found = found.filter(|finding| finding.rule == "entry-misplaced");
    let mended: Vec<String> = found
        .flat_map(|finding| finding.fixes.iter().map(|fix| checked.with(fix)))
        .collect();
    assert_eq!(
        mended,
        ["surface trial\n  fall 1:60 toward south, cross 1 % toward east\n"]
    );
}
