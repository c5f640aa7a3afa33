//! The rooms of the page. Each takes what it shows and acts through [`Do`]; none
//! writes a sentence of its own.
//!
//! [`Do`]: crate::app::Do

pub mod act;
pub mod amplifier;
pub mod answer;
pub mod bar;
pub mod blank;
pub mod chosen;
pub mod drivers;
pub mod entry;
pub mod ladder;
pub mod strip;
pub mod troubles;

use crate::state::State;
use crate::state::asking::Answered;
use std::rc::Rc;
use words::cautions;
use words::page as say;
use yew::prelude::*;

pub(crate) use coilwright_words::english as words;

/// A sentence whose units stay on the line of their number.
pub fn tied(sentence: &str) -> String {
    let mut text = sentence.to_string();
    for unit in ["Ω", "W", "%"] {
        text = text.replace(&format!(" {unit}"), &format!("\u{a0}{unit}"));
    }
    text
}

/// Something shared that is equal to itself alone: comparing it costs nothing,
/// however much is in it.
#[derive(Debug)]
pub struct Same<T>(pub Rc<T>);

impl<T> Clone for Same<T> {
    fn clone(&self) -> Self {
        Self(Rc::clone(&self.0))
    }
}

impl<T> PartialEq for Same<T> {
    fn eq(&self, other: &Self) -> bool {
        Rc::ptr_eq(&self.0, &other.0)
    }
}

/// The answer that is shown, cheap to compare.
pub type Shown = Same<Answered>;

/// The page.
#[must_use]
pub fn page(state: &State) -> Html {
    let shown = state.answered.clone().map(Same);
    let class = classes!("page", state.chosen().is_some().then_some("page-chosen"));
    html! {
        <div {class}>
            { bar::bar(state) }
            <main class="rooms">
                <form class="sheet ask" aria-labelledby="ask" autocomplete="off" novalidate=true
                    onsubmit={|event: SubmitEvent| event.prevent_default()}>
                    <h2 id="ask" class="tab">{ say::RIG }</h2>
                    if state.is_example() {
                        <p class="example"><b>{ say::EXAMPLE_TAG }</b>{ " " }{ say::EXAMPLE }</p>
                    }
                    { drivers::groups(state) }
                    { amplifier::amplifier(state) }
                    { troubles::removed(state) }
                </form>
                <section class="list" aria-labelledby="answer">
                    { answer::answer(state) }
                </section>
                <chosen::Panel shown={shown.clone()} key_chosen={state.chosen().map(|one| one.key())} current={state.is_current()} />
            </main>
            <footer class="foot">
                <p>{ cautions::SCOPE }</p>
                <p>{ cautions::text(cautions::Caution::ManualsFirst) }</p>
            </footer>
            { strip::strip(state) }
        </div>
    }
}
