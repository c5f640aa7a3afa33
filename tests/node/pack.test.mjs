// The folder is an npm package: packed, installed into an empty project without any
// network, and used from there.
import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { test } from "node:test";
import { folder, wasmName } from "./load.mjs";

const PROGRAM = `
import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import init, { configurations } from "coilwright";
import answer from "coilwright/schema/answer.json" with { type: "json" };

const wasm = fileURLToPath(import.meta.resolve("coilwright/${wasmName}"));
await init({ module_or_path: readFileSync(wasm) });
const { loads, problems } = configurations({ drivers: [{ count: 2, coils: 1, ohms: 2 }] });
console.log(JSON.stringify({ loads: loads.map(({ exact }) => exact), problems, title: answer.title }));
`;

test("npm packs it, an empty project installs it, and it works there", () => {
  const place = mkdtempSync(join(tmpdir(), "coilwright-pack-"));
  const run = (program, args, cwd) =>
    execFileSync(program, args, { cwd, encoding: "utf8", stdio: ["ignore", "pipe", "pipe"] });
  try {
    const [packed] = JSON.parse(run("npm", ["pack", folder, "--json", "--pack-destination", place], place));
    const files = packed.files.map(({ path }) => path);
    for (const name of ["coilwright.js", "coilwright.d.ts", wasmName, "package.json", "schema/answer.json"]) {
      assert.ok(files.includes(name), `${name} is not in ${files.join(" ")}`);
    }
    const project = join(place, "project");
    mkdirSync(project);
    writeFileSync(join(project, "package.json"), '{ "name": "empty", "private": true, "type": "module" }');
    writeFileSync(join(project, "use.mjs"), PROGRAM);
    run("npm", ["install", "--offline", "--ignore-scripts", "--no-audit", "--no-fund", join(place, packed.filename)], project);
    const said = JSON.parse(run("node", ["--no-warnings", "use.mjs"], project));
    assert.deepEqual(said, { loads: ["1", "4"], problems: [], title: "Answer" });
  } finally {
    rmSync(place, { recursive: true });
  }
});
