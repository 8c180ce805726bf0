"""What comes to each drain from all that lead to it, with NetworkX."""

import networkx

import cases


def check(case):
    graph = networkx.DiGraph()
    graph.add_nodes_from(case["to"])
    graph.add_edges_from((own, to) for own, to in case["to"].items() if to)
    round_and_round = {own for circle in networkx.simple_cycles(graph) for own in circle}
    for own, found in case["found"].items():
        before = networkx.ancestors(graph, own) | {own}
        if before & round_and_round:
            wanted = None
        else:
            wanted = sum(case["own"][one] for one in before)
        same = found is None if wanted is None else found is not None and abs(found - wanted) < 1e-9
        if not same:
            yield f"{own} gets {found}, and not {wanted}"


if __name__ == "__main__":
    cases.run(check)
