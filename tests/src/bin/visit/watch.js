// Put into every document before its own scripts: what the browser says of itself.
(() => {
  "use strict";
  const now = performance.now.bind(performance);
  const seen = {
    heading: null,
    list: null,
    changed: 0,
    worked: 0,
    nodes: 0,
    events: [],
    shifts: [],
  };
  seen.now = now;
  // A page that is opened at a link is typed into: the worker that keeps the page would come
  // in between whenever it is ready.
  if (location.hash !== "") Object.defineProperty(navigator, "serviceWorker", { value: undefined });
  // Work that is cut into slices by the clock is one slice for whoever counts what it does.
  seen.count = () => {
    const still = now();
    performance.now = () => still;
    seen.nodes = 0;
    seen.counting = true;
  };
  globalThis.seenByTheBench = seen;
  const name = (node) => node && node.id ? `#${node.id}` : node ? node.nodeName.toLowerCase() : "";
  const watch = (options, take) =>
    new PerformanceObserver((list) => list.getEntries().forEach(take)).observe({
      buffered: true,
      ...options,
    });
  watch({ type: "event", durationThreshold: 16 }, (entry) => {
    const busy = entry.processingEnd - entry.processingStart;
    seen.events.push({ what: entry.name, at: name(entry.target), lasted: entry.duration, busy });
  });
  watch({ type: "layout-shift" }, (entry) =>
    seen.shifts.push({
      moved: entry.value,
      after_input: entry.hadRecentInput,
      what: entry.sources.map((source) => name(source.node) + "." + (source.node?.className ?? "")),
    }),
  );
  // A long listing works in slices with a timer between them, and may show nothing new
  // for seconds.
  const later = globalThis.setTimeout;
  globalThis.setTimeout = (work, ...rest) =>
    later((...given) => {
      seen.worked = now();
      work(...given);
    }, ...rest);
  // Nodes that came or went with all that is in them, and those whose text or attribute is
  // another.
  const all = (nodes) => {
    let sum = nodes.length;
    for (const node of nodes)
      if (node.nodeType === Node.ELEMENT_NODE)
        sum += document.evaluate("count(.//node())", node, null, XPathResult.NUMBER_TYPE).numberValue;
    return sum;
  };
  const listed = () => document.querySelector('#page:not([hidden]) .list [aria-busy="false"] .entry') !== null;
  new MutationObserver((records) => {
    seen.changed = now();
    if (seen.counting)
      for (const { type, addedNodes, removedNodes } of records)
        seen.nodes += type === "childList" ? all(addedNodes) + all(removedNodes) : 1;
    if (seen.heading === null && document.querySelector("#page h1")) seen.heading = seen.changed;
    if (seen.list === null && seen.heading !== null && !seen.counting && listed()) {
      seen.list = 0;
      // In the frame after the next it is on the screen.
      requestAnimationFrame(() => requestAnimationFrame(() => (seen.list = now())));
    }
  }).observe(document, { subtree: true, childList: true, characterData: true, attributes: true });
})();
