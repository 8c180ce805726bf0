// The language server: started, stopped, started again.

import * as vscode from "vscode";
import { LanguageClient, RevealOutputChannelOn, State } from "vscode-languageclient/node";
import { forgetting } from "./closing";
import { Endurance } from "./enduring";
import { opening } from "./lenses";
import { findProgram, isTrouble, type Program, type Trouble } from "./program";

// How long a server that has ended may take to be started anew by its client, in
// milliseconds.
const PATIENCE = 5_000;

export type Standing =
  | { readonly is: "starting" }
  | { readonly is: "running"; readonly program: Program }
  | { readonly is: "stopped" }
  | { readonly is: "without program"; readonly trouble: Trouble };

export class Server implements vscode.Disposable {
  readonly output = vscode.window.createOutputChannel("Patio", { log: true });
  private readonly changed = new vscode.EventEmitter<Standing>();
  readonly onDidChange = this.changed.event;
  private current: Standing = { is: "stopped" };
  private client: LanguageClient | undefined;
  private endurance = new Endurance();
  // Starts and stops are made one after the other.
  private queue: Promise<void> = Promise.resolve();

  // The folder of the extension, in which its package may bring the program.
  constructor(private readonly extension: string) {}

  get standing(): Standing {
    return this.current;
  }

  // The client while the server runs.
  get running(): LanguageClient | undefined {
    return this.client?.state === State.Running ? this.client : undefined;
  }

  start(): Promise<void> {
    return this.next(() => this.open());
  }

  restart(): Promise<void> {
    this.endurance = new Endurance();
    return this.next(() => this.reopen());
  }

  stop(): Promise<void> {
    return this.next(() => this.close());
  }

  dispose(): void {
    this.changed.dispose();
    this.output.dispose();
  }

  private next(work: () => Promise<void>): Promise<void> {
    this.queue = this.queue.then(work, work);
    return this.queue;
  }

  private async reopen(): Promise<void> {
    await this.close();
    await this.open();
  }

  private async open(): Promise<void> {
    this.stand({ is: "starting" });
    const settings = vscode.workspace.getConfiguration("drylay");
    const found = await findProgram(settings.get("path", "drylay"), this.extension);
    if (isTrouble(found)) {
      this.output.error(`no program to work with: ${JSON.stringify(found)}`);
      this.stand({ is: "without program", trouble: found });
      return;
    }
    this.output.info(`${found.path} is drylay ${found.version}`);
    const run = { command: found.path, args: ["serve"] };
    const client = new LanguageClient("drylay", "Patio", run, {
      documentSelector: [
        { language: "patio", scheme: "file" },
        { language: "patio", scheme: "untitled" },
      ],
      initializationOptions: settings,
      middleware: { ...forgetting(), ...opening() },
      errorHandler: this.endurance,
      synchronize: { configurationSection: "drylay" },
      outputChannel: this.output,
      revealOutputChannelOn: RevealOutputChannelOn.Never,
    });
    this.client = client;
    client.onDidChangeState(({ newState }) => {
      if (client !== this.client) return;
      if (newState === State.Starting) this.stand({ is: "starting" });
      if (newState === State.Running) this.stand({ is: "running", program: found });
      if (newState === State.Stopped) this.ended(client);
    });
    try {
      await client.start();
    } catch (fault) {
      this.output.error(`${found.path} did not start: ${String(fault)}`);
      if (client.state === State.Stopped) this.ended(client);
    }
  }

  // A server has ended by itself. If its client, which then starts it anew, has
  // failed to do so, another client does.
  private ended(client: LanguageClient): void {
    this.stand({ is: "stopped" });
    const again = async () => {
      if (client !== this.client || client.state !== State.Stopped || this.endurance.isOver) return;
      this.endurance.end();
      await this.reopen();
    };
    setTimeout(() => void this.next(again), PATIENCE);
  }

  private async close(): Promise<void> {
    const client = this.client;
    this.client = undefined;
    if (client?.needsStop()) await client.stop().catch((fault) => this.output.warn(String(fault)));
    await client?.dispose().catch(() => undefined);
    this.stand({ is: "stopped" });
  }

  private stand(standing: Standing): void {
    this.current = standing;
    this.changed.fire(standing);
  }
}
