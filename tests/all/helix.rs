//! A real Helix as the client.

use crate::driving::in_a_terminal;

#[test]
fn helix_shows_findings_hints_and_hovers_and_changes_the_text() {
    in_a_terminal("helix", "hx", 15);
}
