//! A browser around the page: a document of its own, or an element in somebody else's.

mod address;
mod hand;
mod keys;
mod later;
mod offline;
mod screen;
mod storage;

use super::shelf::{NotKept, Shelf};
use super::{Chosen, Done, Heard, Host};
use address::Address;
use gloo_events::EventListener;
use std::any::Any;
use std::rc::Rc;
use wasm_bindgen::JsCast;
use web_sys::{Document, Element, StorageEvent, Window};

/// A browser, as far as one element of a document goes.
#[derive(Debug)]
pub struct Browser {
    root: Element,
    window: Window,
    document: Document,
    /// Before ids and the names of drafts; empty for the page that has the document.
    name: String,
    address: Address,
}

impl Browser {
    /// The page that has the document to itself, in an element of it; `None` outside a window.
    #[must_use]
    pub fn page(root: Element) -> Option<Self> {
        Self::of(root, String::new(), String::new())
    }

    /// What comes later, before anything is drawn where the address wants it: then nothing has to
    /// give way to it. Tells whether it is there.
    pub fn first(done: Done) {
        later::first(done);
    }

    /// One page of several in a document, which begins with a link or none: the address is not
    /// its own, its ids and its drafts go by a name.
    #[must_use]
    pub fn guest(root: Element, name: &str, link: &str) -> Option<Self> {
        Self::of(root, [name, "-"].concat(), link.to_owned())
    }

    fn of(root: Element, name: String, link: String) -> Option<Self> {
        let document = root.owner_document()?;
        let window = document.default_view()?;
        let address = Address::of(name.is_empty().then(|| window.clone()), link);
        Some(Self { root, window, document, name, address })
    }

    /// An element of the page.
    fn find(&self, id: &str) -> Option<Element> {
        self.document.get_element_by_id(&self.id(id))
    }

    fn id(&self, id: &str) -> String {
        [self.name.as_str(), id].concat()
    }
}

impl Host for Browser {
    fn fragment(&self) -> String {
        self.address.fragment()
    }
    fn is_ours(&self) -> bool {
        self.address.is_ours()
    }
    fn is_choice(&self) -> bool {
        self.address.is_choice()
    }
    fn replace(&self, link: &str) {
        self.address.replace(link);
    }
    fn push(&self, link: &str, from_list: bool) {
        self.address.push(link, from_list);
    }
    fn back(&self) {
        self.address.back();
    }
    fn begin_visit(&self, noted: Option<u32>, before: Option<&str>) -> (u32, bool) {
        self.address.begin(noted, before)
    }
    fn page(&self) -> Option<String> {
        self.address.page()
    }

    fn tab(&self) -> Result<Box<dyn Shelf>, NotKept> {
        storage::of(self.window.session_storage())
    }
    fn shared(&self) -> Result<Box<dyn Shelf>, NotKept> {
        storage::of(self.window.local_storage())
    }

    fn now(&self) -> u64 {
        hand::now()
    }
    fn when(&self, at: u64) -> String {
        hand::when(at)
    }
    fn ticks(&self) -> f64 {
        self.window.performance().map_or(0.0, |performance| performance.now())
    }

    fn listen(&self, hears: Rc<dyn Fn(Heard)>) -> Box<dyn Any> {
        let mut listeners = Vec::new();
        let events: [(&web_sys::EventTarget, &'static str); 5] = [
            (&self.window, "pagehide"),
            (&self.document, "visibilitychange"),
            (&self.window, "popstate"),
            (&self.window, "beforeprint"),
            (&self.window, "storage"),
        ];
        for (target, name) in events {
            let hears = Rc::clone(&hears);
            listeners.push(EventListener::new(target, name, move |event| {
                hears(match name {
                    "popstate" => Heard::Went,
                    "beforeprint" => Heard::Print,
                    "storage" => Heard::Elsewhere(event.unchecked_ref::<StorageEvent>().key()),
                    name => Heard::Left { gone: name == "pagehide" },
                });
            }));
        }
        // Several pages of a document hear each its own keys.
        let keys: &web_sys::EventTarget =
            if self.name.is_empty() { &self.document } else { &self.root };
        listeners.push(keys::hear(keys, Rc::clone(&hears)));
        offline::hear(move |newer| hears(Heard::Kept { newer }));
        Box::new(listeners)
    }
    fn take_newer(&self) {
        offline::take();
    }

    fn is_wide(&self) -> bool {
        let query = self.window.match_media("(min-width: 75rem)").ok().flatten();
        query.is_some_and(|query| query.matches())
    }
    fn is_nowhere(&self) -> bool {
        self.document.active_element().is_none_or(|element| element.tag_name() == "BODY")
    }
    fn go_to(&self, id: &str) {
        if let Some(element) = self.find(id).and_then(|element| element.dyn_into().ok()) {
            screen::go_to(&element);
        }
    }
    fn show(&self, id: &str) {
        if let Some(element) = self.find(id) {
            screen::show(&element);
        }
    }
    fn select(&self, id: &str) {
        hand::select(&self.id(id));
    }
    fn choose(&self, id: &str, value: &str) {
        if let Some(element) = self.find(id) {
            screen::choose(element, value);
        }
    }
    fn show_lit(&self) {
        screen::show_lit(&self.root);
    }
    fn entitle(&self, title: &str) {
        if self.name.is_empty() {
            self.document.set_title(title);
        }
    }
    fn draw_for_sun(&self, sun: bool) {
        let whole = self.document.document_element().filter(|_| self.name.is_empty());
        whole.as_ref().unwrap_or(&self.root).set_class_name(if sun { "sun" } else { "" });
    }
    fn prefix(&self) -> &str {
        &self.name
    }

    fn hold(&self, on: bool) {
        hand::hold(on);
    }
    fn speaks(&self) -> bool {
        hand::speaks()
    }
    fn say(&self, text: &str) {
        hand::say(text);
    }
    fn copy(&self, text: &str, done: Done) {
        hand::copy(text, done);
    }
    fn shares(&self, address: &str) -> bool {
        hand::shares(address)
    }
    fn share(&self, title: &str, address: &str, done: Done) {
        hand::share(title, address, done);
    }
    fn save_text(&self, name: &str, text: &str) {
        hand::save_text(name, text);
    }
    fn save_as_drawn(&self, name: &str, svg: &str) {
        hand::save_as_drawn(name, svg);
    }
    fn save_as_points(&self, name: &str, svg: &str, size: (i32, i32)) {
        hand::save_as_points(name, svg, size);
    }
    fn read_file(&self, id: &str, most: u32, done: Box<dyn FnOnce(Chosen)>) {
        hand::read_file(&self.id(id), most, done);
    }
    fn ask_to_last(&self, ask: bool, done: Done) {
        hand::ask_to_last(ask, done);
    }
    fn print(&self) {
        let _ = self.window.print();
    }
    fn bring(&self, done: Done) {
        later::bring(done);
    }
}
