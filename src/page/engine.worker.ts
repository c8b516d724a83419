// Owns the program. Every run is a fresh instance: its memory and state vanish with it.
import { EngineFailure, makeEngine, type Runner } from "versolay-engine/engine.js";
import { prepareCodes } from "versolay-engine/codes.mjs";
import versolay from "versolay-engine/versolay.mjs";
import type { Order, Reply } from "./engine";

const reply = (message: Reply) => (self as unknown as { postMessage(m: Reply): void }).postMessage(message);

async function unpacked(base64: string): Promise<ArrayBuffer> {
  const packed = Uint8Array.from(atob(base64.trim()), (letter) => letter.charCodeAt(0));
  const stream = new Blob([packed]).stream().pipeThrough(new DecompressionStream("gzip"));
  return new Response(stream).arrayBuffer();
}

let engine: Promise<Runner> | null = null;

async function run(order: Extract<Order, { kind: "run" }>): Promise<void> {
  try {
    const result = await (await engine!).run(order.argv, order.files, (progress) => reply({ kind: "progress", progress }));
    const files = [...result.files].map(([path, bytes]): [string, Blob] => [path, new Blob([bytes as BlobPart])]);
    reply({ kind: "result", exit: result.exit, stdout: result.stdout, stderr: result.stderr, files });
  } catch (error) {
    const why = error instanceof Error ? error.message : String(error);
    reply({ kind: "failure", message: error instanceof EngineFailure ? why : `The program could not run: ${why}` });
  }
}

self.addEventListener("message", (event) => {
  const order = (event as MessageEvent<Order>).data;
  if (order.kind === "run") void run(order);
  else
    engine = Promise.all([unpacked(order.program), unpacked(order.codes)]).then(([wasm, codesWasm]) =>
      makeEngine({ versolay, readCodes: prepareCodes, wasm, codesWasm }),
    );
});
