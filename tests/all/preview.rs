//! `drylay preview`: real requests, and a real browser.

use std::io::{BufRead, BufReader, Read, Write};
use std::net::TcpStream;
use std::path::Path;
use std::process::{Child, Stdio};
use std::time::Duration;

use crate::driving::driven;
use crate::folder::repository;
use crate::tools::command;
use crate::vscode::node;

/// The program showing a spec; it ends with this.
struct Shown {
    child: Child,
    /// The name under which it is reached: `127.0.0.1:41234`.
    name: String,
}

impl Shown {
    fn of(folder: &Path, spec: &str) -> Shown {
        let mut child = command(env!("CARGO_BIN_EXE_drylay"), folder)
            .args(["preview", spec])
            .stderr(Stdio::piped())
            .spawn()
            .expect("it starts");
        let mut said = String::new();
        let errors = child.stderr.take().expect("what it says");
        BufReader::new(errors)
            .read_line(&mut said)
            .expect("it says where it is");
        let (_, rest) = said.split_once("http://").expect(&said);
        let (name, _) = rest.split_once('/').expect(&said);
        Shown {
            child,
            name: name.to_owned(),
        }
    }

    /// What a request as it stands is answered: the status, and all of it.
    fn asked(&self, request: &str) -> (String, String) {
        let mut stream = TcpStream::connect(&self.name).expect("it listens");
        let patience = Some(Duration::from_secs(20));
        stream.set_read_timeout(patience).expect("a time");
        stream.write_all(request.as_bytes()).expect("it is sent");
        let mut answer = String::new();
        // The events never end: their beginning is enough.
        let mut part = [0; 4096];
        while let Ok(count @ 1..) = stream.read(&mut part) {
            answer += &String::from_utf8_lossy(&part[..count]);
            if answer.contains("event: job\ndata: ") {
                break;
            }
        }
        let status = answer.split(' ').nth(1).unwrap_or_default().to_owned();
        (status, answer)
    }

    fn get(&self, path: &str, headers: &[&str]) -> (String, String) {
        let headers: String = headers.iter().map(|line| format!("{line}\r\n")).collect();
        self.asked(&format!(
            "GET {path} HTTP/1.1\r\n{headers}Connection: close\r\n\r\n"
        ))
    }
}

impl Drop for Shown {
    fn drop(&mut self) {
        // It may have ended by itself.
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}

fn folder() -> tempfile::TempDir {
    let folder = tempfile::tempdir().expect("a folder");
    std::fs::write(folder.path().join("secret.txt"), "not for the page").expect("a file");
    std::fs::write(
        folder.path().join("yard.patio"),
        "job \"Yard\"\n  units metric\nshape yard\n  rectangle 6 m by 4 m\nsurface yard\n  shape yard\n",
    )
    .expect("a spec");
    folder
}

#[test]
fn the_page_is_for_this_machine_alone() {
    let folder = folder();
    let shown = Shown::of(folder.path(), "yard.patio");
    assert!(shown.name.starts_with("127.0.0.1:"), "{}", shown.name);
    let host = format!("Host: {}", shown.name);
    let own = [host.as_str()];
    for (path, kind, said) in [
        ("/", "text/html", "<section id=\"findings\">"),
        ("/page.css", "text/css", "@font-face"),
        ("/page.js", "text/javascript", "EventSource"),
        ("/events", "text/event-stream", "\"title\":\"Yard\""),
    ] {
        let (status, answer) = shown.get(path, &own);
        assert_eq!(status, "200", "{path}: {answer}");
        for held in [kind, said, "default-src 'none'", "nosniff", "no-store"] {
            assert!(answer.contains(held), "{path} lacks {held}");
        }
        assert!(!answer.contains("access-control-allow-origin"), "{path}");
    }
    let port = shown.name.rsplit(':').next().expect("a port");
    let foreign = format!("Host: patio.example:{port}");
    for (headers, expected) in [
        (vec![foreign.as_str()], "403"),
        (vec![], "403"),
        (vec![&host, "Origin: https://patio.example"], "403"),
        (vec![&host, "Origin: null"], "403"),
        (vec![&host, "Sec-Fetch-Site: cross-site"], "403"),
    ] {
        for path in ["/", "/events"] {
            let (status, answer) = shown.get(path, &headers);
            assert_eq!(status, expected, "{path} {headers:?}");
            assert!(!answer.contains("Yard"), "{path} {headers:?}");
        }
    }
    for path in [
        "/yard.patio",
        "/secret.txt",
        "/../secret.txt",
        "/page.js/../../secret.txt",
        "/%2e%2e/secret.txt",
        "//secret.txt",
        "/events?",
    ] {
        let (status, answer) = shown.get(path, &own);
        assert_eq!(status, "404", "{path}");
        assert!(!answer.contains("not for the page"), "{path}");
    }
    let (status, _) = shown.get("http://patio.example/", &own);
    assert_eq!(status, "403");
    let post =
        format!("POST / HTTP/1.1\r\n{host}\r\nContent-Length: 0\r\nConnection: close\r\n\r\n");
    assert_eq!(shown.asked(&post).0, "405");
    assert_eq!(shown.asked("nothing that is a request\r\n\r\n").0, "400");
    let (status, _) = shown.get("/", &own);
    assert_eq!(status, "200", "it goes on after all of that");
}

#[test]
fn what_cannot_be_shown_is_told_at_once() {
    let folder = folder();
    let shown = Shown::of(folder.path(), "yard.patio");
    let port = shown.name.rsplit(':').next().expect("a port").to_owned();
    for (arguments, reported) in [
        (&["preview", "nowhere.patio"][..], "nowhere.patio"),
        (&["preview", "--port", &port, "yard.patio"], &port),
    ] {
        let mut asked = command(env!("CARGO_BIN_EXE_drylay"), folder.path());
        let output = asked.args(arguments).output().expect("it runs");
        let said = String::from_utf8_lossy(&output.stderr).into_owned();
        assert_eq!(output.status.code(), Some(2), "{said}");
        assert!(said.contains(reported), "{said}");
    }
}

#[test]
fn a_browser_shows_the_job_and_follows_it() {
    let Some(node) = node() else { return };
    let mut command = command(node, &repository());
    command.arg("tests/editors/preview.mjs");
    driven(command, 9);
}
