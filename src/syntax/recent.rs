//! Lines read lately, by their text. Specs say the same thing over and over,
//! within a file and from file to file: `meets north`, `units metric`. A
//! line's tree depends on its text alone, so it is read once and shared.

use std::cell::RefCell;
use std::sync::Arc;

use rustc_hash::FxHashMap;

use super::logical_line::LogicalLine;
use super::tree::Line;

/// How many lines are kept at most before the older half of what is kept is
/// forgotten.
const YOUNG: usize = 512;

/// Longer lines are hardly ever the same as another.
const LONGEST_KEPT: usize = 120;

/// Lines by their text: those asked for lately, and those before them.
#[derive(Default)]
struct Recent {
    young: FxHashMap<Box<str>, Arc<Line>>,
    old: FxHashMap<Box<str>, Arc<Line>>,
}

thread_local! {
    static RECENT: RefCell<Recent> = RefCell::default();
}

/// The tree of a line, read now or lately.
pub(super) fn read(logical: LogicalLine<'_>) -> Arc<Line> {
    let text = logical.text;
    if text.len() > LONGEST_KEPT {
        return Arc::new(Line::read(logical));
    }
    RECENT.with(|recent| {
        let known = recent.borrow_mut().find(text);
        known.unwrap_or_else(|| {
            let line = Arc::new(Line::read(logical));
            recent.borrow_mut().keep(text.into(), Arc::clone(&line));
            line
        })
    })
}

impl Recent {
    /// A line that is known; it is young again.
    fn find(&mut self, text: &str) -> Option<Arc<Line>> {
        if let Some(line) = self.young.get(text) {
            return Some(Arc::clone(line));
        }
        let (text, line) = self.old.remove_entry(text)?;
        self.keep(text, Arc::clone(&line));
        Some(line)
    }

    fn keep(&mut self, text: Box<str>, line: Arc<Line>) {
        if self.young.len() >= YOUNG {
            self.old = std::mem::take(&mut self.young);
        }
        self.young.insert(text, line);
    }
}

#[cfg(test)]
mod tests {
    use super::super::logical_line::logical_lines;
    use super::*;

    fn line(text: &str) -> Arc<Line> {
        read(logical_lines(text).next().unwrap())
    }

    #[test]
    fn what_is_said_again_and_again_is_read_once() {
        let first = line("meets north\n");
        for number in 0..4 * YOUNG {
            line(&format!("name number-{number}\n"));
            if number % (YOUNG / 2) == 0 {
                assert!(Arc::ptr_eq(&first, &line("meets north\n")), "{number}");
            }
        }
        let last = line("name number-1\n");
        assert_eq!(last.word.len(), 4);
        RECENT.with_borrow(|recent| {
            assert!(recent.young.len() <= YOUNG && recent.old.len() <= YOUNG);
        });
    }
}
