//! The grammar, made into a parser.

/// Reads one logical line by the rules of `grammar/patio.pest`.
#[derive(pest_derive::Parser)]
#[grammar = "grammar/patio.pest"]
pub(super) struct LineParser;
