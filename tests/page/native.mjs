// Lends the native program to a page that was built with `node src/page/build --native`.
import { execFile } from "node:child_process";
import { mkdir, mkdtemp, readdir, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { dirname, join, relative } from "node:path";

async function filesBelow(folder) {
  const found = [];
  for (const entry of await readdir(folder, { withFileTypes: true })) {
    const path = join(folder, entry.name);
    if (entry.isDirectory()) found.push(...(await filesBelow(path)));
    else found.push(path);
  }
  return found;
}

export async function lendNative(page, program) {
  await page.exposeFunction("versolayNative", async (argv, files) => {
    const folder = await mkdtemp(join(tmpdir(), "versolay-page-"));
    try {
      const given = new Set();
      for (const { path, base64 } of files) {
        await mkdir(dirname(join(folder, path)), { recursive: true });
        await writeFile(join(folder, path), Buffer.from(base64, "base64"));
        given.add(path);
      }
      for (const value of argv) if (value.includes("/") && !given.has(value)) await mkdir(dirname(join(folder, value)), { recursive: true }).catch(() => {});
      const [exit, stdout, stderr] = await new Promise((done) =>
        execFile(program, argv, { cwd: folder, maxBuffer: 1 << 28 }, (error, out, err) => done([error?.code ?? 0, out, err])),
      );
      const made = [];
      for (const path of await filesBelow(folder)) {
        const name = relative(folder, path);
        if (!given.has(name)) made.push({ path: name, base64: (await readFile(path)).toString("base64") });
      }
      return { exit, stdout, stderr, files: made };
    } finally {
      await rm(folder, { recursive: true });
    }
  });
}
