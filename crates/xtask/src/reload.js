// Served only by `cargo xtask serve`: loads the page anew when there is a newer one.
(() => {
  const shown = new URL(document.currentScript.src).search.slice(1);
  const news = new EventSource("reload-news");
  news.addEventListener("message", (event) => {
    if (event.data !== shown) location.reload();
  });
  addEventListener("pagehide", () => news.close());
})();
