//! One quantity as a spec writes it, with nothing round it.

use crate::text::Text;

use super::expression::Cursor;
use super::source::Source;
use crate::syntax::Tree;
use crate::units::Quantity;

/// Reads one quantity written as a spec would write it, with nothing round
/// it: `6 in`, `1/4 in per ft`, `2 %`. The catalogue and the rules' limits
/// are read with it.
pub fn literal(text: &str) -> Option<Quantity> {
    let tree = Tree::parse(Text::from(format!("let value = {text}")));
    let source = Source::of_first(&tree)?;
    let line = source.line;
    let phrase = line.phrases.first()?;
    let mut cursor = Cursor {
        source,
        items: &phrase.items,
        next: 2,
        stop: None,
        seconds: false,
    };
    let expression = cursor.expression().ok()?;
    if cursor.peek().is_some() || line.phrases.len() > 1 {
        return None;
    }
    super::super::resolve::constant(&expression)
}
