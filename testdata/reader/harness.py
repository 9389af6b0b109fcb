"""Runs checks over many jobs, counts the faults by kind and compares them with
the known ones. Shared by the reader of documents and the checker of the layout."""

import argparse
import collections
import json
import multiprocessing
import os
import re
import shutil
import subprocess
import sys
import tempfile
import traceback

import generate
import names

PAPERS = ["", "letter", "tabloid", "legal", "archa", "archb", "archc", "archd", "a4", "a3", "a2", "a1"]
FROSTS = ["", '12"', '24"', '36"']


def options(name):
    """Paper and frost depth of a generated job, by its number: each in turn."""
    if not name[:1].isdigit():
        return {"paper": "", "frost": '12"'}
    i = int(name.split("-")[0])
    return {"paper": PAPERS[i % len(PAPERS)], "frost": FROSTS[(i // 5) % len(FROSTS)]}


def one(task):
    """The faults of one job: those that `read` finds in the folder of its documents."""
    read, program, files, name, job, opts, folder, keep = task
    os.makedirs(folder, exist_ok=True)
    try:
        with open(os.path.join(folder, "job.json"), "w", encoding="utf-8") as f:
            json.dump({k: v for k, v in job.items() if not k.startswith("_")}, f, indent=1, ensure_ascii=False)
        with open(os.path.join(folder, "options.json"), "w", encoding="utf-8") as f:
            json.dump(dict(opts, told=job.get("_told")), f)
        args = [program, "-date", "2027-03-01", "-out", folder]
        if files:
            args += ["-only", files]
        for k in ("paper", "frost"):
            if opts.get(k):
                args += ["-" + k, opts[k]]
        r = subprocess.run(args + [os.path.join(folder, "job.json")], capture_output=True, text=True, timeout=300)
        if name.startswith("refused-"):
            return name, refusal(job, r)
        if r.returncode != 0:
            return name, [("refused", r.stderr.strip().split("\n")[0][:300])]
        with open(os.path.join(folder, "out.txt"), "w", encoding="utf-8") as f:
            f.write(r.stdout)
        return name, read(folder)
    except subprocess.TimeoutExpired:
        return name, [("hangs", "no end within 300 s")]
    except Exception:
        return name, [("broken.reading", broken())]
    finally:
        if not keep:
            shutil.rmtree(folder, ignore_errors=True)


def broken():
    """The fault of the program that reads, in a line."""
    return traceback.format_exc(limit=-2).strip().replace("\n", " / ")


def refusal(job, r):
    """A job that is refused is told so, and what was found as exactly as it was written."""
    if r.returncode == 0:
        return [("refused.not", "the job is not refused")]
    return [("fault.digits", "found %r is not told so: %s" % (v, r.stderr.strip().split("\n")[0]))
            for v in job.get("_found", []) if v not in r.stderr]


def jobs_of(args, refusals):
    """The jobs to go through, each with its name and options."""
    jobs = []
    if args.jobs:
        for n in sorted(os.listdir(args.jobs)):
            if n.endswith(".json"):
                with open(os.path.join(args.jobs, n), encoding="utf-8") as f:
                    jobs.append((n[:-5], json.load(f)))
    else:
        # A third of the files are of the version before.
        jobs = [(n, names.written(j, args.version or (2 if n[3:4] in "258" else 3))) for n, j in generate.everything_of(args.count, args.seed)]
    jobs = [(n, j, options(n)) for n, j in jobs]
    return [x for x in jobs if (refusals or not x[0].startswith("refused-")) and (not args.only or re.search(args.only, x[0]))]


def known(file):
    """The known faults of a file: kind -> count."""
    out = {}
    if os.path.exists(file):
        with open(file, encoding="utf-8") as f:
            for line in f:
                line = line.split("#")[0].strip()
                if line:
                    kind, count = line.split()
                    out[kind] = int(count)
    return out


def main(doc, read, refusals=False, files=""):
    """The command line of a program that reads `files`, or all documents: its exit code."""
    p = argparse.ArgumentParser(description=doc, formatter_class=argparse.RawDescriptionHelpFormatter)
    p.add_argument("--program", required=True, help="the built haunchsheet")
    p.add_argument("--jobs", help="folder of job files to take instead of generated ones")
    p.add_argument("--count", type=int, default=34, help="how many jobs to generate beside those made by hand")
    p.add_argument("--seed", type=int, default=1)
    p.add_argument("--version", type=int, help="of the job files")
    p.add_argument("--only", help="pattern of the names of the jobs to take")
    p.add_argument("--known", help="file of known faults")
    p.add_argument("--update", action="store_true", help="write what is found to the file of known faults")
    p.add_argument("--show", type=int, default=3, help="examples of each kind")
    p.add_argument("--keep", help="folder to keep the documents in")
    p.add_argument("--workers", type=int, default=os.cpu_count())
    args = p.parse_args()
    work = args.keep or tempfile.mkdtemp(prefix="documents-")
    tasks = [(read, os.path.abspath(args.program), files, n, j, o, os.path.join(work, n), bool(args.keep)) for n, j, o in jobs_of(args, refusals)]
    try:
        with multiprocessing.Pool(args.workers) as pool:
            results = pool.map(one, tasks, chunksize=1)
    finally:
        if not args.keep:
            shutil.rmtree(work, ignore_errors=True)
    kinds, found = collections.Counter(), collections.defaultdict(list)
    for name, faults in results:
        for kind, text in faults:
            kinds[kind] += 1
            found[kind].append((name, text))
    print("%d jobs read, %d of them without a fault" % (len(results), sum(1 for _, f in results if not f)))
    for kind in sorted(kinds):
        print("\n%-26s %5d in %d jobs" % (kind, kinds[kind], len({n for n, _ in found[kind]})))
        shown = []
        for name, text in found[kind]:
            if len(shown) < args.show and name not in shown:
                shown.append(name)
                print("    %s: %s" % (name, text))
    return compare(args, kinds, len(results)) if args.known else 0


def larger(file):
    """The list of the large run beside that of a sample, "" where the file is that of
    the large run."""
    stem, ending = os.path.splitext(file)
    beside = stem + "-large" + ending
    return beside if os.path.exists(beside) else ""


def compare(args, kinds, jobs):
    """Found against known: 1 where a kind is new, more often or gone.

    Which kinds a sample meets is chance. It may meet none of a kind that the large run
    knows, or the first of it: whether a kind is gone is for the large run to say. The
    list of a sample has such a kind with the count 0."""
    large = known(larger(args.known))
    if args.update:
        with open(args.known, "w", encoding="utf-8") as f:
            f.write("# Faults that are known: kind and count. A line goes when its fault is mended.\n")
            for kind in sorted(set(kinds) | set(large)):
                f.write("%s %d%s\n" % (kind, kinds[kind], "" if kinds[kind] else "  # only in the large run"))
        return 0
    old, bad = known(args.known), []
    for kind in sorted(set(kinds) | set(old)):
        most = old.get(kind) or large.get(kind)
        if most is None:
            bad.append("new: %s, %d times" % (kind, kinds[kind]))
        elif kinds[kind] == 0 and kind not in large:
            bad.append("mended: %s is found no more; take it off %s" % (kind, args.known))
        elif kinds[kind] > most:
            bad.append("more: %s, %d times, %d known" % (kind, kinds[kind], most))
    print("\n" + "\n".join(bad))
    print("%d passed, %d failed" % (jobs if not bad else 0, len(bad)))
    return 1 if bad else 0
