"""Reads the documents of jobs and says where they disagree.

    read.py --program HAUNCHSHEET [--count N] [--seed N] [--known FILE [--update]] …

Writes jobs with generate.py (or takes those of --jobs), lets the program write the
documents of each, and reads them: text of the PDFs, cells of the workbook, the
DXF, the SVG and the JSON. What two of them show must be equal in both, what is
drawn must be what is listed, what the job file says must stand on paper, and
money must add up.

With --known it ends with 1 where a kind of fault is found that FILE does not
list, or more of it than it lists, or none of a kind that it does list."""

import sys

import checks
import documents
import harness


def read(folder):
    """The faults of the documents in a folder: (kind, text) each."""
    d = documents.Documents(folder)
    facts = documents.facts(d)
    found = []
    for c in checks.CHECKS:
        try:
            found += list(dict.fromkeys(c(d, facts)))
        except Exception:
            found.append(("broken." + c.__name__, harness.broken()))
    return found


if __name__ == "__main__":
    sys.exit(harness.main(__doc__, read, refusals=True))
