"""A server with one document open, edited as somebody types: a digit into a
number, and out again by the next edit; another digit each time."""

import json
import os

from .client import ASK_AGAIN, Client, Failure, message
from .documents import ENDINGS
from .processes import peak_memory, processor_time

# What an editor says that it can do.
ABILITIES = {
    "general": {"positionEncodings": ["utf-8", "utf-16"]},
    "workspace": {
        "configuration": True,
        "workspaceFolders": True,
        "didChangeConfiguration": {"dynamicRegistration": True},
        "diagnostics": {"refreshSupport": True},
    },
    "textDocument": {
        "synchronization": {"didSave": True},
        "publishDiagnostics": {"versionSupport": True, "relatedInformation": True},
        "diagnostic": {"dynamicRegistration": False},
        "hover": {"contentFormat": ["markdown", "plaintext"]},
        "completion": {"completionItem": {"documentationFormat": ["markdown", "plaintext"]}},
        "inlayHint": {},
        "formatting": {},
        "semanticTokens": {
            "requests": {"full": {"delta": True}, "range": True},
            "formats": ["relative"],
            "tokenTypes": ["keyword", "property", "variable", "type", "number", "string", "comment", "operator"],
            "tokenModifiers": [],
        },
    },
}

# What is asked for: the method, and what of the document it names besides.
REQUESTS = {
    "hover": ("textDocument/hover", ["key"]),
    "completion": ("textDocument/completion", ["key"]),
    "hints of 60 lines": ("textDocument/inlayHint", ["view"]),
    "tokens": ("textDocument/semanticTokens/full", []),
    "tokens of 60 lines": ("textDocument/semanticTokens/range", ["view"]),
    "tokens that changed": ("textDocument/semanticTokens/full/delta", ["last tokens"]),
    "formatting": ("textDocument/formatting", ["options"]),
}
# What may be answered with nothing: a text that is laid out already.
MAY_BE_EMPTY = {"formatting", "tokens that changed"}


class Session:
    """A server, started and told who is asking."""

    def __init__(self, server, document, folder):
        self.server, self.document, self.version, self.typed = server, document, 1, False
        self.last_tokens = None
        path = folder / f"{server.name}-court{ENDINGS[document.language]}"
        path.write_text(document.text)
        for name, text in document.beside.items():
            (folder / name).write_text(text)
        self.address = path.as_uri()
        settings = json.loads(json.dumps(server.settings).replace("./schema.json", (folder / "schema.json").as_uri()))
        self.client = Client(server.command, folder, settings)
        try:
            self._introduce(folder)
        except Failure:
            self.client.close()
            raise

    def _introduce(self, folder):
        root = {"uri": folder.as_uri(), "name": "courts"}
        came, said = self._ask("initialize", {
            "processId": os.getpid(),
            "rootUri": root["uri"],
            "workspaceFolders": [root],
            "capabilities": ABILITIES,
            "initializationOptions": self.server.options,
        })
        self.seconds_to_start = came - self.client.started
        can = said["result"]["capabilities"]
        self.pulls = bool(can.get("diagnosticProvider"))
        sync = can.get("textDocumentSync")
        self.takes_parts = (sync if isinstance(sync, int) else sync.get("change")) == 2
        self._tell("initialized", {})
        if self.client.settings:
            self._tell("workspace/didChangeConfiguration", {"settings": self.client.settings})

    def open(self):
        """Opens the document, and waits for its findings."""
        self._tell("textDocument/didOpen", {"textDocument": {
            "uri": self.address,
            "languageId": self.document.language,
            "version": self.version,
            "text": self.document.text,
        }})
        if self.pulls and not self._findings(b"")[1]:
            raise Failure("finds none of the mistakes")
        if not self.pulls:
            self._settle()

    def seconds_to_findings(self, edits=1):
        """Types so many characters in one go. Gives the seconds from the first
        to the findings about the last."""
        if not self.pulls:
            raise Failure("gives no findings when asked")
        return self._findings(b"".join(self._edit() for _ in range(edits)))[0]

    def seconds_to_answer(self, what):
        """Types a character and asks in the same breath. Gives the seconds to
        the answer; the findings are waited for before the next."""
        method, named = REQUESTS[what]
        number, request = self.client.request(method, self._params(named))
        began = self.client.send(self._edit() + request)
        came, said = self.client.answer(number)
        if "error" in said:
            raise Failure(f"refuses: {said['error'].get('message', '')[:60]}")
        result = said["result"]
        if not result and what not in MAY_BE_EMPTY:
            raise Failure("answers nothing")
        if isinstance(result, dict) and "resultId" in result:
            self.last_tokens = result["resultId"]
        self._settle()
        return came - began

    def processor_time(self):
        return processor_time(self.client.process.pid)

    def peak_memory(self):
        return peak_memory(self.client.process.pid)

    def close(self):
        self.client.close()

    def _edit(self):
        line, column = self.document.number_at
        digit = "" if self.typed else str(1 + self.version // 2 % 9)
        start, end = {"line": line, "character": column}, {"line": line, "character": column + self.typed}
        change = {"range": {"start": start, "end": end}, "text": digit}
        if not self.takes_parts:
            change = {"text": self.document.with_digit(digit)}
        self.typed = not self.typed
        self.version += 1
        return message(method="textDocument/didChange", params={
            "textDocument": {"uri": self.address, "version": self.version},
            "contentChanges": [change],
        })

    def _findings(self, before):
        """Sends what comes before, asks for the findings right behind it, and
        gives the seconds to them, and them."""
        began = None
        while True:
            number, request = self.client.request("textDocument/diagnostic", {"textDocument": {"uri": self.address}})
            sent = self.client.send(before + request)
            began, before = began or sent, b""
            came, said = self.client.answer(number)
            if said.get("error", {}).get("code") in ASK_AGAIN:
                continue
            if "error" in said:
                raise Failure(f"refuses: {said['error'].get('message', '')[:60]}")
            return came - began, said["result"].get("items", [])

    def _settle(self):
        """Waits until the server is done with the last edit."""
        if self.pulls:
            self._findings(b"")
        else:
            self.client.wait_published(self.address, self.version, patience=0.5)

    def _params(self, named):
        line, column = self.document.key_at
        first = max(0, line - 30)
        everything = {
            "key": {"position": {"line": line, "character": column}},
            "view": {"range": {
                "start": {"line": first, "character": 0},
                "end": {"line": min(first + 60, len(self.document.lines) - 1), "character": 0},
            }},
            "last tokens": {"previousResultId": self.last_tokens},
            "options": {"options": {"tabSize": 2, "insertSpaces": True}},
        }
        params = {"textDocument": {"uri": self.address}}
        for name in named:
            params |= everything[name]
        return params

    def _ask(self, method, params):
        number, request = self.client.request(method, params)
        self.client.send(request)
        came, said = self.client.answer(number)
        if "error" in said:
            raise Failure(f"refuses to start: {said['error'].get('message', '')[:60]}")
        return came, said

    def _tell(self, method, params):
        self.client.send(message(method=method, params=params))

