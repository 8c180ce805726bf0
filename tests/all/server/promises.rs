//! What an editor shows is never behind: whatever is typed, at each pause it
//! holds what a fresh look at the same text gives.

use serde_json::{Value, json};

use super::client::Client;
use super::folder::Folder;
use super::{FLAT, URI, document, range, utf16, whole_break};
use crate::random::{Random, cases};
use crate::vocabulary::piece;

/// What is typed or pasted.
const PIECES: &[&str] = &[
    "\n",
    "\r\n",
    "  ",
    " ",
    "x",
    "1",
    "50",
    "½",
    "𝄞",
    "e\u{301}",
    "\"",
    "(",
    ")",
    ", ",
    " mm",
    "'",
    "#",
    "-",
    "  level -1 in at north\n",
    "let deep = 100 mm\n",
    "let other = gap * 2\n",
    "surface lawn\n  shape yard\n",
    "mix bed-mix\n  parts 1 portland-cement : 4 sharp-sand\n",
    "  accept fall-flat, because \"it drains\"\n",
    "use \"library.patio\"\n",
    "\u{feff}",
];

const LIBRARY: &str = "let gap = 4 mm\n\nmaterial hard-stone\n  like crushed-stone\n";

/// A text in the editor, as both sides know it.
struct Edited {
    uri: String,
    text: String,
    version: i32,
}

impl Edited {
    fn open(client: &mut Client, uri: String, text: String) -> Edited {
        client.open(&uri, &text);
        let version = 1;
        Edited { uri, text, version }
    }

    /// Makes one to three random changes in one message.
    fn edit(&mut self, client: &mut Client, random: &mut Random) {
        let count = 1 + random.below(3);
        let changes: Vec<Value> = (0..count).map(|_| self.change(random)).collect();
        self.version += 1;
        client.change(&self.uri, self.version, json!(changes));
    }

    fn change(&mut self, random: &mut Random) -> Value {
        let places: Vec<usize> = self.text.char_indices().map(|(at, _)| at).collect();
        let from = random.below(places.len() + 1);
        let longest = if random.once_in(6) { 40 } else { 3 };
        let to = (from + random.below(longest)).min(places.len());
        let byte = |index: usize| places.get(index).copied().unwrap_or(self.text.len());
        let from = whole_break(&self.text, byte(from));
        let to = whole_break(&self.text, byte(to)).max(from);
        let new = piece(random, PIECES);
        let change =
            json!({"range": range(utf16(&self.text, from), utf16(&self.text, to)), "text": new});
        self.text.replace_range(from..to, new);
        change
    }

    /// Takes all of it back.
    fn restore(&mut self, client: &mut Client, text: &str) {
        self.text = text.to_owned();
        self.version += 1;
        client.change(&self.uri, self.version, json!([{"text": text}]));
    }
}

/// Waits until the server has nothing left to say of a document.
fn pause(client: &mut Client, uri: &str, number: usize) {
    client.ask("textDocument/documentSymbol", document(uri));
    let uri = format!("untitled:pause-{number}");
    client.open(&uri, "");
    client.findings(&uri, Some(1));
    client.tell("textDocument/didClose", document(&uri));
}

/// The findings of a document as the client holds them, with their version.
fn held(client: &mut Client, uri: &str) -> Option<Value> {
    let is_of_it = |message: &Value| {
        message["method"] == "textDocument/publishDiagnostics" && message["params"]["uri"] == uri
    };
    let mut last = None;
    while client.has_heard(is_of_it) {
        last = Some(client.hear(is_of_it)["params"].clone());
    }
    last
}

/// The colours of a document as a client keeps them.
#[derive(Default)]
struct Colours {
    id: Value,
    data: Vec<Value>,
}

impl Colours {
    /// Asks for what has changed, and makes the changes.
    fn refresh(&mut self, client: &mut Client, uri: &str) {
        let mut params = document(uri);
        params["previousResultId"] = self.id.clone();
        let answer = match self.id.is_null() {
            true => client.ask("textDocument/semanticTokens/full", document(uri)),
            false => client.ask("textDocument/semanticTokens/full/delta", params),
        };
        let result = &answer["result"];
        self.id = result["resultId"].clone();
        match result["edits"].as_array() {
            None => self.data = result["data"].as_array().expect("colours").clone(),
            Some(edits) => {
                for edit in edits {
                    let number = |name: &str| edit[name].as_u64().expect("a number") as usize;
                    let (start, count) = (number("start"), number("deleteCount"));
                    let new = edit["data"].as_array().cloned().unwrap_or_default();
                    self.data.splice(start..start + count, new);
                }
            }
        }
    }
}

