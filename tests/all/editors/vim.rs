//! Vim's syntax file.

use super::words::{
    MADE, choices, currencies, functions, headings, joining, keys, longest_first, units,
};

/// The syntax file. A word is looked at as a whole, so that digits inside a
/// name are no number; of two matches that begin alike Vim takes the one that
/// is defined last.
pub fn vim() -> String {
    let any = |words: Vec<&'static str>| longest_first(words).join(r"\|");
    let units: Vec<String> = units()
        .iter()
        .map(|unit| unit.replace(' ', r"\s\+"))
        .collect();
    let currencies = currencies().join(r"\|");
    let fraction = r"\d\+\/\d\+";
    let vulgar = "[½¼¾⅛⅜⅝⅞⅓⅔]";
    let figure = format!(
        r"\%(\d\{{1,3}}\%(,\d\{{3}}\)\+\d\@!\%(\.\d\+\)\?\|{fraction}\|\d\+[ -]{fraction}\|\d\+\.\d\+\|\.\d\+\|\d\+\s*{vulgar}\|{vulgar}\|\d\+\)"
    );
    let (headings, keys) = (any(headings()), any(keys()));
    let (joining, choices, functions) = (any(joining()), any(choices()), any(functions()));
    let units = units.join(r"\|");
    format!(
        r##"" Colours of patio specifications.
" {MADE}

if exists("b:current_syntax")
  finish
endif

syntax case ignore
syntax iskeyword @,48-57,_,-,128-255
syntax sync minlines=1

syntax match patioWord "[-_0-9]\@!\k\+"
syntax match patioJoining "[-_0-9]\@!\<\%({joining}\|per\|over\)\>[.(]\@!"
syntax match patioChoice "[-_0-9]\@!\<\%({choices}\)\>[.(]\@!"
syntax match patioEdge "\%(\k\)\@1<=\.[-_0-9]\@!\k\+"
syntax match patioFunction "\<\%({functions}\)(\@="
syntax match patioKey "^\s\+\zs\%({keys}\)\>"
syntax match patioSection "^\%(\%ufeff\)\?\%({headings}\)\>" nextgroup=patioName skipwhite
syntax match patioName "[-_0-9]\@!\k\+" contained
syntax match patioOperator "[-+*/×:=–−]"
syntax match patioUnit "\%(''\|’’\|['’′″”%\"]\|°\s*[CF]\?\|\s*\<\%({currencies}\)\>\|\s*\<\%({units}\)\>(\@!\)" contained
syntax match patioRate "\%(/\|\<per\>\)\s*\%({units}\)\>"
syntax match patioNumber "{figure}\%(:{figure}\)*" nextgroup=patioUnit skipwhite
syntax match patioMoney "[$£€]\s*{figure}"
syntax match patioDate "\d\{{4}}-\d\d-\d\d[-0-9]\@!"
syntax region patioText start=+"+ start=+“+ skip=+\\["”\\]+ end=+["”]+ end=+$+ oneline contains=@Spell
syntax match patioComment "#.*$" contains=@Spell

highlight default link patioSection Keyword
highlight default link patioName Type
highlight default link patioKey Identifier
highlight default link patioJoining Statement
highlight default link patioChoice Constant
highlight default link patioEdge Special
highlight default link patioFunction Function
highlight default link patioNumber Number
highlight default link patioMoney Number
highlight default link patioDate Number
highlight default link patioUnit Number
highlight default link patioRate Number
highlight default link patioOperator Operator
highlight default link patioText String
highlight default link patioComment Comment

let b:current_syntax = "patio"
"##
    )
}
