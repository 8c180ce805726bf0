//! The schedule as a calendar file (iCalendar, RFC 5545): an event for each
//! day of each task, at the local time of wherever it is read, and one of whole
//! days for each time that nobody works and for what is kept in hand for rain.
//! What has no day is named on the first, so that nobody takes the rest for all.

use crate::analysis::Analysis;
use crate::quantities::{DAY_MINUTES, ScheduleFigures, Span, TaskFigures};
use crate::report::Summary;
use crate::text::is_unshown;
use crate::units::Day;

/// A line of a calendar file has so many bytes at most.
const WIDEST: usize = 75;

/// The schedule of a job as a calendar; `None` where its days have no dates,
/// or there is no schedule.
pub fn schedule_ics(analysis: &Analysis) -> Option<String> {
    let schedule = analysis.figures.schedule.as_deref()?;
    let first = schedule.first_day?;
    let heading = &analysis.job.heading;
    let title = heading
        .title
        .as_ref()
        .map_or("Untitled job", |title| &title.value);
    let mut lines = vec![
        "BEGIN:VCALENDAR".to_owned(),
        "VERSION:2.0".to_owned(),
        "PRODID:-//drylay//schedule//EN".to_owned(),
        format!("X-WR-CALNAME:{}", escaped(title)),
    ];
    let errors = Summary::standing(analysis).errors_found();
    let about = match errors {
        Some(errors) => format!("{errors}. {title}"),
        None => title.to_owned(),
    };
    let stamp = format!("{}T000000Z", first.to_string().replace('-', ""));
    for index in schedule.in_time() {
        let Some(task) = schedule.tasks.get(index) else {
            continue;
        };
        for (number, stretch) in schedule.stretches(index).into_iter().enumerate() {
            let uid = format!("UID:{}-{number}-{}@drylay", index + 1, plain(title));
            lines.extend(["BEGIN:VEVENT".to_owned(), uid, format!("DTSTAMP:{stamp}")]);
            lines.extend(event(schedule, (index, task), stretch, &about));
            lines.push("END:VEVENT".to_owned());
        }
    }
    let whole_days = whole_days(analysis, schedule);
    let undated = undated(schedule).map(|name| (name, first, first));
    for (number, (name, first, last)) in undated.into_iter().chain(whole_days).enumerate() {
        let on =
            |key: &str, day: Day| format!("{key};VALUE=DATE:{}", day.to_string().replace('-', ""));
        lines.extend([
            "BEGIN:VEVENT".to_owned(),
            format!("UID:free-{}-{}@drylay", number + 1, plain(title)),
            format!("DTSTAMP:{stamp}"),
            on("DTSTART", first),
            // The first day after it, as the format has it.
            on("DTEND", last.next()),
            format!("SUMMARY:{}", escaped(&name)),
            format!("DESCRIPTION:{}", escaped(&about)),
            "TRANSP:TRANSPARENT".to_owned(),
            "END:VEVENT".to_owned(),
        ]);
    }
    lines.push("END:VCALENDAR".to_owned());
    Some(lines.iter().map(|line| folded(line) + "\r\n").collect())
}

/// Whole days on which no task is done: those off, from the first day of the
/// job to its last, and those after it that are kept in hand for rain.
fn whole_days(analysis: &Analysis, schedule: &ScheduleFigures) -> Vec<(String, Day, Day)> {
    let day_of = |moment: Option<i64>| schedule.day(moment?);
    let end = day_of(schedule.end_min);
    let with_rain = day_of(schedule.end_with_rain_min);
    let work = analysis.job.work.as_deref();
    let Some(((first, end), work)) = schedule.first_day.zip(end).zip(work) else {
        return Vec::new();
    };
    let last = with_rain.unwrap_or(end);
    let off = work.off.iter().map(|stated| stated.value);
    let off = off.filter(|(from, to)| *from <= last && *to >= first);
    let off = off.map(|(from, to)| ("No work".to_owned(), from, to));
    let rain = with_rain.filter(|last| *last > end);
    let rain = rain.map(|last| ("Kept in hand for rain".to_owned(), end.next(), last));
    off.chain(rain).collect()
}

/// What to say of the tasks of which nobody knows when they are done.
fn undated(schedule: &ScheduleFigures) -> Option<String> {
    let tasks = schedule.tasks.iter().filter(|task| task.slot.is_none());
    let names: Vec<&str> = tasks.map(|task| task.name.as_str()).collect();
    match names.as_slice() {
        [] if schedule.tasks.is_empty() => Some("There is nothing to do yet".to_owned()),
        [] => None,
        names => Some(format!("With no day yet: {}", names.join(", "))),
    }
}

fn event(
    schedule: &ScheduleFigures,
    (index, task): (usize, &TaskFigures),
    (from, until): (i64, i64),
    about: &str,
) -> Vec<String> {
    let at = |moment: i64| {
        let minute = moment.rem_euclid(DAY_MINUTES);
        let day = schedule
            .day(moment)
            .map(|day| day.to_string().replace('-', ""));
        format!(
            "{}T{:02}{:02}00",
            day.unwrap_or_default(),
            minute / 60,
            minute % 60
        )
    };
    let is_work = !matches!(task.span, Some(Span::ByTheClock(_)));
    let why = schedule.why(index).unwrap_or_default();
    vec![
        format!("DTSTART:{}", at(from)),
        format!("DTEND:{}", at(until)),
        format!("SUMMARY:{}", escaped(&task.name)),
        format!("DESCRIPTION:{}", escaped(&format!("{about}: {why}"))),
        format!("TRANSP:{}", if is_work { "OPAQUE" } else { "TRANSPARENT" }),
    ]
}

/// Text as a calendar file writes it.
fn escaped(text: &str) -> String {
    let mut escaped = String::with_capacity(text.len());
    for character in text.chars() {
        match character {
            '\\' | ';' | ',' => escaped.extend(['\\', character]),
            '\n' => escaped.push_str("\\n"),
            own if is_unshown(own) => {}
            own => escaped.push(own),
        }
    }
    escaped
}

/// Letters and digits of a title, for an identifier.
fn plain(title: &str) -> String {
    let plain = title.to_lowercase();
    let plain = plain.chars().map(|own| {
        if own.is_ascii_alphanumeric() {
            own
        } else {
            '-'
        }
    });
    plain.collect()
}

/// A line folded at so many bytes, between characters; what goes on begins
/// with a blank.
fn folded(line: &str) -> String {
    let mut folded = String::with_capacity(line.len());
    let mut width = 0;
    for character in line.chars() {
        if width + character.len_utf8() > WIDEST {
            folded.push_str("\r\n ");
            width = 1;
        }
        folded.push(character);
        width += character.len_utf8();
    }
    folded
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn long_lines_are_folded_between_characters() {
        let line = format!("SUMMARY:{}", "é".repeat(60));
        let folded = folded(&line);
        assert!(folded.split("\r\n").all(|part| part.len() <= WIDEST));
        assert_eq!(folded.replace("\r\n ", ""), line);
        assert_eq!(super::folded("short"), "short");
    }

    #[test]
    fn marks_of_the_format_are_escaped() {
        assert_eq!(escaped("a, b; c\\d\ne\r"), "a\\, b\\; c\\\\d\\ne");
    }
}
