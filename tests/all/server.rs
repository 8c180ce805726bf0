//! What the server promises to any client, over real pipes.

mod client;
mod commands;
mod folder;
mod naming;
mod promises;
mod settings;
mod showing;
mod workspace;

use std::fs;
use std::path::Path;

use client::Client;
use serde_json::{Value, json};

const URI: &str = "untitled:one";
const TWIN: &str = "untitled:two";

fn document(uri: &str) -> Value {
    json!({ "textDocument": { "uri": uri } })
}

fn range(from: (u32, u32), to: (u32, u32)) -> Value {
    let at = |(line, character): (u32, u32)| json!({"line": line, "character": character});
    json!({"start": at(from), "end": at(to)})
}

/// The findings of a text that is opened as it stands.
fn fresh(client: &mut Client, uri: &str, text: &str) -> Vec<Value> {
    client.open(uri, text);
    client.findings(uri, Some(1))
}

/// The findings of a text that is opened as a second document, as if they
/// were the first one's.
fn as_twin(client: &mut Client, text: &str) -> Value {
    let findings = Value::from(fresh(client, TWIN, text)).to_string();
    serde_json::from_str(&findings.replace(TWIN, URI)).expect("it was JSON before")
}

fn error_code(answer: &Value) -> Option<i64> {
    answer["error"]["code"].as_i64()
}

/// Numbers that are as random as a test needs and the same every time.
struct Dice(u64);

impl Dice {
    fn below(&mut self, limit: usize) -> usize {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        (self.0 % limit.max(1) as u64) as usize
    }
}

#[test]
fn the_session_ends_as_it_was_ended() {
    type Script = fn(&mut Client);
    let initialize: Script = |client| drop(client.initialize(json!({"capabilities": {}})));
    let shutdown: Script = |client| {
        let answer = client.ask("shutdown", Value::Null);
        assert_eq!(answer.get("result"), Some(&Value::Null), "{answer}");
    };
    let exit: Script = |client| client.say(&json!({"jsonrpc": "2.0", "method": "exit"}));
    let exit_null: Script = |client| client.tell("exit", Value::Null);
    let hang_up: Script = |client| client.hang_up();
    let half: Script = |client| client.write(b"Content-Length: 99\r\n\r\n{\"jsonrpc\"");
    let cases: &[(&str, &[Script], i32)] = &[
        (
            "shutdown, then exit, the pipe held open",
            &[initialize, shutdown, exit],
            0,
        ),
        (
            "the same with null params",
            &[initialize, shutdown, exit_null],
            0,
        ),
        ("exit without shutdown", &[initialize, exit], 1),
        ("exit before initialize", &[exit], 1),
        ("the input ends", &[initialize, hang_up], 1),
        ("the input ends before anything is said", &[hang_up], 1),
        (
            "the input ends after shutdown, without exit",
            &[initialize, shutdown, hang_up],
            1,
        ),
        (
            "the input ends inside a message",
            &[initialize, half, hang_up],
            1,
        ),
    ];
    for (name, script, code) in cases {
        let mut client = Client::start();
        script.iter().for_each(|step| step(&mut client));
        assert_eq!(client.exit_code(), Some(*code), "{name}");
    }
}

#[test]
fn requests_out_of_season_are_refused() {
    let mut client = Client::start();
    let hover = json!({"textDocument": {"uri": URI}, "position": {"line": 0, "character": 0}});
    assert_eq!(
        error_code(&client.ask("textDocument/hover", hover.clone())),
        Some(-32002)
    );
    assert_eq!(
        error_code(&client.ask("shutdown", Value::Null)),
        Some(-32002)
    );
    client.open(URI, "this comes too early");
    client.initialize(json!({"capabilities": {}}));
    let again = client.ask("initialize", json!({"capabilities": {}}));
    assert_eq!(error_code(&again), Some(-32600));
    assert_eq!(
        client.ask("textDocument/hover", hover.clone())["result"],
        Value::Null
    );
    assert_eq!(
        error_code(&client.ask("no/such/method", json!({}))),
        Some(-32601)
    );
    assert_eq!(
        error_code(&client.ask("$/noSuchMethod", json!({}))),
        Some(-32601)
    );
    assert_eq!(
        error_code(&client.ask("textDocument/hover", json!({"a": 1}))),
        Some(-32602)
    );
    client.ask("shutdown", Value::Null);
    assert_eq!(
        error_code(&client.ask("textDocument/hover", hover)),
        Some(-32600)
    );
    client.tell("exit", Value::Null);
    assert_eq!(client.exit_code(), Some(0));
}

