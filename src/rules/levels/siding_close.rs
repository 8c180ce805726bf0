//! `siding-close`: paving too near wooden cladding.

use super::{SAME_LEVEL, highest_at_building, lacks_minus, level_at_building, moved};
use crate::findings::Severity;
use crate::model::{Surface, literal};
use crate::rules::wording::limit_as_written;
use crate::rules::{Bound, Check, Context, Family, Found, Limit, Rule, Value};
use crate::sources::Source;
use crate::units::{Dimension, Quantity};
use crate::vocabulary::Term;

/// How far wood siding stays clear of paving.
const IRC_SIDING: Source = Source::second_hand(
    "International Residential Code",
    "R317.1(5), wood siding that is not preservative-treated 2 in clear of steps, porch and patio slabs; quoted in an engineers' forum",
);

/// A finished level too near the lower edge of the cladding.
pub(crate) static SIDING_CLOSE: Rule = Rule {
    name: "siding-close",
    family: Family::Levels,
    severity: Severity::Warning,
    looks_at: "How far the paving at the building lies below the lower edge of wood cladding.",
    reason: "Splashing rain and lying snow rot wood that comes too near the paving.",
    remedy: "Lower the paving, or cut the cladding back.",
    limits: &[Limit {
        row: "plain",
        of: "cladding above paving",
        bound: Bound::Least,
        general: Value {
            written: &["50 mm", "2 in"],
            source: IRC_SIDING,
        },
        regions: &[],
    }],
    sources: &[IRC_SIDING],
    breaks: "\
site
  cladding     -130 mm

surface court
  level        «-160 mm» at north
",
    keeps: "\
site
  cladding     -110 mm
",
    mended: Some(
        "\
site
  cladding     -130 mm

surface court
  level        -180 mm at north
",
    ),
    check: Check::Surface(check),
};

fn check(context: &Context<'_>, surface: &Surface, found: &mut Found) {
    let (Some(cladding), Some(level), Some(stated), Some(limit)) = (
        &context.job.site.cladding,
        highest_at_building(surface),
        level_at_building(surface),
        context.limit(&SIDING_CLOSE, "plain"),
    ) else {
        return;
    };
    let below = cladding.value.si() - level;
    if limit.allows_si(below + SAME_LEVEL) || lacks_minus(context, surface) {
        return;
    }
    let shown = limit.beside_si(below.abs(), context.system());
    let wood = context.word(Term::Cladding);
    let lies = match below {
        below if below.abs() <= SAME_LEVEL => format!("the paving comes up to the {wood}"),
        below if below < 0.0 => format!("the paving lies {shown} up the {wood}"),
        _ => format!("only {shown} from paving to {wood}"),
    };
    let message = format!(
        "{lies}: splashing rain rots it. {} is the least. Lower the paving, or cut the {wood} back",
        limit.shown(context.system())
    );
    let mut finding = SIDING_CLOSE
        .finding(stated.value.place, message)
        .found(
            limit.beside_si(below, context.system()),
            Quantity::near(below, Dimension::LENGTH),
        )
        .against(&limit, context)
        .related(cladding.place, format!("the {wood}, as stated here"));
    let clear =
        literal(&limit_as_written(&limit, context)).map_or(limit.value.si(), |twin| twin.si());
    let lowered = cladding.value.si() - clear;
    let title = "Lower the level to";
    let fix = moved(context, &SIDING_CLOSE, surface, title, lowered, found);
    finding.fixes.extend(fix);
    found.add(finding);
}
