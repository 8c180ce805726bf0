// The line of figures over a surface opens the take-off when it is clicked.

import type { Middleware } from "vscode-languageclient/node";

export function opening(): Middleware {
  return {
    provideCodeLenses: async (document, token, next) => {
      const lenses = (await next(document, token)) ?? [];
      for (const { command } of lenses) {
        if (command?.command !== "") continue;
        command.command = "drylay.openTakeoff";
        command.tooltip = "Take-off beside the text";
      }
      return lenses;
    },
  };
}
