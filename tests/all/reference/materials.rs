//! The catalogue as a page: every material with its figures and their
//! sources.

use std::fmt::Write;

use drylay::materials::{CATALOGUE, SOILS};
use drylay::report::table_row as row;

/// The catalogue as Markdown.
pub fn materials() -> String {
    let mut page = String::from(
        "# The catalogue of materials\n\n\
         <!-- This page is made from src/materials; DRYLAY_REFRESH=1 cargo test makes it again. -->\n\n\
         Every figure can be changed in a spec, and a supplier's own figure is always the better one. \
         How each figure is known stands beside it; one from memory is to be confirmed before it is relied on.\n",
    );
    for group in CATALOGUE {
        let _ = writeln!(page, "\n## {}\n", group.title);
        page.push_str(&row(&["material", "what", "figure", "value", "source"]));
        page.push_str("| --- | --- | --- | --- | --- |\n");
        for material in group.materials {
            let mut name = format!("`{}`", material.name);
            let mut what = material.called.to_owned();
            if !material.in_us.is_empty() && material.in_us != what {
                let _ = write!(what, "; in the US: {}", material.in_us);
            }
            if !material.note.is_empty() {
                let _ = write!(what, ". {}", material.note);
            }
            for (label, sourced) in material.figures() {
                page.push_str(&row(&[
                    &name,
                    &what,
                    label,
                    sourced.text,
                    &sourced.source.to_string(),
                ]));
                name.clear();
                what.clear();
            }
            let sales = [&material.sold.imperial, &material.sold.metric];
            let sold: Vec<&str> = sales.iter().map(|sale| sale.by).collect();
            let by = if sold.first() == sold.last() {
                sold.first().copied().unwrap_or_default().to_owned()
            } else {
                sold.join("; ")
            };
            page.push_str(&row(&[
                &name,
                &what,
                "sold",
                &by,
                &material.sold.imperial.source.to_string(),
            ]));
        }
    }
    page.push_str("\n## Soils\n\n");
    page.push_str(&row(&["soil", "what", "swell", "source"]));
    page.push_str("| --- | --- | --- | --- |\n");
    for soil in SOILS {
        page.push_str(&row(&[
            &format!("`{}`", soil.word),
            soil.help,
            soil.swell.text,
            &soil.swell.source.to_string(),
        ]));
    }
    page
}
