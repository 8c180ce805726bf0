//! Text that somebody else wrote, made fit for where it is shown.
//!
//! Titles, reasons, references and the names of files come from whoever wrote
//! the spec. On their way to a screen, a log or a page they pass through
//! [`clean`], and can do nothing there but be read.

use std::borrow::Cow;

/// Where a text is shown.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Shown {
    /// Within a line, of a screen or a log.
    Line,
    /// As lines of a screen or a log.
    Lines,
    /// As such lines that are coloured: escapes that set a colour stay. What
    /// others wrote in them must have been cleaned before.
    Coloured,
    /// As lines of a log among which are commands of our own.
    Commands,
    /// Within a line of Markdown, with no meaning to it.
    Markdown,
    /// The same for a sentence of our own, in which names stand in backticks.
    Sentence,
    /// As a message of SARIF, in which brackets make links.
    Sarif,
}

/// What stands for a character that is not shown.
const UNSHOWN: char = '\u{fffd}';

/// Whether a character moves, hides or turns around what is shown: controls,
/// line ends of Unicode, marks of direction and of language.
pub fn is_unshown(character: char) -> bool {
    character.is_control()
        || matches!(character,
            '\u{61c}' | '\u{200e}' | '\u{200f}' | '\u{2028}'..='\u{202e}'
            | '\u{2066}'..='\u{206f}' | '\u{fff9}'..='\u{fffb}' | '\u{e0000}'..='\u{e007f}')
}

/// The text as it may be shown.
pub fn clean(text: &str, shown: Shown) -> Cow<'_, str> {
    let text = without_controls(text, shown);
    match shown {
        Shown::Line | Shown::Commands => text,
        Shown::Lines | Shown::Coloured => without_commands(text),
        Shown::Markdown => Cow::Owned(escaped(&text, MARKS)),
        Shown::Sentence => Cow::Owned(sentence(&text)),
        Shown::Sarif => match text.contains(LINKS) {
            true => Cow::Owned(escaped(&text, LINKS)),
            false => text,
        },
    }
}

fn without_controls(text: &str, shown: Shown) -> Cow<'_, str> {
    if !text.contains(is_unshown) {
        return Cow::Borrowed(text);
    }
    let has_lines = matches!(shown, Shown::Lines | Shown::Coloured | Shown::Commands);
    let mut clean = String::with_capacity(text.len());
    let mut kept_up_to = 0;
    for (at, character) in text.char_indices() {
        if at < kept_up_to {
            continue;
        }
        let rest = text.get(at..).unwrap_or_default();
        let colour = match (shown, character) {
            (Shown::Coloured, '\u{1b}') => colour(rest),
            _ => None,
        };
        if let Some(colour) = colour {
            clean.push_str(colour);
            kept_up_to = at + colour.len();
            continue;
        }
        match character {
            '\n' | '\t' if has_lines => clean.push(character),
            '\r' if has_lines && rest.starts_with("\r\n") => clean.push(character),
            '\t' => clean.push(' '),
            _ if is_unshown(character) => clean.push(UNSHOWN),
            _ => clean.push(character),
        }
    }
    Cow::Owned(clean)
}

/// The escape at the start of a text, if it sets a colour and no more.
fn colour(text: &str) -> Option<&str> {
    let inner = text.strip_prefix("\u{1b}[")?;
    let end = inner.find(|character: char| !character.is_ascii_digit() && character != ';')?;
    inner
        .get(end..)?
        .starts_with('m')
        .then(|| text.get(..end + 3))?
}

/// What begins a command to a build server: at the start of a line, or
/// anywhere in one.
const AT_START: &str = "::";
const ANYWHERE: [&str; 3] = ["##[", "##vso[", "##teamcity["];

