//! What a build weighs, kept in `docs/figures.md` with the commit that was built, and held
//! to the last landing.

use crate::build::Weighed;
use crate::pack::{self, Size};
use crate::run;
use crate::say::{Doing, Done, Failure, note};
use crate::single;

/// The document, from the root.
const DOCUMENT: &str = "docs/figures.md";

/// What its hint says.
const MARKS: &str = "put `<!-- bench: NAME -->` and `<!-- end of bench -->` back";

/// Keeps what the site and the module weigh.
pub(crate) fn keep(weighed: &Weighed) -> Done {
    let [first, later, extra] = &weighed.site;
    let parts = [
        ("a first visit", first.as_slice()),
        ("later, to be kept", later),
        ("on request", extra),
        ("the module", &weighed.module),
    ];
    kept("sizes", &table(&parts))
}

/// Keeps what the page as one file weighs.
pub(crate) fn keep_single() -> Done {
    kept("single-file", &table(&[("the page as one file", &single_file()?)]))
}

/// What the page as one file weighs, once it is built.
fn single_file() -> Done<Vec<Size>> {
    let folder = single::folder();
    let entries = std::fs::read_dir(&folder).doing(format!("read {}", folder.display()))?;
    let names: Vec<String> = entries
        .flatten()
        .filter_map(|entry| entry.file_name().into_string().ok())
        .filter(|name| name.ends_with(".html"))
        .collect();
    pack::pack(&folder, &names, false)
}

/// The sums of what ships, as they are held to the last landing.
pub(crate) fn counted(weighed: &Weighed) -> Done<String> {
    let [first, later, extra] = weighed.site.each_ref().map(|sizes| sum(sizes).brotli);
    let module = sum(&weighed.module).brotli;
    let single = sum(&single_file()?);
    let lines = [
        ("a first visit", first),
        ("later, to be kept", later),
        ("everything served", first + later + extra),
        ("the module", module),
        ("the page as one file, packed", single.brotli),
        ("the page as one file, as it is", single.raw),
    ];
    Ok(lines.map(|(name, bytes)| format!("size: {name} = {bytes} bytes\n")).concat())
}

fn sum(sizes: &[Size]) -> Size {
    let sum = |of: fn(&Size) -> u64| sizes.iter().map(of).sum();
    Size {
        name: String::new(),
        raw: sum(|size| size.raw),
        gzip: sum(|size| size.gzip),
        brotli: sum(|size| size.brotli),
    }
}

/// Files of each part, and their sum in its name.
fn table(parts: &[(&str, &[Size])]) -> String {
    let mut lines = "| file | raw | gzip | brotli |\n|---|--:|--:|--:|\n".to_owned();
    for (name, sizes) in parts {
        for size in *sizes {
            lines.push_str(&row(&plain(&size.name), size));
        }
        lines.push_str(&row(&format!("**{name}**"), &sum(sizes)));
    }
    lines
}

fn row(name: &str, size: &Size) -> String {
    let [raw, gzip, brotli] = [size.raw, size.gzip, size.brotli].map(grouped);
    format!("| {name} | {raw} | {gzip} | {brotli} |\n")
}

/// A name without what of it changes with the content.
fn plain(name: &str) -> String {
    let without = || -> Option<String> {
        let (start, kind) = name.rsplit_once('.')?;
        let (start, sum) = start.rsplit_once('-')?;
        let is_sum = sum.len() == 16 && sum.bytes().all(|byte| byte.is_ascii_hexdigit());
        is_sum.then(|| format!("{start}.{kind}"))
    };
    without().unwrap_or_else(|| name.to_owned())
}

/// Thousands apart.
fn grouped(number: u64) -> String {
    let digits = number.to_string();
    let mut text = String::new();
    for (at, digit) in digits.chars().enumerate() {
        if at > 0 && (digits.len() - at).is_multiple_of(3) {
            text.push(',');
        }
        text.push(digit);
    }
    text
}

