//! The page kept on the device, and newer versions of it.
//!
//! The browser's side is `web/static/kept.js`. Where that is missing, or nothing may be
//! kept, nothing is told.

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
pub(super) fn hear(hears: impl Fn(bool) + 'static) {
    let tell = Closure::<dyn Fn(bool)>::new(hears);
    let _ = hear_of(&tell.into_js_value());
}

/// Opens the newer version in place of this one.
pub(super) fn take() {
    let _ = take_newer();
}
