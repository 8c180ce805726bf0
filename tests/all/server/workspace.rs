//! Specs that are not open are checked too, and again when they change or
//! what they read does.

use std::collections::BTreeMap;
use std::fs;

use serde_json::{Value, json};

use super::client::Client;
use super::folder::Folder;
use super::{FLAT, document, place};
use crate::folder::repository;

/// A library, a spec that uses it and one that has nothing wrong.
const LIBRARY: &str = "let gap = 1 in\n";
const USER: &str = "use \"library.patio\"\n\njob \"User\"\n\nlet double = 2 * gap\n";
const WRONG: &str = "job \"Wrong\"\n  colour blue\n";
const RIGHT: &str = "job \"Right\"\n";

fn pulls() -> Value {
    json!({
        "textDocument": {"diagnostic": {}},
        "workspace": {"diagnostics": {"refreshSupport": true}},
    })
}

/// All findings, once everything is read: each spec's report by its address.
fn pull(client: &mut Client, has: &[(&str, &Value)]) -> BTreeMap<String, Value> {
    let has = has.iter().map(|(uri, id)| json!({"uri": uri, "value": id}));
    let params = json!({"previousResultIds": has.collect::<Vec<_>>()});
    let answer = client.ask("workspace/diagnostic", params);
    reports(&answer["result"]["items"])
}

fn reports(items: &Value) -> BTreeMap<String, Value> {
    let items = items.as_array().expect("a list").iter();
    items
        .map(|item| {
            (
                item["uri"].as_str().expect("an address").to_owned(),
                item.clone(),
            )
        })
        .collect()
}

fn count(report: &Value) -> usize {
    report["items"].as_array().map_or(99, Vec::len)
}

#[test]
fn specs_that_are_not_open_are_told_of() {
    let folder = Folder::with(&[
        ("wrong.patio", WRONG),
        ("right.patio", RIGHT),
        ("deep/er/wrong.patio", WRONG),
        ("old/wrong.patio", WRONG),
        (".ignore", "old\n"),
        ("notes.txt", WRONG),
    ]);
    let mut client = folder.client(json!({}));
    for name in ["wrong.patio", "deep/er/wrong.patio"] {
        let findings = client.findings(&folder.uri(name), None);
        assert_eq!(findings.len(), 1, "{name}: {findings:?}");
        assert!(findings[0].get("data").is_none());
    }
    pull(&mut client, &[]);
    for name in ["right.patio", "old/wrong.patio", "notes.txt"] {
        let reported = client.has_heard(|message| message["params"]["uri"] == folder.uri(name));
        assert!(!reported, "{name}");
    }
    // While it is open its document tells of it; afterwards its file.
    let uri = folder.uri("wrong.patio");
    client.open(&uri, RIGHT);
    assert_eq!(client.findings(&uri, Some(1)).len(), 0);
    client.tell("textDocument/didClose", document(&uri));
    // Its findings are cleared at once, unless those of the file are there
    // before that is written.
    let first = client.findings(&uri, None).len();
    let reported = match first {
        0 => client.findings(&uri, None).len(),
        first => first,
    };
    assert_eq!(reported, 1, "as on disk");
}

#[test]
fn whatever_reads_a_file_is_read_again_when_it_changes() {
    let folder = Folder::with(&[
        ("library.patio", LIBRARY),
        ("user.patio", USER),
        ("sub/other.patio", &USER.replace("library", "../library")),
        ("standard.patio", "standard \"House\"\n"),
        ("right.patio", RIGHT),
    ]);
    let mut client = folder.client(json!({}));
    pull(&mut client, &[]);
    let (user, other) = (folder.uri("user.patio"), folder.uri("sub/other.patio"));
    let misses = |findings: Vec<Value>| json!(findings).to_string().contains("gap");
    assert!(!misses(client.findings(&other, None)));
    client.open(&user, USER);
    assert!(!misses(client.findings(&user, Some(1))));
    // On disk: the open one and the closed one.
    folder.write("library.patio", "let other = 1 in\n");
    folder.changed(&mut client, &["library.patio"]);
    assert!(misses(client.findings(&user, Some(1))));
    assert!(misses(client.findings(&other, None)));
    // In the editor, before it is saved.
    let library = folder.uri("library.patio");
    client.open(&library, LIBRARY);
    assert!(!misses(client.findings(&other, None)));
    client.change(&library, 2, json!([{"text": "let another = 1 in\n"}]));
    assert!(misses(client.findings(&other, None)));
    client.tell("textDocument/didClose", document(&library));
    folder.write("library.patio", LIBRARY);
    folder.changed(&mut client, &["library.patio"]);
    assert!(!misses(client.findings(&other, None)));
    // A standard.
    folder.write("right.patio", FLAT);
    folder.changed(&mut client, &["right.patio"]);
    let right = folder.uri("right.patio");
    let is_flat = |findings: &[Value]| findings.iter().any(|one| one["code"] == "fall-flat");
    assert!(is_flat(&client.findings(&right, None)));
    folder.write(
        "standard.patio",
        "standard \"House\"\n  off fall-flat, because \"so\"\n",
    );
    folder.changed(&mut client, &["standard.patio"]);
    assert!(!is_flat(&client.findings(&right, None)));
    // What does not read it is not told of again.
    folder.changed(&mut client, &["library.patio"]);
    pull(&mut client, &[]);
    assert!(!client.has_heard(|message| message["params"]["uri"] == right));
}

