//! The syntax file of Kate, and of what else colours by its format.

use std::fmt::Write;

use super::pattern::{DATE, END, NAME, any_of, figure, measure, unit};
use super::words::{MADE, SectionWords, directions, functions, sections};

/// What a spec's parts look like: the names of Kate's own styles.
const STYLES: &[(&str, &str)] = &[
    ("Plain", "dsNormal"),
    ("Section", "dsKeyword"),
    ("Name", "dsDataType"),
    ("Key", "dsAttribute"),
    ("Joining", "dsControlFlow"),
    ("Choice", "dsConstant"),
    ("Edge", "dsVariable"),
    ("Function", "dsFunction"),
    ("Number", "dsDecVal"),
    ("Text", "dsString"),
    ("Comment", "dsComment"),
    ("Operator", "dsOperator"),
];

/// A line at the margin ends what stands above it. What is only looked at must
/// still have a length.
const AT_MARGIN: &str = r"^[^\s#]";

/// The syntax file as XML.
pub fn kate() -> String {
    let (mut lists, mut contexts) = (String::new(), String::new());
    list(&mut lists, "directions", directions());
    let sections = sections();
    let headings: Vec<String> = sections.iter().map(heading).collect();
    let normal = [headings.concat(), include("values")].concat();
    context(&mut contexts, "Normal", "#stay", &normal);
    for words in &sections {
        section(&mut lists, &mut contexts, words);
    }
    context(&mut contexts, "values", "#stay", &values());
    let going_on = [
        rule("DetectChar", "Comment", "comment", "char=\"#\""),
        pattern(
            "Plain",
            "#pop",
            r"^\s*[^\s#]",
            "column=\"0\" lookAhead=\"true\"",
        ),
    ];
    context(&mut contexts, "going on", "#stay", &going_on.concat());
    let inside = [
        pattern("Text", "#stay", "\\\\[\"”\\\\]", ""),
        pattern("Text", "#pop", "[\"”]", ""),
    ];
    styled(&mut contexts, "text", "Text", "#pop", &inside.concat());
    styled(&mut contexts, "comment", "Comment", "#pop", "");
    let mut styles = String::new();
    for (name, style) in STYLES {
        let _ = writeln!(
            styles,
            "      <itemData name=\"{name}\" defStyleNum=\"{style}\"/>"
        );
    }
    format!(
        "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n\
         <!DOCTYPE language>\n\
         <!-- {MADE} -->\n\
         <language name=\"Patio\" section=\"Markup\" extensions=\"*.patio\" mimetype=\"\" version=\"1\" kateversion=\"5.62\" license=\"MIT\">\n  \
           <highlighting>\n{lists}    <contexts>\n{contexts}    </contexts>\n    <itemDatas>\n{styles}    </itemDatas>\n  </highlighting>\n  \
           <general>\n    <keywords casesensitive=\"0\" weakDeliminator=\"-\"/>\n    \
             <comments><comment name=\"singleLine\" start=\"#\" position=\"afterwhitespace\"/></comments>\n    \
             <folding indentationsensitive=\"1\"/>\n  </general>\n</language>\n"
    )
}

fn list<'a>(lists: &mut String, name: &str, words: impl IntoIterator<Item = &'a str>) {
    let _ = writeln!(lists, "    <list name=\"{name}\">");
    for word in words {
        let _ = writeln!(lists, "      <item>{}</item>", xml(word));
    }
    lists.push_str("    </list>\n");
}

fn context(contexts: &mut String, name: &str, at_end: &str, rules: &str) {
    styled(contexts, name, "Plain", at_end, rules);
}

fn styled(contexts: &mut String, name: &str, style: &str, at_end: &str, rules: &str) {
    let _ = writeln!(
        contexts,
        "      <context name=\"{name}\" attribute=\"{style}\" lineEndContext=\"{at_end}\">\n{rules}      </context>"
    );
}

fn rule(tag: &str, style: &str, next: &str, rest: &str) -> String {
    format!("        <{tag} attribute=\"{style}\" context=\"{next}\" {rest}/>\n")
}

fn include(name: &str) -> String {
    format!("        <IncludeRules context=\"{name}\"/>\n")
}

fn pattern(style: &str, next: &str, pattern: &str, rest: &str) -> String {
    let rest = format!("String=\"{}\" insensitive=\"true\" {rest}", xml(pattern));
    rule("RegExpr", style, next, rest.trim_end())
}

fn heading(words: &SectionWords) -> String {
    let start = format!(r"^\x{{FEFF}}?{}{END}", words.word);
    pattern(
        "Section",
        &format!("in {}", words.word),
        &start,
        "column=\"0\"",
    )
}

