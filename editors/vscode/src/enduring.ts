// A server that ends is started anew, unless it ends over and over. Whatever
// could not be written to it meanwhile is no reason to give it up.

import {
  CloseAction,
  type CloseHandlerResult,
  ErrorAction,
  type ErrorHandler,
  type ErrorHandlerResult,
} from "vscode-languageclient/node";

// So many ends within so long, in milliseconds, are too many.
const TOO_MANY = 5;
const PERIOD = 180_000;

export class Endurance implements ErrorHandler {
  private ends: number[] = [];

  // Whether it has ended too often to be started again unasked.
  get isOver(): boolean {
    return this.ends.length >= TOO_MANY;
  }

  // Takes down that it has ended.
  end(): void {
    const now = Date.now();
    this.ends = [...this.ends.filter((end) => now - end < PERIOD), now];
  }

  error(): ErrorHandlerResult {
    return { action: ErrorAction.Continue, handled: true };
  }

  closed(): CloseHandlerResult {
    this.end();
    if (!this.isOver) return { action: CloseAction.Restart, handled: true };
    return {
      action: CloseAction.DoNotRestart,
      message: `Specs are no longer checked: the program ended ${TOO_MANY} times in a few minutes. Its output, under Patio, may tell why.`,
    };
  }
}
