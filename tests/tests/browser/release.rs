//! Another release of the built site, made of a copy: a mark in its head tells it from the
//! first, and its title as long as the page has not said what it shows.

use base64::Engine;
use base64::engine::general_purpose::STANDARD;
use serde_json::{Value, json};
use sha2::{Digest, Sha256};
use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicU32, Ordering};

/// What a browser checks a file by.
fn integrity(content: &[u8]) -> String {
    format!("sha256-{}", STANDARD.encode(Sha256::digest(content)))
}

/// A release in a folder of its own, removed when this is dropped.
#[derive(Debug)]
pub(crate) struct Release(PathBuf);

impl Release {
    /// A copy of a site in which the page's title is another, and the list of what is kept
    /// agrees with that.
    pub(crate) fn titled(site: &Path, title: &str) -> Self {
        static COUNT: AtomicU32 = AtomicU32::new(0);
        let number = COUNT.fetch_add(1, Ordering::Relaxed);
        let name = format!("coilwright-release-{}-{number}", std::process::id());
        let release = Self(std::env::temp_dir().join(name));
        std::fs::create_dir_all(&release.0).unwrap();
        for entry in std::fs::read_dir(site).unwrap().flatten() {
            if entry.path().is_file() {
                std::fs::copy(entry.path(), release.0.join(entry.file_name())).unwrap();
            }
        }
        let shell = release.read("index.html");
        let (before, rest) = shell.split_once("<title>").unwrap();
        let (_, after) = rest.split_once("</title>").unwrap();
        release.write(
            "index.html",
            &format!("{before}<title>{title}</title><meta name=release content={title}>{after}"),
        );
        release.list_anew();
        release
    }

    /// Where it lies.
    pub(crate) fn folder(&self) -> &Path {
        &self.0
    }

    pub(crate) fn read(&self, name: &str) -> String {
        std::fs::read_to_string(self.0.join(name)).unwrap()
    }

    /// Changes a file; what is listed of it does not follow.
    pub(crate) fn write(&self, name: &str, text: &str) {
        std::fs::write(self.0.join(name), text).unwrap();
    }

    /// What the worker is told to keep: the list, and the worker without it.
    fn worker(&self) -> (Value, String) {
        let worker = self.read("offline.js");
        let (line, rest) = worker.split_once('\n').unwrap();
        let list = line.strip_prefix("const KEPT = ").and_then(|line| line.strip_suffix(';'));
        (serde_json::from_str(list.expect("a list")).unwrap(), rest.to_owned())
    }

    fn set_worker(&self, list: &Value, rest: &str) {
        self.write("offline.js", &format!("const KEPT = {list};\n{rest}"));
    }

    /// Lists every file with what it is now, as a build does.
    pub(crate) fn list_anew(&self) {
        let (mut list, rest) = self.worker();
        for (name, sum) in list["files"].as_object_mut().unwrap() {
            *sum = json!(integrity(&std::fs::read(self.0.join(name)).unwrap()));
        }
        list["version"] = json!(integrity(list.to_string().as_bytes()));
        self.set_worker(&list, &rest);
    }

    /// Lists a file that is not there.
    pub(crate) fn list_missing(&self, name: &str) {
        let (mut list, rest) = self.worker();
        list["files"][name] = json!(integrity(b"somewhere else"));
        list["version"] = json!(integrity(list.to_string().as_bytes()));
        self.set_worker(&list, &rest);
    }

    /// The names of what is kept.
    pub(crate) fn kept(&self) -> Vec<String> {
        self.worker().0["files"].as_object().unwrap().keys().cloned().collect()
    }
}

impl Drop for Release {
    fn drop(&mut self) {
        // The system clears the folder for what is temporary in time.
        let _ = std::fs::remove_dir_all(&self.0);
    }
}

impl super::page::Page {
    /// Which release the page is of; empty for the first.
    pub(crate) async fn release(&self) -> thirtyfour::error::WebDriverResult<String> {
        let script = "return document.querySelector('meta[name=release]')?.content ?? ''";
        let name = self.run(script, Vec::new()).await?;
        Ok(name.as_str().unwrap_or_default().to_owned())
    }
}
