"""Figures of independent draws with their standard errors."""
import numpy as np

LEVELS = {"p5": 0.05, "p10": 0.1, "p25": 0.25, "p50": 0.5, "p75": 0.75, "p80": 0.8, "p90": 0.9, "p95": 0.95}


def mean_of(column):
    return {"value": float(column.mean()), "standardError": float(column.std(ddof=1) / len(column) ** 0.5)}


def chance_of(event):
    p = float(event.mean())
    return {"value": p, "standardError": float((p * (1 - p) / len(event)) ** 0.5)}


def percentile_of(ascending, level):
    """Hyndman & Fan's type 7. Its standard error: the count of draws below it has a standard deviation, and the order
    statistics two of them to either side lie four standard errors apart."""
    spread = 2 * (level * (1 - level) * len(ascending)) ** 0.5
    below, above = order_statistic(ascending, level, -spread), order_statistic(ascending, level, spread)
    return {"value": float(np.quantile(ascending, level)), "standardError": float((above - below) / 4)}


def order_statistic(ascending, level, shift):
    place = round(level * (len(ascending) - 1) + shift)
    return ascending[min(len(ascending) - 1, max(0, place))]


def summary_of(column):
    ascending = np.sort(column)
    batches = np.array_split(column, 20)
    spread = np.std([batch.std(ddof=1) for batch in batches], ddof=1) / 20**0.5
    return {
        "mean": mean_of(column),
        "sd": {"value": float(column.std(ddof=1)), "standardError": float(spread)},
        **{name: percentile_of(ascending, level) for name, level in LEVELS.items()},
    }