/// What a client shows of a document, its findings and colours aside.
fn shown(client: &mut Client, uri: &str) -> String {
    let mut all = document(uri);
    all["range"] = range((0, 0), (9_999, 0));
    let mut view = document(uri);
    view["range"] = range((5, 0), (12, 0));
    let mut layout = document(uri);
    layout["options"] = json!({"tabSize": 2, "insertSpaces": true});
    let asked = [
        client.begin("textDocument/inlayHint", all),
        client.begin("textDocument/semanticTokens/range", view),
        client.begin("textDocument/formatting", layout),
        client.begin("textDocument/documentSymbol", document(uri)),
        client.begin("textDocument/foldingRange", document(uri)),
        client.begin("textDocument/codeLens", document(uri)),
        client.begin("textDocument/documentLink", document(uri)),
    ];
    let answers = asked.map(|number| client.answer(number)["result"].to_string());
    answers.join("\n")
}

// Takes half a minute of a processor: at each of a thousand pauses the text is
// opened once more as another file, and all that is shown is asked of both.
#[test]
fn what_is_held_at_a_pause_is_what_a_fresh_look_gives() {
    let folder = Folder::with(&[]);
    let spec = format!("use \"library.patio\"\n\n{FLAT}");
    let mut random = Random::new("pauses");
    let mut client = Client::with(json!({}));
    let mut library = Edited::open(&mut client, folder.uri("library.patio"), LIBRARY.to_owned());
    let mut own = Edited::open(&mut client, folder.uri("a.patio"), spec.clone());
    let twin = folder.uri("b.patio");
    let mut colours = Colours::default();
    let mut findings = Value::Null;
    let scripts = cases(1_000);
    for script in 0..scripts {
        if random.once_in(8) {
            own.restore(&mut client, &spec);
            library.restore(&mut client, LIBRARY);
        }
        for _ in 0..1 + random.below(4) {
            match random.once_in(5) {
                true => library.edit(&mut client, &mut random),
                false => own.edit(&mut client, &mut random),
            }
        }
        pause(&mut client, &own.uri, script);
        findings = held(&mut client, &own.uri).unwrap_or(findings);
        assert_eq!(findings["version"], own.version, "script {script}");
        let shown_own = shown(&mut client, &own.uri);
        colours.refresh(&mut client, &own.uri);

        client.open(&twin, &own.text);
        let fresh = client.findings(&twin, Some(1));
        let fresh = json!(fresh).to_string().replace(&twin, &own.uri);
        let described = || format!("script {script}\n{}\n---\n{}", own.text, library.text);
        assert_eq!(
            findings["diagnostics"].to_string(),
            fresh,
            "{}",
            described()
        );
        let shown_twin = shown(&mut client, &twin).replace(&twin, &own.uri);
        assert_eq!(shown_own, shown_twin, "{}", described());
        let mut whole = Colours::default();
        whole.refresh(&mut client, &twin);
        assert_eq!(colours.data, whole.data, "{}", described());
        client.tell("textDocument/didClose", document(&twin));
        held(&mut client, &twin);
    }
}

#[test]
fn every_answer_is_for_the_text_as_it_was_when_it_was_asked_for() {
    let mut client = Client::with(json!({}));
    client.open(URI, "let gap = 0 mm\nlet twice = 2 * gap\n");
    let mut asked = Vec::new();
    for version in 2..300 {
        let line = json!({"line": 0, "character": 5});
        let text = format!("let gap = {version} mm\nlet twice = 2 * gap\n");
        client.change(URI, version, json!([{"text": text}]));
        let mut all = document(URI);
        all["range"] = range((0, 0), (9, 0));
        let mut at = document(URI);
        at["position"] = line;
        asked.push((version, client.begin("textDocument/inlayHint", all)));
        asked.push((version, client.begin("textDocument/hover", at)));
        asked.push((
            version,
            client.begin("textDocument/documentSymbol", document(URI)),
        ));
    }
    for (version, number) in asked {
        let answer = client.answer(number)["result"].to_string();
        let forms = [format!("= {version} mm"), format!("\"{version} mm\"")];
        assert!(
            forms.iter().any(|form| answer.contains(form)),
            "{version}: {answer}"
        );
    }
}

