# SPDX-License-Identifier: GPL-3.0-or-later
"""Colours gathered round a few, against scikit-learn's k-means of ten beginnings: what is left is at
most five in a hundred more. The first argument is the program that gathers (gather-colours.c)."""
import os
import subprocess
import sys

os.environ["OMP_NUM_THREADS"] = "1"  # read when what follows is imported

import numpy
from sklearn.cluster import KMeans

MOST = 1.05
ROUNDS = 12


def cloud(random):
    """Some groups of colours, of other sizes and spreads each, on a little of everything."""
    groups = random.integers(1, 15)
    parts = [random.normal([random.uniform(10, 95), random.uniform(-60, 60), random.uniform(-60, 60)],
                           random.uniform(0.5, 8), (random.integers(20, 400), 3))
             for _ in range(groups)]
    parts.append(random.uniform([0, -60, -60], [100, 60, 60], (random.integers(30, 120), 3)))
    return numpy.concatenate(parts)


def own_cost(program, colours, k):
    lines = [f"{len(colours)} {k}"] + [" ".join(f"{part:.17g}" for part in colour) for colour in colours]
    answer = subprocess.run([program], input="\n".join(lines), capture_output=True, text=True, check=True)
    found, cost = answer.stdout.split()
    assert int(found) == k, f"{found} centres of {k}"
    return float(cost)


def main():
    random = numpy.random.default_rng(20261130)
    worst = 0
    for _ in range(ROUNDS):
        colours, k = cloud(random), int(random.integers(1, 25))
        theirs = KMeans(k, n_init=10, random_state=1).fit(colours).inertia_ / len(colours)
        worst = max(worst, own_cost(sys.argv[1], colours, k) / theirs)
    print("1..1")
    print(f"# at worst {worst:.4f} of the other's cost")
    print("ok 1" if worst <= MOST else "not ok 1", "- as_good_as_ten_beginnings")


main()
