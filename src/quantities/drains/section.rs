//! A drain seen in its cross section: how wide its dig is, and how far the
//! bottom of that lies below the invert.

use crate::model::{Bedding, Drain, DrainBody, Stated};
use crate::quantities::measures::{Count, Length};
use crate::quantities::term::Term;
use crate::quantities::trace::Trace;
use crate::units::Quantity;

/// The cross section of a run.
#[derive(Clone, Copy)]
pub(super) struct Section<'t> {
    /// How wide the pipe or channel itself is, outside.
    pub own: Term<'t, Length>,
    /// How thick its wall is.
    pub wall: Term<'t, Length>,
    /// How thick what it is laid in is, below and on each side.
    pub round: Option<Term<'t, Length>>,
    /// How wide the dig is.
    pub width: Term<'t, Length>,
    /// How far its bottom lies below the invert.
    pub under: Term<'t, Length>,
}

impl<'t> Section<'t> {
    /// The cross section of a drain; `None` where a size is not known, and of
    /// what stands at a point.
    pub(crate) fn of(drain: &Drain, trace: &'t Trace) -> Option<Section<'t>> {
        let stated =
            |name: &str, of: &Stated<Quantity>| trace.stated(name, Length(of.value.si()), of.place);
        let nothing = trace.term("nothing", Length(0.0));
        match &drain.body.as_ref()?.value {
            DrainBody::Pipe(pipe) => {
                let outside = stated("outside of the pipe", pipe.size.as_ref()?);
                let wall = match &pipe.bore {
                    Some(bore) => wall(outside, stated("bore", bore), trace),
                    None => nothing,
                };
                Some(Section::round(drain.bedded.as_ref(), outside, wall, trace))
            }
            DrainBody::Channel {
                clear, over_all, ..
            } => {
                let (clear, _) = clear.as_ref()?;
                let clear = stated("clear width", clear);
                let (outside, wall) = match over_all {
                    Some(over_all) => {
                        let outside = stated("width over all", over_all);
                        (outside, wall(outside, clear, trace))
                    }
                    None => (clear, nothing),
                };
                Some(Section::round(drain.bedded.as_ref(), outside, wall, trace))
            }
            DrainBody::Trench { wide, .. } => {
                let width = stated("width", wide);
                Some(Section {
                    own: width,
                    wall: nothing,
                    round: None,
                    width,
                    under: nothing,
                })
            }
            DrainBody::Gully { .. } | DrainBody::Soakaway { .. } => None,
        }
    }

    fn round(
        bedded: Option<&Bedding>,
        own: Term<'t, Length>,
        wall: Term<'t, Length>,
        trace: &'t Trace,
    ) -> Section<'t> {
        let round = bedded.and_then(|bedded| bedded.round.as_ref());
        let round = round
            .map(|round| trace.stated("what it is laid in", Length(round.value.si()), round.place));
        match round {
            Some(round) => Section {
                own,
                wall,
                round: Some(round),
                width: trace.gives("width of the dig", own + round + round),
                under: trace.gives("dig below the invert", wall + round),
            },
            None => Section {
                own,
                wall,
                round: None,
                width: own.called("width of the dig"),
                under: wall.called("dig below the invert"),
            },
        }
    }
}

/// How thick a wall is whose outside and inside are known.
fn wall<'t>(
    outside: Term<'t, Length>,
    inside: Term<'t, Length>,
    trace: &'t Trace,
) -> Term<'t, Length> {
    let two = trace.term("2", Count(2.0));
    trace.gives("wall", (outside - inside) / two)
}
