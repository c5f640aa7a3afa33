// Put into every document before its own scripts: what the browser says of itself.
(() => {
  "use strict";
  const seen = { heading: null, changed: 0, worked: 0, events: [], tasks: [], shifts: [] };
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
  watch({ type: "longtask" }, (entry) => seen.tasks.push(entry.duration));
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
      seen.worked = performance.now();
      work(...given);
    }, ...rest);
  new MutationObserver(() => {
    seen.changed = performance.now();
    if (seen.heading === null && document.querySelector("#page h1")) seen.heading = seen.changed;
  }).observe(document, { subtree: true, childList: true, characterData: true, attributes: true });
})();
