"""Counts the objects of harness files by the class that the published schema gives each element.

Usage: python3 count-classes.py FOLDER > counts.json
FOLDER holds kbl/, vec/ and xsd/ with the published files. Nothing of the project is used: the parser is xml.etree of Python, and what
class an element has is worked out from the schema, by its place in it and by xsi:type.
"""
import hashlib, json, platform, sys
import xml.etree.ElementTree as tree
from pathlib import Path

XS = "{http://www.w3.org/2001/XMLSchema}"
XSI_TYPE = "{http://www.w3.org/2001/XMLSchema-instance}type"
FILES = {"kbl": "kbl2.5-sr1.xsd kbl24_sr1.xsd kbl23_sr1.xsd".split(), "vec": ["vec_2.1.0-ud.xsd", "vec_1.2.2-ud.xsd"]}


def local(name):
    return name.split("}")[-1].split(":")[-1]


class Schema:
    def __init__(self, path):
        root = tree.parse(path).getroot()
        self.types = {each.get("name"): each for each in root.iter(XS + "complexType") if each.get("name")}
        self.roots = {}
        for each in root.findall(XS + "element"):
            kind = each.get("type")
            inner = each.find(XS + "complexType")
            self.roots[each.get("name")] = local(kind) if kind else inner
        self.known = {}

    def children(self, kind):
        """Elements of a type and of those it extends, by name: the name of their type."""
        node = self.types.get(kind) if isinstance(kind, str) else kind
        if node is None:
            return {}
        if id(node) not in self.known:
            found = {}
            base = node.find(f".//{XS}extension")
            if base is not None:
                found.update(self.children(local(base.get("base"))))
            for each in node.iter(XS + "element"):
                if each.get("type") is not None:
                    found[each.get("name")] = local(each.get("type"))
            self.known[id(node)] = found
        return self.known[id(node)]


def count(path, schema):
    root = tree.parse(path).getroot()
    counts, misfits = {}, set()

    def visit(element, kind):
        name = kind if isinstance(kind, str) else local(element.tag)
        counts[name] = counts.get(name, 0) + 1
        inner = schema.children(kind)
        for child in element:
            told = child.get(XSI_TYPE)
            of = local(told) if told else inner.get(local(child.tag))
            if of in schema.types:
                visit(child, of)
            elif of is None or len(child) or child.get("id"):
                misfits.add(f"{name}/{local(child.tag)}")

    visit(root, schema.roots[local(root.tag)])
    return counts, sorted(misfits)


def main(folder):
    results = {}
    for kind, schemas in FILES.items():
        for path in sorted((folder / kind).glob("*." + kind)):
            best = None
            for name in schemas:
                try:
                    counts, misfits = count(path, Schema(folder / "xsd" / name))
                except tree.ParseError:
                    break
                if best is None or len(misfits) < len(best["notInSchema"]):
                    best = {"schema": name, "notInSchema": misfits, "classes": dict(sorted(counts.items()))}
            if best is None:
                continue
            digest = hashlib.sha256(path.read_bytes()).hexdigest()
            results[f"{kind}/{path.name}"] = {"sha256": digest, **best}
    made = f"count-classes.py, xml.etree of Python {platform.python_version()}"
    print(json.dumps({"madeBy": made, "files": results}, indent=2, ensure_ascii=False))


main(Path(sys.argv[1]))
