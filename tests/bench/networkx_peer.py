"""Times networkx on an edge list: the same work as the bench, inside this process, best of several runs.

Standard input: JSON {"nodes": n, "edges": [[from, to], ...], "pairs": [[from, to], ...], "runs": k}
Standard output: JSON with times in ms and the counts that the caller compares.
"""

import json
import sys
import time


def best(runs, work):
    shortest, result = None, None
    for _ in range(runs):
        start = time.perf_counter()
        result = work()
        took = (time.perf_counter() - start) * 1000
        shortest = took if shortest is None else min(shortest, took)
    return shortest, result


def main():
    asked = json.load(sys.stdin)
    try:
        import networkx as nx
    except ImportError:
        print(json.dumps({"missing": True}))
        return
    graph = nx.Graph()
    graph.add_nodes_from(range(asked["nodes"]))
    graph.add_edges_from((a, b) for a, b in asked["edges"] if a != b)
    runs = asked["runs"]
    pairs = asked["pairs"]
    blocks_ms, blocks = best(runs, lambda: sum(1 for _ in nx.biconnected_components(graph)))
    reach_ms, reached = best(runs, lambda: len(nx.single_source_shortest_path_length(graph, pairs[0][0])))
    path_ms, steps = best(runs, lambda: [nx.shortest_path_length(graph, a, b) for a, b in pairs])
    print(
        json.dumps(
            {
                "version": nx.__version__,
                "blocksMs": blocks_ms,
                "blocks": blocks,
                "reachMs": reach_ms,
                "reached": reached,
                "pathMs": path_ms / len(pairs),
                "steps": steps,
            }
        )
    )


main()
