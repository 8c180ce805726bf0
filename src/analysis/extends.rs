//! `like` in a standard: the other standards that it starts from.

use super::Files;
use super::path;
use super::standards::read_alone;
use crate::findings::{Finding, Fix};
use crate::model::{FileKind, Standard, Stated, nearest};

/// More standards than this are not followed to see a circle.
const MOST_FOLLOWED: usize = 50;

/// What is wrong with the standards that one at a path starts from.
pub(crate) fn check_extends(at: &str, standard: &Standard, files: &dyn Files) -> Vec<Finding> {
    let extended = standard.like.iter();
    extended.filter_map(|like| check(at, like, files)).collect()
}

fn check(at: &str, like: &Stated<String>, files: &dyn Files) -> Option<Finding> {
    let (relative, place) = (&like.value, like.place);
    if relative.contains('\\') && !path::is_absolute(relative) {
        let forward = relative.replace('\\', "/");
        let fix = Fix::safe(
            format!("Write `{forward}`"),
            place,
            format!("\"{forward}\""),
        );
        return Some(Finding::new("use-missing", place, "folders are separated by `/`").fix(fix));
    }
    let Some(full) = path::asked_for(at, relative) else {
        let message = format!(
            "\"{relative}\" is not relative: write the path as seen from this file's folder"
        );
        return Some(Finding::new("use-outside", place, message));
    };
    if full == at {
        let message = "a standard cannot start from itself: remove the line";
        return Some(Finding::new("circular", place, message));
    }
    match read_alone(&full, files) {
        Err(why) if files.exists(&full) => {
            let message = format!("\"{relative}\" cannot be read: {why}");
            Some(Finding::new("use-missing", place, message))
        }
        Err(_) => Some(missing(at, like, &full, files)),
        Ok((kind, _)) if kind != FileKind::Standard => {
            let message = format!("\"{relative}\" is no standard: name a file that holds one");
            Some(Finding::new("use-missing", place, message))
        }
        Ok((_, next)) => leads_back(at, full, next, files).then(|| {
            let message = format!(
                "\"{relative}\" starts from this file in turn; one of the two must go without"
            );
            Finding::new("circular", place, message)
        }),
    }
}

/// A standard that is not there, with the one beside it that may be meant.
fn missing(at: &str, like: &Stated<String>, full: &str, files: &dyn Files) -> Finding {
    let relative = like.value.as_str();
    let message = format!("there is no file \"{relative}\" that can be read");
    let finding = Finding::new("use-missing", like.place, message);
    let folder = path::folder(full);
    let names = files.list(folder);
    let may_be_meant = |name: &&str| {
        name.ends_with(".patio") && !name.contains('"') && format!("{folder}/{name}") != at
    };
    let names = names.iter().map(String::as_str).filter(may_be_meant);
    match nearest(path::name(full), names) {
        Some(near) => {
            let meant = path::beside(relative, near);
            let fix = Fix::judged(
                format!("Write \"{meant}\""),
                like.place,
                format!("\"{meant}\""),
            );
            finding.help(format!("Did you mean \"{meant}\"?")).fix(fix)
        }
        None => finding,
    }
}

/// Whether a standard, or one that it starts from, starts from the one at a
/// path.
fn leads_back(at: &str, first: String, standard: Standard, files: &dyn Files) -> bool {
    let mut seen = vec![first.clone()];
    let mut under_way = vec![(first, standard)];
    while let Some((path, standard)) = under_way.pop() {
        if path == at {
            return true;
        }
        for next in standard
            .like
            .iter()
            .filter_map(|like| path::asked_for(&path, &like.value))
        {
            if seen.contains(&next) || seen.len() >= MOST_FOLLOWED {
                continue;
            }
            seen.push(next.clone());
            under_way.extend(read_alone(&next, files).map(|(_, read)| (next, read)));
        }
    }
    false
}
