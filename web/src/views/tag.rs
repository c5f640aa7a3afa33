//! Elements, made by plain functions of few kinds.
//!
//! What a macro writes out in place for every element costs each visitor several times
//! as many bytes as a call.

use crate::app::Do;
use crate::browser::{address, go_to};
use crate::state::Action;
use crate::state::form::Place;
use std::rc::Rc;
use wasm_bindgen::JsCast;
use web_sys::{Event, HtmlInputElement, HtmlSelectElement};
use yew::prelude::Html;
use yew::virtual_dom::{
    AttrValue, AttributeOrProperty, Attributes, Listener, ListenerKind, VNode, VTag, VText,
};

/// What happens when something is pressed, typed into or chosen.
#[derive(Clone, Debug)]
pub enum What {
    /// An action.
    Do(Box<Action>),
    /// What was typed or chosen is written to a place.
    Write(Place),
    /// A usual value is written to a place; the list of them then stands for all again.
    Usual(Place),
    /// The load of a rung is looked at: the rung's number is the value of what was chosen.
    Rung(Vec<coilwright_solver::ohms::Ohms>),
    /// An order is chosen by its name.
    Order,
    /// The keyboard goes to an element.
    GoTo(String),
    /// Back to the list.
    Back,
    /// Nothing: the page sends no form.
    Stay,
}

/// What is typed or chosen in the element that an event is about.
fn value(event: &Event) -> Option<String> {
    let target = event.target()?;
    if let Some(input) = target.dyn_ref::<HtmlInputElement>() {
        return Some(input.value());
    }
    target.dyn_ref::<HtmlSelectElement>().map(HtmlSelectElement::value)
}

/// An action, as what happens.
#[inline(never)]
pub fn act(action: Action) -> What {
    What::Do(Box::new(action))
}

struct On {
    kind: ListenerKind,
    act: Do,
    what: What,
}

impl Listener for On {
    fn kind(&self) -> ListenerKind {
        self.kind.clone()
    }

    fn passive(&self) -> bool {
        false
    }

    fn handle(&self, event: Event) {
        let act = &self.act;
        match &self.what {
            What::Do(action) => act.now(Action::clone(action)),
            What::Write(place) => {
                if let Some(text) = value(&event) {
                    act.now(Action::Set(*place, text));
                }
            }
            What::Usual(place) => {
                if let Some(text) = value(&event).filter(|text| !text.is_empty()) {
                    act.now(Action::Set(*place, text));
                }
                let target = event.target();
                if let Some(select) = target.as_ref().and_then(JsCast::dyn_ref::<HtmlSelectElement>)
                {
                    select.set_value("");
                }
            }
            What::Rung(loads) => {
                let number = value(&event).and_then(|text| text.parse::<usize>().ok());
                act.now(Action::Load(number.and_then(|number| loads.get(number)).copied()));
            }
            What::Order => {
                let name = value(&event).unwrap_or_default();
                if let Some(order) = crate::state::list::order_named(&name) {
                    act.now(Action::Order(order));
                }
            }
            What::GoTo(id) => go_to(id),
            What::Back if address::is_choice() => address::back(),
            What::Back => act.now(Action::Leave),
            What::Stay => event.prevent_default(),
        }
    }
}

/// Static text.
pub fn text(text: &'static str) -> Html {
    VNode::VText(VText::new(text))
}

/// Text made for the occasion.
#[inline(never)]
pub fn said(text: String) -> Html {
    VNode::VText(VText::new(text))
}

/// Nothing, in its place: what follows keeps its own.
#[inline(never)]
pub fn nothing() -> Html {
    VNode::default()
}

/// Several in a row.
#[inline(never)]
pub fn row(kids: Vec<Html>) -> Html {
    VNode::VList(Rc::new(yew::virtual_dom::VList::with_children(kids, None)))
}

/// A drawing, or other markup of the page's own making, whole.
#[inline(never)]
pub fn drawn(markup: String) -> Html {
    VNode::from_html_unchecked(markup.into())
}

/// An element with a class.
#[inline(never)]
pub fn el(name: &'static str, class: &'static str, kids: Vec<Html>) -> Html {
    let mut tag = Tag::new(name);
    if !class.is_empty() {
        tag = tag.with(&["class"], vec![fixed(class)]);
    }
    tag.kids(kids)
}

