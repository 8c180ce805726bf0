//! The specs in the folders of the workspace, open or not: finding them,
//! reading those that are not open, and keeping what was found in them up to
//! date when they, or what they read, change.
//!
//! A thread of its own searches and reads, one spec at a time, so that what is
//! open never waits. Of a spec that is not open only its findings, its names
//! and what it reads are kept.

mod index;
mod progress;
mod pull;
mod readers;
mod roots;
mod tasks;
mod worker;

pub(crate) use index::Index;
pub(crate) use roots::Roots;
pub(crate) use worker::Worker;
