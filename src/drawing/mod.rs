//! Drawings of a job: the plan to scale on a sheet of paper; on further ones the
//! section through each build, each flight of steps from the side and each
//! drain along its length; and the bar chart of its schedule, in each format;
//! and documents of words, tables and sheets on their pages.
//!
//! An analysis becomes a display list: paths, fills and text in millimetres
//! of paper, each with the entry that it comes from. One file holds one
//! format of that list. The room is pure: no file is read or written, and
//! whatever the analysis, there is a drawing or a word about why not.
//!
//! It uses everything up to `analysis`.

mod bare;
mod bearings;
mod beside;
mod cards;
mod cells;
mod clip;
mod cropped;
mod curves;
mod display_list;
mod document;
mod dxf;
mod figure;
mod filling;
mod flight;
mod font;
mod further;
mod glyphs;
mod labels;
mod legend;
mod lettering;
mod letters;
mod long_section;
mod measure;
mod paging;
mod pattern;
mod pdf;
mod picture;
mod plan;
mod png;
mod rod;
mod scale;
mod schedule;
mod section;
mod sheet;
mod sheets;
mod surround;
mod svg;
mod texture;

pub use cards::{buckets, crosses};
pub use display_list::{Drawing, Extents, Ink, Inset, Item, Layer, Mark, Path, Pen, Text, Weight};
pub use document::{Block, Column, Document, Fact, Holds, Row, Table};
pub use dxf::dxf;
pub use font::Face;
pub use glyphs::lacking;
pub use pdf::pdf;
pub use picture::{Picture, Section};
pub use plan::{Choice, Misfit, plan};
pub use png::png;
pub use rod::{RodMark, UnderBoard, rod_and_board};
pub use scale::Scale;
pub use schedule::schedule_chart;
pub use section::layers_picture;
pub use sheet::Size;
pub use sheets::{figures, sheets};
pub use surround::plan_north;
pub use svg::{Anchor, Dress, svg, type_face};
