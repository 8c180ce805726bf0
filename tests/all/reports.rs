//! The report, for whoever it is handed to: each is told what they need and
//! nothing that is none of theirs, in both formats.

use std::path::Path;

use crate::folder::repository;
use crate::tools::{command, tool};

fn report(spec: &Path, arguments: &[&str]) -> Vec<u8> {
    let output = command(env!("CARGO_BIN_EXE_drylay"), &repository())
        .arg("report")
        .args(arguments)
        .arg(spec)
        .output()
        .expect("the program runs");
    let said = String::from_utf8_lossy(&output.stderr);
    assert!(output.status.success(), "{said}");
    output.stdout
}

fn html(spec: &str, arguments: &[&str]) -> String {
    let path = repository().join("specs").join(spec);
    String::from_utf8(report(&path, arguments)).expect("text")
}

/// The words of a page, without its marks and its drawings.
fn words(page: &str) -> String {
    let body = page.split_once("<main>").expect("a body").1;
    let mut words = String::new();
    for part in body.split("<svg").map(|part| part.rsplit("</svg>").next()) {
        let mut is_in_mark = false;
        for letter in part.unwrap_or_default().chars() {
            match letter {
                '<' => is_in_mark = true,
                '>' => {
                    is_in_mark = false;
                    words.push(' ');
                }
                letter if !is_in_mark => words.push(letter),
                _ => {}
            }
        }
    }
    words
}

const SIGNS: [&str; 3] = ["$", "£", "€"];

#[test]
fn each_reader_is_told_what_is_theirs() {
    for spec in [
        "tannery-court.patio",
        "ferry-cottage.patio",
        "weir-lane.patio",
    ] {
        let office = words(&html(spec, &[]));
        for heading in [
            "What is to be built",
            "Shopping list",
            "On site",
            "Take care",
        ] {
            assert!(office.contains(heading), "{spec}: {heading}");
        }
        let crew = words(&html(spec, &["--for", "crew"]));
        assert!(crew.contains("below the string"), "{spec}");
        assert!(
            !SIGNS.iter().any(|sign| crew.contains(sign)),
            "{spec}: money"
        );
        let supplier = words(&html(spec, &["--for", "supplier"]));
        assert!(supplier.contains("To order"), "{spec}");
        for none in ["What is to be built", "On site", "What it costs", "Total"] {
            assert!(!supplier.contains(none), "{spec}: {none}");
        }
        assert!(
            !SIGNS.iter().any(|sign| supplier.contains(sign)),
            "{spec}: money"
        );
        let client = words(&html(spec, &["--for", "client"]));
        assert!(client.contains("Price"), "{spec}");
        for none in [
            "Shopping list",
            "below the string",
            "What it costs",
            "labour",
        ] {
            assert!(!client.contains(none), "{spec}: {none}");
        }
    }
}

/// A job with a schedule, a mix in batches, and suppliers.
const SUPPLIED: &str = "job \"Yard\"\n  units metric\n  region uk\n\
    shape a\n  rectangle 5 m by 4 m\nsurface a\n  shape a\n  build b\n\
    build b\n  paving york-stone, 50 mm\n  bed bed-mix, 40 mm\n  base crushed-stone, 150 mm\n\
    mix bed-mix\n  for bed\n  parts 1 portland-cement : 4 sharp-sand\n  batch 40 L\n\
    material york-stone\n  like york-stone\n  from \"the quarry\"\n  sold by m2\n\
    material sharp-sand\n  like sharp-sand\n  from \"the yard\"\n  sold by t\n";

#[test]
fn each_supplier_has_a_list_and_a_batch_its_buckets() {
    let folder = tempfile::tempdir().expect("a folder");
    let spec = folder.path().join("yard.patio");
    std::fs::write(&spec, SUPPLIED).expect("a spec");
    let described = |more: &[&str]| words(&String::from_utf8(report(&spec, more)).expect("text"));
    let crew = described(&["--for", "crew"]);
    for said in [
        "From the quarry",
        "From the yard",
        "No supplier named",
        "1 fill",
        "4 fills",
    ] {
        assert!(crew.contains(said), "{said}: {crew}");
    }
    assert!(crew.contains("One bucket of 14 L for all"), "{crew}");
    let supplier = described(&["--for", "supplier"]);
    assert!(supplier.contains("To order: From the quarry"), "{supplier}");
    // Without a batch there are parts and no fills.
    let parts = SUPPLIED.replace("  batch 40 L\n", "");
    std::fs::write(&spec, parts).expect("a spec");
    let crew = described(&["--for", "crew"]);
    assert!(!crew.contains("One bucket"), "{crew}");
    assert!(crew.contains("1 portland cement to 4 sharp sand"), "{crew}");
}

