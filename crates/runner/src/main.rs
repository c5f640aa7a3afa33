//! What `cargo test` runs for a wasm test binary: drives it in a headless browser.

use std::process::ExitCode;

fn main() -> ExitCode {
    match wasm_bindgen_cli::wasm_bindgen_test_runner::run_cli_with_args(std::env::args_os()) {
        Ok(()) => ExitCode::SUCCESS,
        Err(error) => {
            eprintln!("{error:#}");
            ExitCode::FAILURE
        }
    }
}
