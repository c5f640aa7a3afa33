//! The site as a set of files: the shell, the static files and the bound wasm,
//! with names that change when their content does.

use crate::bind::{self, Profile, Source, Use};
use crate::say::{self, Doing, Done, Failure};
use crate::{glue, minify, offline, run, split, styles};
use sha2::{Digest, Sha256};
use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

/// What a browser may do on the page: nothing but run our own files.
pub(crate) const POLICY: &str = "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; \
style-src 'self'; img-src 'self' data:; connect-src 'self'; manifest-src 'self'; \
worker-src 'self'; base-uri 'none'; form-action 'none'";

/// Files under the names that a browser asks for, relative to the page.
pub(crate) type Files = BTreeMap<String, Vec<u8>>;

const PAGE: Source = Source {
    package: "coilwright-web",
    cargo: &["--bin", "coilwright-web"],
    library: false,
    artefact: "coilwright-web.wasm",
    name: "coilwright-web",
    split: true,
};

/// The least page of the same framework, under the names of the page. Only measured.
const EMPTY: Source = Source {
    cargo: &["--example", "hello"],
    artefact: "examples/hello.wasm",
    split: false,
    ..PAGE
};

/// The page with a rig that stops it, so that proofs can see it stop. Never shipped.
const TRAPPED: Source =
    Source { cargo: &["--bin", "coilwright-web", "--features", "trap"], ..PAGE };

/// The script between the page and its wasm, that wasm, and the script that has the page
/// kept on a device.
pub(crate) const GLUE: &str = "coilwright-web.js";
pub(crate) const WASM: &str = "coilwright-web_bg.wasm";
/// What comes later, where it is cut out.
pub(crate) const LATER: &str = "coilwright-web_later.wasm";
pub(crate) const KEEPER: &str = "kept.js";

/// Compiles the page and puts the site together.
pub(crate) fn build(profile: Profile) -> Done<Files> {
    let mut sources = bound(PAGE, profile, Use::Module, "target-wasm/bound/page")?;
    shell(profile, &mut sources)?;
    if sources.contains_key(LATER) {
        let shell = sources.entry("index.html".to_owned()).or_default();
        *shell = with_styles_later(&String::from_utf8_lossy(shell)).into_bytes();
    }
    let mut site = assemble(sources)?;
    // While somebody works on the page, nothing keeps an old one.
    if profile == Profile::Small {
        offline::add(&mut site)?;
    }
    Ok(site)
}

/// The same, as soon as it can be had, where a certain rig stops it.
pub(crate) fn build_trapped() -> Done<Files> {
    let mut sources = bound(TRAPPED, Profile::Quick, Use::Module, "target-wasm/bound/trapped")?;
    shell(Profile::Quick, &mut sources)?;
    assemble(sources)
}

/// What a page that is one file is made of, under plain names.
pub(crate) fn sources_of_one_file(profile: Profile) -> Done<Files> {
    let mut sources = bound(PAGE, profile, Use::Inline, "target-wasm/bound/single")?;
    shell(profile, &mut sources)?;
    Ok(sources)
}

/// Reads the shell and the static files, and puts the style sheets together.
fn shell(profile: Profile, into: &mut Files) -> Done {
    let root = run::root();
    let mut files = Files::new();
    gather(&root.join("web/static"), "", &mut files)?;
    for (name, sheet) in [styles::START, styles::NAME, styles::LATER].iter().zip(styles::all()?) {
        files.insert((*name).to_owned(), sheet.into_bytes());
    }
    if profile == Profile::Small {
        minify::all(&mut files)?;
    }
    let shell = std::fs::read_to_string(root.join("index.html")).doing("read index.html")?;
    let shell = if into.contains_key(LATER) { shell } else { without(&shell, LATER) };
    let shell = with_the_example(&shell)?;
    files.insert("index.html".to_owned(), shell.into_bytes());
    into.append(&mut files);
    Ok(())
}

/// The shell where the styles of what comes later come with it.
fn with_styles_later(shell: &str) -> String {
    let at_once = format!("<link rel=\"stylesheet\" href=\"{}\">", styles::LATER);
    let later =
        format!("<template id=\"boot-later-styles\" data-sheet=\"{}\"></template>", styles::LATER);
    shell.replace(&at_once, &later)
}

/// The place for the example, and what is written there: see `tests/tests/browser/taking.rs`.
const EXAMPLE: &str = "<template id=\"boot-example\"></template>";
const EXAMPLE_FILE: &str = "web/example.html";

/// The shell with the example as the page draws it first, to be shown until the page runs.
fn with_the_example(shell: &str) -> Done<String> {
    let example = std::fs::read_to_string(run::root().join(EXAMPLE_FILE))
        .doing(format!("read {EXAMPLE_FILE}"))?;
    if !shell.contains(EXAMPLE) {
        let what = format!("index.html has no {EXAMPLE}");
        return Err(Failure::new(what, "put it back: the example has its place there"));
    }
    Ok(shell.replace(EXAMPLE, &EXAMPLE.replace("><", &format!(">{}<", example.trim()))))
}

