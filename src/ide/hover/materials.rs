//! Materials, each value with where it comes from.

use super::{comments, workings};
use crate::analysis::Analysis;
use crate::ide::markdown::{line_of, origin, paragraphs, plain, table_of_three};
use crate::model::{Material, Sold, Sourced, Stated};
use crate::quantities::FigureRef;
use crate::units::{Quantity, show};
use crate::vocabulary::other_spelling;

/// A material's values with their sources, and its order.
pub(crate) fn card(analysis: &Analysis, name: &str) -> Option<String> {
    let known = &analysis.job.materials;
    let material = known
        .get(name)
        .or_else(|| known.get(other_spelling(name)?.as_str()))?;
    let orders = analysis.figures.orders.iter().enumerate();
    let orders = orders.filter(|(_, own)| own.material == material.name);
    let orders = orders.filter_map(|(index, _)| workings::card(analysis, FigureRef::Order(index)));
    let kind = material
        .kind
        .map(|kind| format!(" · {}", kind.word()))
        .unwrap_or_default();
    let comment = material
        .place
        .and_then(|place| comments::above_place(analysis, place));
    let card = [
        format!("**{name}** · a material{kind}"),
        material
            .called_in(analysis.job.heading.region())
            .as_deref()
            .map(plain)
            .unwrap_or_default(),
        material
            .supplier
            .as_deref()
            .map(|supplier| format!("from {}", plain(supplier)))
            .unwrap_or_default(),
        comment.unwrap_or_default(),
        table_of_three(["", "", "from"], &rows(analysis, material)),
    ];
    Some(paragraphs(card.into_iter().chain(orders)))
}

fn rows(analysis: &Analysis, material: &Material) -> Vec<[String; 3]> {
    let system = analysis.job.heading.system();
    let mut rows = Vec::new();
    let mut sourced = |name: &str, value: &Option<Sourced<Quantity>>| {
        rows.extend(value.as_ref().map(|own| {
            [
                name.to_owned(),
                show::quantity(&own.value, system),
                origin(analysis, own.origin),
            ]
        }));
    };
    let density = if material.compacted.is_some() {
        "density, loose"
    } else {
        "density"
    };
    sourced(density, &material.density);
    sourced("density, compacted", &material.compacted);
    sourced("density of its grains", &material.particle_density);
    sourced("bulking", &material.bulking);
    sourced("absorption", &material.absorption);
    sourced("strength", &material.strength);
    sourced("covers", &material.covers);
    sourced("one pack makes", &material.makes);
    sourced("waste", &material.waste);
    if let Some((length, width)) = &material.unit {
        rows.push([
            "unit".to_owned(),
            format!(
                "{} by {}",
                show::quantity(&length.value, system),
                show::quantity(&width.value, system)
            ),
            origin(analysis, length.origin),
        ]);
    }
    if let Some(sold) = &material.sold {
        let by = match &sold.value {
            Sold::Unit(unit) => format!("by {}", unit.symbol),
            Sold::Each => "each".to_owned(),
            Sold::Pack(pack) => {
                format!(
                    "by {} of {}",
                    pack.word,
                    show::quantity(&pack.content, system)
                )
            }
        };
        rows.push(["sold".to_owned(), by, origin(analysis, sold.origin)]);
    }
    let mut stated = |name: &str, value: Option<&Stated<Quantity>>| {
        rows.extend(value.map(|own| {
            [
                name.to_owned(),
                show::quantity(&own.value, system),
                line_of(analysis, own.place).unwrap_or_default(),
            ]
        }));
    };
    stated("price", material.price.as_ref());
    stated("least sold", material.minimum.as_ref());
    rows
}
