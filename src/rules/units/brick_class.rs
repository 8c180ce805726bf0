//! `brick-class`: brick made for walls, for lighter traffic or for drier
//! places, as paving.

use crate::findings::Severity;
use crate::materials::Kind;
use crate::model::{BrickClass, Durability, Region, Surface, Use, Used, UsedAs};
use crate::rules::documents::{bia_14a, bia_14c};
use crate::rules::{Check, Context, Family, Found, Rule};
use crate::sources::Source;
use crate::vocabulary::Role;

/// How American brick is classed for the weather.
const ASTM_WEATHERING: Source = Source::memory(
    "ASTM C902 and C216; editions to check",
    "SX and SW for brick that freezes wet, MX and MW where it does not, NX and NW indoors",
);

/// How European brick is.
const EN_DURABILITY: Source = Source::memory(
    "BS EN 771-1 and BS EN 1344; editions to check",
    "bricks F2 for severe exposure, F1 moderate, F0 passive; pavers FP100 tested in frost, FP0 not, and T1 to T4 by the load that they bear",
);

/// What Australian paving brick is made to.
const AU_PAVERS: Source = Source::memory(
    "AS/NZS 4455.2; edition to check",
    "pavers and flags, by the traffic that they carry",
);

/// How Australian brick is.
const AU_EXPOSURE: Source = Source::memory(
    "AS/NZS 4456.10; edition to check",
    "exposure, general purpose and protected grades",
);

/// Brick made for walls, for lighter traffic or for drier places, as paving.
pub(crate) static BRICK_CLASS: Rule = Rule {
    name: "brick-class",
    family: Family::Units,
    severity: Severity::Warning,
    looks_at: "The stated class and durability of clay brick in paving, borders, edging and steps: facing and building brick are for walls, a street needs heavy paving brick, and what lies wet and freezes has to stand both.",
    reason: "Wall brick soaks up water and is not fired for wear: wet and frozen, its face comes off. Under heavy wheels light brick breaks.",
    remedy: "Use paving brick (ASTM C902, in Britain BS EN 1344) that is classed for frost, under street traffic heavy paving brick (ASTM C1272).",
    limits: &[],
    sources: &[
        bia_14a("pavers to ASTM C902, for heavy traffic to ASTM C1272"),
        bia_14c("pavers to ASTM C902, for heavy traffic to ASTM C1272"),
        ASTM_WEATHERING,
        EN_DURABILITY,
        AU_EXPOSURE,
        AU_PAVERS,
    ],
    breaks: "build sand-set
  paving       garden-brick, 65 mm, waste 5 %

material garden-brick
  like         clay-paver
  class        «facing»
",
    keeps: "build sand-set
  paving       garden-brick, 65 mm, waste 5 %

material garden-brick
  like         clay-paver
  class        paving
",
    mended: None,
    check: Check::SurfaceAndJob(of_surface, of_steps),
};

fn of_surface(context: &Context<'_>, surface: &Surface, found: &mut Found) {
    surface.each_use(&mut |used| look(context, &used, Some(surface), found));
}

fn of_steps(context: &Context<'_>, found: &mut Found) {
    for steps in context.job.steps.iter() {
        steps.each_use(&mut |used| look(context, &used, None, found));
    }
}

/// Looks at brick that is walked on or stands in wet ground.
fn look(context: &Context<'_>, used: &Used<'_>, on: Option<&Surface>, found: &mut Found) {
    let laid_as = match used.used {
        UsedAs::Layer(Role::Paving) => "laid as paving",
        UsedAs::Border => "laid as a border",
        UsedAs::Edging => "laid as edging",
        UsedAs::Tread => "laid as treads",
        UsedAs::Riser => "laid as risers",
        _ => return,
    };
    let material = used.of.value.material();
    let Some(material) = material.filter(|own| own.kind.is_some_and(Kind::is_brick)) else {
        return;
    };
    let is_street = on.is_some_and(|surface| surface.used_for == Use::Street);
    let is_face = used.used == UsedAs::Riser;
    let class = material.class.as_ref();
    let of_class = class.and_then(|class| {
        Some((
            misplaced(class.value, context.region(), is_street, is_face)?,
            class.place,
        ))
    });
    let class = material.durability.as_ref();
    let of_durability =
        || class.and_then(|class| Some((perishing(context, class.value)?, class.place)));
    if let Some((message, place)) = of_class.or_else(of_durability) {
        found.add(
            BRICK_CLASS
                .finding(place, message)
                .related(used.of.place, laid_as),
        );
    }
}

/// What is wrong with a class of brick underfoot, or in the face of a riser.
fn misplaced(class: BrickClass, region: Region, is_street: bool, is_face: bool) -> Option<String> {
    let (paving, heavy) = standards(region);
    match class {
        BrickClass::Facing | BrickClass::Building if !is_face => Some(format!(
            "{} brick is made for walls and will not stand frost and wear underfoot: use paving brick ({paving})",
            class.word()
        )),
        BrickClass::Paving if is_street => Some(format!(
            "light paving brick breaks under street traffic: use heavy-paving ({heavy})"
        )),
        _ => None,
    }
}

/// What a merchant of a region knows paving brick by, light and heavy.
const fn standards(region: Region) -> (&'static str, &'static str) {
    match region {
        Region::Us | Region::General => ("ASTM C902", "ASTM C1272"),
        Region::Uk => ("BS EN 1344", "BS EN 1344, class T4"),
        Region::Au => ("AS/NZS 4455.2", "AS/NZS 4455.2, for heavy traffic"),
    }
}

/// What is wrong with brick of a durability in ground that is always wet.
fn perishing(context: &Context<'_>, durability: Durability) -> Option<String> {
    let (is_for_weather, better) = match durability {
        Durability::Nx => (false, Durability::Sx),
        Durability::Mx => (true, Durability::Sx),
        Durability::Nw => (false, Durability::Sw),
        Durability::Mw => (true, Durability::Sw),
        Durability::F0 => (false, Durability::F2),
        Durability::F1 => (true, Durability::F2),
        Durability::Fp0 => (true, Durability::Fp100),
        Durability::Pro => (false, Durability::Exp),
        Durability::Gp => (true, Durability::Exp),
        Durability::Sx | Durability::Sw | Durability::F2 | Durability::Fp100 | Durability::Exp => {
            return None;
        }
    };
    let (word, better) = (durability.word(), better.word());
    match is_for_weather {
        false => Some(format!(
            "{word} brick is made for dry places and crumbles on wet ground: use {better}"
        )),
        true => freezes(context).then(|| {
            format!("{word} brick comes apart where it freezes wet, as paving does: use {better}")
        }),
    }
}

/// Whether the ground freezes, as stated; in Britain it does unless the site
/// says that it does not.
fn freezes(context: &Context<'_>) -> bool {
    let frost = context.job.site.frost.as_ref();
    frost.map_or(context.region() == Region::Uk, |frost| {
        frost.value.si() > 0.0
    })
}
