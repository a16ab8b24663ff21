"""Writes opinions.json: what the NumPy estimate makes of 40 made-up documents, schedule included.

Run: python3 write_opinions.py, then prettier on opinions.json. It takes some minutes, needs Node with the project's
packages to make the documents, and names the versions it ran with in the file.

Figures stand as value, standard error, value, ... in the order of `levels`; one value alone is the same in every draw.
A percentile within whose reach the draws are not spread evenly (several are equal, or there is a gap) has no standard
error worth the name: `lumps` holds for it the percentiles between which another simulation, of `otherDraws` draws, must
find it, so that the probability below what it finds is the level asked for within five joint standard errors of a count.
"""
import json
import pathlib
import subprocess
import sys

sys.dont_write_bytecode = True

import numpy as np
import scipy

from estimate import columns_of, sum_of_typicals
from figures import LEVELS as SHARES
from figures import mean_of, percentile_of
from plan import plan_of

DRAWS, OTHER_DRAWS, SEED = 40_000, 10_000, 20260601
JOINT_ERRORS = 5
LUMP = 0.1  # a gap wider than this share of the reach; of several hundred draws that lie evenly, none comes near
HERE = pathlib.Path(__file__).parent
LEVELS = {
    "totals": ["mean", "p50", "p80", "p95"],
    "recovery": ["p10", "p50", "p90"],
    "ceilings": ["p5", "p50", "p95"],
    "overrun": ["mean"],
    "lines": ["mean", "p50", "p80", "p90"],
    "departures": ["mean"],
}
SECTIONS = {
    "value.recovery": "recovery",
    "ceiling.resale": "ceilings",
    "ceiling.mine": "ceilings",
    "budget.overrun": "overrun",
}
READ_DOCUMENTS = """
import { opinionDocuments } from "./opinion-documents.ts";
console.log(JSON.stringify(opinionDocuments()));
"""


def documents():
    command = ["node", "--import", "tsx", "--input-type=module", "--eval", READ_DOCUMENTS]
    return json.loads(subprocess.run(command, cwd=HERE, check=True, capture_output=True, text=True).stdout)


def rounded(number):
    return float(f"{number:.10g}")


def pair(figure):
    return [rounded(figure["value"]), float(f"{figure['standardError']:.3g}")]


def lump_of(ascending, level):
    """The reach of a percentile where the draws in it are not spread evenly, else None."""
    share = JOINT_ERRORS * (level * (1 - level) * (1 / DRAWS + 1 / OTHER_DRAWS)) ** 0.5
    first, last = (round((level + side) * (DRAWS - 1)) for side in (-share, share))
    reach = ascending[first : last + 1]
    gaps = np.diff(reach)
    is_lumpy = gaps.min() <= 0 or gaps.max() > LUMP * (reach[-1] - reach[0])
    return [rounded(reach[0]), rounded(reach[-1])] if is_lumpy else None


def figure_of(ascending, column, level):
    return pair(mean_of(column) if level == "mean" else percentile_of(ascending, SHARES[level]))


def figures_of(columns, levels, lumps):
    figures = {}
    for name, column in columns.items():
        ascending = np.sort(column)
        if ascending[0] == ascending[-1]:
            figures[name] = [rounded(ascending[0])]
            continue
        figures[name] = sum((figure_of(ascending, column, level) for level in levels), [])
        for level in levels:
            lump = None if level == "mean" else lump_of(ascending, SHARES[level])
            if lump is not None:
                lumps[f"{name}.{level}"] = lump
    return figures


def opinion(seed, digest, document):
    plan = plan_of(document)
    columns, lines, events, departures = columns_of(plan, DRAWS, SEED + seed, with_schedule=True)
    sections = {section: {} for section in LEVELS}
    for name, column in columns.items():
        sections[SECTIONS.get(name, "totals")][name] = column
    sections["lines"] = {".".join(key): column for key, column in lines.items()}
    sections["departures"] = {f"departures.{supplier}": count for supplier, count in departures.items()}
    lumps = {}
    return {
        "seed": seed,
        "digest": digest,
        "sumOfTypicals": sum_of_typicals(plan),
        **{section: figures_of(them, LEVELS[section], lumps) for section, them in sections.items()},
        "lumps": lumps,
        "happened": {name: int(event.sum()) for name, event in events.items()},
    }


def main():
    opinions = []
    for it in documents():
        print(it["seed"], file=sys.stderr, flush=True)
        opinions.append(opinion(it["seed"], it["digest"], it["document"]))
    written = {
        "versions": f"Python {sys.version.split()[0]}, NumPy {np.__version__}, SciPy {scipy.__version__}",
        "draws": DRAWS,
        "otherDraws": OTHER_DRAWS,
        "levels": LEVELS,
        "opinions": opinions,
    }
    (HERE / "opinions.json").write_text(json.dumps(written) + "\n")


if __name__ == "__main__":
    main()
