//! The rules as pages: what each looks at and why, and every limit with its
//! source.

use std::fmt::Write;

use drylay::model::Region;
use drylay::report::{explanation, table_row as row};
use drylay::rules::{Bound, Family, Limit, Rule, Value, complete, of};

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
         An example gives only what differs from [the sound job](#the-sound-job), and `# no fall` that it has no such \
         entry. A comment of `^` stands under the place that is found. `drylay explain RULE PATH` tells the same with the \
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
    page.push_str("\n## The sound job\n\nIts court lies on sand:\n\n");
    let _ = write!(page, "```\n{}```\n", complete("").text);
    page.push_str("\nOr, in an example of `mortar-set`, in mortar:\n\n");
    let in_mortar = complete("surface court\n  build        mortar-set\n");
    let _ = write!(page, "```\n{}```\n", in_mortar.text);
    page
}

fn one(page: &mut String, rule: &'static Rule) {
    let _ = write!(page, "\n### {}\n\n{}", rule.name, explanation(rule));
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
