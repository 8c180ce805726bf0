//! The schedule as a sheet of text, for the crew.

use super::{day_by_day, hire_days};
use crate::analysis::Analysis;
use crate::quantities::{FigureRef, ScheduleFigures, Span, assumed_of_work, shown_hours, working};
use crate::report::columns::{Columns, Side};
use crate::report::trade::UNKNOWN;
use crate::report::words::{WIDTH, counted, wrapped};
use crate::report::{Summary, cautions, shown_path};

/// The names of tasks stand beside their figures up to here.
const WIDEST_NAME: usize = 34;

/// The schedule of a job as text, at most 100 characters wide where the names
/// in it allow; paths as seen from a folder. `shows_working` follows the tasks
/// with how the time of each came about.
pub fn schedule_text(analysis: &Analysis, folder: &str, shows_working: bool) -> String {
    let Some(schedule) = analysis.figures.schedule.as_deref() else {
        let path = shown_path(&analysis.path, folder);
        return format!("{path} says nothing of the work: a `work` section does\n");
    };
    let workings = match shows_working {
        true => workings(analysis, schedule),
        false => String::new(),
    };
    let parts = [
        head(analysis, schedule, folder),
        tasks(schedule) + &workings,
        reasons(schedule),
        days(schedule),
        hires(analysis, schedule),
        list(
            "ASSUMED",
            "=",
            assumed_of_work(&analysis.job, &analysis.figures),
        ),
        list("NOT KNOWN", UNKNOWN, unknown(schedule)),
        list("TAKE CARE", "!", cautions(analysis)),
        found(analysis),
    ];
    let parts: Vec<String> = parts.into_iter().filter(|part| !part.is_empty()).collect();
    parts.join("\n")
}

fn labelled(label: &str, text: &str) -> String {
    wrapped(text, &format!("  {label:<17} "), WIDTH) + "\n"
}

fn head(analysis: &Analysis, schedule: &ScheduleFigures, folder: &str) -> String {
    let heading = &analysis.job.heading;
    let title = heading.title.as_ref();
    let mut text = title
        .map_or("Untitled job", |title| title.value.as_str())
        .to_owned();
    text += "\n\n";
    if let Some(reference) = &heading.reference {
        text += &labelled("reference", &reference.value);
    }
    text += &labelled("schedule from", &shown_path(&analysis.path, folder));
    let crew = counted(schedule.crew as usize, "person", "people");
    text += &labelled("crew", &crew);
    let first = match schedule.begins() {
        Some(day) => format!("{day}"),
        None => "day 1, as no date is stated".to_owned(),
    };
    text += &labelled("work begins", &first);
    text += &labelled("hours worked", &known(schedule.hours.map(shown_hours)));
    let done = |moment: i64| match schedule.day(moment) {
        Some(day) => format!("{} ({day})", schedule.moment(moment)),
        None => schedule.moment(moment),
    };
    text += &labelled("work is done", &known(schedule.end_min.map(done)));
    if let Some(end) = schedule.end_with_rain_min {
        text += &labelled("with days of rain", &done(end));
    }
    for note in analysis.job.work.iter().flat_map(|work| &work.notes) {
        text += &labelled("note", &note.value);
    }
    text
}

fn known(text: Option<String>) -> String {
    text.unwrap_or_else(|| UNKNOWN.to_owned())
}

fn tasks(schedule: &ScheduleFigures) -> String {
    let mut columns = Columns::new(&[
        ("", Side::Left),
        ("hands", Side::Right),
        ("hours", Side::Right),
        ("from", Side::Right),
        ("to", Side::Right),
        ("float", Side::Right),
    ])
    .with_words_up_to(WIDEST_NAME);
    for index in schedule.in_time() {
        let Some(task) = schedule.tasks.get(index) else {
            continue;
        };
        let is_by_the_clock = matches!(task.span, Some(Span::ByTheClock(_)));
        let hands = task.hands.map(|hands| hands.to_string());
        let (hands, hours) = match is_by_the_clock {
            true => (String::new(), String::new()),
            false => (known(hands), known(task.hours.map(shown_hours))),
        };
        let at = |of: fn(&crate::quantities::Slot) -> i64| {
            known(task.slot.as_ref().map(|slot| schedule.moment(of(slot))))
        };
        let float = task.slot.map(|slot| match slot.float_min {
            0 => "none".to_owned(),
            minutes => shown_hours(minutes as f64 / 60.0),
        });
        columns.row([
            task.name.clone(),
            hands,
            hours,
            at(|slot| slot.start_min),
            at(|slot| slot.end_min),
            known(float),
        ]);
    }
    format!("TASKS\n{}", columns.text())
}

fn workings(analysis: &Analysis, schedule: &ScheduleFigures) -> String {
    let (job, figures) = (&analysis.job, &analysis.figures);
    let mut text = String::new();
    for index in schedule.in_time() {
        let Some(found) = working(job, figures, FigureRef::Task(index)) else {
            continue;
        };
        text += &format!("\n  {}\n", found.title);
        for step in &found.steps {
            let numbers = match step.numbers.as_str() {
                "" => String::new(),
                numbers => format!(" = {numbers}"),
            };
            let line = format!(
                "{}: {}{numbers} = {}",
                step.gives, step.formula, step.result
            );
            text += &(wrapped(&line, "    ", WIDTH) + "\n");
        }
    }
    text
}

fn reasons(schedule: &ScheduleFigures) -> String {
    let lines = schedule.in_time().into_iter().filter_map(|index| {
        let task = schedule.tasks.get(index)?;
        Some(format!("{}: {}", task.name, schedule.why(index)?))
    });
    list("WHY NOT EARLIER", "<", lines)
}

/// What is done on each day.
fn days(schedule: &ScheduleFigures) -> String {
    let lines = day_by_day(schedule).into_iter();
    let lines: String = lines
        .map(|(day, names)| labelled(&day, &names.join("; ")))
        .collect();
    match lines.is_empty() {
        true => lines,
        false => format!("DAY BY DAY\n{lines}"),
    }
}

/// What is hired, and on which days it is needed.
fn hires(analysis: &Analysis, schedule: &ScheduleFigures) -> String {
    let lines = hire_days(analysis, schedule).into_iter();
    let lines: String = lines.map(|(name, when)| labelled(&name, &when)).collect();
    match lines.is_empty() {
        true => lines,
        false => format!("HIRE IS NEEDED\n{lines}"),
    }
}

fn list(heading: &str, mark: &str, items: impl IntoIterator<Item = String>) -> String {
    let lines = items.into_iter();
    let lines = lines.map(|item| wrapped(&item, &format!("  {mark} "), WIDTH) + "\n");
    let lines: String = lines.collect();
    match lines.is_empty() {
        true => lines,
        false => format!("{heading}\n{lines}"),
    }
}

/// Why tasks have no day or no hours.
pub(super) fn unknown(schedule: &ScheduleFigures) -> Vec<String> {
    let tasks = schedule.tasks.iter();
    let unknown =
        tasks.filter_map(|task| Some(format!("{}: {}", task.name, task.unknown.as_ref()?)));
    unknown.collect()
}

fn found(analysis: &Analysis) -> String {
    match Summary::standing(analysis).kinds() {
        kinds if kinds.is_empty() => String::new(),
        kinds => format!("Before work begins, see what the check of this spec finds: {kinds}.\n"),
    }
}
