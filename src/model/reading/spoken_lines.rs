//! Whole lines as people say them: `tax materials 20 %`, `kept 2027-05-07 to
//! 2027-05-09`, `takes roof 42 m2`, `of base of court`.

use super::entry::Reader;
use super::literal::literal;
use super::source::Source;
use super::value::Entry;
use crate::findings::{Finding, Fix, Place};
use crate::syntax::{Item, ItemKind, Operator};
use crate::text::Span;
use crate::units::Day;
use crate::vocabulary::{SectionKind, Top};

impl Reader<'_, '_> {
    /// A value whose pieces stand in another order than the form has them.
    pub(super) fn line_as_said(&self, items: &[Item]) -> Option<Finding> {
        let slice = |item: &Item| self.source.slice(item.span);
        let is_number = |item: &Item| matches!(item.kind, ItemKind::Number { .. });
        let text = match (self.row.word, items) {
            ("quote", [by, price])
                if matches!(by.kind, ItemKind::Text { .. }) && is_number(price) =>
            {
                format!("{}, by {}", slice(price), slice(by))
            }
            ("kept", [first, to, last])
                if [first, last].iter().all(|day| day.kind == ItemKind::Date)
                    && self.source.is_word(to, "to") =>
            {
                let days = Day::read(slice(last))?.since(Day::read(slice(first))?) + 1;
                let plural = if days == 1 { "" } else { "s" };
                (days > 0).then(|| format!("{days} day{plural}, from {}", slice(first)))?
            }
            _ => return None,
        };
        Some(self.written_so(self.source.place_of(items), &text))
    }

    /// What is left behind a value and says with it something that is written
    /// otherwise; whether it was that.
    pub(super) fn rest_as_said(&mut self, items: &[Item], next: usize, entry: &mut Entry) -> bool {
        let (Some(value), Some(left)) = (items.get(..next), items.get(next..)) else {
            return false;
        };
        let slice = |item: &Item| self.source.slice(item.span);
        let text = match (self.row.word, value, left) {
            ("takes", [.., what], [area])
                if what.kind == ItemKind::Word && matches!(area.kind, ItemKind::Number { .. }) =>
            {
                let before = value.get(..value.len() - 1).unwrap_or_default();
                let before = match before.is_empty() {
                    true => String::new(),
                    false => format!("{} ", self.source.text_of(before)),
                };
                format!("{before}\"{}\" {}", slice(what), slice(area))
            }
            ("tax", [on], [share])
                if on.kind == ItemKind::Word && matches!(share.kind, ItemKind::Number { .. }) =>
            {
                format!("{} on {}", slice(share), slice(on))
            }
            ("off", [first], [minus, last])
                if minus.kind == ItemKind::Operator(Operator::Subtract)
                    && last.kind == ItemKind::Date =>
            {
                format!("{} to {}", slice(first), slice(last))
            }
            ("handrail", [side], [and, other])
                if self.source.is_word(and, "and")
                    && ["left", "right"].contains(&slice(side))
                    && ["left", "right"].contains(&slice(other)) =>
            {
                "both".to_owned()
            }
            ("of", [layer], [of, surface])
                if self.source.is_word(of, "of")
                    && surface.kind == ItemKind::Word
                    && Top::from_word(slice(layer)).is_some() =>
            {
                format!("{}, {}", slice(surface), slice(layer))
            }
            _ => return false,
        };
        let whole = self.source.place_of(items);
        let finding = self.written_so(whole, &text);
        for place in items.iter().map(|item| self.source.place(item.span)) {
            self.unread(place, entry);
        }
        self.findings.push(finding);
        true
    }

    fn written_so(&self, place: Place, text: &str) -> Finding {
        let message = format!("this is written `{} {text}`", self.row.word);
        let finding = Finding::new("word-stray", place, message);
        finding.fix(Fix::judged(format!("Write `{text}`"), place, text))
    }
}

/// `point (5 m, -3 m), -541 mm`: a level behind the point where it was
/// measured.
pub(super) fn level_behind_point(
    kind: &SectionKind,
    lower: &str,
    source: &Source<'_>,
) -> Option<Finding> {
    let first = source.first()?;
    let is_point = matches!(first.kind, ItemKind::Group { .. });
    if kind.word != "measured" || !["at", "point"].contains(&lower) || !is_point {
        return None;
    }
    let last = source
        .line
        .phrases
        .iter()
        .rfind(|own| !own.items.is_empty());
    let end = last?.span.end;
    let level = Span::new(first.span.end, end).slice(source.text);
    let level = level.trim_matches([',', ' ', '\t']);
    literal(level)?;
    let whole = source.place(Span::new(source.line.word.start, end));
    let text = format!("level {level} at {}", source.slice(first.span));
    let message = format!("the level comes first: `{text}`");
    let finding = Finding::new("word-unknown", whole, message);
    Some(finding.fix(Fix::judged(format!("Write `{text}`"), whole, text)))
}