fn without_commands(text: Cow<'_, str>) -> Cow<'_, str> {
    let is_command = |line: &str| line.trim_start().starts_with(AT_START);
    let has_anywhere = ANYWHERE.iter().any(|command| text.contains(command));
    let has_at_start = || text.contains(AT_START) && text.lines().any(is_command);
    let is_harmless = !has_anywhere && !has_at_start();
    if is_harmless {
        return text;
    }
    let mut harmless = String::with_capacity(text.len() + 8);
    for line in text.split_inclusive('\n') {
        match is_command(line) {
            true => harmless += &line.replacen(AT_START, ": :", 1),
            false => harmless += line,
        }
    }
    for command in ANYWHERE {
        harmless = harmless.replace(command, &command.replacen('#', "# ", 1));
    }
    Cow::Owned(harmless)
}

/// What Markdown gives a meaning to within a line, as common editors and
/// services read it.
const MARKS: &[char] = &[
    '\\', '`', '*', '_', '[', ']', '<', '>', '|', '#', '~', '@', '&', '!',
];

/// What a message of SARIF gives a meaning to (SARIF 2.1.0, section 3.11.6).
const LINKS: &[char] = &['\\', '[', ']'];

fn escaped(text: &str, marks: &[char]) -> String {
    let mut escaped = String::with_capacity(text.len() + 8);
    for character in text.chars() {
        if marks.contains(&character) {
            escaped.push('\\');
        }
        escaped.push(character);
    }
    match marks == MARKS {
        // An address becomes a link by itself.
        true => escaped.replace("://", "\\://").replace("www.", "www\\."),
        false => escaped,
    }
}

/// A sentence in which what stands in backticks stays as it is.
fn sentence(text: &str) -> String {
    let parts: Vec<&str> = text.split('`').collect();
    // Backticks that stand alone or together pair otherwise than ours do.
    let is_ours = parts.len() % 2 == 1 && !text.contains("``");
    if !is_ours {
        return escaped(text, MARKS);
    }
    let parts = parts.iter().enumerate();
    let parts = parts.map(|(index, part)| match index % 2 {
        0 => escaped(part, MARKS),
        _ => format!("`{part}`"),
    });
    parts.collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn nothing_is_left_but_text() {
        use Shown::*;
        for (text, shown, wanted) in [
            (
                "a \u{bd} \u{2013} \"b\" 24' 6\"",
                Lines,
                "a \u{bd} \u{2013} \"b\" 24' 6\"",
            ),
            (
                "a\u{1b}[2Jb\u{9b}c\u{7f}",
                Line,
                "a\u{fffd}[2Jb\u{fffd}c\u{fffd}",
            ),
            (
                "a\u{202e}b\u{2066}c\u{2028}",
                Lines,
                "a\u{fffd}b\u{fffd}c\u{fffd}",
            ),
            ("a\nb\tc\rd\r\n", Lines, "a\nb\tc\u{fffd}d\r\n"),
            ("a\nb\tc", Line, "a\u{fffd}b c"),
            (
                "\u{1b}[1;31ma\u{1b}[0m\u{1b}[2J",
                Coloured,
                "\u{1b}[1;31ma\u{1b}[0m\u{fffd}[2J",
            ),
            ("\u{1b}[1ma", Lines, "\u{fffd}[1ma"),
            ("a\n  ::error::b\nc::d", Lines, "a\n  : :error::b\nc::d"),
            ("::error::b\n", Commands, "::error::b\n"),
            ("a ##[error]b ##vso[c", Lines, "a # #[error]b # #vso[c"),
            ("## A [b]", Lines, "## A [b]"),
            ("![a](b) <c>\nd", Markdown, "\\!\\[a\\](b) \\<c\\>\u{fffd}d"),
            ("`a_b` is _c_", Sentence, "`a_b` is \\_c\\_"),
            ("`a_b is [c](d)", Sentence, "\\`a\\_b is \\[c\\](d)"),
            ("see http://b, www.c", Markdown, "see http\\://b, www\\.c"),
            ("[a](http://b) \\", Sarif, "\\[a\\](http://b) \\\\"),
        ] {
            assert_eq!(clean(text, shown), wanted, "{text:?} {shown:?}");
        }
    }
}
