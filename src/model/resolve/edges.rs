//! Edges looked up by name.

use super::super::job::Shape;
use super::super::reading::{Value, nearest};
use super::evaluate::Resolver;
use crate::findings::{Finding, Fix, Place};
use crate::geometry::{Tag, Vector};
use crate::vocabulary::{ALL_EDGES, FREE, NameSpace};

impl Resolver<'_> {
    /// The tags of an edge, or a finding that says there is none.
    pub(crate) fn edge_tags(
        &mut self,
        shape: &Shape,
        owner: Option<&str>,
        name: &str,
        place: Place,
    ) -> Option<Vec<Tag>> {
        let outline = shape.outline.as_ref()?;
        // `court.wall` for the shape's own edge, as well as `bay.north`.
        let owner = owner.filter(|owner| *owner != shape.name.value);
        let tags = shape.tags(owner, name);
        if !tags.is_empty() {
            return Some(tags);
        }
        let full = match owner {
            Some(owner) => format!("{owner}.{name}"),
            None => name.to_owned(),
        };
        if let Some((_, taken)) = shape.lost.iter().find(|(lost, _)| *lost == full) {
            self.find(
                Finding::new(
                    "name-unknown",
                    place,
                    format!(
                        "nothing is left of the edge `{full}` of `{}`",
                        shape.name.value
                    ),
                )
                .related(*taken, "this line took it"),
            );
            return None;
        }
        // Its name may be on a line that could not be read.
        let is_of_misread = match owner {
            Some(owner) => {
                let definition = self.seen(NameSpace::Shapes, owner, shape.name.place.section.file);
                let section = definition.and_then(|definition| self.section(definition));
                section.is_some_and(|section| self.is_misread(section.at()))
            }
            None => self.is_misread(shape.section),
        };
        if is_of_misread {
            return None;
        }
        let mut names: Vec<String> = Vec::new();
        let left: Vec<Tag> = outline.edges().map(|edge| edge.tag).collect();
        for (tag, label) in (0..).zip(&shape.labels) {
            if !left.contains(&tag) {
                continue;
            }
            let owners = label.names().filter_map(|(owner, _)| owner);
            names.extend(owners.map(str::to_owned));
            names.extend(label.written());
        }
        if ALL_EDGES.contains(&full.as_str()) {
            self.no_one_edge(name, place);
            return None;
        }
        names.sort();
        names.dedup();
        let finding = Finding::new(
            "name-unknown",
            place,
            format!("`{}` has no edge `{full}`", shape.name.value),
        )
        .related(shape.name.place, "the shape is here");
        let own = owner.and_then(|_| names.iter().find(|own| *own == name));
        let near = own.map(String::as_str);
        // `house` for the edge `door-strip.house` of a shape that was added.
        let ends = |own: &&String| own.split_once('.').is_some_and(|(_, edge)| edge == full);
        let mut brought = names.iter().filter(ends);
        let near = near.or_else(|| match (brought.next(), brought.next()) {
            (Some(only), None) => Some(only.as_str()),
            _ => None,
        });
        let near = near.or_else(|| nearest(&full, names.iter().map(String::as_str)));
        if let Some(near) = near {
            self.find(finding.fix(Fix::judged(format!("Write `{near}`"), place, near)));
            return None;
        }
        // Whoever named no edge uses the name in several lines.
        let help = match names.is_empty() {
            true => format!(
                "None of its edges has a name. Give one where it is drawn: `east 5 m, named {name}`."
            ),
            false => format!(
                "Its edges are {}. Give another its name where it is drawn: `named {name}`.",
                names.join(", ")
            ),
        };
        self.done.dependencies.find_once(finding.help(help));
        None
    }

    /// Tells of a word for all edges where an edge is to be named.
    fn no_one_edge(&mut self, name: &str, place: Place) {
        let entry = self.entry_at(place);
        let takes_free = entry.is_some_and(|key| ["border", "edging", "guard"].contains(&key));
        let finding = |message: String| Finding::new("name-unknown", place, message);
        let finding = match takes_free && name != FREE {
            true => finding(format!(
                "`{name}` is no edge: name them, or write `free` for all that meet nothing"
            ))
            .fix(Fix::judged("Write `free`", place, FREE)),
            false => finding(format!(
                "`{name}` is no edge here, but stands for all of them: name one"
            )),
        };
        self.find(finding);
    }

    /// The tags of the edge in a slot, with its name as written.
    pub(crate) fn edge(
        &mut self,
        shape: &Shape,
        value: &Value,
        place: Place,
    ) -> Option<(String, Vec<Tag>)> {
        let Value::Edge { owner, name } = value else {
            return None;
        };
        let tags = self.edge_tags(shape, owner.as_deref(), name, place)?;
        let written = match owner {
            Some(owner) => format!("{owner}.{name}"),
            None => name.clone(),
        };
        Some((written, tags))
    }

    /// The direction at right angles to an edge, into the shape; a finding if
    /// it has no one direction.
    pub(crate) fn inward(&mut self, shape: &Shape, tags: &[Tag], place: Place) -> Option<Vector> {
        let outline = shape.outline.as_ref()?;
        let mut direction: Option<Vector> = None;
        for edge in outline.edges().filter(|edge| tags.contains(&edge.tag)) {
            let same = match (edge.inward_normal(), direction) {
                (Some(normal), Some(first)) => normal.dot(first) > 1.0 - 1e-9,
                (Some(normal), None) => {
                    direction = Some(normal);
                    true
                }
                (None, _) => false,
            };
            if !same {
                self.find(
                    Finding::new(
                        "value-range",
                        place,
                        "this edge is curved or bent, so it has no single direction",
                    )
                    .help(
                        "Say a compass word or a bearing: `toward south`, `toward bearing 200°`.",
                    ),
                );
                return None;
            }
        }
        direction
    }
}