/// Writes a table between the marks of the document, unless it stands there already: the
/// commit beside it is the first that came to this.
fn kept(bench: &str, table: &str) -> Done {
    let path = run::root().join(DOCUMENT);
    let document = std::fs::read_to_string(&path).doing(format!("read {DOCUMENT}"))?;
    let found = replaced(&document, bench, &format!("Built at {}.\n\n{}", commit()?, table.trim()))
        .map_err(|why| Failure::new(format!("{DOCUMENT}: {why}"), MARKS))?;
    match found {
        None => note(format_args!("{DOCUMENT} says so already")),
        Some(text) => {
            std::fs::write(&path, text).doing(format!("write {DOCUMENT}"))?;
            note(format_args!("kept in {DOCUMENT}"));
        }
    }
    Ok(())
}

/// A document with what stands between the marks of a bench replaced; `None` where all but
/// the paragraph with the commit stands there.
fn replaced(document: &str, bench: &str, told: &str) -> Result<Option<String>, String> {
    let mark = format!("<!-- bench: {bench} -->\n");
    let missing = || format!("there is no {}", mark.trim());
    let (before, rest) = document.split_once(&mark).ok_or_else(missing)?;
    let end = "<!-- end of bench -->\n";
    let (stands, after) = rest.split_once(end).ok_or_else(|| format!("{bench} has no end"))?;
    let figures = |text: &str| text.trim().split_once("\n\n").map(|(_, table)| table.to_owned());
    if figures(stands) == figures(told) {
        return Ok(None);
    }
    Ok(Some(format!("{before}{mark}\n{told}\n\n{end}{after}")))
}

/// What was built: the commit, its day, and whether something was changed since.
fn commit() -> Done<String> {
    let git = |arguments: &[&str]| {
        run::read(run::program("git").args(arguments), "figures need a git checkout and git itself")
    };
    let commit = git(&["log", "-1", "--format=%h of %cs"])?.trim().to_owned();
    // Documents change nothing of what is built.
    let changes = git(&["status", "--porcelain", "--untracked-files=no", "--", ":/", ":!/docs"])?;
    Ok(if changes.is_empty() { commit } else { format!("{commit}, with changes") })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn size(name: &str, raw: u64) -> Size {
        Size { name: name.to_owned(), raw, gzip: raw / 2, brotli: raw / 4 }
    }

    #[test]
    fn parts_add_up_under_their_names() {
        let first = [size("a.js", 1000), size("b-0123456789abcdef.wasm", 1_234_000)];
        assert_eq!(
            table(&[("a first visit", &first)]),
            "| file | raw | gzip | brotli |\n|---|--:|--:|--:|\n\
             | a.js | 1,000 | 500 | 250 |\n\
             | b.wasm | 1,234,000 | 617,000 | 308,500 |\n\
             | **a first visit** | 1,235,000 | 617,500 | 308,750 |\n"
        );
    }

    #[test]
    fn names_without_their_sums() {
        for (name, want) in [
            ("page-0123456789abcdef.css", "page.css"),
            ("coilwright-web_bg-0123456789abcdef.wasm", "coilwright-web_bg.wasm"),
            ("coilwright-web.js", "coilwright-web.js"),
            ("icon-192.png", "icon-192.png"),
        ] {
            assert_eq!(plain(name), want);
        }
    }

    #[test]
    fn what_stands_already_is_left_with_its_commit() {
        let page =
            "one\n<!-- bench: sizes -->\n\nBuilt at a.\n\n| 1 |\n\n<!-- end of bench -->\ntwo\n";
        assert_eq!(replaced(page, "sizes", "Built at b.\n\n| 1 |"), Ok(None));
        let other = replaced(page, "sizes", "Built at b.\n\n| 2 |").unwrap().unwrap();
        assert_eq!(other, page.replace("at a", "at b").replace("1", "2"));
        assert!(replaced("", "sizes", "").is_err());
        assert!(replaced("<!-- bench: sizes -->\n", "sizes", "").is_err());
    }

    #[test]
    fn the_document_has_the_marks() {
        let text = std::fs::read_to_string(run::root().join(DOCUMENT)).unwrap();
        for bench in ["sizes", "single-file"] {
            assert!(matches!(replaced(&text, bench, "a\n\nb"), Ok(Some(_))), "{bench}");
        }
    }
}
