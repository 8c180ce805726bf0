//! The commands that a client may have carried out: each is declared once,
//! and told to the client and in the pages for editors from there.

use serde::Deserialize;
use serde_json::{Value, json};
use tower_lsp::jsonrpc::{Error, Result};
use tower_lsp::lsp_types::{ExecuteCommandParams, Position, Url};

use super::paths;
use super::session::Session;
use crate::analysis::Analysis;
use crate::drawing::Picture;
use crate::model::FileKind;
use crate::report::{
    SheetLayout, standards, takeoff_csv, takeoff_json, takeoff_markdown, takeoff_text,
};

/// A command.
pub struct Command {
    /// Its name.
    pub name: &'static str,
    /// What it does and gives, in a sentence or two.
    pub help: &'static str,
    /// What its one argument, an object, may hold; each with what it is.
    pub takes: &'static [(&'static str, &'static str)],
    run: fn(&mut Session, &Value) -> Result<Option<Value>>,
}

const URI: (&str, &str) = (
    "uri",
    "The address of the spec. If it is open its text counts, saved or not; otherwise that on disk.",
);

/// How wide a text may be laid out, in characters.
const WIDTHS: std::ops::RangeInclusive<usize> = 48..=200;

/// Every command.
pub const COMMANDS: &[Command] = &[
    Command {
        name: "drylay.document.takeoff",
        help: "The take-off of a spec as a document to show.",
        takes: &[
            URI,
            (
                "format",
                "`\"text\"` (which holds if it is left out), `\"markdown\"`, `\"csv\"` or `\"json\"`.",
            ),
            (
                "working",
                "`true` to follow each figure with how it was worked out; in text only.",
            ),
            (
                "width",
                "How many characters wide the text is to be laid out, from 48 to 200; 100 if it is left out. \
                 Text begins with the orders: the rest stands in the spec that it is read beside.",
            ),
        ],
        run: takeoff,
    },
    Command {
        name: "drylay.document.plan",
        help: "The plan of a spec as an SVG, the type that it is set in left to the page that \
               shows it. Of each group that has a `data-section` and a `data-entry`, `anchors` \
               tells the line of the text, counted from 0. `sections` are further pictures that \
               go under it: the sections, the steps, the drains along their length.",
        takes: &[
            URI,
            (
                "type",
                "`true` to have the type come with the picture, for a page that has it not.",
            ),
        ],
        run: plan,
    },
    Command {
        name: "drylay.document.standard",
        help: "The standards that apply to a spec and what each line of them sets, as a document to show.",
        takes: &[URI],
        run: standard,
    },
    Command {
        name: CURSOR,
        help: "Has the client show a document with the cursor at a place. Actions name it where \
               one goes on writing after they are made, such as in the reason of an acceptance.",
        takes: &[
            ("uri", "The address of the document."),
            ("position", "The place, as the protocol has it."),
        ],
        run: cursor,
    },
];

/// The command that puts the cursor somewhere.
pub(crate) const CURSOR: &str = "drylay.cursor";

/// Carries a command out.
pub(crate) fn execute(
    session: &mut Session,
    params: &ExecuteCommandParams,
) -> Result<Option<Value>> {
    let named = |command: &&Command| command.name == params.command;
    let Some(command) = COMMANDS.iter().find(named) else {
        return Err(Error::invalid_params(format!(
            "There is no command `{}`.",
            params.command
        )));
    };
    let argument = params.arguments.first().unwrap_or(&Value::Null);
    (command.run)(session, argument)
}

fn takeoff(session: &mut Session, argument: &Value) -> Result<Option<Value>> {
    let of = Subject::of(session, argument)?.with_something_to("take off")?;
    let format = argument.get("format").filter(|format| !format.is_null());
    let (language, text) = match format.map_or(Some("text"), Value::as_str) {
        Some("text") => {
            let layout = beside_the_text(argument)?;
            ("plaintext", takeoff_text(&of.analysis, &of.folder, layout))
        }
        Some("markdown") => ("markdown", takeoff_markdown(&of.analysis, &of.folder)),
        Some("csv") => ("csv", takeoff_csv(&of.analysis)),
        Some("json") => ("json", takeoff_json(&of.analysis)),
        _ => {
            return Err(Error::invalid_params(
                "`format` takes \"text\", \"markdown\", \"csv\" or \"json\".",
            ));
        }
    };
    Ok(Some(of.document("Take-off", language, text)))
}

