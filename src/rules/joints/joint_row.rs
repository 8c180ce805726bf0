//! Which limits a joint is held to: by what fills it and what it lies
//! between.

use crate::findings::{Finding, Fix};
use crate::materials::Kind;
use crate::model::{Build, Substance, Surface};
use crate::rules::construction::{
    Binding, Construction, grain_m, is_irregular, is_sand, unit_kind,
};
use crate::rules::wording::{large_units, limit_as_written};
use crate::rules::{Bound, Context, Rule};
use crate::text::capital;

/// The row of joints that are filled with stone.
const COARSE: &str = "coarse";

/// The rows of joints that are filled with stones so large, in metres, the
/// largest first.
const LARGE: &[(f64, &str)] = &[(0.06, "coarse-60"), (0.02, "coarse-20")];

/// The row of joints of units on sand that are filled with larger stones than
/// the chips that are made for them.
fn large_row(
    rule: &Rule,
    surface: &Surface,
    build: &Build,
) -> Option<(&'static str, &'static str)> {
    let filling = surface.joint.as_ref()?.filling.as_ref()?;
    let grain = grain_m(filling.value.material()?)?;
    unit_kind(build).filter(|_| Construction::of(build) == Construction::SandSet)?;
    let (_, row) = LARGE.iter().find(|(least, _)| grain >= *least)?;
    let has_it = rule.limits.iter().any(|limit| limit.row == *row);
    has_it.then_some((*row, "for stones of that size"))
}

/// The widest joint, in metres, that sand fills better than chips.
const FOR_CHIPS: f64 = 0.005;

/// Whether a filling has stones in it that do not run into every joint.
fn is_coarse(filling: &Substance) -> bool {
    let kind = filling.material().and_then(|material| material.kind);
    kind.is_some_and(|kind| kind.is_loose_stone() || kind.is_dense_aggregate())
}

/// The row of the limits that a surface's joints are held to, and the joints
/// in words.
pub(super) fn joint_row(surface: &Surface, build: &Build) -> Option<(&'static str, &'static str)> {
    let units = unit_kind(build)?;
    let filling = surface.joint.as_ref()?.filling.as_ref();
    let binding = filling.map(|filling| Binding::of(&filling.value));
    let is_sanded = filling.is_none_or(|filling| is_sand(&filling.value));
    match (Construction::of(build), binding) {
        (Construction::SandSet, Some(Binding::Loose) | None) => match units {
            Kind::ConcretePaver | Kind::ClayPaver if build.permeable.is_some() => {
                Some(("permeable", "between permeable pavers"))
            }
            Kind::ConcretePaver | Kind::ClayPaver if is_sanded => {
                Some(("pavers", "for sand between pavers"))
            }
            Kind::ConcreteFlag | Kind::NaturalStone | Kind::Porcelain
                if filling.is_some() && is_sanded =>
            {
                Some(("flags", "for plain sand between flags"))
            }
            _ if filling.is_some_and(|filling| is_coarse(&filling.value)) => {
                Some((COARSE, "for stone between units"))
            }
            _ => None,
        },
        // Pavers lock by their joints, whatever binds the sand in them.
        (Construction::SandSet, Some(Binding::Stabilised | Binding::Resin)) if units.is_paver() => {
            let is_dense = build.permeable.is_none();
            is_dense.then_some(("pavers", "between pavers on sand"))
        }
        // No compound goes into a gap, whatever the units lie on.
        (Construction::SandSet | Construction::MortarSet, Some(Binding::Resin)) => {
            (!is_irregular(surface)).then_some(("resin", "for jointing compound"))
        }
        // Of a border in mortar nothing says what fills its joints.
        (Construction::MortarSet, Some(Binding::Loose)) if units.is_brick() => {
            Some(("brick-sanded", "between bricks in mortar"))
        }
        // What lies in mortar is jointed with mortar where nothing else is said.
        (Construction::MortarSet, Some(Binding::Mortar) | None) => match units {
            Kind::ClayPaver => Some(("brick", "for mortar between bricks")),
            Kind::Sett => Some(("setts", "for mortar between setts")),
            Kind::ConcreteFlag | Kind::NaturalStone | Kind::Porcelain if !is_irregular(surface) => {
                Some(("stone", "for mortar between slabs"))
            }
            _ => None,
        },
        _ => None,
    }
}

/// The finding of a joint that misses a limit of a rule, if it does: `verb`
/// says what to do about it, `widen` or `narrow`.
pub(super) fn joint_finding(
    rule: &'static Rule,
    verb: &str,
    context: &Context<'_>,
    surface: &Surface,
    build: &Build,
) -> Option<Finding> {
    let joint = surface.joint.as_ref()?;
    let large = large_row(rule, surface, build);
    let (row, between) = large.or_else(|| joint_row(surface, build))?;
    let limit = context.limit(rule, row)?;
    let width = &joint.width;
    let is_unfilled = joint.filling.is_none() && context.is_misread(surface.section);
    if limit.allows_si(width.value.si()) || is_unfilled {
        return None;
    }
    let shown = limit.beside(&width.value, context.system());
    let between = match row {
        "flags" => {
            let units = large_units(unit_kind(build), context);
            format!("for plain sand between {units}")
        }
        _ => between.to_owned(),
    };
    let (too, bound) = match limit.bound {
        Bound::Least => ("narrow", "least"),
        Bound::Most => ("wide", "most"),
    };
    let least = limit.shown(context.system());
    let message = match width.value.si() > 0.0 {
        true => {
            format!("a joint of {shown} is too {too} {between}; {least} is the {bound}: {verb} it")
        }
        false => format!(
            "the units are butted, and push one another up in the sun; {least} is the least {between}: leave a joint"
        ),
    };
    let text = limit_as_written(&limit, context);
    // Blocks lie as close as their spacers hold them: there it is the stone
    // that is wrong.
    let is_coarse = row == COARSE || large.is_some();
    let coarse = joint.filling.as_ref().filter(|_| is_coarse);
    let takes_chips = build.permeable.is_some() || width.value.si() >= FOR_CHIPS;
    let (stuff, finer) = match large.is_some() && takes_chips {
        true => ("chips", "chip-stone"),
        false => ("sand", "joint-sand"),
    };
    let message = match coarse {
        Some(_) => format!("{message}, or fill it with {stuff}"),
        None => message,
    };
    let fix = Fix::judged(
        format!("{} the joint to {text}", capital(verb)),
        width.place,
        text,
    );
    let fix = match coarse {
        Some(filling) => Fix::judged(format!("Fill it with {finer}"), filling.place, finer),
        None => fix,
    };
    let finding = rule
        .finding(width.place, message)
        .found(shown, Some(width.value))
        .against(&limit, context)
        .fix(fix);
    Some(match &joint.filling {
        Some(filling) => finding.related(filling.place, "what fills it"),
        None => finding,
    })
}
