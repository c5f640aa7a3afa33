// For Node, whose fetch reads no file.
import { readFile } from "node:fs/promises";
import { starter } from "./coilwright_start.js";
export { closed_box, configurations, diagnose, open, readings, wiring } from "./coilwright_start.js";

const isFile = (source) =>
  source instanceof URL ? source.protocol === "file:" : typeof source === "string" && source.startsWith("file:");

export default starter(
  () => new URL("coilwright_bg.wasm", import.meta.url),
  (source) => (isFile(source) ? readFile(new URL(source)) : source),
);
