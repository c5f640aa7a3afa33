//! The names between a wasm and its JavaScript, and the blanks of the latter, made short.
//!
//! wasm-bindgen tells what it imports and exports apart by sixteen digits that no
//! compression shrinks, and each stands in both files. Nobody else uses these names.

use crate::say::{Doing, Done, Failure};
use std::collections::BTreeMap;
use std::path::Path;

/// Shortens `NAME.js` and `NAME_bg.wasm` of a folder, together.
///
/// # Errors
/// When the wasm is not written as the specification says.
pub(crate) fn shorten(folder: &Path, name: &str) -> Done {
    let (script, wasm) = (format!("{name}.js"), format!("{name}_bg.wasm"));
    let code = std::fs::read(folder.join(&wasm)).doing(format!("read {wasm}"))?;
    let text = std::fs::read_to_string(folder.join(&script)).doing(format!("read {script}"))?;
    let mut names = Names::default();
    let code = renamed(&code, &mut names).ok_or_else(|| {
        Failure::new(
            format!("{wasm} has a section of imports or exports that cannot be read"),
            "see crates/xtask/src/glue.rs against the binary format in the wasm specification",
        )
    })?;
    std::fs::write(folder.join(&wasm), code).doing(format!("write {wasm}"))?;
    std::fs::write(folder.join(&script), tight(&text, &names)).doing(format!("write {script}"))
}

/// The new names of the old.
#[derive(Default)]
struct Names(BTreeMap<String, String>);

impl Names {
    /// The new name: one that wasm-bindgen never makes. Names that people gave stay.
    fn of(&mut self, old: &str) -> String {
        if !["__wbg_", "__wbindgen_", "wasm_bindgen_"].iter().any(|start| old.starts_with(start)) {
            return old.to_owned();
        }
        let next = format!("${}", self.0.len());
        self.0.entry(old.to_owned()).or_insert(next).clone()
    }
}

/// The section of imports, and that of exports, by their numbers in the specification.
const IMPORTS: u8 = 2;
const EXPORTS: u8 = 7;

/// The same wasm with new names. `None` where it is not written as specified, or imports
/// anything but functions.
fn renamed(wasm: &[u8], names: &mut Names) -> Option<Vec<u8>> {
    let (head, mut rest) = wasm.split_at_checked(8)?;
    let mut new = head.to_vec();
    while let Some((&id, after)) = rest.split_first() {
        rest = after;
        let mut body = text(&mut rest)?;
        new.push(id);
        if !matches!(id, IMPORTS | EXPORTS) {
            put(&mut new, body);
            continue;
        }
        let mut section = Vec::new();
        let entries = number(&mut body)?;
        put_number(&mut section, entries);
        for _ in 0..entries {
            if id == IMPORTS {
                put(&mut section, text(&mut body)?);
            }
            let name = names.of(std::str::from_utf8(text(&mut body)?).ok()?);
            put(&mut section, name.as_bytes());
            let (&kind, after) = body.split_first()?;
            body = after;
            // Kind 0 is a function, and what follows it one number: its type. Of an
            // export of any kind one number follows.
            if id == IMPORTS && kind != 0 {
                return None;
            }
            section.push(kind);
            put_number(&mut section, number(&mut body)?);
        }
        put(&mut new, &section);
    }
    Some(new)
}

/// A number as wasm writes it (LEB128), of at most 32 bits.
fn number(from: &mut &[u8]) -> Option<u32> {
    let mut number = 0;
    for shift in (0..32).step_by(7) {
        let (&byte, after) = from.split_first()?;
        *from = after;
        number |= u32::from(byte & 0x7f).checked_shl(shift)?;
        if byte < 0x80 {
            return Some(number);
        }
    }
    None
}

fn put_number(into: &mut Vec<u8>, mut number: u32) {
    while number >= 0x80 {
        into.push(number.to_le_bytes()[0] | 0x80);
        number >>= 7;
    }
    into.push(number.to_le_bytes()[0]);
}

