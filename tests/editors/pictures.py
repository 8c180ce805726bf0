"""Draws the pictures of editors/README.md: each editor of the terminal with the
files that a user copies, on a spec of ours whose fall is too flat.

    PATH=target/test-env/bin:target/debug:$PATH python3 tests/editors/pictures.py [EDITOR...]

Look at what comes out before you keep it."""

import os
import shutil
import subprocess
import sys
import time

from screen import REPOSITORY, Screen

EDITORS = REPOSITORY / "editors"
SIZE = (112, 34)


def opened(name):
    screen = Screen("specs/bakehouse-yard.patio", SIZE)
    screen.change("fall          2 %", "fall          1/2 %")
    return screen


def put(source, place):
    place.parent.mkdir(parents=True, exist_ok=True)
    (shutil.copytree if source.is_dir() else shutil.copy)(source, place)


def install(screen, editor):
    homes = {"XDG_CONFIG_HOME": str(screen.home / ".config"), "XDG_DATA_HOME": str(screen.home / ".data")}
    subprocess.run([EDITORS / "tree-sitter" / "install", editor], check=True, env={**os.environ, **homes})


def helix(screen):
    for name in ("languages.toml", "config.toml"):
        put(EDITORS / "helix" / name, screen.home / ".config" / "helix" / name)
    install(screen, "helix")
    screen.start("hx", screen.spec.name)
    screen.expect("Helix shows the spec", "Fennel Street")
    screen.type(f":{screen.line_of('  fall ')}")
    screen.keys("Enter", "z", "z", "g", "s")
    screen.expect("a finding", r"too flat: 0\.5 %")
    screen.expect("figures", r"12\.9 tons", again=lambda: screen.keys("l"))
    time.sleep(1)
    screen.draw("helix", "#3b224c")


def neovim(screen):
    put(EDITORS / "neovim" / "drylay.lua", screen.home / ".config" / "nvim" / "plugin" / "drylay.lua")
    install(screen, "neovim")
    screen.start("nvim", "-i", "NONE", screen.spec.name, "-c", "lua vim.diagnostic.config({ virtual_lines = { current_line = true } })")
    screen.expect("Neovim shows the spec", "Fennel Street")
    screen.type(f":{screen.line_of('  fall ')}")
    screen.keys("Enter", "z", "z", "w")
    screen.expect("a finding", r"too flat: 0\.5 %")
    screen.expect("figures", r"12\.9 tons")
    time.sleep(1)
    screen.draw("neovim", "#14161b")


def emacs(screen):
    put(EDITORS / "emacs" / "patio-mode.el", screen.home / ".emacs.d" / "lisp" / "patio-mode.el")
    (screen.home / ".emacs.d" / "init.el").write_text(
        """(add-to-list 'load-path "~/.emacs.d/lisp")
        (require 'patio-mode)
        (setq inhibit-startup-screen t flymake-show-diagnostics-at-end-of-line 'short)
        (menu-bar-mode -1)
        (load-theme 'modus-vivendi t)
        """
    )
    screen.start("emacs", "-nw", f"+{screen.line_of('  fall ')}:20", screen.spec.name)
    screen.expect("Emacs shows the spec", "surface yard")
    screen.expect("a finding", r"too flat: 0\.5 %")
    screen.expect("figures", r"12\.9 tons", again=lambda: screen.keys("Right"))
    time.sleep(2)
    screen.draw("emacs", "#000000")


def vim(screen):
    put(EDITORS / "vim", screen.home / ".vim" / "pack" / "drylay" / "start" / "drylay")
    put(EDITORS / "vim" / "vimrc", screen.home / ".vimrc")
    ale = REPOSITORY / "target" / "test-env" / "debian" / "usr" / "share" / "vim-ale"
    (screen.home / ".vim" / "pack" / "ale" / "start").mkdir(parents=True)
    (screen.home / ".vim" / "pack" / "ale" / "start" / "ale").symlink_to(ale)
    screen.start("vim", "-i", "NONE", "-c", "set termguicolors | colorscheme habamax", screen.spec.name)
    screen.expect("Vim shows the spec", "Fennel Street")
    screen.type(f":{screen.line_of('  fall ')}")
    screen.keys("Enter", "z", "z")
    screen.expect("a finding", r"too flat: 0\.5 %")
    time.sleep(1)
    screen.draw("vim", "#1c1c1c")


def kakoune(screen):
    place = screen.home / ".config" / "kak"
    put(EDITORS / "kakoune" / "patio.kak", place / "autoload" / "patio.kak")
    (place / "autoload" / "system").symlink_to(REPOSITORY / "target" / "test-env" / "debian" / "usr" / "share" / "kak" / "autoload")
    if shutil.which("kak-lsp"):
        put(EDITORS / "kakoune" / "kakrc", place / "kakrc")
    screen.start("kak", screen.spec.name)
    screen.expect("Kakoune shows the spec", "Fennel Street")
    if shutil.which("kak-lsp"):
        screen.expect("a finding", r"too flat: 0\.5 %")
        screen.expect("figures", r"96' 0\"")
    time.sleep(1)
    screen.draw("kakoune")


def main(names):
    drawn = [helix, neovim, emacs, vim, kakoune]
    failed = 0
    for draw in drawn:
        if names and draw.__name__ not in names:
            continue
        screen = opened(draw.__name__)
        try:
            draw(screen)
        finally:
            failed += screen.end()
    return min(failed, 1)


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