/// Every request about a document, with what it takes besides the document.
fn requests(random: &mut Random) -> Vec<(&'static str, Value)> {
    const FAR: [u32; 3] = [0, 9_999, u32::MAX];
    let mut place = || match random.once_in(4) {
        true => json!({"line": *random.pick(&FAR), "character": *random.pick(&FAR)}),
        false => json!({"line": random.below(30), "character": random.below(50)}),
    };
    let (at, from, to) = (place(), place(), place());
    let position = json!({"position": at});
    let range = json!({"range": {"start": from, "end": to}});
    let with = |base: &Value, more: Value| {
        let mut params = base.clone();
        let fields = params.as_object_mut().expect("an object");
        fields.extend(more.as_object().expect("an object").clone());
        params
    };
    let layout = json!({"options": {"tabSize": 2, "insertSpaces": true}});
    vec![
        ("textDocument/hover", position.clone()),
        ("textDocument/completion", position.clone()),
        ("textDocument/signatureHelp", position.clone()),
        ("textDocument/definition", position.clone()),
        (
            "textDocument/references",
            with(&position, json!({"context": {"includeDeclaration": true}})),
        ),
        ("textDocument/documentHighlight", position.clone()),
        ("textDocument/prepareRename", position.clone()),
        (
            "textDocument/rename",
            with(&position, json!({"newName": "quite-new"})),
        ),
        (
            "textDocument/selectionRange",
            json!({"positions": [at, from]}),
        ),
        (
            "textDocument/onTypeFormatting",
            with(&position, with(&layout, json!({"ch": "\n"}))),
        ),
        ("textDocument/formatting", layout.clone()),
        ("textDocument/rangeFormatting", with(&range, layout)),
        (
            "textDocument/codeAction",
            with(&range, json!({"context": {"diagnostics": []}})),
        ),
        ("textDocument/inlayHint", range.clone()),
        ("textDocument/semanticTokens/range", range),
        ("textDocument/semanticTokens/full", json!({})),
        (
            "textDocument/semanticTokens/full/delta",
            json!({"previousResultId": "no such"}),
        ),
        ("textDocument/documentSymbol", json!({})),
        ("textDocument/foldingRange", json!({})),
        ("textDocument/documentLink", json!({})),
        ("textDocument/codeLens", json!({})),
        ("textDocument/diagnostic", json!({})),
    ]
}

/// Asks everything about a document; gives what was refused as a fault.
fn faults(client: &mut Client, uri: &str, random: &mut Random) -> Vec<String> {
    let asked: Vec<(&str, i64)> = requests(random)
        .into_iter()
        .map(|(method, mut params)| {
            params["textDocument"] = json!({ "uri": uri });
            (method, client.begin(method, params))
        })
        .collect();
    let mut faults = Vec::new();
    for (method, number) in asked {
        let answer = client.answer(number);
        // A refusal in words is an answer; a fault of the server's is none.
        if answer["error"]["code"]
            .as_i64()
            .is_some_and(|code| code != -32_602)
        {
            faults.push(format!("{method}: {answer}"));
        }
    }
    faults
}

#[test]
fn no_request_about_any_text_takes_the_server_down() {
    let mut random = Random::new("requests");
    let mut client = Client::with(json!({}));
    for uri in [
        URI,
        "file:///no/such.patio",
        "file:///",
        "git:/a.patio?HEAD",
    ] {
        assert_eq!(
            faults(&mut client, uri, &mut random),
            [] as [&str; 0],
            "{uri}"
        );
    }
    let mut own = Edited::open(&mut client, URI.to_owned(), FLAT.to_owned());
    for round in 0..cases(60) {
        if random.once_in(10) {
            own.restore(&mut client, FLAT);
        }
        (0..random.below(8)).for_each(|_| own.edit(&mut client, &mut random));
        let faults = faults(&mut client, URI, &mut random);
        assert_eq!(faults, [] as [&str; 0], "round {round}\n{}", own.text);
    }
    for command in ["drylay.document.takeoff", "drylay.document.standard"] {
        for argument in [
            json!({"uri": URI}),
            json!({"uri": "x:"}),
            json!(7),
            Value::Null,
        ] {
            let params = json!({"command": command, "arguments": [argument]});
            let answer = client.ask("workspace/executeCommand", params);
            assert_ne!(answer["error"]["code"], -32_603, "{answer}");
        }
    }
    assert!(!client.has_heard(|message| message["method"] == "window/logMessage"));
}

