//! What stands behind a hint, and where one goes on writing after an action.

use serde_json::{Value, json};

use super::client::Client;
use super::folder::Folder;
use super::{FLAT, URI, document, fresh, place, range};

fn hints(client: &mut Client) -> Vec<Value> {
    let params = json!({"textDocument": {"uri": URI}, "range": range((0, 0), (99, 0))});
    let answer = client.ask("textDocument/inlayHint", params);
    answer["result"].as_array().expect("hints").clone()
}

#[test]
fn a_hint_tells_its_working_and_leads_to_an_input_when_pointed_at() {
    for (properties, has_parts) in [
        (json!(["tooltip"]), false),
        (json!(["tooltip", "label.location"]), true),
    ] {
        let later = json!({"resolveSupport": {"properties": properties}});
        let mut client = Client::with(json!({"textDocument": {"inlayHint": later}}));
        fresh(&mut client, URI, FLAT);
        let hint = hints(&mut client)
            .into_iter()
            .find(|hint| hint["position"]["line"] == 17);
        let hint = hint.expect("the base's hint");
        assert_eq!(hint["label"].is_array(), has_parts, "{hint}");
        assert!(hint.get("tooltip").is_none(), "not before it is asked for");
        let resolved = client.ask("inlayHint/resolve", hint.clone())["result"].clone();
        let tooltip = resolved["tooltip"]["value"].as_str().expect("a working");
        assert!(tooltip.contains("**base of yard**"), "{tooltip}");
        if has_parts {
            let leads = &resolved["label"][0]["location"];
            assert_eq!(leads["uri"], URI);
            assert_ne!(leads["range"]["start"]["line"], 17, "{leads}");
            assert_eq!(resolved["label"][0]["value"], hint["label"][0]["value"]);
        }
        // The text has moved on: nothing is told that may be wrong.
        client.change(
            URI,
            2,
            json!([{"text": FLAT.replace("150 mm\n", "160 mm\n")}]),
        );
        let late = client.ask("inlayHint/resolve", hint.clone())["result"].clone();
        assert_eq!(late, hint);
    }
}

#[test]
fn a_client_that_never_asks_is_not_burdened() {
    let mut client = Client::with(json!({}));
    fresh(&mut client, URI, FLAT);
    let hints = hints(&mut client);
    assert!(hints.len() > 3);
    assert!(
        hints
            .iter()
            .all(|hint| hint.get("data").is_none() && hint["label"].is_string())
    );
    let same = client.ask("inlayHint/resolve", hints[0].clone());
    assert_eq!(same["result"], hints[0]);
}

/// The action whose title starts so, offered at a place.
fn action(client: &mut Client, at: (u32, u32), title: &str) -> Option<Value> {
    let params = json!({
        "textDocument": {"uri": URI}, "range": range(at, at), "context": {"diagnostics": []},
    });
    let answer = client.ask("textDocument/codeAction", params);
    let mut actions = answer["result"].as_array().expect("actions").iter();
    let found = actions.find(|one| {
        one["title"]
            .as_str()
            .is_some_and(|own| own.starts_with(title))
    });
    found.cloned()
}

#[test]
fn the_cursor_goes_into_the_reason_of_an_acceptance() {
    let shows = json!({"window": {"showDocument": {"support": true}}});
    let mut client = Client::with(shows);
    fresh(&mut client, URI, FLAT);
    let accept = action(&mut client, (12, 8), "Accept fall-flat").expect("an action");
    let edit = &accept["edit"]["changes"][URI][0];
    assert_eq!(edit["newText"], "  accept        fall-flat, because \"\"\n");
    let command = &accept["command"];
    let params = json!({"command": command["command"], "arguments": command["arguments"]});
    client.ask("workspace/executeCommand", params);
    let shown = client.hear(|message| message["method"] == "window/showDocument");
    assert_eq!(shown["params"]["uri"], URI);
    let line = edit["range"]["start"]["line"].as_u64().expect("a line") as u32;
    assert_eq!(shown["params"]["selection"], range((line, 36), (line, 36)));
    // A client that shows nothing is offered the change alone.
    let mut client = Client::with(json!({}));
    fresh(&mut client, URI, FLAT);
    let accept = action(&mut client, (12, 8), "Accept fall-flat").expect("an action");
    assert!(accept.get("command").is_none(), "{accept}");
}