/// A text without the lines that speak of something.
pub(crate) fn without(text: &str, what: &str) -> String {
    let left: Vec<&str> = text.lines().filter(|line| !line.contains(what)).collect();
    left.join("\n")
}

/// The same shell and start around a page with nothing on it, and no styles.
pub(crate) fn build_empty(profile: Profile) -> Done<Files> {
    let mut sources = bound(EMPTY, profile, Use::Module, "target-wasm/bound/empty")?;
    shell(profile, &mut sources)?;
    sources.retain(|name, _| extension(name) != "css");
    if let Some(shell) = sources.get_mut("index.html") {
        let mut text = String::from_utf8_lossy(shell).into_owned();
        for of in ["\"stylesheet\"", "as=style", "\"boot-example\""] {
            text = without(&text, of);
        }
        *shell = text.into_bytes();
    }
    assemble(sources)
}

/// Compiles, binds and shrinks, by way of a folder.
fn bound(source: Source, profile: Profile, for_use: Use, folder: &str) -> Done<Files> {
    let wasm = say::step("compiling for the browser", || bind::compile(source, profile))?;
    let folder = run::root().join(folder);
    say::step("binding it to JavaScript", || bind::bind(&wasm, source, profile, for_use, &folder))?;
    if profile == Profile::Small {
        say::step("shrinking both", || {
            glue::shorten(&folder, source.name)?;
            if source.is_split(profile) {
                bind::shrink(&folder.join(split::later(source.name)))?;
            }
            bind::shrink(&folder.join(format!("{}_bg.wasm", source.name)))
        })?;
    }
    let mut files = Files::new();
    gather(&folder, "", &mut files)?;
    Ok(files)
}

/// Reads a folder and the folders in it.
fn gather(folder: &Path, prefix: &str, into: &mut Files) -> Done {
    let doing = || format!("read {}", folder.display());
    let mut entries: Vec<PathBuf> =
        std::fs::read_dir(folder).doing(doing())?.flatten().map(|entry| entry.path()).collect();
    entries.sort();
    for path in entries {
        let Some(name) = path.file_name().and_then(|name| name.to_str()) else {
            continue;
        };
        let name = format!("{prefix}{name}");
        if path.is_dir() {
            gather(&path, &format!("{name}/"), into)?;
        } else {
            into.insert(name, std::fs::read(&path).doing(doing())?);
        }
    }
    Ok(())
}

/// What tells a browser how the page is installed. Its name stays, as that of the page does.
const MANIFEST: &str = "manifest.webmanifest";

/// In which order files get their names: a file's name depends on its content,
/// and that on the names of the files it speaks of.
pub(crate) const ORDER: [&[&str]; 4] =
    [&["wasm", "svg", "png"], &["css", "webmanifest"], &["js"], &["html"]];

/// Renames every file after its content, and every mention with it.
///
/// # Errors
/// When nothing mentions a file, or a file is of a kind without a rule.
fn assemble(sources: Files) -> Done<Files> {
    let mut renamed: Vec<(String, String)> = Vec::new();
    let mut mentioned: Vec<String> = Vec::new();
    let mut site = Files::new();
    let mut left = sources;
    for kinds in ORDER {
        let (now, later): (Files, Files) =
            left.into_iter().partition(|(name, _)| kinds.contains(&extension(name)));
        left = later;
        let mut new_names = Vec::new();
        for (name, mut content) in now {
            if is_text(&name) {
                let text = String::from_utf8(content).map_err(|_| {
                    Failure::new(format!("{name} is not UTF-8"), "save it as UTF-8")
                })?;
                content = with_new_names(text, &renamed, &mut mentioned).into_bytes();
            }
            let new_name = match name.as_str() {
                "index.html" | MANIFEST => name.clone(),
                // wasm-bindgen names the folders of these after their content.
                snippet if snippet.contains('/') => {
                    mentioned.push(name.clone());
                    name.clone()
                }
                _ => named_after(&name, &content),
            };
            new_names.push((name, new_name.clone()));
            site.insert(new_name, content);
        }
        renamed.extend(new_names);
    }
    if let Some(name) = left.keys().next() {
        return Err(Failure::new(
            format!("web/static/{name} is of a kind that the site has no rule for"),
            "add its kind to ORDER in crates/xtask/src/site.rs and to the kinds in http.rs",
        ));
    }
    for (name, _) in &renamed {
        if name != "index.html" && !mentioned.contains(name) {
            return Err(Failure::new(
                format!("nothing mentions {name}, so no visitor would ever load it"),
                "mention it in index.html in quotation marks, or delete it",
            ));
        }
    }
    Ok(site)
}

/// Replaces each old name that stands alone in quotation marks or brackets.
fn with_new_names(
    text: String,
    renamed: &[(String, String)],
    mentioned: &mut Vec<String>,
) -> String {
    let mut text = text;
    for (old, new) in renamed {
        for (open, close) in [('"', '"'), ('\'', '\''), ('(', ')')] {
            let quoted = format!("{open}{old}{close}");
            if text.contains(&quoted) {
                mentioned.push(old.clone());
                text = text.replace(&quoted, &format!("{open}{new}{close}"));
            }
        }
    }
    text
}

