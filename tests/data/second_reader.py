"""Reads a Darwin Core archive with the standard library only and prints its rows as JSON.

It shares no code with the program or with the C# reader of the tests: three readers that agree
are better evidence than one. Usage: python3 second_reader.py archive.zip
"""
import csv
import io
import json
import sys
import xml.etree.ElementTree as ElementTree
import zipfile

TEXT = "{http://rs.tdwg.org/dwc/text/}"
ESCAPES = {r"\t": "\t", r"\n": "\n", r"\r\n": "\r\n"}


def rows(archive, described, link):
    separator = ESCAPES.get(described.get("fieldsTerminatedBy"), described.get("fieldsTerminatedBy", ","))
    enclosed = described.get("fieldsEnclosedBy", '"')
    quoting = {"quotechar": enclosed} if enclosed else {"quoting": csv.QUOTE_NONE}
    identifier = int(described.find(TEXT + link).get("index"))
    fields = [(f.get("term"), f.get("index"), f.get("default", "")) for f in described.findall(TEXT + "field")]
    for location in described.findall(f"{TEXT}files/{TEXT}location"):
        text = io.StringIO(archive.read(location.text).decode("utf-8-sig"), newline="\n")
        for number, cells in enumerate(csv.reader(text, delimiter=separator, **quoting)):
            if number >= int(described.get("ignoreHeaderLines", "0")) and cells:
                values = {term: cells[int(index)] if index else default for term, index, default in fields}
                yield {"id": cells[identifier], "values": values}


def main(path):
    csv.field_size_limit(1 << 30)
    with zipfile.ZipFile(path) as archive:
        meta = ElementTree.fromstring(archive.read("meta.xml"))
        files = [(meta.find(TEXT + "core"), "id")] + [(e, "coreid") for e in meta.findall(TEXT + "extension")]
        found = [{"rowType": f.get("rowType"), "rows": list(rows(archive, f, link))} for f, link in files]
    json.dump(found, sys.stdout)


main(sys.argv[1])
