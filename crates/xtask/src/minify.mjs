// Reads on standard input what is to be made short, as JSON: `files`, each with its `loader`
// and `text`, and `names`, the new names of properties by the old. Writes the new texts as a
// JSON list. What the tool warns of is an error: it is about what a visitor would get.
import { readFileSync } from "node:fs";
import { formatMessagesSync, transformSync } from "esbuild";

const { files, names } = JSON.parse(readFileSync(0, "utf8"));
const old = Object.keys(names);
const mangle =
  old.length === 0 ? {} : { mangleProps: RegExp(`^(?:${old.join("|")})$`), mangleCache: names };

// Blanks, comments and the names of local things, and nothing that is written: statements
// rewritten in newer words would not be read by the browsers that `boot.js` speaks up in, and
// rules of styles stay as many and in the order they are in.
function short({ name, loader, text }) {
  const options = {
    loader,
    sourcefile: name,
    minifyWhitespace: true,
    minifyIdentifiers: true,
    legalComments: "none",
    charset: "utf8",
    logLevel: "silent",
    ...(loader === "js" ? mangle : {}),
  };
  let found;
  try {
    const { code, warnings } = transformSync(text, options);
    if (warnings.length === 0) return code;
    found = warnings;
  } catch (error) {
    if (error.errors === undefined) throw error;
    found = error.errors;
  }
  console.error(formatMessagesSync(found, { kind: "error" }).join("\n"));
  process.exit(1);
}

process.stdout.write(JSON.stringify(files.map(short)));
