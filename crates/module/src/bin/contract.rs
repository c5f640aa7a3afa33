//! Writes the contract for others into a folder: `coilwright.d.ts`, `schema/` and what the
//! functions answer before the module is loaded.

use coilwright_module::contract::{schemas, typescript, unstarted};
use std::path::Path;
use std::process::ExitCode;

fn main() -> ExitCode {
    let Some(folder) = std::env::args_os().nth(1) else {
        eprintln!("usage: contract FOLDER");
        return ExitCode::from(2);
    };
    match write(Path::new(&folder)) {
        Ok(()) => ExitCode::SUCCESS,
        Err(error) => {
            eprintln!("contract: {}: {error}", Path::new(&folder).display());
            ExitCode::FAILURE
        }
    }
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
