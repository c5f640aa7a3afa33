// Loads the module once, and answers for it until then.
import load, * as bound from "./coilwright_glue.js";
import { unstarted } from "./coilwright_unstarted.js";

/** The load that is going on or done; none before the first, and none after one that failed. */
let loading = null;
let started = false;

/** The default export of a package whose wasm is `beside` it; `read` makes bytes of an address. */
export function starter(beside, read = (source) => source) {
  async function start(source) {
    const given = await source;
    const wanted = await (given?.module_or_path ?? (isOptions(given) ? undefined : given));
    await load({ module_or_path: await read(wanted ?? beside()) });
    started = true;
  }
  return function init(source) {
    loading ??= start(source).catch((error) => {
      loading = null;
      throw error;
    });
    return loading;
  };
}

/** An object that only names a source. */
const isOptions = (given) => given != null && Object.getPrototypeOf(given) === Object.prototype;

const answering = (name) => (...asked) => (started ? bound : unstarted)[name](...asked);

export const closed_box = answering("closed_box");
export const configurations = answering("configurations");
export const diagnose = answering("diagnose");
export const open = answering("open");
export const readings = answering("readings");
export const wiring = answering("wiring");
