// Files that the build puts in.
declare module "*.json" {
  const text: string; // as it is
  export default text;
}
declare module "engine-worker" {
  const script: string;
  export default script;
}
// The folder of the engine: see ENGINE.md.
declare module "versolay-engine/versolay.mjs" {
  const factory: unknown;
  export default factory;
}
declare module "versolay-engine/codes.mjs" {
  export const prepareCodes: unknown;
}
declare module "versolay-engine/engine.js" {
  export class EngineFailure extends Error {}
  export interface Runner {
    run(
      argv: string[],
      files: { path: string; data: Blob | string }[],
      onProgress: (progress: { what: string; done: number; total: number }) => void,
    ): Promise<{ exit: number; stdout: string; stderr: string; files: Map<string, Uint8Array> }>;
  }
  export function makeEngine(parts: {
    versolay: unknown;
    readCodes: unknown;
    wasm: ArrayBuffer;
    codesWasm: ArrayBuffer;
  }): Promise<Runner>;
}
