// Runs the program and reads what it says. All numbers and sentences shown come from here.
import type { Engine, InputFile, Progress, RunResult } from "./engine-types";
import { forPage } from "./words";

export interface Finding {
  code?: string;
  message: string;
  files?: string[]; // that it is about
}

/** A sentence of the text that has a place of its own. */
export interface Part {
  about: string;
  message: string;
}

/** What the program says when it fails. */
interface Failure {
  message: string;
  option?: string; // that is at fault
  problems?: Finding[];
}

export interface Answer<T> {
  exit: number;
  json: T;
  text: string[]; // what a person would read
  files: Map<string, Blob>;
}

/** The program said no (exit 1) or could not read something (exit 2); the message is its own. */
export class Refusal extends Error {
  constructor(
    message: string,
    readonly exit: number,
    readonly json: Record<string, unknown> | null,
    readonly files: Map<string, Blob>,
    /** The option that is at fault, and what is wrong with it. */
    readonly option?: string,
    readonly problem?: string,
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

/** What a person would read, line by line. */
function linesOf(text: unknown): string[] {
  return forPage(typeof text === "string" ? text : "").trim().split("\n");
}

export class Program {
  constructor(readonly engine: Engine) {}

  /** The sentence of the text about something; empty where there is none. */
  static part(json: { parts?: Part[] }, about: string): string {
    return json.parts?.find((one) => one.about === about)?.message ?? "";
  }

  /** One JSON document; `T` is its schema in src/schemas. */
  async json<T>(
    argv: string[],
    files: InputFile[] = [],
    onProgress?: (p: Progress) => void,
  ): Promise<Answer<T>> {
    const result = await this.engine.run([...argv, "--json", "--no-job", "--force"], files, onProgress);
    const json = parsed(result);
    if (result.exit === 1 || result.exit === 2 || !json) {
      const failed = json?.error as Failure | undefined;
      const said = (json?.refused as Finding | undefined) ?? failed;
      const message = said?.message || plain(result.stderr) || `The program ended with ${result.exit}.`;
      throw new Refusal(message, result.exit, json, result.files, failed?.option, failed?.problems?.[0]?.message);
    }
    return { exit: result.exit, json: json as T, text: linesOf(json.text), files: result.files };
  }

  /** The same; the text ends with what is said in warning. */
  async text(
    argv: string[],
    files: InputFile[] = [],
    onProgress?: (p: Progress) => void,
  ): Promise<Answer<{ warnings?: Finding[] }>> {
    const answer = await this.json<{ warnings?: Finding[] }>(argv, files, onProgress);
    const notes = (answer.json.warnings ?? []).map((one) => one.message);
    return { ...answer, text: notes.length ? [...answer.text, "", ...notes] : answer.text };
  }
}
