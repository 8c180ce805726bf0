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
    let told = client.hear(|message| message["method"] == "window/showMessage");
    let words = told["params"]["message"].as_str().unwrap();
    assert!(
        words.contains("no-such.patio` cannot be used: there is no such file"),
        "{words}"
    );
    assert_eq!(client.findings(URI, Some(1)), before);
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
        let told = client.hear(|message| message["method"] == "window/showMessage");
        let words = told["params"]["message"].as_str().unwrap();
        assert!(words.contains(part), "{words}");
    }
    assert_eq!(hints(&mut client), before);
}
