//! The worker that keeps the page on a device: what it keeps, and under which version.

use crate::minify::{self, Names};
use crate::run;
use crate::say::{Doing, Done};
use crate::site::Files;
use base64::Engine;
use base64::engine::general_purpose::STANDARD;
use sha2::{Digest, Sha256};

/// The worker's name. It never changes: a browser looks under the old name for the new one.
pub(crate) const WORKER: &str = "offline.js";

/// Marks a page that may be kept, and names its worker.
const MARK: &str = "  <meta name=\"coilwright-offline\" content=\"offline.js\">\n  ";

/// Adds the worker to a site, and to its page the mark that it may be kept.
///
/// # Errors
/// When the worker cannot be read.
pub(crate) fn add(site: &mut Files) -> Done {
    let worker = run::root().join("web").join(WORKER);
    let worker = std::fs::read_to_string(worker).doing(format!("read web/{WORKER}"))?;
    if let Some(shell) = site.get_mut("index.html") {
        let text = String::from_utf8_lossy(shell);
        *shell = text.replacen("</head>", &format!("{MARK}</head>"), 1).into_bytes();
    }
    let with_list = list(site, &worker) + &minify::script(WORKER, worker, &Names::new())?;
    site.insert(WORKER.to_owned(), with_list.into_bytes());
    Ok(())
}

/// The line that the worker is told its version and files by.
fn list(site: &Files, worker: &str) -> String {
    let mut files = serde_json::Map::new();
    for (name, content) in site {
        files.insert(name.clone(), integrity(content).into());
    }
    // Whatever changes, a file or the worker itself, is another version.
    let mut all = Sha256::new_with_prefix(worker);
    all.update(serde_json::Value::Object(files.clone()).to_string());
    let version: String = all.finalize().iter().take(8).map(|byte| format!("{byte:02x}")).collect();
    let kept = serde_json::json!({ "version": version, "files": files });
    format!("const KEPT = {kept};\n")
}

/// What a browser may check a file by: its SHA-256 as the standard of subresource
/// integrity, and that of content policies, write it.
pub(crate) fn integrity(content: &[u8]) -> String {
    format!("sha256-{}", STANDARD.encode(Sha256::digest(content)))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn site(text: &str) -> Files {
        let shell = format!("<head>{text}</head>");
        Files::from([("index.html".to_owned(), shell.into()), ("a.css".to_owned(), b"a".to_vec())])
    }

    fn kept(line: &str) -> serde_json::Value {
        let line = line.strip_prefix("const KEPT = ").unwrap().strip_suffix(";\n").unwrap();
        serde_json::from_str(line).unwrap()
    }

    #[test]
    fn the_sum_is_the_published_one() {
        // FIPS 180-4, the example "abc" of its published test vectors, in base64.
        assert_eq!(integrity(b"abc"), "sha256-ungWv48Bz+pBQUDeXa4iI7ADYaOWF3qctBD/YfIAFa0=");
    }

    #[test]
    fn every_file_is_kept_by_its_sum() {
        let kept = kept(&list(&site("one"), "worker"));
        let files = kept["files"].as_object().unwrap();
        assert_eq!(files.keys().collect::<Vec<_>>(), ["a.css", "index.html"]);
        assert_eq!(files["a.css"], integrity(b"a"));
    }

    #[test]
    fn a_change_anywhere_is_another_version() {
        let version = |text, worker| kept(&list(&site(text), worker))["version"].clone();
        assert_eq!(version("one", "worker"), version("one", "worker"));
        assert_ne!(version("one", "worker"), version("two", "worker"));
        assert_ne!(version("one", "worker"), version("one", "other"));
    }

    #[test]
    fn the_page_is_marked_before_it_is_summed_up() {
        let mut site = site("one");
        add(&mut site).unwrap();
        let shell = String::from_utf8(site["index.html"].clone()).unwrap();
        assert!(shell.contains("content=\"offline.js\">\n  </head>"), "{shell}");
        let worker = String::from_utf8(site[WORKER].clone()).unwrap();
        let kept = kept(worker.split_inclusive('\n').next().unwrap());
        assert_eq!(kept["files"]["index.html"], integrity(shell.as_bytes()));
        assert_eq!(kept["files"][WORKER], serde_json::Value::Null);
    }
}
