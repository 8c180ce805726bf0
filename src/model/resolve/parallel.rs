//! A long file worked out in parts, side by side.
//!
//! Each part is worked out as if there were no other; what two of them both
//! come upon, such as a let, they both work out, and come to the same. What
//! depends on where the work began is left to be worked out in order.

use std::sync::Arc;

use rayon::prelude::*;

use super::definitions::Definition;
use super::evaluate::{Outcomes, Resolver};

/// From how many sections on a file is worked out in parts. A thread keeps
/// memory of its own: for a shorter one it would take more than it saves.
const MANY_SECTIONS: usize = 1024;

/// How many parts a file of so many sections is worked out in.
pub(crate) fn parts(sections: usize) -> usize {
    match sections < MANY_SECTIONS {
        true => 1,
        false => rayon::current_num_threads(),
    }
}

impl Resolver<'_> {
    /// Works out the shapes, substances, builds and surfaces of the file
    /// itself in so many parts, if that comes to what it does in order.
    pub(crate) fn work_in_parts(&mut self, parts: usize) {
        if parts < 2 {
            return;
        }
        let kinds = ["shape", "material", "mix", "build", "surface"];
        let own = kinds.into_iter().flat_map(|kind| self.scope.own(kind));
        let mut own: Vec<Definition> = own.copied().collect();
        own.sort_unstable();
        let size = own.len().div_ceil(parts).max(1);
        let (files, scope) = (self.files, &self.scope);
        let (currency, system) = (self.currency, self.system);
        let done: Vec<Option<Outcomes>> = own
            .par_chunks(size)
            .map(|part| {
                let mut resolver = Resolver {
                    currency,
                    system,
                    ..Resolver::going_on(files, Arc::clone(scope), Outcomes::default())
                };
                for definition in part {
                    resolver.work(*definition);
                }
                (!resolver.is_entangled).then_some(resolver.done)
            })
            .collect();
        if done.iter().all(Option::is_some) {
            for part in done.into_iter().flatten() {
                self.done.gather(part);
            }
        }
    }

    /// Works out a section of the file itself.
    fn work(&mut self, definition: Definition) {
        let Some(section) = self.section(definition) else {
            return;
        };
        match section.kind().map(|kind| kind.word) {
            Some("shape") => drop(self.work_shape(definition, section.place())),
            Some("build") => drop(self.work_build(definition)),
            Some("surface") => self.work_surface(definition),
            Some("material" | "mix") => {
                if let Some(name) = section.name() {
                    self.work_substance(name.value, name.place);
                }
            }
            _ => {}
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::findings::FileId;
    use crate::model::{FileInput, Job, joined, read_section};
    use crate::syntax::Tree;

    const COURT: &str = "\
shape bay-N
  circle radius reach, centre (2 m, 0 m)

shape court-N
  rectangle 4.N m by 3 m
  add bay-N

surface court-N
  shape court-N
  level -150 mm at north
  fall 1:60 away from north
  build stack-N

build stack-N
  paving flag-N, 50 mm
  bed sharp-sand, 30 mm

material flag-N
  sold by m2
  price £N1/m2

";

    fn inputs(text: &str) -> [FileInput; 1] {
        let tree = Tree::parse(text.into());
        let read = |placed| read_section(tree.section_text(placed), placed, FileId(0), None);
        let sections = joined(tree.sections.iter().map(|placed| Arc::new(read(placed))));
        [FileInput {
            sections: Arc::new(sections),
            ..FileInput::default()
        }]
    }

    fn worked(text: &str, parts: usize) -> (String, usize) {
        let files = inputs(text);
        let mut resolver = Resolver::new(&files);
        let mut job = Job::default();
        resolver.lets(&mut job);
        resolver.work_in_parts(parts);
        let taken_over = resolver.done.shapes.len();
        resolver.all_shapes(&mut job);
        resolver.all_substances();
        resolver.all_builds(&mut job);
        let drafts = resolver.all_surfaces();
        resolver.substances_listed(&mut job);
        let found: Vec<_> = resolver.done.dependencies.findings().collect();
        (format!("{job:#?}{drafts:#?}{found:#?}"), taken_over)
    }

    #[test]
    fn parts_come_to_what_the_order_comes_to() {
        let courts: String = (1..=7)
            .map(|index| COURT.replace('N', &index.to_string()))
            .collect();
        let broken = "shape lost\n  add nowhere\n";
        let text = format!("let reach = 0.8 m\n\n{courts}{broken}");
        let (in_order, none) = worked(&text, 1);
        assert_eq!(none, 0);
        for parts in [2, 3, 40] {
            let (in_parts, taken_over) = worked(&text, parts);
            assert_eq!(in_parts, in_order, "{parts} parts");
            assert_eq!(taken_over, 15, "{parts} parts");
        }
    }

    #[test]
    fn what_depends_on_itself_is_worked_out_in_order() {
        let text = "shape one\n  rectangle 2 m by 2 m\n  add two\n\n\
                    shape two\n  rectangle 2 m by 2 m\n  add one\n";
        let (in_order, _) = worked(text, 1);
        assert!(in_order.contains("depends on itself"));
        assert_eq!(worked(text, 2), (in_order, 0));
    }
}
