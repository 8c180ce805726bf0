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
fn said(page: &str) -> String {
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
            said(&report_html(&analysis, &handing))
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
