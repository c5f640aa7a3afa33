// Answers requests with a module: one JSON text a line in, one a line out.
// Arguments: the module's folder, and how to ask it: `text`, `plans`,
// `points`, `findings`, `boxes` or `objects`.
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { pathToFileURL } from "node:url";

const [folder, face] = process.argv.slice(2);
const module = await import(pathToFileURL(join(folder, "coilwright.js")));
await module.default({ module_or_path: readFileSync(join(folder, "coilwright_bg.wasm")) });

const ask = {
  text: module.configurations_json,
  plans: module.wiring_json,
  points: module.readings_json,
  findings: module.diagnose_json,
  boxes: module.closed_box_json,
  objects: (text) => JSON.stringify(module.configurations(JSON.parse(text))),
}[face];
const requests = readFileSync(0, "utf8").split("\n").filter((line) => line !== "");
process.stdout.write(requests.map((text) => ask(text) + "\n").join(""));