/// Bytes that follow their number.
fn text<'a>(from: &mut &'a [u8]) -> Option<&'a [u8]> {
    let length = usize::try_from(number(from)?).ok()?;
    let (bytes, after) = from.split_at_checked(length)?;
    *from = after;
    Some(bytes)
}

fn put(into: &mut Vec<u8>, bytes: &[u8]) {
    // A section has a number of 32 bits for its length.
    put_number(into, u32::try_from(bytes.len()).unwrap_or(u32::MAX));
    into.extend_from_slice(bytes);
}

/// One of our own scripts or styles without indentation, empty lines and lines of comment.
pub(crate) fn without_comments(script: &str) -> String {
    tight(script, &Names::default())
}

/// A script with new names, without indentation, empty lines and lines of comment. No text
/// in what wasm-bindgen writes goes over several lines, nor any in our own scripts.
fn tight(script: &str, names: &Names) -> String {
    let mut new = String::with_capacity(script.len());
    for line in script.lines().map(str::trim) {
        if line.is_empty()
            || line.starts_with("//")
            || line.starts_with("/*") && line.ends_with("*/")
        {
            continue;
        }
        let part_of_name = |c: char| c.is_alphanumeric() || c == '_' || c == '$';
        let mut rest = line;
        while let Some(start) = rest.find(part_of_name) {
            let (before, from) = rest.split_at(start);
            let end = from.find(|c| !part_of_name(c)).unwrap_or(from.len());
            let (name, after) = from.split_at(end);
            new.push_str(before);
            new.push_str(names.0.get(name).map_or(name, String::as_str));
            rest = after;
        }
        new.push_str(rest);
        new.push('\n');
    }
    new
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
        let mut names = Names::default();
        let new = renamed(WASM, &mut names).unwrap();
        let expected: &[u8] = b"\0asm\x01\0\0\0\
            \x01\x04\x01\x60\0\0\
            \x02\x0b\x01\x04./js\x02$0\0\0\
            \x05\x03\x01\0\x01\
            \x07\x0f\x02\x06memory\x02\0\x02$1\0\0";
        assert_eq!(new, expected);
        let script = "// told\n  imports = {\n\n    __wbg_: () => wasm.wasm_bindgen_x(memory, `${__wbg_x}`),\n}";
        assert_eq!(
            tight(script, &names),
            "imports = {\n$0: () => wasm.$1(memory, `${__wbg_x}`),\n}\n"
        );
    }

    #[test]
    fn no_text_in_our_scripts_goes_over_several_lines() {
        let web = crate::run::root().join("web");
        let mut scripts = vec![web.join("offline.js")];
        let entries = std::fs::read_dir(web.join("static")).unwrap().flatten();
        scripts.extend(entries.map(|entry| entry.path()));
        scripts.retain(|path| path.extension().is_some_and(|ending| ending == "js"));
        assert!(scripts.len() > 3, "{scripts:?}");
        for path in scripts {
            for line in std::fs::read_to_string(&path).unwrap().lines() {
                let marks = line.matches('`').count();
                // Marks of code in a comment come in pairs too.
                assert!(marks.is_multiple_of(2), "{}: {line}", path.display());
            }
        }
    }

    #[test]
    fn what_cannot_be_read_is_left_alone() {
        for cut in [9, 12, 20, WASM.len() - 1] {
            assert_eq!(renamed(&WASM[..cut], &mut Names::default()), None, "{cut}");
        }
        // An imported memory.
        let memory: &[u8] = b"\0asm\x01\0\0\0\x02\x08\x01\x01a\x01m\x02\0\x01";
        assert_eq!(renamed(memory, &mut Names::default()), None);
    }

    #[test]
    fn numbers_of_every_length() {
        for given in [0, 127, 128, 16_383, 16_384, u32::MAX] {
            let mut bytes = Vec::new();
            put_number(&mut bytes, given);
            assert_eq!(number(&mut bytes.as_slice()), Some(given));
        }
        assert_eq!(number(&mut [0x80, 0x80, 0x80, 0x80, 0x80, 0].as_slice()), None);
    }
}