#[test]
fn steps_drains_and_days_are_told() {
    let of_steps = words(&html("quarry-steps.patio", &["--for", "client"]));
    for said in [
        "3 risers of",
        "A handrail on the left",
        "Foot channel: trench drain",
    ] {
        assert!(of_steps.contains(said), "{said}: {of_steps}");
    }
    let crew = words(&html("heron-row.patio", &["--for", "crew"]));
    for said in ["Schedule", "Day by day", "Hire"] {
        assert!(crew.contains(said), "{said}");
    }
    let client = words(&html("heron-row.patio", &["--for", "client"]));
    assert!(client.contains("On site") && !client.contains("Day by day"));
}

/// What a client is told was assumed is of what they get, and not of how it is
/// made: no rates, no mixes, no swell of soil.
#[test]
fn a_client_is_told_no_working() {
    for spec in [
        "saltbush-rise.patio",
        "heron-row.patio",
        "thistle-bank.patio",
    ] {
        let office = words(&html(spec, &[]));
        let client = words(&html(spec, &["--for", "client"]));
        for working in [
            "h per ",
            "water by consistency",
            "swell of",
            "practice, no source",
        ] {
            assert!(!client.contains(working), "{spec}: {working}: {client}");
        }
        assert!(office.contains("h per "), "{spec}");
    }
}

/// A client reads what each part of the work comes to, up to the price in all,
/// and signs under it; where there is no price nobody is asked to sign.
#[test]
fn a_client_has_the_price_by_part_and_a_place_to_sign() {
    let client = words(&html("foundry-court.patio", &["--for", "client"]));
    let (_, price) = client.split_once("The price").expect("a price");
    let (price, agreed) = price.split_once("Agreed").expect("a place to sign");
    let amounts = price.split_whitespace().filter_map(|word| {
        let digits = word.strip_prefix('£')?.replace([',', '.'], "");
        digits.parse::<u64>().ok()
    });
    let amounts: Vec<u64> = amounts.collect();
    let (total, parts) = amounts.split_last().expect("a total");
    assert!(parts.len() > 3, "{price}");
    assert_eq!(parts.iter().sum::<u64>(), *total, "{price}");
    for place in ["Signature", "Date", "Client", "site office"] {
        assert!(agreed.contains(place), "{place}: {agreed}");
    }
    for spec in ["weir-lane.patio", "thistle-bank.patio"] {
        let client = words(&html(spec, &["--for", "client"]));
        assert!(client.contains("not ready to sign"), "{spec}");
        assert!(!client.contains("Signature"), "{spec}");
    }
    let crew = words(&html("foundry-court.patio", &["--for", "crew"]));
    assert!(!crew.contains("Signature"), "{crew}");
}

/// What is assumed of several things by one name says of which each is.
#[test]
fn what_is_assumed_says_of_what() {
    let mut several = 0;
    for spec in [
        "saltbush-rise.patio",
        "larch-drive.patio",
        "fern-walk.patio",
    ] {
        let page = html(spec, &[]);
        let (_, assumed) = page.split_once(">Assumed</h2>").expect("what is assumed");
        let (assumed, _) = assumed.split_once("</ul>").expect("a list");
        let items = assumed.split("<li>").skip(1);
        let names: Vec<&str> = items
            .filter_map(|item| Some(item.split_once(": ")?.0))
            .collect();
        for (place, name) in names.iter().enumerate() {
            assert!(!names[..place].contains(name), "{spec}: {name} twice");
            several += usize::from(name.contains(", for "));
        }
    }
    assert!(several > 1, "{several} names are told apart");
}

/// Both levels of a long fall are in one unit.
#[test]
fn the_levels_of_a_site_card_are_in_one_unit() {
    let folder = tempfile::tempdir().expect("a folder");
    let spec = folder.path().join("drive.patio");
    let text = "job \"Drive\"\n  units metric\n  region uk\n\nshape a\n  \
        rectangle 4 m by 38 m\n\nsurface a\n  shape a\n  level -600 mm at north\n  \
        fall 1:50 toward south\n  build b\n\nbuild b\n  paving york-stone, 50 mm\n";
    std::fs::write(&spec, text).expect("a spec");
    let page = words(&html(&spec.to_string_lossy(), &["--for", "crew"]));
    let levels = "−600 mm at the high edge, −1,360 mm at the low edge";
    assert!(page.contains(levels), "{page}");
}

