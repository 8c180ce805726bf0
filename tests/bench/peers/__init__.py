"""The language server and `check` measured side by side with programs of other
languages, so that a goal is a ratio and not a number of one machine."""
