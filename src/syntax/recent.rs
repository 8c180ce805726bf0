//! Lines read lately, by their text. Specs say the same thing over and over,
//! within a file and from file to file: `meets north`, `units metric`. A
//! line's tree depends on its text alone, so it is read once and shared.

use std::cell::RefCell;
use std::sync::Arc;

use rustc_hash::FxHashMap;

use super::logical_line::LogicalLine;
use super::tree::Line;

/// How many lines are kept; when there are more, all are forgotten.
const MOST_KEPT: usize = 4096;

/// Longer lines are hardly ever the same as another.
const LONGEST_KEPT: usize = 120;

thread_local! {
    static RECENT: RefCell<FxHashMap<Box<str>, Arc<Line>>> = RefCell::default();
}

/// The tree of a line, read now or lately.
pub(super) fn read(logical: LogicalLine<'_>) -> Arc<Line> {
    let text = logical.text;
    if text.len() > LONGEST_KEPT {
        return Arc::new(Line::read(logical));
    }
    RECENT.with(|recent| {
        if let Some(line) = recent.borrow().get(text) {
            return Arc::clone(line);
        }
        let line = Arc::new(Line::read(logical));
        let mut recent = recent.borrow_mut();
        if recent.len() >= MOST_KEPT {
            recent.clear();
        }
        recent.insert(text.into(), Arc::clone(&line));
        line
    })
}