#[test]
fn files_that_come_go_or_move_are_noticed() {
    let folder = Folder::with(&[("a.patio", WRONG)]);
    let mut client = folder.client(json!({}));
    assert_eq!(client.findings(&folder.uri("a.patio"), None).len(), 1);
    folder.write("b.patio", WRONG);
    folder.changed(&mut client, &["b.patio"]);
    assert_eq!(client.findings(&folder.uri("b.patio"), None).len(), 1);
    fs::remove_file(folder.path("b.patio")).unwrap();
    folder.changed(&mut client, &["b.patio"]);
    assert_eq!(client.findings(&folder.uri("b.patio"), None).len(), 0);
    // A client that watches nothing tells what it does itself.
    fs::rename(folder.path("a.patio"), folder.path("c.patio")).unwrap();
    let renamed = json!({"oldUri": folder.uri("a.patio"), "newUri": folder.uri("c.patio")});
    client.tell("workspace/didRenameFiles", json!({"files": [renamed]}));
    assert_eq!(client.findings(&folder.uri("a.patio"), None).len(), 0);
    assert_eq!(client.findings(&folder.uri("c.patio"), None).len(), 1);
    // A folder that goes takes its specs along.
    folder.write("sub/d.patio", WRONG);
    client.tell(
        "workspace/didCreateFiles",
        json!({"files": [{"uri": folder.uri("sub")}]}),
    );
    assert_eq!(client.findings(&folder.uri("sub/d.patio"), None).len(), 1);
    fs::remove_dir_all(folder.path("sub")).unwrap();
    client.tell(
        "workspace/didDeleteFiles",
        json!({"files": [{"uri": folder.uri("sub")}]}),
    );
    assert_eq!(client.findings(&folder.uri("sub/d.patio"), None).len(), 0);
}

#[test]
fn a_client_that_watches_nothing_sees_changes_all_the_same() {
    let folder = Folder::with(&[
        ("library.patio", LIBRARY),
        ("a.patio", USER),
        ("b.patio", USER),
    ]);
    let mut client = folder.client(json!({}));
    let misses = |findings: Vec<Value>| json!(findings).to_string().contains("gap");
    let [a, b] = ["a.patio", "b.patio"].map(|name| folder.uri(name));
    assert!(!misses(client.findings(&b, None)));
    client.open(&a, USER);
    assert!(!misses(client.findings(&a, Some(1))));
    // Nobody tells of these. What is looked at for the first time is not new,
    // so each is done again until it is noticed.
    let mut others = 0;
    while !client.would_hear(|message| {
        message["params"]["uri"] == b && message["params"].to_string().contains("gap")
    }) {
        others += 1;
        assert!(others < 200, "it is never noticed");
        folder.write(
            "library.patio",
            &"let other = 1 in\n".repeat(1 + others % 2),
        );
    }
    assert!(misses(client.findings(&b, None)));
    assert!(misses(client.findings(&a, Some(1))));
    folder.write("new.patio", WRONG);
    assert_eq!(client.findings(&folder.uri("new.patio"), None).len(), 1);
}

#[test]
fn standards_above_the_folder_are_watched_where_they_can_be() {
    for relative in [false, true] {
        let folder = Folder::with(&[("jobs/a.patio", RIGHT), (".git/HEAD", "")]);
        let mut client = Client::start();
        let watches = json!({"dynamicRegistration": true, "relativePatternSupport": relative});
        client.initialize(json!({
            "capabilities": {"workspace": {"didChangeWatchedFiles": watches}},
            "rootUri": folder.uri("jobs"),
        }));
        let asked = client.hear(|message| message["method"] == "client/registerCapability");
        let watchers = &asked["params"]["registrations"][0]["registerOptions"]["watchers"];
        let watchers = watchers.as_array().expect("watchers");
        assert_eq!(watchers[0]["globPattern"], "**/*.patio");
        let above = json!({"baseUri": folder.uri(""), "pattern": "standard.patio"});
        let others: Vec<&Value> = watchers
            .iter()
            .skip(1)
            .map(|one| &one["globPattern"])
            .collect();
        assert_eq!(others, if relative { vec![&above] } else { vec![] });
    }
}

