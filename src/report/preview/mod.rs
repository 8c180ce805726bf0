//! The page that shows a job in a browser while its text is written: what the
//! page is made of, and what it is told after each change of the text.

mod findings;
mod parts;
mod shopping;

use serde::Serialize;

use super::{Reviewed, shown_path};
use crate::analysis::Analysis;
use crate::drawing::{Face, Picture, type_face};

/// The page before it is told anything: it asks for the rest beside itself.
pub struct Shell {
    /// The page.
    pub html: &'static str,
    /// Its script.
    pub script: &'static str,
    style: &'static str,
}

/// The one page that there is.
pub const PREVIEW: Shell = Shell {
    html: include_str!("page.html"),
    script: concat!(
        include_str!("../../drawing/page/plan.js"),
        include_str!("page.js")
    ),
    style: concat!(
        include_str!("../../drawing/page/plan.css"),
        include_str!("page.css")
    ),
};

impl Shell {
    /// Its style, the type that it is set in included.
    pub fn style(&self) -> String {
        let faces: String = Face::ALL.into_iter().map(type_face).collect();
        faces + self.style
    }
}

/// What the page is told. Parts are HTML, made so that nothing of a spec is
/// anything in it but text.
#[derive(Serialize)]
struct Told {
    title: String,
    plan: Option<String>,
    why_no_plan: String,
    /// Where the marks of the plan come from.
    anchors: Vec<Anchored>,
    parts: Parts,
}

/// An entry that a mark of the plan comes from.
#[derive(Serialize)]
struct Anchored {
    section: usize,
    entry: usize,
    /// Its line in the text, from 1.
    line: u32,
    /// What stands there.
    text: String,
}

/// The parts of the page, each under the name of its place.
#[derive(Serialize)]
struct Parts {
    head: String,
    sections: String,
    findings: String,
    shopping: String,
    figures: String,
    care: String,
}

/// What the page is told of a job, as one line of JSON; paths as seen from a
/// folder.
pub fn preview(analysis: &Analysis, folder: &str) -> String {
    let reviewed = Reviewed::new(analysis, folder);
    let (plan, sections, anchors, why_no_plan) = match Picture::of(analysis, false) {
        Ok(picture) => {
            let anchors = anchored(analysis, &picture);
            let sections = parts::sections(&picture.sections).into_string();
            (Some(picture.svg), sections, anchors, String::new())
        }
        Err(why) => (None, String::new(), Vec::new(), why),
    };
    let heading = &analysis.job.heading;
    let title = heading.title.as_ref().map(|title| title.value.clone());
    let reported = Told {
        title: title.unwrap_or_else(|| shown_path(&analysis.path, folder)),
        plan,
        why_no_plan,
        anchors,
        parts: Parts {
            head: parts::head(analysis, folder).into_string(),
            sections,
            findings: findings::findings(&reviewed).into_string(),
            shopping: shopping::shopping(analysis).into_string(),
            figures: parts::figures(analysis).into_string(),
            care: parts::care(analysis).into_string(),
        },
    };
    // Strings and numbers under keys that are strings always serialise.
    serde_json::to_string(&reported).unwrap_or_default()
}

fn anchored(analysis: &Analysis, picture: &Picture) -> Vec<Anchored> {
    let lines: Vec<&str> = analysis.own_text().lines().collect();
    let anchors = picture.anchors.iter().map(|(anchor, line)| Anchored {
        section: anchor.section,
        entry: anchor.entry,
        line: line.saturating_add(1),
        text: lines
            .get(*line as usize)
            .map_or_else(String::new, |line| line.trim().to_owned()),
    });
    anchors.collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::analysis::{Analyser, NoFiles};
    use crate::text::Text;
    use serde_json::Value;

    fn described(text: &str) -> Value {
        let path = "/jobs/a.patio";
        let analysis = Analyser::new().analyse(path, Text::from(text), &NoFiles, "2027-01-12");
        let reported = preview(&analysis, "/jobs");
        assert!(!reported.contains('\n'), "one line");
        serde_json::from_str(&reported).expect("JSON")
    }

    const YARD: &str = "job \"Yard\"\n  units metric\n  reference \"J 7\"\n\
        shape yard\n  rectangle 6 m by 4 m\n\
        surface yard\n  shape yard\n  fall 1:200 toward south\n  build flags\n\
        build flags\n  paving concrete-paver, 60 mm\n  base crushed-stone, 150 mm compacted\n\
        material crushed-stone\n  sold 1 t, price 30 GBP\n";

    #[test]
    fn the_page_has_the_plan_the_findings_the_figures_and_what_to_buy() {
        let reported = described(YARD);
        let part = |name: &str| reported["parts"][name].as_str().expect("a part").to_owned();
        assert!(
            reported["plan"]
                .as_str()
                .expect("a plan")
                .starts_with("<svg")
        );
        assert_eq!(reported["title"], "Yard");
        for (name, said) in [
            ("head", "a.patio"),
            ("head", "J 7"),
            ("findings", "Warning"),
            ("findings", "data-line=\"8\""),
            ("shopping", "crushed-stone"),
            ("figures", "24.00 m²"),
        ] {
            assert!(part(name).contains(said), "{name}: {}", part(name));
        }
        let falls = reported["anchors"].as_array().expect("anchors").iter();
        let fall: Vec<&Value> = falls.filter(|own| own["line"] == 8).collect();
        assert_eq!(fall[0]["text"], "fall 1:200 toward south");
    }

    #[test]
    fn an_empty_spec_has_no_plan_and_says_why() {
        let reported = described("");
        assert_eq!(reported["title"], "a.patio");
        let has_plan = reported["plan"].is_string();
        let why = reported["why_no_plan"].as_str().expect("words");
        assert!(has_plan || !why.is_empty());
    }

    #[test]
    fn what_somebody_wrote_is_text_on_the_page() {
        let hostile = "<img src=x onerror=alert(1)>\u{202e}&'";
        let text = format!(
            "job \"{hostile}\"\n  reference \"{hostile}\"\n  note \"{hostile}\"\n\
             surface a\n  accept fall-missing, because \"{hostile}\"\n  build nothing-of-this\n"
        );
        let reported = described(&text);
        for (name, part) in reported["parts"].as_object().expect("parts") {
            let part = part.as_str().expect("HTML");
            assert!(
                !part.contains("<img") && !part.contains('\u{202e}'),
                "{name}: {part}"
            );
        }
    }
}
