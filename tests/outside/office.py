#!/usr/bin/env python3
"""Has LibreOffice work out the workbooks of a folder anew, without the results
that they bring, and compares each formula with the result that the program
stores beside it.

    office.py FOLDER SOFFICE
"""

import subprocess
import sys
import tempfile
from pathlib import Path

import openpyxl

from workbook import same


def without_results(path, folder):
    """The same workbook with formulas alone: openpyxl keeps no results."""
    openpyxl.load_workbook(path).save(folder / path.name)


def worked_out(paths, soffice):
    """The workbooks as LibreOffice saves them."""
    with tempfile.TemporaryDirectory() as folder:
        bare, done, profile = (Path(folder) / name for name in ("bare", "done", "profile"))
        bare.mkdir()
        for path in paths:
            without_results(path, bare)
        command = [soffice, f"-env:UserInstallation=file://{profile}", "--headless"]
        command += ["--convert-to", "xlsx", "--outdir", done]
        command += [bare / path.name for path in paths]
        subprocess.run(command, check=True, capture_output=True, timeout=300)
        return {path: openpyxl.load_workbook(done / path.name, data_only=True) for path in paths}


def check(path, anew):
    book = openpyxl.load_workbook(path)
    stored = openpyxl.load_workbook(path, data_only=True)
    count = 0
    for sheet in book:
        for cell in (cell for row in sheet.iter_rows() for cell in row):
            if cell.data_type != "f":
                continue
            count += 1
            kept = stored[sheet.title][cell.coordinate].value
            found = anew[sheet.title][cell.coordinate].value
            assert same(kept, found), f"{path.name} {sheet.title} {cell.coordinate} {cell.value}: {kept} is {found}"
    return count


if __name__ == "__main__":
    books = sorted(Path(sys.argv[1]).glob("*.xlsx"))
    for path, anew in worked_out(books, sys.argv[2]).items():
        print(f"ok {path.name}, {check(path, anew)} formulas")
