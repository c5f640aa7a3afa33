//! Components in a real browser: `cargo xtask test --only web`.
#![cfg(target_arch = "wasm32")]
#![allow(clippy::expect_used, reason = "a test may stop at the first surprise")]

use coilwright_web::Page;
use std::time::Duration;
use wasm_bindgen_test::{wasm_bindgen_test, wasm_bindgen_test_configure};
use yew::platform::time::sleep;

wasm_bindgen_test_configure!(run_in_browser);

#[wasm_bindgen_test]
async fn the_page_has_one_heading() {
    let document = web_sys::window().and_then(|window| window.document());
    let document = document.expect("a browser has a document");
    let place = document.create_element("div").expect("an element");
    yew::Renderer::<Page>::with_root(place.clone()).render();
    sleep(Duration::ZERO).await;
    let headings = place.get_elements_by_tag_name("h1");
    assert_eq!(headings.length(), 1);
}