/// The text after an action's changes of it, if they can be made: inside it
/// and apart. It has no sign that takes two units of UTF-16.
fn acted(text: &str, edits: &[Value]) -> Option<String> {
    let at = |place: &Value| -> Option<usize> {
        let (line, column) = (place["line"].as_u64()?, place["character"].as_u64()?);
        let start: usize = text
            .split_inclusive('\n')
            .take(line as usize)
            .map(str::len)
            .sum();
        let line = text.get(start..)?.lines().next().unwrap_or_default();
        let mut letters = line.char_indices().map(|(at, _)| at).chain([line.len()]);
        Some(start + letters.nth(column as usize)?)
    };
    let mut spans: Vec<(usize, usize, &str)> = Vec::new();
    for edit in edits {
        let range = &edit["range"];
        spans.push((
            at(&range["start"])?,
            at(&range["end"])?,
            edit["newText"].as_str()?,
        ));
    }
    spans.sort();
    let mut acted = String::new();
    let mut from = 0;
    for (start, end, new) in spans {
        acted += text.get(from..start)?;
        acted += new;
        from = end;
    }
    Some(acted + text.get(from..)?)
}

#[test]
fn every_action_can_be_made_in_the_text_that_it_was_offered_for() {
    let mut random = Random::new("actions");
    let mut client = Client::with(json!({
        "workspace": {"workspaceEdit": {"documentChanges": true}},
    }));
    let mut own = Edited::open(&mut client, URI.to_owned(), FLAT.to_owned());
    let mut made = 0;
    for round in 0..cases(80) {
        if random.once_in(6) {
            own.restore(&mut client, FLAT);
        }
        own.edit(&mut client, &mut random);
        if own.text.contains(['\r', '𝄞', '\u{feff}']) {
            own.restore(&mut client, FLAT);
        }
        let mut all = document(URI);
        all["range"] = range((0, 0), (9_999, 0));
        let line = own.text.lines().count() / 2 + random.below(3);
        let at = (line as u32, random.below(20) as u32);
        let mut here = document(URI);
        here["range"] = range(at, at);
        for mut params in [all, here] {
            params["context"] = json!({"diagnostics": [], "only": ["", "source.fixAll"]});
            let answer = client.ask("textDocument/codeAction", params);
            for action in answer["result"].as_array().expect("actions") {
                let changes = action["edit"]["documentChanges"]
                    .as_array()
                    .expect("changes");
                for change in changes {
                    assert_eq!(change["textDocument"]["uri"], URI);
                    assert_eq!(change["textDocument"]["version"], own.version, "{action}");
                    let edits = change["edits"].as_array().expect("edits");
                    let text = acted(&own.text, edits);
                    assert!(text.is_some(), "round {round}: {action}\n{}", own.text);
                    assert_ne!(text.as_deref(), Some(&*own.text), "{action}");
                    made += 1;
                }
            }
        }
    }
    assert!(made > 400, "{made} actions");
}

// Takes over ten seconds: what leaks a little at each edit shows after very
// many.
#[cfg(target_os = "linux")]
#[test]
fn memory_does_not_grow_with_edits() {
    /// How many edits are made, and after how many of them it is first looked
    /// at: by then everything that is held once is held.
    const EDITS: usize = 50_000;
    const SETTLED: usize = 10_000;
    /// What the allocator may keep to itself.
    const SLACK_KB: usize = 8_000;

    let mut client = Client::with(json!({}));
    client.open(URI, FLAT);
    let mut settled = 0;
    let mut length = "let deep = 150 mm".len() as u32;
    for edit in 1..=EDITS {
        // A name and a value that were never there before.
        let line = format!("let deep-{edit} = {edit} mm");
        let change = json!([{"range": range((3, 0), (3, length)), "text": line}]);
        length = line.len() as u32;
        client.change(URI, edit as i32 + 1, change);
        if edit % 100 == 0 {
            shown(&mut client, URI);
            client.ask("textDocument/semanticTokens/full", document(URI));
            held(&mut client, URI);
        }
        if edit == SETTLED {
            settled = resident(client.process());
        }
    }
    let ended = resident(client.process());
    assert!(
        ended < settled + SLACK_KB,
        "{settled} kB after {SETTLED} edits, {ended} kB after {EDITS}"
    );
}

/// The memory that a process holds, in kB.
#[cfg(target_os = "linux")]
fn resident(process: u32) -> usize {
    let status = std::fs::read_to_string(format!("/proc/{process}/status")).expect("a process");
    let line = status.lines().find_map(|line| line.strip_prefix("VmRSS:"));
    let words = line.expect("its memory").split_whitespace();
    words
        .map(|word| word.parse().unwrap_or(0))
        .max()
        .unwrap_or(0)
}
