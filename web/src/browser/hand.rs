//! What working mode and the job sheet ask of the browser: the screen kept on, steps read
//! aloud, texts copied, drawings saved, paper printed.
//!
//! The browser's side is `web/static/hand.js`: bindings for all it touches would take
//! several times as many bytes. Where that is missing, or the browser refuses, nothing
//! happens.

use wasm_bindgen::prelude::*;

#[wasm_bindgen]
extern "C" {
    #[wasm_bindgen(js_namespace = coilwrightHand, js_name = hold, catch)]
    fn hold_screen(on: bool) -> Result<(), JsValue>;
    #[wasm_bindgen(js_namespace = coilwrightHand, js_name = speaks, catch)]
    fn can_speak() -> Result<bool, JsValue>;
    #[wasm_bindgen(js_namespace = coilwrightHand, js_name = say, catch)]
    fn say_text(text: &str) -> Result<(), JsValue>;
    #[wasm_bindgen(js_namespace = coilwrightHand, js_name = copy, catch)]
    fn copy_text(text: &str, done: &JsValue) -> Result<(), JsValue>;
    #[wasm_bindgen(js_namespace = coilwrightHand, js_name = saveDrawing, catch)]
    fn save_drawing(name: &str, svg: &str) -> Result<(), JsValue>;
    #[wasm_bindgen(js_namespace = coilwrightHand, js_name = savePicture, catch)]
    fn save_picture(name: &str, svg: &str, wide: i32, high: i32) -> Result<(), JsValue>;
}

/// Keeps the screen on, or no longer.
pub fn hold(on: bool) {
    let _ = hold_screen(on);
}

/// Whether steps can be read aloud.
#[must_use]
pub fn speaks() -> bool {
    can_speak().unwrap_or(false)
}

/// Reads a text aloud in place of what is being read; an empty one ends that.
pub fn say(text: &str) {
    let _ = say_text(text);
}

/// Copies a text, then tells whether that was possible.
pub fn copy(text: &str, done: impl FnOnce(bool) + 'static) {
    let done = Closure::once_into_js(done);
    let _ = copy_text(text, &done);
}

/// Saves a drawing as it is.
pub fn save_as_drawn(name: &str, svg: &str) {
    let _ = save_drawing(name, svg);
}

/// Saves a drawing as points.
pub fn save_as_points(name: &str, svg: &str, (wide, high): (i32, i32)) {
    let _ = save_picture(name, svg, wide, high);
}

/// Prints the page.
pub fn print() {
    if let Some(window) = web_sys::window() {
        let _ = window.print();
    }
}
