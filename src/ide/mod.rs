//! What an editor shows of a spec: plain data in, plain data out.
//!
//! Places are byte spans of the checked file and texts are strings; no
//! protocol is named here. The room uses `analysis` and everything above it.

mod actions;
#[cfg(test)]
mod anywhere;
mod completion;
mod cursor;
#[cfg(test)]
mod fixture;
mod folding;
mod hints;
mod hover;
mod lenses;
mod links;
mod markdown;
mod names;
mod packs;
mod paths;
mod rewriting;
mod selection;
mod signature;
mod symbols;
mod tokens;
mod units_shown;
mod writing;

pub use actions::{Action, ActionEdit, actions};
pub use completion::{
    About, Completion, CompletionKind, Completions, STARTERS, Starter, completions, documentation,
};
pub use folding::{Fold, folds};
pub use hints::{Hint, HintDetail, HintKind, HintOf, hint_detail, hints};
pub use hover::{Hover, hover, picture};
pub use lenses::{Lens, lenses};
pub use links::{Link, links};
pub use markdown::without_marks;
pub use names::{
    Occurrence, Refusal, Renaming, Role as NameRole, definitions, is_edge, places, places_of,
    renamable, rename, rename_of,
};
pub use paths::{WrittenPath, written_path};
pub use rewriting::{Rewriting, RewritingKind, all_fixes, rewritings};
pub use selection::selections;
pub use signature::{Signature, SignaturePart, signature};
pub use symbols::{Symbol, SymbolKind, symbols};
pub use tokens::{Colours, Token, TokenKind};
pub(crate) use tokens::{RelativeColours, RelativeToken, RelativeTokens};
pub use units_shown::in_units;
