// Starts the page and owns the three states that the page itself cannot show:
// loading, failing to start, and stopped after a trap. It is a file of its own
// because the policy allows no inline script, and a plain script so that it
// also speaks up in a browser that cannot run the rest.
(() => {
  "use strict";

  const boot = document.getElementById("boot");
  const page = document.getElementById("page");
  let failed = false;

  try {
    if (localStorage.getItem("coilwright.sun")) document.documentElement.className = "sun";
  } catch {
    // Storage that is refused: the page is drawn as usual.
  }

  // Text in an element.
  function told(name, text) {
    const element = document.createElement(name);
    element.textContent = text;
    return element;
  }

  function button(text, press) {
    const element = told("button", text);
    element.type = "button";
    element.addEventListener("click", press);
    return element;
  }

  // The way out where the page is kept on the device and what is kept does not work.
  function anew() {
    const keeps = document.querySelector('meta[name="coilwright-offline"]') !== null;
    if (!keeps || new URL(location.href).searchParams.has("off")) return [];
    const leave = () => location.assign(`?off${location.hash}`);
    return [button("Load everything anew", leave)];
  }

  // What the visitor typed is in storage already: a reload brings it back.
  function fail(heading, text) {
    if (failed) return;
    failed = true;
    const again = button("Reload the page", () => location.reload());
    leave();
    boot.replaceChildren(told("h1", heading), told("p", text), again, ...anew());
    boot.className = "boot boot-failed";
    boot.setAttribute("role", "alert");
    boot.hidden = false;
    // Nothing behind it answers any more, so nothing may be typed into it.
    page.inert = true;
    boot.scrollIntoView({ block: "nearest" });
  }

  const stopped = () =>
    fail(
      "The page has stopped",
      "A fault in the page stopped it. What you entered is kept; reload to go on from there.",
    );
  const unstarted = (reason) => {
    console.error(reason);
    if (fromWasm(reason)) return stopped();
    fail(
      "The page could not start",
      "Its files could not be loaded, or this browser cannot run them (it needs WebAssembly). " +
        "Check the connection and reload; nothing you entered before is lost.",
    );
  };

  // A trap leaves the wasm instance unusable, and so does any other error that
  // passes through it (every engine writes `wasm-function` into the stack).
  // Errors of browser extensions are none of our business.
  function fromWasm(error) {
    if (!(error instanceof Error) || typeof WebAssembly === "undefined") return false;
    return error instanceof WebAssembly.RuntimeError || /wasm-function/.test(error.stack ?? "");
  }
  addEventListener("error", (event) => {
    if (fromWasm(event.error)) stopped();
  });
  addEventListener("unhandledrejection", (event) => {
    if (fromWasm(event.reason)) stopped();
  });

  // Nor may a page that has stopped hear that it is left: it would take that for a sign
  // that its work did not stop it. This is heard first, for it was listened for first.
  for (const name of ["pagehide", "visibilitychange"])
    addEventListener(name, (event) => failed && event.stopImmediatePropagation(), true);

  // The site names its files. In the page that is one file, the glue stands before this
  // script under a name of its own, and each wasm in the page, written in base64.
  const within = (element) =>
    Uint8Array.from(atob(element.textContent), (letter) => letter.charCodeAt(0));

  async function load() {
    const wasm = document.getElementById("boot-wasm");
    if (wasm.href) {
      const glue = await import(document.getElementById("boot-glue").href);
      return glue.default({ module_or_path: wasm.href });
    }
    return wasm_bindgen({ module_or_path: within(wasm) });
  }

  // Nobody who comes for the first time waits for the example: it is drawn as the page will
  // draw it, once it is said that the page is loading, and goes in the frame in which the page
  // has its list. Whoever was here before or follows a link waits for what is theirs.
  const example = document.createElement("div");
  example.className = "boot-example";
  // It answers nobody yet: what can be heard and reached is that the page is loading.
  example.inert = true;

  function isFirst() {
    const kept = (on) => on.getItem("coilwright.draft") !== null;
    try {
      return location.hash.length < 2 && !kept(sessionStorage) && !kept(localStorage);
    } catch {
      // Storage that is refused keeps nothing.
      return location.hash.length < 2;
    }
  }
  function draw() {
    if (failed || page.childElementCount > 0) return;
    example.append(document.getElementById("boot-example").content.cloneNode(true));
    page.before(example);
    page.hidden = true;
    boot.classList.add("boot-edge");
  }
  if (isFirst()) requestAnimationFrame(() => setTimeout(draw));

  function leave() {
    example.remove();
    page.hidden = false;
  }
  // Where the list takes longer than the example's ever does, the page is shown without it.
  const LONGEST = 1000;
  function listed() {
    if (!example.isConnected) return undefined;
    const there = () => page.querySelector('[aria-busy="false"]') !== null;
    return new Promise((resolve) => {
      const watch = new MutationObserver(() => there() && done());
      const done = () => {
        watch.disconnect();
        leave();
        resolve();
      };
      if (there()) return done();
      watch.observe(page, { attributes: true, childList: true, subtree: true });
      setTimeout(done, LONGEST);
    });
  }

  // The styles of what comes later, where they did not come with the others.
  function styled() {
    const styles = document.getElementById("boot-later-styles");
    if (styles === null) return undefined;
    return new Promise((resolve, reject) => {
      const sheet = document.createElement("link");
      sheet.rel = "stylesheet";
      sheet.href = styles.dataset.sheet;
      sheet.onload = () => resolve(styles.remove());
      sheet.onerror = () => reject(sheet.remove());
      styles.before(sheet);
    });
  }

  // A link to a room or a choice wants what comes later at once.
  const later = document.getElementById("boot-later");
  const ask = () => fetch(new URL(later.content, document.baseURI));
  let asked = later?.content && /[#&](view|key)=/.test(location.hash) ? ask() : undefined;
  asked?.catch(() => {});

  // It is made of the memory, the table and the globals of what is there.
  async function coded(main) {
    const imports = { __wasm_split: main };
    if (!later.content) return WebAssembly.instantiate(within(later), imports);
    const first = asked;
    asked = undefined;
    const answer = await (first ?? ask());
    if (!answer.ok) throw new Error(`${answer.status}`);
    return WebAssembly.instantiateStreaming(answer, imports);
  }
  let joined = null;
  const wanted = asked !== undefined;
  // How long the page waits for what its address wants; then it says that it is on its way.
  const PATIENCE = 4000;
  let awaited;
  window.coilwrightLater = {
    there: later === null,
    /** The same before anything is drawn, where the address wants it; tells at once elsewhere. */
    first(main, tell) {
      if (!wanted) return tell(false);
      awaited = new Promise((resolve) => {
        let told = false;
        const once = (there) => {
          if (!told) tell(there);
          told = true;
          resolve();
        };
        this.bring(main, once);
        setTimeout(once, PATIENCE, false);
      });
    },
    /** Loads what comes later, once for every page of the document; tells whether it is there. */
    bring(main, tell) {
      joined ??= Promise.all([styled(), coded(main)]);
      joined.then(
        () => {
          this.there = true;
          tell(true);
        },
        () => {
          joined = null;
          tell(false);
        },
      );
    },
  };

  async function start() {
    await load();
    await awaited;
    // The first drawing is queued, not done, when the start returns.
    await new Promise((resolve) => setTimeout(resolve));
    if (page.childElementCount === 0) throw new Error("the page came up empty");
    await listed();
    // It may have stopped on what it opened with.
    boot.hidden = !failed;
  }
  start().catch(unstarted);
})();
