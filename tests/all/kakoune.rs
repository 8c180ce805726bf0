//! A real Kakoune, which the colours of specs are looked at in.

use crate::driving::in_a_terminal;

#[test]
fn kakoune_shows_colours() {
    in_a_terminal("kakoune", "kak", 14);
}
