// For browsers, workers and bundlers, which know this way to name a file beside a script.
import { starter } from "./coilwright_start.js";
export { closed_box, configurations, diagnose, open, readings, wiring } from "./coilwright_start.js";

export default starter(() => new URL("coilwright_bg.wasm", import.meta.url));
