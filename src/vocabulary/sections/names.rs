//! `use` and `let`: what other files and other lines lend to this one.

use super::{NameSpace, SectionKind};

pub(crate) static USE: SectionKind = SectionKind {
    word: "use",
    heading: "PATH:text",
    clauses: &[],
    defines: None,
    keys: &[],
    help: "Brings in another file's materials, mixes, builds, lets and shapes.",
    example: "use \"office/mixes.patio\"",
};

pub(crate) static LET: SectionKind = SectionKind {
    word: "let",
    heading: "NAME:name = VALUE:quantity",
    clauses: &[],
    defines: Some(NameSpace::Lets),
    keys: &[],
    help: "Gives a quantity a name.",
    example: "let margin = 6 in",
};
