// A browser without a screen, by the WebDriver protocol (W3C) that chromedriver speaks, and
// a server of folders for it. Nothing of either leaves this machine.
import { spawn } from "node:child_process";
import { readFile } from "node:fs/promises";
import { createServer } from "node:http";
import { extname, join, normalize } from "node:path";

const KINDS = {
  ".css": "text/css",
  ".html": "text/html; charset=utf-8",
  ".js": "text/javascript; charset=utf-8",
  ".json": "application/json",
  ".mjs": "text/javascript; charset=utf-8",
  ".wasm": "application/wasm",
};

/** Serves a folder on a free port: its address and what ends it. */
export async function serve(folder, headers = {}) {
  const server = createServer(async (asked, answer) => {
    const path = normalize(new URL(asked.url, "http://here").pathname);
    const file = join(folder, path.endsWith("/") ? `${path}index.html` : path);
    try {
      const body = await readFile(file);
      answer.writeHead(200, { "Content-Type": KINDS[extname(file)] ?? "application/octet-stream", ...headers });
      answer.end(body);
    } catch {
      answer.writeHead(404).end("not here");
    }
  });
  await new Promise((done) => server.listen(0, "127.0.0.1", done));
  const close = () => {
    server.closeAllConnections();
    return new Promise((done) => server.close(done));
  };
  return { address: `http://127.0.0.1:${server.address().port}/`, close };
}

const FLAGS = [
  "--headless=new", "--no-sandbox", "--disable-gpu", "--disable-dev-shm-usage", "--no-first-run",
  "--disable-background-networking", "--disable-component-update", "--disable-sync",
];

/** Starts a browser: opens pages, runs scripts in them, and quits. */
export async function browser() {
  const driver = spawn("chromedriver", ["--port=0"], { stdio: ["ignore", "pipe", "ignore"] });
  const port = await new Promise((done, failed) => {
    let said = "";
    driver.on("error", (error) => failed(new Error("chromedriver could not be started: is it installed?", { cause: error })));
    driver.on("exit", (code) => failed(new Error(`chromedriver ended with ${code}`)));
    driver.stdout.on("data", (bytes) => {
      said += bytes;
      const found = /successfully on port (\d+)/.exec(said);
      if (found) done(found[1]);
    });
  });
  let session = "";
  const ask = async (method, path, body) => {
    const answer = await fetch(`http://127.0.0.1:${port}/session${session}${path}`, {
      method,
      ...(body === undefined ? {} : { body: JSON.stringify(body) }),
    });
    const { value } = await answer.json();
    if (!answer.ok) throw new Error(`${path}: ${value.message}`);
    return value;
  };
  try {
    const chrome = { browserName: "chrome", "goog:chromeOptions": { args: FLAGS } };
    const begun = await ask("POST", "", { capabilities: { alwaysMatch: chrome } });
    session = `/${begun.sessionId}`;
  } catch (error) {
    driver.kill();
    throw error;
  }
  const run = (script, ...args) => ask("POST", "/execute/sync", { script, args });
  return {
    open: (url) => ask("POST", "/url", { url }),
    run,
    /** What a script returns, as soon as it is no longer null. */
    async until(script, ...args) {
      for (const end = Date.now() + 20_000; ; ) {
        const value = await run(script, ...args);
        if (value !== null) return value;
        if (Date.now() > end) throw new Error(`not in 20 s: ${script}`);
        await new Promise((done) => setTimeout(done, 50));
      }
    },
    /** The role of an element, and what it is called, as assistive technology is told. */
    async told(selector) {
      const found = await ask("POST", "/element", { using: "css selector", value: selector });
      const [element] = Object.values(found);
      const ways = ["computedrole", "computedlabel"];
      return Promise.all(ways.map((way) => ask("GET", `/element/${element}/${way}`)));
    },
    async quit() {
      await ask("DELETE", "");
      driver.kill();
    },
  };
}
