//! The style sheets that stand beside what they style, put together as three files: what the
//! first thing painted waits for, what a first visit needs, and what comes once the page is up.
//!
//! What decides between two rules that are as specific is which comes later, so the order is
//! written down: `web/src/start.css` names the sheets of the first file one by one, in CSS's own
//! words, `web/src/page.css` and `web/src/later.css` those of the others. Sheets that none of
//! them names follow, sorted by their paths.

use crate::run;
use crate::say::{Doing, Done, Failure};
use std::collections::BTreeMap;
use std::path::Path;

/// What is loaded before anything is painted; and the order of that.
pub(crate) const START: &str = "start.css";
/// What the page loads; and, beside the page's sources, the file with the order.
pub(crate) const NAME: &str = "page.css";
/// What it loads once it is up; and the order of that.
pub(crate) const LATER: &str = "later.css";

/// Where the sheets are: in this folder and in all folders of it.
const FOLDER: &str = "web/src";

/// All sheets of the page in their order: before anything is painted, of a first visit, and what
/// comes later.
///
/// # Errors
/// When an order cannot be read, or names a sheet that is not there.
pub(crate) fn all() -> Done<[String; 3]> {
    let mut sheets = BTreeMap::new();
    gather(&run::root().join(FOLDER), "", &mut sheets)?;
    put_together(sheets)
}

/// Reads the sheets of a folder and of the folders in it, under their paths.
fn gather(folder: &Path, prefix: &str, into: &mut BTreeMap<String, String>) -> Done {
    let doing = || format!("read {}", folder.display());
    for entry in std::fs::read_dir(folder).doing(doing())?.flatten() {
        let (path, name) = (entry.path(), entry.file_name());
        let name = format!("{prefix}{}", name.to_string_lossy());
        if path.is_dir() {
            gather(&path, &format!("{name}/"), into)?;
        } else if name.ends_with(".css") {
            let sheet = std::fs::read_to_string(&path).doing(format!("read {FOLDER}/{name}"))?;
            into.insert(name, sheet);
        }
    }
    Ok(())
}

fn put_together(mut sheets: BTreeMap<String, String>) -> Done<[String; 3]> {
    let mut order = |of: &str| {
        sheets.remove(of).ok_or_else(|| {
            Failure::new(format!("there is no {FOLDER}/{of}"), "put it back: it orders the styles")
        })
    };
    let orders = [(START, order(START)?), (NAME, order(NAME)?), (LATER, order(LATER)?)];
    let mut all = [String::new(), String::new(), String::new()];
    for ((of, order), into) in orders.iter().zip(&mut all) {
        for name in named(of, order)? {
            let sheet = sheets.remove(name).ok_or_else(|| {
                Failure::new(
                    format!("{FOLDER}/{of} names {name}, which is not there or was named before"),
                    "let every sheet be named once, by its path from web/src",
                )
            })?;
            add(into, name, &sheet)?;
        }
    }
    for (name, sheet) in &sheets {
        add(&mut all[2], name, sheet)?;
    }
    Ok(all)
}

/// The sheets that an order names, of which it holds one a line.
fn named<'a>(of: &str, order: &'a str) -> Done<Vec<&'a str>> {
    let (mut names, mut told) = (Vec::new(), false);
    for line in order.lines().map(str::trim) {
        told |= line.starts_with("/*");
        if told || line.is_empty() {
            told &= !line.ends_with("*/");
            continue;
        }
        let name = line.strip_prefix("@import \"").and_then(|rest| rest.strip_suffix("\";"));
        names.push(name.ok_or_else(|| {
            Failure::new(
                format!("{FOLDER}/{of} holds `{line}`"),
                "it takes comments and lines as `@import \"rooms/list/list.css\";` alone; \
                 rules stand in a sheet beside what they style",
            )
        })?);
    }
    Ok(names)
}

/// Adds a sheet, if it means the same among others as it does alone.
fn add(whole: &mut String, name: &str, sheet: &str) -> Done {
    // CSS knows these at the beginning of a file only, and lets a file end anywhere.
    let early = ["@import", "@charset"].into_iter().find(|rule| sheet.contains(rule));
    let open = sheet.matches('{').count() != sheet.matches('}').count();
    if early.is_some() || open || sheet.matches("/*").count() != sheet.matches("*/").count() {
        let what = early.map_or("brackets or comments that do not close".to_owned(), str::to_owned);
        return Err(Failure::new(
            format!("{FOLDER}/{name} holds {what}, and other sheets follow it in one file"),
            "close what is open; name sheets in web/src/page.css",
        ));
    }
    whole.push_str(sheet);
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn together(sheets: &[(&str, &str)]) -> Done<[String; 3]> {
        put_together(
            sheets.iter().map(|(name, text)| (name.to_string(), text.to_string())).collect(),
        )
    }

    #[test]
    fn sheets_come_as_the_order_says_and_the_others_after_them() {
        let order = "/* What comes\n   @import \"none.css\"; */\n@import \"rooms/z.css\";\n\n@import \"b.css\";\n";
        let sheets = [
            (START, "@import \"s.css\";\n"),
            (NAME, order),
            (LATER, "@import \"d.css\";\n"),
            ("a.css", "a{}\n"),
            ("d.css", "d{}\n"),
            ("s.css", "s{}\n"),
            ("b.css", "b{}\n"),
            ("rooms/c.css", "c{}\n"),
            ("rooms/z.css", "z{}\n"),
        ];
        assert_eq!(together(&sheets).unwrap(), ["s{}\n", "z{}\nb{}\n", "d{}\na{}\nc{}\n"]);
    }

    #[test]
    fn what_would_change_the_order_or_another_sheet_is_refused() {
        for (order, sheet, reason) in [
            ("@import \"lost.css\";", "", "names lost.css, which is not there"),
            ("@import \"a.css\";\n@import \"a.css\";", "", "names a.css, which is not there or"),
            ("a { color: red }", "", "holds `a { color: red }`"),
            ("", "@import \"b.css\";", "a.css holds @import"),
            ("", "a { color: red", "a.css holds brackets"),
            ("", "a {} /* and", "a.css holds brackets or comments"),
        ] {
            let sheets = [(START, ""), (NAME, order), (LATER, ""), ("a.css", sheet)];
            let failure = together(&sheets).unwrap_err().to_string();
            assert!(failure.contains(reason), "{failure}");
        }
        assert!(together(&[]).unwrap_err().to_string().contains("no web/src/start.css"));
        let twice = [
            (START, ""),
            (NAME, "@import \"a.css\";"),
            (LATER, "@import \"a.css\";"),
            ("a.css", ""),
        ];
        assert!(
            together(&twice).unwrap_err().to_string().contains("web/src/later.css names a.css")
        );
    }

    #[test]
    fn the_page_has_all_its_sheets() {
        let whole = all().unwrap().concat();
        for rule in [":root {", ".bar {", ".ladder {", ".paper-title {", "@page {", ".rigs-list {"]
        {
            assert_eq!(whole.matches(&format!("\n{rule}")).count(), 1, "{rule}");
        }
        // Colours first, then what uses them.
        assert!(whole.find(":root {") < whole.find("body {"));
    }
}
