//! The site card: a small plan with levels, falls and pegs, and for each surface
//! the rod below its string and the marks under a level board.

use super::{cell, plain, said};
use crate::analysis::Analysis;
use crate::drawing::{
    Block, Choice, Document, Drawing, RodMark, Size, UnderBoard, plan, rod_and_board,
};
use crate::model::Surface;
use crate::quantities::{
    self, BoardLies, BoardMark, RodTop, SurfaceFigures, SurfaceSettingOut, board_length,
    setting_out,
};
use crate::report::setout::{setout_level, setout_tape};
use crate::report::trade::{UNKNOWN, volume};
use crate::report::words::listed;
use crate::text::capital;
use crate::units::{System, show};
use crate::vocabulary::compass_word;

/// How wide the plan may be, in millimetres; and how high, the first that leaves
/// room for all cards on its page.
const WIDE: f64 = 172.0;
const HIGH: [f64; 5] = [112.0, 96.0, 82.0, 70.0, 60.0];
/// The smallest scale that is read at arm's length: where the cards leave no room
/// for it, the plan has a page.
const READABLE: f64 = 120.0;
/// What stands over and under the plan, and what each card has beside its
/// picture.
const OF_HEAD: f64 = 42.0;
const OF_CARD: f64 = 19.0;
/// What is kept under a plan that has a page for its notes.
const OF_NOTES: f64 = 24.0;

/// More pegs and points than this never have room for their numbers on a small
/// plan.
const MOST_PEGS: usize = 60;

/// The most edges along which the board is told of.
const MOST_EDGES: usize = 5;

/// A card for each surface that has a build, under the plan of all of them.
pub(crate) fn cards(analysis: &Analysis, size: Size) -> Vec<Block> {
    let system = analysis.job.heading.system();
    let found = setting_out(&analysis.job);
    let built = analysis.job.surfaces.iter();
    let built = built.zip(analysis.figures.surfaces.iter());
    let built: Vec<_> = built.filter(|(own, _)| own.build.is_some()).collect();
    let set_out = found.surfaces.iter().filter_map(|out| {
        let mut built = built.iter();
        let (own, figures) = built.find(|(own, _)| own.name.value == out.name)?;
        Some((out, (own.as_ref(), figures.as_ref())))
    });
    let set_out: Vec<_> = set_out.collect();
    let cards = set_out.iter().flat_map(|(own, figures)| {
        let card = rod_and_board(&rod(&own.rod, system), &under_board(analysis, own));
        let borders = own.border_rods.iter().map(move |(name, marks)| {
            let card = rod_and_board(&rod(marks, system), &UnderBoard::default());
            (name, None, card)
        });
        let field = (&own.name, Some(levels(own, figures, system)), card);
        std::iter::once(field).chain(borders)
    });
    let cards = alike(cards);
    let Some((first, _)) = set_out.first() else {
        return Vec::new();
    };
    let taken: f64 = cards.iter().map(|(.., card)| card.size.1 + OF_CARD).sum();
    let page = Document::room(size).1 - OF_HEAD;
    let tries_pegs = found.pegs.len() + found.spots.len() <= MOST_PEGS;
    let plan = small_plan(analysis, tries_pegs, (page, page - taken));
    let mut blocks = head(analysis, first, plan);
    for (name, levels, card) in cards {
        let heading = Block::Subheading(capital(&name));
        let card = Block::Figure(Box::new(card));
        let levels = levels.into_iter().map(Block::Text);
        blocks.push(Block::Together(
            std::iter::once(heading)
                .chain(levels)
                .chain([card])
                .collect(),
        ));
    }
    blocks
}

/// A card for all that are built alike: whose it is, what is said of each, and its
/// picture.
fn alike<'n>(
    cards: impl Iterator<Item = (&'n String, Option<String>, Drawing)>,
) -> Vec<(String, Vec<String>, Drawing)> {
    type Owner = (String, Option<String>);
    let mut grouped: Vec<(Vec<Owner>, Drawing)> = Vec::new();
    for (name, levels, card) in cards {
        let own = (plain(name), levels);
        match grouped.iter_mut().find(|(_, other)| *other == card) {
            Some((owners, _)) => owners.push(own),
            None => grouped.push((vec![own], card)),
        }
    }
    let cards = grouped.into_iter().map(|(owners, card)| {
        let names: Vec<&str> = owners.iter().map(|(name, _)| name.as_str()).collect();
        let first = owners.first().and_then(|(_, levels)| levels.clone());
        let said = match owners.iter().all(|(_, levels)| *levels == first) {
            true => first.into_iter().collect(),
            false => owners
                .iter()
                .filter_map(|(name, levels)| {
                    Some(format!("{}: {}", capital(name), levels.as_ref()?))
                })
                .collect(),
        };
        (listed(&names), said, card)
    });
    cards.collect()
}

/// What stands over all cards: level 0, the string of the first and with it of
/// all, and the plan.
fn head(analysis: &Analysis, first: &SurfaceSettingOut, plan: Option<Drawing>) -> Vec<Block> {
    let datum = analysis.job.site.datum.as_ref();
    let mut blocks = vec![
        Block::Heading("On site".to_owned()),
        Block::Text(match datum {
            Some(datum) => format!("Level 0 is {}.", said(&datum.value)),
            None => "What level 0 is, is not stated.".to_owned(),
        }),
        Block::Text(string(first, analysis.job.heading.system())),
    ];
    if let Some(drawing) = plan {
        let notes: Vec<String> = drawing.notes.iter().map(|note| said(note)).collect();
        blocks.push(Block::Figure(Box::new(drawing)));
        if !notes.is_empty() {
            blocks.push(Block::Quiet(notes.join(" ")));
        }
    }
    // What the plan is measured from stands on its page.
    vec![Block::Chapter, Block::Together(blocks)]
}

