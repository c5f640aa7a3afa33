//! Circles between the files of a crate: modules that come to need each other, by `use` or
//! by a path in place. A module may know its own children and they may know it; modules
//! beside each other, with all that is below them, may be known in one direction alone.
//!
//! What is read are tokens: comments and texts are none, and what is only there for tests
//! does not count. Paths through a re-export lead to where that comes from.

mod paths;

use paths::Known;
use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;

/// A module by the names on the way to it; none for the crate.
pub type Module = Vec<String>;

/// The modules of a crate, with what each knows.
#[derive(Debug, Default)]
pub struct Crate {
    modules: BTreeMap<Module, Known>,
}

/// Modules beside each other that come to need each other.
#[derive(Debug, PartialEq, Eq)]
pub struct Circle {
    /// What they are parts of; empty for the crate.
    pub within: String,
    /// Their names.
    pub members: Vec<String>,
    /// Which module of which knows what, a line each.
    pub knows: Vec<String>,
}

/// Those of some that come back to themselves, with all that they go through, by who needs whom.
fn rings<T: Copy + Ord>(all: &BTreeSet<T>, needs: impl Iterator<Item = (T, T)>) -> Vec<Vec<T>> {
    let needs: Vec<(T, T)> = needs.collect();
    let reached = |from: T| {
        let mut reached = BTreeSet::new();
        let mut ahead = vec![from];
        while let Some(at) = ahead.pop() {
            for (_, to) in needs.iter().filter(|(from, _)| *from == at) {
                if reached.insert(*to) {
                    ahead.push(*to);
                }
            }
        }
        reached
    };
    let all: BTreeMap<T, BTreeSet<T>> = all.iter().map(|one| (*one, reached(*one))).collect();
    let mut told: BTreeSet<T> = BTreeSet::new();
    let mut rings = Vec::new();
    for (one, to) in &all {
        if told.contains(one) || !to.contains(one) {
            continue;
        }
        let members: Vec<T> = to.iter().copied().filter(|other| all[other].contains(one)).collect();
        told.extend(&members);
        rings.push(members);
    }
    rings
}

impl Crate {
    /// The crate of a folder of sources.
    pub fn of(folder: &Path) -> Self {
        let mut this = Self::default();
        this.folder(folder, &mut Vec::new());
        this
    }

    fn folder(&mut self, folder: &Path, within: &mut Module) {
        let entries = std::fs::read_dir(folder).unwrap_or_else(|e| panic!("{folder:?}: {e}"));
        for entry in entries {
            let path = entry.unwrap().path();
            let name = path.file_stem().unwrap().to_str().unwrap().to_owned();
            if path.is_dir() {
                within.push(name);
                self.folder(&path, within);
                within.pop();
            } else if path.extension().is_some_and(|extension| extension == "rs") {
                let mut module = within.clone();
                let root = ["lib", "main"].contains(&name.as_str()) && within.is_empty();
                if name != "mod" && !root {
                    module.push(name);
                }
                self.add(module, &std::fs::read_to_string(&path).unwrap());
            }
        }
    }

    /// Adds a module with its text; tests, and programs of their own, are left out.
    pub fn add(&mut self, module: Module, text: &str) {
        let is_test = |name: &String| name == "tests" || name.ends_with("_tests");
        let is_program = module.first().is_some_and(|first| first == "bin");
        if !is_program && !module.iter().any(is_test) {
            let known = Known::of(text).unwrap_or_else(|e| panic!("{}: {e}", module.join("::")));
            self.modules.insert(module, known);
        }
    }

    /// How many modules were read.
    pub fn len(&self) -> usize {
        self.modules.len()
    }

    /// Whether none was.
    pub fn is_empty(&self) -> bool {
        self.modules.is_empty()
    }

