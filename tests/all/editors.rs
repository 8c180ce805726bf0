//! What editors colour a spec by, made from the vocabulary: whole grammars,
//! and the lists of words in files that are otherwise written by hand. The
//! files in the repository are what is made here.

mod emacs;
mod kakoune;
mod kate;
mod pattern;
mod textmate;
mod tree_sitter;
mod vim;
mod words;

use emacs::emacs;
use kakoune::kakoune;
use kate::kate;
use textmate::textmate;
use tree_sitter::{helix_highlights, highlights, words_of_the_scanner};
use vim::vim;

use crate::golden;

/// A file of an editor, or what stands between two marks of it.
pub struct Made {
    /// Its path under `editors`.
    pub path: &'static str,
    /// What makes it.
    pub make: fn() -> String,
    /// What the line holds before which, and the line holds after which, all
    /// is written by hand; the whole file is made if there is none.
    pub between: Option<[&'static str; 2]>,
}

/// Every file that is made, wholly or in part.
pub const MADE: &[Made] = &[
    Made {
        path: "vscode/syntaxes/patio.tmLanguage.json",
        make: textmate,
        between: None,
    },
    Made {
        path: "vim/syntax/patio.vim",
        make: vim,
        between: None,
    },
    Made {
        path: "kate/patio.xml",
        make: kate,
        between: None,
    },
    Made {
        path: "kakoune/patio.kak",
        make: kakoune,
        between: Some(["# From here on made", "# To here made"]),
    },
    Made {
        path: "emacs/patio-mode.el",
        make: emacs,
        between: Some([";; From here on made", ";; To here made"]),
    },
    Made {
        path: "tree-sitter/src/words.h",
        make: words_of_the_scanner,
        between: None,
    },
    Made {
        path: "tree-sitter/queries/highlights.scm",
        make: highlights,
        between: None,
    },
    Made {
        path: "helix/queries/highlights.scm",
        make: helix_highlights,
        between: None,
    },
];

impl Made {
    /// The file as it should be, given the file as it is. Where a mark is
    /// missing the file stays as it is.
    pub fn anew(&self, kept: &str) -> String {
        let made = (self.make)();
        let Some([start, end]) = self.between else {
            return made;
        };
        let line_after = |mark: &str, from: usize| {
            let at = kept.get(from..)?.find(mark)? + from;
            Some((at, kept.get(at..)?.find('\n')? + at + 1))
        };
        let region = || {
            let (_, from) = line_after(start, 0)?;
            let (mark, _) = line_after(end, from)?;
            let to = kept.get(..mark)?.rfind('\n')? + 1;
            Some((kept.get(..from)?, kept.get(to..)?))
        };
        match region() {
            Some((before, after)) => format!("{before}{made}{after}"),
            None => kept.to_owned(),
        }
    }
}

#[test]
fn the_words_of_every_editor_are_up_to_date() {
    for made in MADE {
        golden::made(&format!("editors/{}", made.path), |kept| {
            for mark in made.between.into_iter().flatten() {
                assert!(kept.contains(mark), "{} has no `{mark}`", made.path);
            }
            made.anew(kept)
        });
    }
}

#[test]
fn a_region_is_made_anew_and_nothing_else() {
    let made = Made {
        path: "",
        make: || "new\n".to_owned(),
        between: Some(["begin", "end"]),
    };
    for (kept, anew) in [
        ("a\n; begin\nold\n; end\nb\n", "a\n; begin\nnew\n; end\nb\n"),
        ("; begin\n; end\n", "; begin\nnew\n; end\n"),
        ("; begin\nold\n", "; begin\nold\n"),
        ("old\n", "old\n"),
    ] {
        assert_eq!(made.anew(kept), anew);
    }
}
