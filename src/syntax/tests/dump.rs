//! A line's tree in one short text.
//!
//! Items stand apart by a space, phrases by ` | `, faults follow ` ! `.
//! A number's terms are `6 1/2~in`, joined by `+`; its money stands before it.

use crate::syntax::{FaultKind, Item, ItemKind, Operator, Phrase, PlacedLine};

/// The phrases of a line and its faults.
pub(super) fn dump(line: PlacedLine<'_>) -> String {
    let mut shown = phrases(line, &line.line.phrases);
    for fault in &line.line.faults {
        shown.push_str(&format!(
            " ! {} {}",
            name(fault.kind),
            line.text_of(fault.span)
        ));
    }
    shown.trim_start().to_owned()
}

/// The spaces round each item of the first phrase: `_` for one, `.` for none.
pub(super) fn spacing(line: PlacedLine<'_>) -> String {
    let mark = |spaced| if spaced { '_' } else { '.' };
    let items = line
        .line
        .phrases
        .first()
        .map_or(&[][..], |phrase| &phrase.items);
    items
        .iter()
        .map(|item| {
            let (before, after) = (mark(item.spaced_before), mark(item.spaced_after));
            format!("{before}{}{after}", line.text_of(item.span))
        })
        .collect::<Vec<_>>()
        .join(" ")
}

fn phrases(line: PlacedLine<'_>, phrases: &[Phrase]) -> String {
    let shown = phrases.iter().map(|phrase| {
        phrase
            .items
            .iter()
            .map(|item| show(line, item))
            .collect::<Vec<_>>()
            .join(" ")
    });
    shown.collect::<Vec<_>>().join(" | ")
}

fn show(line: PlacedLine<'_>, item: &Item) -> String {
    let text = |span| line.text_of(span);
    match &item.kind {
        ItemKind::Word => text(item.span).to_owned(),
        ItemKind::Reference { owner, edge } => format!("edge({} {})", text(*owner), text(*edge)),
        ItemKind::Text { inner } => format!("text({})", text(*inner)),
        ItemKind::Date => format!("date({})", text(item.span)),
        ItemKind::Ratio { left, right } => format!("ratio({} {})", text(*left), text(*right)),
        ItemKind::TightParts => format!("parts({})", text(item.span)),
        ItemKind::Number { terms, currency } => {
            let terms: Vec<_> = terms
                .iter()
                .map(|term| match term.unit {
                    Some(unit) => format!("{}~{}", text(term.number), text(unit)),
                    None => text(term.number).to_owned(),
                })
                .collect();
            let money = currency.map_or(String::new(), |sign| format!("{}:", text(sign)));
            format!("{money}{}", terms.join("+"))
        }
        ItemKind::Per { unit } => format!("per({})", text(*unit)),
        ItemKind::Group { phrases: inner } => format!("({})", phrases(line, inner)),
        ItemKind::Call {
            name,
            phrases: inner,
        } => {
            format!("{}({})", text(*name), phrases(line, inner))
        }
        ItemKind::Operator(operator) => match operator {
            Operator::Add => "ADD",
            Operator::Subtract => "SUB",
            Operator::Multiply => "MUL",
            Operator::Divide => "DIV",
            Operator::Per => "PER",
            Operator::Over => "OVER",
        }
        .to_owned(),
        ItemKind::Negative => "NEG".to_owned(),
        ItemKind::By => "BY".to_owned(),
        ItemKind::Colon => "COLON".to_owned(),
        ItemKind::Equals => "EQUALS".to_owned(),
        ItemKind::Stray => format!("stray({})", text(item.span)),
    }
}

fn name(kind: FaultKind) -> &'static str {
    match kind {
        FaultKind::Unread => "unread",
        FaultKind::TooDeep => "too-deep",
        FaultKind::TooLong => "too-long",
        FaultKind::GroupOpen => "group-open",
        FaultKind::GroupClose => "group-close",
        FaultKind::CommaStray => "comma",
        FaultKind::TextUnclosed => "text-open",
        FaultKind::HashTouchesDigit => "hash",
        FaultKind::MinusUnclear => "minus",
        FaultKind::InchMarkOff => "inch-off",
    }
}
