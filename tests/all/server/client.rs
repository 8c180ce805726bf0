//! A client that says what it is told to and remembers what it hears.

use std::collections::VecDeque;
use std::io::{BufRead, BufReader, Write};
use std::process::{Child, ChildStdin, Command, Stdio};
use std::sync::mpsc::{Receiver, RecvTimeoutError, channel};
use std::thread;
use std::time::Duration;

use serde_json::{Value, json};

/// How long anything may take on a busy machine before the test is given up.
const PATIENCE: Duration = Duration::from_secs(120);

/// A server in a process of its own, and the client's end of its pipes.
pub struct Client {
    child: Child,
    input: Option<ChildStdin>,
    heard: Receiver<Value>,
    /// Notifications that nobody has asked for yet, in order.
    waiting: VecDeque<Value>,
    asked: i64,
    /// What it answers when it is asked for its settings, by the address of
    /// the folder or an empty one.
    pub settings: Value,
}

impl Client {
    /// Starts a server and says nothing.
    pub fn start() -> Client {
        let mut child = Command::new(env!("CARGO_BIN_EXE_drylay"))
            .arg("serve")
            .stdin(Stdio::piped())
            .stdout(Stdio::piped())
            .spawn()
            .expect("the server starts");
        let output = child.stdout.take().expect("its output is piped");
        let (say, heard) = channel();
        thread::spawn(move || {
            let mut output = BufReader::new(output);
            while let Some(message) = read(&mut output) {
                if say.send(message).is_err() {
                    return;
                }
            }
        });
        let input = child.stdin.take();
        Client {
            child,
            input,
            heard,
            waiting: VecDeque::new(),
            asked: 0,
            settings: Value::Null,
        }
    }

    /// Starts a server and initializes it with these capabilities.
    pub fn with(capabilities: Value) -> Client {
        let mut client = Client::start();
        client.initialize(json!({ "capabilities": capabilities }));
        client
    }

    /// Initializes the server; gives what it answers.
    pub fn initialize(&mut self, params: Value) -> Value {
        let answer = self.ask("initialize", params);
        self.tell("initialized", json!({}));
        answer
    }

    /// Writes bytes as they are.
    pub fn write(&mut self, bytes: &[u8]) {
        let input = self.input.as_mut().expect("the input is open");
        // A server that has ended does not read; what it says is tested.
        let _ = input.write_all(bytes).and_then(|()| input.flush());
    }

    /// Writes a message.
    pub fn say(&mut self, message: &Value) {
        let body = message.to_string();
        self.write(format!("Content-Length: {}\r\n\r\n{body}", body.len()).as_bytes());
    }

    /// Writes a notification.
    pub fn tell(&mut self, method: &str, params: Value) {
        self.say(&json!({"jsonrpc": "2.0", "method": method, "params": params}));
    }

    /// Writes a request; gives its number.
    pub fn begin(&mut self, method: &str, params: Value) -> i64 {
        self.asked += 1;
        self.say(&json!({"jsonrpc": "2.0", "id": self.asked, "method": method, "params": params}));
        self.asked
    }

    /// Writes a request and waits for its whole answer.
    pub fn ask(&mut self, method: &str, params: Value) -> Value {
        let number = self.begin(method, params);
        self.answer(number)
    }

    /// Waits for the whole answer to a request.
    pub fn answer(&mut self, number: impl Into<Value>) -> Value {
        let number = number.into();
        self.hear(|message| message.get("method").is_none() && message["id"] == number)
    }

    /// Waits for the next message that is wanted, one of those already heard
    /// first. Requests of the server's own are answered with null, but for those
    /// for settings.
    pub fn hear(&mut self, wanted: impl Fn(&Value) -> bool) -> Value {
        if let Some(found) = self.waiting.iter().position(&wanted) {
            return self.waiting.remove(found).expect("it was just found");
        }
        loop {
            let message = match self.heard.recv_timeout(PATIENCE) {
                Ok(message) => message,
                Err(RecvTimeoutError::Disconnected) => panic!("the server has ended"),
                Err(RecvTimeoutError::Timeout) => panic!("the server keeps silent"),
            };
            if message.get("method").is_some() && message.get("id").is_some() {
                let result = self.result(&message);
                self.say(&json!({"jsonrpc": "2.0", "id": message["id"], "result": result}));
            }
            if wanted(&message) {
                return message;
            }
            self.waiting.push_back(message);
        }
    }

