//! The same hostile words poured through every output of every command: what
//! comes out can be read, and does nothing else.

use std::path::Path;

use super::{folder, run_in, run_with_input, text};

/// What a spec's author may write wherever text is free.
const HOSTILE: &str = "::error::\u{1b}[2J\u{9b}31m\u{202e}x\u{2066}\u{7}\u{8}\u{2028}##[error]\
                       ##vso[task.complete]![i](http://i.example/a.png)<img src=x>[l](http://l.example)|@all";

/// A name of a file that no line of an output may be broken by.
const NAME: &str = "jobs\n::error::\u{1b}[31m\u{202e}.patio";

fn spec(length: &str) -> String {
    format!(
        "# {HOSTILE}\njob \"{HOSTILE}\"\n  units metric\n  region uk\n  currency GBP\n  \
         client \"{HOSTILE}\"\n  reference \"{HOSTILE}\"\n  note \"{HOSTILE}\"\n\n\
         use \"{HOSTILE}.patio\"\n\n\
         shape yard\n  rectangle {length} by 4 m\n\n\
         surface yard\n  shape yard\n  build gravel-set\n  \
         accept fall-missing, because \"{HOSTILE}\", by \"{HOSTILE}\"\n  {HOSTILE}\n\n\
         build gravel-set\n  paving slab, 50 mm\n  base crushed-stone, 150 mm compacted\n\n\
         material slab\n  kind flag\n  called \"{HOSTILE}\"\n  like {HOSTILE}\n  \
         from \"{HOSTILE}\"\n\n\
         site\n  datum \"{HOSTILE}\"\n  ground -300 mm\n\n\
         drain pit\n  gully at (1 m, -1 m), 300 mm wide\n  to \"{HOSTILE}\"\n\n\
         steps flight\n  from -400 mm\n  to yard\n  at (3 m, 0 m), climbing north\n  \
         width 1 m\n  going 300 mm\n  note \"{HOSTILE}\"\n\n\
         setting-out\n  from (0, 0) and (3 m, 0)\n  note \"{HOSTILE}\"\n\n\
         work\n  start 2027-04-12\n  crew 2\n  task \"{HOSTILE}\", 4 h\n\n\
         hire plate\n  for \"{HOSTILE}\"\n  price £40/day\n\n\
         budget\n  item \"{HOSTILE}\" £60\n  quote £900, by \"{HOSTILE}\"\n\n\
         measured \"{HOSTILE}\"\n  of yard\n  level -100 mm at (1 m, 1 m)\n"
    )
}

/// The standards' own words are shown too.
const STANDARD: &str = "standard \"HOSTILE\"\n  off lip, because \"HOSTILE\"\n  \
                        raise base-thin to error, because \"HOSTILE\"\n";

/// What may not stand in an output.
fn unsound(output: &str, is_coloured: bool, has_commands: bool) -> Vec<String> {
    let mut found = Vec::new();
    for line in output.lines() {
        let unshown = line.chars().filter(|character| {
            let is_turning = "\u{202e}\u{2066}\u{2028}".contains(*character);
            let is_allowed = *character == '\t' || is_coloured && *character == '\u{1b}';
            (character.is_control() || is_turning) && !is_allowed
        });
        found.extend(unshown.map(|character| format!("{character:?} in {line}")));
        // Colours are ours; a cleared screen is not.
        if line.contains("\u{1b}[2J") || line.contains("\u{1b}[31m\u{fffd}") {
            found.push(format!("an escape in {line:?}"));
        }
        let begins = line.trim_start().starts_with("::") && !has_commands;
        let is_command = ["##[", "##vso["]
            .iter()
            .any(|command| line.contains(command));
        // Within a command of ours nothing else is looked for.
        if begins || is_command && !has_commands {
            found.push(format!("a command in {line}"));
        }
    }
    found
}

fn folder_of_hostile() -> tempfile::TempDir {
    let standard = STANDARD.replace("HOSTILE", HOSTILE);
    let (old, new) = (spec("6 m"), spec("7 m"));
    folder(&[
        (NAME, &old),
        ("old.patio", &old),
        ("new.patio", &new),
        ("standard.patio", &standard),
    ])
}

/// The formats of a command that are text to read, as its help lists them:
/// pages, pictures and calendars are for other programs.
fn formats(command: &str) -> Vec<String> {
    let folder = folder(&[]);
    let help = text(&run_in(folder.path(), &[command, "--help"]).stdout);
    let (_, list) = help.split_once("--format <FORMAT>").expect("its formats");
    let (list, _) = list.split_once("[default").expect("the usual one");
    let listed = list
        .lines()
        .filter_map(|line| line.trim().strip_prefix("- "));
    let named = listed.filter_map(|line| Some(line.split_once(':')?.0.to_owned()));
    let others = ["xlsx", "html", "svg", "pdf", "png", "ics"];
    let texts: Vec<String> = named
        .filter(|own| !others.contains(&own.as_str()))
        .collect();
    assert!(texts.len() > 2, "{help}");
    texts
}

/// Commands that write nothing of a spec, or pages and pictures only.
const OTHER_COMMANDS: &[&str] = &[
    "completions",
    "drawing",
    "help",
    "manual",
    "preview",
    "report",
    "serve",
];

