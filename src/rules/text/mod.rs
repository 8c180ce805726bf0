//! The text itself: what could not be read as it stands. These rules are
//! found while the text is read; here is what they are.

mod entries;
mod lines;
mod names;
mod outlines;
mod uses;
mod value_odd;
mod values;

use super::Rule;
pub(super) use value_odd::VALUE_ODD;

/// The rules of this family, in the order in which they are listed.
pub(crate) static RULES: &[&Rule] = &[
    &lines::LINE_UNREAD,
    &lines::WORD_STRAY,
    &lines::COMMA_STRAY,
    &lines::COMMENT_UNCLEAR,
    &lines::MINUS_UNCLEAR,
    &lines::NUMBER_UNCLEAR,
    &lines::TEXT_UNCLOSED,
    &names::WORD_UNKNOWN,
    &names::NAME_UNKNOWN,
    &names::NAME_QUOTED,
    &names::NAME_TWICE,
    &names::NAME_RESERVED,
    &names::NAME_UNUSED,
    &entries::ENTRY_TWICE,
    &entries::ENTRY_MISSING,
    &entries::ENTRY_MISPLACED,
    &values::DIMENSION_WRONG,
    &values::CURRENCY_MIXED,
    &values::UNIT_MISSING,
    &values::VALUE_RANGE,
    &values::CIRCULAR,
    &value_odd::VALUE_ODD,
    &outlines::OUTLINE_OPEN,
    &outlines::OUTLINE_CROSSED,
    &outlines::OUTLINE_EMPTY,
    &outlines::OUTLINE_SPLIT,
    &outlines::OUTLINE_ASKEW,
    &outlines::CORNER_LARGE,
    &outlines::ARC_SHORT,
    &outlines::CUT_IDLE,
    &uses::USE_MISSING,
    &uses::USE_OUTSIDE,
];
