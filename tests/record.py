#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Reads what Meson notes of a test run, one JSON object a line (meson-logs/NAME.json).

record.py count RECORD [ALONE]   "N M": checks passed and failed; of a program that ALONE has too, that counts
record.py tell RECORD            the last lines of every program that failed: the whole is far up in the log
record.py windows RECORD         the programs that failed, if all of them have a window and they are three at most
"""
import json
import re
import sys

LINES = 40
FEW = 3


def read(path):
    with open(path) as record:
        return {test["name"]: test for test in map(json.loads, record)}


def has_failed(test):
    return test["result"] not in ("OK", "SKIP")


def told(test):
    return test.get("stdout", "") + test.get("stderr", "")


def count(tests):
    passed = failed = 0
    for test in tests.values():
        bad = len(re.findall(r"^not ok \d", test.get("stdout", ""), re.M))
        passed += len(re.findall(r"^ok \d", test.get("stdout", ""), re.M))
        # A program that died counts as a failure though it printed no line of its own.
        failed += max(bad, 1) if has_failed(test) else 0
    print(passed, failed)


def tell(tests):
    for name, test in tests.items():
        if has_failed(test):
            lines = [line for line in told(test).splitlines() if not line.startswith("ok ")]
            print("\n%s: %s, exit %s" % (name, test["result"], test["returncode"]))
            print("\n".join("    " + line for line in lines[-LINES:]))


def windows(tests):
    names = [name.split(" / ")[-1] for name, test in tests.items() if has_failed(test)]
    if len(names) <= FEW and all(name.startswith("window-") for name in names):
        print(" ".join(names))


if __name__ == "__main__":
    verb, *paths = sys.argv[1:]
    tests = {}
    for path in paths:
        tests.update(read(path))
    {"count": count, "tell": tell, "windows": windows}[verb](tests)
