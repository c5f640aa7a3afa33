//! The page kept on the device, and newer versions of it.
//!
//! The browser's side is `web/static/kept.js`. Where that is missing, or nothing may be
//! kept, nothing is told.

use crate::act::Do;
use crate::state::page::Action;
use wasm_bindgen::prelude::*;

#[wasm_bindgen]
extern "C" {
    #[wasm_bindgen(js_namespace = coilwrightKept, js_name = hear, catch)]
    fn hear_of(tell: &JsValue) -> Result<(), JsValue>;
    #[wasm_bindgen(js_namespace = coilwrightKept, js_name = take, catch)]
    fn take_newer() -> Result<(), JsValue>;
}

/// Has the page kept, and hears of it for as long as the page lives: that it is, and that
/// a newer version waits.
pub fn hear(act: &Do) {
    let act = act.clone();
    let tell = Closure::<dyn Fn(bool)>::new(move |newer| act.now(Action::Kept { newer }));
    let _ = hear_of(&tell.into_js_value());
}

/// Opens the newer version in place of this one.
pub fn take() {
    let _ = take_newer();
}
