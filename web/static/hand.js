// What working mode, the job sheet and the saved rigs ask of the browser. What it does not have is
// quietly absent: nothing here throws.
"use strict";

(() => {
  let lock = null;
  let wanted = false;
  let clock = null;

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

  /**
   * Where a text stops being JSON: a line and a place in it, both from 1. Browsers tell it
   * in words of their own, if at all. What follows may be a value (v), a name (n), or what
   * comes after a value (,); a list or object that was just opened may also be closed (c).
   * In what is nested deeper than any file of rigs nothing is looked for.
   */
  function where(text) {
    const token =
      /[ \t\n\r]*(?:([[\]{},:])|("[^"\\\0-\x1f]*(?:\\(?:["\\/bfnrt]|u[\da-fA-F]{4})[^"\\\0-\x1f]*)*")|true|false|null|-?(?:0|[1-9]\d*)(?:\.\d+)?(?:[eE][+-]?\d+)?)/y;
    const open = [];
    let next = "v";
    let at = 0;
    for (;;) {
      token.lastIndex = at;
      const found = token.exec(text);
      if (found === null) break;
      const [, sign, string] = found;
      const inside = open.at(-1);
      if (sign === undefined && next[0] === "v") next = ",";
      else if (string !== undefined && next[0] === "n") next = ":";
      else if (sign === ":" && next === ":") next = "v";
      else if (sign === "," && next === "," && inside) next = inside === "[" ? "v" : "n";
      else if ((sign === "[" || sign === "{") && next[0] === "v") {
        if (open.push(sign) > 99) return [0, 0];
        next = sign === "[" ? "vc" : "nc";
      } else if (/[,c]$/.test(next) && inside + sign === (inside === "[" ? "[]" : "{}")) {
        open.pop();
        next = ",";
      } else break;
      at = token.lastIndex;
    }
    const before = text.slice(0, at + /^[ \t\n\r]*/.exec(text.slice(at))[0].length).split("\n");
    return [before.length, before.at(-1).length + 1];
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
    /** Whether the browser gives an address to other programs. */
    shares: (url) =>
      typeof navigator.share === "function" && (navigator.canShare?.({ url }) ?? true),
    /**
     * Gives it to one, then tells whether that was possible. Somebody who thinks better of it
     * (AbortError) is no fault of the browser's.
     */
    share(title, url, done) {
      navigator.share({ title, url }).then(
        () => done(true),
        (why) => done(why?.name === "AbortError"),
      );
    },
    /** Goes to a field and selects all that stands in it. */
    select(id) {
      const field = document.getElementById(id);
      field?.focus();
      field?.select();
      field?.scrollIntoView({ block: "nearest" });
    },
    /** Saves a text as a file of JSON. */
    saveText: (name, text) => download(name, new Blob([text], { type: "application/json" })),
    /** Reads the file chosen in a field and tells what it holds, or why not. */
    readFile(id, most, done) {
      const field = document.getElementById(id);
      const file = field?.files?.[0];
      if (file === undefined) return;
      const told = (why, value, [line, place] = [0, 0]) => {
        // So that the same file can be chosen again.
        field.value = "";
        done(why, value, line, place);
      };
      if (file.size > most) return told("large");
      const read = (text) => {
        let value;
        try {
          value = JSON.parse(text);
        } catch {
          return told("json", undefined, where(text));
        }
        told("", value);
      };
      file.text().then(read, () => told("unread"));
    },
    /** Tells whether the browser promised to keep what is kept, asked to where that is set. */
    lasting(ask, done) {
      const storage = navigator.storage;
      const answer = ask ? storage?.persist?.() : storage?.persisted?.();
      answer?.then(done, () => {});
    },
    /** A moment as people of the place write it. */
    when(at) {
      clock ??= new Intl.DateTimeFormat([], { dateStyle: "medium", timeStyle: "short" });
      return clock.format(at);
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
