//! The figures under a long section, a column for each station.

use super::layout::{Block, CAPTIONS, Layout};
use super::stations::Station;
use crate::drawing::display_list::{Ink, Layer, Mark, Path, Pen, Text, Weight};
use crate::drawing::figure::Sketch;
use crate::drawing::font::Face;
use crate::drawing::lettering::{self, NOTE, Setting};
use crate::drawing::measure;
use crate::geometry::Point;
use crate::text::capital;
use crate::units::{System, show};

/// The white between two columns, and over and under the figures.
const BETWEEN: f64 = 1.1;
const PAD: f64 = 1.2;
/// Where the lines from the stations to their columns bend.
const BEND: f64 = 3.5;
/// The least room for a name, which is cut to it.
const LEAST_NAME: f64 = 9.0;
/// The longest figure.
const WIDEST: f64 = 13.5;
/// The rows that say what lies over a stretch, and which drain it is.
const OVER: f64 = 5.0;
const DRAIN: f64 = 8.4;
const FINE: Pen = Pen::of(Weight::Fine);

/// The figures of a long section.
pub(crate) struct Table {
    /// Caption and figures of each row.
    rows: Vec<(&'static str, Vec<Option<Setting>>)>,
    /// The stations that are told, by their index.
    pub reported: Vec<usize>,
    /// How high each row of figures is.
    row: f64,
    /// The least from one column to the next.
    step: f64,
}

impl Table {
    /// That of stations; where there are more than have room, what stands at
    /// no end and has no name is left out.
    pub(crate) fn of(stations: &[Station], system: System, room: f64) -> Table {
        // A column is as wide as two lines of notes at the most.
        let most = (room / 4.6).clamp(2.0, 200.0) as usize;
        let all: Vec<usize> = (0..stations.len()).collect();
        let is_main = |index: &usize| {
            let station = stations.get(*index);
            station.is_some_and(|own| own.is_end || own.name.is_some())
        };
        let mut reported = match all.len() > most {
            true => all.into_iter().filter(is_main).collect(),
            false => all,
        };
        reported.truncate(most);
        let own = || reported.iter().filter_map(|index| stations.get(*index));
        let unknown = || "–".to_owned();
        let level = |level: Option<f64>| {
            Some(level.map_or_else(unknown, |level| measure::level(level, system)))
        };
        let length = |metres: Option<f64>| {
            Some(metres.map_or_else(unknown, |metres| measure::length(metres, system)))
        };
        type Cell<'a> = Box<dyn Fn(&Station) -> Option<String> + 'a>;
        let rows: [(&'static str, Cell<'_>); 6] = [
            ("Distance", Box::new(|own| length(Some(own.at_m)))),
            ("Finish or ground", Box::new(|own| level(own.top_m))),
            (
                "Top of pipe",
                Box::new(|own| own.has_crown.then(|| level(own.crown_m)).flatten()),
            ),
            ("Invert", Box::new(|own| level(own.invert_m))),
            ("Depth to invert", Box::new(|own| length(own.depth_m()))),
            (
                "Cover over pipe",
                Box::new(|own| own.has_crown.then(|| length(own.cover_m())).flatten()),
            ),
        ];
        let rows: Vec<(&'static str, Vec<Option<Setting>>)> = rows
            .into_iter()
            .map(|(caption, cell)| {
                let set = |own: &Station| {
                    let words = lettering::cut(&cell(own)?, NOTE, Face::Medium, WIDEST);
                    Some(lettering::set(&words, NOTE, Face::Medium))
                };
                (caption, own().map(set).collect::<Vec<_>>())
            })
            .filter(|(_, cells)| cells.iter().any(Option::is_some))
            .collect();
        let settings = || rows.iter().flat_map(|(_, cells)| cells.iter().flatten());
        let widest = settings().map(|own| own.width).fold(6.0, f64::max);
        let tallest = settings().map(|own| own.above + own.below);
        let tallest = tallest.fold(NOTE, f64::max);
        Table {
            reported,
            row: widest + 2.0 * PAD,
            step: tallest + BETWEEN,
            rows,
        }
    }

    /// How high it is.
    pub(crate) fn height(&self) -> f64 {
        BEND + self.row * self.rows.len() as f64 + OVER + DRAIN
    }

    /// The least width of its columns.
    pub(crate) fn width(&self) -> f64 {
        self.step * self.reported.len() as f64
    }

    /// Where the columns stand: under their stations, or as near as may be.
    pub(crate) fn columns(&self, stations: &[Station], layout: &Layout) -> Vec<(f64, f64)> {
        let half = self.step / 2.0;
        let (first, last) = (CAPTIONS + half, layout.width - half);
        let per_metre = layout.along_per_metre();
        let own = self
            .reported
            .iter()
            .filter_map(|index| stations.get(*index));
        let true_places: Vec<f64> = own.map(|own| CAPTIONS + own.at_m * per_metre).collect();
        let mut places: Vec<f64> = Vec::new();
        for place in &true_places {
            let least = places.last().map_or(first, |before| before + self.step);
            places.push(place.max(least));
        }
        let mut most = last;
        for place in places.iter_mut().rev() {
            *place = place.min(most);
            most = *place - self.step;
        }
        true_places.into_iter().zip(places).collect()
    }

    /// Draws it, its upper edge here; `grounds` are the levels of the paper
    /// from which a line leads down at each station.
    pub(crate) fn draw(
        &self,
        sketch: &mut Sketch,
        layout: &Layout,
        block: &Block<'_, '_>,
        (top, grounds): (f64, &[f64]),
    ) {
        let columns = self.columns(&block.stations, layout);
        let leads = columns.iter().zip(grounds).map(|((at, column), ground)| {
            Path::through(&[
                Point::new(*at, *ground),
                Point::new(*at, top),
                Point::new(*column, top - BEND),
            ])
        });
        let mark = Mark::Stroke(leads.collect(), FINE.in_ink(Ink::Grey));
        sketch.draw(Layer::Dimensions, None, mark);
        let mut y = top - BEND;
        let mut rules = vec![y];
        for (caption, cells) in &self.rows {
            let middle = y - self.row / 2.0;
            self.caption(sketch, caption, middle);
            for ((_, column), cell) in columns.iter().zip(cells) {
                let Some(setting) = cell else { continue };
                sketch.draw(
                    Layer::Levels,
                    None,
                    upright(setting, Point::new(*column, middle - setting.width / 2.0)),
                );
            }
            y -= self.row;
            rules.push(y);
        }
        self.over(sketch, layout, block, y);
        y -= OVER;
        rules.push(y);
        self.drains(sketch, layout, block, y);
        y -= DRAIN;
        rules.push(y);
        let rules = rules
            .into_iter()
            .map(|y| Path::line(Point::new(0.0, y), Point::new(layout.width, y)));
        sketch.draw(Layer::Sheet, None, Mark::Stroke(rules.collect(), FINE));
    }

    fn caption(&self, sketch: &mut Sketch, words: &str, middle: f64) {
        let setting = lettering::set(words, NOTE, Face::Regular);
        let at = Point::new(0.0, middle - NOTE / 2.0);
        sketch.write(None, at, setting, Ink::Black);
    }

    /// What lies over each stretch.
    fn over(&self, sketch: &mut Sketch, layout: &Layout, block: &Block<'_, '_>, top: f64) {
        self.caption(sketch, "Lies under", top - OVER / 2.0);
        let mut stretches: Vec<(f64, f64, String)> = Vec::new();
        for run in &block.chain.runs {
            for (piece, _) in run.tops() {
                let name = match piece.under {
                    Some(index) => name_of(block, index),
                    None => "ground".to_owned(),
                };
                let (from, to) = (run.from_m + piece.from_m, run.from_m + piece.to_m());
                match stretches.last_mut().filter(|last| last.2 == name) {
                    Some(last) => last.1 = to,
                    None => stretches.push((from, to, name)),
                }
            }
        }
        for (from, to, name) in stretches {
            let fits = stretch(sketch, layout, (from, to), (top, OVER));
            if let Some((left, width)) = fits.filter(|(_, width)| *width > LEAST_NAME) {
                let name = lettering::cut(&name, NOTE, Face::Regular, width - 1.0);
                let setting = lettering::set(&name, NOTE, Face::Regular);
                let x = left + (width - setting.width) / 2.0;
                let at = Point::new(x, top - OVER / 2.0 - NOTE / 2.0);
                sketch.write(None, at, setting, Ink::Black);
            }
        }
    }

    /// Which drain it is, how wide and how it falls; where that has no room a
    /// letter stands for it, which the notes explain.
    fn drains(&self, sketch: &mut Sketch, layout: &Layout, block: &Block<'_, '_>, top: f64) {
        self.caption(sketch, "Drain", top - DRAIN / 2.0);
        for run in &block.chain.runs {
            let span = (run.from_m, run.to_m());
            let Some((left, width)) = stretch(sketch, layout, span, (top, DRAIN)) else {
                continue;
            };
            let link = Some(run.drain.place);
            let (name, reported) = words(run, sketch.system);
            let lines = [
                lettering::set(&name, NOTE, Face::Medium),
                lettering::set(&reported, NOTE, Face::Regular),
            ];
            let widest = lines.iter().map(|line| line.width).fold(0.0, f64::max);
            if widest + 1.0 <= width {
                for (line, down) in lines.into_iter().zip([3.5, 7.1]) {
                    let x = left + (width - line.width) / 2.0;
                    sketch.write(link, Point::new(x, top - down), line, Ink::Water);
                }
                continue;
            }
            // The name alone, or a letter for it where that has no room either.
            let [own, _] = lines;
            let setting = match own.width + 1.0 <= width {
                true => {
                    sketch.note(format!("{}: {reported}", capital(&name)));
                    own
                }
                false => {
                    let letter = format!("({})", run.letter);
                    sketch.note(format!("{letter} {name}: {reported}"));
                    lettering::set(&letter, NOTE, Face::Medium)
                }
            };
            if setting.width + 0.4 <= width {
                let x = left + (width - setting.width) / 2.0;
                let at = Point::new(x, top - DRAIN / 2.0 - NOTE / 2.0);
                sketch.write(link, at, setting, Ink::Water);
            }
        }
    }
}

fn name_of(block: &Block<'_, '_>, index: usize) -> String {
    let names = block.surfaces.get(index).cloned();
    names.unwrap_or_else(|| "a surface".to_owned())
}

/// The ends of a stretch on the paper, drawn as strokes across its row: where
/// it starts and how wide it is.
fn stretch(
    sketch: &mut Sketch,
    layout: &Layout,
    (from, to): (f64, f64),
    (top, high): (f64, f64),
) -> Option<(f64, f64)> {
    let per_metre = layout.along_per_metre();
    let place = |metres: f64| CAPTIONS + metres * per_metre;
    let (left, right) = (place(from), place(to));
    let strokes = [left, right].map(|x| Path::line(Point::new(x, top), Point::new(x, top - high)));
    sketch.draw(Layer::Sheet, None, Mark::Stroke(strokes.to_vec(), FINE));
    (right > left).then_some((left, right - left))
}

/// The name of a run, and its size, fall and length.
fn words(run: &super::chain::Run<'_>, system: System) -> (String, String) {
    let existing = if run.figures.is_existing {
        ", existing"
    } else {
        ""
    };
    let name = format!("{}{existing}", run.drain.name.value.replace('-', " "));
    let size = run.drain.body.as_ref().and_then(|body| {
        let size = body.value.pipe()?.size.as_ref()?;
        Some(format!("Ø {}", measure::thickness(size.value.si(), system)))
    });
    let fall = match run.figures.fall {
        Some(fall) if fall > 0.0 => format!("falls {}", show::slope(fall)),
        Some(0.0) => "level".to_owned(),
        Some(fall) => format!("rises {}", show::slope(-fall)),
        None => "fall not known".to_owned(),
    };
    let length = measure::length(run.course.length(), system);
    let reported: Vec<String> = size
        .into_iter()
        .chain([fall, format!("{length} long")])
        .collect();
    (name, reported.join(", "))
}

/// A line of text turned upright, its middle on a column, that starts here.
pub(crate) fn upright(setting: &Setting, foot: Point) -> Mark {
    let at = Point::new(foot.x + (setting.above - setting.below) / 2.0, foot.y);
    Mark::Text(Text {
        at,
        angle: std::f64::consts::FRAC_PI_2,
        setting: setting.clone(),
        ink: Ink::Black,
    })
}
