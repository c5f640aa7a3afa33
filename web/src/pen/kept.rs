//! A part of the page that is put into words anew only when what it is given has changed: what
//! is long is not written again while somebody types.
//!
//! It is no component of the framework's own: between a component and what it holds the
//! framework lets the browser draw, so that a slow phone would show the one without the other.

use super::Pen;
use yew::prelude::Html;

/// How often what a part is given was changed, as far as it is given.
pub type Versions = [u32; 7];

/// Such a part, as it was written.
#[derive(Debug)]
struct Written {
    /// By what it was written.
    given: Versions,
    /// What was written.
    html: Html,
}

/// Parts of the page that are kept, each by its name.
#[derive(Debug, Default)]
pub struct Memory(Vec<(&'static str, Written)>);

impl Pen<'_> {
    /// A part of the page that is written anew only when what it is given has changed; `name`
    /// is its own.
    pub fn kept(&mut self, name: &'static str, given: Versions, write: fn(&mut Pen)) {
        let mut memory = self.memory.borrow_mut();
        let known = memory.0.iter().position(|(of, _)| *of == name);
        let known = known.map(|at| memory.0.swap_remove(at).1);
        let part = known.filter(|part| part.given == given).unwrap_or_else(|| {
            let mut pen = Pen::new(self.state, self.act, self.memory);
            write(&mut pen);
            Written { given, html: pen.written() }
        });
        self.now.kids.push(part.html.clone());
        memory.0.push((name, part));
    }

    /// A room in a section, written anew when anything that rooms publish has changed, or what
    /// it remembers itself (`own`).
    pub fn room(
        &mut self,
        section: &'static str,
        name: &'static str,
        own: u32,
        write: fn(&mut Pen),
    ) {
        let state = self.state;
        let given = [
            state.question.version(),
            state.answer.version(),
            state.asked.version(),
            state.aside.version(),
            state.job.version(),
            state.page.version(),
            own,
        ];
        self.open(section);
        self.kept(name, given, write);
        self.close();
    }

    /// What is kept in an element, made anew after an answer that came late.
    pub fn renewed(
        &mut self,
        spec: &'static str,
        name: &'static str,
        given: Versions,
        write: fn(&mut Pen),
    ) {
        self.open(spec);
        self.key(self.state.answer.renewed.to_string());
        self.kept(name, given, write);
        self.close();
    }
}
