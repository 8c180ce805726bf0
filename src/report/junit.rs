//! Findings in the XML form of JUnit: a suite for each file, a case for each
//! finding.

use super::xml::xml;
use super::{Review, Reviewed, Row, Unread};
use crate::findings::Severity;

/// The findings of a review as a JUnit document. Findings that are denied
/// have failed, accepted ones are skipped with their reason, and a file with
/// none of either has one case that passes.
pub fn junit(review: &Review, denied: Severity) -> String {
    let suites: Vec<Suite> = review
        .files
        .iter()
        .map(|file| Suite::of(file, denied))
        .chain(review.unread.iter().map(Suite::of_unread))
        .collect();
    let sum = |of: fn(&Suite) -> usize| suites.iter().map(of).sum::<usize>();
    let head = format!(
        "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<testsuites name=\"drylay\" tests=\"{}\" \
         failures=\"{}\" errors=\"{}\" skipped=\"{}\">\n",
        sum(|suite| suite.tests),
        sum(|suite| suite.failures),
        sum(|suite| suite.errors),
        sum(|suite| suite.skipped)
    );
    let body: String = suites.iter().map(Suite::text).collect();
    head + &body + "</testsuites>\n"
}

/// The cases of a file.
struct Suite {
    name: String,
    tests: usize,
    failures: usize,
    errors: usize,
    skipped: usize,
    cases: String,
}

impl Suite {
    fn of(file: &Reviewed, denied: Severity) -> Suite {
        let fails = |row: &&Row| row.accepted.is_none() && row.severity >= denied;
        let cases: String = file
            .rows
            .iter()
            .map(|row| case(&file.path, row, denied))
            .collect();
        let is_clean = file.rows.is_empty();
        Suite {
            name: xml(&file.path),
            tests: file.rows.len() + usize::from(is_clean),
            failures: file.rows.iter().filter(fails).count(),
            errors: 0,
            skipped: file
                .rows
                .iter()
                .filter(|row| row.accepted.is_some())
                .count(),
            cases: match is_clean {
                true => format!(
                    "    <testcase name=\"check\" classname=\"{}\"/>\n",
                    xml(&file.path)
                ),
                false => cases,
            },
        }
    }

    fn of_unread(unread: &Unread) -> Suite {
        let (name, why) = (xml(&unread.path), xml(&unread.why));
        Suite {
            tests: 1,
            failures: 0,
            errors: 1,
            skipped: 0,
            cases: format!(
                "    <testcase name=\"read\" classname=\"{name}\">\n      \
                 <error message=\"{why}\"/>\n    </testcase>\n"
            ),
            name,
        }
    }

    fn text(&self) -> String {
        format!(
            "  <testsuite name=\"{}\" tests=\"{}\" failures=\"{}\" errors=\"{}\" skipped=\"{}\">\n{}  \
             </testsuite>\n",
            self.name, self.tests, self.failures, self.errors, self.skipped, self.cases
        )
    }
}

fn case(path: &str, row: &Row, denied: Severity) -> String {
    let (line, column) = row.at.start;
    let name = format!("{} at line {line}, column {column}", row.rule);
    let head = format!(
        "    <testcase name=\"{}\" classname=\"{}\">\n",
        xml(&name),
        xml(path)
    );
    let message = xml(&row.message);
    let body = match &row.accepted {
        Some(accepted) => format!("      <skipped message=\"{}\"/>\n", xml(&accepted.reason)),
        None if row.severity >= denied => {
            format!(
                "      <failure type=\"{}\" message=\"{message}\"/>\n",
                row.severity
            )
        }
        None => format!(
            "      <system-out>{}: {message}</system-out>\n",
            row.severity
        ),
    };
    head + &body + "    </testcase>\n"
}
