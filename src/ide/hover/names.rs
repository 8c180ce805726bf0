//! Names: of shapes, surfaces, steps, builds, mixes, materials, lets and rules.

use super::{builds, comments, drains, help, materials, mixes, rules, shapes, steps, surfaces};
use crate::analysis::Analysis;
use crate::ide::cursor::Cursor;
use crate::ide::markdown::paragraphs;
use crate::syntax::{Item, ItemKind};
use crate::units::show;
use crate::vocabulary::{NameSpace, ValueKind};

/// What the heading under the pointer defines.
pub(crate) fn defined_by(analysis: &Analysis, cursor: &Cursor<'_>) -> Option<String> {
    let space = cursor.heading()?.defines?;
    let name = cursor.line.phrases.first()?.items.first()?;
    card(analysis, space, cursor.slice(name.span))
}

/// What the item under the pointer is known by. The entry decides which of
/// several things of one name is meant; a name that it cannot take is looked
/// up everywhere.
pub(crate) fn known_by(analysis: &Analysis, cursor: &Cursor<'_>, item: &Item) -> Vec<String> {
    let name = match &item.kind {
        ItemKind::Word => cursor.slice(item.span),
        ItemKind::Reference { owner, .. } => cursor.slice(*owner),
        kind => return help::function(cursor, kind).into_iter().collect(),
    };
    if let Some(space) = cursor.heading().and_then(|kind| kind.defines) {
        let is_own = cursor
            .line
            .phrases
            .first()
            .and_then(|phrase| phrase.items.first());
        if is_own.is_some_and(|own| own.span == item.span) {
            return card(analysis, space, name).into_iter().collect();
        }
    }
    let expected = cursor.kinds();
    if expected.contains(&ValueKind::SurfaceEdge)
        && let Some(card) = edge_of_surface(analysis, cursor, item)
    {
        return vec![card];
    }
    if expected.iter().any(|kind| is_edge(*kind))
        && let Some(card) = edge(analysis, cursor, item)
    {
        return vec![card];
    }
    if expected.contains(&ValueKind::Rule)
        && let Some(card) = rules::card(analysis, name)
    {
        return vec![card];
    }
    let wanted = expected.iter().flat_map(|kind| spaces_of(*kind)).copied();
    let found = wanted
        .map(|space| card(analysis, space, name))
        .find(Option::is_some)
        .flatten();
    let found = found.or_else(|| anywhere(analysis, name));
    found.into_iter().collect()
}

/// What bears a name, in whichever name space.
pub(crate) fn anywhere(analysis: &Analysis, name: &str) -> Option<String> {
    let mut spaces = EVERYWHERE.iter();
    spaces.find_map(|space| card(analysis, *space, name))
}

/// Whether a slot may take the name of an edge.
fn is_edge(kind: ValueKind) -> bool {
    matches!(
        kind,
        ValueKind::Edge | ValueKind::Heading | ValueKind::Place
    )
}

/// An edge of the shape that the surface under the pointer covers, or of
/// another one that is named with it.
fn edge(analysis: &Analysis, cursor: &Cursor<'_>, item: &Item) -> Option<String> {
    let surface = analysis
        .job
        .surfaces
        .iter()
        .find(|own| own.section == cursor.section)?;
    let shape = &surface.shape.as_ref()?.value;
    match &item.kind {
        ItemKind::Reference { owner, edge } => {
            let (owner, edge) = (cursor.slice(*owner), cursor.slice(*edge));
            if owner == shape.name.value {
                return shapes::edge(analysis, shape, None, edge);
            }
            shapes::edge(analysis, shape, Some(owner), edge)
        }
        _ => shapes::edge(analysis, shape, None, cursor.slice(item.span)),
    }
}

/// An edge of the surface that is named with it.
fn edge_of_surface(analysis: &Analysis, cursor: &Cursor<'_>, item: &Item) -> Option<String> {
    let ItemKind::Reference { owner, edge } = &item.kind else {
        return None;
    };
    let mut surfaces = analysis.job.surfaces.iter();
    let surface = surfaces.find(|own| own.name.value == cursor.slice(*owner))?;
    let shape = &surface.shape.as_ref()?.value;
    shapes::edge(analysis, shape, None, cursor.slice(*edge))
}

const EVERYWHERE: [NameSpace; 7] = [
    NameSpace::Lets,
    NameSpace::Substances,
    NameSpace::Shapes,
    NameSpace::Surfaces,
    NameSpace::Builds,
    NameSpace::Drains,
    NameSpace::Steps,
];

fn card(analysis: &Analysis, space: NameSpace, name: &str) -> Option<String> {
    match space {
        NameSpace::Lets => value(analysis, name),
        NameSpace::Shapes => shapes::card(analysis, name),
        NameSpace::Surfaces => surfaces::card(analysis, name),
        NameSpace::Builds => builds::card(analysis, name),
        NameSpace::Drains => drains::card(analysis, name),
        NameSpace::Steps => steps::card(analysis, name),
        NameSpace::Substances => {
            mixes::card(analysis, name).or_else(|| materials::card(analysis, name))
        }
    }
}

/// A let's value.
fn value(analysis: &Analysis, name: &str) -> Option<String> {
    let (own, value) = analysis
        .job
        .lets
        .iter()
        .find(|(own, _)| own.value == name)?;
    let value = show::quantity(value.as_ref()?, analysis.job.heading.system());
    Some(paragraphs([
        format!("**{name}** = {value} · a let"),
        comments::above_place(analysis, own.place).unwrap_or_default(),
    ]))
}

fn spaces_of(kind: ValueKind) -> &'static [NameSpace] {
    match kind {
        ValueKind::Shape => &[NameSpace::Shapes],
        ValueKind::Surface => &[NameSpace::Surfaces],
        ValueKind::Build => &[NameSpace::Builds],
        ValueKind::Drain => &[NameSpace::Drains],
        ValueKind::Built => &[NameSpace::Surfaces, NameSpace::Drains, NameSpace::Steps],
        ValueKind::Material | ValueKind::Substance | ValueKind::Parts => &[NameSpace::Substances],
        kind if kind.is_quantity() => &[NameSpace::Lets],
        _ => &[],
    }
}
