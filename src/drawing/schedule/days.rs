//! The days of a chart: columns from left to right, days off narrow and
//! hatched.

use super::Chart;
use super::bars::NAMES;
use crate::drawing::display_list::{Ink, Mark, Path, Pen, Weight};
use crate::drawing::font::Face;
use crate::drawing::legend::{self, Entry};
use crate::drawing::lettering::{self, NOTE};
use crate::drawing::sheet::Panel;
use crate::geometry::Point;
use crate::quantities::{DAY_MINUTES, ScheduleFigures};

/// The room of the days' names over the rows.
pub(crate) const HEAD: f64 = 11.0;
/// The white round the chart.
const INSET: f64 = 5.0;
/// From one line of a hatch to the next.
const HATCH: f64 = 1.6;
/// The white between the names of two days.
const NAME_ROOM: f64 = 3.0;
/// From one line between days to the next, at least.
const CLOSEST: f64 = 3.0;

/// Light lines.
const DOTTED: [f64; 2] = [0.3, 0.9];

/// How wide a day off is, as a share of a day that is worked.
const OFF: f64 = 0.3;

/// How days lie on the paper: a working day from its opening to its close, a
/// day off narrower.
pub(crate) struct Days {
    /// Where each day begins, and where the last ends.
    edges: Vec<f64>,
    /// When each day opens and closes; `None` for a day off.
    hours: Vec<Option<(i64, i64)>>,
    name_width: f64,
}

impl Days {
    /// The days of a schedule between the names of the tasks and the edge.
    pub(crate) fn of(schedule: &ScheduleFigures, panel: &Panel) -> Days {
        let ends = schedule.tasks.iter().filter_map(|task| task.slot);
        let end = ends.map(|slot| slot.end_min).max().unwrap_or(0);
        let end = schedule.end_with_rain_min.unwrap_or(0).max(end);
        let count = (end - 1).max(0).div_euclid(DAY_MINUTES) + 1;
        let hours: Vec<Option<(i64, i64)>> = (0..count).map(|day| schedule.hours_of(day)).collect();
        let share = |hours: &Option<(i64, i64)>| if hours.is_some() { 1.0 } else { OFF };
        let shares: f64 = hours.iter().map(share).sum();
        let left = panel.low.x + NAMES;
        let width = (panel.high.x - INSET - left) / shares.max(OFF);
        let mut edges = vec![left];
        let mut edge = left;
        for own in &hours {
            edge += width * share(own);
            edges.push(edge);
        }
        Days {
            edges,
            hours,
            name_width: (0..count)
                .map(|day| lettering::set(&schedule.day_name(day), NOTE, Face::Regular).width)
                .fold(0.0, f64::max),
        }
    }

    fn count(&self) -> usize {
        self.hours.len()
    }

    /// Where a day begins.
    fn edge(&self, day: usize) -> f64 {
        let last = self.edges.last().copied().unwrap_or_default();
        self.edges.get(day).copied().unwrap_or(last)
    }

    /// Where the last day ends.
    fn right(&self) -> f64 {
        self.edge(self.count())
    }

    /// Where a moment lies.
    pub(crate) fn at(&self, moment: i64) -> f64 {
        let day = usize::try_from(moment.div_euclid(DAY_MINUTES)).unwrap_or_default();
        let (from, until) = match self.hours.get(day).copied().flatten() {
            Some(hours) => hours,
            None => {
                let midnight = moment.div_euclid(DAY_MINUTES) * DAY_MINUTES;
                (midnight, midnight + DAY_MINUTES)
            }
        };
        let share = (moment - from) as f64 / ((until - from).max(1)) as f64;
        let (left, right) = (self.edge(day), self.edge(day + 1));
        left + (right - left) * share.clamp(0.0, 1.0)
    }

