//! The page's wasm cut in two: what a first visit needs, and what comes later.
//!
//! The cut goes along the functions written in `comes_later!` (`web/src/later.rs`): what only
//! they reach is moved, with its data, into a wasm of its own, which shares memory, table and
//! globals with the first.

use crate::say::{Doing, Done, Failure};
use std::path::{Path, PathBuf};
use wasm_split_cli_support::{Options, transform};

/// What is cut out of `NAME_bg.wasm`.
pub(crate) fn later(name: &str) -> String {
    format!("{name}_later.wasm")
}

/// Cuts a compiled wasm that says where which function is spoken of. What comes later is
/// written into `folder`; what is left is for wasm-bindgen, and lies beside the input.
///
/// # Errors
/// When there is nothing to cut, or more than one piece.
pub(crate) fn cut(wasm: &Path, name: &str, folder: &Path) -> Done<PathBuf> {
    let whole = std::fs::read(wasm).doing(format!("read {}", wasm.display()))?;
    let pieces = wasm.with_extension("pieces");
    if pieces.exists() {
        std::fs::remove_dir_all(&pieces).doing(format!("empty {}", pieces.display()))?;
    }
    std::fs::create_dir_all(&pieces).doing(format!("make {}", pieces.display()))?;
    let left = pieces.join("main.wasm");
    let mut options = Options::new(&whole);
    (options.output_dir, options.main_out_path) = (&pieces, &left);
    let failed = |what: String| {
        Failure::new(
            format!("{} cannot be cut: {what}", wasm.display()),
            "see that comes_later! in web/src/later.rs names functions as the splitter wants it",
        )
    };
    let cut = transform(options).map_err(|error| failed(format!("{error:#}")))?;
    let [later_piece] = &cut.split_modules[..] else {
        return Err(failed(format!("{} pieces, not one", cut.split_modules.len())));
    };
    let to = folder.join(later(name));
    std::fs::copy(later_piece, &to).doing(format!("write {}", to.display()))?;
    Ok(left)
}
