"""What a plan is made of: the document's nouns with nothing left open."""
from dataclasses import dataclass

import numpy as np


@dataclass
class Score:
    """A standard normal score that shares part of its chance with drivers."""

    loadings: list  # of (position of the driver, loading)
    own: float  # what is left for the score's own chance


@dataclass
class Quantity:
    """Something to draw; `function` is None for a constant."""

    score: Score
    function: object
    constant: float
    median: float
    dips: bool  # whether a draw may come out below 0, and then counts as 0


@dataclass
class Operation:
    id: str
    path: str
    place: int  # in the order of the document
    done: bool
    of_parts: bool  # of the trade that sells parts: what comes back when a bought part is useless
    cost: Quantity
    hours: Quantity
    lead: Quantity
    by: str
    trade: str
    times: float
    tax: float
    supplier: int
    lot: str
    after: list
    to_go: float = 0.0  # median weeks to the end of its own route


@dataclass
class Outcome:
    probability: float
    result: str
    operations: list
    recovers: float


@dataclass
class Route:
    id: str
    state: str
    works_for: np.ndarray  # by band
    judged: list  # a purchase's operations up to the judgement; every operation of any other route
    rest: list
    fails_after: int  # how many operations are paid when it fails; None when it cannot
    failure: Score
    fails_above: float
    is_purchase: bool
    finds_per_week: float
    patience_weeks: float
    tries: int
    is_bought: bool  # one of its own operations is done, so what the first try buys has been found already
    outcomes: list
    value_effect: Quantity


@dataclass
class Finding:
    id: str
    state: str
    event: Score
    present_above: float
    work: Operation
    on_routes: set  # None: all
    rules_out: set


@dataclass
class Part:
    id: str
    band: int
    odds: Score
    cuts: np.ndarray
    likeliest: int
    routes: list
    findings: list  # positions in the document
    if_unresolved: Quantity


@dataclass
class Supplier:
    id: str
    minimum: float
    batch: Quantity
    freight: Quantity
    lead: Quantity
    tax: float


@dataclass
class Overhead:
    id: str
    kind: str
    quantity: Quantity


@dataclass
class Plan:
    document: dict
    drivers: list
    suppliers: list
    before: list
    after: list
    parts: list
    findings: list
    overheads: list
    extras: list
    tax: float
    rates: dict
    own_per_week: Quantity
    bench_rate: Quantity
    hour_value: float
    per_month: Quantity
    finished: Quantity
    fixed: Quantity
    selling_months: Quantity
    lots: list  # (supplier, lot) in the order of their first appearance
