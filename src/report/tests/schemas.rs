//! The schemas under `grammar` of what is written for programs. Each is made of
//! the types that are written: a key that is added there is in its schema with
//! its documentation. `DRYLAY_REFRESH=1 cargo test --lib schemas` writes them
//! anew.

use std::path::Path;

use schemars::generate::SchemaSettings;
use schemars::transform::RecursiveTransform;
use schemars::{JsonSchema, Schema};
use serde_json::{Value, json};

use crate::report::{findings_json, schedule, setout, takeoff_json};

/// The schema of a type, each object of which has the keys that it names and
/// no other.
fn schema_of<T: JsonSchema>(written_by: &str, version: u32) -> Value {
    let closed = |schema: &mut Schema| {
        if schema.get("properties").is_some() {
            schema.insert("additionalProperties".to_owned(), false.into());
        }
        // What a number is called in Rust says nothing to a reader.
        schema.remove("format");
        one_paragraph(schema);
    };
    let settings = SchemaSettings::draft2020_12().for_serialize();
    let settings = settings.with_transform(RecursiveTransform(closed));
    let mut schema = settings.into_generator().into_root_schema_for::<T>();
    let title = format!("What drylay {written_by} --format json writes");
    schema.insert("title".to_owned(), title.into());
    if let Some(own) = schema.pointer_mut("/properties/version") {
        *own = json!({"const": version});
    }
    schema.to_value()
}

/// Documentation is broken into lines where the code is.
fn one_paragraph(schema: &mut Schema) {
    let said = schema.get("description").and_then(Value::as_str);
    if let Some(said) = said.map(|said| said.replace('\n', " ")) {
        schema.insert("description".to_owned(), said.into());
    }
}

/// Holds a file under `grammar` to a schema.
fn holds(name: &str, schema: &Value) {
    let path = Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("grammar")
        .join(name);
    let text = serde_json::to_string_pretty(schema).unwrap() + "\n";
    let kept = std::fs::read_to_string(&path).unwrap_or_default();
    if kept == text {
        return;
    }
    assert!(
        std::env::var_os("DRYLAY_REFRESH").is_some(),
        "{name} is not what is written: run with DRYLAY_REFRESH=1"
    );
    std::fs::write(&path, text).unwrap();
}

#[test]
fn the_schemas_are_those_of_what_is_written() {
    let check = schema_of::<findings_json::Document<'_>>("check", findings_json::VERSION);
    let takeoff = schema_of::<takeoff_json::Document<'_>>("takeoff", 1);
    let schedule = schema_of::<schedule::Document<'_>>("schedule", 1);
    let setout = schema_of::<setout::Document<'_>>("setout", 1);
    // They are closed, and a figure that may be unknown may be null.
    assert_eq!(takeoff["additionalProperties"], false);
    let volume = takeoff.pointer("/$defs/Layer/properties/volume_m3/type");
    assert_eq!(volume, Some(&json!(["number", "null"])));
    holds("check.schema.json", &check);
    holds("takeoff.schema.json", &takeoff);
    holds("schedule.schema.json", &schedule);
    holds("setout.schema.json", &setout);
}