    /// Draws the days behind rows that reach down to a foot.
    pub(crate) fn draw(
        &self,
        chart: &mut Chart,
        schedule: &ScheduleFigures,
        panel: &Panel,
        foot: f64,
    ) {
        let top = panel.high.y - HEAD;
        let fine = Pen::of(Weight::Fine).in_ink(Ink::Pale);
        let off = self
            .hours
            .iter()
            .enumerate()
            .filter(|(_, hours)| hours.is_none());
        let hatched: Vec<Path> = off
            .flat_map(|(day, _)| {
                let (from, to) = (self.edge(day), self.edge(day + 1));
                hatch(Point::new(from, foot), Point::new(to, top))
            })
            .collect();
        if !hatched.is_empty() {
            chart.draw(None, Mark::Stroke(hatched, fine));
            let (width, height) = legend::SAMPLE;
            let lines = hatch(Point::new(0.0, 0.0), Point::new(width, height));
            chart.legend.add(Entry {
                sample: legend::boxed(vec![Mark::Stroke(lines, fine)]),
                title: "Nobody works".to_owned(),
                note: None,
                link: None,
            });
        }
        // The days of a week stand apart lightly, weeks clearly.
        let (mut days, mut weeks) = (Vec::new(), Vec::new());
        let mut last = f64::MIN;
        for day in 0..=self.count() {
            let x = self.edge(day);
            let line = Path::line(Point::new(x, foot), Point::new(x, top));
            let is_off = |day: usize| self.hours.get(day).is_some_and(Option::is_none);
            if day.checked_sub(1).is_some_and(is_off) && !is_off(day) {
                weeks.push(line);
            } else if x - last >= CLOSEST {
                days.push(line);
                last = x;
            }
        }
        for (lines, pen) in [(days, fine.dashed(&DOTTED)), (weeks, fine)] {
            if !lines.is_empty() {
                chart.draw(None, Mark::Stroke(lines, pen));
            }
        }
        let left = panel.low.x + INSET;
        let around = Path::rectangle(Point::new(left, foot), Point::new(self.right(), top));
        chart.draw(None, Mark::Stroke(vec![around], Pen::of(Weight::Mid)));
        self.name(chart, schedule, top);
    }

    /// Names the days that are worked over the rows, as many as have room.
    fn name(&self, chart: &mut Chart, schedule: &ScheduleFigures, top: f64) {
        let mut free_from = f64::MIN;
        for (day, hours) in self.hours.iter().enumerate() {
            let x = self.edge(day);
            // The first is told wherever it stands.
            let ends_within = x + self.name_width + 0.8 <= self.right();
            let has_room = x >= free_from && (ends_within || free_from == f64::MIN);
            if hours.is_none() || !has_room {
                continue;
            }
            let name = schedule.day_name(day as i64);
            chart.write(
                None,
                Point::new(x + 0.8, top + 2.0),
                &name,
                (NOTE, Ink::Black),
            );
            let tick = Path::line(Point::new(x, top), Point::new(x, top + 4.0));
            chart.draw(None, Mark::Stroke(vec![tick], Pen::of(Weight::Fine)));
            free_from = x + self.name_width + NAME_ROOM;
        }
    }
}

/// Lines that rise from left to right over a rectangle.
fn hatch(low: Point, high: Point) -> Vec<Path> {
    let (width, height) = (high.x - low.x, high.y - low.y);
    let count = ((width + height) / HATCH).ceil().clamp(0.0, 2_000.0) as u32;
    let lines = (1..count).filter_map(|number| {
        let off = f64::from(number) * HATCH - height;
        // A line starts at the left or the lower side and ends at the upper
        // or the right one.
        let start = Point::new(low.x + off.max(0.0), low.y + (-off).max(0.0));
        let rise = (high.x - start.x).min(high.y - start.y);
        (rise > 0.0).then(|| Path::line(start, Point::new(start.x + rise, start.y + rise)))
    });
    lines.collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_hatch_stays_in_its_rectangle() {
        let (low, high) = (Point::new(3.0, 5.0), Point::new(4.5, 60.0));
        let lines = hatch(low, high);
        assert!(lines.len() > 20);
        for edge in lines.iter().flat_map(|path| &path.edges) {
            for point in [edge.start, edge.end] {
                assert!(point.x >= low.x - 1e-9 && point.x <= high.x + 1e-9);
                assert!(point.y >= low.y - 1e-9 && point.y <= high.y + 1e-9);
            }
        }
    }
}
