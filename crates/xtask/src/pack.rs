//! Compression, the check that every wasm loads, and the size table. The work
//! is Node's, which has all of it built in; see `pack.mjs`.

use crate::run;
use crate::say::{Doing, Done, Failure};
use std::io::Write;
use std::path::Path;
use std::process::Stdio;

/// One file and what it costs to send.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Size {
    pub(crate) name: String,
    pub(crate) raw: u64,
    pub(crate) gzip: u64,
    pub(crate) brotli: u64,
}

/// Measures files of a folder, and with `keep` leaves `.br` and `.gz` beside each.
///
/// # Errors
/// When a wasm among them does not load.
pub(crate) fn pack(folder: &Path, names: &[String], keep: bool) -> Done<Vec<Size>> {
    let hint = "a wasm that does not load is a fault of the tools: delete node_modules and target-wasm and build again";
    let lost = |what: &str| Failure::new(format!("packing {}: {what}", folder.display()), hint);
    let mut command = run::program("node");
    command.current_dir(folder);
    command.args(["--input-type=module", "--eval", include_str!("pack.mjs")]);
    let mut node =
        command.stdin(Stdio::piped()).stdout(Stdio::piped()).spawn().doing("start node")?;
    let mark = if keep { '+' } else { '-' };
    let list: String = names.iter().map(|name| format!("{mark}{name}\n")).collect();
    let mut input = node.stdin.take().ok_or_else(|| lost("node has no input"))?;
    input.write_all(list.as_bytes()).doing("tell node what to pack")?;
    drop(input);
    let output = node.wait_with_output().doing("wait for node")?;
    if !output.status.success() {
        return Err(lost("see the line above"));
    }
    let sizes: Option<Vec<Size>> =
        String::from_utf8_lossy(&output.stdout).lines().map(size).collect();
    sizes
        .filter(|sizes| sizes.len() == names.len())
        .ok_or_else(|| lost("node's answer makes no sense"))
}

fn size(line: &str) -> Option<Size> {
    let mut parts = line.splitn(4, ' ');
    let mut number = || parts.next()?.parse::<u64>().ok();
    let (raw, gzip, brotli) = (number()?, number()?, number()?);
    Some(Size { name: parts.next()?.to_owned(), raw, gzip, brotli })
}

/// The sizes as a table whose last line is their sum.
pub(crate) fn table(title: &str, sizes: &[Size]) -> String {
    let sum = |of: fn(&Size) -> u64| sizes.iter().map(of).sum();
    let total = Size {
        name: "all of it".to_owned(),
        raw: sum(|size| size.raw),
        gzip: sum(|size| size.gzip),
        brotli: sum(|size| size.brotli),
    };
    let width = sizes
        .iter()
        .chain([&total])
        .map(|size| size.name.len())
        .chain([title.len()])
        .max()
        .unwrap_or(0);
    let mut lines = format!("{title:width$}  {:>9}  {:>9}  {:>9}\n", "raw", "gzip", "brotli");
    for size in sizes.iter().chain([&total]) {
        lines.push_str(&format!(
            "{:width$}  {:>9}  {:>9}  {:>9}\n",
            size.name, size.raw, size.gzip, size.brotli
        ));
    }
    lines
}

#[cfg(test)]
mod tests {
    use super::*;

    fn folder(name: &str) -> std::path::PathBuf {
        let folder = std::env::temp_dir().join(format!("coilwright-{name}-{}", std::process::id()));
        std::fs::create_dir_all(&folder).unwrap();
        folder
    }

    #[test]
    fn a_good_wasm_is_packed_and_a_bad_one_refused() {
        let folder = folder("pack");
        std::fs::write(folder.join("good.wasm"), b"\0asm\x01\0\0\0").unwrap();
        std::fs::write(folder.join("bad.wasm"), b"\0asm\x01\0\0\0nonsense").unwrap();
        let sizes = pack(&folder, &["good.wasm".to_owned()], true).unwrap();
        assert_eq!(sizes.len(), 1);
        assert_eq!(sizes[0].raw, 8);
        let kept = |name: &str| std::fs::metadata(folder.join(name)).map(|file| file.len()).ok();
        assert_eq!(kept("good.wasm.br"), Some(sizes[0].brotli));
        assert_eq!(kept("good.wasm.gz"), Some(sizes[0].gzip));
        assert!(pack(&folder, &["bad.wasm".to_owned()], false).is_err());
        assert_eq!(kept("bad.wasm.br"), None);
        std::fs::remove_dir_all(folder).unwrap();
    }

    #[test]
    fn the_table_adds_up() {
        let sizes = ["10 5 4 a.js", "1000 300 200 two words.wasm"].map(|line| size(line).unwrap());
        assert_eq!(
            table("site", &sizes),
            "site                  raw       gzip     brotli\n\
             a.js                   10          5          4\n\
             two words.wasm       1000        300        200\n\
             all of it            1010        305        204\n"
        );
    }

    #[test]
    fn a_line_that_is_no_size_is_none() {
        assert_eq!(size("ten 5 4 a.js"), None);
        assert_eq!(size("10 5 4"), None);
    }
}
