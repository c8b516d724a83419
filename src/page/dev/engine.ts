// For development only, never shipped: the native program behind the same interface. Whoever opens
// the page (tests/page/dev.mjs) lends it as window.versolayNative.
import { Stopped, type Engine, type InputFile, type Progress, type RunResult } from "../engine-types";

interface Sent {
  exit: number;
  stdout: string;
  stderr: string;
  files: { path: string; base64: string }[];
}
declare global {
  interface Window {
    versolayNative(argv: string[], files: { path: string; base64: string }[]): Promise<Sent>;
  }
}

async function base64Of(data: Blob | string): Promise<string> {
  const blob = typeof data === "string" ? new Blob([data]) : data;
  return new Promise((resolve, reject) => {
    const reader = new FileReader();
    reader.onload = () => resolve(String(reader.result).replace(/^[^,]*,/, ""));
    reader.onerror = () => reject(reader.error);
    reader.readAsDataURL(blob);
  });
}

function blobOf(base64: string): Blob {
  return new Blob([Uint8Array.from(atob(base64), (letter) => letter.charCodeAt(0))]);
}

class NativeEngine implements Engine {
  private queue: Promise<unknown> = Promise.resolve();
  private stopped = 0;
  private waiting = 0;
  get busy(): boolean {
    return this.waiting > 0;
  }
  run(argv: string[], files: InputFile[], onProgress?: (p: Progress) => void): Promise<RunResult> {
    const generation = this.stopped;
    const work = this.queue.then(async () => {
      const sent: { path: string; base64: string }[] = [];
      for (const [at, file] of files.entries()) {
        sent.push({ path: file.path, base64: await base64Of(file.data) });
        onProgress?.({ what: "", done: at, total: files.length });
      }
      const result = await window.versolayNative(argv, sent);
      if (generation !== this.stopped) throw new Stopped();
      return { ...result, files: new Map(result.files.map((file) => [file.path, blobOf(file.base64)])) };
    });
    this.waiting += 1;
    this.queue = work.catch(() => undefined).finally(() => (this.waiting -= 1));
    return work;
  }
  stop(): void {
    this.stopped += 1;
  }
}

export const makeEngine = (): Engine => new NativeEngine();
