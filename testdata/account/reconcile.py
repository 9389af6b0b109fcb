#!/usr/bin/env python3
"""Reconciles the money of a job to the cent, from its job file and from the rule alone:

  contract + accepted changes                 = what may be billed
  an invoice asks for amount - kept back      ; open is asked - paid, of each and in sum
  a change counts on an invoice if it was accepted by the day of the invoice

It shares nothing with the program. It reads account.csv and the text of invoices.pdf that
haunchsheet wrote, and says where an amount is another, is missing, or is not listed.

    reconcile.py JOB.json FOLDER
"""
import csv
import json
import re
import subprocess
import sys


def cents(text):
    """Whole cents of an amount as it is written: "-$1,234.50", "12.5"."""
    text = text.replace(",", "").replace("$", "").strip()
    sign = -1 if text.startswith("-") else 1
    whole, _, part = text.lstrip("-").partition(".")
    assert len(part) <= 2, f"{text} is finer than a cent"
    return sign * (int(whole or 0) * 100 + int((part + "00")[:2]))


def money(c):
    return ("-" if c < 0 else "") + f"${abs(c) // 100:,}.{abs(c) % 100:02}"


def main(job, folder):
    faults = []

    def same(what, found, want):
        if found != want:
            faults.append(f"{what}: found {found}, by the rule {want}")

    account = json.load(open(job))["account"]
    contract = cents(str(account.get("contract", {}).get("amount", "0")))
    changes = account.get("changes", [])
    invoices = account.get("invoices", [])
    payments = account.get("payments", [])

    def paid(number):
        return sum(cents(str(p["amount"])) for p in payments if p["invoice"] == number)

    rows = list(csv.DictReader(open(f"{folder}/account.csv", newline="")))
    of = lambda record: [r for r in rows if r["record"] == record]
    same("rows of the CSV", sorted(r["record"] for r in rows),
         sorted(["contract", "total"] + ["change"] * len(changes) + ["invoice"] * len(invoices) + ["payment"] * len(payments)))
    same("contract", cents(of("contract")[0]["amount"]), contract)
    for r, c in zip(of("change"), changes):
        same(f"change {c['number']}", (cents(r["amount"]), r["kind"]), (cents(str(c.get("amount", 0))), c.get("state", "open")))
    total = [0, 0, 0, 0, 0]
    text = subprocess.run(["pdftotext", "-layout", f"{folder}/invoices.pdf", "-"], check=True, capture_output=True, text=True).stdout
    pages = text.split("\f")[:-1]
    same("pages of invoices", len(pages), len(invoices))
    for r, i, page in zip(of("invoice"), invoices, pages):
        amount, held = cents(str(i.get("amount", 0))), cents(str(i.get("held", 0)))
        got = paid(i["number"])
        want = [amount, held, amount - held, got, amount - held - got]
        same(f"invoice {i['number']} in the CSV", [cents(r[k]) for k in ("amount", "retainage", "asked", "paid", "open")], want)
        counted = [c for c in changes if c.get("state") == "accepted" and not (c.get("decided", "") and i.get("date", "") and c["decided"] > i["date"])]
        allowed = contract + sum(cents(str(c.get("amount", 0))) for c in counted)
        lines = {}
        for line in page.splitlines():
            m = re.match(r"\s*(\S.*?)\s{2,}(-?\$[\d,]+\.\d\d)\s*$", line)
            if m:
                lines[m[1]] = cents(m[2])

        def stands(start, want):
            found = [v for k, v in lines.items() if k.startswith(start)]
            same(f"invoice {i['number']}, {start!r}", found, [want])

        if f"Invoice {i['number']}" not in page:
            faults.append(f"invoice {i['number']} does not say its number")
        before = total[0]
        same(f"invoice {i['number']}, changes on it", len([k for k in lines if k.startswith("Change order")]), len(counted))
        for c in counted:
            stands(f"Change order {c['number']}", cents(str(c.get("amount", 0))))
        stands("Contract with accepted changes", allowed)
        stands("Billed before", before)
        stands("This invoice", amount)
        stands("Billed so far", before + amount)
        stands("Left to bill", allowed - before - amount)
        stands("To be paid", want[2])
        if held > 0:
            stands("Kept back of this invoice", -held)
        if held < 0:
            stands("Retainage kept back before", -held)
        if got:
            stands("Still open", want[4])
        total = [a + b for a, b in zip(total, want)]
    for page in pages:
        row = re.search(r"Together\s+(.*)", page)
        same("sums of the account", [cents(a) for a in row[1].split()] if row else None, total)
    same("total of the CSV", [cents(of("total")[0][k]) for k in ("amount", "retainage", "asked", "paid", "open")], total)
    same("paid", sum(cents(str(p["amount"])) for p in payments), total[3])
    for f in faults:
        print(f)
    print(f"{len(invoices)} invoices, {len(changes)} changes, {len(payments)} payments: {len(faults)} faults")
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:]))
