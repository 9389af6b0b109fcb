"""Checks what is placed on the slabs of jobs, by the rules alone.

    check.py --program HAUNCHSHEET [--count N] [--seed N] [--known FILE [--update]] …

Reads the job file and takeoff.json, in which every bar, bolt, plate, dowel, form,
stake and saw cut stands with its place, and nothing else of the program. A broken
rule is a fault where no finding tells of it near its place. The source of each rule
stands beside it."""

import os
import sys

sys.path.insert(0, os.path.join(os.path.dirname(os.path.abspath(__file__)), "..", "reader"))

import curbs  # noqa: E402
import ground  # noqa: E402
import harness  # noqa: E402
import placed  # noqa: E402
import saw  # noqa: E402
import steel  # noqa: E402
import wood  # noqa: E402


def read(folder):
    """The faults of what is placed on a job: (kind, text) each."""
    job = placed.Job(folder)
    found = []
    for rule in steel.STEEL + wood.WOOD + saw.SAW + ground.GROUND + curbs.CURBS:
        try:
            found += list(dict.fromkeys(rule(job)))
        except Exception:
            found.append(("broken." + rule.__name__, harness.broken()))
    return found


if __name__ == "__main__":
    sys.exit(harness.main(__doc__, read, files="takeoff.json"))
