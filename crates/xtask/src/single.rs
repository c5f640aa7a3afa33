//! `cargo xtask build --single-file`: the page as one file that opens from a disk.
//!
//! A page from a disk may load nothing beside it, and one in a strict frame has no origin
//! to load from. So everything stands in the page: styles, the wasm in base64, and the
//! scripts as one. Its policy names the sums of these, and no place to connect to.

use crate::bind::Profile;
use crate::offline::integrity;
use crate::pack;
use crate::say::{self, Done, Failure};
use crate::site::{self, Files};
use crate::{build, licences, tools};
use base64::Engine;
use base64::engine::general_purpose::STANDARD;
use std::path::PathBuf;

/// The file's name.
const NAME: &str = "coilwright.html";

/// The texts under which other people's code is in it.
const LICENCES: &str = "licences.txt";

/// Where it is written.
pub(crate) fn folder() -> PathBuf {
    build::dist().join("single-file")
}

/// Builds it and prints what it weighs.
pub(crate) fn run() -> Done {
    tools::wasm_target()?;
    tools::node()?;
    // Before the long compilation that it is for.
    tools::wasm_opt()?;
    let mut sources = site::sources_of_one_file(Profile::Small)?;
    // Passed on from hand to hand, it has no other file beside it.
    sources.insert(LICENCES.to_owned(), licences::text(&["coilwright-web"])?.into_bytes());
    let page = say::step("putting everything into one file", || whole(&sources))?;
    build::write(&folder(), &Files::from([(NAME.to_owned(), page.into_bytes())]))?;
    let sizes = pack::pack(&folder(), &[NAME.to_owned()], false)?;
    println!("\n{}", pack::table("dist/single-file/", &sizes));
    Ok(())
}

/// The shell with all that it mentions in the place of each mention. What serves a site
/// alone is left out: preloads, the manifest, what keeps the page on a device.
fn whole(sources: &Files) -> Done<String> {
    let shell = site::without(&text(sources, "index.html")?, site::LATER);
    let mut styles = String::new();
    let mut scripts = text(sources, site::GLUE)?;
    let mut kept = Vec::new();
    for line in shell.lines() {
        let named = |start: &str| line.trim().strip_prefix(start)?.split('"').next();
        if let Some(name) = named("<link rel=\"stylesheet\" href=\"") {
            styles.push_str(&text(sources, name)?);
        } else if let Some(name) = named("<script src=\"") {
            if name != site::KEEPER {
                scripts.push_str(&text(sources, name)?);
            }
        } else if line.contains("<link rel=\"icon\"") {
            kept.push(with_the_icon(line, sources)?);
        } else if !line.contains("<link ") {
            kept.push(line.to_owned());
        }
    }
    let [wasm, later] =
        [site::WASM, site::LATER].map(|name| Ok(STANDARD.encode(bytes(sources, name)?)));
    let (wasm, later) = (wasm?, later?);
    let policy = policy(&styles, &scripts);
    let mut page = kept.join("\n");
    page.push('\n');
    // The policy before anything that it is about.
    let first = "<meta charset=\"utf-8\">";
    let styled = format!("  <style>{styles}</style>\n  </head>");
    let scripted = format!(
        "  <script type=\"application/wasm\" id=\"boot-wasm\">{wasm}</script>\n    \
         <script type=\"application/wasm\" id=\"boot-later\">{later}</script>\n    \
         <script type=\"module\">{scripts}</script>\n    \
         <script type=\"text/plain\" id=\"licences\">\n{}</script>\n  </body>",
        text(sources, LICENCES)?
    );
    for (place, with) in
        [(first, format!("{first}\n    {policy}")), ("</head>", styled), ("</body>", scripted)]
    {
        if !page.contains(place) {
            return Err(Failure::new(format!("index.html has no {place}"), "put it back"));
        }
        page = page.replacen(place, &with, 1);
    }
    Ok(page)
}

