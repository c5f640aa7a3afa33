// Times requests, one JSON text a line, in the module of the folder given: prints the
// least milliseconds of several runs, and the bytes that a fresh instance came to hold.
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { pathToFileURL } from "node:url";

const TIMES = 7;
const folder = process.argv[2];
// The binding's own script: the package loads once, and tells nothing of its memory.
const script = pathToFileURL(join(folder, "coilwright_glue.js"));
const bytes = readFileSync(join(folder, "coilwright_bg.wasm"));
const requests = readFileSync(0, "utf8").split("\n").filter((line) => line !== "");

for (const [i, text] of requests.entries()) {
  // A query makes it another module to Node, with an instance and a memory of its own.
  const { default: init, configurations } = await import(`${script}?${i}`);
  const { memory } = await init({ module_or_path: bytes });
  const request = JSON.parse(text);
  const milliseconds = [];
  for (let time = 0; time < TIMES; time += 1) {
    const start = performance.now();
    configurations(request);
    milliseconds.push(performance.now() - start);
  }
  console.log(
    JSON.stringify({ milliseconds: Math.min(...milliseconds), bytes: memory.buffer.byteLength }),
  );
}
