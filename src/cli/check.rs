//! `drylay check`: the findings of specs.

use std::fmt;
use std::fs;
use std::path::Path;

use super::arguments::{CheckArguments, FindingsFormat, Level, When};
use super::checking::Checking;
use super::findings_text::{FindingsText, summary};
use super::mending::{diff, fix};
use super::output::{
    Json, refuse_inputs, show_beside, tell, write_result, write_shown, write_spec,
};
use super::problem::Problem;
use super::search::Search;
use super::source::path_of;
use super::status::{COULD_NOT, FOUND, GOOD, Status};
use super::terminal::Look;
use crate::findings::Severity;
use crate::host::absolute;
use crate::host::text_at;
use crate::report::{
    Baseline, Review, Summary, Unread, checkstyle, counted, findings_json, github, junit, sarif,
    shown_path, statistics, timings,
};
use crate::text::Shown;

/// Checks specs and writes what is found.
pub(crate) fn check(arguments: &CheckArguments, color: When) -> Result<Status, Problem> {
    let format = arguments
        .output
        .format(arguments.format, FindingsFormat::Text)?;
    let checking = Checking::new(arguments)?;
    let mut search = checking.search();
    refuse_overwriting(arguments, &search)?;
    if arguments.diff {
        let text = diff(&checking, &mut search)?;
        write_spec(&text, arguments.output.output.as_deref())?;
        return Ok(status(&search.unread, !text.is_empty()));
    }
    if arguments.fix {
        fix(&checking, &mut search)?;
    }
    if arguments.deny == Level::Advice {
        tell("--deny advice is called --deny advisory now; it is read as before");
    }
    let mut review = checking.review(search)?;
    for blank in review.files.iter().filter(|file| file.is_blank) {
        tell(&format!(
            "{}: nothing is written in it yet: begin with `job \"…\"`, or let your editor offer a whole spec",
            blank.path
        ));
    }
    if let Some(file) = &arguments.baseline {
        hold_to_baseline(&mut review, file, arguments, &checking.folder)?;
    }
    if arguments.timings {
        show_beside(&timings(checking.clocks.timings()));
    }
    if let Some(file) = &arguments.write_baseline {
        let baseline = Baseline::of(&review, &folder_of(file)?);
        write_result(&baseline.text(), Some(file))?;
        let count = review.standing().count();
        tell(&format!(
            "{} of {} {} kept in {} as known",
            counted(count, "finding", "findings"),
            counted(review.files.len(), "file", "files"),
            if count == 1 { "is" } else { "are" },
            file.display()
        ));
        return Ok(status(&review.unread, false));
    }
    if format == FindingsFormat::Text {
        denied_first(&mut review, arguments.deny.into());
    }
    let shown = match format {
        FindingsFormat::Text => Shown::Coloured,
        FindingsFormat::Github => Shown::Commands,
        _ => Shown::Lines,
    };
    let look = Look::of(color, arguments.ascii, arguments.output.output.is_some());
    let text = written(&review, arguments, format, &look);
    write_shown(&text, shown, arguments.output.output.as_deref())?;
    let gravest = Summary::of(&review).gravest();
    let is_denied = gravest.is_some_and(|gravest| gravest >= arguments.deny.into());
    Ok(status(&review.unread, is_denied))
}

/// Puts what makes the check fail before all else of its file: among many
/// findings nobody looks for it.
fn denied_first(review: &mut Review, denied: Severity) {
    for file in &mut review.files {
        file.rows.sort_by_key(|row| row.severity < denied);
    }
}

/// Refuses to write over what is read: a spec, a standard, a baseline; and a
/// baseline over anything that is none, for a shell may have put the name of a
/// spec where its own was left out.
fn refuse_overwriting(arguments: &CheckArguments, search: &Search) -> Result<(), Problem> {
    let specs = search.specs.iter().map(Path::new);
    let standard = arguments.standard.as_deref();
    let read = || specs.clone().chain(standard);
    refuse_inputs(
        arguments.output.output.as_deref(),
        read().chain(arguments.baseline.as_deref()),
    )?;
    refuse_inputs(arguments.write_baseline.as_deref(), read())?;
    let Some(file) = &arguments.write_baseline else {
        return Ok(());
    };
    let holds_something = fs::metadata(file).is_ok_and(|about| about.is_file() && about.len() > 0);
    match holds_something && baseline(file).is_err() {
        true => Err(Problem::with_file(
            file.display(),
            "it is not a baseline, and would be overwritten: name another file",
        )),
        false => Ok(()),
    }
}

