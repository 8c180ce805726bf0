//! The pictures of the README: what the program writes on a screen, drawn,
//! and a plan as it draws one itself.
//!
//! `DRYLAY_REFRESH=1 cargo test pictures` draws them anew.

use std::fmt::Write;
use std::process::Command;

use crate::folder::repository;

/// A picture: its name, the command in it, and how many lines of what it
/// writes are shown; an ellipsis stands for the rest.
const PICTURES: [(&str, &str, usize); 2] = [
    ("check", "check specs/mistakes/weir-lane-draft.patio", 32),
    ("takeoff", "takeoff specs/weir-lane.patio", 32),
];

/// The size of a character, of a line and of the margin.
const ADVANCE: f64 = 8.4;
const LINE: usize = 19;
const MARGIN: usize = 18;

#[test]
fn pictures_are_up_to_date() {
    let folder = repository().join("specs/pictures");
    let mut stale = Vec::new();
    let screens =
        PICTURES.map(|(name, command, lines)| (name, picture(command, &written(command), lines)));
    let plan = ("plan", written("drawing specs/weir-lane.patio"));
    for (name, drawn) in screens.into_iter().chain([plan]) {
        let path = folder.join(format!("{name}.svg"));
        if std::env::var_os("DRYLAY_REFRESH").is_some() {
            std::fs::create_dir_all(&folder).expect("the folder can be made");
            std::fs::write(&path, drawn).expect("the picture can be kept");
        } else if std::fs::read_to_string(&path).ok() != Some(drawn) {
            stale.push(name);
        }
    }
    assert!(
        stale.is_empty(),
        "{stale:?} show something else: run with DRYLAY_REFRESH=1"
    );
}

/// What the program writes on a screen.
fn written(command: &str) -> String {
    let output = Command::new(env!("CARGO_BIN_EXE_drylay"))
        .current_dir(repository())
        .args(["--color", "always"])
        .args(command.split(' '))
        .output()
        .expect("the program runs");
    assert_ne!(output.status.code(), Some(2), "{command}");
    String::from_utf8(output.stdout).expect("it writes text")
}

/// How characters are drawn.
#[derive(Clone, Copy, Default)]
struct Look {
    colour: Option<&'static str>,
    is_bold: bool,
    is_dim: bool,
    is_underlined: bool,
}

impl Look {
    /// After one of the codes that a screen is told.
    fn after(self, code: &str) -> Look {
        let coloured = |colour| Look {
            colour: Some(colour),
            ..self
        };
        match code {
            "" | "0" => Look::default(),
            "1" => Look {
                is_bold: true,
                ..self
            },
            "2" => Look {
                is_dim: true,
                ..self
            },
            "4" => Look {
                is_underlined: true,
                ..self
            },
            "31" => coloured("#ff7b72"),
            "32" => coloured("#7ee787"),
            "33" => coloured("#e3b341"),
            "35" => coloured("#d2a8ff"),
            "36" => coloured("#79c0ff"),
            other => panic!("no colour is chosen for {other}"),
        }
    }

    fn attributes(self) -> String {
        let mut text = String::new();
        if let Some(colour) = self.colour {
            let _ = write!(text, " fill=\"{colour}\"");
        }
        for (is_so, attribute) in [
            (self.is_bold, " font-weight=\"bold\""),
            (self.is_dim, " opacity=\"0.6\""),
            (self.is_underlined, " text-decoration=\"underline\""),
        ] {
            text += if is_so { attribute } else { "" };
        }
        text
    }
}

/// What is written, on a dark screen.
fn picture(command: &str, written: &str, shown: usize) -> String {
    let all: Vec<&str> = written.trim_end().lines().collect();
    let mut lines = vec![
        format!("\u{1b}[32m$\u{1b}[0m \u{1b}[1mdrylay {command}\u{1b}[0m"),
        String::new(),
    ];
    lines.extend(all.iter().take(shown).map(|line| (*line).to_owned()));
    if all.len() > shown {
        lines.extend([String::new(), "\u{1b}[2m…\u{1b}[0m".to_owned()]);
    }
    let mut look = Look::default();
    let (mut text, mut widest) = (String::new(), 0);
    for (row, line) in lines.iter().enumerate() {
        widest = widest.max(draw(
            line,
            MARGIN + row * LINE + LINE - 5,
            &mut look,
            &mut text,
        ));
    }
    let (width, height) = (x(widest) + MARGIN as f64, 2 * MARGIN + lines.len() * LINE);
    format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {width:.0} {height}\" width=\"{width:.0}\" height=\"{height}\">\n\
         <rect width=\"100%\" height=\"100%\" rx=\"8\" fill=\"#161b22\"/>\n\
         <g font-family=\"ui-monospace, Menlo, Consolas, 'DejaVu Sans Mono', monospace\" font-size=\"14\" fill=\"#e6edf3\" xml:space=\"preserve\">\n\
         {text}</g>\n</svg>\n"
    )
}

fn x(column: usize) -> f64 {
    MARGIN as f64 + column as f64 * ADVANCE
}

/// Draws one line and gives its width in characters.
fn draw(line: &str, y: usize, look: &mut Look, text: &mut String) -> usize {
    let mut column = 0;
    let mut pieces = line.split("\u{1b}[");
    let mut put = |piece: &str, look: Look| {
        let words = piece.trim_start();
        let from = column + piece.chars().count() - words.chars().count();
        column += piece.chars().count();
        let words = words.trim_end();
        let width = words.chars().count() as f64 * ADVANCE;
        if !words.is_empty() {
            let escaped = words
                .replace('&', "&amp;")
                .replace('<', "&lt;")
                .replace('>', "&gt;");
            let _ = writeln!(
                text,
                "<text x=\"{:.1}\" y=\"{y}\" textLength=\"{width:.1}\"{}>{escaped}</text>",
                x(from),
                look.attributes()
            );
        }
    };
    put(pieces.next().unwrap_or_default(), *look);
    for piece in pieces {
        let (codes, rest) = piece.split_once('m').expect("a code ends with m");
        *look = codes.split(';').fold(*look, Look::after);
        put(rest, *look);
    }
    column
}
