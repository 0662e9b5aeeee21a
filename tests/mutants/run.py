#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Puts small faults into the sources, one at a time, and sees whether the tests catch them.

usage: /usr/bin/python3 tests/mutants/run.py [-j WORKERS] [--room ROOM] [--list NAME] [--only WORDS]
                                             [--sample N [--seed S]]

The faults stand in tests/mutants/list/*.txt, in blocks apart by an empty line:

    # one line that says what the fault is
    file: src/...
    old: text of one line or part of it, occurring once in the file
    new: what stands there instead
    suite: names of meson tests that should catch it, apart by spaces
    equivalent: why no test can tell it from the program (only where that is so)

A name that holds a space is written with underscores for them. Each worker has a copy of the tree
and a build folder of its own below build-mutants/; for a fault it builds the named tests alone. A test that
does not pass without any fault catches nothing: it is told, and ends the run.

With --sample a part is drawn by lot, the same for the same seed, and stands for the whole.

Ends with 0 when at least 95 of a hundred faults, the equivalent ones left out, are caught, every
fault could be put in and built, and no equivalent one was caught. Not part of the tests that run
by themselves: it takes long.
"""
import argparse
import filecmp
import json
import os
import queue
import random
import shutil
import subprocess
import sys
import threading
import time

TOP = os.path.dirname(os.path.dirname(os.path.dirname(os.path.abspath(__file__))))
DEMANDED = 0.95
# Many a fault lets a test wait for what never comes. Seconds until it is taken to hang: so many, and
# so many times what it took without the fault.
HANGS_AFTER = 60
HANGS_TIMES = 8
KEYS = ("file", "old", "new", "suite", "equivalent")


class Fault:
    def __init__(self, where, what):
        self.where, self.what = where, what
        self.file = self.old = self.new = self.suite = self.equivalent = None
        self.result = self.by = None

    @property
    def room(self):
        parts = self.file.split("/")
        return parts[1] if parts[0] == "src" else parts[0]

    @property
    def suites(self):
        return [name.replace("_", " ") for name in self.suite.split()]


def complain(words):
    sys.exit("mutants: " + words)


def read_block(name, number, lines):
    fault = Fault("%s:%d" % (name, number), lines[0].lstrip("# "))
    for line in lines[1:]:
        key, colon, value = line.partition(":")
        value = value[1:]
        if not colon or key not in KEYS or getattr(fault, key) is not None:
            complain("%s: “%s” is no line of a fault" % (fault.where, line))
        setattr(fault, key, value)
    for key in ("file", "old", "new", "suite"):
        if getattr(fault, key) is None:
            complain("%s: no line “%s:”" % (fault.where, key))
    return fault


def read_list(path):
    faults, block, begin = [], [], 0
    with open(path, encoding="utf-8") as text:
        lines = text.read().split("\n") + [""]
    for number, line in enumerate(lines, 1):
        if line.strip():
            if not block:
                begin = number
            block.append(line)
            continue
        # A head of the list is a block of remarks alone.
        if block and not all(one.startswith("#") for one in block):
            while block[1].startswith("#"):
                block.pop(0)
                begin += 1
            faults.append(read_block(os.path.basename(path), begin, block))
        block = []
    return faults


def read_lists(only):
    folder = os.path.join(TOP, "tests/mutants/list")
    names = sorted(name for name in os.listdir(folder) if name.endswith(".txt"))
    if only:
        names = [name for name in names if name == only + ".txt"] or complain("no list “%s”" % only)
    return [fault for name in names for fault in read_list(os.path.join(folder, name))]


def whole(fault):
    """The file's text without and with the fault; None when the fault has no place any more."""
    try:
        with open(os.path.join(TOP, fault.file), encoding="utf-8") as file:
            text = file.read()
    except FileNotFoundError:
        return None
    if text.count(fault.old) != 1 or fault.old == fault.new:
        return None
    return text, text.replace(fault.old, fault.new)


class Worker:
    def __init__(self, number):
        self.tree = os.path.join(TOP, "build-mutants", str(number))
        self.build = os.path.join(self.tree, "build")
        self.copy_tree()
        if not os.path.exists(os.path.join(self.build, "build.ninja")):
            self.call(["meson", "setup", "-Dtests=true", self.build, self.tree], 600, True)
        # Whole, for what tests look at and no target of theirs names: catalogues, help, the decoder.
        self.call(["ninja", "-C", self.build, "-j2"], 3600, True)
        self.files = {target["id"]: target["filename"] for target in self.introspect("--targets")}
        # Two rooms may have tests of one name: meson runs both.
        self.needs, self.limits = {}, {}
        for test in self.introspect("--tests"):
            self.needs.setdefault(test["name"], []).extend(test["depends"])
            self.limits[test["name"]] = min(test["timeout"], self.limits.get(test["name"], 1e9))

    def introspect(self, what):
        return json.loads(self.call(["meson", "introspect", what, self.build], 600, True))

    def call(self, command, seconds, needed=False):
        """What the command printed; None when it failed or did not end."""
        environment = dict(os.environ, LC_ALL="C.UTF-8")
        process = subprocess.Popen(command, cwd=self.tree, env=environment, start_new_session=True,
                                   stdin=subprocess.DEVNULL, stdout=subprocess.PIPE,
                                   stderr=subprocess.STDOUT, encoding="utf-8", errors="replace")
        try:
            printed = process.communicate(timeout=seconds)[0]
        except subprocess.TimeoutExpired:
            os.killpg(process.pid, 9)
            printed = process.communicate()[0]
        if process.returncode == 0:
            return printed
        if needed:
            complain("%s failed:\n%s" % (" ".join(command), printed))
        return None

    def copy_tree(self):
        """Files that are the same keep their time, so that nothing is built twice."""
        there = set()
        for folder, folders, files in os.walk(TOP):
            folders[:] = [name for name in folders
                          if name != ".git" and not (folder == TOP and name.startswith("build"))]
            for name in files:
                path = os.path.join(folder, name)
                copy = os.path.join(self.tree, os.path.relpath(path, TOP))
                there.add(copy)
                if not os.path.exists(copy) or not filecmp.cmp(path, copy, shallow=False):
                    os.makedirs(os.path.dirname(copy), exist_ok=True)
                    shutil.copy(path, copy)
        for folder, folders, files in os.walk(self.tree):
            folders[:] = [name for name in folders if os.path.join(folder, name) != self.build]
            for name in files:
                if os.path.join(folder, name) not in there:
                    os.remove(os.path.join(folder, name))

    def write(self, name, text):
        with open(os.path.join(self.tree, name), "w", encoding="utf-8") as file:
            file.write(text)

    def targets(self, suite):
        return [os.path.relpath(path, self.build) for target in self.needs[suite]
                for path in self.files[target]]

    def builds(self, suites):
        targets = sorted({target for suite in suites for target in self.targets(suite)})
        return self.call(["ninja", "-C", self.build, "-j2"] + targets, 1800) is not None

    def passes(self, suite, times=2):
        return self.call(["meson", "test", "-C", self.build, "--no-rebuild",
                          "--timeout-multiplier", "%g" % times, suite], 3600) is not None

    def catcher(self, suites, took):
        """took: seconds of each suite without a fault."""
        for suite in suites:
            hangs = HANGS_AFTER + HANGS_TIMES * took[suite]
            if not self.passes(suite, min(2, hangs / self.limits[suite])):
                return suite
        return None

    def try_fault(self, fault, took):
        texts = whole(fault)
        if not texts:
            fault.result = "has no place"
            return
        self.write(fault.file, texts[1])
        if not self.builds(fault.suites):
            fault.result = "did not build"
        else:
            fault.by = self.catcher(fault.suites, took)
            fault.result = "caught" if fault.by else "survived"
        self.write(fault.file, texts[0])


class Run:
    def __init__(self, faults, n_workers):
        self.faults = faults
        self.n_workers = n_workers
        self.lock = threading.Lock()
        self.done = 0
        self.workers = []
        self.to_check = queue.Queue()
        self.failing = []
        self.took = {}

    def in_parallel(self, work):
        threads = [threading.Thread(target=work, args=(worker,)) for worker in self.workers]
        for thread in threads:
            thread.start()
        for thread in threads:
            thread.join()

    def check_suites(self, worker):
        """Each suite once, as the program is."""
        while True:
            try:
                suite = self.to_check.get_nowait()
            except queue.Empty:
                return
            built = worker.builds([suite])
            begin = time.monotonic()
            if not built or not worker.passes(suite):
                self.failing.append(suite)
            self.took[suite] = time.monotonic() - begin

    def try_faults(self, worker):
        """A worker takes the faults of one file after another: what is built stays near."""
        while True:
            try:
                fault = self.to_try.get_nowait()
            except queue.Empty:
                return
            worker.try_fault(fault, self.took)
            with self.lock:
                self.done += 1
                print("%d/%d %s: %s (%s)%s" % (self.done, len(self.faults), fault.result,
                                               fault.what, fault.where,
                                               ", by " + fault.by if fault.by else ""), flush=True)

    def __call__(self):
        for number in range(self.n_workers):
            self.workers.append(Worker(number + 1))
        for suite in sorted({suite for fault in self.faults for suite in fault.suites}):
            if suite not in self.workers[0].needs:
                complain("there is no test “%s”" % suite)
            self.to_check.put(suite)
        self.in_parallel(self.check_suites)
        if self.failing:
            complain("without any fault do not pass: " + ", ".join(sorted(self.failing)))
        self.to_try = queue.Queue()
        for fault in sorted(self.faults, key=lambda fault: fault.file):
            self.to_try.put(fault)
        self.in_parallel(self.try_faults)


COLUMNS = ("caught", "survived", "equivalent", "did not build", "has no place")


def kind(fault):
    return "equivalent" if fault.equivalent and fault.result == "survived" else fault.result


def print_table(faults):
    rooms = sorted({fault.room for fault in faults}) + ["all"]
    print("\n%-10s" % "room" + "".join("%15s" % column for column in COLUMNS) + "%10s" % "caught")
    for room in rooms:
        kinds = [kind(fault) for fault in faults if room in (fault.room, "all")]
        counts = [kinds.count(column) for column in COLUMNS]
        judged = len(kinds) - counts[2]
        print("%-10s" % room + "".join("%15d" % count for count in counts)
              + "%8.0f %%" % (100 * counts[0] / judged if judged else 100))


def verdict(faults):
    """0 when all is well."""
    for wanted in COLUMNS[1:]:
        for fault in faults:
            if kind(fault) == wanted:
                print("%s: %s, %s: %s%s" % (wanted, fault.where, fault.file, fault.what,
                                            ": " + fault.equivalent if wanted == "equivalent" else ""))
    wrong = [fault for fault in faults if fault.equivalent and fault.result == "caught"]
    for fault in wrong:
        print("called equivalent, but caught: %s: %s" % (fault.where, fault.what))
    judged = [fault for fault in faults if kind(fault) != "equivalent"]
    caught = sum(fault.result == "caught" for fault in judged)
    unfit = sum(fault.result in ("did not build", "has no place") for fault in faults)
    print("%d of %d faults caught" % (caught, len(judged)))
    return int(caught < DEMANDED * len(judged) or unfit > 0 or bool(wrong))


def draw(faults, number, seed):
    """So many of them by lot, each list giving by its share; in the order of the lists."""
    lot = random.Random(seed)
    step, at = len(faults) / max(number, 1), lot.random()
    if number >= len(faults):
        return faults
    by_list = sorted(faults, key=lambda fault: (fault.where.split(":")[0], lot.random()))
    drawn = {id(by_list[int((at + i) * step)]) for i in range(number)}
    return [fault for fault in faults if id(fault) in drawn]


def main():
    parser = argparse.ArgumentParser(description=__doc__.split("\n")[0])
    parser.add_argument("-j", type=int, default=os.cpu_count(), metavar="WORKERS")
    parser.add_argument("--room", help="the faults of this room alone")
    parser.add_argument("--list", help="the faults of this list alone")
    parser.add_argument("--only", help="the faults whose words hold these")
    parser.add_argument("--sample", type=int, metavar="N",
                        help="so many of them, drawn by lot from every list alike")
    parser.add_argument("--seed", type=int, default=1, help="of the lot")
    parser.add_argument("--check", action="store_true",
                        help="only see whether every fault has its place")
    given = parser.parse_args()
    faults = [fault for fault in read_lists(given.list)
              if given.room in (None, fault.room) and (given.only or "") in fault.what]
    if given.sample is not None:
        faults = draw(faults, given.sample, given.seed)
    if not faults:
        complain("no fault to try")
    if given.check:
        homeless = [fault for fault in faults if not whole(fault)]
        for fault in homeless:
            print("has no place: %s, %s: %s" % (fault.where, fault.file, fault.what))
        print("%d faults, %d without a place" % (len(faults), len(homeless)))
        return int(bool(homeless))
    begin = time.monotonic()
    Run(faults, max(1, min(given.j, len(faults))))()
    print_table(faults)
    code = verdict(faults)
    print("%.0f minutes" % ((time.monotonic() - begin) / 60))
    return code


if __name__ == "__main__":
    sys.exit(main())