#[test]
fn folders_of_the_workspace_come_and_go() {
    let (one, other) = (
        Folder::with(&[("a.patio", WRONG)]),
        Folder::with(&[("b.patio", WRONG)]),
    );
    let mut client = one.client(json!({}));
    let (a, b) = (one.uri("a.patio"), other.uri("b.patio"));
    assert_eq!(client.findings(&a, None).len(), 1);
    let named = |folder: &Folder| json!({"uri": folder.uri(""), "name": "jobs"});
    let event = json!({"event": {"added": [named(&other)], "removed": []}});
    client.tell("workspace/didChangeWorkspaceFolders", event);
    assert_eq!(client.findings(&b, None).len(), 1);
    let event = json!({"event": {"added": [], "removed": [named(&one)]}});
    client.tell("workspace/didChangeWorkspaceFolders", event);
    assert_eq!(client.findings(&a, None).len(), 0);
    assert!(pull(&mut client, &[]).into_keys().eq([b.clone()]));
    // Of a user who wants none of them none is told.
    let set =
        |workspace: bool| json!({"settings": {"drylay": {"findings": {"workspace": workspace}}}});
    client.tell("workspace/didChangeConfiguration", set(false));
    assert_eq!(client.findings(&b, None).len(), 0);
    client.tell("workspace/didChangeConfiguration", set(true));
    assert_eq!(client.findings(&b, None).len(), 1);
}

#[test]
fn a_client_that_asks_gets_what_has_changed() {
    let folder = Folder::with(&[("a.patio", WRONG), ("b.patio", RIGHT), ("c.patio", WRONG)]);
    let mut client = folder.client(pulls());
    let all = pull(&mut client, &[]);
    let [a, b, c] = ["a.patio", "b.patio", "c.patio"].map(|name| folder.uri(name));
    assert_eq!(all.keys().collect::<Vec<_>>(), [&a, &b, &c]);
    assert_eq!([&a, &b, &c].map(|uri| count(&all[uri])), [1, 0, 1]);
    assert!(
        all.values()
            .all(|report| report["kind"] == "full" && report["version"].is_null())
    );
    let ids = [&a, &b, &c].map(|uri| (uri.as_str(), &all[uri]["resultId"]));
    let again = pull(&mut client, &ids);
    assert!(
        again.values().all(|report| report["kind"] == "unchanged"),
        "{again:?}"
    );
    // One changes, one goes, and an open one is told with its version.
    folder.write("b.patio", WRONG);
    fs::remove_file(folder.path("c.patio")).unwrap();
    folder.changed(&mut client, &["b.patio", "c.patio"]);
    client.hear(|message| message["method"] == "workspace/diagnostic/refresh");
    client.open(&a, RIGHT);
    let later = pull(&mut client, &ids);
    assert_eq!((count(&later[&a]), &later[&a]["version"]), (0, &json!(1)));
    assert_eq!((count(&later[&b]), &later[&b]["kind"]), (1, &json!("full")));
    assert_eq!(count(&later[&c]), 0, "so that the client forgets them");
    assert!(later[&c].get("resultId").is_none());
    // It is sent nothing unasked.
    assert!(!client.has_heard(|message| message["method"] == "textDocument/publishDiagnostics"));
}

#[test]
fn a_client_that_asks_for_parts_gets_all_of_them() {
    let folder = Folder::with(&[("a.patio", WRONG), ("b.patio", RIGHT), ("c.patio", WRONG)]);
    let mut client = folder.client(pulls());
    let params = json!({"previousResultIds": [], "partialResultToken": "part"});
    let answer = client.ask("workspace/diagnostic", params);
    assert_eq!(answer["result"]["items"], json!([]));
    let mut reported = BTreeMap::new();
    while client.has_heard(|message| message["params"]["token"] == "part") {
        let part = client.hear(|message| message["params"]["token"] == "part");
        reported.extend(reports(&part["params"]["value"]["items"]));
    }
    assert_eq!(reported.len(), 3);
    assert_eq!(reported.values().map(count).collect::<Vec<_>>(), [1, 0, 1]);
}

