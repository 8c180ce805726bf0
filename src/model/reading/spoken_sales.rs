//! How things are sold and what they cost, as people say it: `sold in packs of
//! 18.9 m2`, `$4.25 psf`, `£463 per pack of 18.9 m2`.

use super::entry::Reader;
use super::source::Source;
use super::value::Entry;
use crate::findings::{Finding, Fix, Place};
use crate::syntax::{Item, ItemKind};
use crate::units::find_unit;
use crate::vocabulary::entry;

/// What a rate in one word is for each of.
const RATES: &[(&str, &str)] = &[
    ("psf", "/sq ft"),
    ("psy", "/sq yd"),
    ("psm", "/m2"),
    ("pcy", "/cu yd"),
];

/// What goods come in, as the last word of its name: `bulk bag`.
const PACKS: &[&str] = &[
    "bag", "sack", "pack", "pallet", "crate", "box", "roll", "tub", "bucket",
];

/// `sold in packs of 18.9 m2`, `sold in cu yd`: by what it is sold, after
/// another word.
pub(super) fn sold_otherwise(source: &Source<'_>, key: &str, items: &[Item]) -> Option<Finding> {
    if key != "sold" {
        return None;
    }
    let (first, rest) = items.split_first()?;
    let holds = rest.iter().position(|item| source.is_word(item, "of"));
    let (what, holds) = rest.split_at_checked(holds.unwrap_or(rest.len()))?;
    let joins = ["in", "per", "as", "at"];
    let is_number = |item: &Item| matches!(item.kind, ItemKind::Number { .. });
    let is_turned = what.first().is_some_and(is_number) && what.len() == 2;
    let is_in_two =
        source.is_word(first, "by") && what.len() > 1 && (!holds.is_empty() || is_turned);
    let is_otherwise = joins.iter().any(|word| source.is_word(first, word)) || is_in_two;
    if !is_otherwise || what.is_empty() {
        return None;
    }
    let written = source.text_of(what);
    // `by 50 lb bag`: what it holds before what it comes in.
    let turned = match what {
        [content, pack] if matches!(content.kind, ItemKind::Number { .. }) => {
            let pack = pack_name(source, std::slice::from_ref(pack));
            pack.map(|pack| format!("{pack} of {}", source.slice(content.span)))
        }
        _ => None,
    };
    let sold = match find_unit(written) {
        None if turned.is_some() && holds.is_empty() => turned?,
        Some(_) => written.to_owned(),
        None => pack_name(source, what)?,
    };
    let holds = match holds.is_empty() {
        true => String::new(),
        false => format!(" {}", source.text_of(holds)),
    };
    let text = format!("by {sold}{holds}");
    let place = source.place_of(items);
    let message = format!("by what it is sold is written `{text}`");
    let finding = Finding::new("word-stray", place, message);
    Some(finding.fix(Fix::judged(format!("Write `{text}`"), place, text)))
}

/// One pack, as a name: of `bulk bags`, `bulk-bag`.
fn pack_name(source: &Source<'_>, items: &[Item]) -> Option<String> {
    let words = items.iter().map(|item| source.word(item));
    let name = words.collect::<Option<Vec<&str>>>()?.join("-");
    let name = name.to_lowercase();
    Some(name.strip_suffix('s').map(str::to_owned).unwrap_or(name))
}

impl Reader<'_, '_> {
    /// What stands behind a price or a sale that people say so: whether it was
    /// that. `items` are read up to `next`.
    pub(super) fn said_of_a_sale(
        &mut self,
        items: &[Item],
        next: usize,
        entry: &mut Entry,
    ) -> bool {
        if !["price", "sold", "delivery", "minimum"].contains(&self.row.word) {
            return false;
        }
        let told = self
            .rate_in_a_word(items, next)
            .or_else(|| self.pack_in_two(items, next))
            .or_else(|| self.pack_with_its_content(items, next));
        let Some(finding) = told else {
            return false;
        };
        self.findings.push(finding);
        entry.complete = false;
        true
    }

    /// `$4.25 psf`.
    fn rate_in_a_word(&self, items: &[Item], next: usize) -> Option<Finding> {
        let item = items.get(next)?;
        let word = self.source.word(item)?.to_lowercase();
        let (_, rate) = RATES.iter().find(|(own, _)| *own == word)?;
        let place = self.source.place(item.span);
        let message = format!("what a price is for each of is written by its sign: `{rate}`");
        let finding = Finding::new("word-stray", place, message);
        let whole = self.with_blank_before(place);
        Some(finding.fix(Fix::judged(format!("Write `{rate}`"), whole, *rate)))
    }

    /// `£52/bulk bag`, `by bulk bag of 850 kg`.
    fn pack_in_two(&self, items: &[Item], next: usize) -> Option<Finding> {
        let (first, second) = (items.get(next.checked_sub(1)?)?, items.get(next)?);
        let last = self.source.word(second)?.to_lowercase();
        let is_pack = PACKS.contains(&last.trim_end_matches('s'));
        let before = self.source.word(first).filter(|_| is_pack)?;
        let name = format!("{before}-{last}").to_lowercase();
        let place = self.source.place(first.span.join(second.span));
        let message = format!("a name has hyphens, not spaces: `{name}`");
        let finding = Finding::new("word-stray", place, message);
        Some(finding.fix(Fix::judged(format!("Write `{name}`"), place, name)))
    }

    /// `£463 per pack of 18.9 m2`: what a pack holds is said where it is sold.
    fn pack_with_its_content(&self, items: &[Item], next: usize) -> Option<Finding> {
        let (pack, left) = (items.get(next.checked_sub(1)?)?, items.get(next..)?);
        let (of, content) = left.split_first()?;
        let pack = self.source.word(pack)?;
        let is_content = self.source.is_word(of, "of")
            && matches!(content, [only] if matches!(only.kind, ItemKind::Number { .. }));
        if self.row.word != "price" || !is_content {
            return None;
        }
        let sold = entry("sold", &format!("by {pack} {}", self.source.text_of(left)));
        let place = self.source.place_of(left);
        let message = format!("what a {pack} holds is said where it is sold: `{sold}`");
        let finding = Finding::new("word-stray", place, message);
        let whole: Place = self.with_blank_before(place);
        let text = format!("\n  {sold}");
        Some(finding.fix(Fix::judged(format!("Write `{sold}` below"), whole, text)))
    }
}
