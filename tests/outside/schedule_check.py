"""Schedules: the longest path with NetworkX, and calendar files with
icalendar."""

import icalendar
import networkx

import cases

# A minute, in hours.
MINUTE = 1 / 60


def differences(pairs):
    """What differs of names with what is wanted, found, and allowed."""
    for name, wanted, found, allowed in pairs:
        is_number = isinstance(wanted, (int, float)) and not isinstance(wanted, bool)
        if abs(wanted - found) > allowed if is_number else wanted != found:
            yield f"{name}: {found}, wanted {wanted}"


def path(case):
    """A job with hands enough, at work day and night: its end is the longest
    path through its tasks and waits, and each start the longest way there."""
    graph = networkx.DiGraph()
    tasks = case["tasks"]
    graph.add_node("start")
    graph.add_node("end")
    for number, task in enumerate(tasks):
        graph.add_edge("start", (number, 0), weight=0)
        graph.add_edge((number, 0), (number, 1), weight=task["length_h"])
        graph.add_edge((number, 1), "end", weight=0)
        for before in task["after"]:
            graph.add_edge((before["task"], 1), (number, 0), weight=before["wait_h"])
    length = networkx.dag_longest_path_length(graph)
    yield "end", length, case["end_h"], MINUTE
    reached = {"start": 0.0}
    for node in networkx.topological_sort(graph):
        for _, after, weight in graph.out_edges(node, data="weight"):
            reached[after] = max(reached.get(after, 0.0), reached[node] + weight)
    for number, task in enumerate(tasks):
        yield f"start of {task['name']}", reached[(number, 0)], task["start_h"], MINUTE
    critical = networkx.dag_longest_path(graph)
    floats = [tasks[node[0]]["float_h"] for node in critical if isinstance(node, tuple)]
    yield "float on the longest path", 0, max(floats, default=0), MINUTE


def calendar(case):
    """A calendar file as another reader reads it: an event for each day of
    each task, within its time."""
    read = icalendar.Calendar.from_ical(case["ics"])
    every = [event for event in read.walk("VEVENT")]
    whole = [event for event in every if not hasattr(event.decoded("DTSTART"), "hour")]
    # What has no day is told of in one event, by its names.
    undated = [event for event in whole if str(event["SUMMARY"]).startswith("With no day yet: ")]
    has_undated = any(task["start"] is None for task in case["tasks"])
    yield "an event for what has no day", int(has_undated), len(undated), 0
    free = [
        [str(event["SUMMARY"])]
        + [f"{event.decoded(key):%Y-%m-%d}" for key in ("DTSTART", "DTEND")]
        for event in whole
        if event not in undated
    ]
    yield "whole days", case["free"], free, 0
    events = [event for event in every if event not in whole]
    yield "events", case["events"], len(events), 0
    names = {task["name"] for task in case["tasks"]}
    spans = {}
    for event in events:
        name = str(event["SUMMARY"])
        yield f"{name} is a task", True, name in names, 0
        start, end = event.decoded("DTSTART"), event.decoded("DTEND")
        yield f"{name} ends after it begins", True, end >= start, 0
        first, last = spans.get(name, (start, end))
        spans[name] = (min(first, start), max(last, end))
    for task in case["tasks"]:
        if task["start"] is None:
            yield f"{task['name']} has no event", False, task["name"] in spans, 0
            continue
        start, end = spans[task["name"]]
        own = [f"{at:%Y-%m-%dT%H:%M}" for at in (start, end)]
        yield f"start of {task['name']}", own[0], task["start"], 0
        yield f"end of {task['name']}", own[1], task["end"], 0
    identifiers = {str(event["UID"]) for event in every}
    yield "identifiers", len(every), len(identifiers), 0


def check(case):
    kinds = {"path": path, "calendar": calendar}
    return differences(kinds[case["kind"]](case))


cases.run(check)
