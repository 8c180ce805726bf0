//! What was read, worked out: names looked up, expressions evaluated, shapes
//! built, surfaces given their planes.
//!
//! Everything is worked out once and kept by name; what depends on itself is
//! found and has no value.

mod accepts;
mod builds;
mod contacts;
mod definitions;
mod edges;
mod evaluate;
mod functions;
mod heading;
mod materials;
mod mixes;
mod names;
mod path;
mod planes;
mod primitives;
mod shapes;
mod site;
mod standard;
mod surfaces;
mod want;

use std::sync::Arc;

pub use definitions::{FileInput, LogicalSection, joined};
pub use evaluate::constant;
pub use standard::read_standard;

use super::job::{FileKind, Job};
use evaluate::Resolver;

/// Works out what a file says, together with the files that it uses. The
/// first of `files` is the file itself.
pub fn resolve(files: &[FileInput]) -> Job {
    let Some(own) = files.first() else {
        return Job::default();
    };
    let mut resolver = Resolver::new(files);
    let kind = own.kind();
    let mut job = Job {
        kind,
        ..Job::default()
    };
    resolver.heading(&mut job);
    resolver.definitions_of_all();
    resolver.site(&mut job);
    resolver.lets(&mut job);
    resolver.all_shapes(&mut job);
    resolver.all_substances(&mut job);
    resolver.all_builds(&mut job);
    resolver.all_surfaces(&mut job);
    job.accepts = resolver.accepts();
    if kind == FileKind::Spec {
        resolver.unused();
    }
    job.written_tons = own
        .sections
        .iter()
        .flat_map(|section| section.unclear_units())
        .collect();
    resolver.used_materials(&mut job);
    job.findings = std::mem::take(&mut resolver.findings);
    job
}

/// A shared value that may be missing because a finding tells why.
type Shared<T> = Option<Arc<T>>;