    /// Every circle, in a fixed order.
    pub fn circles(&self) -> Vec<Circle> {
        let needs = self.needs();
        let mut parents: BTreeMap<&[String], BTreeSet<&str>> = BTreeMap::new();
        for module in self.modules.keys() {
            for depth in 0..module.len() {
                parents.entry(&module[..depth]).or_default().insert(&module[depth]);
            }
        }
        let mut circles = Vec::new();
        for (parent, children) in parents {
            // What each child, with all below it, needs of the others.
            let mut between: BTreeMap<(&str, &str), Vec<String>> = BTreeMap::new();
            let child = |module: &'_ Module| -> Option<usize> {
                (module.len() > parent.len() && module.starts_with(parent)).then_some(parent.len())
            };
            for ((from, to), what) in &needs {
                if let (Some(a), Some(b)) = (child(from), child(to))
                    && from[a] != to[b]
                {
                    let line = format!("{} knows {what}", from.join("::"));
                    between.entry((&from[a], &to[b])).or_default().push(line);
                }
            }
            for members in rings(&children, between.keys().copied()) {
                let mut knows = Vec::new();
                for ((from, to), lines) in &between {
                    if members.contains(from) && members.contains(to) {
                        knows.extend(lines.iter().cloned());
                    }
                }
                circles.push(Circle {
                    within: parent.join("::"),
                    members: members.into_iter().map(str::to_owned).collect(),
                    knows,
                });
            }
        }
        circles
    }

    /// Files that come to need each other, whatever folders they lie in: where a folder holds
    /// all of one thing, what of it others build on and what builds on others, folders may be
    /// known both ways, and files still not.
    pub fn file_circles(&self) -> Vec<Circle> {
        let needs = self.needs();
        let mut circles = Vec::new();
        for members in rings(&self.modules.keys().collect(), needs.keys().copied()) {
            let within = needs
                .iter()
                .filter(|((from, to), _)| members.contains(from) && members.contains(to));
            let knows = within.map(|((from, _), what)| format!("{} knows {what}", from.join("::")));
            circles.push(Circle {
                within: String::new(),
                knows: knows.collect(),
                members: members.into_iter().map(|module| module.join("::")).collect(),
            });
        }
        circles
    }

    /// Which module needs which, but for its own parents and children, and by what path.
    fn needs(&self) -> BTreeMap<(&Module, &Module), String> {
        let mut needs = BTreeMap::new();
        for (module, known) in &self.modules {
            for path in &known.paths {
                let Some(of) = self.resolved(module, path, 0) else { continue };
                if !module.starts_with(of) && !of.starts_with(module) {
                    needs.entry((module, of)).or_insert_with(|| path.join("::"));
                }
            }
        }
        needs
    }

    /// The module that a path in another leads to, if it is one of this crate's.
    fn resolved(&self, from: &Module, path: &[String], depth: u8) -> Option<&Module> {
        let (first, mut rest) = path.split_first()?;
        let mut at: Module = match first.as_str() {
            "crate" => Vec::new(),
            "self" => from.clone(),
            "super" => from[..from.len().checked_sub(1)?].to_vec(),
            name => {
                let mut below = from.clone();
                below.push(name.to_owned());
                if self.modules.contains_key(&below) {
                    below
                } else {
                    // What was brought in under this name.
                    let brought = self.modules.get(from)?.brought.get(name)?;
                    if depth > 8 || rest.is_empty() {
                        return None;
                    }
                    let whole: Vec<String> = brought.iter().chain(rest).cloned().collect();
                    return self.resolved(from, &whole, depth + 1);
                }
            }
        };
        while let Some((next, after)) = rest.split_first() {
            if next == "super" {
                at.pop()?;
            } else {
                at.push(next.clone());
                if !self.modules.contains_key(&at) {
                    at.pop();
                    break;
                }
            }
            rest = after;
        }
        let (here, known) = self.modules.get_key_value(&at)?;
        // Through a re-export to where it comes from.
        if let Some(next) = rest.first()
            && here != from
            && depth < 8
            && let Some(from_there) = known.handed_on.get(next)
            && let Some(found) = self.resolved(here, from_there, depth + 1)
        {
            return Some(found);
        }
        Some(here)
    }
}
