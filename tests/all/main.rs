//! Every test that goes through the crate from outside, in one binary.

// A test may stop where it fails.
#![allow(
    clippy::expect_used,
    clippy::indexing_slicing,
    clippy::panic,
    clippy::unwrap_used
)]
// Nothing leaves a test.
#![allow(unreachable_pub)]

mod as_built;
mod at_limits;
mod border_beds;
mod checked;
mod ci;
mod cli;
mod completion;
mod courses;
mod court;
mod developers;
mod drains;
mod drawings;
mod driving;
mod edges;
mod editor_pages;
mod editors;
mod emacs;
mod facets;
mod fixes;
mod fixture;
mod folder;
mod forgotten;
mod format;
mod golden;
mod growth;
mod helix;
mod house;
mod hydraulics;
mod in_base;
mod inflows;
mod kakoune;
mod language;
mod limits;
mod lost_minus;
mod memory;
mod messages;
mod metamorphic;
mod money;
mod neovim;
mod outlines;
mod outside;
mod outside_values;
mod peers;
mod pictures;
mod practice;
mod preview;
mod random;
mod readers;
mod readme;
mod reference;
mod renaming;
mod repeats;
mod reports;
mod repository;
mod robustness;
mod rules;
mod same;
mod schedule;
mod server;
mod setting_out;
mod shared;
mod sizes;
mod sound;
mod specs;
mod spelling;
mod spreadsheet;
mod starts;
mod tools;
mod trees;
mod turned;
mod vim;
mod vocabulary;
mod vscode;
mod water;
mod withheld;
