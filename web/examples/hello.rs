//! The least page that Yew can show: what `cargo xtask bench page` compares the first
//! paint of ours with. Compiled for that alone.

use yew::prelude::*;

#[component]
fn Hello() -> Html {
    html! { <h1>{ "Hello" }</h1> }
}

fn main() {
    let place = web_sys::window()
        .and_then(|window| window.document())
        .and_then(|document| document.get_element_by_id("page"));
    if let Some(place) = place {
        yew::Renderer::<Hello>::with_root(place).render();
    }
}
