"""An estimate document with its defaults filled in and its quantities ready to draw (sections 2 and 3 of the design).

Everything here is worked out once, before anything is drawn.
"""
import json
from functools import lru_cache

import numpy as np
from scipy import special

import quantile_functions
from owner_rank import rank
from plan_types import Finding, Operation, Outcome, Overhead, Part, Plan, Quantity, Route, Score, Supplier

BANDS = ["sound", "tired", "poor", "past-saving", "missing"]
KEEPING = {"reuse", "repair", "replate", "zinc-plate", "repaint", "powder-coat"}
MONTH_WEEKS = 52 / 12


class Planner:
    def __init__(self, document, use_tables):
        self.document = document
        build = quantile_functions.table_function if use_tables else quantile_functions.exact_function
        by_shape = lru_cache(maxsize=None)(lambda shape: build(json.loads(shape)))
        self.function_of = lambda uncertain: by_shape(json.dumps(uncertain, sort_keys=True))
        self.driver_ids = [driver["id"] for driver in document["drivers"]]
        self.supplier_ids = [supplier["id"] for supplier in document["suppliers"]]
        self.tax = 0 if document.get("reclaimsTax") else document.get("taxPercent", 0) / 100
        self.places = 0
        self.lots = []

    def score(self, loadings):
        known = [(self.driver_ids.index(driver), loading) for driver, loading in (loadings or {}).items()]
        return Score(known, max(0, 1 - sum(loading**2 for _, loading in known)) ** 0.5)

    def default_score(self, holder, driver, loading):
        """What the holder says of its drivers, else a loading on the driver if the document declares it."""
        loadings = holder.get("drivers")
        if loadings is None:
            loadings = {driver: loading} if driver in self.driver_ids else {}
        return self.score(loadings)

    def quantity(self, uncertain, score=None, may_be_negative=False):
        if uncertain is None:
            return None
        if isinstance(uncertain, dict):
            function = self.function_of(uncertain)
            least, median = function(np.array([-40.0, 0.0]))
        else:
            function, least, median = None, uncertain, uncertain
        dips = bool(least < 0) and not may_be_negative
        median = max(0.0, float(median)) if dips else float(median)
        return Quantity(score or self.score({}), function, median, median, dips)

    def operation(self, it, path, list_path, quantity):
        self.places += 1
        money = self.default_score(it, it["trade"], 0.55)
        pace = self.default_score(it, "pace", 0.55)
        supplier = self.supplier_ids.index(it["supplier"]) if "supplier" in it else None
        if supplier is not None and (supplier, it.get("lot")) not in self.lots:
            self.lots.append((supplier, it.get("lot")))
        return Operation(
            id=it["id"],
            path=path,
            place=self.places,
            done=it.get("state") == "done",
            of_parts=it["trade"] == "parts",
            cost=self.quantity(it.get("cost"), money),
            hours=self.quantity(it.get("hours"), pace),
            lead=self.quantity(it.get("leadWeeks"), money),
            by=it.get("by"),
            trade=it["trade"],
            times=quantity if it.get("per", "each") == "each" else 1,
            tax=self.tax if supplier is None else self.supplier_tax(self.document["suppliers"][supplier]),
            supplier=supplier,
            lot=it.get("lot"),
            after=[name if "/" in name else f"{list_path}/{name}" for name in it.get("after", [])],
        )

    def operations(self, entries, list_path, quantity=1):
        return [self.operation(it, f"{list_path}/{it['id']}", list_path, quantity) for it in entries or []]

    def supplier_tax(self, it):
        if self.document.get("reclaimsTax") or "taxPercent" not in it:
            return self.tax
        return it["taxPercent"] / 100

    def supplier(self, it):
        score = self.default_score(it, it["trade"], 0.55)
        return Supplier(
            id=it["id"],
            minimum=it.get("minimumCharge", 0),
            batch=self.quantity(it.get("batchCharge"), score),
            freight=self.quantity(it.get("freightPerBatch"), score),
            lead=self.quantity(it.get("leadWeeks"), score),
            tax=self.supplier_tax(it),
        )

    def route(self, it, part):
        path = f"{part['id']}/{it['id']}"
        operations = self.operations(it["operations"], path, part.get("quantity", 1))
        ids = [operation["id"] for operation in it["operations"]]
        purchase, failure = it.get("purchase"), it.get("failure")
        works_for = it.get("worksFor", BANDS[:3] if it["method"] in KEEPING else BANDS)
        terms = purchase or {}
        judged = ids.index(terms["judgedAfter"]) + 1 if "judgedAfter" in terms else len(operations)
        outcomes = [
            Outcome(
                outcome["probability"],
                outcome["result"],
                self.operations(outcome.get("operations"), f"{path}/outcome-{n + 1}", part.get("quantity", 1)),
                outcome.get("recovers", 0),
            )
            for n, outcome in enumerate(terms.get("outcomes", [{"probability": 1, "result": "right"}]))
        ]
        fails_after = None
        if failure and not operations[ids.index(failure["after"])].done:
            fails_after = ids.index(failure["after"]) + 1
        return Route(
            id=it["id"],
            state=it.get("state", "open"),
            works_for=np.array([band in works_for for band in BANDS]),
            judged=operations[:judged],
            rest=operations[judged:],
            fails_after=fails_after,
            failure=self.score((failure or {}).get("drivers")),
            fails_above=threshold((failure or {}).get("probability", 0)),
            is_purchase=purchase is not None,
            finds_per_week=terms["findsPerMonth"] / MONTH_WEEKS if "findsPerMonth" in terms else None,
            patience_weeks=terms.get("patienceMonths", np.inf) * MONTH_WEEKS,
            tries=terms.get("tries", 1),
            is_bought=any(operation.done for operation in operations),
            outcomes=outcomes,
            value_effect=self.quantity(it.get("valueEffect"), may_be_negative=True),
        )

    def part(self, it):
        condition = it["condition"]
        odds = [condition["odds"].get(band, 0) for band in BANDS] if "odds" in condition else []
        total = sum(odds)
        return Part(
            id=it["id"],
            band=BANDS.index(condition["band"]) if "band" in condition else None,
            odds=self.default_score(condition, "storage", 0.6),
            cuts=special.ndtri(np.minimum(1, np.cumsum(odds)[:-1] / total)) if odds else None,
            likeliest=int(np.argmax(odds)) if odds else BANDS.index(condition["band"]),
            routes=[self.route(route, it) for route in it["routes"]],
            findings=[n for n, finding in enumerate(self.document["findings"]) if finding.get("part") == it["id"]],
            if_unresolved=self.quantity(it.get("ifUnresolved", {}).get("valueEffect"), may_be_negative=True),
        )

    def finding(self, it):
        on_routes = it.get("onRoutes")
        return Finding(
            id=it["id"],
            state=it.get("state", "open"),
            event=self.default_score(it, "storage", 0.6),
            present_above=threshold(it["probability"]),
            work=self.operation(it, f"finding/{it['id']}", "finding", 1),
            on_routes=None if on_routes is None else set(on_routes),
            rules_out=set(it.get("rulesOut", [])),
        )

    def overhead(self, it):
        kind = next(kind for kind in ("cost", "shareOfPrice", "shareOfListed") if kind in it)
        return Overhead(it["id"], kind, self.quantity(it[kind], self.score(it.get("drivers"))))

    def plan(self):
        it = self.document
        labour, value, shop = it["labour"], it.get("value"), it.get("shop")
        whole = it.get("wholeMachine", {})
        suppliers = [self.supplier(supplier) for supplier in it["suppliers"]]
        selling = (value or {}).get("selling", {})
        plan = Plan(
            document=it,
            drivers=self.driver_ids,
            suppliers=suppliers,
            before=self.operations(whole.get("before"), "whole"),
            after=self.operations(whole.get("after"), "whole"),
            parts=[self.part(part) for part in it["parts"]],
            findings=[self.finding(finding) for finding in it["findings"]],
            overheads=[self.overhead(overhead) for overhead in it["overheads"]],
            extras=[self.overhead(extra) for extra in it.get("acquisition", {}).get("extras", [])],
            tax=self.tax,
            rates={trade: self.quantity(rate) for trade, rate in labour["shopRates"].items()},
            own_per_week=self.quantity(labour["ownHoursPerWeek"]),
            bench_rate=self.quantity(shop["costRate"]) if shop else None,
            hour_value=0 if shop else labour["ownHourValue"],
            per_month=self.quantity(it.get("carrying", {}).get("perMonth")),
            finished=self.quantity(value["finished"], self.score(value.get("drivers")), True) if value else None,
            fixed=self.quantity(selling.get("fixed")),
            selling_months=self.quantity(selling.get("months")),
            lots=self.lots,
        )
        rank(plan)
        return plan


def threshold(probability):
    """The score above which an event of this probability happens."""
    return float(special.ndtri(1 - probability))


def plan_of(document, quantiles="exact"):
    """@param quantiles "exact" or "tables": how a score becomes an amount"""
    return Planner(document, quantiles == "tables").plan()