#[test]
fn what_is_only_named_is_defined_and_what_is_named_is_inlined() {
    let mut client = Client::with(json!({}));
    let text = FLAT.replace("crushed-stone", "mill-stone");
    fresh(&mut client, URI, &text);
    for (at, title, kind) in [
        (
            (17, 17),
            "Make a `material` section for `mill-stone`",
            "quickfix",
        ),
        (
            (17, 17),
            "Make a `mix` section for `mill-stone`",
            "quickfix",
        ),
        (
            (3, 5),
            "Write the value of `deep` where it is used",
            "refactor.inline",
        ),
    ] {
        let found = action(&mut client, at, title).unwrap_or_else(|| panic!("{title}"));
        assert_eq!(found["kind"], kind);
        assert!(
            !found["edit"]["changes"][URI]
                .as_array()
                .expect("edits")
                .is_empty()
        );
    }
    assert_eq!(
        action(&mut client, (16, 17), "Make a"),
        None,
        "it is of the catalogue"
    );
}

#[test]
fn files_are_offered_where_a_path_is_written() {
    let files = [
        ("jobs/a.patio", "use \"\"\n"),
        ("jobs/b.patio", ""),
        ("office/mixes.patio", ""),
        ("standard.patio", "standard \"H\"\n"),
        ("jobs/standard.patio", "standard \"J\"\n  like \"\n"),
    ];
    let folder = Folder::with(&files);
    let mut client = folder.client(json!({}));
    client.ask("workspace/diagnostic", json!({"previousResultIds": []}));
    let offers = |client: &mut Client, name: &str, text: &str, at: (u32, u32)| {
        let uri = folder.uri(name);
        client.open(&uri, text);
        let answer = client.ask("textDocument/completion", place(&uri, at.0, at.1));
        let offers = answer["result"].as_array().expect("offers").iter();
        let texts = offers.map(|offer| offer["textEdit"]["newText"].as_str().unwrap().to_owned());
        texts.collect::<Vec<_>>()
    };
    let found = offers(&mut client, files[0].0, files[0].1, (0, 5));
    assert_eq!(found, ["b.patio", "../office/mixes.patio"]);
    let found = offers(&mut client, files[4].0, files[4].1, (1, 8));
    assert_eq!(found, ["../standard.patio\""]);
}

#[test]
fn names_of_used_files_are_offered() {
    let library = "let gap = 4 mm\n\nmaterial hard-stone\n  like  crushed-stone\n\n\
        mix soft-mix\n  for    bed\n  parts  1 portland-cement : 4 sharp-sand\n\n\
        shape tub\n  rectangle 1 m by 1 m\n\nbuild thin\n  paving concrete-paver, 60 mm\n";
    let folder = Folder::with(&[("library.patio", library)]);
    let uri = folder.uri("a.patio");
    let mut client = Client::with(json!({}));
    for (line, names, others) in [
        (
            "build a\n  bed ",
            &["soft-mix", "hard-stone"][..],
            &["gap", "thin"][..],
        ),
        ("surface a\n  build ", &["thin"], &["tub"]),
        ("surface a\n  shape ", &["tub"], &["thin"]),
        ("let b = 2 * ", &["gap"], &["tub"]),
    ] {
        let text = format!("use \"library.patio\"\n\n{line}");
        client.open(&uri, &text);
        let last = text.lines().last().expect("a line");
        let mut at = document(&uri);
        at["position"] =
            place(&uri, text.lines().count() as u32 - 1, last.len() as u32)["position"].clone();
        let answer = client.ask("textDocument/completion", at);
        let offers = answer["result"].as_array().expect("offers").iter();
        let labels: Vec<&str> = offers
            .map(|offer| offer["label"].as_str().unwrap())
            .collect();
        assert!(
            names.iter().all(|name| labels.contains(name)),
            "{line}: {labels:?}"
        );
        assert!(
            !others.iter().any(|name| labels.contains(name)),
            "{line}: {labels:?}"
        );
        client.tell("textDocument/didClose", document(&uri));
    }
}
