//! Who reads what: from a library or a standard to the specs to look at when
//! it changes.

use std::collections::BTreeSet;

use indexmap::IndexSet;
use rustc_hash::FxHashMap;

/// What each spec has read or looked for, and the way back. Paths are held
/// once and known by their number.
#[derive(Debug, Default)]
pub(crate) struct Readers {
    paths: IndexSet<String>,
    reads: FxHashMap<usize, Box<[usize]>>,
    readers: FxHashMap<usize, BTreeSet<usize>>,
}

impl Readers {
    /// What a spec reads, from now on.
    pub(crate) fn set(&mut self, spec: &str, reads: &[String]) {
        self.forget(spec);
        let spec = self.number(spec);
        let reads: Box<[usize]> = reads.iter().map(|path| self.number(path)).collect();
        for path in &reads {
            self.readers.entry(*path).or_default().insert(spec);
        }
        self.reads.insert(spec, reads);
    }

    /// A spec reads nothing any more.
    pub(crate) fn forget(&mut self, spec: &str) {
        let Some(spec) = self.paths.get_index_of(spec) else {
            return;
        };
        for path in self.reads.remove(&spec).unwrap_or_default() {
            if let Some(readers) = self.readers.get_mut(&path) {
                readers.remove(&spec);
                if readers.is_empty() {
                    self.readers.remove(&path);
                }
            }
        }
    }

    /// The specs that read a path or looked for it.
    pub(crate) fn of(&self, path: &str) -> Vec<String> {
        let number = self.paths.get_index_of(path);
        let readers = number.and_then(|number| self.readers.get(&number));
        self.named(readers.into_iter().flatten()).cloned().collect()
    }

    /// What a spec has read or looked for.
    pub(crate) fn reads_of(&self, spec: &str) -> Vec<String> {
        let number = self.paths.get_index_of(spec);
        let reads = number.and_then(|number| self.reads.get(&number));
        self.named(reads.into_iter().flatten()).cloned().collect()
    }

    /// Every path that is read or looked for.
    pub(crate) fn read_paths(&self) -> impl Iterator<Item = &String> {
        self.named(self.readers.keys())
    }

    fn named<'a>(
        &'a self,
        numbers: impl Iterator<Item = &'a usize>,
    ) -> impl Iterator<Item = &'a String> {
        numbers.filter_map(|number| self.paths.get_index(*number))
    }

    fn number(&mut self, path: &str) -> usize {
        match self.paths.get_index_of(path) {
            Some(number) => number,
            None => self.paths.insert_full(path.to_owned()).0,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn reads(paths: &[&str]) -> Vec<String> {
        paths.iter().map(|path| (*path).to_owned()).collect()
    }

    #[test]
    fn the_way_back_is_kept() {
        let mut readers = Readers::default();
        readers.set("a", &reads(&["lib", "standard", "lib"]));
        readers.set("b", &reads(&["lib"]));
        assert_eq!(readers.of("lib"), ["a", "b"]);
        assert_eq!(readers.reads_of("b"), ["lib"]);
        assert_eq!(readers.reads_of("lib"), [] as [&str; 0]);
        assert_eq!(readers.of("standard"), ["a"]);
        assert_eq!(readers.of("a"), [] as [&str; 0]);
        readers.set("a", &reads(&["other"]));
        assert_eq!(readers.of("lib"), ["b"]);
        assert_eq!(readers.of("standard"), [] as [&str; 0]);
        readers.forget("b");
        readers.forget("never heard of");
        assert_eq!(readers.of("lib"), [] as [&str; 0]);
        assert_eq!(readers.of("other"), ["a"]);
    }
}
