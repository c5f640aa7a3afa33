//! The pen that writes a page: elements are opened, filled and closed one after the other.
//!
//! What a macro writes out in place for every element costs each visitor several times
//! as many bytes as a call, and a tree put together from lists of lists twice as many as
//! calls in a row.

mod kept;
mod press;
mod what;

pub use kept::{Memory, Versions};
pub use what::{What, When};

use crate::act::Do;
use crate::host::Host;
use crate::state::State;
use std::cell::RefCell;
use std::rc::Rc;
use what::On;
use yew::prelude::Html;
use yew::virtual_dom::{
    AttrValue, AttributeOrProperty, Attributes, Key, Listener, VList, VNode, VTag, VText,
};

/// Every attribute that the page gives an element, the most used first. An element knows
/// the first few of them, up to the last it has.
static NAMES: [&str; 36] = [
    "class",
    "type",
    "value",
    "id",
    "for",
    "aria-label",
    "role",
    "aria-hidden",
    "href",
    "aria-pressed",
    "selected",
    "name",
    "tabindex",
    "scope",
    "aria-current",
    "disabled",
    "max",
    "aria-live",
    "translate",
    "aria-labelledby",
    "aria-invalid",
    "aria-describedby",
    "inputmode",
    "autocomplete",
    "autocapitalize",
    "spellcheck",
    "enterkeyhint",
    "novalidate",
    "aria-busy",
    "maxlength",
    "accept",
    "dir",
    "readonly",
    "aria-expanded",
    "open",
    "start",
];

/// Attributes that name elements of the page, and so radio buttons that belong together.
const OF_IDS: [&str; 5] = ["id", "for", "name", "aria-labelledby", "aria-describedby"];

/// An element that is open.
#[derive(Debug, Default)]
struct Open {
    /// Its name; a mere row of several has none.
    name: &'static str,
    values: Vec<Option<AttributeOrProperty>>,
    key: Option<Key>,
    /// What stands in an input.
    value: Option<AttrValue>,
    ticked: Option<bool>,
    on: Option<Rc<dyn Listener>>,
    kids: Vec<Html>,
}

/// The pen, with what every room is given: the state and the way to act on it.
#[derive(Debug)]
pub struct Pen<'a> {
    /// The state.
    pub state: &'a State,
    act: &'a Do,
    memory: &'a RefCell<Memory>,
    /// What is open around what is written now.
    around: Vec<Open>,
    now: Open,
}

impl<'a> Pen<'a> {
    /// A pen on an empty page.
    #[must_use]
    pub fn new(state: &'a State, act: &'a Do, memory: &'a RefCell<Memory>) -> Self {
        Self { state, act, memory, around: Vec::new(), now: Open::default() }
    }

