"""Where drains lead in the end, and which go round in a circle, with NetworkX."""

import networkx

import cases


def check(case):
    graph = networkx.DiGraph()
    graph.add_nodes_from(case["to"])
    graph.add_edges_from((own, to) for own, to in case["to"].items() if to)
    circles = sorted(sorted(circle) for circle in networkx.simple_cycles(graph))
    if circles != sorted(sorted(circle) for circle in case["circles"]):
        yield f"circles {circles}, and not {case['circles']}"
    for own, end in case["ends"].items():
        reached = networkx.descendants(graph, own) | {own}
        last = [one for one in reached if graph.out_degree(one) == 0]
        found = last[0] if last else None
        if found != end:
            yield f"{own} ends at {found}, and not {end}"


if __name__ == "__main__":
    cases.run(check)
