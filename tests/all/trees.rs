//! The tree-sitter grammar reads what the program reads: both make the same
//! outline of every spec, of every text of the fixtures, and of these with
//! changes made at random.

use std::fmt::Write;
use std::path::{Path, PathBuf};
use std::process::Command;

use drylay::syntax::{Item, ItemKind, LineKind, Operator, Phrase, PlacedLine, Tree};

use crate::driving::add_to_path;
use crate::folder::repository;
use crate::random::{Random, cases};
use crate::tools::{command, python_with, tool};
use crate::vocabulary::piece;
use drylay::text::Text;

/// Texts with what is easily read in two ways.
const ODD: &[&str] = &[
    "\u{feff}job \"a\"\n  note \"b\" # c\n",
    "shape a\n  curve to (0,\n     # why\n\n     2'), height 6\"\n  close\n",
    "shape a (\n  start (0, 0)\n  close)\n",
    "  east 24' 6 1/2\", named wall,\n    corner 3'\n  south 24'-6 1/2\" – 3\n",
    "let a = -6 in + 2 * (b - 1/4 in per ft) / min(2 m, 3) over 12'\n",
    "let b = 1,200 mm + 12,34 + 1½ ft + .5 m + 4/12/2027 + 2027-04-12 + 2027-04-123 + 2027-04-123\"\n",
    "  fall 1:60, 1:1:6, 1 : 60, 2 %, 1:6\"\n  a 12x24, 12 x 24, 12×24, 12 in×24 in\n",
    "  price $42/ton, 42 USD, £ 6.50 per sq  ft, $ 5\", /ton, per ft\n",
    "  parts 1 portland-cement : 4 sharp-sand, 2 day-sand, 3 t-bar, 3 m²x, 3 ft2\"\n",
    "  a 35°, 35.2 deg, 40 °F, 5 °c, 7 °Cx, 3 ° f\n  b 6 \", 6 '', 6’’, 6”\n",
    "- job\n  • note a\n  *note b\n  (c)\n  12 d\n  \"e\n",
    "  a \"b \\\" c\\\\\" d \\ e\" “f\" “g” h\n  é-ß naïve.über x.y. z.1 a-b-(c) d-\n",
    "  a6\"b --b ; c;d ...e ')f 'g \u{1f33f} h\u{1f33f} — i\n  a , , b,,\n  (,a) ( , ) ()\n",
    "accept a\r\n  b,\r\n    c\r\n\td,\r     e\r",
];

#[test]
fn tree_sitter_reads_what_the_program_reads() {
    let Some(python) = python_with(&["tree_sitter"]) else {
        return;
    };
    let folder = tempfile::tempdir().expect("a folder for the texts");
    let texts = texts();
    for (name, text) in &texts {
        std::fs::write(folder.path().join(name), text).expect("a text can be written");
    }
    let output = command(python, folder.path())
        .arg(repository().join("tests/editors/trees.py"))
        .args([parser(folder.path()), folder.path().to_owned()])
        .output()
        .expect("Python starts");
    let said = String::from_utf8_lossy(&output.stdout);
    let complained = String::from_utf8_lossy(&output.stderr);
    assert!(output.status.success(), "{said}\n{complained}");
    let mut differences = Vec::new();
    for (name, text) in &texts {
        let path = folder.path().join(name).with_extension("outline");
        let other = std::fs::read_to_string(path).expect("there is an outline of each");
        let own = outline(text);
        if own != other {
            differences.push(format!("{name}:\n{}", first_difference(&own, &other)));
        }
    }
    let shown = differences.iter().take(10).cloned().collect::<String>();
    assert!(
        differences.is_empty(),
        "{} differ:\n{shown}",
        differences.len()
    );
}

/// What is generated from `grammar.js`.
const GENERATED: &[&str] = &["src/parser.c", "src/grammar.json", "src/node-types.json"];

#[test]
fn the_parser_is_that_of_the_grammar() {
    let (Some(generator), Some(node)) = (tool("tree-sitter"), tool("../vscode/bin/node")) else {
        return;
    };
    let kept = repository().join("editors/tree-sitter");
    let folder = tempfile::tempdir().expect("a folder for the parser");
    std::fs::copy(kept.join("grammar.js"), folder.path().join("grammar.js")).expect("a grammar");
    let mut command = command(generator, folder.path());
    command.args(["generate", "--no-bindings"]);
    add_to_path(&mut command, node.parent().expect("it lies in a folder"));
    let output = command.output().expect("the generator starts");
    let complained = String::from_utf8_lossy(&output.stderr);
    assert!(output.status.success(), "{complained}");
    let mut stale = Vec::new();
    for name in GENERATED {
        let made = std::fs::read_to_string(folder.path().join(name)).expect("it is generated");
        if std::fs::read_to_string(kept.join(name)).unwrap_or_default() == made {
            continue;
        }
        if std::env::var_os("DRYLAY_REFRESH").is_some() {
            std::fs::write(kept.join(name), made).expect("it can be kept");
        } else {
            stale.push(name);
        }
    }
    assert!(
        stale.is_empty(),
        "editors/tree-sitter/{stale:?} differ from grammar.js; DRYLAY_REFRESH=1 cargo test makes them again"
    );
}

