// The folder is an npm package: packed, installed into an empty project without any
// network, and used from there by the README's example, as it stands, wherever JavaScript
// runs: in Node, on a plain page, in a worker, and through a bundler.
import assert from "node:assert/strict";
import { execFileSync, spawnSync } from "node:child_process";
import { mkdirSync, mkdtempSync, readFileSync, readdirSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { after, before, test } from "node:test";
import { fileURLToPath } from "node:url";
import { publint } from "publint";
import { formatMessage } from "publint/utils";
import * as vite from "vite";
import { browser, serve } from "./browser.mjs";

const root = fileURLToPath(new URL("../../", import.meta.url));
const folder = resolve(process.env.COILWRIGHT_MODULE ?? assert.fail("COILWRIGHT_MODULE must name the module's folder"));

/** The README's example, and what its comment says that it prints. */
const [example, ...more] = [...readFileSync(join(root, "README.md"), "utf8").matchAll(/^```js\n(.*?)^```$/gms)].map(
  ([, program]) => program,
);
const printed = JSON.parse(/console\.log\(.*\/\/ (".*?")/.exec(example)[1]);

const run = (program, args, cwd) =>
  execFileSync(program, args, { cwd, encoding: "utf8", stdio: ["ignore", "pipe", "pipe"] });

/** A page that gathers what is printed in it, and what fails. */
const page = (body) => `<!doctype html><meta charset="utf-8"><title>a page</title><link rel="icon" href="data:,">
<script>
  window.said = [];
  console.log = (...all) => void said.push(all.join(" "));
  addEventListener("error", (event) => said.push("failed: " + event.message));
  addEventListener("unhandledrejection", (event) => said.push("failed: " + event.reason));
</script>
${body}
`;

/** The same of a worker, which tells its page; and a page that starts it. */
const worker = (from) => `console.log = (...all) => postMessage(all.join(" "));
addEventListener("unhandledrejection", (event) => postMessage("failed: " + event.reason));
import(${JSON.stringify(from)}).catch((error) => postMessage("failed: " + error));
`;
const STARTS = `const worker = new Worker(new URL("./worker.js", import.meta.url), { type: "module" });
worker.onmessage = ({ data }) => console.log(data);
worker.onerror = ({ message }) => console.log("failed: " + message);
`;

let place, project, packed, chromium;

before(async () => {
  place = mkdtempSync(join(tmpdir(), "coilwright-pack-"));
  [packed] = JSON.parse(run("npm", ["pack", folder, "--json", "--pack-destination", place], place));
  project = join(place, "project");
  mkdirSync(project);
  const write = (name, text) => writeFileSync(join(project, name), text);
  write("package.json", '{ "name": "empty", "private": true, "type": "module" }');
  const tarball = join(place, packed.filename);
  run("npm", ["install", "--offline", "--ignore-scripts", "--no-audit", "--no-fund", tarball], project);
  write("example.js", example);
  // A plain page has to say where a package lies.
  const address = "./node_modules/coilwright/coilwright.js";
  const map = JSON.stringify({ imports: { coilwright: address } });
  write("plain.html", page(`<script type="importmap">${map}</script><script type="module" src="example.js"></script>`));
  // And a worker takes no such map: there the name itself is the address, and nothing else differs.
  const named = example.replace('from "coilwright"', `from "${address}"`);
  assert.notEqual(named, example);
  write("named.js", named);
  write("plain_worker.js", worker("./named.js"));
  write("plain_starts.js", STARTS.replace("worker.js", "plain_worker.js"));
  write("plain_worker.html", page('<script type="module" src="plain_starts.js"></script>'));
  write("index.html", page('<script type="module" src="./example.js"></script>'));
  write("worker.js", worker("./example.js"));
  write("starts.js", STARTS);
  write("worker.html", page('<script type="module" src="./starts.js"></script>'));
  chromium = await browser();
});

after(async () => {
  await chromium?.quit();
  rmSync(place, { recursive: true, force: true });
});

/** Opens a page: it prints what the example prints, and nothing more. */
async function prints(url) {
  await chromium.open(url);
  const said = await chromium.until("return said.length > 0 ? said : null");
  assert.deepEqual(said, [printed], url);
}

test("there is one example, and it says what it prints", () => {
  assert.deepEqual(more, []);
  assert.match(printed, /^1:/);
  assert.match(example, /await init\(\);/);
});

test("what is packed is what the package names, with one wasm", () => {
  const files = packed.files.map(({ path }) => path);
  const wasm = readdirSync(folder).filter((name) => name.endsWith(".wasm"));
  assert.deepEqual(wasm, ["coilwright_bg.wasm"]);
  for (const name of ["coilwright.js", "coilwright_node.js", "coilwright.d.ts", ...wasm, "package.json", "schema/answer.json"]) {
    assert.ok(files.includes(name), `${name} is not in ${files.join(" ")}`);
  }
});

test("the example runs in Node", () => {
  assert.equal(run("node", ["example.js"], project), `${printed}\n`);
});

test("the schemas and the bytes are reached by name", () => {
  writeFileSync(
    join(project, "named.mjs"),
    `import answer from "coilwright/schema/answer.json" with { type: "json" };
    import { readFileSync } from "node:fs";
    const wasm = readFileSync(new URL(import.meta.resolve("coilwright/coilwright_bg.wasm")));
    console.log(answer.title, WebAssembly.validate(wasm));`,
  );
  assert.equal(run("node", ["--no-warnings", "named.mjs"], project), "Answer true\n");
});

test("the example runs on a plain page and in a plain module worker", async () => {
  const server = await serve(project);
  try {
    await prints(`${server.address}plain.html`);
    await prints(`${server.address}plain_worker.html`);
  } finally {
    await server.close();
  }
});

/** The bundler as it is when nothing is configured, but for what the example needs of it: a
 * worker that waits at its top level is a module. */
const bundled = (more) => ({
  root: project,
  configFile: false,
  envFile: false,
  logLevel: "error",
  worker: { format: "es" },
  ...more,
});

test("the example runs through the bundler's dev server, on a page and in a worker", async () => {
  const server = await vite.createServer(bundled({ server: { host: "127.0.0.1", port: 0, watch: null, ws: false } }));
  try {
    await server.listen();
    const [address] = server.resolvedUrls.local;
    await prints(address);
    await prints(`${address}worker.html`);
  } finally {
    await server.close();
  }
});

test("the example runs as the bundler builds it, on a page and in a worker", async () => {
  const input = ["index.html", "worker.html"].map((name) => join(project, name));
  await vite.build(bundled({ build: { outDir: "built", rollupOptions: { input } } }));
  const built = readdirSync(join(project, "built", "assets"));
  assert.ok(built.some((name) => name.endsWith(".wasm")), built.join(" "));
  const server = await serve(join(project, "built"));
  try {
    await prints(server.address);
    await prints(`${server.address}worker.html`);
  } finally {
    await server.close();
  }
});

test("publint finds nothing, be it a suggestion", async () => {
  const { messages, pkg } = await publint({ pkgDir: folder, strict: true });
  assert.equal(pkg.name, "coilwright");
  assert.deepEqual(messages.map((message) => formatMessage(message, pkg)), []);
});

// ESM only is stated: what `require` resolves to is left out. So are the bytes, which are no
// module to import and have no types.
test("the types are right for whoever imports it", () => {
  const attw = join(root, "node_modules/@arethetypeswrong/cli/dist/index.js");
  const flags = ["--profile", "esm-only", "--exclude-entrypoints", "./coilwright_bg.wasm", "--no-definitely-typed"];
  const asked = [attw, join(place, packed.filename), ...flags, "--no-emoji", "--no-color", "--format", "ascii"];
  const { status, stdout, stderr } = spawnSync("node", asked, { cwd: place, encoding: "utf8" });
  assert.equal(status, 0, stdout + stderr);
  assert.match(stdout, /"coilwright"\s+node16 \(from ESM\): OK \(ESM\)\s+bundler: OK/);
});
