//! Scripts and styles as short as they can be sent: without blanks and comments, and local
//! things by short names. The work is esbuild's, which Node runs; see `minify.mjs`.

use crate::run;
use crate::say::{Doing, Done, Failure};
use crate::site::{Files, extension};
use crate::tools;
use std::collections::BTreeMap;
use std::io::Write;
use std::process::Stdio;

/// New names of properties, by the old.
pub(crate) type Names = BTreeMap<String, String>;

/// Makes the scripts and the styles among these files short.
///
/// # Errors
/// When one of them is not written as its language says.
pub(crate) fn all(files: &mut Files) -> Done {
    short(files, &Names::new())
}

/// The same for one script, of which some properties get new names.
///
/// # Errors
/// As for many; and when an old name is left.
pub(crate) fn script(name: &str, text: String, names: &Names) -> Done<String> {
    let mut files = Files::from([(name.to_owned(), text.into_bytes())]);
    short(&mut files, names)?;
    let text = files.remove(name).unwrap_or_default();
    let text = String::from_utf8_lossy(&text).into_owned();
    match names.keys().find(|old| text.contains(*old)) {
        None => Ok(text),
        Some(old) => Err(Failure::new(
            format!("{name} uses {old} as something else than the name of a property"),
            "see what is renamed in crates/xtask/src/glue.rs",
        )),
    }
}

fn short(files: &mut Files, names: &Names) -> Done {
    tools::npm_packages()?;
    let mut given: Vec<(&String, &mut Vec<u8>)> =
        files.iter_mut().filter(|(name, _)| matches!(extension(name), "js" | "css")).collect();
    let list: Vec<serde_json::Value> = given
        .iter()
        .map(|(name, text)| {
            let text = String::from_utf8_lossy(text);
            serde_json::json!({ "name": name, "loader": extension(name), "text": text })
        })
        .collect();
    let texts = node(&serde_json::json!({ "files": list, "names": names }))?;
    if texts.len() != given.len() {
        return Err(lost("the answer makes no sense"));
    }
    for ((_, old), new) in given.iter_mut().zip(texts) {
        **old = new.into_bytes();
    }
    Ok(())
}

fn node(asked: &serde_json::Value) -> Done<Vec<String>> {
    let mut command = run::program("node");
    command.args(["--input-type=module", "--eval", include_str!("minify.mjs")]);
    let mut node =
        command.stdin(Stdio::piped()).stdout(Stdio::piped()).spawn().doing("start node")?;
    let mut input = node.stdin.take().ok_or_else(|| lost("node has no input"))?;
    input.write_all(asked.to_string().as_bytes()).doing("tell node what to make short")?;
    drop(input);
    let output = node.wait_with_output().doing("wait for node")?;
    if !output.status.success() {
        return Err(lost("see the lines above"));
    }
    serde_json::from_slice(&output.stdout).map_err(|_| lost("the answer makes no sense"))
}

fn lost(what: &str) -> Failure {
    Failure::new(
        format!("making scripts and styles short: {what}"),
        "write it as the language says; if esbuild is missing, delete node_modules and \
         type `npm ci --ignore-scripts`",
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    fn one(name: &str, text: &str) -> Done<String> {
        let mut files = Files::from([(name.to_owned(), text.as_bytes().to_vec())]);
        all(&mut files)?;
        Ok(String::from_utf8(files.remove(name).unwrap()).unwrap())
    }

    #[test]
    fn what_is_short_means_the_same() {
        // Rules stay as many, in their order, with what stands in quotation marks.
        let style = "/* told\n   at length */\n.a {\n  color: red;\n}\n\n.a {\n  content: \"+  \" / \"\";\n}\n";
        assert_eq!(one("a.css", style).unwrap(), ".a{color:red}.a{content:\"+  \" / \"\"}\n");
        // Names that other scripts see stay.
        let script = "// told\nconst seen = (given) => {\n  return given + \"✕ // a.svg\";\n};\n";
        let short = one("a.js", script).unwrap();
        assert!(short.starts_with("const seen=") && short.contains("\"✕ // a.svg\""), "{short}");
        assert!(!short.contains("given") && !short.contains("told"), "{short}");
        assert_eq!(one("a.svg", "<svg> </svg>").unwrap(), "<svg> </svg>");
    }

    #[test]
    fn what_is_not_written_as_the_language_says_is_refused() {
        for (name, text) in
            [("a.js", "const = 3;"), ("a.css", ".a { color: red"), ("b.css", "a } b {}")]
        {
            let failure = one(name, text).unwrap_err().to_string();
            assert!(failure.contains("see the lines above"), "{name}: {failure}");
        }
    }

    #[test]
    fn properties_get_new_names_and_nothing_else_does() {
        let names = Names::from([("__wbg_a_1".to_owned(), "$0".to_owned())]);
        let text = "export const a = { __wbg_a_1: () => wasm.__wbg_a_1(wasm.memory) };\n";
        let short = script("a.js", text.to_owned(), &names).unwrap();
        assert!(short.contains("{$0:()=>wasm.$0(wasm.memory)}"), "{short}");
        let failure =
            script("a.js", "f(\"__wbg_a_1\")".to_owned(), &names).unwrap_err().to_string();
        assert!(failure.contains("a.js uses __wbg_a_1"), "{failure}");
    }
}