/// What is ordered is wanted on the day on which the work begins that takes it.
#[test]
fn what_is_ordered_has_the_day_by_which_it_is_wanted() {
    let crew = words(&html("saltbush-rise.patio", &["--for", "crew"]));
    assert!(crew.contains("There by"), "{crew}");
    let supplier = words(&html("saltbush-rise.patio", &["--for", "supplier"]));
    // The lower terrace has its hardcore compacted on the first day, its mesh
    // lined on the second.
    for (material, day) in [("Hardcore", "Mon 23 Aug"), ("Welded mesh", "Tue 24 Aug")] {
        let row = supplier.split_once(material).expect(material).1;
        let near: String = row.chars().take(60).collect();
        assert!(near.contains(day), "{material}: {near}");
    }
    // Without a schedule there is no such column.
    let plain = words(&html("tannery-court.patio", &["--for", "crew"]));
    assert!(!plain.contains("There by"));
}

/// The plan is on the cover, where a file is handed on without its folder.
#[test]
fn a_cover_has_the_plan_and_no_path() {
    let page = html("weir-lane.patio", &["--for", "client"]);
    let cover = page
        .split_once("What is to be built")
        .expect("a second page")
        .0;
    assert!(cover.contains("<svg") && cover.contains("class=\"facts\""));
    assert!(cover.contains("Patio of bluestone") && cover.contains("181.6 sq ft"));
    assert!(page.contains("from weir-lane.patio") && !page.contains("/weir-lane.patio"));
    let supplier = html("weir-lane.patio", &["--for", "supplier"]);
    assert!(!supplier.contains("<svg"));
}

#[test]
fn a_report_is_one_file_that_asks_for_nothing() {
    for reader in [&[][..], &["--for", "client"], &["--for", "crew"]] {
        let page = html("tannery-court.patio", reader);
        for none in ["<script", "http://", "https://", "<link", "<img", "onload"] {
            let page = page.replace("http://www.w3.org/2000/svg", "");
            assert!(!page.contains(none), "{none}");
        }
        assert!(page.contains("default-src 'none'"));
    }
    let folder = tempfile::tempdir().expect("a folder");
    let spec = folder.path().join("hostile.patio");
    let hostile = "<script>alert(1)</script>";
    std::fs::write(
        &spec,
        format!("job \"{hostile}\"\n  reference \"{hostile}\"\n  note \"{hostile}\"\nsurface a\n"),
    )
    .expect("a spec");
    let page = String::from_utf8(report(&spec, &[])).expect("text");
    assert!(!page.contains("<script"), "{page}");
    assert!(
        page.contains("Do not build or order from this"),
        "its errors come first"
    );
}

/// What a crew works by hangs on the site: a plan of levels and falls, the rod
/// and the board; and a long stretch of one work is one row of the days.
#[test]
fn a_crew_is_told_where_to_mark_and_for_how_long() {
    let crew = html("saltbush-rise.patio", &["--for", "crew"]);
    for said in [
        "Rod, below the string",
        "Under a level board of 2.400 m",
        "60 mm down to the south",
        "one rod serves every peg",
        "The string stands 150 mm above the finished surface",
    ] {
        assert!(crew.contains(said), "{said}");
    }
    // In a court the board lies in from the edges.
    let crew = html("foundry-court.patio", &["--for", "crew"]);
    for said in ["in from north", "at every edge", "at the drain; fall"] {
        assert!(crew.contains(said), "{said}");
    }
    let client = html("saltbush-rise.patio", &["--for", "client"]);
    assert!(!client.contains("Rod, below the string"));
    let folder = tempfile::tempdir().expect("a folder");
    let spec = folder.path().join("long.patio");
    let text = "job \"Long\"\n  units metric\nwork\n  start 2027-04-12\n  task \"dig\", 40 h\n";
    std::fs::write(&spec, text).expect("the spec is written");
    let crew = String::from_utf8(report(&spec, &["--for", "crew"])).expect("text");
    assert!(crew.contains("Mon 12 Apr to Fri 16 Apr"), "{crew}");
}

