//! The page. It knows how to show and to remember; it computes nothing about electricity.

use yew::prelude::*;

/// The whole page.
#[component]
pub fn Page() -> Html {
    html! {
        <main>
            <h1>{ "Coilwright" }</h1>
        </main>
    }
}

/// Puts the page into the element that the shell keeps for it.
///
/// Does nothing outside a document, or when the shell has no such element: the
/// shell's own failing state is then what a visitor sees.
pub fn start() {
    let place = web_sys::window()
        .and_then(|window| window.document())
        .and_then(|document| document.get_element_by_id("page"));
    if let Some(place) = place {
        yew::Renderer::<Page>::with_root(place).render();
    }
}
