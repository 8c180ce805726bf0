//! `outfall-high`: paving sunk below the ground that its water is sent to.

use super::fall_missing::is_exempt;
use crate::findings::Severity;
use crate::model::Surface;
use crate::rules::wording::has_word;
use crate::rules::{Bound, Check, Context, Family, Found, Limit, Rule, slope};
use crate::sources::Source;
use crate::units::{Dimension, Quantity};

/// Paving sunk below the ground that its water is sent to.
pub(crate) static OUTFALL_HIGH: Rule = Rule {
    name: "outfall-high",
    family: Family::Falls,
    severity: Severity::Warning,
    looks_at: "The free edges over which water leaves: how far they lie below the ground beside them. Not an edge with a channel, nor water that goes to a drain, or down through the paving.",
    reason: "Water does not run uphill: it stands along the low edge and washes the bed onto the paving.",
    remedy: "Raise the paving, ease the fall, grade the ground down, or take the water off in a channel; where the ground slopes, say so with falling.",
    limits: &[
        Limit::practice(
            "slight",
            "a low edge below the ground beside it, before grading is worth a word",
            Bound::Most,
            &["90 mm", "3 1/2 in"],
        ),
        Limit::practice(
            "plain",
            "a low edge below the ground beside it",
            Bound::Most,
            &["200 mm", "8 in"],
        ),
    ],
    sources: &[
        Source::computed("the levels of the spec itself"),
        Source::COMMON_PRACTICE,
    ],
    breaks: "\
site
  ground       -20 mm

surface court
  «water        to \"lawn\"»
",
    keeps: "\
site
  ground       -20 mm at (0 m, 4 m), falling 1:25 toward south

surface court
  water        to \"lawn\"
",
    mended: None,
    check: Check::Surface(check),
};

fn check(context: &Context<'_>, surface: &Surface, found: &mut Found) {
    if is_exempt(surface)
        || surface
            .water
            .as_ref()
            .is_some_and(|water| water.value.text().is_none_or(is_led))
    {
        return;
    }
    let Some((least, sunk)) = sunk_m(context, surface) else {
        return;
    };
    // A little is graded off with the topsoil; so deep, nobody lowers a lawn.
    let rows = [("plain", Severity::Warning), ("slight", Severity::Advisory)];
    let missed = rows.into_iter().find_map(|(row, severity)| {
        let limit = context.limit(&OUTFALL_HIGH, row)?;
        (!limit.allows_si(least)).then_some((limit, severity))
    });
    let Some((limit, severity)) = missed else {
        return;
    };
    let shown = limit.beside_si(sunk, context.system());
    let ground = surface
        .water
        .as_ref()
        .map_or("the ground", |water| water.value.shown());
    let message = format!(
        "the low edge lies {shown} below the ground there: water cannot run to \"{ground}\". Raise the paving, or grade the ground down"
    );
    let message = match surface.water {
        Some(_) if ground.chars().count() <= 30 => message,
        _ => format!(
            "the low edge lies {shown} below the ground there: water cannot run off. Raise the paving, or grade the ground down"
        ),
    };
    let place = surface
        .water
        .as_ref()
        .map_or(surface.name.place, |water| water.place);
    let place = surface.entry("water").unwrap_or(place);
    let mut finding = OUTFALL_HIGH
        .finding(place, message)
        .severity(severity)
        .found(shown, Quantity::near(sunk, Dimension::LENGTH))
        .against(&limit, context);
    for level in surface.levels.iter().take(1) {
        finding = finding.related(level.place, "the paving has its level here");
    }
    let ground = context
        .job
        .site
        .ground
        .iter()
        .flat_map(|ground| &ground.places);
    for place in ground {
        finding = finding.related(*place, "the ground has its level here");
    }
    found.add(finding);
}

/// How far the low end of a surface lies below the ground where water leaves
/// it, at the least, and how far the lowest of it does below the lowest ground
/// there, in metres; nothing where water leaves by no free edge.
fn sunk_m(context: &Context<'_>, surface: &Surface) -> Option<(f64, f64)> {
    let plane = surface.plane.as_ref()?;
    let ground = context.job.site.ground.as_ref()?;
    let downhill = slope::downhill(surface)?;
    // Only the low end counts: what runs along a sunken edge may yet come out
    // at the end of it.
    let levels = surface.outlines().map(|outline| plane.levels_over(outline));
    let (low, high) = levels.reduce(|all, one| (all.0.min(one.0), all.1.max(one.1)))?;
    let below = ground.plane.less(plane);
    surface
        .edges()
        .filter(|edge| surface.is_free(edge.tag) && surface.channel(edge.tag).is_none())
        .filter(|edge| slope::leaves_over(edge, downhill))
        .flat_map(|edge| {
            let lowest = plane.stretches_between(edge, low - 1.0, low + 0.1 * (high - low));
            lowest.into_iter().map(|(from, to)| edge.between(from, to))
        })
        .map(|stretch| {
            let ground = ground.plane.levels_along(&stretch).0;
            (below.levels_along(&stretch).0, ground - low)
        })
        .reduce(|all, one| (all.0.min(one.0), all.1.min(one.1)))
}

/// Whether water is led away, or said to go down into the ground where it falls.
fn is_led(text: &str) -> bool {
    const DOWN: &[&str] = &["under", "underneath", "below", "beneath", "through"];
    const INTO: &[&str] = &["ground", "soil", "subsoil", "subgrade", "base", "paving"];
    is_piped(text) || has_word(text, DOWN) && has_word(text, INTO)
}

/// Whether water is led away below the ground.
pub(in crate::rules) fn is_piped(text: &str) -> bool {
    const PIPED: &[&str] = &[
        "drain", "drains", "gully", "gullies", "channel", "pipe", "pipes", "sewer", "soakaway",
        "drywell", "well", "sump", "tank", "butt", "inlet", "grate", "catch", "manhole", "chamber",
    ];
    has_word(text, PIPED)
}