/// From a heading to the next line at the margin, and one value in it.
fn section(lists: &mut String, contexts: &mut String, words: &SectionWords) {
    let word = words.word;
    let keys: Vec<&str> = words.keys.iter().map(|(key, _)| *key).collect();
    let ends = pattern(
        "Plain",
        "#pop",
        AT_MARGIN,
        "column=\"0\" lookAhead=\"true\"",
    );
    let goes_on = pattern("Plain", "going on", r",(?=\s*(?:#.*)?$)", "");
    let mut own = String::new();
    for (style, kind, of) in [
        ("Joining", "joining", &words.joining),
        ("Choice", "choices", &words.choices),
    ] {
        if !of.is_empty() {
            let name = format!("{kind} in {word}");
            list(lists, &name, of.iter().copied());
            own += &rule("keyword", style, "#stay", &format!("String=\"{name}\""));
        }
    }
    let name = pattern(
        "Name",
        "#stay",
        &format!(r"(?<=^{word})\s+{NAME}(?![.(])"),
        "",
    );
    let reference = pattern("Edge", "#stay", &format!(r"{NAME}\.{NAME}"), "");
    let mut inside = [ends.clone(), name].concat();
    if !keys.is_empty() {
        list(lists, &format!("keys of {word}"), keys);
        let rest = format!("String=\"keys of {word}\" firstNonSpace=\"true\"");
        inside += &rule("keyword", "Key", &format!("value in {word}"), &rest);
        let value = [&*ends, &goes_on, &reference, &own, &include("values")].concat();
        context(contexts, &format!("value in {word}"), "#pop", &value);
    }
    inside += &[&*goes_on, &reference, &own, &include("values")].concat();
    context(contexts, &format!("in {word}"), "#stay", &inside);
}

/// What means the same in every section.
fn values() -> String {
    let (figure, measure, unit) = (figure(), measure(), unit());
    let functions = any_of(functions());
    let number = format!(r"[$£€]\s*{figure}|{figure}(?::{figure})+|{figure}(?:\s*{measure})?");
    [
        "        <DetectSpaces/>\n".to_owned(),
        rule("DetectChar", "Comment", "comment", "char=\"#\""),
        pattern("Number", "#stay", DATE, ""),
        pattern("Number", "#stay", &number, ""),
        pattern("Text", "text", "[\"“]", ""),
        pattern(
            "Number",
            "#stay",
            &format!(r"(?:/|\bper{END})\s*{unit}"),
            "",
        ),
        pattern("Joining", "#stay", &format!(r"\b(?:per|over){END}"), ""),
        pattern("Function", "#stay", &format!(r"\b{functions}(?=\()"), ""),
        rule("keyword", "Choice", "#stay", "String=\"directions\""),
        pattern("Plain", "#stay", NAME, ""),
        pattern("Operator", "#stay", r"[+*/×:=−–-]", ""),
    ]
    .concat()
}

/// A text as it may stand in an attribute or between tags.
fn xml(text: &str) -> String {
    let text = text.replace('&', "&amp;").replace('<', "&lt;");
    text.replace('>', "&gt;").replace('"', "&quot;")
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeSet;

    use super::*;

    /// What stands in quotes behind each of these beginnings.
    fn quoted<'a>(text: &'a str, beginning: &str) -> BTreeSet<&'a str> {
        let pieces = text.split(beginning).skip(1);
        pieces.filter_map(|rest| rest.split('"').next()).collect()
    }

    #[test]
    fn every_context_and_list_is_there() {
        let text = kate();
        let contexts = quoted(&text, "<context name=\"");
        let mut meant = quoted(&text, " context=\"");
        meant.retain(|name| !["#stay", "#pop"].contains(name));
        assert!(meant.len() > 10 && meant.is_subset(&contexts), "{meant:?}");
        let lists = quoted(&text, "<list name=\"");
        for name in &lists {
            assert!(
                text.contains(&format!("String=\"{name}\"")),
                "{name} is not used"
            );
        }
        let styles: BTreeSet<&str> = STYLES.iter().map(|(name, _)| *name).collect();
        let used = quoted(&text, " attribute=\"");
        assert_eq!(used, styles);
    }

    #[test]
    fn what_it_says_of_itself_may_stand_in_a_comment() {
        let text = kate();
        let comment = text
            .split("<!--")
            .nth(1)
            .and_then(|rest| rest.split("-->").next());
        assert!(comment.is_some_and(|comment| !comment.contains("--")));
    }
}