fn named_after(name: &str, content: &[u8]) -> String {
    let (stem, extension) = name.rsplit_once('.').unwrap_or((name, ""));
    format!("{stem}-{:016x}.{extension}", fingerprint(content))
}

/// The first bytes of its SHA-256: tells versions of our own files apart, and stays the
/// same from one Rust to the next, which std's hasher does not promise.
pub(crate) fn fingerprint(content: &[u8]) -> u64 {
    let [a, b, c, d, e, f, g, h, ..]: [u8; 32] = Sha256::digest(content).into();
    u64::from_be_bytes([a, b, c, d, e, f, g, h])
}

pub(crate) fn extension(name: &str) -> &str {
    name.rsplit_once('.').map_or("", |(_, extension)| extension)
}

fn is_text(name: &str) -> bool {
    matches!(extension(name), "html" | "js" | "css" | "svg" | "webmanifest")
}

#[cfg(test)]
mod tests {
    use super::*;

    fn files(pairs: &[(&str, &str)]) -> Files {
        pairs.iter().map(|(name, text)| ((*name).to_owned(), text.as_bytes().to_vec())).collect()
    }

    fn sample(wasm: &str) -> Files {
        files(&[
            ("index.html", r#"<a href="a.css"><b src="glue.js">"#),
            ("a.css", "url(dot.svg) b.css"),
            ("dot.svg", "<svg/>"),
            ("glue.js", "fetch('code_bg.wasm')"),
            ("code_bg.wasm", wasm),
        ])
    }

    fn text(site: &Files, start: &str) -> String {
        let (_, content) = site.iter().find(|(name, _)| name.starts_with(start)).unwrap();
        String::from_utf8(content.clone()).unwrap()
    }

    #[test]
    fn the_fingerprint_is_the_published_one() {
        // FIPS 180-4, the example "abc" of its published test vectors: the sum's first eight
        // bytes.
        assert_eq!(fingerprint(b"abc"), 0xba78_16bf_8f01_cfea);
    }

    #[test]
    fn every_mention_follows_its_file() {
        let site = assemble(sample("one")).unwrap();
        assert_eq!(site.len(), 5);
        for name in site.keys() {
            assert_eq!(name == "index.html", !name.contains('-'), "{name}");
        }
        for (from, to) in
            [("index", "a-"), ("index", "glue-"), ("a-", "dot-"), ("glue-", "code_bg-")]
        {
            let target = site.keys().find(|name| name.starts_with(to)).unwrap();
            assert!(text(&site, from).contains(target), "{from} to {to}");
        }
        // Only a whole name is one: this is prose, or another file's.
        assert!(text(&site, "a-").ends_with(" b.css"));
    }

    #[test]
    fn a_change_in_the_wasm_renames_all_that_leads_to_it() {
        let one = assemble(sample("one")).unwrap();
        let two = assemble(sample("two")).unwrap();
        let changed: Vec<&String> = two.keys().filter(|name| !one.contains_key(*name)).collect();
        assert_eq!(changed.len(), 2, "{changed:?}");
        assert_ne!(one["index.html"], two["index.html"]);
    }

    #[test]
    fn what_is_installed_is_told_in_the_colours_of_the_page() {
        let statics = run::root().join("web/static");
        let read = |name: &str| std::fs::read_to_string(statics.join(name)).unwrap();
        let told: serde_json::Value = serde_json::from_str(&read(MANIFEST)).unwrap();
        let [tokens, ..] = styles::all().unwrap();
        for (member, token) in [("theme_color", "--paper"), ("background_color", "--desk")] {
            // The first of a name is that of the day.
            let (_, after) = tokens.split_once(&format!("{token}: ")).unwrap();
            let (colour, _) = after.split_once(';').unwrap();
            assert_eq!(told[member], colour);
        }
        for icon in told["icons"].as_array().unwrap() {
            let (name, sizes) = (icon["src"].as_str().unwrap(), icon["sizes"].as_str().unwrap());
            if sizes == "any" {
                continue;
            }
            // Width and height in the head of a PNG: bytes 16 to 23.
            let picture = std::fs::read(statics.join(name)).unwrap();
            let side = |at: usize| u32::from_be_bytes(picture[at..at + 4].try_into().unwrap());
            assert_eq!(sizes, format!("{}x{}", side(16), side(20)), "{name}");
        }
    }

    #[test]
    fn a_file_that_nothing_mentions_is_refused() {
        let mut sources = sample("one");
        sources.insert("lost.css".to_owned(), Vec::new());
        let failure = assemble(sources).unwrap_err().to_string();
        assert!(failure.contains("nothing mentions lost.css"), "{failure}");
    }

    #[test]
    fn a_file_of_an_unknown_kind_is_refused() {
        let mut sources = sample("one");
        sources.insert("tune.mp3".to_owned(), Vec::new());
        let failure = assemble(sources).unwrap_err().to_string();
        assert!(failure.contains("tune.mp3 is of a kind"), "{failure}");
    }
}
