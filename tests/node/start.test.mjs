// Loading the module: before it, twice, at once, after it failed, and from everything that
// it may be loaded from. The steps follow one another, since a process loads it once.
import assert from "node:assert/strict";
import { execFile } from "node:child_process";
import { readFileSync, writeFileSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { test } from "node:test";
import { pathToFileURL } from "node:url";
import Ajv2020 from "ajv/dist/2020.js";
import { serve } from "./browser.mjs";

const folder = resolve(process.env.COILWRIGHT_MODULE ?? assert.fail("COILWRIGHT_MODULE must name the module's folder"));
const entry = (name) => pathToFileURL(join(folder, name)).href;
const { default: init, ...functions } = await import(entry("coilwright_node.js"));
const PAIR = { drivers: [{ count: 2, coils: 1, ohms: 2 }] };
const SCHEMAS = {
  closed_box: "closed_box", configurations: "answer", diagnose: "diagnosis", open: "answer", readings: "readings",
  wiring: "wiring",
};
/** What a function answers; of a list that is opened its first page. */
const ask = (name, ...given) => (name === "open" ? functions.open(...given).page(0, 5) : functions[name](...given));

/** Every function answers that the module is not loaded, in the form of its contract. */
function notStarted() {
  assert.deepEqual(Object.keys(functions).sort(), Object.keys(SCHEMAS));
  for (const [name, schema] of Object.entries(SCHEMAS)) {
    const answer = ask(name, PAIR, "1a||2a", []);
    const validate = new Ajv2020({ strict: true }).compile(
      JSON.parse(readFileSync(join(folder, "schema", `${schema}.json`), "utf8")),
    );
    assert.ok(validate(answer), `${name}: ${JSON.stringify(validate.errors)}`);
    const [problem, ...more] = answer.problems;
    assert.deepEqual([problem.path, problem.code, more], ["", "not_started", []]);
    assert.match(problem.message, /await init\(\)/);
    // Whoever keeps the answer and changes it changes no other.
    answer.problems.length = 0;
    assert.equal(ask(name).problems.length, 1);
  }
}

test("before it is loaded every function says so and none throws", notStarted);

test("a load that fails can be tried again, and fails all that wait for it", async () => {
  await assert.rejects(init(new Uint8Array([0, 97, 115, 109, 9, 9, 9, 9])), WebAssembly.CompileError);
  notStarted();
  await assert.rejects(init(new URL(entry("no-such.wasm"))), { code: "ENOENT" });
  await assert.rejects(init({ module_or_path: Promise.reject(new Error("no way there")) }), /no way there/);
  await assert.rejects(init(5), TypeError);
  const server = await serve(folder);
  await assert.rejects(init(`${server.address}no-such.wasm`));
  await server.close();
  const both = [init(new Uint8Array(3)), init()];
  assert.deepEqual((await Promise.allSettled(both)).map(({ status }) => status), ["rejected", "rejected"]);
  notStarted();
});

test("asked for twice at once, and again, it is loaded once", async () => {
  const { instantiate } = WebAssembly;
  // Node loads a wasm of its own for its fetch.
  const { length } = readFileSync(join(folder, "coilwright_bg.wasm"));
  let loads = 0;
  WebAssembly.instantiate = (...given) => {
    if (given[0].byteLength === length) loads += 1;
    return instantiate(...given);
  };
  try {
    assert.deepEqual(await Promise.all([init(), init(), init({})]), [undefined, undefined, undefined]);
    // What is loaded stays, whatever else is named.
    await init(new Uint8Array(3));
  } finally {
    WebAssembly.instantiate = instantiate;
  }
  assert.equal(loads, 1);
  assert.deepEqual(functions.configurations(PAIR).loads.map(({ exact }) => exact), ["1", "4"]);
  assert.deepEqual(functions.wiring(PAIR, "1a||2a").problems, []);
});

const bytes = `readFileSync(new URL("coilwright_bg.wasm", base))`;
const SOURCES = {
  "nothing": "",
  "bytes": bytes,
  "bytes as an option": `{ module_or_path: ${bytes} }`,
  "a promise of bytes": `{ module_or_path: Promise.resolve(${bytes}) }`,
  "what is compiled already": `new WebAssembly.Module(${bytes})`,
  "a file's address": `new URL("coilwright_bg.wasm", base)`,
  "a file's address as text": `base + "coilwright_bg.wasm"`,
  "an answer to a request": `fetch(served + "coilwright_bg.wasm")`,
  "an address": `{ module_or_path: served + "coilwright_bg.wasm" }`,
};

test("it is loaded from whatever is named, without a word of warning", async () => {
  const place = mkdtempSync(join(tmpdir(), "coilwright-start-"));
  const server = await serve(folder);
  try {
    for (const [name, source] of Object.entries(SOURCES)) {
      const program = `import { readFileSync } from "node:fs";
        const base = ${JSON.stringify(`${pathToFileURL(folder).href}/`)};
        const served = ${JSON.stringify(server.address)};
        const { default: init, configurations } = await import(base + "coilwright_node.js");
        await init(${source});
        console.log(configurations(${JSON.stringify(PAIR)}).total);`;
      writeFileSync(join(place, "use.mjs"), program);
      const { stdout, stderr } = await started(join(place, "use.mjs"));
      assert.deepEqual([stdout, stderr], ["2\n", ""], name);
    }
  } finally {
    await server.close();
    rmSync(place, { recursive: true });
  }
});

/** Runs a program beside this one, which serves it. */
function started(program) {
  return new Promise((done, failed) => {
    execFile("node", [program], (error, stdout, stderr) => (error ? failed(error) : done({ stdout, stderr })));
  });
}
