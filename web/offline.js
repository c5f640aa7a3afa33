// Keeps the page on the device, so that it opens with no network. `cargo xtask build` puts
// the line with KEPT before this: a version, and every file of the page with its SHA-256.
//
// A version is kept whole or not at all: a file that the server does not have, or has
// otherwise, makes the install fail, and the version before stays. And a version waits: it
// takes over when no page of the one before is open, or when somebody asks for it.
"use strict";

const SCOPE = registration.scope;
// A scope is an address, so it holds no blank.
const OURS = `coilwright ${SCOPE} `;
const NAME = OURS + KEPT.version;
const PAGE = "index.html";

const others = async () =>
  (await caches.keys()).filter((name) => name.startsWith(OURS) && name !== NAME);

const kept = (name) => caches.match(name, { cacheName: NAME, ignoreVary: true });

async function is(answer, integrity) {
  const sum = await crypto.subtle.digest("SHA-256", await answer.clone().arrayBuffer());
  return `sha256-${btoa(String.fromCharCode(...new Uint8Array(sum)))}` === integrity;
}

// What a version before has already, the network is not asked for.
async function fromBefore(names, name, integrity) {
  for (const cacheName of names) {
    const answer = await caches.match(name, { cacheName, ignoreVary: true });
    if (answer !== undefined && (await is(answer, integrity))) return answer;
  }
  return null;
}

async function fromServer(name, integrity) {
  // A name made of its content cannot be outdated in the browser's own store, but that
  // store can be spoilt.
  const first = /-[0-9a-f]{16}\./.test(name) ? "default" : "no-cache";
  const ask = (cache) => fetch(new Request(name, { integrity, cache }));
  const answer = await ask(first).catch(() => ask("reload"));
  if (!answer.ok) throw new Error(`${name}: ${answer.status}`);
  // Some servers send index.html on to the folder. No page may be opened with such an answer.
  return answer.redirected ? new Response(answer.body, { headers: answer.headers }) : answer;
}

async function keep() {
  const before = await others();
  const cache = await caches.open(NAME);
  const put = async ([name, integrity]) => {
    const answer = await fromBefore(before, name, integrity);
    await cache.put(name, answer ?? (await fromServer(name, integrity)));
  };
  try {
    await Promise.all(Object.entries(KEPT.files).map(put));
  } catch (error) {
    await caches.delete(NAME);
    throw error;
  }
}

const forget = async (names) => Promise.all(names.map((name) => caches.delete(name)));

// The way out of a version that does not work: the server's page, and nothing kept. Where
// the server does not answer there is nothing to go out to, and all stays as it was.
async function leave(address) {
  const answer = await fetch(address, { cache: "reload", redirect: "manual" }).catch(() => null);
  if (answer === null || !(answer.ok || answer.type === "opaqueredirect"))
    return (await kept(PAGE)) ?? answer ?? Response.error();
  await registration.unregister();
  await forget([...(await others()), NAME]);
  return answer;
}

addEventListener("install", (event) => event.waitUntil(keep()));
addEventListener("activate", (event) => event.waitUntil(others().then(forget)));
addEventListener("message", (event) => {
  if (event.data === "take over") skipWaiting();
});
addEventListener("fetch", (event) => {
  const { method, mode, url } = event.request;
  const address = new URL(url);
  if (method !== "GET" || !(address.origin + address.pathname).startsWith(SCOPE)) return;
  const name = (address.origin + address.pathname).slice(SCOPE.length) || PAGE;
  if (!Object.hasOwn(KEPT.files, name)) return;
  const leaves = mode === "navigate" && name === PAGE && address.searchParams.has("off");
  // What the browser has thrown away may still be had.
  const given = async () => (await kept(name)) ?? fetch(event.request);
  event.respondWith(leaves ? leave(url) : given());
});
