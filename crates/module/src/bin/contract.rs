//! Writes the contract for others into a folder: `coilwright.d.ts`, `schema/` and what the
//! functions answer before the module is loaded. With `--tables` it brings the tables of a
//! document up to date instead.

use coilwright_module::contract::{filled, schemas, typescript, unstarted};
use std::path::Path;
use std::process::ExitCode;

fn main() -> ExitCode {
    let arguments: Vec<_> = std::env::args_os().skip(1).collect();
    let (at, done) = match &arguments[..] {
        [folder] => (folder, write(Path::new(folder))),
        [option, document] if option == "--tables" => (document, fill(Path::new(document))),
        _ => {
            eprintln!("usage: contract FOLDER, or contract --tables DOCUMENT");
            return ExitCode::from(2);
        }
    };
    match done {
        Ok(()) => ExitCode::SUCCESS,
        Err(error) => {
            eprintln!("contract: {}: {error}", Path::new(at).display());
            ExitCode::FAILURE
        }
    }
}

fn fill(document: &Path) -> std::io::Result<()> {
    let text = std::fs::read_to_string(document)?;
    std::fs::write(document, filled(&text).map_err(std::io::Error::other)?)
}

fn write(folder: &Path) -> std::io::Result<()> {
    let schema = folder.join("schema");
    std::fs::create_dir_all(&schema)?;
    std::fs::write(folder.join("coilwright.d.ts"), typescript())?;
    std::fs::write(folder.join("coilwright_unstarted.js"), unstarted())?;
    for (name, text) in schemas() {
        std::fs::write(schema.join(name), text)?;
    }
    Ok(())
}
