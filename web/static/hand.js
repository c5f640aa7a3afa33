// What working mode and the job sheet ask of the browser. What it does not have is
// quietly absent: nothing here throws.
"use strict";

(() => {
  let lock = null;
  let wanted = false;

  async function take() {
    if (!wanted || lock !== null || document.visibilityState !== "visible") return;
    try {
      const taken = await navigator.wakeLock.request("screen");
      if (!wanted) return void taken.release();
      lock = taken;
      lock.addEventListener("release", () => {
        lock = null;
      });
    } catch {
      // Refused, on a low battery say: the screen does as it pleases.
    }
  }

  // A browser takes the lock back from a page that is hidden.
  document.addEventListener("visibilitychange", take);

  function download(name, content) {
    const link = document.createElement("a");
    const address = URL.createObjectURL(content);
    link.href = address;
    link.download = name;
    link.click();
    setTimeout(() => URL.revokeObjectURL(address), 10_000);
  }

  /** Copies by way of a selection, for browsers that keep their clipboard from pages. */
  function copySelected(text) {
    const place = document.createElement("textarea");
    place.value = text;
    place.setAttribute("readonly", "");
    place.className = "unseen";
    document.body.append(place);
    place.select();
    let copied = false;
    try {
      copied = document.execCommand("copy");
    } catch {
      copied = false;
    }
    place.remove();
    return copied;
  }

  window.coilwrightHand = {
    /** Keeps the screen on, or no longer. */
    hold(on) {
      wanted = on && "wakeLock" in navigator;
      if (wanted) take();
      else if (lock !== null) {
        lock.release().catch(() => {});
        lock = null;
      }
    },
    /** Whether steps can be read aloud. */
    speaks: () => "speechSynthesis" in window && "SpeechSynthesisUtterance" in window,
    /** Reads a text aloud in place of what is being read; an empty one ends that. */
    say(text) {
      if (!this.speaks()) return;
      speechSynthesis.cancel();
      if (text === "") return;
      const spoken = new SpeechSynthesisUtterance(text);
      spoken.lang = document.documentElement.lang;
      speechSynthesis.speak(spoken);
    },
    /** Copies a text, then tells whether that was possible. */
    copy(text, done) {
      const otherwise = () => done(copySelected(text));
      if (navigator.clipboard === undefined) return otherwise();
      navigator.clipboard.writeText(text).then(() => done(true), otherwise);
    },
    /** Saves a drawing as it is. */
    saveDrawing: (name, svg) => download(name, new Blob([svg], { type: "image/svg+xml" })),
    /** Saves a drawing as points, at twice its size. */
    savePicture(name, svg, wide, high) {
      const image = new Image();
      image.onload = () => {
        const canvas = document.createElement("canvas");
        canvas.width = 2 * wide;
        canvas.height = 2 * high;
        const pen = canvas.getContext("2d");
        if (pen === null) return;
        pen.fillStyle = "#fff";
        pen.fillRect(0, 0, canvas.width, canvas.height);
        pen.drawImage(image, 0, 0, canvas.width, canvas.height);
        canvas.toBlob((picture) => picture && download(name, picture));
      };
      // The page's policy takes images from addresses of their own content alone.
      image.src = `data:image/svg+xml,${encodeURIComponent(svg)}`;
    },
  };
})();
