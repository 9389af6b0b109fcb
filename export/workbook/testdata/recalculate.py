"""recalculate.py PLAN PROFILE: reads a plan (JSON): a list of {"in", "out", "set": {name: value}, "cells": [[sheet, label, column, value]],
"at": {sheet: {address: value}}}.
Writes each workbook with its inputs changed and no stored results, has LibreOffice compute them, and prints all
values: a list of {"names": {...}, "cells": {sheet: {address: value}}}."""
import json, os, subprocess, sys, tempfile

from openpyxl import load_workbook


def names_of(book):
    try:
        return {n: d for n, d in book.defined_names.items()}
    except AttributeError:  # openpyxl before 3.1
        return {d.name: d for d in book.defined_names.definedName}


def target(book, name):
    sheet, address = next(names_of(book)[name].destinations)
    return book[sheet][address.replace("$", "")]


plan = json.load(open(sys.argv[1]))
work = tempfile.mkdtemp()
staged = []
for i, step in enumerate(plan):
    book = load_workbook(step["in"])
    for name, value in (step["set"] or {}).items():
        cell = target(book, name)
        assert not cell.protection.locked, name + " is locked"
        cell.value = value
    for sheet, label, column, value in step["cells"] or []:
        rows = [r[0].row for r in book[sheet].iter_rows(max_col=1) if r[0].value == label]
        cells = [c for c in (book[sheet][column + str(r)] for r in rows) if not c.protection.locked]
        assert len(cells) == 1, (sheet, label, column, rows)
        cells[0].value = value
    for sheet, values in (step.get("at") or {}).items():
        for address, value in values.items():
            assert not book[sheet][address].protection.locked, sheet + " " + address + " is locked"
            book[sheet][address].value = value
    path = os.path.join(work, "book%d.xlsx" % i)
    book.save(path)
    staged.append(path)
out = os.path.join(work, "out")
subprocess.run(["soffice", "-env:UserInstallation=file://" + sys.argv[2], "--headless", "--convert-to", "xlsx:Calc MS Excel 2007 XML",
                "--outdir", out] + staged, check=True, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, timeout=300)
result = []
for i, step in enumerate(plan):
    book = load_workbook(os.path.join(out, "book%d.xlsx" % i), data_only=True)
    cells = {ws.title: {c.coordinate: c.value for row in ws.iter_rows() for c in row if isinstance(c.value, (int, float, str))} for ws in book}
    values = {n: target(book, n).value for n in names_of(book) if not n.startswith("_xlnm") and not n.startswith("Added")}
    result.append({"names": values, "cells": cells})
json.dump(result, sys.stdout)