/// What a browser may do on such a page: run these scripts, with these styles.
fn policy(styles: &str, scripts: &str) -> String {
    let (styles, scripts) = (integrity(styles.as_bytes()), integrity(scripts.as_bytes()));
    format!(
        "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; \
         script-src '{scripts}' 'wasm-unsafe-eval'; style-src '{styles}'; img-src data:; \
         base-uri 'none'; form-action 'none'\">"
    )
}

fn with_the_icon(line: &str, sources: &Files) -> Done<String> {
    let name = "favicon.svg";
    let icon = format!("data:image/svg+xml;base64,{}", STANDARD.encode(bytes(sources, name)?));
    Ok(line.replace(name, &icon))
}

fn bytes<'a>(sources: &'a Files, name: &str) -> Done<&'a [u8]> {
    let missing = || Failure::new(format!("there is no {name}"), "index.html speaks of it");
    sources.get(name).map(Vec::as_slice).ok_or_else(missing)
}

/// A text that may stand within an element of a page.
fn text(sources: &Files, name: &str) -> Done<String> {
    let text = String::from_utf8_lossy(bytes(sources, name)?).into_owned();
    let ends = ["</script", "<!--", "</style"].into_iter().find(|end| text.contains(end));
    match ends.filter(|_| name != "index.html") {
        None => Ok(text),
        Some(end) => Err(Failure::new(
            format!("{name} holds `{end}`, which would end it within a page"),
            "write it in two parts",
        )),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::styles;

    fn sample() -> Files {
        let shell = std::fs::read_to_string(crate::run::root().join("index.html")).unwrap();
        let mut sources = Files::from([("index.html".to_owned(), shell.clone().into_bytes())]);
        sources.insert(LICENCES.to_owned(), b"[licences]".to_vec());
        for part in shell.split('"').filter(|part| part.contains('.') && !part.contains(' ')) {
            sources.insert(part.to_owned(), format!("[{part}]\n").into_bytes());
        }
        sources
    }

    #[test]
    fn all_that_the_shell_loads_stands_in_the_page() {
        let page = whole(&sample()).unwrap();
        for name in [
            styles::START,
            styles::NAME,
            styles::LATER,
            "hand.js",
            "boot.js",
            "licences",
            site::GLUE,
        ] {
            assert_eq!(page.matches(&format!("[{name}]")).count(), 1, "{name}");
        }
        for start in ["src=", "href=", "kept.js", "manifest"] {
            let left = page.replace("href=\"data:", "");
            assert!(!left.contains(start), "{start} in {page}");
        }
        for (id, name) in [("boot-wasm", site::WASM), ("boot-later", site::LATER)] {
            let wasm = STANDARD.encode(format!("[{name}]\n"));
            assert_eq!(page.matches(&format!("id=\"{id}\"")).count(), 1);
            assert!(page.contains(&format!("id=\"{id}\">{wasm}</script>")));
        }
        let glue = page.find(site::GLUE).unwrap();
        assert!(glue < page.find("[boot.js]").unwrap(), "the glue comes before what uses it");
    }

    #[test]
    fn the_policy_comes_first_and_names_what_stands_in_the_page() {
        let page = whole(&sample()).unwrap();
        let between = |start: &str, end: &str| {
            let (_, after) = page.split_once(start).unwrap();
            integrity(after.split_once(end).unwrap().0.as_bytes())
        };
        let (_, policy) = page.split_once("Content-Security-Policy\" content=\"").unwrap();
        let policy = policy.split('"').next().unwrap();
        assert!(policy.starts_with("default-src 'none'; "), "{policy}");
        assert!(policy.contains(&between("<style>", "</style>")), "{policy}");
        assert!(policy.contains(&between("<script type=\"module\">", "</script>")), "{policy}");
        assert!(!policy.contains("connect-src") && !policy.contains("'self'"), "{policy}");
        assert!(page.find(policy) < page.find("<style>"));
    }

    #[test]
    fn what_would_end_a_script_early_is_refused() {
        let mut sources = sample();
        sources.insert("hand.js".to_owned(), b"'</script>'".to_vec());
        assert!(whole(&sources).unwrap_err().to_string().contains("hand.js holds"));
    }
}
