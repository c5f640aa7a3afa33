//! Starting other programs.

use crate::say::{Done, Failure};
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

/// The folder of the workspace.
///
/// Taken from the environment that `cargo run` sets, so that a checkout which
/// was moved after it was compiled still finds itself.
pub(crate) fn root() -> PathBuf {
    let here = std::env::var_os("CARGO_MANIFEST_DIR")
        .map_or_else(|| PathBuf::from(env!("CARGO_MANIFEST_DIR")), PathBuf::from);
    here.ancestors().nth(2).map_or_else(|| here.clone(), Path::to_path_buf)
}

/// The cargo that started this tool, run in the workspace.
pub(crate) fn cargo() -> Command {
    let mut command = Command::new(std::env::var_os("CARGO").unwrap_or_else(|| "cargo".into()));
    command.current_dir(root());
    command
}

/// A program found on the path, run in the workspace.
pub(crate) fn program(name: &str) -> Command {
    // Node's own tools are scripts on one system and batch files on another.
    let name = match name {
        "npm" if cfg!(windows) => "npm.cmd",
        other => other,
    };
    let mut command = Command::new(name);
    command.current_dir(root());
    command
}

/// Runs it to the end with its output shown.
///
/// # Errors
/// When it cannot start or ends with anything but success.
pub(crate) fn show(command: &mut Command, hint: &str) -> Done {
    let line = written(command);
    let status = command
        .status()
        .map_err(|error| Failure::new(format!("could not start `{line}`: {error}"), hint))?;
    if status.success() {
        return Ok(());
    }
    Err(Failure::new(format!("`{line}` ended with {status}"), hint))
}

/// Runs it to the end and returns what it printed; its complaints are shown.
///
/// # Errors
/// When it cannot start, ends with anything but success, or prints no text.
pub(crate) fn read(command: &mut Command, hint: &str) -> Done<String> {
    let line = written(command);
    let output = command
        .stderr(Stdio::inherit())
        .output()
        .map_err(|error| Failure::new(format!("could not start `{line}`: {error}"), hint))?;
    if !output.status.success() {
        let reason = format!("`{line}` ended with {}", output.status);
        return Err(Failure::new(reason, hint));
    }
    String::from_utf8(output.stdout)
        .map_err(|_| Failure::new(format!("`{line}` printed something that is not text"), hint))
}

/// Whether a program can be started at all.
pub(crate) fn exists(name: &str) -> bool {
    program(name)
        .arg("--version")
        .stdin(Stdio::null())
        .stdout(Stdio::null())
        .stderr(Stdio::null())
        .status()
        .is_ok_and(|status| status.success())
}

/// A command as one would type it, for messages.
pub(crate) fn written(command: &Command) -> String {
    let program = Path::new(command.get_program()).file_name().unwrap_or(command.get_program());
    let mut line = program.to_string_lossy().into_owned();
    for argument in command.get_args() {
        line.push(' ');
        let text = argument.to_string_lossy();
        // Whole scripts are passed as one argument; their first line will do.
        line.push_str(text.lines().next().unwrap_or_default());
    }
    line
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_root_is_where_the_workspace_is() {
        assert!(root().join("crates/xtask/Cargo.toml").is_file());
    }

    #[test]
    fn a_program_that_fails_is_a_failure_with_its_line() {
        let failure = show(cargo().arg("no-such-command-at-all").stderr(Stdio::null()), "x");
        let text = failure.unwrap_err().to_string();
        assert!(text.contains("cargo no-such-command-at-all"), "{text}");
        assert!(text.ends_with("try: x"), "{text}");
    }

    #[test]
    fn a_program_that_is_not_there_does_not_exist() {
        assert!(!exists("surely-no-such-program"));
        assert!(exists("cargo"));
    }
}