    /// What is around the page.
    #[must_use]
    pub fn host(&self) -> &'a dyn Host {
        self.act.host()
    }

    /// What was written.
    pub fn written(self) -> Html {
        VNode::VList(Rc::new(VList::with_children(self.now.kids, None)))
    }

    /// Opens an element, written as its name, its class after a point, and attributes
    /// after bars: `h2.tab|id=answer|tabindex=-1`. A mere row has no name.
    #[inline(never)]
    pub fn open(&mut self, spec: &'static str) {
        let around = std::mem::take(&mut self.now);
        self.around.push(around);
        let mut rest = spec;
        let mut name = None;
        while !rest.is_empty() || name.is_none() {
            let end = rest.bytes().position(|byte| byte == b'|');
            let part = rest.get(..end.unwrap_or(rest.len())).unwrap_or_default();
            rest = end.and_then(|end| rest.get(end + 1..)).unwrap_or_default();
            let sign = if name.is_none() { b'.' } else { b'=' };
            let at = part.bytes().position(|byte| byte == sign).unwrap_or(part.len());
            let (first, second) = (part.get(..at), part.get(at + 1..));
            let (first, second) = (first.unwrap_or_default(), second.unwrap_or_default());
            if name.is_some() {
                self.fixed(first, second);
            } else {
                name = Some(first);
                if !second.is_empty() {
                    self.fixed("class", second);
                }
            }
        }
        self.now.name = name.unwrap_or_default();
    }

    /// Closes what was opened last.
    #[inline(never)]
    pub fn close(&mut self) {
        let around = self.around.pop().unwrap_or_default();
        let open = std::mem::replace(&mut self.now, around);
        self.now.kids.push(if open.name.is_empty() {
            VNode::VList(Rc::new(VList::with_children(open.kids, open.key)))
        } else {
            let mut tag = VTag::new(open.name);
            if let Some(keys) = NAMES.get(..open.values.len()) {
                tag.attributes =
                    Attributes::Dynamic { keys, values: open.values.into_boxed_slice() };
            }
            if open.value.is_some() {
                tag.set_value(open.value);
            }
            if let Some(ticked) = open.ticked {
                tag.set_checked(ticked);
            }
            if open.on.is_some() {
                tag.set_listeners(Box::new([open.on]));
            }
            tag.key = open.key;
            tag.add_children(open.kids);
            VNode::VTag(Rc::new(tag))
        });
    }

    #[inline(never)]
    fn give(&mut self, name: &str, value: AttributeOrProperty) {
        let value = if OF_IDS.contains(&name) { self.prefixed(value) } else { value };
        let at = NAMES.iter().position(|one| *one == name);
        debug_assert!(at.is_some(), "no attribute {name}");
        let at = at.unwrap_or(0);
        while self.now.values.len() <= at {
            self.now.values.push(None);
        }
        if let Some(place) = self.now.values.get_mut(at) {
            *place = Some(value);
        }
    }

    /// Ids with what stands before those of this page.
    fn prefixed(&self, value: AttributeOrProperty) -> AttributeOrProperty {
        let before = self.host().prefix();
        if before.is_empty() {
            return value;
        }
        let ids = match &value {
            AttributeOrProperty::Static(ids) => ids,
            AttributeOrProperty::Attribute(ids) => ids.as_str(),
            AttributeOrProperty::Property(_) => return value,
        };
        let ids: Vec<String> = ids.split(' ').map(|id| [before, id].concat()).collect();
        AttributeOrProperty::Attribute(AttrValue::from(ids.join(" ")))
    }

    /// Gives what is open an attribute.
    #[inline(never)]
    pub fn fixed(&mut self, name: &str, value: &'static str) {
        self.give(name, AttributeOrProperty::Static(value));
    }

    /// Gives what is open an attribute with a value made for the occasion.
    #[inline(never)]
    pub fn made(&mut self, name: &str, value: String) {
        self.give(name, AttributeOrProperty::Attribute(AttrValue::from(value)));
    }

    /// Tells what is open from its neighbours by a key.
    #[inline(never)]
    pub fn key(&mut self, key: String) {
        self.now.key = Some(key.into());
    }

    /// What stands in an input.
    #[inline(never)]
    pub fn holds(&mut self, value: &str) {
        self.now.value = Some(AttrValue::from(value.to_owned()));
    }

    /// Whether a box is ticked.
    pub fn ticked(&mut self, ticked: bool) {
        self.now.ticked = Some(ticked);
    }

    /// What happens on an event.
    #[inline(never)]
    pub fn on(&mut self, when: When, what: What) {
        self.now.on = Some(Rc::new(On { when, act: self.act.clone(), what }));
    }

    /// Writes static text.
    #[inline(never)]
    pub fn text(&mut self, text: &'static str) {
        self.now.kids.push(VNode::VText(VText::new(text)));
    }

    /// Writes text made for the occasion.
    #[inline(never)]
    pub fn said(&mut self, text: String) {
        self.now.kids.push(VNode::VText(VText::new(text)));
    }

    /// Nothing, in its place: what follows keeps its own.
    #[inline(never)]
    pub fn nothing(&mut self) {
        self.now.kids.push(VNode::default());
    }

    /// A drawing, or other markup of the page's own making, whole.
    #[inline(never)]
    pub fn drawn(&mut self, markup: String) {
        self.now.kids.push(VNode::from_html_unchecked(markup.into()));
    }

    /// An element with static text.
    #[inline(never)]
    pub fn line(&mut self, spec: &'static str, words: &'static str) {
        self.open(spec);
        self.text(words);
        self.close();
    }

    /// An element with text made for the occasion.
    #[inline(never)]
    pub fn line_of(&mut self, spec: &'static str, words: String) {
        self.open(spec);
        self.said(words);
        self.close();
    }

    /// A static line where there is reason for one; else nothing, in its place.
    #[inline(never)]
    pub fn line_if(&mut self, there: bool, spec: &'static str, words: &'static str) {
        if there { self.line(spec, words) } else { self.nothing() }
    }

    /// An option of a choice.
    #[inline(never)]
    pub fn option(&mut self, value: &'static str, selected: bool, words: &'static str) {
        self.open("option");
        self.fixed("value", value);
        if selected {
            self.fixed("selected", "");
        }
        self.text(words);
        self.close();
    }

    /// A drawing that may be wider than its room: it is moved aside within it.
    #[inline(never)]
    pub fn figure(&mut self, name: &'static str, svg: String) {
        self.open("div.figure|tabindex=0|role=group");
        self.fixed("aria-label", name);
        self.drawn(svg);
        self.close();
    }
}

#[cfg(test)]
mod tests {
    use super::NAMES;

    #[test]
    fn no_attribute_has_two_places() {
        for (i, name) in NAMES.iter().enumerate() {
            assert_eq!(NAMES.iter().position(|one| one == name), Some(i), "{name}");
        }
    }
}
