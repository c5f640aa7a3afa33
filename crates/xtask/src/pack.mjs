// Reads paths on standard input, one a line. Writes `.br` and `.gz` beside each
// file whose line starts with `+`, checks that every wasm compiles, and prints
// one line a file: raw, gzip and brotli sizes and the path.
import { readFileSync, writeFileSync } from "node:fs";
import { brotliCompressSync, constants, gzipSync } from "node:zlib";

for (const line of readFileSync(0, "utf8").split("\n").filter(Boolean)) {
  const path = line.slice(1);
  const bytes = readFileSync(path);
  if (path.endsWith(".wasm")) {
    try {
      new WebAssembly.Module(bytes);
    } catch (error) {
      console.error(`${path} does not load: ${error.message}`);
      process.exit(1);
    }
  }
  const gzip = gzipSync(bytes, { level: 9 });
  const brotli = brotliCompressSync(bytes, {
    params: {
      [constants.BROTLI_PARAM_QUALITY]: constants.BROTLI_MAX_QUALITY,
      [constants.BROTLI_PARAM_SIZE_HINT]: bytes.length,
    },
  });
  if (line[0] === "+") {
    writeFileSync(`${path}.gz`, gzip);
    writeFileSync(`${path}.br`, brotli);
  }
  console.log(`${bytes.length} ${gzip.length} ${brotli.length} ${path}`);
}
