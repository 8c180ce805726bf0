//! Where a mix is used: one walk for all that judge it by its use.

use crate::model::{Mix, Surface, Used};
use crate::rules::Context;

/// Looks at each place in surfaces, steps and drains where the job uses a mix,
/// with the surface that it is in.
pub(in crate::rules) fn each_use<'a>(
    context: &Context<'a>,
    mix: &Mix,
    mut look: impl FnMut(Option<&'a Surface>, Used<'a>),
) {
    let is_it = |used: &Used<'_>| {
        let of = used.of.value.mix();
        of.is_some_and(|own| own.name == mix.name)
    };
    for surface in context.all_surfaces() {
        surface.each_use(&mut |used| {
            if is_it(&used) {
                look(Some(surface), used);
            }
        });
    }
    let mut elsewhere = |used| {
        if is_it(&used) {
            look(None, used);
        }
    };
    for steps in context.job.steps.iter() {
        steps.each_use(&mut elsewhere);
    }
    for drain in context.job.drains.iter() {
        drain.each_use(&mut elsewhere);
    }
}
