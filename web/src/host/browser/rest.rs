//! The wasm that comes later. The browser's side is in `web/static/boot.js`.

use crate::host::Done;
use wasm_bindgen::prelude::*;

#[wasm_bindgen]
extern "C" {
    #[wasm_bindgen(js_namespace = coilwrightLater, js_name = bring, catch)]
    fn bring_into(main: &JsValue, done: &JsValue) -> Result<(), JsValue>;
}

/// Loads it into this wasm and tells whether it is there.
pub(super) fn bring(done: Done) {
    let told = Closure::once_into_js(move |there: bool| done(there));
    let _ = bring_into(&wasm_bindgen::exports(), &told);
}
