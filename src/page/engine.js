// The program as a function: ENGINE.md. One fresh instance for each command, so that nothing of one
// run is left for the next, memory included.

const JOB = "/job";
const GIVEN = "/given";

/** The program died: out of memory, or a fault in it. The next run is not affected. */
export class EngineFailure extends Error {}

/** Bytes of a text that is written byte by byte; lines that `take` wants are not part of it. */
class Output {
  #bytes = new Uint8Array(4096);
  #length = 0;
  #lineStart = 0;
  #takeLine;

  constructor(takeLine = () => false) {
    this.#takeLine = takeLine;
  }

  put(byte) {
    if (byte === null) return;
    if (this.#length === this.#bytes.length) {
      const larger = new Uint8Array(2 * this.#length);
      larger.set(this.#bytes);
      this.#bytes = larger;
    }
    this.#bytes[this.#length++] = byte;
    if (byte !== 10) return;
    if (this.#takeLine(this.#text(this.#lineStart))) this.#length = this.#lineStart;
    this.#lineStart = this.#length;
  }

  #text(from) {
    return new TextDecoder().decode(this.#bytes.subarray(from, this.#length));
  }

  toString() {
    return this.#text(0);
  }
}

function folderOf(path) {
  return path.slice(0, path.lastIndexOf("/"));
}

/** Puts the inputs where the program runs. Blobs stay where they are and are read from there. */
function putInputs(program, files) {
  const { FS, WORKERFS } = program;
  const blobs = files.filter((file) => file.data instanceof Blob);
  FS.mkdir(JOB);
  FS.chdir(JOB);
  if (blobs.length > 0) {
    FS.mkdir(GIVEN);
    const named = blobs.map((file, i) => ({ name: String(i), data: file.data }));
    FS.mount(WORKERFS, { blobs: named }, GIVEN);
  }
  for (const { path, data } of files) {
    const place = `${JOB}/${path}`;
    FS.mkdirTree(folderOf(place));
    if (data instanceof Blob) {
      FS.symlink(`${GIVEN}/${blobs.findIndex((file) => file.path === path)}`, place);
    } else {
      FS.writeFile(place, data instanceof ArrayBuffer ? new Uint8Array(data) : data);
    }
  }
}

/** All ordinary files below the folder of the job: path -> node. */
function filesOfJob({ FS }, folder = JOB, found = new Map()) {
  for (const name of FS.readdir(folder)) {
    if (name === "." || name === "..") continue;
    const path = `${folder}/${name}`;
    const node = FS.lookupPath(path, { follow: false }).node;
    if (FS.isDir(node.mode)) filesOfJob({ FS }, path, found);
    else if (FS.isFile(node.mode)) found.set(path.slice(JOB.length + 1), node);
  }
  return found;
}

/** What the program says of its progress on stderr: `onProgress` gets it, nobody else. */
function progressLines(onProgress) {
  return (line) => {
    if (!line.startsWith('{"progress":')) return false;
    const { what, done, total } = JSON.parse(line).progress;
    onProgress?.({ what, done, total });
    return true;
  };
}

/**
 * Compiles the program and the reader of codes; see ENGINE.md.
 * Resolves to an object with `run(argv, files, onProgress)` and `module`, the compiled program.
 */
export async function makeEngine({ versolay, readCodes, wasm, codesWasm, environment = {} }) {
  const module = wasm instanceof WebAssembly.Module ? wasm : await WebAssembly.compile(wasm);
  const readCode = await readCodes(codesWasm);

  async function instance(options) {
    return versolay({
      ...options,
      readCode,
      noExitRuntime: true,
      instantiateWasm(imports, done) {
        WebAssembly.instantiate(module, imports).then((made) => done(made, module));
        return {};
      },
    });
  }

  async function run(argv, files = [], onProgress) {
    const stdout = new Output();
    const stderr = new Output(progressLines(onProgress));
    let exit;
    try {
      const program = await instance({
        thisProgram: "versolay",
        stdin: () => null,
        stdout: (byte) => stdout.put(byte),
        stderr: (byte) => stderr.put(byte),
        preRun: [
          ({ ENV }) =>
            Object.assign(ENV, {
              HOME: "/home",
              VERSOLAY_DATA: "/share",
              VERSOLAY_FONT_DIR: "/share/fonts",
              VERSOLAY_PROGRESS: "lines",
              ...environment,
            }),
        ],
      });
      program._umask(0o022); // emscripten starts with one that forbids everything
      putInputs(program, files);
      const before = filesOfJob(program);
      for (const node of before.values()) node.timestamp = 0;
      exit = program.callMain([...argv]);
      const written = new Map();
      for (const [path, node] of filesOfJob(program)) {
        if (before.get(path) === node && node.timestamp === 0) continue;
        written.set(path, program.FS.readFile(`${JOB}/${path}`));
      }
      return { exit, stdout: stdout.toString(), stderr: stderr.toString(), files: written };
    } catch (fault) {
      const said = stderr.toString().trim();
      throw new EngineFailure([fault?.message ?? String(fault), said].filter(Boolean).join("\n"), {
        cause: fault,
      });
    }
  }

  return { run, module };
}