/// An element with a class and static text.
#[inline(never)]
pub fn line(name: &'static str, class: &'static str, words: &'static str) -> Html {
    el(name, class, vec![text(words)])
}

/// An element with a class and text made for the occasion.
#[inline(never)]
pub fn told(name: &'static str, class: &'static str, words: String) -> Html {
    el(name, class, vec![said(words)])
}

/// The value of an attribute, or its absence.
pub type Value = Option<AttributeOrProperty>;

/// A static value.
pub const fn fixed(value: &'static str) -> Value {
    Some(AttributeOrProperty::Static(value))
}

/// A value made for the occasion.
#[inline(never)]
pub fn made(value: String) -> Value {
    Some(AttributeOrProperty::Attribute(AttrValue::from(value)))
}

/// An attribute that is there or not.
pub const fn on(there: bool, value: &'static str) -> Value {
    if there { fixed(value) } else { None }
}

/// An element being made.
#[derive(Debug)]
pub struct Tag(VTag);

impl Tag {
    /// An element of a kind.
    #[inline(never)]
    pub fn new(name: &'static str) -> Self {
        Self(VTag::new(name))
    }

    /// With attributes: all that it may have, and their values now.
    #[inline(never)]
    pub fn with(mut self, keys: &'static [&'static str], values: Vec<Value>) -> Self {
        self.0.attributes = Attributes::Dynamic { keys, values: values.into_boxed_slice() };
        self
    }

    /// Told apart from its neighbours by a key.
    #[inline(never)]
    pub fn key(mut self, key: String) -> Self {
        self.0.key = Some(key.into());
        self
    }

    /// What stands in an input.
    #[inline(never)]
    pub fn holds(mut self, value: String) -> Self {
        self.0.set_value(Some(AttrValue::from(value)));
        self
    }

    /// Whether a box is ticked.
    #[inline(never)]
    pub fn ticked(mut self, ticked: bool) -> Self {
        self.0.set_checked(ticked);
        self
    }

    /// What happens on an event.
    #[inline(never)]
    pub fn on(mut self, kind: ListenerKind, act: &Do, what: What) -> Self {
        self.0.add_listener(Rc::new(On { kind, act: act.clone(), what }));
        self
    }

    /// The element, with nothing in it.
    #[inline(never)]
    pub fn bare(self) -> Html {
        VNode::VTag(Rc::new(self.0))
    }

    /// The element with what is in it.
    #[inline(never)]
    pub fn kids(mut self, kids: Vec<Html>) -> Html {
        self.0.add_children(kids);
        self.bare()
    }
}

/// A button with anything on it.
#[inline(never)]
pub fn press(
    act: &Do,
    class: &'static str,
    name: Option<String>,
    what: What,
    kids: Vec<Html>,
) -> Html {
    let name = name.and_then(made);
    Tag::new("button")
        .with(&["type", "class", "aria-label"], vec![fixed("button"), fixed(class), name])
        .on(ListenerKind::onclick, act, what)
        .kids(kids)
}

/// A button.
#[inline(never)]
pub fn button(to: &Do, class: &'static str, words: &'static str, action: Action) -> Html {
    press(to, class, None, act(action), vec![text(words)])
}

/// A button whose text says too little to who cannot see what is around it.
#[inline(never)]
pub fn named(
    to: &Do,
    class: &'static str,
    words: &'static str,
    name: String,
    action: Action,
) -> Html {
    press(to, class, Some(name), act(action), vec![text(words)])
}

/// A box to tick, with what that means.
#[inline(never)]
pub fn tick(
    to: &Do,
    words: &'static str,
    means: &'static str,
    ticked: bool,
    action: Action,
) -> Html {
    let input = Tag::new("input")
        .with(&["type"], vec![fixed("checkbox")])
        .ticked(ticked)
        .on(ListenerKind::onchange, to, act(action))
        .bare();
    let mut kids = vec![line("b", "", words)];
    if !means.is_empty() {
        kids.push(line("small", "", means));
    }
    el("label", "tick", vec![input, el("span", "", kids)])
}
