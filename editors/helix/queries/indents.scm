(section) @indent
