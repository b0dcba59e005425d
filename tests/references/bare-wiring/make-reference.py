#!/usr/bin/env python3
"""Says which points of a wiring are joined by bare conductors, and prints it as JSON.

Usage: make-reference.py wires.csv > reference.json
       make-reference.py harness.kbl > reference.json

The file is read here, by parsers of the Python library, and not by the program under test: a wire list as rows of from and to, a KBL file as
connections between contact points in the cavities of connectors, in the build with the fewest modules that has any. Two connections on one
contact point are joined, as are two contact points in one cavity. networkx finds what hangs together.
"""

import csv
import json
import sys
import xml.etree.ElementTree as ElementTree

import networkx as nx


def graph_of_csv(path):
    graph = nx.Graph()
    with open(path, encoding="utf-8", newline="") as file:
        for row in csv.DictReader(file):
            ends = [row[name].strip() for name in ("From", "To") if row[name].strip()]
            graph.add_nodes_from(ends)
            if len(ends) == 2:
                graph.add_edge(*ends)
    return graph, [node for node in graph if ":" in node]


def text_of(element, name):
    return (element.findtext(name) or "").strip()


def graph_of_kbl(path):
    root = ElementTree.parse(path).getroot()
    every = list(root.iter())
    tagged = lambda name: [element for element in every if element.tag.split("}")[-1] == name]
    controlled = {
        module.get("id"): {id for part in module.iter("Controlled_components") for id in (part.text or "").split()}
        for module in tagged("Module")
    }
    builds = [text_of(build, "Modules").split() for build in tagged("Harness_configuration")]
    modules = min((build for build in builds if build), key=len)
    chosen = set().union(*(controlled[module] for module in modules))
    anywhere = set().union(*controlled.values())
    fitted = lambda id: id in chosen or id not in anywhere

    by_id = {element.get("id"): element for element in every if element.get("id")}
    parent = {child: element for element in every for child in element}

    def name_of(cavity):
        """Id of the connector that a cavity lies in, of a box with the id of its connector, and the number of the cavity."""
        owner, connector = parent[by_id[cavity]], ""
        while not text_of(owner, "Id"):
            if owner.tag.endswith("Component_box_connectors"):
                connector = "." + text_of(by_id[text_of(owner, "Part")], "Id")
            owner = parent[owner]
        return f"{text_of(owner, 'Id')}{connector}:{text_of(by_id[text_of(by_id[cavity], 'Part')], 'Cavity_number')}"

    cavity_of_point = {
        point.get("id"): name_of(text_of(point, "Contacted_cavity").split()[0])
        for point in tagged("Contact_points")
        if text_of(point, "Contacted_cavity")
    }

    graph = nx.Graph()
    for connection in tagged("Connection"):
        if not fitted(text_of(connection, "Wire")) or not fitted(connection.get("id")):
            continue
        ends = [cavity_of_point[text_of(end, "Contact_point")] for end in connection.findall("Extremities")]
        graph.add_nodes_from(ends)
        for end in ends[1:]:
            graph.add_edge(ends[0], end)
    return graph, list(graph)


def main(path):
    graph, points = (graph_of_kbl if path.endswith(".kbl") else graph_of_csv)(path)
    wanted = set(sorted(points)[:500])
    groups = [sorted(wanted & part) for part in nx.connected_components(graph)]
    print(json.dumps({"points": len(wanted), "groups": sorted(group for group in groups if group)}, indent=0))


main(sys.argv[1])
