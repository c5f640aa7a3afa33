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

  // What the visitor typed is in storage already: a reload brings it back.
  function fail(heading, text) {
    if (failed) return;
    failed = true;
    const title = document.createElement("h1");
    title.textContent = heading;
    const words = document.createElement("p");
    words.textContent = text;
    const again = document.createElement("button");
    again.type = "button";
    again.textContent = "Reload the page";
    again.addEventListener("click", () => location.reload());
    boot.replaceChildren(title, words, again);
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

  async function start() {
    const address = (id) => document.getElementById(id).href;
    const glue = await import(address("boot-glue"));
    await glue.default({ module_or_path: address("boot-wasm") });
    // The first drawing is queued, not done, when the start returns.
    await new Promise((resolve) => setTimeout(resolve));
    if (page.childElementCount === 0) throw new Error("the page came up empty");
    boot.hidden = true;
  }
  start().catch(unstarted);
})();
