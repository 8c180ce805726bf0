"""Reads texts with the tree-sitter grammar and writes what it made of them.

    python tests/editors/trees.py PARSER FOLDER

Beside each file of the folder an outline is written, its lines and their
items, as tests/all/trees.rs makes one of what the program reads. Each tree is
also changed bit by bit with its text, and must end as a fresh one."""

import ctypes
import pathlib
import random
import sys

import tree_sitter

VALUES = {"word", "reference", "text", "date", "ratio", "number", "money", "rate", "group", "call"}


def language(path):
    library = ctypes.CDLL(path)
    library.tree_sitter_patio.restype = ctypes.c_void_p
    new = ctypes.pythonapi.PyCapsule_New
    new.restype, new.argtypes = ctypes.py_object, (ctypes.c_void_p, ctypes.c_char_p, ctypes.c_void_p)
    return tree_sitter.Language(new(library.tree_sitter_patio(), b"tree_sitter.Language", None))


def shown(node):
    return node.text.decode("utf-8", "replace")


def items(phrase):
    before = None
    for node in phrase.named_children:
        kind = node.type
        if kind == "comment":
            continue
        if kind == "group":
            yield "(", ""
            yield from phrases(node, "member")
            yield ")", ""
        elif kind == "call":
            yield "call", shown(node.named_children[0])
            yield from phrases(node, "member")
            yield ")", ""
        elif kind == "rate" and before not in VALUES:
            # After nothing that has a rate it is a division by a word.
            per, unit = node.named_children
            yield "operator", shown(per)
            yield "word", shown(unit)
        elif kind in ("by", "minus"):
            yield kind, ""
        else:
            yield kind, shown(node)
        before = kind


def phrases(node, kind):
    """The items of each phrase, with a comma after each but the last."""
    for child in node.children:
        if child.type == ",":
            yield ",", ""
        elif child.type == kind:
            yield from items(child)
        elif child.type == "ERROR" or child.is_missing:
            yield "ERROR", shown(child)


def outline(tree):
    lines = []

    def line(node):
        if node.type == "unread":
            lines.append("unread")
        elif node.type in ("heading", "entry"):
            word = node.child_by_field_name("kind") or node.child_by_field_name("key")
            lines.append(f"{node.type} {shown(word)}")
            lines.extend(f"  {kind} {text}".rstrip() for kind, text in phrases(node, "phrase"))
        elif node.type == "section":
            for child in node.children:
                line(child)
        elif node.type != "comment":
            lines.append(f"ERROR {shown(node)}")

    for child in tree.root_node.children:
        line(child)
    if tree.root_node.has_error:
        lines.append("ERROR")
    return "".join(f"{line}\n" for line in lines)


def point(text, at):
    before = text[:at]
    return before.count(b"\n"), at - (before.rfind(b"\n") + 1)


def changed(parser, tree, text, chance):
    """A tree and its text after one change."""
    start = chance.randrange(len(text) + 1)
    end = min(len(text), start + chance.choice([0, 0, 1, 1, 4, 30]))
    new = chance.choice([b"", b" ", b",", b"(", b")", b'"', b"#", b"\n", b"\n  ", b"12 in", b"x", b"-"])
    after = text[:start] + new + text[end:]
    tree.edit(start, end, start + len(new), point(text, start), point(text, end), point(after, start + len(new)))
    return parser.parse(after, tree), after


def main(library, folder):
    parser = tree_sitter.Parser(language(library))
    wrong = 0
    for path in sorted(pathlib.Path(folder).glob("*.patio")):
        text = path.read_bytes()
        tree = parser.parse(text)
        path.with_suffix(".outline").write_text(outline(tree), newline="\n")
        chance = random.Random(path.name)
        for _ in range(20):
            tree, text = changed(parser, tree, text, chance)
            if str(tree.root_node) != str(parser.parse(text).root_node):
                wrong += 1
                print(f"{path.name}: the tree after a change is not that of the text:\n{text.decode('utf-8', 'replace')}")
                break
    return min(wrong, 1)


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:]))
