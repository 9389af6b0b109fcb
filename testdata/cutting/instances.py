#!/usr/bin/env python3
"""Makes glpk.txt: cutting stock instances with the least length of stock to buy.

Instances are drawn with a fixed seed. Each is solved to optimality by GLPK's
glpsol over all its patterns, written out; those it cannot solve in some seconds
are passed over. Run it again to check the file: ./instances.py > glpk.txt
"""
import random
import subprocess
import sys
import tempfile


MOST = 2000  # patterns of an instance


def patterns(cap, items):
    """All ways to fill cap with items that leave no room for another."""
    found = []

    def go(i, room, counts):
        if len(found) > MOST:
            return
        if i == len(items):
            if all(n == count or length > room for n, (length, count) in zip(counts, items)):
                found.append(tuple(counts))
            return
        length, count = items[i]
        for n in range(min(count, room // length), -1, -1):
            go(i + 1, room - n * length, counts + [n])

    go(0, cap, [])
    return found


def model(stock, hand, items):
    """CPLEX LP text of: least cost of bars so that all items are cut, every
    pattern of every bar written out.

    stock: lengths on sale; hand: lengths at hand, one bar each, free;
    items: (length, count), longest first.
    """
    bars = [(s, s, None) for s in stock] + [(h, 0, k) for k, h in enumerate(hand)]
    if any(2 ** len(items) * (s // items[-1][0]) > 20 * MOST for s, _, _ in bars):
        return None
    cols = [(cost, k, p) for s, cost, k in bars for p in patterns(s, items) if any(p)]
    if len(cols) > MOST:
        return None
    lines = ["Minimize", " cost: " + " + ".join(f"{c} x{v}" for v, (c, _, _) in enumerate(cols)), "Subject To"]
    for i, (length, count) in enumerate(items):
        lines.append(f" cut_{length}: " + " + ".join(f"{p[i]} x{v}" for v, (_, _, p) in enumerate(cols) if p[i]) + f" >= {count}")
    for k in range(len(hand)):
        used = [f"x{v}" for v, (_, h, _) in enumerate(cols) if h == k]
        if used:
            lines.append(f" hand_{k}: " + " + ".join(used) + " <= 1")
    lines.append("General")
    lines += [f" x{v}" for v in range(len(cols))]
    lines.append("End")
    return "\n".join(lines) + "\n"


def optimum(stock, hand, items):
    text = model(stock, hand, items)
    if text is None:
        return None
    with tempfile.NamedTemporaryFile("w", suffix=".lp") as file, tempfile.NamedTemporaryFile("r") as report:
        file.write(text)
        file.flush()
        done = subprocess.run(["glpsol", "--lp", file.name, "--cuts", "--tmlim", "8", "-o", report.name],
                              capture_output=True, text=True, check=True)
        with open(report.name) as written:
            text = written.read()
        if "INTEGER OPTIMAL" not in text:
            return None
        for line in text.splitlines():
            if line.startswith("Objective:"):
                return round(float(line.split("=")[1].split()[0]))
    sys.exit(done.stdout)


def main():
    rng = random.Random(345)
    print("# Cutting stock instances solved to optimality by glpsol (GLPK) over all patterns; made by instances.py.")
    print("# stock on sale | bars at hand | length x count ... | least length to buy")
    made = 0
    while made < 40:
        stock = rng.choice([[240], [240], [120, 240], [120, 144, 192], [160, 240, 480], [100], [150]])
        hand = sorted(rng.randint(24, 130) for _ in range(rng.choice([0, 0, 1, 3])))
        kinds = rng.randint(2, 12)
        low, high = rng.choice([(10, 100), (30, 70), (20, max(stock)), (35, 50)])
        high = min(high, max(stock))
        lengths = sorted({rng.randint(low, high) for _ in range(kinds)}, reverse=True)
        items = [(length, rng.randint(1, rng.choice([2, 6, 15]))) for length in lengths]
        best = optimum(stock, hand, items)
        if best is None:
            continue
        made += 1
        print("|".join([" ".join(map(str, stock)), " ".join(map(str, hand)),
                        " ".join(f"{l}x{c}" for l, c in items), str(best)]), flush=True)


main()
