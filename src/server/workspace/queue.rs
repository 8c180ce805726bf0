//! What waits for its turn.

use std::collections::{HashSet, VecDeque};

/// Paths in the order in which they came, each once. One that comes again
/// keeps its place, so that none waits for ever.
#[derive(Debug, Default)]
pub(crate) struct Queue {
    order: VecDeque<String>,
    waiting: HashSet<String>,
}

impl Queue {
    /// Puts a path at the end, if it does not wait yet.
    pub(crate) fn push(&mut self, path: &str) {
        if self.waiting.insert(path.to_owned()) {
            self.order.push_back(path.to_owned());
        }
    }

    /// Takes the first path.
    pub(crate) fn pop(&mut self) -> Option<String> {
        while let Some(path) = self.order.pop_front() {
            if self.waiting.remove(&path) {
                return Some(path);
            }
        }
        None
    }

    /// Whether a path waits.
    pub(crate) fn has(&self, path: &str) -> bool {
        self.waiting.contains(path)
    }

    /// Whether none waits.
    pub(crate) fn is_empty(&self) -> bool {
        self.waiting.is_empty()
    }

    /// How many wait.
    pub(crate) fn len(&self) -> usize {
        self.waiting.len()
    }

    /// Nothing waits any more.
    pub(crate) fn clear(&mut self) {
        self.order.clear();
        self.waiting.clear();
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_has_its_turn_once() {
        let mut queue = Queue::default();
        ["a", "b", "a", "c"]
            .iter()
            .for_each(|path| queue.push(path));
        assert_eq!(queue.len(), 3);
        assert_eq!(queue.pop().as_deref(), Some("a"));
        queue.push("a");
        assert!(queue.has("a") && queue.has("b"));
        let rest: Vec<String> = std::iter::from_fn(|| queue.pop()).collect();
        assert_eq!(rest, ["b", "c", "a"]);
        queue.push("d");
        queue.clear();
        assert_eq!((queue.pop(), queue.len()), (None, 0));
    }
}
