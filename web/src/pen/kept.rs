//! A part of the page that is drawn anew only when what it is given has changed.
//!
//! The words of what is long are kept, so that nothing is put into words again while somebody
//! types; and it is a component of its own, since the framework walks what it finds under an
//! element each time, but not what is in a component whose properties are equal.

use super::Pen;
use std::rc::Rc;
use yew::prelude::*;
use yew::virtual_dom::{VComp, VNode};

/// How often what a part is given was changed, as far as it is given.
pub type Versions = [u32; 6];

/// Such a part, as it was written.
#[derive(Clone, Debug, Properties)]
pub(super) struct Written {
    /// By what it was written.
    pub given: Versions,
    /// What was written.
    pub html: Html,
}

/// It is the same where it was written by the same.
impl PartialEq for Written {
    fn eq(&self, other: &Self) -> bool {
        self.given == other.given
    }
}

/// The component.
#[derive(Debug)]
pub(super) struct Kept;

impl Component for Kept {
    type Message = ();
    type Properties = Written;

    fn create(_ctx: &Context<Self>) -> Self {
        Self
    }

    fn view(&self, ctx: &Context<Self>) -> Html {
        ctx.props().html.clone()
    }
}

/// Parts of the page that are kept, each by its name.
#[derive(Debug, Default)]
pub struct Memory(Vec<(&'static str, Rc<Written>)>);

impl Pen<'_> {
    /// A part of the page that is drawn anew only when what it is given has changed; `name` is
    /// its own.
    pub fn kept(&mut self, name: &'static str, given: Versions, write: fn(&mut Pen)) {
        let mut memory = self.memory.borrow_mut();
        let at = memory.0.iter().position(|(of, _)| *of == name);
        let known = at.and_then(|at| memory.0.get(at)).filter(|(_, part)| part.given == given);
        let part = known.map_or_else(
            || {
                let mut pen = Pen::new(self.state, self.act, self.memory);
                write(&mut pen);
                Rc::new(Written { given, html: pen.written() })
            },
            |(_, part)| Rc::clone(part),
        );
        match at.and_then(|at| memory.0.get_mut(at)) {
            Some(place) => place.1 = Rc::clone(&part),
            None => memory.0.push((name, Rc::clone(&part))),
        }
        self.now.kids.push(VNode::VComp(Rc::new(VComp::new::<Kept>(part, None))));
    }

    /// The same in an element, made anew after an answer that came late.
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
