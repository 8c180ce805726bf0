//! How often each rule speaks.

use std::cmp::Reverse;
use std::collections::BTreeMap;

use super::Review;
use super::columns::{Columns, Side};
use crate::findings::Severity;

/// How many findings of each rule there are in how many files, the most
/// first; empty if there are none.
pub fn statistics(review: &Review) -> String {
    let mut counts: BTreeMap<(&str, Severity), (usize, Vec<&str>)> = BTreeMap::new();
    for (file, row) in review.standing() {
        let (count, files) = counts.entry((row.rule, row.severity)).or_default();
        *count += 1;
        if files.last() != Some(&file.path.as_str()) {
            files.push(&file.path);
        }
    }
    if counts.is_empty() {
        return String::new();
    }
    let mut lines: Vec<_> = counts.into_iter().collect();
    lines
        .sort_by_key(|((rule, severity), (count, _))| (Reverse(*count), *rule, Reverse(*severity)));
    let heads = [
        ("rule", Side::Left),
        ("", Side::Left),
        ("findings", Side::Right),
        ("files", Side::Right),
    ];
    let mut columns = Columns::new(&heads);
    for ((rule, severity), (count, files)) in lines {
        let (count, files) = (count.to_string(), files.len().to_string());
        columns.row([rule.to_owned(), severity.to_string(), count, files]);
    }
    columns.text()
}
