//! A name is found and changed in every spec that sees it.

use std::collections::BTreeMap;
use std::fs;

use serde_json::{Value, json};

use super::client::Client;
use super::folder::Folder;
use super::place;

const LIBRARY: &str = "let gap = 1 in\n\nmaterial blue-stone\n  like  bluestone\n";
const FIRST: &str = "use \"house/library.patio\"\n\njob \"First\"\n\nlet double = 2 * gap\n";
const SECOND: &str = "use \"house/library.patio\"\n\njob \"Second\"\n\n\
    build paved\n  paving  blue-stone, 2 * gap\n";
const BETWEEN: &str = "use \"library.patio\"\n\nlet wide = gap + 1 in\n";
const THIRD: &str = "use \"house/between.patio\"\n\njob \"Third\"\n\nlet wider = wide + gap\n";
/// Names the same, and has nothing to do with it.
const APART: &str = "job \"Apart\"\n\nlet gap = 3 in\nlet other = 2 * gap\n";

const ALL: [(&str, &str); 6] = [
    ("first.patio", FIRST),
    ("house/between.patio", BETWEEN),
    ("house/library.patio", LIBRARY),
    ("second.patio", SECOND),
    ("third.patio", THIRD),
    ("apart.patio", APART),
];

fn client(folder: &Folder, takes_versions: bool) -> Client {
    folder.client(json!({"workspace": {"workspaceEdit": {"documentChanges": takes_versions}}}))
}

fn rename(client: &mut Client, at: Value, name: &str) -> Value {
    let mut params = at;
    params["newName"] = json!(name);
    client.ask("textDocument/rename", params)
}

/// Makes edits of one line each, and gives the text.
fn applied(text: &str, edits: &Value) -> String {
    let mut edits: Vec<&Value> = edits.as_array().expect("edits").iter().collect();
    let number = |at: &Value, part: &str| at[part].as_u64().expect("a number") as usize;
    let from = |edit: &Value| {
        let start = &edit["range"]["start"];
        (number(start, "line"), number(start, "character"))
    };
    edits.sort_by_key(|edit| std::cmp::Reverse(from(edit)));
    let mut lines: Vec<String> = text.split_inclusive('\n').map(str::to_owned).collect();
    for edit in edits {
        let (line, column) = from(edit);
        let end = number(&edit["range"]["end"], "character");
        lines[line].replace_range(column..end, edit["newText"].as_str().expect("a text"));
    }
    lines.concat()
}

#[test]
fn a_new_name_is_written_in_every_spec_that_sees_it() {
    for (open, line, column) in [("house/library.patio", 0, 5), ("first.patio", 4, 18)] {
        let folder = Folder::with(&ALL);
        let mut client = client(&folder, false);
        let uri = folder.uri(open);
        client.open(&uri, &fs::read_to_string(folder.path(open)).unwrap());
        let answer = rename(&mut client, place(&uri, line, column), "slot");
        let changes = answer["result"]["changes"].as_object();
        let changes = changes.unwrap_or_else(|| panic!("{answer}"));
        let mut counts: BTreeMap<&str, usize> = BTreeMap::new();
        for (name, text) in ALL {
            let Some(edits) = changes.get(&folder.uri(name)) else {
                continue;
            };
            counts.insert(name, edits.as_array().unwrap().len());
            let renamed = applied(text, edits);
            assert!(
                !renamed.contains("gap") && renamed.contains("slot"),
                "{renamed}"
            );
            folder.write(name, &renamed);
        }
        let expected = ALL.iter().take(5).map(|(name, _)| (*name, 1)).collect();
        assert_eq!(counts, expected, "{open}");
        // Nothing but the name changes.
        let said = |folder: &Folder| {
            let output = std::process::Command::new(env!("CARGO_BIN_EXE_drylay"))
                .args(["check", "--statistics"])
                .arg(folder.path(""))
                .output()
                .expect("the program runs");
            String::from_utf8(output.stdout).expect("text")
        };
        assert_eq!(said(&folder), said(&Folder::with(&ALL)));
    }
}

#[test]
fn a_new_name_is_written_everywhere_though_reading_was_cut_short() {
    const SPECS: usize = 300;
    let folder = Folder::with(&[("house/library.patio", LIBRARY)]);
    for number in 0..SPECS {
        folder.write(&format!("{number}.patio"), SECOND);
    }
    let mut client = folder.client(json!({"window": {"workDoneProgress": true}}));
    let asked = client.hear(|message| message["method"] == "window/workDoneProgress/create");
    let token = json!({"token": asked["params"]["token"]});
    client.tell("window/workDoneProgress/cancel", token);
    let uri = folder.uri("house/library.patio");
    client.open(&uri, LIBRARY);
    let answer = rename(&mut client, place(&uri, 0, 5), "slot");
    let changes = answer["result"]["changes"].as_object().expect("changes");
    assert_eq!(changes.len(), SPECS + 1);
}

