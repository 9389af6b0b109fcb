"""Names in the job file, in one place.

The programs beside this one speak of a job by the names of the newest version of
its file. RENAMED says what an older one calls a field: written() turns a job into
the file of a version, spoken() a file of any version into the names used here."""

VERSION = 3

# version -> [(path of the newest version, the last part of it in that version)]
RENAMED = {
    2: [("slabs[].pads[].center", "centre"), ("spec.place.sawcuts", "joints"), ("price.mobilization", "mobilisation")],
    3: [],
}

# What others supply, in version 2 a key of a line of the takeoff.
OLD_KEYS = {"sill plate": "plates.stock.*", "gravel weight": "base.gravel.tons", "anchor bolt": "bolts.count"}


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
    if version == 2 and "others" in job.get("price", {}):
        job["price"]["others"] = [OLD_KEYS[o["kind"]] for o in job["price"]["others"]]
    return _rename(job, [(p.split("."), new) for p, new in RENAMED[version]])


def spoken(job):
    """A job of any version by the names used here."""
    rules = []
    for path, old in RENAMED[job.get("haunchbook", VERSION)]:
        parts = path.split(".")
        rules.append((parts[:-1] + [old], parts[-1]))
    return _rename(job, rules)
