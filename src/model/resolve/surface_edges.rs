//! Edges that are named with their surface: `court.wall`.

use std::sync::Arc;

use super::super::job::Surface;
use super::super::reading::Value;
use super::evaluate::Resolver;
use crate::findings::{FileId, Finding, Fix, Place};
use crate::geometry::Tag;
use crate::text::Span;
use crate::vocabulary::NameSpace;

const OWN: FileId = FileId(0);

impl Resolver<'_> {
    /// The surface, by its index, and the tags of its shape's edges that a
    /// name such as `court.wall` stands for.
    pub(super) fn edge_of_surface(
        &mut self,
        surfaces: &[Arc<Surface>],
        edge: &Value,
        place: Place,
    ) -> Option<(usize, Vec<Tag>)> {
        let Value::Edge { owner, name } = edge else {
            return None;
        };
        let Some(owner) = owner else {
            self.say_whose(surfaces, name, place);
            return None;
        };
        let named = |surface: &Arc<Surface>| surface.name.value == *owner;
        if self.seen(NameSpace::Surfaces, owner, OWN).is_none() {
            self.edge_of_no_surface(surfaces, (owner, name), place);
            return None;
        }
        self.look_up(NameSpace::Surfaces, owner, place, OWN)?;
        let index = surfaces.iter().position(named)?;
        let shape = Arc::clone(&surfaces.get(index)?.shape.as_ref()?.value);
        // What may be wrong with the edge stands after the full stop.
        let end = place.span.end;
        let start = end.saturating_sub(name.len() as u32);
        let own = Place {
            span: Span::new(start.max(place.span.start), end),
            ..place
        };
        let tags = self.edge_tags(&shape, None, name, own)?;
        Some((index, tags))
    }

    /// Tells that an edge does not say of which surface it is, with those
    /// that have one of its name.
    fn say_whose(&mut self, surfaces: &[Arc<Surface>], name: &str, place: Place) {
        let message = format!("`{name}` of which surface? Write the surface's name before it");
        let finding = Finding::new("name-unknown", place, message);
        let has_it = surfaces.iter().filter(|surface| {
            let shape = surface.shape.as_ref();
            shape.is_some_and(|shape| !shape.value.tags(None, name).is_empty())
        });
        let names = has_it.map(|surface| format!("{}.{name}", surface.name.value));
        self.find(names.take(3).fold(finding, |finding, full| {
            finding.fix(Fix::judged(format!("Write `{full}`"), place, full))
        }));
    }

    /// An edge with a name before it that is no surface's: a shape's, perhaps.
    fn edge_of_no_surface(
        &mut self,
        surfaces: &[Arc<Surface>],
        (owner, name): (&str, &str),
        place: Place,
    ) {
        let mut all = surfaces.iter();
        let covers = all.find(|surface| {
            let shape = surface.shape.as_ref();
            shape.is_some_and(|shape| shape.value.name.value == owner)
        });
        let Some(surface) = covers else {
            self.missing_name(NameSpace::Surfaces, owner, place, OWN);
            return;
        };
        let whole = format!("{}.{name}", surface.name.value);
        let message = format!("`{owner}` is a shape; the edge of its surface is `{whole}`");
        self.find(
            Finding::new("name-unknown", place, message).fix(Fix::judged(
                format!("Write `{whole}`"),
                place,
                whole,
            )),
        );
    }
}