#[test]
fn a_large_folder_is_read_beside_what_is_open_until_it_is_cancelled() {
    const SPECS: usize = 2_000;
    let folder = Folder::with(&[]);
    for number in 0..SPECS {
        folder.write(&format!("{number}.patio"), FLAT);
    }
    let mut client = folder.client(json!({"window": {"workDoneProgress": true}}));
    let is_progress = |kind: &'static str| {
        move |message: &Value| {
            message["method"] == "$/progress" && message["params"]["value"]["kind"] == kind
        }
    };
    let asked = client.hear(|message| message["method"] == "window/workDoneProgress/create");
    let token = asked["params"]["token"].clone();
    let begun = client.hear(is_progress("begin"));
    assert_eq!(begun["params"]["token"], token);
    let value = &begun["params"]["value"];
    assert_eq!(
        (&value["title"], &value["cancellable"]),
        (&json!("Reading specs"), &json!(true))
    );
    // What is open is answered while the folder is read.
    let open = folder.uri("open.patio");
    client.open(&open, FLAT);
    let hover = client.ask("textDocument/hover", place(&open, 5, 8));
    assert!(hover["result"].is_object(), "{hover}");
    assert!(
        !client.has_heard(is_progress("end")),
        "it was all read before"
    );
    client.tell("window/workDoneProgress/cancel", json!({"token": token}));
    client.hear(is_progress("end"));
    let read = pull(&mut client, &[]);
    assert!(read.len() < SPECS, "{}", read.len());
    // A spec that was not read is when it changes.
    folder.write(&format!("{}.patio", 7), &FLAT.replace("Kiln", "Tile"));
    folder.changed(&mut client, &["7.patio"]);
    assert!(pull(&mut client, &[]).contains_key(&folder.uri("7.patio")));
}

#[test]
fn a_small_folder_is_read_without_ado() {
    let folder = Folder::with(&[("a.patio", WRONG)]);
    let mut client = folder.client(json!({"window": {"workDoneProgress": true}}));
    pull(&mut client, &[]);
    assert!(!client.has_heard(|message| message["method"] == "window/workDoneProgress/create"));
}

#[test]
fn sections_are_found_in_every_spec_of_the_workspace() {
    let folder = Folder::with(&[
        ("a.patio", FLAT),
        ("b.patio", &FLAT.replace("yard", "court")),
    ]);
    let mut client = folder.client(json!({}));
    pull(&mut client, &[]);
    client.open(&folder.uri("a.patio"), FLAT);
    let found = |client: &mut Client, query: &str| {
        let answer = client.ask("workspace/symbol", json!({"query": query}));
        let symbols = answer["result"].as_array().expect("symbols").clone();
        let places = symbols
            .iter()
            .map(|one| one["location"]["uri"].as_str().unwrap().to_owned());
        places.collect::<Vec<_>>()
    };
    let [a, b] = ["a.patio", "b.patio"].map(|name| folder.uri(name));
    assert_eq!(found(&mut client, "yard"), [a.clone(), a.clone(), a]);
    assert_eq!(found(&mut client, "COURT"), [b.clone(), b.clone(), b]);
    assert_eq!(found(&mut client, "no such section"), [] as [&str; 0]);
}

#[test]
fn the_editor_and_the_command_line_find_the_same() {
    let specs = repository().join("specs");
    let output = std::process::Command::new(env!("CARGO_BIN_EXE_drylay"))
        .args(["check", "--format", "json"])
        .arg("specs")
        .current_dir(repository())
        .output()
        .expect("the program runs");
    let checked: Value = serde_json::from_slice(&output.stdout).expect("JSON");
    let mut expected: BTreeMap<String, Vec<Value>> = BTreeMap::new();
    for file in checked["files"].as_array().expect("files") {
        let path = repository().join(file["path"].as_str().expect("a path"));
        let findings = file["findings"].as_array().expect("findings").iter();
        let standing = findings.filter(|finding| finding["accepted"].is_null());
        let reported =
            standing.map(|one| said(&one["rule"], &one["severity"], &one["start"]["line"]));
        let uri = format!("file://{}", path.to_str().unwrap());
        expected.insert(uri, reported.collect());
    }
    assert!(expected.len() >= 2, "{expected:?}");
    let mut client = Client::start();
    let root = format!("file://{}", specs.to_str().unwrap());
    client.initialize(json!({"capabilities": pulls(), "rootUri": root}));
    let closed = pull(&mut client, &[]);
    assert!(closed.len() >= 8);
    for (uri, report) in &closed {
        let path = uri.strip_prefix("file://").expect("a path");
        client.open(uri, &fs::read_to_string(path).unwrap());
        let open = client.ask("textDocument/diagnostic", document(uri))["result"].clone();
        for report in [report, &open] {
            let findings = report["items"].as_array().expect("findings").iter();
            let mut found: Vec<Value> = findings
                .map(|one| {
                    let severity = ["error", "warning", "advisory"]
                        [one["severity"].as_u64().expect("a severity") as usize - 1];
                    let line = one["range"]["start"]["line"].as_u64().expect("a line") + 1;
                    said(&one["code"], &json!(severity), &json!(line))
                })
                .collect();
            let mut wanted = expected.get(uri).cloned().unwrap_or_default();
            found.sort_by_key(Value::to_string);
            wanted.sort_by_key(Value::to_string);
            assert_eq!(found, wanted, "{uri}");
        }
    }
}

fn said(rule: &Value, severity: &Value, line: &Value) -> Value {
    json!([rule, severity, line])
}
