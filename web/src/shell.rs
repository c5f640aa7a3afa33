//! The page put together: what fills it beside the room, and what it does to the browser.

mod amplifier;
pub mod app;
mod bar;
pub mod drafts;
mod drivers;
mod finding;
mod listing;
pub mod page;
mod strip;

use crate::host::Host;
use crate::host::browser::Browser;
use crate::later;
use std::rc::Rc;
use web_sys::Element;

/// Puts the page into the element that the document keeps for it.
///
/// Does nothing outside a document, or when there is no such element: the document's own
/// failing state is then what a visitor sees.
pub fn start() {
    let place = web_sys::window()
        .and_then(|window| window.document())
        .and_then(|document| document.get_element_by_id("page"));
    if let Some(host) = place.clone().and_then(Browser::page)
        && let Some(place) = place
    {
        if later::there().is_some() {
            put(place, Rc::new(host));
            return;
        }
        Browser::first(Box::new(move |there| {
            if there {
                later::has_arrived();
            }
            put(place, Rc::new(host));
        }));
    }
}

/// Puts a page into an element, with what is around it.
pub fn put(place: Element, host: Rc<dyn Host>) -> yew::AppHandle<app::App> {
    yew::Renderer::<app::App>::with_root_and_props(place, app::AppProps { host }).render()
}
