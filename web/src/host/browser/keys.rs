//! The keys that undo.

use super::super::Heard;
use gloo_events::{EventListener, EventListenerOptions};
use std::rc::Rc;
use wasm_bindgen::JsCast;
use web_sys::{Element, Event, EventTarget, KeyboardEvent};

/// Fields whose own text the browser undoes.
const TYPED: &str = "input[type=text], textarea";

/// Hears of them where no field is typed in.
pub(super) fn hear(on: &EventTarget, hears: Rc<dyn Fn(Heard)>) -> EventListener {
    let options = EventListenerOptions::enable_prevent_default();
    EventListener::new_with_options(on, "keydown", options, move |event| {
        if let Some(on) = pressed(event) {
            event.prevent_default();
            hears(Heard::Undo { on });
        }
    })
}

/// Whether the keys are those that undo that; `None` where they are neither.
fn pressed(event: &Event) -> Option<bool> {
    let key = event.dyn_ref::<KeyboardEvent>()?;
    let target: Element = event.target()?.dyn_into().ok()?;
    if !(key.ctrl_key() || key.meta_key()) || key.alt_key() || target.matches(TYPED).ok()? {
        return None;
    }
    match (key.key().as_str(), key.shift_key()) {
        ("z" | "Z", on) => Some(on),
        ("y", false) => Some(true),
        _ => None,
    }
}
