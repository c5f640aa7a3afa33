//! The paths in a text of Rust.

use proc_macro2::{Delimiter, TokenStream, TokenTree};
use std::collections::BTreeMap;
use std::iter::Peekable;
use std::vec::IntoIter;

type Tokens = Peekable<IntoIter<TokenTree>>;

/// What a module knows.
#[derive(Debug, Default)]
pub(super) struct Known {
    /// Every path of more than one name, in `use` or in place.
    pub(super) paths: Vec<Vec<String>>,
    /// The path of every name that a `use` brings in.
    pub(super) brought: BTreeMap<String, Vec<String>>,
    /// Those of them that are handed on to others.
    pub(super) handed_on: BTreeMap<String, Vec<String>>,
}

impl Known {
    /// What a text knows, or why it cannot be read.
    pub(super) fn of(text: &str) -> Result<Self, String> {
        let tokens: TokenStream = text.parse().map_err(|e| format!("{e}"))?;
        let mut known = Self::default();
        known.read(tokens);
        Ok(known)
    }

    fn read(&mut self, stream: TokenStream) {
        let mut tokens: Tokens = stream.into_iter().collect::<Vec<_>>().into_iter().peekable();
        // Whether the item that is read is handed on: `pub`, or `pub(…)`.
        let mut public = false;
        while let Some(token) = tokens.next() {
            match token {
                TokenTree::Punct(hash) if hash.as_char() == '#' && is_for_tests(&mut tokens) => {
                    skip_item(&mut tokens);
                }
                TokenTree::Ident(word) if word == "pub" => {
                    let bounds = |t: &TokenTree| matches!(t, TokenTree::Group(g) if g.delimiter() == Delimiter::Parenthesis);
                    tokens.next_if(bounds);
                    public = true;
                    continue;
                }
                TokenTree::Ident(word) if word == "use" => {
                    self.tree(&mut tokens, &[], public);
                }
                TokenTree::Ident(word) => {
                    let mut path = vec![word.to_string()];
                    while is_next_path(&mut tokens) {
                        match tokens.next_if(|token| matches!(token, TokenTree::Ident(_))) {
                            Some(name) => path.push(name.to_string()),
                            None => break,
                        }
                    }
                    if path.len() > 1 {
                        self.paths.push(path);
                    }
                }
                TokenTree::Group(group) => self.read(group.stream()),
                _ => {}
            }
            public = false;
        }
    }

    /// Reads a tree of `use` up to the comma or semicolon behind it.
    fn tree(&mut self, tokens: &mut Tokens, before: &[String], public: bool) {
        let mut path = before.to_vec();
        while let Some(token) = tokens.next() {
            match token {
                TokenTree::Ident(word) if word == "as" => {
                    if let Some(alias) = tokens.next() {
                        self.bring(alias.to_string(), path.clone(), public);
                        path.clear();
                    }
                }
                TokenTree::Ident(word) => path.push(word.to_string()),
                TokenTree::Group(group) => {
                    let inner = group.stream().into_iter().collect::<Vec<_>>();
                    let mut inner: Tokens = inner.into_iter().peekable();
                    while inner.peek().is_some() {
                        self.tree(&mut inner, &path, public);
                    }
                    path.clear();
                }
                TokenTree::Punct(mark) if [',', ';'].contains(&mark.as_char()) => break,
                TokenTree::Punct(mark) if mark.as_char() == '*' => path.push("*".to_owned()),
                _ => {}
            }
        }
        if path.len() > 1 {
            if path.last().is_some_and(|last| last == "self") {
                path.pop();
            }
            let name = path.last().cloned().unwrap();
            self.bring(name, path, public);
        }
    }

    fn bring(&mut self, name: String, path: Vec<String>, public: bool) {
        if public {
            self.handed_on.insert(name.clone(), path.clone());
        }
        self.paths.push(path.clone());
        self.brought.insert(name, path);
    }
}

/// Whether `::` comes next, which it takes then.
fn is_next_path(tokens: &mut Tokens) -> bool {
    let colon =
        |token: &TokenTree| matches!(token, TokenTree::Punct(mark) if mark.as_char() == ':');
    let joint = |token: &TokenTree| {
        matches!(token, TokenTree::Punct(mark)
            if mark.as_char() == ':' && mark.spacing() == proc_macro2::Spacing::Joint)
    };
    tokens.next_if(joint).is_some() && tokens.next_if(colon).is_some()
}

/// Whether an attribute says that what follows is for tests alone.
fn is_for_tests(tokens: &mut Tokens) -> bool {
    let bracket =
        |t: &TokenTree| matches!(t, TokenTree::Group(g) if g.delimiter() == Delimiter::Bracket);
    tokens
        .next_if(bracket)
        .is_some_and(|attribute| attribute.to_string().replace(' ', "") == "[cfg(test)]")
}

/// Goes past the item that comes next: up to its body, or its semicolon.
fn skip_item(tokens: &mut Tokens) {
    for token in tokens {
        match token {
            TokenTree::Group(group) if group.delimiter() == Delimiter::Brace => break,
            TokenTree::Punct(mark) if mark.as_char() == ';' => break,
            _ => {}
        }
    }
}