/// How a take-off is laid out that is read beside the text of its spec.
fn beside_the_text(argument: &Value) -> Result<SheetLayout> {
    let usual = SheetLayout::default();
    let width = match argument.get("width").unwrap_or(&Value::Null) {
        Value::Null => Some(usual.width),
        stated => usize::deserialize(stated).ok(),
    };
    let width = width.filter(|width| WIDTHS.contains(width));
    let width = width
        .ok_or_else(|| Error::invalid_params("`width` takes a whole number from 48 to 200."))?;
    Ok(SheetLayout {
        width,
        orders_first: true,
        shows_working: argument.get("working") == Some(&Value::Bool(true)),
    })
}

fn plan(session: &mut Session, argument: &Value) -> Result<Option<Value>> {
    let of = Subject::of(session, argument)?.with_something_to("draw")?;
    let has_type = argument.get("type") == Some(&Value::Bool(true));
    let picture = Picture::of(&of.analysis, has_type).map_err(Error::invalid_params)?;
    let anchors = picture.anchors.iter().map(
        |(anchor, line)| json!({"section": anchor.section, "entry": anchor.entry, "line": line}),
    );
    let mut document = of.document("Plan", "svg", picture.svg);
    if let Some(fields) = document.as_object_mut() {
        fields.insert("anchors".to_owned(), anchors.collect());
        let sections = picture.sections.into_iter().map(|own| own.svg);
        fields.insert("sections".to_owned(), sections.collect());
    }
    Ok(Some(document))
}

fn standard(session: &mut Session, argument: &Value) -> Result<Option<Value>> {
    let of = Subject::of(session, argument)?;
    let text = standards(&of.analysis, &of.folder);
    Ok(Some(of.document("Standard", "plaintext", text)))
}

fn cursor(session: &mut Session, argument: &Value) -> Result<Option<Value>> {
    let described = |name: &str| argument.get(name).unwrap_or(&Value::Null);
    let uri = Url::deserialize(described("uri"));
    let position = Position::deserialize(described("position"));
    let (Ok(uri), Ok(position)) = (uri, position) else {
        return Err(Error::invalid_params(
            "The command takes an object with a `uri` and a `position`.",
        ));
    };
    session.client_requests.show(uri, position);
    Ok(None)
}

/// The spec that a command is about.
struct Subject {
    uri: Url,
    /// Its version, if it is open.
    version: Option<i32>,
    /// The folder from which paths are shown.
    folder: String,
    analysis: std::sync::Arc<Analysis>,
}

impl Subject {
    fn of(session: &mut Session, argument: &Value) -> Result<Subject> {
        let uri = argument.get("uri").and_then(Value::as_str);
        let uri = uri.and_then(|uri| Url::parse(uri).ok()).ok_or_else(|| {
            Error::invalid_params("The command takes an object with the `uri` of a spec.")
        })?;
        let analysis = session
            .read(&uri)
            .map_err(|why| Error::invalid_params(format!("This spec cannot be read: {why}.")))?;
        Ok(Subject {
            version: session.version(&uri),
            folder: session.roots.shown_from(&paths::of(&uri)).to_owned(),
            analysis,
            uri,
        })
    }

    /// The same; a standard, which has nothing to do this with, is refused.
    fn with_something_to(self, what: &str) -> Result<Subject> {
        match self.analysis.job.kind {
            FileKind::Standard => Err(Error::invalid_params(format!(
                "This is a standard, which has nothing to {what}."
            ))),
            _ => Ok(self),
        }
    }

    /// A document about it, as the client gets it.
    fn document(self, what: &str, language: &str, text: String) -> Value {
        let path = &self.analysis.path;
        let name = path.rsplit('/').next().unwrap_or_default();
        json!({
            "uri": self.uri,
            "version": self.version,
            "title": format!("{what} of {name}"),
            "language": language,
            "text": text,
        })
    }
}
