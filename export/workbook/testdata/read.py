"""Reads a workbook with openpyxl and prints (JSON) how each sheet is set up, and every cell as [kind, value]."""
import json, sys

from openpyxl import load_workbook

book = load_workbook(sys.argv[1])
sheets = {}
for ws in book:
    sheets[ws.title] = {
        "frozen": ws.freeze_panes,
        "area": str(ws.print_area),
        "titles": ws.print_title_rows,
        "orientation": ws.page_setup.orientation,
        "paper": int(ws.page_setup.paperSize),
        "fitWidth": ws.page_setup.fitToWidth,
        "fit": ws.sheet_properties.pageSetUpPr.fitToPage,
        "protected": ws.protection.sheet,
        "password": ws.protection.password,
        "charts": len(ws._charts),
        "last": ws.max_row,
        "open": sum(1 for row in ws.iter_rows() for c in row if not c.protection.locked),
        "cells": {c.coordinate: [c.data_type, str(c.value)] for row in ws.iter_rows() for c in row if c.value is not None},
    }
json.dump(sheets, sys.stdout)
