// The program as a function: what a command line takes, what it gives back.

export interface InputFile {
  path: string; // as the arguments name it, relative to the folder of the job
  data: Blob | string;
}

export interface RunResult {
  exit: number; // 0 done, 1 refused, 2 bad use or unreadable, 3 done with warnings
  stdout: string;
  stderr: string;
  files: Map<string, Blob>; // what the run wrote
}

/** How far a run is: `done` of `total` steps of `what`. */
export interface Progress {
  what: string;
  done: number;
  total: number;
}

export interface Engine {
  /** Whether a command runs or waits. */
  readonly busy: boolean;
  /** Runs one command. Runs wait for each other. Throws EngineFailure when the program died. */
  run(argv: string[], files: InputFile[], onProgress?: (p: Progress) => void): Promise<RunResult>;
  /** Ends the run that is going on; its promise rejects with Stopped. The next run starts afresh. */
  stop(): void;
}

export class EngineFailure extends Error {}
export class Stopped extends Error {
  constructor() {
    super("Stopped.");
  }
}
