"""An estimate made a second time, by NumPy and SciPy, from the design alone.

It shares nothing with the engine but the document: plain random draws of NumPy's Generator, SciPy's quantile functions,
columns of draws for the money, and a literal event loop a draw for the schedule. It is there to disagree with the engine
where that is wrong (write_opinions.py keeps what it makes of 40 made-up documents), and to be raced against it.

    python3 estimate.py DOCUMENT.json --draws 20000 --seed 1 [--quantiles exact|tables] [--schedule]
        every figure as JSON, each with its standard error; without the schedule there are no weeks, and what is carried
        is that of the months of selling alone
    python3 estimate.py DOCUMENT.json --draws 10000 --time 15 [--quantiles exact|tables]
        the median of 15 warm runs, in milliseconds of the clock and of the processor, of drawing and telling everything:
        totals, lines, curves, chances, shares of variance, rank correlations. Left out are the schedule with the weeks it
        would need, imports, and the making of the plan with its tables.

Figures kept in opinions.json: NumPy 2.4.6, SciPy 1.17.1. It runs as well on Debian 12's python3-numpy 1.24 and
python3-scipy 1.10, whose beta quantile is twice as fast: race those.

The way of a document: quantile_functions.py (amounts of scores), plan.py (defaults filled in), chance.py (draws),
walk.py (routes, tries, visits, departures), diary.py, owner_rank.py and week_loop.py (the schedule), money.py (totals),
figures.py (figures with their errors) or answer.py (everything at once, for the race).
"""
import argparse
import json
import os
import statistics
import sys
import time

sys.dont_write_bytecode = True
os.environ.setdefault("OMP_NUM_THREADS", "1")  # one thread: the engine it is raced against has one

import numpy as np
import scipy

from answer import Answer
from chance import TypicalWorld, World
from diary import Diary
from figures import chance_of, mean_of, summary_of
from money import Totals
from plan import plan_of
from walk import Walk
from week_loop import weeks_of

BLOCK = 2_000  # draws walked at once: bounds the memory of the diaries
WARMING = 2  # runs that are not timed


def draw(plan, count, rng, with_schedule):
    world = World(plan, count, rng)
    diary = Diary(plan, world) if with_schedule else None
    walk = Walk(plan, world, diary)
    weeks = weeks_of(plan, diary, walk.departures) if with_schedule else 0
    return Totals(plan, world, walk, np.asarray(weeks, dtype=float))


def columns_of(plan, draws, seed, with_schedule):
    """@returns columns by name: amounts, cash lines, events, departures; drawn block by block"""
    rng = np.random.default_rng(seed)
    blocks = []
    for start in range(0, draws, BLOCK):
        totals = draw(plan, min(BLOCK, draws - start), rng, with_schedule)
        blocks.append((totals.columns(), totals.lines, totals.events(), totals.departures()))
    joined = [{key: np.concatenate([block[n][key] for block in blocks]) for key in blocks[0][n]} for n in range(4)]
    if (joined[0]["restoration.cash"] == 0).any():
        joined[0].pop("value.recovery", None)
    return joined


def sum_of_typicals(plan):
    world = TypicalWorld(plan)
    return float(Totals(plan, world, Walk(plan, world), 0).cash[0])


def estimate(document, draws, seed, quantiles="exact", with_schedule=False):
    """@returns every figure by name, with its standard error"""
    plan = plan_of(document, quantiles)
    columns, lines, events, departures = columns_of(plan, draws, seed, with_schedule)
    if not with_schedule:
        del columns["weeks"]
    return {
        "sumOfTypicals": sum_of_typicals(plan),
        "totals": {name: summary_of(column) for name, column in columns.items()},
        "chances": {name: chance_of(event) for name, event in events.items()},
        "lines": {".".join(key): summary_of(column) for key, column in lines.items()},
        "departures": {supplier: mean_of(count) for supplier, count in departures.items()},
    }


def timed(document, draws, seed, quantiles, runs):
    """@returns medians of the warm runs, in milliseconds"""
    plan = plan_of(document, quantiles)
    rng = np.random.default_rng(seed)
    clock, processor = [], []
    for _ in range(WARMING + runs):
        start = time.perf_counter(), time.process_time()
        Answer(draw(plan, draws, rng, with_schedule=False))
        clock.append((time.perf_counter() - start[0]) * 1000)
        processor.append((time.process_time() - start[1]) * 1000)
    return {
        "draws": draws,
        "quantiles": quantiles,
        "numpy": np.__version__,
        "scipy": scipy.__version__,
        "medianMs": statistics.median(clock[WARMING:]),
        "medianProcessorMs": statistics.median(processor[WARMING:]),
    }


def main():
    parser = argparse.ArgumentParser(description="An independent estimate of one document")
    parser.add_argument("document")
    parser.add_argument("--draws", type=int, default=10_000)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--quantiles", choices=["exact", "tables"], default="exact")
    parser.add_argument("--schedule", action="store_true")
    parser.add_argument("--time", type=int, metavar="RUNS")
    asked = parser.parse_args()
    with open(asked.document) as file:
        document = json.load(file)
    if asked.time is None:
        answer = estimate(document, asked.draws, asked.seed, asked.quantiles, asked.schedule)
    else:
        answer = timed(document, asked.draws, asked.seed, asked.quantiles, asked.time)
    json.dump(answer, sys.stdout, indent=1)
    print()


if __name__ == "__main__":
    main()
