//! A real Vim as the client, by ALE.

use crate::driving::in_a_terminal;

#[test]
fn vim_shows_colours_findings_and_hovers_and_changes_the_text() {
    in_a_terminal("vim", "vim", 25);
}
