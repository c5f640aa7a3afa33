//! The wasm that comes later. The browser's side is in `web/static/boot.js`.

use crate::host::Done;
use wasm_bindgen::prelude::*;

#[wasm_bindgen]
extern "C" {
    #[wasm_bindgen(js_namespace = coilwrightLater, js_name = first, catch)]
    fn first_into(main: &JsValue, done: &JsValue) -> Result<(), JsValue>;
    #[wasm_bindgen(js_namespace = coilwrightLater, js_name = bring, catch)]
    fn bring_into(main: &JsValue, done: &JsValue) -> Result<(), JsValue>;
}

/// Where the address wants it at once, loads it into this wasm and tells whether it is there;
/// elsewhere tells that it is not.
pub(super) fn first(done: Done) {
    let told = Closure::once_into_js(move |there: bool| done(there));
    let _ = first_into(&wasm_bindgen::exports(), &told);
}

/// Loads it into this wasm and tells whether it is there.
pub(super) fn bring(done: Done) {
    let told = Closure::once_into_js(move |there: bool| done(there));
    let _ = bring_into(&wasm_bindgen::exports(), &told);
}
