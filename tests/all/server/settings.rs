//! What the user sets holds at once, and what is wrong is told.

use serde_json::{Value, json};

use super::client::Client;
use super::{FLAT, URI, address, document, fresh, place, range};

fn set(client: &mut Client, settings: Value) {
    let params = json!({"settings": {"drylay": settings}});
    client.tell("workspace/didChangeConfiguration", params);
}

fn hints(client: &mut Client) -> String {
    let params = json!({"textDocument": {"uri": URI}, "range": range((0, 0), (99, 0))});
    client.ask("textDocument/inlayHint", params)["result"].to_string()
}

/// Severity by rule, the gravest 1.
fn severity(findings: &[Value], rule: &str) -> Option<i64> {
    let mut findings = findings.iter();
    findings.find(|one| one["code"] == rule)?["severity"].as_i64()
}

#[test]
fn figures_are_shown_in_the_units_that_are_set() {
    let mut client = Client::with(json!({}));
    let before = fresh(&mut client, URI, FLAT);
    let all = |client: &mut Client| {
        let lens = client.ask("textDocument/codeLens", document(URI))["result"].to_string();
        let hover = client.ask("textDocument/hover", place(URI, 5, 8))["result"].to_string();
        [hints(client), lens, hover]
    };
    assert!(all(&mut client).iter().all(|shown| shown.contains("24 m²")));
    set(&mut client, json!({"units": "imperial"}));
    assert!(
        all(&mut client)
            .iter()
            .all(|shown| shown.contains("258.3 sq ft"))
    );
    assert_eq!(
        client.findings(URI, Some(1)),
        before,
        "findings stay as they are"
    );
    set(&mut client, json!({"units": "job"}));
    assert!(all(&mut client).iter().all(|shown| shown.contains("24 m²")));
}

#[test]
fn findings_are_shown_as_grave_as_is_set() {
    let mut client = Client::with(json!({}));
    let before = fresh(&mut client, URI, FLAT);
    assert_eq!(severity(&before, "fall-flat"), Some(2), "{before:?}");
    assert!(before.iter().any(|one| one["severity"] == 3), "{before:?}");
    set(&mut client, json!({"findings": {"deny": "warning"}}));
    let denied = client.findings(URI, Some(1));
    assert_eq!(severity(&denied, "fall-flat"), Some(1));
    assert_eq!(denied.len(), before.len());
    assert!(denied.iter().any(|one| one["severity"] == 3));
    set(&mut client, json!({"findings": {"show": "warning"}}));
    let shown = client.findings(URI, Some(1));
    assert_eq!(severity(&shown, "fall-flat"), Some(2));
    assert!(shown.iter().all(|one| one["severity"] != 3));
    set(&mut client, json!({}));
    assert_eq!(client.findings(URI, Some(1)), before);
}

#[test]
fn a_hover_repeats_what_a_finding_says_only_if_that_is_set() {
    let mut client = Client::with(json!({}));
    let findings = fresh(&mut client, URI, FLAT);
    let flat = findings.iter().find(|one| one["code"] == "fall-flat");
    let flat = flat.expect("the fall is flat");
    let message = flat["message"].as_str().unwrap().lines().next().unwrap();
    let start = &flat["range"]["start"];
    let at = json!({"textDocument": {"uri": URI}, "position": start});
    for (settings, repeats) in [
        (json!({}), false),
        (json!({"findings": {"hover": true}}), true),
        // What the editor does not show is only here.
        (json!({"findings": {"show": "error"}}), true),
        (json!({"findings": {"hover": false}}), false),
    ] {
        set(&mut client, settings.clone());
        let hover = client.ask("textDocument/hover", at.clone());
        let shown = hover["result"]["contents"]["value"].as_str().unwrap();
        assert!(
            shown.contains("`fall-flat`") && shown.contains("limit"),
            "{shown}"
        );
        assert_eq!(shown.contains(message), repeats, "{settings}: {shown}");
    }
}

#[test]
fn a_standard_that_is_named_applies_wherever_a_spec_lies() {
    let folder = tempfile::tempdir().expect("a folder for the test");
    let text = "standard \"House\"\n  off fall-flat, because \"it drains\"\n";
    std::fs::write(folder.path().join("house.patio"), text).unwrap();
    let root = address(folder.path(), "");
    let mut client = Client::start();
    client.initialize(json!({"capabilities": {}, "rootUri": root.trim_end_matches('/')}));
    let before = fresh(&mut client, URI, FLAT);
    assert!(severity(&before, "fall-flat").is_some());
    set(&mut client, json!({"standard": "house.patio"}));
    assert_eq!(severity(&client.findings(URI, Some(1)), "fall-flat"), None);
    set(&mut client, json!({"standard": "no-such.patio"}));
    let reported = client.hear(|message| message["method"] == "window/showMessage");
    let words = reported["params"]["message"].as_str().unwrap();
    assert!(
        words.contains("no-such.patio` cannot be used: there is no such file"),
        "{words}"
    );
    assert_eq!(client.findings(URI, Some(1)), before);
}

