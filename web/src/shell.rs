//! The page put together: what fills it beside the room, and what it does to the browser.

mod amplifier;
pub mod app;
mod bar;
mod drivers;
mod finding;
mod listing;
pub mod page;
mod strip;

/// Puts the page into the element that the shell keeps for it.
///
/// Does nothing outside a document, or when the shell has no such element: the
/// shell's own failing state is then what a visitor sees.
pub fn start() {
    let place = web_sys::window()
        .and_then(|window| window.document())
        .and_then(|document| document.get_element_by_id("page"));
    if let Some(place) = place {
        let props = app::AppProps { found: crate::host::kept::found() };
        yew::Renderer::<app::App>::with_root_and_props(place, props).render();
    }
}
