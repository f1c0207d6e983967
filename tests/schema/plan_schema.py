#!/usr/bin/env python3
"""Holds the plans of every example to data/plan.schema.json, by Debian's python3-jsonschema.

  tests/schema/plan_schema.py PROGRAM

Additions are allowed within a version, so the schema forbids none; but what the program writes must
be described, so that a key nobody described fails here.
"""
import copy
import json
import pathlib
import subprocess
import sys

import jsonschema

top = pathlib.Path(__file__).resolve().parents[2]
program = sys.argv[1]
schema = json.loads((top / "data/plan.schema.json").read_text())
jsonschema.Draft4Validator.check_schema(schema)
checker = jsonschema.Draft4Validator(schema)
faults = []


def undescribed(value, part, path):
    part = next((p for p in part.get("anyOf", []) if p.get("type") != "null"), part)
    if isinstance(value, list):
        for item in value:
            undescribed(item, part.get("items", {}), path + "[]")
    if isinstance(value, dict):
        for key, inner in value.items():
            known = part.get("properties", {})
            if key not in known:
                faults.append(f"{path}.{key} is not in the schema")
            undescribed(inner, known.get(key, {}), f"{path}.{key}")


def written(*words):
    run = subprocess.run([program, *words, "--json", "-", "--samples", "8"], capture_output=True, text=True)
    if run.returncode not in (0, 1):
        faults.append(f"{words}: status {run.returncode}: {run.stderr}")
        return None
    return json.loads(run.stdout)


def hold(plan, name):
    for error in checker.iter_errors(plan):
        faults.append(f"{name}: {'/'.join(map(str, error.path))}: {error.message}")
    undescribed(plan, schema, name)


examples = sorted((top / "data/sessions").glob("*.toml"))
plans = {e.stem: written("plan", str(e)) for e in examples}
marsh = str(top / "data/sessions/salt-marsh.toml")
plans["late"] = written("late", marsh, "--at", "12:00", "--late", "40 min")
plans["advice"] = written("plan", str(top / "data/sessions/heron-drypoint.toml"), "--advice", "--conflicts", "500")
for name, plan in plans.items():
    if plan is not None:
        hold(plan, name)
if len(examples) < 5:
    faults.append("no examples")

# The check must be able to fail.
for spoil in (
    lambda p: p.pop("finish"),
    lambda p: p.update(version=2),
    lambda p: p["pulls"][0].update(chance_ready=1.5),
    lambda p: p["steps"][0].update(start=5),
    lambda p: p["resources"][0].update(kind="robot"),
):
    spoiled = copy.deepcopy(plans["salt-marsh"])
    spoil(spoiled)
    if checker.is_valid(spoiled):
        faults.append("a spoiled plan is accepted")

print("\n".join(sorted(set(faults))) or f"{len(plans)} plans are as the schema has them")
sys.exit(1 if faults else 0)
