"""Runs the steps of a composite action in a folder, as a runner would.

    action.py ACTION FOLDER [NAME=VALUE...]

The steps are read from the YAML, `${{ inputs.NAME }}` is filled with the
value given or its default, and each is run by bash. The first that fails ends
it, with its status.
"""

import os
import re
import subprocess
import sys

import yaml

INPUT = re.compile(r"\$\{\{ *inputs\.([\w-]+) *\}\}")


def main(action, folder, *given):
    with open(action, encoding="utf-8") as text:
        action = yaml.safe_load(text)
    assert action["runs"]["using"] == "composite", action["runs"]
    inputs = {name: said["default"] for name, said in action["inputs"].items()}
    for word in given:
        name, value = word.split("=", 1)
        assert name in inputs, f"the action has no input {name}"
        inputs[name] = value

    def filled(value):
        return INPUT.sub(lambda found: inputs[found[1]], value)

    for step in action["runs"]["steps"]:
        assert step["shell"] == "bash", step
        # An input may hold anything: it must reach the shell as a variable.
        assert not INPUT.search(step["run"]), step["run"]
        env = os.environ | {name: filled(value) for name, value in step["env"].items()}
        command = ["bash", "--noprofile", "--norc", "-eo", "pipefail", "-c", step["run"]]
        status = subprocess.run(command, cwd=folder, env=env).returncode
        if status:
            sys.exit(status)


main(*sys.argv[1:])
