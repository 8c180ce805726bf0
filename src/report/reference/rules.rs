//! The rules as pages: what each looks at and why, and every limit with its
//! source.

use std::fmt::Write;

use super::row;
use crate::model::Region;
use crate::rules::{Bound, Family, Limit, Limits, Rule, Value, of, underlined};

/// What is told of all cautions before the first.
const CAUTIONS: &str = "
Cautions are for whoever builds the job, and no findings: each is said once a job, in a list of its own at the foot \
of the check and of the take-off, in the `cautions` of the JSON, and in the hover over the job's title. They are not \
counted, `--deny` does not hear them, and no editor underlines them. Local rules and licensed practice come first. \
`accept care-dust, because \"…\"` in a job takes one off its lists, as where the site's own form covers it; \
`check --accepted` still tells of it. `off care-dust, because \"…\"` in a standard takes it off those of every job \
of the practice.
";

/// The rules as Markdown, family by family.
pub fn rules() -> String {
    let mut page = String::from(
        "# The rules\n\n\
         <!-- This page is made from src/rules; DRYLAY_REFRESH=1 cargo test makes it again. -->\n\n\
         Error: the job will fail, someone may be hurt, or the line has no meaning. Warning: against accepted \
         practice. Advisory: worth a look. Local codes and licensed practice come first, whatever stands here. \
         A comment of `^` stands under the place that is found. `drylay explain RULE PATH` tells the same with the \
         limits that are in force for a spec; all of them stand in [limits.md](limits.md).\n",
    );
    for family in Family::ALL {
        let _ = writeln!(page, "\n## {}", family.title());
        if *family == Family::Cautions {
            page.push_str(CAUTIONS);
        }
        for rule in of(*family) {
            one(&mut page, rule);
        }
    }
    page
}

fn one(page: &mut String, rule: &'static Rule) {
    let _ = write!(page, "\n### {}\n\n{}", rule.name, explanation(rule));
}

/// Everything that is declared of a rule, as Markdown.
pub fn explanation(rule: &'static Rule) -> String {
    let mut text = format!(
        "*{}.* {}\n\n{}\n\n**What to do.** {}\n",
        rule.severity, rule.looks_at, rule.reason, rule.remedy
    );
    let page = &mut text;
    built_in(page, rule);
    let mended = rule.mended.map(|mended| ("The first put right:", mended));
    let examples = [("Breaks it:", rule.breaks), ("Keeps it:", rule.keeps)];
    for (head, text) in examples.into_iter().chain(mended) {
        let text = underlined(text);
        let _ = writeln!(page, "\n{head}\n\n```\n{}\n```", text.trim_end());
    }
    if !rule.sources.is_empty() {
        let sources: Vec<String> = rule.sources.iter().map(ToString::to_string).collect();
        let _ = writeln!(page, "\nSources: {}.", sources.join("; "));
    }
    text
}

/// The limits of a rule where no standard sets any; nothing if it has none.
fn built_in(page: &mut String, rule: &'static Rule) {
    let rows = Limits::default().rows(rule, None);
    if rows.is_empty() {
        return;
    }
    page.push_str("\n| row | of | region | limit |\n| --- | --- | --- | --- |\n");
    for row_of in rows {
        let figure = row_of.bound(None, &|_| String::new());
        let (limit, region) = (row_of.limit, row_of.region_word());
        page.push_str(&row(&[limit.row, limit.of, region, &figure]));
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
