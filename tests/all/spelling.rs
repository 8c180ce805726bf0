//! Whoever works in the United States reads no British spelling, on any sheet,
//! but what somebody wrote into the spec and what a document is called.

use std::collections::BTreeSet;

use drylay::drawing::{Choice, Mark, plan};
use drylay::model::Region;
use drylay::report::{
    Handing, Reader, SheetLayout, report_html, schedule_text, setout_text, takeoff_markdown,
    takeoff_text,
};

use crate::folder::{Folder, TODAY};

/// Words that are spelt, or named, otherwise in the United States.
const BRITISH: &[&str] = &[
    "labour",
    "kerb",
    "kerbs",
    "centre",
    "centres",
    "colour",
    "colours",
    "aluminium",
    "grey",
    "neighbour",
    "polythene",
    "litres",
    "tonnes",
];

/// Documents of other countries keep their names.
const TITLES: &[&str] = &["planner's labour constants", "labour factors of a"];

fn words(text: &str) -> BTreeSet<String> {
    let mut text = text
        .split_whitespace()
        .collect::<Vec<_>>()
        .join(" ")
        .to_lowercase();
    for title in TITLES {
        text = text.replace(title, "");
    }
    let apart = |one: char| !one.is_alphanumeric();
    text.split(apart).map(str::to_owned).collect()
}

/// What a page says, without how it is laid out.
fn said_in(page: &str) -> String {
    let styled = page.split("<style>").map(|part| {
        let after = part.split_once("</style>");
        after.map_or(part, |(_, after)| after)
    });
    let text: String = styled.collect();
    let tags = text
        .split('<')
        .map(|part| part.split_once('>').map_or(part, |(_, after)| after));
    tags.collect::<Vec<_>>().join(" ")
}

#[test]
fn no_sheet_of_an_american_job_is_spelt_as_in_britain() {
    let specs = Folder::of_specs();
    let mut looked_at = 0;
    let mut found = Vec::new();
    for path in specs.paths() {
        let analysis = specs.analysis(&path);
        if analysis.job.heading.region() != Region::Us || analysis.job.surfaces.is_empty() {
            continue;
        }
        looked_at += 1;
        let written = words(&specs.text(&path));
        let handed = [Reader::Client, Reader::Crew, Reader::Supplier].map(|reader| {
            let handing = Handing {
                reader,
                folder: "/",
                today: TODAY,
            };
            said_in(&report_html(&analysis, &handing))
        });
        let drawing = plan(&analysis, &path, &Choice::default()).expect("it fits");
        let lettered = drawing.items.iter().filter_map(|item| match &item.mark {
            Mark::Text(line) => Some(line.setting.words()),
            _ => None,
        });
        let sheets = [
            (
                "take-off",
                takeoff_text(&analysis, "/", SheetLayout::default().with_working(true)),
            ),
            ("markdown", takeoff_markdown(&analysis, "/")),
            ("schedule", schedule_text(&analysis, "/", true)),
            ("setting out", setout_text(&analysis, "/", true)),
            ("reports", handed.concat()),
            ("plan", lettered.collect::<Vec<_>>().join("\n")),
        ];
        for (sheet, text) in sheets {
            let said = words(&text);
            let wrong = BRITISH.iter().filter(|word| said.contains(**word));
            let wrong = wrong.filter(|word| !written.contains(**word));
            found.extend(wrong.map(|word| format!("{path}, {sheet}: {word}")));
        }
    }
    assert!(looked_at >= 5, "only {looked_at} specs are American");
    assert!(found.is_empty(), "{found:#?}");
}

const YARD: &str = "\
job \"Yard\"
  units        metric
  region       us
  currency     USD

site
  datum        \"stake\"
  ground       -200 mm
  storm        75 mm/h for 1 h
  infiltration 30 mm/h

shape yard
  rectangle    6 m by 4 m

surface yard
  shape        yard
  level        -100 mm at north
  fall         2 % toward south
  build        sand-set
  edging       USED, along free
  water        to well

build sand-set
  paving       concrete-paver, 60 mm, waste 5 %
  bed          concrete-sand, 30 mm
  base         crushed-stone, 150 mm compacted, lifts 2, beyond 150 mm

drain well
  soakaway     1 m by 1 m by 1 m, centre (3 m, -8 m)
  filled       with open-stone

";

#[test]
fn a_material_of_the_catalogue_is_one_in_both_spellings() {
    let names = ["aluminium-edge", "aluminum-edge"];
    let likes = [None, Some(names[0]), Some(names[1])];
    for used in names {
        for (defined, like) in names.iter().flat_map(|name| likes.map(|like| (name, like))) {
            let like = like.map_or(String::new(), |like| format!("  like {like}\n"));
            let priced = format!("material {defined}\n{like}  price $5/m\n");
            let text = YARD.replace("USED", used) + &priced;
            let folder = Folder::with([("/job.patio", text.as_str())]);
            let analysis = folder.analysis("/job.patio");
            let wrong = analysis.findings.iter().find(|found| {
                ["kind-unknown", "name-unknown", "name-unused"].contains(&found.rule)
            });
            assert!(wrong.is_none(), "{priced}{used}: {wrong:?}");
            let sheet = takeoff_text(&analysis, "/", SheetLayout::default());
            assert!(sheet.contains("$100.00"), "{priced}{used}: {sheet}");
        }
        // With no section for it, it is spelled as where the job is.
        let text = YARD.replace("USED", used);
        for (region, spelled) in [("us", names[1]), ("uk", names[0])] {
            let text = text.replace("region       us", &format!("region {region}"));
            let folder = Folder::with([("/job.patio", text.as_str())]);
            let analysis = folder.analysis("/job.patio");
            let sheet = takeoff_text(&analysis, "/", SheetLayout::default());
            let other = names.iter().find(|name| **name != spelled).unwrap();
            assert!(sheet.contains(spelled) && !sheet.contains(other), "{sheet}");
        }
    }
}

#[test]
fn sheets_name_drains_and_measures_as_where_the_job_is() {
    let text = YARD.replace("USED", "steel-edge");
    for (region, said, not_said) in [
        ("us", ["dry well", "in meters and millimeters"], "soakaway"),
        ("uk", ["soakaway", "in metres and millimetres"], "dry well"),
    ] {
        let text = text.replace("region       us", &format!("region {region}"));
        let folder = Folder::with([("/job.patio", text.as_str())]);
        let analysis = folder.analysis("/job.patio");
        let handing = Handing {
            reader: Reader::Client,
            folder: "/",
            today: TODAY,
        };
        let report = said_in(&report_html(&analysis, &handing));
        let sheet = takeoff_text(&analysis, "/", SheetLayout::default());
        let sheet: Vec<&str> = sheet.split_whitespace().collect();
        for text in [sheet.join(" "), report] {
            assert!(said.iter().all(|word| text.contains(word)), "{text}");
            assert!(!text.contains(not_said), "{text}");
        }
    }
}
