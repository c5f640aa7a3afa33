//! The names between a wasm and its JavaScript made short.
//!
//! wasm-bindgen tells what it imports and exports apart by sixteen digits that no
//! compression shrinks, and each stands in both files. Nobody else uses these names.

use crate::minify::{self, Names};
use crate::say::{Doing, Done, Failure};
use std::path::Path;
use walrus::ModuleConfig;

/// Shortens `NAME.js` and `NAME_bg.wasm` of a folder, together.
///
/// # Errors
/// When the wasm is not written as the specification says.
pub(crate) fn shorten(folder: &Path, name: &str) -> Done {
    let (script, wasm) = (format!("{name}.js"), format!("{name}_bg.wasm"));
    let code = std::fs::read(folder.join(&wasm)).doing(format!("read {wasm}"))?;
    let text = std::fs::read_to_string(folder.join(&script)).doing(format!("read {script}"))?;
    let mut names = Names::new();
    let code = renamed(&code, &mut names).map_err(|error| {
        Failure::new(
            format!("{wasm} cannot be read: {error:#}"),
            "every wasm-bindgen part must be of the version pinned in Cargo.toml: \
             `cargo tree -i walrus`",
        )
    })?;
    let text = minify::script(&script, text, &names)?;
    std::fs::write(folder.join(&wasm), code).doing(format!("write {wasm}"))?;
    std::fs::write(folder.join(&script), text).doing(format!("write {script}"))
}

/// The new name of an old: one that wasm-bindgen never makes. Names that people gave stay.
fn short(old: &str, names: &mut Names) -> String {
    if !["__wbg_", "__wbindgen_", "wasm_bindgen_"].iter().any(|start| old.starts_with(start)) {
        return old.to_owned();
    }
    let next = format!("${}", names.len());
    names.entry(old.to_owned()).or_insert(next).clone()
}

/// The same wasm with new names of what it imports and exports.
fn renamed(wasm: &[u8], names: &mut Names) -> walrus::Result<Vec<u8>> {
    let mut config = ModuleConfig::new();
    config.generate_name_section(false).generate_producers_section(false);
    let mut module = config.parse(wasm)?;
    for import in module.imports.iter_mut() {
        import.name = short(&import.name, names);
    }
    for export in module.exports.iter_mut() {
        export.name = short(&export.name, names);
    }
    Ok(module.emit_wasm())
}

#[cfg(test)]
mod tests {
    use super::*;

    /// By hand from the binary format: a type, an imported function, its export, a memory's.
    const WASM: &[u8] = b"\0asm\x01\0\0\0\
        \x01\x04\x01\x60\0\0\
        \x02\x0f\x01\x04./js\x06__wbg_\0\0\
        \x05\x03\x01\0\x01\
        \x07\x1b\x02\x06memory\x02\0\x0ewasm_bindgen_x\0\0";

    #[test]
    fn imports_and_exports_get_short_names_and_the_rest_stays() {
        let mut names = Names::new();
        let new = renamed(WASM, &mut names).unwrap();
        let expected: &[u8] = b"\0asm\x01\0\0\0\
            \x01\x04\x01\x60\0\0\
            \x02\x0b\x01\x04./js\x02$0\0\0\
            \x05\x03\x01\0\x01\
            \x07\x0f\x02\x06memory\x02\0\x02$1\0\0";
        assert_eq!(new, expected);
        let pairs = [("__wbg_", "$0"), ("wasm_bindgen_x", "$1")];
        assert_eq!(names, pairs.map(|(old, new)| (old.to_owned(), new.to_owned())).into());
    }

    #[test]
    fn the_two_files_stay_a_pair() {
        let folder = std::env::temp_dir().join(format!("coilwright-glue-{}", std::process::id()));
        std::fs::create_dir_all(&folder).unwrap();
        let script = "// told\nexport const imports = {\n\n  __wbg_: () => wasm.wasm_bindgen_x(wasm.memory),\n};\n";
        std::fs::write(folder.join("a.js"), script).unwrap();
        std::fs::write(folder.join("a_bg.wasm"), WASM).unwrap();
        shorten(&folder, "a").unwrap();
        let read = |name: &str| std::fs::read(folder.join(name)).unwrap();
        let script = String::from_utf8(read("a.js")).unwrap();
        assert!(script.contains("{$0:()=>wasm.$1(wasm.memory)}"), "{script}");
        assert_eq!(read("a_bg.wasm"), renamed(WASM, &mut Names::new()).unwrap());
        std::fs::remove_dir_all(folder).unwrap();
    }

    #[test]
    fn what_cannot_be_read_is_refused() {
        for cut in [9, 12, 20, WASM.len() - 1] {
            assert!(renamed(&WASM[..cut], &mut Names::new()).is_err(), "{cut}");
        }
    }
}
