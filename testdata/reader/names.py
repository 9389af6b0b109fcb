"""Names in the job file, in one place.

The programs beside this one speak of a job by the names of version 2 of its
file. RENAMED says what a later version calls a field; spoken() turns a file of
any version into the names used here, written() does the reverse."""

import re

VERSION = 2

# version -> [(path of version 2, last part of the path in that version)]
RENAMED = {
    2: [],
}


def _parts(path):
    return path.split(".")


def _rename(value, rules):
    """Renames keys in value in place; rules: list of (parts of the path, new last part)."""
    if isinstance(value, list):
        for v in value:
            _rename(v, rules)
        return value
    if not isinstance(value, dict):
        return value
    deeper, here = {}, {}
    for parts, new in rules:
        key = parts[0].removesuffix("[]")
        if len(parts) == 1:
            here[key] = new
        else:
            deeper.setdefault(key, []).append((parts[1:], new))
    for key, rest in deeper.items():
        if key in value:
            _rename(value[key], rest)
    for old, new in here.items():
        if old in value:
            value[new] = value.pop(old)
    return value


def written(job, version=VERSION):
    """The job as the file of a version calls things."""
    job["haunchbook"] = version
    return _rename(job, [(_parts(p), new) for p, new in RENAMED[version]])


def spoken(job):
    """A job of any version by the names of version 2."""
    version = job.get("haunchbook", VERSION)
    rules = []
    for path, new in RENAMED.get(version, []):
        parts = _parts(path)
        rules.append((parts[:-1] + [new], re.sub(r"\[\]$", "", parts[-1])))
    return _rename(job, rules)
