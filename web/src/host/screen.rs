//! The document as it is shown: elements gone to, choices made in them, the title.

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

/// Names the window.
pub fn entitle(title: &str) {
    if let Some(document) = web_sys::window().and_then(|window| window.document()) {
        document.set_title(title);
    }
}

/// Moves a drawing aside within its frame until the run that is lit can be seen.
pub fn show_lit() {
    let document = web_sys::window().and_then(|window| window.document());
    let find = |selector| document.as_ref()?.query_selector(selector).ok().flatten();
    let (Some(frame), Some(lit)) = (find(".wired-figure"), find(".wired-figure .d-lit")) else {
        return;
    };
    let (around, own) = (frame.get_bounding_client_rect(), lit.get_bounding_client_rect());
    let room = 24.0;
    // How far a stretch reaches out of another, less where both ends do.
    let beyond = |start: f64, end: f64, least: f64, most: f64| {
        let (before, after) = (start - room - least, end + room - most);
        if before < 0.0 || end - start > most - least { before } else { after.max(0.0) }
    };
    let right = beyond(own.left(), own.right(), around.left(), around.right());
    let down = beyond(own.top(), own.bottom(), around.top(), around.bottom());
    #[expect(clippy::cast_possible_truncation, reason = "pixels of a page")]
    let (right, down) = (right as i32, down as i32);
    frame.set_scroll_left(frame.scroll_left() + right);
    frame.set_scroll_top(frame.scroll_top() + down);
}

/// Whether the keyboard is nowhere: what had it is no longer there.
#[must_use]
pub fn is_nowhere() -> bool {
    web_sys::window()
        .and_then(|window| window.document())
        .and_then(|document| document.active_element())
        .is_none_or(|element| element.tag_name() == "BODY")
}

fn find(id: &str) -> Option<HtmlElement> {
    let document = web_sys::window()?.document()?;
    document.get_element_by_id(id)?.dyn_into().ok()
}

/// Shows an element, where it cannot be seen already.
pub fn show(id: &str) {
    if let Some(element) = find(id) {
        scroll(&element, ScrollLogicalPosition::Nearest);
    }
}

fn scroll(element: &HtmlElement, to: ScrollLogicalPosition) {
    let options = ScrollIntoViewOptions::new();
    options.set_block(to);
    element.scroll_into_view_with_scroll_into_view_options(&options);
}

/// Moves the keyboard to an element and shows it: a heading with what follows it, a
/// field with what is around it.
pub fn go_to(id: &str) {
    if let Some(element) = find(id) {
        // What is folded away takes no focus.
        let mut around = element.closest("details").ok().flatten();
        while let Some(folded) = around {
            let _ = folded.set_attribute("open", "");
            let outside = folded.parent_element();
            around = outside.and_then(|outside| outside.closest("details").ok().flatten());
        }
        // An element that takes no focus is shown all the same.
        let _ = element.focus();
        let heading = element.tag_name() == "H2";
        scroll(
            &element,
            if heading { ScrollLogicalPosition::Start } else { ScrollLogicalPosition::Center },
        );
    }
}