#[test]
fn what_is_no_message_is_answered_and_passed_over() {
    let mut client = Client::with(json!({}));
    for (body, code) in [
        ("{", -32700),
        ("", -32700),
        ("\u{0}", -32700),
        ("[1, 2]", -32600),
        (r#"{"jsonrpc": "2.0"}"#, -32600),
    ] {
        client.write(format!("Content-Length: {}\r\n\r\n{body}", body.len()).as_bytes());
        assert_eq!(
            error_code(&client.answer(Value::Null)),
            Some(code),
            "{body:?}"
        );
    }
    client.write(b"Content-Length: none\r\n\r\n");
    assert_eq!(error_code(&client.answer(Value::Null)), Some(-32700));
    client.say(&json!({"jsonrpc": "2.0", "id": 4711, "result": "to a question nobody asked"}));
    client.tell("no/such/notification", json!({"a": 1}));
    client.tell("$/noSuchNotification", Value::Null);
    assert_eq!(fresh(&mut client, URI, "job \"Quiet\"\n").len(), 0);
}

#[test]
fn requests_for_unknown_documents_are_answered_calmly() {
    let mut client = Client::with(json!({}));
    let nowhere = range((0, 0), (9, 9));
    let at = json!({"line": 3, "character": 1});
    for (method, params) in [
        (
            "textDocument/hover",
            json!({"textDocument": {"uri": URI}, "position": at}),
        ),
        ("textDocument/documentSymbol", document(URI)),
        ("textDocument/foldingRange", document(URI)),
        ("textDocument/documentLink", document(URI)),
        ("textDocument/codeLens", document(URI)),
        ("textDocument/semanticTokens/full", document(URI)),
        ("textDocument/completion", place(URI, 3, 1)),
        ("textDocument/signatureHelp", place(URI, 3, 1)),
        ("textDocument/definition", place(URI, 3, 1)),
        ("textDocument/prepareRename", place(URI, 3, 1)),
        (
            "textDocument/inlayHint",
            json!({"textDocument": {"uri": URI}, "range": nowhere}),
        ),
        (
            "textDocument/codeAction",
            json!({"textDocument": {"uri": URI}, "range": nowhere, "context": {"diagnostics": []}}),
        ),
    ] {
        let answer = client.ask(method, params);
        assert_eq!(
            answer.get("result"),
            Some(&Value::Null),
            "{method}: {answer}"
        );
    }
    let pulled = client.ask("textDocument/diagnostic", document(URI));
    assert_eq!(pulled["result"], json!({"kind": "full", "items": []}));
    client.change(URI, 2, json!([{"text": "never opened"}]));
    client.tell("textDocument/didSave", document(URI));
    client.tell("textDocument/didClose", document(URI));
    assert_eq!(fresh(&mut client, TWIN, "job \"Calm\"\n").len(), 0);
    assert_eq!(client.versions(URI), [] as [i64; 0]);
}

#[test]
fn findings_tell_rule_severity_place_and_version() {
    let mut client = Client::with(json!({}));
    let findings = fresh(&mut client, URI, "job \"Terrace\"\n  colour blue\n");
    let [finding] = findings.as_slice() else {
        panic!("{findings:?}")
    };
    assert_eq!(finding["source"], "drylay");
    assert!(
        finding["code"].is_string() && finding["severity"].is_number(),
        "{finding}"
    );
    assert_eq!(
        finding["range"]["start"],
        json!({"line": 1, "character": 2}),
        "{finding}"
    );
    client.change(
        URI,
        7,
        json!([{"range": range((1, 0), (2, 0)), "text": ""}]),
    );
    assert_eq!(client.findings(URI, Some(7)), [] as [Value; 0]);
}

#[test]
fn closing_clears_and_opening_anew_starts_afresh() {
    let mut client = Client::with(json!({}));
    assert_ne!(fresh(&mut client, URI, "what is this\n").len(), 0);
    client.tell("textDocument/didClose", document(URI));
    assert_eq!(client.findings(URI, None), [] as [Value; 0]);
    client.change(URI, 2, json!([{"text": "closed"}]));
    assert_ne!(fresh(&mut client, URI, "what is this\n").len(), 0);
    assert_eq!(client.versions(URI), [] as [i64; 0]);
}

#[test]
fn columns_are_counted_as_negotiated() {
    let text = "job \"Plaça 𝄞 e\u{301}\"\n  note \"𝄞 ½\", colour\n";
    for (offered, chosen, column) in [
        (json!(null), "utf-16", 15),
        (json!(["utf-16"]), "utf-16", 15),
        (json!(["utf-16", "utf-32"]), "utf-32", 14),
        (json!(["utf-16", "utf-8", "utf-32"]), "utf-8", 18),
    ] {
        let mut client = Client::start();
        let general = json!({ "positionEncodings": offered });
        let answer = client.initialize(json!({"capabilities": {"general": general}}));
        assert_eq!(answer["result"]["capabilities"]["positionEncoding"], chosen);
        let findings = fresh(&mut client, URI, text);
        let starts: Vec<&Value> = findings
            .iter()
            .map(|finding| &finding["range"]["start"])
            .collect();
        let start = json!({"line": 1, "character": column});
        assert!(starts.contains(&&start), "{chosen}: {findings:?}");
        // The same column, sent back, is the same place.
        client.change(
            URI,
            2,
            json!([{"range": range((1, column), (1, column + 6)), "text": "é"}]),
        );
        let changed = client.findings(URI, Some(2));
        let twin = text.replace("colour", "é");
        assert_eq!(
            Value::from(changed),
            as_twin(&mut client, &twin),
            "{chosen}"
        );
    }
}

#[test]
fn a_burst_of_edits_ends_in_the_findings_of_the_last_text() {
    let pieces = [
        "soil clay",
        "\n",
        "  ",
        "x",
        "𝄞",
        "e\u{301}",
        "\r\n",
        "shape a",
        "\"",
        "(",
        ", ",
        "\r",
    ];
    for seed in 1..=3 {
        let mut dice = Dice(0x9E37_79B9_7F4A_7C15_u64.rotate_left(seed));
        let mut client = Client::with(json!({}));
        let mut text = "job \"Burst\"\n\nsite\n  soil clay\n  frost 20 in\n".to_owned();
        client.open(URI, &text);
        let mut hovers = Vec::new();
        for version in 2..=400 {
            let characters: Vec<(usize, char)> = text.char_indices().collect();
            let from = dice.below(characters.len() + 1);
            let to = (from + dice.below(4)).min(characters.len());
            let byte = |index: usize| characters.get(index).map_or(text.len(), |(at, _)| *at);
            let (from, to) = (whole_break(&text, byte(from)), whole_break(&text, byte(to)));
            let new = pieces[dice.below(pieces.len())];
            let edit = json!([{"range": range(utf16(&text, from), utf16(&text, to)), "text": new}]);
            text.replace_range(from..to, new);
            client.change(URI, version, edit);
            if version % 40 == 0 {
                let at = json!({"line": dice.below(9), "character": dice.below(20)});
                let params = json!({"textDocument": {"uri": URI}, "position": at});
                hovers.push(client.begin("textDocument/hover", params));
            }
        }
        let last = client.findings(URI, Some(400));
        for hover in hovers {
            assert_eq!(error_code(&client.answer(hover)), None);
        }
        let versions = client.versions(URI);
        assert!(versions.is_sorted() && versions.iter().all(|version| *version < 400));
        assert_eq!(
            Value::from(last),
            as_twin(&mut client, &text),
            "seed {seed}: {text:?}"
        );
        let symbols = |client: &mut Client, uri| {
            client.ask("textDocument/documentSymbol", document(uri))["result"].clone()
        };
        assert_eq!(symbols(&mut client, URI), symbols(&mut client, TWIN));
        assert_eq!(
            client.versions(URI).last().copied().unwrap_or(0).max(400),
            400
        );
    }
}

/// The place itself, or the start of the line break that it would split.
fn whole_break(text: &str, at: usize) -> usize {
    if text[..at].ends_with('\r') && text[at..].starts_with('\n') {
        at - 1
    } else {
        at
    }
}

/// Line and column of a byte, the column in units of UTF-16.
fn utf16(text: &str, at: usize) -> (u32, u32) {
    let before = text[..at].replace("\r\n", "\n").replace('\r', "\n");
    let line = before.matches('\n').count();
    let column = before
        .rsplit('\n')
        .next()
        .unwrap_or("")
        .encode_utf16()
        .count();
    (line as u32, column as u32)
}

#[test]
fn findings_can_be_asked_for_and_are_not_sent_as_well() {
    let mut client = Client::start();
    let answer = client.initialize(json!({"capabilities": {
        "textDocument": {"diagnostic": {}},
        "workspace": {"diagnostics": {"refreshSupport": true}},
    }}));
    assert_eq!(
        answer["result"]["capabilities"]["diagnosticProvider"]["interFileDependencies"],
        json!(true)
    );
    client.open(URI, "what is this\n");
    let pull = |client: &mut Client, previous: Option<&Value>| {
        let params = json!({"textDocument": {"uri": URI}, "previousResultId": previous});
        client.ask("textDocument/diagnostic", params)["result"].clone()
    };
    let first = pull(&mut client, None);
    assert_eq!(first["kind"], "full");
    assert_ne!(first["items"], json!([]));
    let number = first["resultId"].clone();
    assert_eq!(
        pull(&mut client, Some(&number)),
        json!({"kind": "unchanged", "resultId": number})
    );
    client.change(URI, 2, json!([{"text": "job \"All is well\"\n"}]));
    let second = pull(&mut client, Some(&number));
    assert_eq!(
        (&second["kind"], &second["items"]),
        (&json!("full"), &json!([]))
    );
    client.tell("textDocument/didClose", document(URI));
    client.open(URI, "job \"All is well\"\n");
    assert_eq!(pull(&mut client, Some(&number))["kind"], "full");
    assert_eq!(client.versions(URI), [] as [i64; 0]);
}

#[test]
fn a_client_that_asks_is_told_when_another_file_has_changed_a_spec() {
    let mut client = Client::with(json!({
        "textDocument": {"diagnostic": {}},
        "workspace": {"diagnostics": {"refreshSupport": true}},
    }));
    let (spec, library) = ("file:///drylay-test/a.patio", "file:///drylay-test/b.patio");
    client.open(library, "let gap = 1 in\n");
    client.open(
        spec,
        "use \"b.patio\"\n\njob \"Two\"\n\nlet double = 2 * gap\n",
    );
    let found = |client: &mut Client| {
        let answer = client.ask("textDocument/diagnostic", document(spec));
        answer["result"]["items"].to_string()
    };
    assert!(
        !found(&mut client).contains("gap"),
        "{}",
        found(&mut client)
    );
    client.change(library, 2, json!([{"text": "let other = 1 in\n"}]));
    client.hear(|message| message["method"] == "workspace/diagnostic/refresh");
    assert!(found(&mut client).contains("gap"));
}

#[test]
fn a_used_file_that_changes_is_read_again() {
    let folder = tempfile::tempdir().expect("a folder for the test");
    let write = |name: &str, text: &str| fs::write(folder.path().join(name), text).unwrap();
    let (spec, library) = (
        address(folder.path(), "a.patio"),
        address(folder.path(), "b.patio"),
    );
    let text = "use \"b.patio\"\n\njob \"Two files\"\n\nlet double = 2 * gap\n";
    let mut client = Client::with(json!({
        "workspace": {"didChangeWatchedFiles": {"dynamicRegistration": true}},
    }));
    let asked = client.hear(|message| message["method"] == "client/registerCapability");
    assert_eq!(
        asked["params"]["registrations"][0]["method"],
        "workspace/didChangeWatchedFiles"
    );

    write("a.patio", text);
    let missing = fresh(&mut client, &spec, text);
    assert_ne!(missing.len(), 0, "the library is not there yet");

    write("b.patio", "let gap = 1 in\n");
    let changed = |client: &mut Client| {
        let events = json!({"changes": [{"uri": library, "type": 1}]});
        client.tell("workspace/didChangeWatchedFiles", events);
    };
    changed(&mut client);
    let found = client.findings(&spec, Some(1));
    assert!(found.len() < missing.len(), "{found:?}");

    // An open library counts as it is in the editor, saved or not.
    client.open(&library, "let gap = 1 in\n");
    assert_eq!(client.findings(&spec, Some(1)), found);
    client.change(&library, 2, json!([{"text": "let other = 1 in\n"}]));
    assert_ne!(client.findings(&spec, Some(1)), found);
    client.tell("textDocument/didClose", document(&library));
    assert_eq!(client.findings(&spec, Some(1)), found);

    // A save reads the disk again, also for a client that watches nothing.
    fs::remove_file(folder.path().join("b.patio")).unwrap();
    client.tell("textDocument/didSave", document(&spec));
    assert_eq!(client.findings(&spec, Some(1)), missing);
}

#[test]
fn a_standard_that_comes_or_changes_is_applied() {
    let folder = tempfile::tempdir().expect("a folder for the test");
    let standard = address(folder.path(), "standard.patio");
    let spec = address(folder.path(), "jobs/a.patio");
    fs::create_dir(folder.path().join("jobs")).unwrap();
    let text = "job \"Flat\"\n  region us\n\nshape a\n  rectangle 3 m by 3 m\n\n\
                surface a\n  shape a\n  level -150 mm at north\n  meets north\n  fall 1:80 away from north\n";
    let is_flat = |findings: &[Value]| findings.iter().any(|found| found["code"] == "fall-flat");
    let mut client = Client::with(json!({}));
    let changed = |client: &mut Client, text: &str| {
        fs::write(folder.path().join("standard.patio"), text).unwrap();
        let events = json!({"changes": [{"uri": standard, "type": 2}]});
        client.tell("workspace/didChangeWatchedFiles", events);
    };
    let before = fresh(&mut client, &spec, text);
    for slope in ["1:100", "1:40"] {
        changed(
            &mut client,
            &format!("standard \"House\"\n  limit fall-flat building {slope}\n"),
        );
        let findings = client.findings(&spec, Some(1));
        assert_eq!(is_flat(&findings), slope == "1:40", "{slope}: {findings:?}");
    }
    fs::remove_file(folder.path().join("standard.patio")).unwrap();
    client.tell("textDocument/didSave", document(&spec));
    assert_eq!(client.findings(&spec, Some(1)), before);
}

#[test]
fn hints_obey_the_settings_and_are_asked_for_again() {
    let mut client = Client::start();
    client.initialize(json!({
        "capabilities": {"workspace": {"inlayHint": {"refreshSupport": true}, "configuration": true}},
        "initializationOptions": {"hints": {"areas": false}},
    }));
    client.open(URI, "let gap = 2 in\n\nshape a\n  rectangle 3 m by 3 m\n");
    let hints = |client: &mut Client| {
        let params = json!({"textDocument": {"uri": URI}, "range": range((0, 0), (9, 0))});
        let answer = client.ask("textDocument/inlayHint", params);
        let hints = answer["result"]
            .as_array()
            .expect("a list of hints")
            .clone();
        hints
            .iter()
            .map(|hint| hint["position"]["line"].as_i64().unwrap())
            .collect::<Vec<_>>()
    };
    assert_eq!(hints(&mut client), [0]);
    // What is not told holds as the session began.
    for (reported, shown) in [
        (json!({"lets": false}), vec![]),
        (json!({"lets": false, "areas": true}), vec![2]),
    ] {
        let settings = json!({"settings": {"drylay": {"hints": reported}}});
        client.tell("workspace/didChangeConfiguration", settings);
        client.hear(|message| message["method"] == "workspace/inlayHint/refresh");
        assert_eq!(hints(&mut client), shown);
    }
    client.tell(
        "workspace/didChangeConfiguration",
        json!({"settings": null}),
    );
    let asked = client.hear(|message| message["method"] == "workspace/configuration");
    assert_eq!(asked["params"]["items"][0]["section"], "drylay");
}

fn address(folder: &Path, name: &str) -> String {
    let path = folder.canonicalize().unwrap().join(name);
    format!("file://{}", path.to_str().unwrap())
}

#[cfg(target_os = "linux")]
#[test]
fn the_server_ends_when_its_client_is_gone() {
    let editor = Client::start();
    let mut client = Client::start();
    client.initialize(json!({"processId": editor.process(), "capabilities": {}}));
    editor.kill();
    assert_eq!(client.exit_code(), Some(1), "while its input is still open");
}

#[test]
fn every_spec_of_ours_is_answered_at_every_word() {
    let mut client = Client::with(json!({}));
    let specs = specs(&Path::new(env!("CARGO_MANIFEST_DIR")).join("specs"));
    assert!(specs.len() >= 8, "{specs:?}");
    for path in specs {
        let uri = format!("file://{}", path.to_str().unwrap());
        let text = fs::read_to_string(&path).unwrap();
        let findings = fresh(&mut client, &uri, &text);
        let all = json!({"textDocument": {"uri": uri}, "range": range((0, 0), (9_999, 0)),
            "context": {"diagnostics": findings}});
        let mut asked = vec![
            client.begin("textDocument/inlayHint", all.clone()),
            client.begin("textDocument/codeAction", all),
            client.begin("textDocument/documentSymbol", document(&uri)),
        ];
        for (number, line) in text.lines().enumerate() {
            for (column, _) in line.match_indices(' ') {
                let at = json!({"line": number, "character": column + 1});
                let params = json!({"textDocument": {"uri": uri}, "position": at});
                asked.push(client.begin("textDocument/hover", params));
            }
        }
        for number in asked {
            assert_eq!(error_code(&client.answer(number)), None, "{uri}");
        }
    }
}

/// Every spec in a folder and the folders in it.
fn specs(folder: &Path) -> Vec<std::path::PathBuf> {
    let mut found = Vec::new();
    for entry in fs::read_dir(folder).expect("the specs are there") {
        let path = entry.expect("it can be listed").path();
        if path.is_dir() {
            found.extend(specs(&path));
        } else if path.extension().is_some_and(|ending| ending == "patio") {
            found.push(path);
        }
    }
    found
}

#[test]
fn a_cancelled_request_is_answered_as_such_or_with_its_result() {
    let mut client = Client::with(json!({}));
    client.open(URI, "job \"Cancelled\"\n");
    let requests: Vec<i64> = (0..50)
        .map(|_| {
            let request = client.begin("textDocument/documentSymbol", document(URI));
            client.tell("$/cancelRequest", json!({ "id": request }));
            request
        })
        .collect();
    for request in requests {
        let answer = client.answer(request);
        assert!(
            matches!(error_code(&answer), None | Some(-32800)),
            "{answer}"
        );
    }
    assert_eq!(fresh(&mut client, TWIN, "job \"Next\"\n").len(), 0);
}

#[test]
fn a_document_is_laid_out_in_small_edits() {
    let mut client = Client::start();
    let reported = client.initialize(json!({"capabilities": {}}));
    let offered = &reported["result"]["capabilities"];
    assert_eq!(offered["documentFormattingProvider"], true);
    assert_eq!(offered["documentRangeFormattingProvider"], true);
    assert_eq!(
        offered["documentOnTypeFormattingProvider"]["firstTriggerCharacter"],
        "\n"
    );
    let options = json!({"tabSize": 8, "insertSpaces": false});
    let ask = |client: &mut Client, method: &str, more: Value| {
        let mut params = document(URI);
        let fields = params.as_object_mut().expect("an object");
        fields.insert("options".to_owned(), options.clone());
        fields.extend(more.as_object().expect("an object").clone());
        client.ask(&format!("textDocument/{method}"), params)["result"].clone()
    };
    assert_eq!(ask(&mut client, "formatting", json!({})), Value::Null);
    client.open(URI, "site\n  soil gravel\n  frost         3′\n");
    let value = json!({"range": range((1, 7), (1, 7)), "newText": "         "});
    let mark = json!({"range": range((2, 17), (2, 18)), "newText": "'"});
    assert_eq!(
        ask(&mut client, "formatting", json!({})),
        json!([value, mark])
    );
    let second = json!({"range": range((2, 0), (2, 1))});
    assert_eq!(ask(&mut client, "rangeFormatting", second), json!([mark]));
    let typed = json!({"position": {"line": 3, "character": 0}, "ch": "\n"});
    assert_eq!(
        ask(&mut client, "onTypeFormatting", typed),
        json!([{"range": range((3, 0), (3, 0)), "newText": "  "}])
    );
}

/// A small job that has nothing wrong but its fall.
const FLAT: &str = "job \"Kiln yard\"\n  units metric\n\nlet deep = 150 mm\n\nshape yard\n  rectangle 6 m by 4 m\n\n\
surface yard\n  shape yard\n  meets north\n  level -150 mm at north\n  fall 1:400 away from north\n  build gravel-set\n\n\
build gravel-set\n  paving concrete-paver, 60 mm\n  base crushed-stone, deep compacted\n";

fn place(uri: &str, line: u32, character: u32) -> Value {
    json!({"textDocument": {"uri": uri}, "position": {"line": line, "character": character}})
}

#[test]
fn words_are_completed_and_told_of_when_asked() {
    let snippets = json!({"completionItem": {"snippetSupport": true}});
    for (capabilities, has_stops) in [
        (json!({}), false),
        (json!({"textDocument": {"completion": snippets}}), true),
    ] {
        let mut client = Client::with(capabilities);
        client.open(URI, &format!("{FLAT}mix"));
        let offers = client.ask("textDocument/completion", place(URI, 18, 2))["result"].clone();
        let offers = offers.as_array().expect("offers");
        let mix = offers.iter().find(|offer| offer["label"] == "mix");
        let mix = mix.unwrap_or_else(|| panic!("{offers:?}"));
        let text = mix["textEdit"]["newText"].as_str().expect("a text");
        assert_eq!(text.contains("${"), has_stops, "{text}");
        assert_eq!(mix["insertTextFormat"] == 2, has_stops);
        assert_eq!(mix["textEdit"]["range"], range((18, 0), (18, 3)));
        assert!(mix.get("documentation").is_none());
        let reported = client.ask("completionItem/resolve", mix.clone())["result"].clone();
        let help = reported["documentation"]["value"].as_str().expect("help");
        assert!(help.contains("**mix**"), "{help}");
    }
}

#[test]
fn an_empty_spec_offers_whole_ones() {
    let mut client = Client::with(json!({}));
    for (text, at, is_offered) in [
        ("", (0, 0), true),
        ("a", (0, 1), true),
        ("# Mine.\n\n", (2, 0), true),
        ("job \"A\"\n\n", (2, 0), false),
    ] {
        client.open(URI, text);
        let offers = client.ask("textDocument/completion", place(URI, at.0, at.1));
        let first = offers["result"][0].clone();
        let label = first["label"].as_str().unwrap_or_default();
        let is_whole = label.starts_with("a patio in ");
        assert_eq!(is_whole, is_offered, "{text:?}: {first}");
        if is_offered {
            let text = first["textEdit"]["newText"].as_str().expect("a text");
            assert!(!text.contains("${") && text.starts_with("job \""), "{text}");
            let wrong = fresh(&mut client, TWIN, &format!("{text}\n"));
            assert!(wrong.iter().all(|one| one["severity"] != 1), "{wrong:?}");
            client.tell("textDocument/didClose", document(TWIN));
        }
        client.tell("textDocument/didClose", document(URI));
    }
}

#[test]
fn who_shows_no_markdown_is_told_in_plain_text() {
    for (formats, kind, title) in [
        (json!(null), "markdown", "**fall**"),
        (json!(["markdown", "plaintext"]), "markdown", "**fall**"),
        (json!(["plaintext"]), "plaintext", "fall · in a surface"),
        (
            json!(["plaintext", "markdown"]),
            "plaintext",
            "fall · in a surface",
        ),
    ] {
        let hover = match formats {
            Value::Null => json!({}),
            formats => json!({ "contentFormat": formats }),
        };
        let mut client = Client::with(json!({"textDocument": {"hover": hover}}));
        client.open(URI, FLAT);
        let shown = client.ask("textDocument/hover", place(URI, 12, 3))["result"].clone();
        let reported = shown["contents"]["value"].as_str().expect("a hover");
        assert_eq!(shown["contents"]["kind"], kind);
        assert!(reported.contains(title), "{reported}");
        if kind == "plaintext" {
            assert!(
                !reported.contains("**") && !reported.contains("```"),
                "{reported}"
            );
        }
    }
}

#[test]
fn a_material_reads_in_both_spellings() {
    for edging in ["aluminium-edge", "aluminum-edge"] {
        let mut client = Client::with(json!({}));
        let text = FLAT.replace("  fall", &format!("  edging {edging}, along free\n  fall"));
        let found = fresh(&mut client, URI, &text);
        let is_unknown = found.iter().any(|one| one["code"] == "name-unknown");
        assert!(!is_unknown, "{edging}: {found:?}");
        let shown = client.ask("textDocument/hover", place(URI, 12, 12))["result"].clone();
        let reported = shown["contents"]["value"].as_str().unwrap_or_default();
        assert!(reported.contains("**alumin"), "{reported}");
    }
}

#[test]
fn a_new_name_is_written_everywhere_or_refused() {
    let mut client = Client::with(json!({}));
    client.open(URI, FLAT);
    let prepared = client.ask("textDocument/prepareRename", place(URI, 17, 23));
    assert_eq!(prepared["result"], range((17, 22), (17, 26)), "{prepared}");
    let mut params = place(URI, 17, 23);
    params["newName"] = json!("thick");
    let renamed = client.ask("textDocument/rename", params.clone());
    let edits = &renamed["result"]["changes"][URI];
    assert_eq!(
        *edits,
        json!([
            {"range": range((3, 4), (3, 8)), "newText": "thick"},
            {"range": range((17, 22), (17, 26)), "newText": "thick"},
        ]),
        "{renamed}"
    );
    params["newName"] = json!("north");
    let refused = client.ask("textDocument/rename", params);
    let message = refused["error"]["message"].as_str().expect("a refusal");
    assert!(message.contains("a direction"), "{message}");
    let found = client.ask("textDocument/definition", place(URI, 9, 9));
    assert_eq!(found["result"][0]["range"], range((5, 6), (5, 10)));
}

#[test]
fn colours_that_have_changed_are_told_as_a_change() {
    let mut client = Client::with(json!({}));
    client.open(URI, FLAT);
    let full = client.ask("textDocument/semanticTokens/full", document(URI))["result"].clone();
    let data = full["data"].as_array().expect("numbers").clone();
    assert!(data.len() > 100 && data.len().is_multiple_of(5));
    client.change(
        URI,
        2,
        json!([{"range": range((3, 11), (3, 14)), "text": "1,150"}]),
    );
    let mut params = document(URI);
    params["previousResultId"] = full["resultId"].clone();
    let delta = client.ask("textDocument/semanticTokens/full/delta", params.clone());
    let edits = delta["result"]["edits"]
        .as_array()
        .expect("a change")
        .clone();
    let [edit] = edits.as_slice() else {
        panic!("{delta}")
    };
    let number = |name: &str| edit[name].as_u64().expect("a number") as usize;
    let (start, count) = (number("start"), number("deleteCount"));
    assert_eq!(count, 5, "{edit}");
    let mut changed = data;
    changed.splice(
        start..start + count,
        edit["data"].as_array().expect("numbers").clone(),
    );
    let whole = client.ask("textDocument/semanticTokens/full", document(URI))["result"].clone();
    assert_eq!(whole["data"], Value::from(changed));
    let again = client.ask("textDocument/semanticTokens/full/delta", params);
    assert!(again["result"]["data"].is_array(), "{again}");
}

#[test]
fn all_safe_fixes_are_made_only_when_asked_for() {
    let text = FLAT.replace("deep compacted", "deep compacted lifts 2");
    let mut client = Client::with(json!({}));
    client.open(URI, &text);
    let ask = |client: &mut Client, only: Value| {
        let context = json!({"diagnostics": [], "only": only});
        let params = json!({
            "textDocument": {"uri": URI}, "range": range((12, 8), (12, 8)), "context": context,
        });
        let answer = client.ask("textDocument/codeAction", params);
        let actions = answer["result"].as_array().expect("actions").clone();
        actions
            .iter()
            .map(|action| action["title"].as_str().expect("a title").to_owned())
            .collect::<Vec<_>>()
    };
    assert_eq!(
        ask(&mut client, json!(["source.fixAll"])),
        ["Make all safe fixes"]
    );
    let offered = ask(&mut client, Value::Null);
    assert!(
        offered.contains(&"Accept fall-flat with a reason".to_owned()),
        "{offered:?}"
    );
    assert!(!offered.contains(&"Make all safe fixes".to_owned()));
}