/// The grammar, compiled for Neovim as a user compiles it, with its queries
/// under `data` of a folder.
pub fn parser(home: &Path) -> PathBuf {
    let output = Command::new(repository().join("editors/tree-sitter/install"))
        .arg("neovim")
        .env("XDG_DATA_HOME", home.join("data"))
        .output()
        .expect("the grammar's script runs");
    let complained = String::from_utf8_lossy(&output.stderr);
    assert!(output.status.success(), "{complained}");
    PathBuf::from(String::from_utf8_lossy(&output.stdout).trim())
}

fn texts() -> Vec<(String, String)> {
    let mut texts: Vec<String> = ODD.iter().map(|text| (*text).to_owned()).collect();
    for folder in [
        "specs",
        "specs/mistakes",
        "specs/office",
        "tests/sound",
        "tests/language",
    ] {
        let mut paths: Vec<PathBuf> = std::fs::read_dir(repository().join(folder))
            .expect("the folder")
            .map(|entry| entry.expect("the folder").path())
            .filter(|path| {
                path.extension()
                    .is_some_and(|ending| ending == "patio" || ending == "md")
            })
            .collect();
        paths.sort();
        texts.extend(
            paths
                .iter()
                .map(|path| std::fs::read_to_string(path).expect("a text")),
        );
    }
    assert!(texts.len() > 50, "the specs are not where they were");
    let mut random = Random::new("trees");
    for _ in 0..cases(150) {
        let text = changed(random.pick(&texts).clone(), &mut random);
        texts.push(text);
    }
    let named = texts.into_iter().enumerate();
    named
        .map(|(number, text)| (format!("{number:04}.patio"), text))
        .collect()
}

/// A text with a few characters put in or taken out.
fn changed(text: String, random: &mut Random) -> String {
    const PUT_IN: &[&str] = &[
        "\"", "'", "(", ")", ",", "#", "-", "–", "/", ".", ":", "x", "½", "°", "$", " ", "\n",
        "\t", "7", " in", " ft", "sq", " per ", "²", "“", "”", "×", "=", "é", ";", "\\",
    ];
    let mut characters: Vec<char> = text.chars().take(1500).collect();
    for _ in 0..12 {
        let at = random.below(characters.len() + 1);
        if random.once_in(2) {
            let new: Vec<char> = piece(random, PUT_IN).chars().collect();
            characters.splice(at..at, new);
        } else if at < characters.len() {
            characters.remove(at);
        }
    }
    characters.into_iter().collect()
}

fn first_difference(own: &str, other: &str) -> String {
    let own: Vec<&str> = own.lines().collect();
    let other: Vec<&str> = other.lines().collect();
    let same = own
        .iter()
        .zip(&other)
        .take_while(|(one, other)| one == other);
    let at = same.count();
    let heading = own[..at.min(own.len())].iter().rev();
    let heading = heading
        .copied()
        .find(|line| !line.starts_with(' '))
        .unwrap_or_default();
    format!(
        "    in `{heading}` the program reads {:?} where tree-sitter reads {:?}\n",
        own.get(at..own.len().min(at + 4)).unwrap_or_default(),
        other.get(at..other.len().min(at + 4)).unwrap_or_default()
    )
}

/// The lines that have words, each with its items.
fn outline(text: &str) -> String {
    let tree = Tree::parse(Text::from(text));
    let mut outline = String::new();
    for line in tree.lines() {
        let kind = match line.line.kind {
            LineKind::Heading => "heading",
            LineKind::Entry => "entry",
            LineKind::Unread => {
                outline.push_str("unread\n");
                continue;
            }
            LineKind::Blank | LineKind::Comment => continue,
        };
        let _ = writeln!(outline, "{kind} {}", line.word());
        phrases(&line, &line.line.phrases, &mut outline);
    }
    outline
}

fn phrases(line: &PlacedLine<'_>, phrases: &[Phrase], outline: &mut String) {
    for (at, phrase) in phrases.iter().enumerate() {
        if at > 0 {
            outline.push_str("  ,\n");
        }
        for own in &phrase.items {
            item(line, own, outline);
        }
    }
}

fn item(line: &PlacedLine<'_>, item: &Item, outline: &mut String) {
    let text = line.text_of(item.span);
    let is_dash = ["-", "–", "−"].contains(&text);
    let kind = match &item.kind {
        ItemKind::Group { phrases: inner } => {
            outline.push_str("  (\n");
            phrases(line, inner, outline);
            outline.push_str("  )\n");
            return;
        }
        ItemKind::Call {
            name,
            phrases: inner,
        } => {
            let _ = writeln!(outline, "  call {}", line.text_of(*name));
            phrases(line, inner, outline);
            outline.push_str("  )\n");
            return;
        }
        ItemKind::Operator(Operator::Subtract) | ItemKind::Negative => "minus",
        ItemKind::Stray if is_dash => "minus",
        ItemKind::By => "by",
        ItemKind::Word => "word",
        ItemKind::Reference { .. } => "reference",
        ItemKind::Text { .. } => "text",
        ItemKind::Date => "date",
        ItemKind::Ratio { .. } | ItemKind::TightParts => "ratio",
        ItemKind::Number { .. } if text.starts_with(['$', '£', '€']) => "money",
        ItemKind::Number { .. } => "number",
        ItemKind::Per { .. } => "rate",
        ItemKind::Operator(_) | ItemKind::Colon | ItemKind::Equals => "operator",
        ItemKind::Stray => "stray",
    };
    let text = if ["minus", "by"].contains(&kind) {
        ""
    } else {
        text
    };
    let _ = writeln!(outline, "{}", format!("  {kind} {text}").trim_end());
}