/// Tells what could not be read, and how the program ends.
fn status(unread: &[Unread], is_found: bool) -> Status {
    for unread in unread {
        tell(&format!("{}: {}", unread.path, unread.why));
    }
    match (unread.is_empty(), is_found) {
        (false, _) => COULD_NOT,
        (true, true) => FOUND,
        (true, false) => GOOD,
    }
}

/// The review in the format that is asked for.
fn written<'a>(
    review: &'a Review,
    arguments: &CheckArguments,
    format: FindingsFormat,
    look: &'a Look,
) -> Box<dyn fmt::Display + 'a> {
    match format {
        FindingsFormat::Text if arguments.quiet => Box::new(summary(review, look)),
        FindingsFormat::Text if arguments.statistics => {
            Box::new(statistics(review) + &summary(review, look))
        }
        FindingsFormat::Text => Box::new(FindingsText {
            review,
            look,
            with_accepted: arguments.accepted,
        }),
        FindingsFormat::Json => Box::new(Json(findings_json(review))),
        FindingsFormat::Sarif => Box::new(Json(sarif(review))),
        FindingsFormat::Github => Box::new(github(review)),
        FindingsFormat::Junit => Box::new(junit(review, Severity::from(arguments.deny))),
        FindingsFormat::Checkstyle => Box::new(checkstyle(review)),
    }
}

/// Takes out of a review what a baseline knows, and tells what has been put
/// right since the baseline was written.
fn hold_to_baseline(
    review: &mut Review,
    file: &Path,
    arguments: &CheckArguments,
    shown_from: &str,
) -> Result<(), Problem> {
    let (mut baseline, folder) = (baseline(file)?, folder_of(file)?);
    // Where only some findings are asked for, the others are not put right.
    if arguments.rule.is_empty() && arguments.family.is_empty() {
        let is_gone = |path: &str| !Path::new(&folder).join(path).exists();
        let shown = |path: &str| {
            let full = absolute(&Path::new(&folder).join(path));
            full.map_or_else(|| path.to_owned(), |full| shown_path(&full, shown_from))
        };
        baseline.follow(review, &folder, is_gone);
        let gone = baseline.prune(review, &folder, is_gone).into_iter();
        review.put_right = gone.map(|(path, marks)| (shown(&path), marks)).collect();
        let put_right = review.put_right.values().map(Vec::len).sum();
        let (have, name) = (
            counted(put_right, "finding has", "findings have"),
            file.display(),
        );
        match (put_right, arguments.prune_baseline) {
            (0, _) => {}
            (_, true) => {
                write_result(&baseline.text(), Some(file))?;
                tell(&format!("{have} been fixed and taken out of {name}"));
            }
            (count, false) => tell(&format!(
                "{have} been fixed since {name}: --prune-baseline takes {} out",
                if count == 1 { "it" } else { "them" }
            )),
        }
    }
    baseline.take_from(review, &folder);
    if let Some((new, program)) = baseline.new_with_version(review, &folder) {
        tell(&format!(
            "{} new with this version of the program: {} was written by {program}, and the specs are as they were then",
            counted(new, "finding is", "findings are"),
            file.display()
        ));
    }
    Ok(())
}

fn baseline(file: &Path) -> Result<Baseline, Problem> {
    let text = text_at(file).map_err(|why| Problem::with_file(file.display(), why))?;
    Baseline::read(&text).ok_or_else(|| {
        Problem::with_file(
            file.display(),
            "it is not a baseline that --write-baseline wrote",
        )
    })
}

/// The folder that a file lies in, as the analysis knows it.
fn folder_of(file: &Path) -> Result<String, Problem> {
    let full = path_of(file)?;
    let parent = Path::new(&full).parent().and_then(absolute);
    Ok(parent.unwrap_or_else(|| "/".to_owned()))
}