#[test]
fn a_question_that_is_called_off_is_answered_so() {
    const SPECS: usize = 300;
    let folder = Folder::with(&[("house/library.patio", LIBRARY)]);
    for number in 0..SPECS {
        folder.write(&format!("{number}.patio"), SECOND);
    }
    let mut client = client(&folder, false);
    let uri = folder.uri("house/library.patio");
    client.open(&uri, LIBRARY);
    let mut at = place(&uri, 0, 5);
    at["newName"] = json!("slot");
    at["context"] = json!({"includeDeclaration": true});
    for (method, count) in [
        ("textDocument/rename", SPECS + 1),
        ("textDocument/references", SPECS + 1),
    ] {
        let asked = client.begin(method, at.clone());
        client.tell("$/cancelRequest", json!({"id": asked}));
        assert_eq!(client.answer(asked)["error"]["code"], -32800, "{method}");
        // What is asked for and not called off is answered.
        let answer = client.ask(method, at.clone())["result"].clone();
        let found = match answer["changes"].as_object() {
            Some(changes) => changes.len(),
            None => answer.as_array().expect("a list").len(),
        };
        assert_eq!(found, count, "{method}");
    }
}

#[test]
fn a_name_that_is_taken_in_one_of_them_is_refused() {
    let folder = Folder::with(&ALL);
    // One that does not name it, but would from then on.
    let fourth = "use \"house/library.patio\"\n\njob \"Fourth\"\n\nlet Notch = 1 in\n";
    folder.write("fourth.patio", fourth);
    let mut client = client(&folder, false);
    let uri = folder.uri("first.patio");
    client.open(&uri, FIRST);
    for (name, words) in [
        ("wider", "in third.patio: `wider` is taken"),
        ("notch", "in fourth.patio: `notch` is taken"),
        ("double", "`double` is taken"),
        ("north", "a direction"),
    ] {
        let refused = rename(&mut client, place(&uri, 4, 18), name);
        let message = refused["error"]["message"].as_str();
        assert!(
            message.is_some_and(|message| message.contains(words)),
            "{refused}"
        );
    }
    // Taken in a spec that does not see it, it is free.
    assert!(rename(&mut client, place(&uri, 4, 18), "other")["result"].is_object());
}

#[test]
fn changes_name_the_version_that_they_are_for() {
    let folder = Folder::with(&ALL);
    let mut client = client(&folder, true);
    let uri = folder.uri("first.patio");
    client.open(&uri, FIRST);
    client.change(&uri, 7, json!([{"text": FIRST}]));
    let answer = rename(&mut client, place(&uri, 4, 18), "slot");
    let files = answer["result"]["documentChanges"]
        .as_array()
        .expect("changes");
    assert_eq!(files.len(), 5);
    for file in files {
        let document = &file["textDocument"];
        let version = if document["uri"] == uri {
            json!(7)
        } else {
            Value::Null
        };
        assert_eq!(document["version"], version, "{file}");
    }
}

#[test]
fn lines_that_lead_to_a_file_follow_it() {
    let folder = Folder::with(&ALL);
    let mut client = client(&folder, false);
    let uri = folder.uri("first.patio");
    client.open(&uri, FIRST);
    let move_to = |client: &mut Client, from: &str, to: &str| {
        let file = json!({"oldUri": folder.uri(from), "newUri": folder.uri(to)});
        let answer = client.ask("workspace/willRenameFiles", json!({"files": [file]}));
        let changes = answer["result"]["changes"]
            .as_object()
            .cloned()
            .unwrap_or_default();
        let texts = changes.into_iter().map(|(uri, edits)| {
            let name = ALL
                .iter()
                .find(|(name, _)| uri == folder.uri(name))
                .expect("a file");
            let changed = applied(name.1, &edits);
            (
                name.0,
                changed.lines().next().unwrap_or_default().to_owned(),
            )
        });
        texts.collect::<BTreeMap<_, _>>()
    };
    let moved = move_to(&mut client, "house/library.patio", "house/deep/lib.patio");
    assert_eq!(
        moved.into_iter().collect::<Vec<_>>(),
        [
            ("first.patio", "use \"house/deep/lib.patio\"".to_owned()),
            ("house/between.patio", "use \"deep/lib.patio\"".to_owned()),
            ("second.patio", "use \"house/deep/lib.patio\"".to_owned()),
        ]
    );
    // What it leads to itself is seen from its new place.
    let moved = move_to(&mut client, "house/between.patio", "between.patio");
    assert_eq!(
        moved.into_iter().collect::<Vec<_>>(),
        [
            (
                "house/between.patio",
                "use \"house/library.patio\"".to_owned()
            ),
            ("third.patio", "use \"between.patio\"".to_owned()),
        ]
    );
    assert!(move_to(&mut client, "apart.patio", "house/apart.patio").is_empty());
}

#[test]
fn uses_are_found_in_every_spec_that_sees_the_name() {
    let folder = Folder::with(&ALL);
    let mut client = client(&folder, false);
    client.ask("workspace/diagnostic", json!({"previousResultIds": []}));
    let library = folder.uri("house/library.patio");
    client.open(&library, LIBRARY);
    let uses = |client: &mut Client, line: u32, with_own: bool| {
        let mut params = place(&library, line, 10);
        if line == 0 {
            params = place(&library, 0, 5);
        }
        params["context"] = json!({"includeDeclaration": with_own});
        let answer = client.ask("textDocument/references", params);
        let places = answer["result"].as_array().expect("places").iter();
        let mut names: Vec<String> = places
            .map(|place| {
                place["uri"]
                    .as_str()
                    .unwrap()
                    .rsplit('/')
                    .next()
                    .unwrap()
                    .to_owned()
            })
            .collect();
        names.sort();
        names
    };
    let names = [
        "between.patio",
        "first.patio",
        "second.patio",
        "third.patio",
    ];
    assert_eq!(uses(&mut client, 0, false), names);
    assert_eq!(uses(&mut client, 0, true).len(), 5);
    assert_eq!(uses(&mut client, 2, false), ["second.patio"]);
}
