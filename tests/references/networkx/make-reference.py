#!/usr/bin/env python3
"""Answers the questions of graphs.json with networkx and prints reference.json.

Usage: make-reference.py graphs.json > reference.json

Nothing here follows the method of the program under test. What lies between two nodes is found by adding an edge
between them and taking the biconnected component of that edge (or, where there are few paths, by listing all of
them; the two must agree). What every path passes is found by taking each node and edge out and asking whether a
path is left. The shortest paths are those of networkx on the graph with a node put into each edge, so that parallel
edges make different paths.
"""

import json
import sys
from itertools import islice

import networkx as nx

# Where so many rings can be closed at most, there are at most 2 ** 8 simple paths, few enough to list all.
FEW_RINGS = 8
PATHS_LISTED = 6


def passable(line):
    """The multigraph of what is not blocked; self loops are left out, as they lie on no simple path."""
    graph = nx.MultiGraph()
    blocked = set(line["blockedNodes"])
    graph.add_nodes_from(node for node in range(line["nodeCount"]) if node not in blocked)
    blocked_edges = set(line["blockedEdges"])
    for edge, (first, second) in enumerate(zip(line["from"], line["to"])):
        if edge in blocked_edges or first == second or first in blocked or second in blocked:
            continue
        graph.add_edge(first, second, key=edge)
    return graph


def between_by_added_edge(graph, start, end):
    """Nodes and edges of the biconnected component that an added edge from start to end is in."""
    closed = nx.Graph(graph)
    closed.add_edge(start, end)
    for component in nx.biconnected_component_edges(closed):
        joined = {frozenset(edge) for edge in component}
        if frozenset((start, end)) in joined:
            nodes = set().union(*joined)
            edges = {key for a, b, key in graph.edges(keys=True) if frozenset((a, b)) in joined}
            return nodes, edges
    raise AssertionError("the added edge is in no component")


def between_by_listing(graph, start, end):
    """The same from all simple paths, or None if there may be many."""
    part = graph.subgraph(nx.node_connected_component(graph, start))
    if part.number_of_edges() - part.number_of_nodes() + 1 > FEW_RINGS:
        return None
    paths = list(nx.all_simple_edge_paths(part, start, end))
    edges = {key for path in paths for _, _, key in path}
    nodes = {node for path in paths for a, b, _ in path for node in (a, b)}
    return nodes, edges


def must_pass(graph, start, end):
    """Nodes and edges without which no path is left, in the order of a path."""
    path = nx.shortest_path(graph, start, end)
    rest = graph.copy()
    nodes = [start]
    for node in path[1:-1]:
        taken = list(rest.edges(node, keys=True))
        rest.remove_node(node)
        if not nx.has_path(rest, start, end):
            nodes.append(node)
        rest.add_edges_from(taken)
    nodes.append(end)
    edges = []
    for a, b in zip(path, path[1:]):
        key = min(graph[a][b])
        rest.remove_edge(a, b, key=key)
        if not nx.has_path(rest, start, end):
            edges.append(key)
        rest.add_edge(a, b, key=key)
    return nodes, edges


def path_lengths(graph, start, end):
    """Numbers of edges of the shortest simple paths, told apart by their edges; one more than are compared."""
    divided = nx.Graph()
    for a, b, key in graph.edges(keys=True):
        divided.add_edge(a, ("edge", key))
        divided.add_edge(("edge", key), b)
    paths = islice(nx.shortest_simple_paths(divided, start, end), PATHS_LISTED + 1)
    return [(len(path) - 1) // 2 for path in paths]


def answer(graph, start, end):
    if start not in graph or end not in graph or not nx.has_path(graph, start, end):
        return None
    if start == end:
        return {"nodes": [start], "edges": [], "passNodes": [start], "passEdges": [], "lengths": [0]}
    nodes, edges = between_by_added_edge(graph, start, end)
    listed = between_by_listing(graph, start, end)
    if listed is not None and listed != (nodes, edges):
        raise AssertionError(f"two ways to find what is between {start} and {end} differ")
    pass_nodes, pass_edges = must_pass(graph, start, end)
    return {
        "nodes": sorted(nodes),
        "edges": sorted(edges),
        "passNodes": pass_nodes,
        "passEdges": pass_edges,
        "lengths": path_lengths(graph.edge_subgraph((a, b, k) for a, b, k in graph.edges(keys=True) if k in edges), start, end),
    }


def main():
    with open(sys.argv[1], encoding="utf-8") as file:
        graphs = json.load(file)
    lines = []
    for line in graphs:
        graph = passable(line)
        result = {
            "seed": line["seed"],
            "components": nx.number_connected_components(graph),
            "blocks": sum(1 for _ in nx.biconnected_components(graph)),
            "cutNodes": sorted(nx.articulation_points(graph)),
            "answers": [answer(graph, pair["from"], pair["to"]) for pair in line["pairs"]],
        }
        lines.append(json.dumps(result, separators=(",", ":")))
    print("[\n" + ",\n".join(lines) + "\n]")


main()
