//! How much of the rain runs off a surface.

use crate::materials::Kind;
use crate::model::{Origin, Sourced, Surface};
use crate::sources::Source;
use crate::vocabulary::Role;

static NEW_YORK_PERMEABLE: Source = Source::read(
    "New York City Plumbing Code 1114.3.1 (Local Law 77 of 2023)",
    "permeable pavers 0.70",
);
static NEW_YORK_GRAVEL: Source = Source::read(
    "New York City Plumbing Code 1114.3.1 (Local Law 77 of 2023)",
    "gravel lot 0.65",
);
static NEW_YORK_ASPHALT: Source = Source::read(
    "New York City Plumbing Code 1114.3.1 (Local Law 77 of 2023)",
    "asphalt 0.85",
);
static NRCS_BRICK: Source = Source::read(
    "NRCS Hydrology Training Series 206 D, p. 16, as a data table",
    "brick 0.70 to 0.85; the upper figure",
);
static NRCS_CONCRETE: Source = Source::read(
    "NRCS Hydrology Training Series 206 D, p. 16, as a data table",
    "concrete 0.80 to 0.95; the upper figure",
);

/// The share of the rain that runs off: as the surface says, else what is
/// usual for its paving, on the cautious side; `None` where what it is paved
/// with is not known.
pub fn runoff(surface: &Surface) -> Option<Sourced<f64>> {
    if let Some(stated) = &surface.runoff {
        return Some(Sourced {
            value: stated.value.si(),
            origin: Origin::Line(stated.place),
        });
    }
    if surface.entry("runoff").is_some() {
        return None;
    }
    let build = &surface.build.as_ref()?.value;
    let (value, source) = match build.permeable {
        Some(_) => (0.70, &NEW_YORK_PERMEABLE),
        None => {
            let top = build.layer(Role::Paving).or(build.layer(Role::Slab))?;
            of_kind(top.of.value.material().and_then(|own| own.kind))
        }
    };
    Some(Sourced {
        value,
        origin: Origin::Default {
            what: "share of the rain that runs off",
            source,
        },
    })
}

fn of_kind(kind: Option<Kind>) -> (f64, &'static Source) {
    match kind {
        Some(Kind::ConcretePaver | Kind::ClayPaver | Kind::Sett) => (0.85, &NRCS_BRICK),
        Some(Kind::Asphalt) => (0.85, &NEW_YORK_ASPHALT),
        Some(kind) if kind.is_aggregate() => (0.65, &NEW_YORK_GRAVEL),
        // Flags, tiles and slabs shed as concrete does, what is unknown too.
        _ => (0.95, &NRCS_CONCRETE),
    }
}