#[test]
fn the_pages_of_a_report_are_numbered() {
    let Some(reader) = tool("pdftotext") else {
        return;
    };
    let folder = tempfile::tempdir().expect("a folder");
    for spec in ["tannery-court.patio", "weir-lane.patio"] {
        let path = repository().join("specs").join(spec);
        let file = folder.path().join("report.pdf");
        std::fs::write(&file, report(&path, &["--format", "pdf"])).expect("a file");
        let read = command(&reader, folder.path())
            .args(["report.pdf", "-"])
            .output()
            .expect("it runs");
        let text = String::from_utf8_lossy(&read.stdout);
        let pages: Vec<&str> = text
            .split('\u{c}')
            .filter(|page| !page.is_empty())
            .collect();
        let count = pages.len();
        assert!(count >= 4, "{spec}: {count} pages");
        for (number, page) in pages.iter().enumerate() {
            let own = format!("page {} of {count}", number + 1);
            assert!(page.contains(&own), "{spec}: page {}", number + 1);
        }
        assert!(text.contains("What is to be built") && text.contains("Shopping list"));
    }
}

#[test]
fn what_is_handed_out_says_on_every_page_that_it_is_not_to_be_used() {
    let folder = tempfile::tempdir().expect("a folder");
    let spec = folder.path().join("yard.patio");
    for (text, is_wrong) in [
        (SUPPLIED.to_owned(), false),
        (
            SUPPLIED.replace("surface a\n", "surface a\n  fall 1:2 toward nowhere\n"),
            true,
        ),
    ] {
        std::fs::write(&spec, text).expect("a spec");
        for (reader, least) in [("supplier", 3), ("crew", 3), ("client", 1)] {
            let page = report(&spec, &["--for", reader]);
            let page = String::from_utf8(page).expect("text");
            let bars = page.matches("Do not build or order from this").count();
            assert_eq!(bars >= least, is_wrong, "{bars} for the {reader}");
        }
    }
}

#[test]
fn each_supplier_is_told_whose_order_it_is_and_no_remark_of_ours() {
    let folder = tempfile::tempdir().expect("a folder");
    let spec = folder.path().join("yard.patio");
    let text = SUPPLIED
        .replace("  region uk\n", "  region uk\n  reference \"Y-7\"\n")
        .replace(
            "  like york-stone\n",
            "  like york-stone\n  called \"blue riven flags\"\n",
        );
    std::fs::write(&spec, text).expect("a spec");
    let list = |reader| {
        let page = report(&spec, &["--for", reader]);
        words(&String::from_utf8(page).expect("text"))
    };
    let supplier = list("supplier");
    for told in ["To order: ", "Reference Y-7", "For the supplier"] {
        assert_eq!(supplier.matches(told).count(), 3, "{told}: {supplier}");
    }
    for told in [supplier, list("crew")] {
        let flags = "York stone, 50 mm thick: “blue riven flags”";
        assert!(told.contains(flags), "{told}");
        // What the catalogue says of a sand is for whoever writes the spec.
        assert!(
            told.contains("Sharp sand") && !told.contains("Sharp sand: "),
            "{told}"
        );
    }
}

#[test]
fn who_sets_out_is_told_where_the_marks_are() {
    for (spec, are_there) in [("tannery-court.patio", true), ("fern-walk.patio", false)] {
        let crew = words(&html(spec, &["--for", "crew"]));
        assert_eq!(
            crew.contains("The marks, east and north: A ("),
            are_there,
            "{spec}"
        );
        assert_eq!(crew.contains("as you stand at A"), are_there, "{spec}");
        assert_eq!(crew.contains("from A"), are_there, "{spec}");
        assert_eq!(
            crew.contains("no marks are stated: tapes"),
            !are_there,
            "{spec}"
        );
    }
}

#[test]
fn sections_and_plans_of_a_report_can_be_made_out() {
    let scales = |page: &str| -> Vec<f64> {
        let texts = page.split("<text").filter_map(|text| text.split_once('>'));
        let texts = texts.filter_map(|(_, text)| text.split_once('<'));
        let scales = texts.filter_map(|(text, _)| text.strip_prefix("1:"));
        scales.filter_map(|scale| scale.parse().ok()).collect()
    };
    for spec in ["saltbush-rise.patio", "foundry-court.patio"] {
        let page = html(spec, &["--for", "crew"]);
        let part = |from: &str, to: &str| {
            let after = page.split_once(&format!("<h2>{from}</h2>")).expect(from).1;
            after
                .split_once(&format!("<h2>{to}</h2>"))
                .expect(to)
                .0
                .to_owned()
        };
        let site = part("On site", "Setting out");
        assert!(scales(&site).iter().all(|scale| *scale <= 100.0), "{spec}");
        let sections = part("Sections", "Shopping list");
        let first = scales(&sections).into_iter().next();
        assert!(
            first.is_some_and(|scale| scale <= 20.0),
            "{spec}: {first:?}"
        );
    }
}