/// The plan with levels and falls, as large as what the cards leave of a page
/// lets it be, or where that is too small as large as the page does; and with
/// the pegs where their numbers have room: a key to numbers would only confuse.
fn small_plan(analysis: &Analysis, tries_pegs: bool, (page, left): (f64, f64)) -> Option<Drawing> {
    let within = |high: f64| plan_within(analysis, tries_pegs, high);
    let mut plans = HIGH.iter().filter_map(|high| within(*high));
    let fitting = plans.find(|own| own.size.1 <= left && own.scale <= READABLE);
    fitting.or_else(|| within(page - OF_NOTES))
}

fn plan_within(analysis: &Analysis, tries_pegs: bool, high: f64) -> Option<Drawing> {
    let drawn = |shows_pegs: bool| {
        let choice = Choice {
            room: Some((WIDE, high)),
            is_alone: true,
            is_outline: true,
            shows_pegs,
            ..Choice::default()
        };
        plan(analysis, "", &choice).ok()
    };
    let without = drawn(false)?;
    let with = tries_pegs.then(|| drawn(true)).flatten();
    let with = with.filter(|own| own.notes.len() <= without.notes.len());
    Some(with.unwrap_or(without))
}

/// Where the string stands, and why one rod does for all pegs.
fn string(own: &SurfaceSettingOut, system: System) -> String {
    let finish = own.rod.first().and_then(|mark| mark.below_m);
    let stands = match finish {
        Some(below) if below.abs() < 5e-4 => {
            "The string stands at the finished surface and falls with it".to_owned()
        }
        Some(below) => format!(
            "The string stands {} above the finished surface and falls with it",
            setout_level(below, system)
        ),
        None => "The string falls with the finished surface".to_owned(),
    };
    format!("{stands}: one rod serves every peg.")
}

/// The marks on the rod, from the string down.
fn rod(marks: &[quantities::RodMark], system: System) -> Vec<RodMark> {
    let string = RodMark {
        name: "string".to_owned(),
        figure: setout_level(0.0, system),
        below_m: Some(0.0),
    };
    let marks = marks.iter().map(|mark| {
        let figure = mark.below_m.map(|below| setout_level(below, system));
        RodMark {
            name: match &mark.top {
                RodTop::Layer(_, material) => plain(material),
                top => top.words(),
            },
            figure: figure.unwrap_or_else(|| UNKNOWN.to_owned()),
            below_m: mark.below_m,
        }
    });
    std::iter::once(string).chain(marks).collect()
}

/// What is marked under a level board: the steepest way, then along the edges.
fn under_board(analysis: &Analysis, own: &SurfaceSettingOut) -> UnderBoard {
    let system = analysis.job.heading.system();
    let board = board_length(&analysis.job);
    let board = board.map(|board| setout_tape(board.value, system));
    let row = |mark: &BoardMark| {
        let along = match &mark.lies {
            BoardLies::Along(..) => format!("along {}", mark.lies.words(plain)),
            other => other.words(plain),
        };
        let at = mark
            .at_m
            .map(|at| format!(" at {}", setout_tape(at, system)));
        let down = match mark.toward_degrees {
            Some(bearing) => format!(
                "{} down{} to the {}",
                setout_level(mark.down_m, system),
                at.unwrap_or_default(),
                compass_word(bearing)
            ),
            None => "level".to_owned(),
        };
        (along, down)
    };
    let mut rows: Vec<(String, String)> = own.boards.iter().take(MOST_EDGES).map(row).collect();
    if rows.is_empty() {
        rows.push(("not known".to_owned(), cell(UNKNOWN)));
    }
    UnderBoard {
        board: board.unwrap_or_else(|| UNKNOWN.to_owned()),
        rows,
        falls: own
            .boards
            .first()
            .is_some_and(|own| own.toward_degrees.is_some()),
    }
}

fn levels(
    own: &SurfaceSettingOut,
    (surface, figures): &(&Surface, &SurfaceFigures),
    system: System,
) -> String {
    let falls_to_drain = |mark: &BoardMark| matches!(mark.lies, BoardLies::From(_));
    let (high, low, least) = match own.boards.iter().any(falls_to_drain) {
        true => ("at every edge", "at the drain", " at least"),
        false => ("at the high edge", "at the low edge", ""),
    };
    let dig = figures.dig.as_ref();
    let dig = dig.map(|dig| format!("; dig {}", volume(dig.bank_m3, system)));
    let dig = dig.unwrap_or_default();
    let level = |metres: Option<f64>| {
        metres.map_or_else(|| UNKNOWN.to_owned(), |metres| signed(metres, system))
    };
    if figures.fall == Some(0.0) {
        return format!(
            "Finished level {}, level all over{dig}.",
            level(figures.highest_m)
        );
    }
    // A dash has its reason beside it.
    let unstated = |what: bool| if what { " (none is stated)" } else { "" };
    let no_fall = surface.fall.is_none() && surface.fall_to.is_none();
    let fall = match figures.fall {
        Some(fall) => show::slope(fall),
        None => format!("{UNKNOWN}{}", unstated(no_fall)),
    };
    if figures.highest_m.is_none() && figures.lowest_m.is_none() {
        let why = unstated(surface.levels.is_empty());
        return format!("Finished level {UNKNOWN}{why}; fall {fall}{dig}.");
    }
    format!(
        "Finished level {} {high}, {} {low}; fall {fall}{least}{dig}.",
        level(figures.highest_m),
        level(figures.lowest_m),
    )
}

fn signed(metres: f64, system: System) -> String {
    let size = setout_level(metres.abs(), system);
    match metres < 0.0 {
        true => format!("−{size}"),
        false => size,
    }
}