    /// What it answers to a request of the server's own.
    fn result(&self, request: &Value) -> Value {
        let items = request["params"]["items"].as_array();
        let items = items.filter(|_| request["method"] == "workspace/configuration");
        let Some(items) = items.filter(|_| self.settings.is_object()) else {
            return Value::Null;
        };
        let of = |item: &Value| {
            let folder = item["scopeUri"].as_str().unwrap_or_default();
            self.settings[folder].clone()
        };
        items.iter().map(of).collect()
    }

    /// Whether such a message was heard and not taken.
    pub fn has_heard(&self, wanted: impl Fn(&Value) -> bool) -> bool {
        self.waiting.iter().any(wanted)
    }

    /// Whether such a message comes in a short while, or came before; it stays
    /// to be taken.
    pub fn would_hear(&mut self, wanted: impl Fn(&Value) -> bool) -> bool {
        if let Ok(message) = self.heard.recv_timeout(Duration::from_millis(200)) {
            self.waiting.push_back(message);
        }
        self.has_heard(wanted)
    }

    /// Waits for a document's findings of a version, or of no version.
    pub fn findings(&mut self, uri: &str, version: Option<i32>) -> Vec<Value> {
        let heard = self.hear(|message| {
            message["method"] == "textDocument/publishDiagnostics"
                && message["params"]["uri"] == uri
                && message["params"]["version"] == json!(version)
        });
        heard["params"]["diagnostics"]
            .as_array()
            .expect("a list")
            .clone()
    }

    /// The versions of a document's findings that were heard and not taken.
    pub fn versions(&self, uri: &str) -> Vec<i64> {
        let findings = self
            .waiting
            .iter()
            .filter(|message| message["params"]["uri"] == uri);
        findings
            .filter_map(|message| message["params"]["version"].as_i64())
            .collect()
    }

    /// Opens a document.
    pub fn open(&mut self, uri: &str, text: &str) {
        let item = json!({"uri": uri, "languageId": "patio", "version": 1, "text": text});
        self.tell("textDocument/didOpen", json!({ "textDocument": item }));
    }

    /// Changes a document.
    pub fn change(&mut self, uri: &str, version: i32, changes: Value) {
        let document = json!({"uri": uri, "version": version});
        self.tell(
            "textDocument/didChange",
            json!({"textDocument": document, "contentChanges": changes}),
        );
    }

    /// Closes the server's input.
    pub fn hang_up(&mut self) {
        self.input = None;
    }

    /// Waits for the server to end; gives its exit status.
    pub fn exit_code(mut self) -> Option<i32> {
        let (done, ended) = channel();
        let child = self.child.id();
        thread::spawn(move || {
            if ended.recv_timeout(PATIENCE) == Err(RecvTimeoutError::Timeout) {
                eprintln!("server {child} does not end");
                std::process::abort();
            }
        });
        let code = self.child.wait().expect("it was started").code();
        let _ = done.send(());
        code
    }

    /// Ends the server, however it feels about it.
    pub fn kill(mut self) {
        let _ = self.child.kill();
        let _ = self.child.wait();
    }

    /// The server's process.
    pub fn process(&self) -> u32 {
        self.child.id()
    }
}

impl Drop for Client {
    fn drop(&mut self) {
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}

fn read(from: &mut impl BufRead) -> Option<Value> {
    let mut length = 0;
    loop {
        let mut line = String::new();
        if from.read_line(&mut line).ok()? == 0 {
            return None;
        }
        match line.trim().split_once(": ") {
            Some(("Content-Length", value)) => length = value.parse().ok()?,
            _ if line.trim().is_empty() => break,
            _ => panic!("{line:?} is no header"),
        }
    }
    let mut body = vec![0; length];
    from.read_exact(&mut body).ok()?;
    Some(serde_json::from_slice(&body).expect("the server writes JSON"))
}
