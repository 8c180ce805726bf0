//! The rules as pages: what each looks at and why, and every limit with its
//! source.

use std::fmt::Write;

use super::row;
use crate::model::Region;
use crate::rules::{Bound, Family, Limit, Rule, Value, of};

/// The rules as Markdown, family by family.
pub fn rules() -> String {
    let mut page = String::from(
        "# The rules\n\n\
         <!-- This page is made from src/rules; DRYLAY_REFRESH=1 cargo test makes it again. -->\n\n\
         An error will fail, hurt someone, or means nothing; a warning is against accepted practice; \
         an advice is worth a thought. Local codes and licensed practice come first, whatever stands here. \
         Every limit stands in [limits.md](limits.md) with its source.\n",
    );
    for family in Family::ALL {
        let _ = writeln!(page, "\n## {}", family.title());
        for rule in of(*family) {
            one(&mut page, rule);
        }
    }
    page
}

fn one(page: &mut String, rule: &Rule) {
    let _ = writeln!(
        page,
        "\n### {}\n\n*{}.* {}\n\n{}\n\n**What to do.** {}",
        rule.name, rule.severity, rule.looks_at, rule.reason, rule.remedy
    );
    let _ = writeln!(page, "\nBreaks it:\n\n```\n{}\n```", rule.breaks.trim_end());
    let _ = writeln!(page, "\nKeeps it:\n\n```\n{}\n```", rule.keeps.trim_end());
    if !rule.sources.is_empty() {
        let sources: Vec<String> = rule.sources.iter().map(ToString::to_string).collect();
        let _ = writeln!(page, "\nSources: {}.", sources.join("; "));
    }
}

/// Every limit with its source, so that all can be audited in one sitting.
pub fn limits() -> String {
    let mut page = String::from(
        "# The limits\n\n\
         <!-- This page is made from src/rules; DRYLAY_REFRESH=1 cargo test makes it again. -->\n\n\
         Bodies print twin values, such as 150 mm and 6 in; both are kept, and the kinder one counts. \
         A figure at the limit passes. A limit that is known from memory, or is common practice, says so here, \
         in `explain` and beside every finding; none of those is an error.\n\n",
    );
    page.push_str(&row(&["rule", "row", "of", "limit", "region", "source"]));
    page.push_str("| --- | --- | --- | --- | --- | --- |\n");
    for family in Family::ALL {
        for rule in of(*family) {
            for limit in rule.limits {
                each_region(&mut page, rule, limit);
            }
        }
    }
    page
}

fn each_region(page: &mut String, rule: &Rule, limit: &Limit) {
    line(page, rule, limit, Region::General, &limit.general);
    for (region, value) in limit.regions {
        line(page, rule, limit, *region, value);
    }
}

fn line(page: &mut String, rule: &Rule, limit: &Limit, region: Region, value: &Value) {
    let bound = match limit.bound {
        Bound::Least => "at least",
        Bound::Most => "at most",
    };
    page.push_str(&row(&[
        &format!("[{0}](rules.md#{0})", rule.name),
        limit.row,
        limit.of,
        &format!("{bound} {}", value.written.join(" or ")),
        region.word(),
        &value.source.to_string(),
    ]));
}
