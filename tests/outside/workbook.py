#!/usr/bin/env python3
"""Works the workbooks of a folder out anew and compares them with what the
program says: each formula with the result stored beside it, and each total
with that of the take-off in JSON. openpyxl reads, formulas calculates.

    workbook.py FOLDER
"""

import json
import re
import sys
import tempfile
from pathlib import Path

import formulas
import openpyxl

UNKNOWN = "–"
SHEETS = ["Orders", "Quantities", "Mixes", "Cost"]
# Sheets of what not every job has.
MORE = ["Steps", "Drains", "As built", "Schedule"]


def calculated(path):
    """Every cell of a workbook that comes to something, by sheet and place."""
    model = formulas.ExcelModel().loads(str(path)).finish()
    solution = model.calculate()
    found = {}
    for key, ranges in solution.items():
        match = re.fullmatch(r"'\[.*\](.*)'!([A-Z]+\d+)", str(key))
        if match and hasattr(ranges, "value"):
            found[match[1].lower(), match[2]] = ranges.value[0, 0]
    return found


def same(one, other):
    if isinstance(one, (int, float)) and isinstance(other, (int, float)):
        return abs(one - other) < 0.005
    return str(one) == str(other)


def place_of(book, name):
    """The sheet and the cell that a name stands for."""
    sheet, cell = book.defined_names[name].attr_text.replace("$", "").split("!")
    return sheet.strip("'"), cell


def check(path):
    book, stored = openpyxl.load_workbook(path), openpyxl.load_workbook(path, data_only=True)
    assert [name for name in book.sheetnames if name not in MORE] == SHEETS, book.sheetnames
    anew = calculated(path)
    count = 0
    for sheet in book:
        assert sheet.freeze_panes, f"{sheet.title} has no frozen head"
        assert sheet.print_area, f"{sheet.title} has no print area"
        heads_have_room(sheet)
        for cell in (cell for row in sheet.iter_rows() for cell in row):
            if cell.data_type != "f":
                continue
            count += 1
            assert re.fullmatch(r"=[A-Za-z0-9_().,*/+\-:=\"–]*", cell.value), cell.value
            kept = stored[sheet.title][cell.coordinate].value
            found = anew[sheet.title.lower(), cell.coordinate]
            assert same(kept, found), f"{sheet.title} {cell.coordinate} {cell.value}: {kept} is {found}"
    said = json.loads(path.with_suffix(".json").read_text())
    if said["orders"]:
        assert count > len(said["orders"]), f"only {count} formulas"
        total = anew[tuple(part for part in lowered(place_of(book, "orders_total")))]
        if said["total"] is None:
            # Nothing that is ordered has a price, or one cannot be made out.
            assert total in ("–", 0), f"orders come to {total}, and are not known"
        else:
            assert same(total, float(said["total"])), f"orders come to {total}, not {said['total']}"
    costs = said.get("costs") or []
    amounts = [stored["Cost"].cell(row=row, column=2).value for row in range(6, stored["Cost"].max_row + 1)]
    for line in costs:
        wanted = UNKNOWN if line["amount"] is None else float(line["amount"])
        assert any(same(amount, wanted) for amount in amounts), line
    # What is written there as a number is what the spec states as one.
    items = {line["name"] for line in costs if line["heading"] == "item"}
    quotes = said.get("quotes") or []
    by = {"quote by " + quote["by"] if quote["by"] else "quote" for quote in quotes}
    for quote in quotes:
        for figure in ("asked", "saved"):
            wanted = UNKNOWN if quote[figure] is None else float(quote[figure])
            assert any(same(amount, wanted) for amount in amounts), (figure, quote)
    for row in book["Cost"].iter_rows(min_row=6):
        if isinstance(row[1].value, (int, float)):
            assert row[0].value in items | by, f"{row[0].value}: {row[1].value} is no formula"
    points = [point for own in said.get("measured") or [] for point in own["points"]]
    assert ("As built" in book.sheetnames) == bool(said.get("measured")), book.sheetnames
    if points:
        rows = book["As built"].iter_rows(min_row=6, values_only=True)
        told = [row for row in rows if row[2] is not None]
        assert len(told) == len(points), told
    names = [drain["name"] for drain in said.get("drains") or []]
    assert ("Drains" in book.sheetnames) == bool(names), book.sheetnames
    if names:
        rows = book["Drains"].iter_rows(min_row=6, values_only=True)
        told = list(dict.fromkeys(row[0] for row in rows if row[0]))
        assert told == names, told
    if costs:
        total = anew[lowered(place_of(book, "amount_total"))]
        wanted = UNKNOWN if costs[-1]["amount"] is None else float(costs[-1]["amount"])
        assert same(total, wanted), f"the cost comes to {total}, not {wanted}"
    dearer(path, book, anew)


def heads_have_room(sheet):
    """Headings are broken where their columns end, and none reaches into the
    rows under it: a letter is as wide as one of a column's, a line 15 points."""
    high = sheet.row_dimensions[5].height or 15
    # Columns that are alike are kept as one.
    ranges = [(own.min, own.max, own.width) for own in sheet.column_dimensions.values()]
    for cell in sheet[5]:
        wide = next(width for first, last, width in ranges if first <= cell.column <= last)
        least = -(-len(cell.value or "") // wide)
        assert high >= 15 * least, f"{sheet.title}: {cell.value} has {high} points"
        if cell.alignment.horizontal != "right" and cell.column > 1:
            assert cell.alignment.indent, f"{sheet.title}: {cell.value} touches what stands before it"


def lowered(place):
    return place[0].lower(), place[1]


def dearer(path, book, before):
    """A price that is changed in the sheet changes the total."""
    prices = [name for name in book.defined_names if name.startswith("price_")]
    for name in prices:
        sheet, cell = place_of(book, name)
        ordered = before.get(lowered(place_of(book, name.replace("price_", "ordered_", 1))))
        price = book[sheet][cell].value
        if not isinstance(price, (int, float)) or not isinstance(ordered, (int, float)) or ordered == 0:
            continue
        book[sheet][cell].value = price + 10
        with tempfile.TemporaryDirectory() as folder:
            changed = Path(folder) / path.name
            book.save(changed)
            after = calculated(changed)
        total = lowered(place_of(book, "orders_total"))
        grown = after[total] - before[total]
        assert abs(grown - 10 * ordered) < 0.02, f"{name}: the total grew by {grown}"
        return


if __name__ == "__main__":
    for path in sorted(Path(sys.argv[1]).glob("*.xlsx")):
        check(path)
        print(f"ok {path.name}")
