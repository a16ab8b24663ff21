"""How far each operation is from the end of its own route, by medians: what the owner does first (section 3, point 5)."""


def rank(plan):
    """Gives every operation its median weeks to the end of its own route, by which the owner chooses what to do next."""
    for operations in (plan.before, plan.after):
        rank_list(plan, operations, [])
    for finding in plan.findings:
        rank_list(plan, [finding.work], [])
    for part in plan.parts:
        for route in part.routes:
            rank_list(plan, route.judged + route.rest, [])
            for outcome in route.outcomes:
                rank_list(plan, outcome.operations, route.rest)


def rank_list(plan, operations, then):
    for n, operation in enumerate(operations):
        coming = [operation] + [later for later in operations[n + 1 :] + then if not later.done]
        weeks, at = 0.0, None
        for it in coming:
            weeks += median_weeks(plan, it)
            place = None if it.supplier is None else (it.supplier, it.lot)
            if place is not None and place != at:
                lead = plan.suppliers[it.supplier].lead
                weeks += lead.median if lead else 0
            at = place
        operation.to_go = weeks


def median_weeks(plan, operation):
    """Of the operation alone: its supplier's lead is counted once a visit."""
    hours = operation.hours.median * operation.times if operation.hours else 0
    lead = operation.lead.median if operation.lead else 0
    if operation.supplier is not None:
        return lead
    if operation.by == "owner" and operation.hours:
        return hours / plan.own_per_week.median + lead
    return lead if operation.lead else hours / 40
