//! All the sheets of a job: the plan, the sections through each build, the
//! flights of steps from the side, the drains along their length.

use std::cell::RefCell;

use super::display_list::Drawing;
use super::figure::Figure;
use super::further::{Told, further};
use super::paging::{Draw, Paged};
use super::plan::{self, Choice, Misfit};
use super::sheet::Sheet;
use super::surround::{WARNING, errors};
use super::{flight, long_section, section};
use crate::analysis::Analysis;
use crate::text::capital;

/// A kind of figure that goes with a plan.
struct Kind {
    /// What a sheet is called that shows nothing else.
    title: &'static str,
    /// What it is called beside others.
    word: &'static str,
    /// Draws each of a job, in so much room.
    draw: fn(&Analysis, (f64, f64)) -> Vec<Figure>,
}

/// What goes with a plan, in order.
const FURTHER: [Kind; 3] = [
    Kind {
        title: "Section through the build",
        word: "section",
        draw: section::sections,
    },
    Kind {
        title: "Steps, cut along their climb",
        word: "steps",
        draw: flight::flights,
    },
    Kind {
        title: "Long section of the drains",
        word: "long section",
        draw: long_section::long_sections,
    },
];

/// What goes with the plan of a job on this sheet: on smaller ones where they
/// take less paper, on larger ones where it could not be made out.
fn paged(analysis: &Analysis, plan: &Sheet, choice: &Choice) -> Paged {
    let warning = if errors(analysis) > 0 { WARNING } else { 0.0 };
    let draw = FURTHER.map(|kind| move |room: (f64, f64)| (kind.draw)(analysis, room));
    let [one, two, three] = &draw;
    let kinds: [Draw<'_>; 3] = [one, two, three];
    let on = |sheet: Sheet| Paged::of(sheet, warning, &kinds);
    let mut best = on(plan.clone());
    if choice.sheet.is_some() || best.count() == 0 {
        return best;
    }
    let other = match (best.is_clear(), best.is_bare()) {
        (true, true) => plan.size.smaller(),
        (true, false) => None,
        (false, _) => plan.size.larger(),
    };
    if let Some(size) = other {
        let other = on(Sheet::new(size, plan.is_upright));
        if other.is_before(&best) {
            best = other;
        }
    }
    best
}

/// Draws every sheet of a job, the plan first. `source` is its file as it is
/// shown. The figures on the others stand to scales of their own, on sheets like
/// the plan's or, where none is asked for, on those that suit them better.
///
/// # Errors
/// [`Misfit`] if a scale was asked for and the plan is too big for its sheet.
pub fn sheets(
    analysis: &Analysis,
    source: &str,
    choice: &Choice,
) -> Result<Vec<Drawing>, Box<Misfit>> {
    // The last plan that was counted for is the one that is kept.
    let last: RefCell<Option<(Sheet, Paged)>> = RefCell::new(None);
    let count = |plan: &Sheet| {
        if choice.is_alone {
            return 0;
        }
        let mut last = last.borrow_mut();
        let known = last.take().filter(|(sheet, _)| sheet == plan);
        let (_, paged) =
            last.insert(known.unwrap_or_else(|| (plan.clone(), paged(analysis, plan, choice))));
        paged.count()
    };
    let (mut drawings, _) = plan::on_sheets(analysis, source, choice, &count)?;
    let Some((_, paged)) = last.into_inner() else {
        return Ok(drawings);
    };
    let before = drawings.len();
    for page in 0..paged.count() {
        let own = paged.placed.iter().filter(|own| own.1 == page);
        let (kinds, figures): (Vec<usize>, Vec<_>) = own
            .map(|(kind, _, corner, figure)| (*kind, (*corner, figure)))
            .unzip();
        let shown: Vec<&Kind> = FURTHER
            .iter()
            .enumerate()
            .filter_map(|(index, kind)| kinds.contains(&index).then_some(kind))
            .collect();
        let words: Vec<&str> = shown.iter().map(|kind| kind.word).collect();
        let words = words.join(", ");
        let title = match shown.as_slice() {
            [alone] => alone.title.to_owned(),
            _ => capital(&words),
        };
        let told = Told {
            source,
            drawing: &title,
            kinds: &words,
            number: (before + page + 1, before + paged.count()),
        };
        drawings.push(further(analysis, &paged.sheet, &figures, &told));
    }
    Ok(drawings)
}

/// Draws what goes with the plan bare, each kind in the first of so many rooms
/// on a page in which it can be made out and is as large as its width lets it,
/// or where none does that in the first in which it can be made out; what else
/// there is to say of it is in its notes.
pub fn figures(analysis: &Analysis, rooms: &[(f64, f64)]) -> Vec<Drawing> {
    let drawn = FURTHER.iter().flat_map(|kind| {
        let mut best: Vec<Figure> = Vec::new();
        for (number, room) in rooms.iter().enumerate() {
            let drawn = (kind.draw)(analysis, *room);
            let rank = |figures: &[Figure]| {
                let is_clear = figures.iter().all(|own| own.is_clear);
                (
                    is_clear,
                    is_clear && !figures.iter().any(|own| own.is_squeezed),
                )
            };
            if number == 0 || rank(&drawn) > rank(&best) {
                best = drawn;
            }
            if rank(&best) == (true, true) {
                break;
            }
        }
        best
    });
    drawn.map(Figure::alone).collect()
}
