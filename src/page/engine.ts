// Runs the program in a worker of its own. A worker that dies is replaced; what waits, waits on.
import workerScript from "engine-worker";
import { EngineFailure, Stopped, type Engine, type InputFile, type Progress, type RunResult } from "./engine-types";

/** From the worker. */
export type Reply =
  | { kind: "progress"; progress: Progress }
  | { kind: "result"; exit: number; stdout: string; stderr: string; files: [string, Blob][] }
  | { kind: "failure"; message: string };

/** To the worker: once the program and its reader of codes (gzip in base64), then runs. */
export type Order =
  | { kind: "program"; program: string; codes: string }
  | { kind: "run"; argv: string[]; files: InputFile[] };

interface Going {
  resolve(result: RunResult): void;
  reject(error: Error): void;
  onProgress?: (p: Progress) => void;
}

class WorkerEngine implements Engine {
  private worker: Worker | null = null;
  private going: Going | null = null;
  private queue: Promise<unknown> = Promise.resolve();
  private waiting = 0;

  get busy(): boolean {
    return this.waiting > 0;
  }

  run(argv: string[], files: InputFile[], onProgress?: (p: Progress) => void): Promise<RunResult> {
    const work = this.queue.then(() => this.runNow(argv, files, onProgress));
    this.waiting += 1;
    this.queue = work.catch(() => undefined).finally(() => (this.waiting -= 1));
    return work;
  }

  stop(): void {
    this.end(new Stopped());
  }

  private runNow(argv: string[], files: InputFile[], onProgress?: (p: Progress) => void): Promise<RunResult> {
    return new Promise((resolve, reject) => {
      this.going = { resolve, reject, onProgress };
      try {
        this.worker ??= this.started();
        this.worker.postMessage({ kind: "run", argv, files } satisfies Order);
      } catch (error) {
        this.end(new EngineFailure(`The program could not be started: ${String(error)}`));
      }
    });
  }

  private started(): Worker {
    const address = URL.createObjectURL(new Blob([workerScript], { type: "text/javascript" }));
    const worker = new Worker(address);
    URL.revokeObjectURL(address);
    worker.addEventListener("message", (event: MessageEvent<Reply>) => this.heard(event.data));
    worker.addEventListener("error", (event) => {
      event.preventDefault();
      this.end(new EngineFailure(`The program stopped: ${event.message || "it could not be loaded"}.`));
    });
    const packed = (id: string) => document.getElementById(id)?.textContent ?? "";
    worker.postMessage({ kind: "program", program: packed("wasm-program"), codes: packed("wasm-codes") } satisfies Order);
    return worker;
  }

  private heard(reply: Reply): void {
    const going = this.going;
    if (!going) return;
    if (reply.kind === "progress") return going.onProgress?.(reply.progress);
    if (reply.kind === "failure") return this.end(new EngineFailure(reply.message));
    this.going = null;
    going.resolve({ exit: reply.exit, stdout: reply.stdout, stderr: reply.stderr, files: new Map(reply.files) });
  }

  // The next run starts a fresh worker.
  private end(error: Error): void {
    this.worker?.terminate();
    this.worker = null;
    const going = this.going;
    this.going = null;
    going?.reject(error);
  }
}

export const makeEngine = (): Engine => new WorkerEngine();
