//! `cargo xtask build`: writes `dist/`.

use crate::bind::Profile;
use crate::pack::{self, Size};
use crate::run;
use crate::say::{self, Doing, Done};
use crate::site::{self, Files, POLICY};
use crate::{licences, module, offline, styles, tools};
use std::path::{Path, PathBuf};

/// Where the site is written.
pub(crate) fn dist() -> PathBuf {
    run::root().join("dist")
}

/// Where the module is written.
pub(crate) fn dist_module() -> PathBuf {
    dist().join("module")
}

/// What a visit loads, by the names of files.
#[derive(Debug)]
pub(crate) struct Visit {
    /// What the page needs to come up.
    pub(crate) first: Vec<String>,
    /// What is loaded once it has: for a device that keeps the page.
    pub(crate) later: Vec<String>,
    pub(crate) weighed: Weighed,
}

/// What each file weighs.
#[derive(Debug)]
pub(crate) struct Weighed {
    /// Of the site: of a first visit, later, on request.
    pub(crate) site: [Vec<Size>; 3],
    pub(crate) module: Vec<Size>,
}

/// The worker, and what only a system that installs the page shows, can wait.
fn is_for_the_first_visit(name: &str) -> bool {
    // Files are named after what they hold, too.
    let stem = |name: &'static str| name.split_once('.').map_or(name, |(stem, _)| stem);
    let is_later = [site::LATER, styles::LATER].iter().any(|of| name.starts_with(stem(of)));
    name != offline::WORKER && !is_later && !matches!(site::extension(name), "png" | "webmanifest")
}

/// Builds the site and the module and prints what they weigh.
pub(crate) fn run() -> Done<Visit> {
    tools::wasm_target()?;
    tools::node()?;
    // Before the long compilation that it is for.
    tools::wasm_opt()?;
    let files = site::build(Profile::Small)?;
    // Written beside and swapped in: a build that fails leaves the last dist/ whole.
    let fresh = run::root().join("target-wasm/dist");
    if fresh.exists() {
        std::fs::remove_dir_all(&fresh).doing("empty target-wasm/dist")?;
    }
    write(&fresh, &files)?;
    let (visited, later): (Vec<String>, Vec<String>) =
        files.keys().cloned().partition(|name| is_for_the_first_visit(name));
    let extras = say::step("collecting licences and example headers", || {
        let mut extras = example_headers();
        let licences = licences::text(&["coilwright-web"])?;
        extras.insert("licences.txt".to_owned(), licences.into_bytes());
        Ok(extras)
    })?;
    write(&fresh, &extras)?;
    let sizes = say::step("compressing, and loading each wasm", || {
        let extras: Vec<String> = extras.into_keys().collect();
        let pack = |names: &[String]| pack::pack(&fresh, names, true);
        Ok([pack(&visited)?, pack(&later)?, pack(&extras)?])
    })?;
    module::build(&fresh.join("module"))?;
    let module = pack::pack(&fresh.join("module"), &module_files(&fresh)?, false)?;
    let dist = dist();
    if dist.exists() {
        std::fs::remove_dir_all(&dist).doing("remove the last dist/")?;
    }
    std::fs::rename(&fresh, &dist).doing("put the new dist/ in place")?;
    report(&sizes, &module);
    Ok(Visit { first: visited, later, weighed: Weighed { site: sizes, module } })
}

fn module_files(fresh: &Path) -> Done<Vec<String>> {
    let mut names: Vec<String> = std::fs::read_dir(fresh.join("module"))
        .doing("list the module")?
        .flatten()
        .filter(|entry| entry.path().is_file())
        .filter_map(|entry| entry.file_name().into_string().ok())
        .filter(|name| matches!(site::extension(name), "js" | "wasm"))
        .collect();
    names.sort();
    Ok(names)
}

/// Writes files into a folder, beside what it holds.
pub(crate) fn write(folder: &Path, files: &Files) -> Done {
    for (name, content) in files {
        let path = folder.join(name);
        let parent = path.parent().unwrap_or(folder);
        std::fs::create_dir_all(parent).doing(format!("make {}", parent.display()))?;
        std::fs::write(&path, content).doing(format!("write {}", path.display()))?;
    }
    Ok(())
}

fn report([site, later, extra]: &[Vec<Size>; 3], module: &[Size]) {
    println!("\n{}", pack::table("dist/, all that a first visit loads", site));
    println!("{}", pack::table("dist/, loaded once the page is up, to be kept", later));
    println!("{}", pack::table("dist/, loaded on request only", extra));
    println!("{}", pack::table("dist/module/", module));
    let brotli = |sizes: &[Size]| sizes.iter().map(|size| size.brotli).sum::<u64>();
    let (first, later) = (brotli(site), brotli(later));
    println!("a first visit transfers {first} bytes in brotli, headers aside, and {later} later");
}

/// The file that tells what a server should send.
pub(crate) fn example_headers() -> Files {
    Files::from([("headers.example.txt".to_owned(), headers().into_bytes())])
}

/// An example of what a server should send beside the files.
fn headers() -> String {
    format!(
        "\
# What a web server should send with these files. An example to translate into
# your server's own configuration; every address in the page is relative, so the
# folder works at any place of a site.
#
# Where a file has neighbours ending in .br or .gz, send those to browsers that
# accept them, with Content-Encoding: br or gzip and Vary: Accept-Encoding.

# Where two headings speak of a file, the later one holds. A browser looks for a new
# version of the page by way of offline.js: of that file, of index.html and of all whose
# name stays the same, it must ask before it uses a copy of its own.

[every file]
Cache-Control: no-cache
Content-Security-Policy: {POLICY}
X-Content-Type-Options: nosniff
Referrer-Policy: no-referrer

[files with sixteen hexadecimal digits in their name]
Cache-Control: public, max-age=31536000, immutable

[*.html]
Content-Type: text/html; charset=utf-8

[*.js]
Content-Type: text/javascript; charset=utf-8

[*.css]
Content-Type: text/css; charset=utf-8

[*.wasm]
Content-Type: application/wasm

[*.svg]
Content-Type: image/svg+xml

[*.png]
Content-Type: image/png

[*.webmanifest]
Content-Type: application/manifest+json

[*.txt]
Content-Type: text/plain; charset=utf-8
"
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_example_headers_hold_the_policy_that_serve_sends() {
        let sent = crate::http::head("200 OK", "text/html", None);
        let policy = format!("Content-Security-Policy: {POLICY}");
        assert!(headers().contains(&policy));
        assert!(sent.contains(&policy));
    }

    #[test]
    fn the_example_headers_tell_every_kind_of_file_as_serve_does() {
        for kind in site::ORDER.iter().flat_map(|kinds| kinds.iter()).chain(&["txt"]) {
            let section =
                format!("[*.{kind}]\nContent-Type: {}\n", crate::http::kind(&format!("a.{kind}")));
            assert!(headers().contains(&section), "{section}");
        }
    }

    #[test]
    fn files_land_where_their_names_say() {
        let folder = std::env::temp_dir().join(format!("coilwright-write-{}", std::process::id()));
        let files = Files::from([("deep/a.txt".to_owned(), b"a".to_vec())]);
        write(&folder, &files).unwrap();
        assert_eq!(std::fs::read(folder.join("deep/a.txt")).unwrap(), b"a");
        std::fs::remove_dir_all(folder).unwrap();
    }
}
