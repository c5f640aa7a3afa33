//! What working mode and the job sheet ask of the browser: the screen kept on, steps read
//! aloud, texts copied, drawings saved, paper printed.
//!
//! The browser's side is `web/static/hand.js`: bindings for all it touches would take
//! several times as many bytes. Where that is missing, or the browser refuses, nothing
//! happens.

use crate::host::{Chosen, Done, Unread};
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
    #[wasm_bindgen(js_namespace = coilwrightHand, js_name = shares, catch)]
    fn can_share(address: &str) -> Result<bool, JsValue>;
    #[wasm_bindgen(js_namespace = coilwrightHand, js_name = share, catch)]
    fn share_link(title: &str, address: &str, done: &JsValue) -> Result<(), JsValue>;
    #[wasm_bindgen(js_namespace = coilwrightHand, js_name = select, catch)]
    fn select_text(id: &str) -> Result<(), JsValue>;
    #[wasm_bindgen(js_namespace = coilwrightHand, js_name = saveDrawing, catch)]
    fn save_drawing(name: &str, svg: &str) -> Result<(), JsValue>;
    #[wasm_bindgen(js_namespace = coilwrightHand, js_name = savePicture, catch)]
    fn save_picture(name: &str, svg: &str, wide: i32, high: i32) -> Result<(), JsValue>;
    #[wasm_bindgen(js_namespace = coilwrightHand, js_name = saveText, catch)]
    fn save_json(name: &str, text: &str) -> Result<(), JsValue>;
    #[wasm_bindgen(js_namespace = coilwrightHand, js_name = readFile, catch)]
    fn read_json(id: &str, most: u32, done: &JsValue) -> Result<(), JsValue>;
    #[wasm_bindgen(js_namespace = coilwrightHand, js_name = lasting, catch)]
    fn lasting(ask: bool, done: &JsValue) -> Result<(), JsValue>;
    #[wasm_bindgen(js_namespace = coilwrightHand, js_name = when, catch)]
    fn written(at: f64) -> Result<String, JsValue>;
    #[wasm_bindgen(js_namespace = Date, js_name = now, catch)]
    fn date_now() -> Result<f64, JsValue>;
}

/// Saves a text as a file of JSON.
pub(super) fn save_text(name: &str, text: &str) {
    let _ = save_json(name, text);
}

/// Reads the file chosen in a field, of at most so many bytes, and tells what it holds.
/// Where there is none, nothing happens.
pub(super) fn read_file(id: &str, most: u32, done: Box<dyn FnOnce(Chosen)>) {
    let told = move |why: String, value: JsValue, line: u32, place: u32| {
        done(match why.as_str() {
            "" => Ok(value),
            "large" => Err(Unread::TooLarge),
            "json" => Err(Unread::NotJson((line > 0).then_some((line, place)))),
            _ => Err(Unread::Failed),
        });
    };
    let _ = read_json(id, most, &Closure::once_into_js(told));
}

/// Tells whether the browser has promised to keep what is kept; where `ask` is set it is
/// asked to. Where it knows no such promise, nothing happens.
pub(super) fn ask_to_last(ask: bool, done: Done) {
    let _ = lasting(ask, &Closure::once_into_js(done));
}

/// A moment, in milliseconds since 1970, as people of the place write it.
#[expect(clippy::cast_precision_loss, reason = "exact for the next 285,000 years")]
pub(super) fn when(at: u64) -> String {
    written(at as f64).unwrap_or_default()
}

/// This moment, in milliseconds since 1970.
#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "casts saturate, and what the clock says is only compared"
)]
pub(super) fn now() -> u64 {
    date_now().unwrap_or_default() as u64
}

/// Keeps the screen on, or no longer.
pub(super) fn hold(on: bool) {
    let _ = hold_screen(on);
}

/// Whether steps can be read aloud.
pub(super) fn speaks() -> bool {
    can_speak().unwrap_or(false)
}

/// Reads a text aloud in place of what is being read; an empty one ends that.
pub(super) fn say(text: &str) {
    let _ = say_text(text);
}

/// Copies a text, then tells whether that was possible.
pub(super) fn copy(text: &str, done: Done) {
    let done = Closure::once_into_js(done);
    let _ = copy_text(text, &done);
}

/// Whether the browser gives an address to other programs.
pub(super) fn shares(address: &str) -> bool {
    can_share(address).unwrap_or(false)
}

/// Gives an address to another program, then tells whether that was possible.
pub(super) fn share(title: &str, address: &str, done: Done) {
    let done = Closure::once_into_js(done);
    let _ = share_link(title, address, &done);
}

/// Goes to a field and selects all that stands in it.
pub(super) fn select(id: &str) {
    let _ = select_text(id);
}

/// Saves a drawing as it is.
pub(super) fn save_as_drawn(name: &str, svg: &str) {
    let _ = save_drawing(name, svg);
}

/// Saves a drawing as points.
pub(super) fn save_as_points(name: &str, svg: &str, (wide, high): (i32, i32)) {
    let _ = save_picture(name, svg, wide, high);
}
