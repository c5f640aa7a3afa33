//! Elements gone to and shown, choices made in them.

use wasm_bindgen::JsCast;
use web_sys::{
    Element, HtmlElement, HtmlSelectElement, ScrollIntoViewOptions, ScrollLogicalPosition,
};

/// Chooses a value in a select.
pub(super) fn choose(element: Element, value: &str) {
    if let Ok(select) = element.dyn_into::<HtmlSelectElement>()
        && select.value() != value
    {
        select.set_value(value);
    }
}

/// Moves a drawing aside within its frame until the run that is lit can be seen.
pub(super) fn show_lit(root: &Element) {
    let find = |selector| root.query_selector(selector).ok().flatten();
    let (Some(frame), Some(lit)) =
        (find(".wired-figure, .work-near"), find(".wired-figure .d-lit, .work-near .d-lit"))
    else {
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

/// Shows an element, where it cannot be seen already.
pub(super) fn show(element: &Element) {
    scroll(element, ScrollLogicalPosition::Nearest);
}

fn scroll(element: &Element, to: ScrollLogicalPosition) {
    let options = ScrollIntoViewOptions::new();
    options.set_block(to);
    element.scroll_into_view_with_scroll_into_view_options(&options);
}

/// Moves the keyboard to an element and shows it: a heading with what follows it, a
/// field with what is around it.
pub(super) fn go_to(element: &HtmlElement) {
    // What is folded away takes no focus.
    let mut around = element.closest("details").ok().flatten();
    while let Some(folded) = around {
        let _ = folded.set_attribute("open", "");
        let outside = folded.parent_element();
        around = outside.and_then(|outside| outside.closest("details").ok().flatten());
    }
    // An element that takes no focus is shown all the same.
    let _ = element.focus();
    let heading = element.tag_name().starts_with('H');
    scroll(
        element,
        if heading { ScrollLogicalPosition::Start } else { ScrollLogicalPosition::Center },
    );
}
