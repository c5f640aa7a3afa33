//! What the page does to the browser around it: storage, address, time.
//!
//! Every call can fail (storage is refused in some frames, history is rationed), and
//! no failure may take the page with it.

pub mod address;
pub mod hand;
pub mod kept;
pub mod listing;

use wasm_bindgen::JsCast;
use web_sys::{HtmlElement, HtmlSelectElement, ScrollIntoViewOptions, ScrollLogicalPosition};

/// Whether list and chosen configuration stand side by side.
#[must_use]
pub fn is_wide() -> bool {
    web_sys::window()
        .and_then(|window| window.match_media("(min-width: 75rem)").ok().flatten())
        .is_some_and(|query| query.matches())
}

/// Chooses a value in a select.
pub fn choose(id: &str, value: &str) {
    let select = web_sys::window()
        .and_then(|window| window.document())
        .and_then(|document| document.get_element_by_id(id))
        .and_then(|element| element.dyn_into::<HtmlSelectElement>().ok());
    if let Some(select) = select
        && select.value() != value
    {
        select.set_value(value);
    }
}

/// Moves the keyboard to an element and shows it: a heading with what follows it, a
/// field with what is around it.
pub fn go_to(id: &str) {
    let element = web_sys::window()
        .and_then(|window| window.document())
        .and_then(|document| document.get_element_by_id(id))
        .and_then(|element| element.dyn_into::<HtmlElement>().ok());
    if let Some(element) = element {
        let options = ScrollIntoViewOptions::new();
        let heading = element.tag_name() == "H2";
        options.set_block(if heading {
            ScrollLogicalPosition::Start
        } else {
            ScrollLogicalPosition::Center
        });
        // An element that takes no focus is shown all the same.
        let _ = element.focus();
        element.scroll_into_view_with_scroll_into_view_options(&options);
    }
}