/// The commands that the help lists.
fn listed_commands() -> Vec<String> {
    let help = text(&run_in(folder(&[]).path(), &["--help"]).stdout);
    let (_, list) = help.split_once("Commands:\n").expect("the commands");
    let lines = list.lines().take_while(|line| !line.is_empty());
    let words = lines.filter_map(|line| line.split_whitespace().next());
    words.map(str::to_owned).collect()
}

#[test]
fn no_output_does_anything_but_be_read() {
    let folder = folder_of_hostile();
    let mut commands: Vec<Vec<&str>> = Vec::new();
    let named: Vec<(&str, String)> = ["check", "takeoff", "setout", "compare", "schedule"]
        .into_iter()
        .flat_map(|command| formats(command).into_iter().map(move |own| (command, own)))
        .collect();
    for (command, format) in &named {
        let specs = match *command {
            "check" => &[][..],
            "compare" => &[NAME, "new.patio"],
            _ => &[NAME],
        };
        commands.push([&[command, "--format", format.as_str()], specs].concat());
    }
    commands.extend([
        vec!["check", "--accepted", "--color", "always"],
        vec!["check", "--accepted", "--ascii"],
        vec!["check", "--statistics"],
        vec!["check", "--quiet"],
        vec!["check", "no\n::error::such.patio"],
        vec!["check", "--timings", "new.patio"],
        vec!["takeoff", "--working", NAME],
        vec!["setout", "--working", NAME],
        vec!["takeoff", "no\n::error::such.patio"],
        vec!["fmt", "--check"],
        vec!["explain", "lip", NAME],
        vec!["explain", "base-thin", "."],
        vec!["standard", NAME],
        vec!["standard", "."],
        vec!["check", "--write-baseline", "known.json"],
        vec!["check", "--baseline", "known.json"],
    ]);
    for command in listed_commands() {
        let is_tried = commands.iter().any(|own| own.contains(&command.as_str()));
        let is_other = OTHER_COMMANDS.contains(&command.as_str());
        assert!(is_tried || is_other, "{command} is not tried");
    }
    for arguments in commands {
        let output = run_in(folder.path(), &arguments);
        let is_coloured = arguments.contains(&"always");
        let has_commands = arguments.contains(&"github");
        for stream in [&output.stdout, &output.stderr] {
            let found = unsound(&text(stream), is_coloured, has_commands);
            assert!(found.is_empty(), "{arguments:?}: {found:#?}");
        }
    }
}

#[test]
fn nothing_of_a_spec_is_markup_in_a_page_or_a_picture() {
    let folder = folder_of_hostile();
    for arguments in [
        &["report", "--format", "html", NAME][..],
        &["report", "--format", "html", "--for", "supplier", NAME],
        &["drawing", "--format", "svg", NAME],
        &["schedule", "--format", "svg", NAME],
    ] {
        let output = text(&run_in(folder.path(), arguments).stdout);
        assert!(
            output.contains("</svg>") || output.contains("</html>"),
            "{arguments:?}"
        );
        for mark in [
            "<img", "<script", "\u{202e}", "\u{2066}", "\u{1b}", "\u{9b}",
        ] {
            assert!(!output.contains(mark), "{mark:?} in {arguments:?}");
        }
    }
}

#[test]
fn a_command_of_ours_stays_one_line() {
    let folder = folder_of_hostile();
    let output = text(&run_in(folder.path(), &["check", "--format", "github"]).stdout);
    assert!(output.contains("::error file="), "{output}");
    for line in output.lines().filter(|line| line.starts_with("::")) {
        let level = line.trim_start_matches(':').split(' ').next();
        assert!(
            ["error", "warning", "notice"].map(Some).contains(&level),
            "{line}"
        );
        assert!(line.contains(" file="), "{line}");
    }
}

#[test]
fn nothing_of_a_spec_is_markdown_or_a_link() {
    let folder = folder_of_hostile();
    for (arguments, marks) in [
        (
            &["takeoff", "--format", "markdown", NAME][..],
            &["![i]", " <img", "[l](", "http://"][..],
        ),
        (
            &["compare", "--format", "markdown", NAME, "new.patio"],
            &["![i]", " <img", "[l](", "http://"],
        ),
    ] {
        let output = text(&run_in(folder.path(), arguments).stdout);
        let escaped = output
            .replace("\\[", "")
            .replace("\\!", "")
            .replace("\\<", "");
        for mark in marks {
            assert!(!escaped.contains(mark), "{mark} in {output}");
        }
    }
    let output = text(&run_in(folder.path(), &["check", "--format", "sarif"]).stdout);
    let log: serde_json::Value = serde_json::from_str(&output).unwrap();
    let results = log["runs"][0]["results"].as_array().unwrap();
    assert!(!results.is_empty());
    for result in results {
        let message = result["message"]["text"].as_str().unwrap();
        assert!(!message.replace("\\[", "").contains(['[']), "{message}");
    }
}

#[test]
fn what_goes_to_another_program_stays_what_it_is() {
    let spec = format!("job  \"{HOSTILE}\"\n");
    let laid = run_with_input(Path::new("."), &["fmt", "-"], spec.as_bytes());
    assert_eq!(text(&laid.stdout), format!("job \"{HOSTILE}\"\n"));
}
