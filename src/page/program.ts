// Runs the program and reads what it says. All numbers and sentences shown come from here.
import type { Engine, InputFile, Progress, RunResult } from "./engine-types";
import { forPage } from "./words";

export interface Finding {
  code?: string;
  message: string;
}

export interface Answer<T> {
  exit: number;
  json: T;
  text: string[];
  files: Map<string, Blob>;
}

/** The program said no (exit 1) or could not read something (exit 2); the message is its own. */
export class Refusal extends Error {
  constructor(
    message: string,
    readonly exit: number,
    readonly json: Record<string, unknown> | null,
    readonly files: Map<string, Blob>,
  ) {
    super(forPage(message).trim());
  }
}

// What the JSON says to people.
const SENTENCES = new Set(["message", "title", "caption", "alt"]);

function parsed(result: RunResult): Record<string, unknown> | null {
  try {
    return JSON.parse(result.stdout, (key, value: unknown) => (SENTENCES.has(key) && typeof value === "string" ? forPage(value) : value)) as Record<string, unknown>;
  } catch {
    return null;
  }
}

function plain(stderr: string): string {
  return stderr.replace(/^versolay: /gm, "").trim();
}

/** Command lines are for the command line: the page has buttons for what comes next. */
function withoutNext(text: string): string[] {
  const lines = text.split("\n");
  const next = lines.findIndex((line) => /^Next: /.test(line));
  return forPage((next < 0 ? lines : lines.slice(0, next)).join("\n")).trim().split("\n");
}

export class Program {
  constructor(readonly engine: Engine) {}

  /** One JSON document; `T` is its schema in src/schemas. */
  async json<T>(
    argv: string[],
    files: InputFile[] = [],
    onProgress?: (p: Progress) => void,
  ): Promise<Answer<T>> {
    const result = await this.engine.run([...argv, "--json", "--no-job", "--force"], files, onProgress);
    const json = parsed(result);
    if (result.exit === 1 || result.exit === 2 || !json) {
      const said = (json?.refused ?? json?.error) as Finding | undefined;
      const message = said?.message || plain(result.stderr) || `The program ended with ${result.exit}.`;
      throw new Refusal(message, result.exit, json, result.files);
    }
    return { exit: result.exit, json: json as T, text: [], files: result.files };
  }

  /** The sentences of the text output, line by line, without the hint at the next command. */
  async text(
    argv: string[],
    files: InputFile[] = [],
    onProgress?: (p: Progress) => void,
  ): Promise<Answer<null>> {
    const result = await this.engine.run([...argv, "--no-job", "--force"], files, onProgress);
    if (result.exit === 1 || result.exit === 2) {
      const message = plain(result.stderr) || result.stdout.trim();
      throw new Refusal(message || `The program ended with ${result.exit}.`, result.exit, null, result.files);
    }
    const notes = forPage(plain(result.stderr)).trim();
    const text = withoutNext(result.stdout);
    return {
      exit: result.exit,
      json: null,
      text: notes ? [...text, "", ...notes.split("\n")] : text,
      files: result.files,
    };
  }
}
