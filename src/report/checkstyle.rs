//! Findings in the XML form of checkstyle, which many build tools read.

use super::xml::xml;
use super::{Review, Reviewed, Row};
use crate::findings::Severity;

/// The findings of a review as a checkstyle document; accepted ones are left
/// out.
pub fn checkstyle(review: &Review) -> String {
    let mut text =
        String::from("<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<checkstyle version=\"4.3\">\n");
    for file in &review.files {
        text += &of_file(file);
    }
    for unread in &review.unread {
        let (path, why) = (xml(&unread.path), xml(&unread.why));
        text += &format!(
            "  <file name=\"{path}\">\n    <error line=\"1\" severity=\"error\" message=\"{why}\" \
             source=\"drylay\"/>\n  </file>\n"
        );
    }
    text + "</checkstyle>\n"
}

fn of_file(file: &Reviewed) -> String {
    let errors: String = file.standing().map(error).collect();
    format!("  <file name=\"{}\">\n{errors}  </file>\n", xml(&file.path))
}

fn error(row: &Row) -> String {
    let severity = match row.severity {
        Severity::Error => "error",
        Severity::Warning => "warning",
        Severity::Advisory => "info",
    };
    let (line, column) = row.at.start;
    format!(
        "    <error line=\"{line}\" column=\"{column}\" severity=\"{severity}\" message=\"{}\" \
         source=\"drylay.{}\"/>\n",
        xml(&row.message),
        row.rule
    )
}
