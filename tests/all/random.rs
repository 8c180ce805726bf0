//! Seeded randomness, so that a run today is a run tomorrow.
//!
//! `DRYLAY_CASES` sets how many cases the seeded tests go through, as a
//! multiple of what they usually do, and `DRYLAY_SEED` where they start.

/// A sequence of numbers that its seed settles: splitmix64.
pub struct Random(u64);

impl Random {
    /// The sequence of this name, moved on by `DRYLAY_SEED`.
    pub fn new(name: &str) -> Random {
        let start = name.bytes().fold(setting("DRYLAY_SEED", 1), |seed, byte| {
            seed.wrapping_mul(0x100_0000_01b3) ^ u64::from(byte)
        });
        Random(start)
    }

    /// Any number.
    pub fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut mixed = self.0;
        mixed = (mixed ^ (mixed >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        mixed ^ (mixed >> 31)
    }

    /// A whole number from 0 to `count`, that itself left out; 0 of none.
    pub fn below(&mut self, count: usize) -> usize {
        (self.next() % count.max(1) as u64) as usize
    }

    /// A number between two bounds.
    pub fn between(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * ((self.next() >> 11) as f64 / (1u64 << 53) as f64)
    }

    /// A multiple of `step` between two bounds.
    pub fn step(&mut self, low: f64, high: f64, step: f64) -> f64 {
        (self.between(low, high) / step).round() * step
    }

    /// True once in `times`.
    pub fn once_in(&mut self, times: usize) -> bool {
        self.below(times) == 0
    }

    /// One of several.
    pub fn pick<'a, T>(&mut self, among: &'a [T]) -> &'a T {
        &among[self.below(among.len())]
    }
}

/// How many cases to go through: so many usually.
pub fn cases(usually: usize) -> usize {
    usually * setting("DRYLAY_CASES", 1) as usize
}

fn setting(name: &str, usually: u64) -> u64 {
    match std::env::var(name) {
        Ok(text) => text
            .parse()
            .unwrap_or_else(|_| panic!("{name} is a whole number")),
        Err(_) => usually,
    }
}
