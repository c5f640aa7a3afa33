//! `dist/module/`: the same answers for other people's JavaScript, as a folder
//! that npm can install.

use crate::bind::{self, Profile, Source, Use};
use crate::licences;
use crate::run;
use crate::say::{self, Doing, Done};
use std::path::Path;

pub(crate) const PACKAGE: &str = "coilwright-module";

const MODULE: Source = Source {
    package: PACKAGE,
    cargo: &["--lib", "--features", "js"],
    library: true,
    artefact: "coilwright_module.wasm",
    name: "coilwright",
    split: false,
};

/// The binding's own script, which `coilwright.js` and `coilwright_node.js` stand before.
const GLUE: &str = "coilwright_glue.js";

/// What stands before it: how the wasm is found in a browser and in Node, and what is
/// common to both.
const SCRIPTS: [(&str, &str); 3] = [
    ("coilwright.js", include_str!("module/coilwright.js")),
    ("coilwright_node.js", include_str!("module/coilwright_node.js")),
    ("coilwright_start.js", include_str!("module/coilwright_start.js")),
];

/// The module with one more export, from text to text, so that tests can put its
/// answers beside those of the same code on this machine. Never shipped.
const COMPARED: Source = Source { cargo: &["--lib", "--features", "js,json"], ..MODULE };

/// Builds what tests compare with native answers into `folder`.
pub(crate) fn build_to_compare(profile: Profile, folder: &Path) -> Done {
    bound(COMPARED, profile, folder)
}

/// Compiles and binds, into `folder`, which it empties first.
fn bound(source: Source, profile: Profile, folder: &Path) -> Done {
    let wasm = say::step("compiling the module", || bind::compile(source, profile))?;
    say::step("binding the module to JavaScript", || {
        bind::bind(&wasm, source, profile, Use::Module, folder)
    })?;
    if profile == Profile::Small {
        say::step("shrinking the module's wasm", || {
            bind::shrink(&folder.join(format!("{}_bg.wasm", source.name)))
        })?;
    }
    Ok(())
}

/// Builds the module into `folder`, which it empties first.
pub(crate) fn build(folder: &Path) -> Done {
    bound(MODULE, Profile::Small, folder)?;
    let written = format!("{}.js", MODULE.name);
    std::fs::rename(folder.join(written), folder.join(GLUE)).doing("name the module's glue")?;
    for (name, script) in SCRIPTS {
        std::fs::write(folder.join(name), script).doing(format!("write the module's {name}"))?;
    }
    say::step("writing its types and schemas", || {
        run::show(
            run::cargo()
                .args(["run", "-p", PACKAGE, "--features", "json", "--bin", "contract", "--"])
                .arg(folder),
            "the module's own program `contract` writes these: see crates/module/src/bin",
        )
    })?;
    let root = run::root();
    for licence in ["LICENSE-APACHE", "LICENSE-MIT"] {
        std::fs::copy(root.join(licence), folder.join(licence)).doing(format!("copy {licence}"))?;
    }
    let write = |name: &str, text: String| {
        std::fs::write(folder.join(name), text).doing(format!("write the module's {name}"))
    };
    write("licences.txt", licences::text(&[PACKAGE, "--features", "js"])?)?;
    write("package.json", manifest(env!("CARGO_PKG_VERSION")))
}

/// The module's `package.json`. It is written out, because the order of conditions counts:
/// whoever resolves takes the first that holds, so types stand first.
fn manifest(version: &str) -> String {
    MANIFEST.replace("VERSION", version)
}

const MANIFEST: &str = r#"{
  "name": "coilwright",
  "version": "VERSION",
  "description": "Every way to join loudspeaker voice coils to an amplifier, with loads, shares, verdicts and ranks.",
  "license": "MIT OR Apache-2.0",
  "type": "module",
  "sideEffects": false,
  "types": "./coilwright.d.ts",
  "exports": {
    ".": {
      "types": "./coilwright.d.ts",
      "node": "./coilwright_node.js",
      "default": "./coilwright.js"
    },
    "./coilwright_bg.wasm": "./coilwright_bg.wasm",
    "./package.json": "./package.json",
    "./schema/*": "./schema/*"
  },
  "engines": { "node": ">=20" }
}
"#;

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_manifest_names_the_files_that_are_written() {
        let read: serde_json::Value = serde_json::from_str(&manifest("1.2.3")).unwrap();
        assert_eq!(read["type"], "module");
        assert_eq!(read["version"], "1.2.3");
        let main = &read["exports"]["."];
        for condition in ["node", "default"] {
            let name = main[condition].as_str().unwrap().trim_start_matches("./");
            assert!(SCRIPTS.iter().any(|(written, _)| *written == name), "{name}");
        }
        assert_eq!(main["types"], read["types"]);
        let wasm = format!("./{}_bg.wasm", MODULE.name);
        assert_eq!(read["exports"][&wasm], wasm);
        let text = manifest("1.2.3");
        let main = &text[text.find("\".\":").unwrap()..];
        let at = |condition: &str| main.find(&format!("\"{condition}\":")).unwrap();
        assert!(at("types") < at("node") && at("node") < at("default"), "{main}");
    }
}
