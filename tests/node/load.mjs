// The module as it ships, loaded from its bytes: COILWRIGHT_MODULE names its folder.
import { readFileSync, readdirSync } from "node:fs";
import { join, resolve } from "node:path";
import { pathToFileURL } from "node:url";

if (!process.env.COILWRIGHT_MODULE) {
  throw new Error("COILWRIGHT_MODULE must name the module's folder: `cargo xtask test --only module` sets it");
}

export const folder = resolve(process.env.COILWRIGHT_MODULE);
export const wasmName = readdirSync(folder).find((name) => name.endsWith(".wasm"));

export const exported = await import(pathToFileURL(join(folder, "coilwright.js")).href);

/** The memory of its wasm, caught as it is made: the module itself does not hand it out. */
export let memory;
const { instantiate } = WebAssembly;
WebAssembly.instantiate = async (...given) => {
  const made = await instantiate(...given);
  memory = (made.instance ?? made).exports.memory;
  return made;
};
await exported.default({ module_or_path: readFileSync(join(folder, wasmName)) });
WebAssembly.instantiate = instantiate;

export const { closed_box, configurations, diagnose, open, readings, wiring } = exported;
export const schema = (name) => JSON.parse(readFileSync(join(folder, "schema", name), "utf8"));

/** Two of Marigold's drivers and an amplifier, with fields in place of these. */
export const rig = (fields = {}) => ({
  drivers: [{ name: "Marigold, left", count: 2, coils: 2, ohms: 2, watts: 500 }],
  amplifier: {
    channels: [
      { least_ohms: 1, rated: [{ ohms: 4, watts: 500 }, { ohms: 2, watts: 800 }, { ohms: 1, watts: 1200 }] },
    ],
  },
  ...fields,
});

/** Paths and codes of an answer's problems, as one text each. */
export const told = (answer) => answer.problems.map(({ path, code }) => `${path} ${code}`);