/// A workspace of two folders, one spec in each, open; a client that tells
/// settings of each folder if it `tells`.
fn two_folders(folder: &std::path::Path, tells: bool) -> (Client, [String; 2]) {
    let roots = ["one", "two"].map(|name| {
        std::fs::create_dir(folder.join(name)).unwrap();
        address(folder, name)
    });
    std::fs::write(
        folder.join("two/house.patio"),
        "standard \"House\"\n  off fall-flat, because \"it drains\"\n",
    )
    .unwrap();
    let specs = ["one", "two"].map(|name| address(folder, &format!("{name}/court.patio")));
    let mut client = Client::start();
    let folders = roots.iter().map(|uri| json!({"uri": uri, "name": "x"}));
    client.settings = json!({
        "": {"findings": {"show": "advisory"}},
        roots[0].as_str(): {"units": "imperial", "findings": {"show": "warning"}},
        roots[1].as_str(): {"hints": {"areas": false}, "standard": "house.patio"},
    });
    client.initialize(json!({
        "capabilities": {"workspace": {"configuration": tells}},
        "workspaceFolders": folders.collect::<Vec<_>>(),
        "initializationOptions": {"hints": {"falls": false}},
    }));
    if tells {
        client.hear(|message| message["method"] == "workspace/configuration");
    }
    for spec in &specs {
        client.open(spec, FLAT);
    }
    (client, specs)
}

#[test]
fn settings_of_a_folder_hold_for_its_specs() {
    for tells in [true, false] {
        let folder = tempfile::tempdir().expect("a folder for the test");
        let (mut client, [one, two]) = two_folders(folder.path(), tells);
        let findings = [&one, &two].map(|uri| client.findings(uri, Some(1)));
        let flat = findings.each_ref().map(|own| severity(own, "fall-flat"));
        let has_advisory = |own: &Vec<Value>| own.iter().any(|one| one["severity"] == 3);
        let advisory = findings.each_ref().map(has_advisory);
        let hints = [&one, &two].map(|uri| {
            let params = json!({"textDocument": {"uri": uri}, "range": range((0, 0), (99, 0))});
            client.ask("textDocument/inlayHint", params)["result"].to_string()
        });
        let has = |part: &str| hints.each_ref().map(|own| own.contains(part));
        assert_eq!(has("drops"), [false, false], "as the session began");
        if tells {
            assert_eq!((flat, advisory), ([Some(2), None], [false, true]));
            assert_eq!(
                (has("258.3 sq ft"), has("24 m²")),
                ([true, false], [false, false])
            );
        } else {
            assert_eq!((flat, advisory), ([Some(2), Some(2)], [true, true]));
            assert_eq!(
                (has("258.3 sq ft"), has("24 m²")),
                ([false, false], [true, true])
            );
        }
    }
}

#[test]
fn settings_of_folders_are_asked_for_again_when_they_change() {
    let folder = tempfile::tempdir().expect("a folder for the test");
    let (mut client, [one, two]) = two_folders(folder.path(), true);
    assert_eq!(severity(&client.findings(&two, Some(1)), "fall-flat"), None);
    client.settings[address(folder.path(), "two").as_str()] = json!({});
    // What is told for all does not undo what holds for a folder.
    set(&mut client, json!({"units": "job"}));
    client.hear(|message| message["method"] == "workspace/configuration");
    let found = client.findings(&two, Some(1));
    assert_eq!(severity(&found, "fall-flat"), Some(2));
    let hover = client.ask("textDocument/hover", place(&one, 5, 8))["result"].to_string();
    assert!(hover.contains("258.3 sq ft"), "{hover}");
}

#[test]
fn specs_that_are_not_open_are_checked_where_that_is_set() {
    let folder = tempfile::tempdir().expect("a folder for the test");
    let (mut client, _) = two_folders(folder.path(), true);
    for name in ["one", "two"] {
        std::fs::write(folder.path().join(name).join("closed.patio"), FLAT).unwrap();
    }
    let [one, two] = ["one", "two"].map(|name| address(folder.path(), name));
    client.settings[two.as_str()] = json!({"findings": {"workspace": false}});
    set(&mut client, json!({}));
    client.hear(|message| message["method"] == "workspace/configuration");
    assert!(
        !client
            .findings(&format!("{one}/closed.patio"), None)
            .is_empty()
    );
    client.settings[one.as_str()] = json!({"findings": {"workspace": false}});
    client.settings[two.as_str()] = json!({});
    set(&mut client, json!({}));
    client.hear(|message| message["method"] == "workspace/configuration");
    assert!(
        client
            .findings(&format!("{one}/closed.patio"), None)
            .is_empty()
    );
    assert!(
        !client
            .findings(&format!("{two}/closed.patio"), None)
            .is_empty()
    );
}

#[test]
fn a_wrong_setting_is_told_and_the_usual_kept() {
    let mut client = Client::with(json!({}));
    fresh(&mut client, URI, FLAT);
    let before = hints(&mut client);
    set(
        &mut client,
        json!({"hints": {"areas": "no"}, "unit": "metric"}),
    );
    for part in [
        "`drylay.hints.areas` takes `true` or `false`",
        "Did you mean `drylay.units`?",
    ] {
        let reported = client.hear(|message| message["method"] == "window/showMessage");
        let words = reported["params"]["message"].as_str().unwrap();
        assert!(words.contains(part), "{words}");
    }
    assert_eq!(hints(&mut client), before);
}
