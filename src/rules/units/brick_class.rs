//! `brick-class`: brick made for walls, or for lighter traffic, as paving.

use crate::findings::Severity;
use crate::materials::Kind;
use crate::model::{BrickClass, Build, Layer, Surface, Use};
use crate::rules::documents::{bia_14a, bia_14c};
use crate::rules::{Check, Context, Family, Found, Rule};
use crate::vocabulary::Role;

/// Brick made for walls, or for lighter traffic, as paving.
pub(crate) static BRICK_CLASS: Rule = Rule {
    name: "brick-class",
    family: Family::Units,
    severity: Severity::Warning,
    looks_at: "The stated class of clay brick laid as paving: facing and building brick are for walls, and a street needs heavy paving brick.",
    reason: "Wall brick soaks up water and is not fired for wear: wet and frozen, its face comes off. Under heavy wheels light brick breaks.",
    remedy: "Use paving brick (ASTM C902), under street traffic heavy paving brick (ASTM C1272).",
    limits: &[],
    sources: &[
        bia_14a("pavers to ASTM C902, for heavy traffic to ASTM C1272"),
        bia_14c("pavers to ASTM C902, for heavy traffic to ASTM C1272"),
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
    check: Check::Layer(check),
};

fn check(_: &Context<'_>, surface: &Surface, _: &Build, layer: &Layer, found: &mut Found) {
    let material = layer.of.value.material();
    let Some(material) = material.filter(|_| layer.role.value == Role::Paving) else {
        return;
    };
    let (Some(class), true) = (&material.class, material.kind.is_some_and(Kind::is_brick)) else {
        return;
    };
    let message = match class.value {
        BrickClass::Facing | BrickClass::Building => format!(
            "{} brick is made for walls and will not stand frost and wear underfoot: use paving brick (ASTM C902)",
            class.value.word()
        ),
        BrickClass::Paving if surface.used_for == Use::Street => {
            "light paving brick breaks under street traffic: use heavy-paving (ASTM C1272)"
                .to_owned()
        }
        BrickClass::Paving | BrickClass::HeavyPaving => return,
    };
    found.add(
        BRICK_CLASS
            .finding(class.place, message)
            .related(layer.place, "laid as paving"),
    );
}
