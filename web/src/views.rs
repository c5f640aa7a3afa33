//! The rooms of the page. None writes a sentence of its own.
//!
//! Most are plain functions of the state: a component of its own costs every visitor
//! about three kilobytes. What is long (the list) is components, which are drawn again
//! only when what they show has changed.

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

use crate::app::Do;
use crate::state::State;
use crate::state::asking::Answered;
use std::rc::Rc;
use words::cautions;
use words::page as say;
use yew::prelude::*;

pub(crate) use coilwright_words::english as words;

/// What every room is given: the state and the way to act on it.
#[derive(Clone, Copy, Debug)]
pub struct Sheet<'a> {
    /// The state.
    pub state: &'a State,
    /// The way to act on it.
    pub act: &'a Do,
}

/// A sentence whose units stay on the line of their number.
pub fn tied(sentence: &str) -> String {
    let mut text = String::with_capacity(sentence.len());
    let mut rest = sentence.chars().peekable();
    while let Some(c) = rest.next() {
        let before_unit = c == ' ' && matches!(rest.peek(), Some('Ω' | 'W' | '%'));
        text.push(if before_unit { '\u{a0}' } else { c });
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
pub fn page(sheet: Sheet) -> Html {
    let state = sheet.state;
    let class = if state.chosen().is_some() { "page page-chosen" } else { "page" };
    html! {
        <div {class}>
            { bar::bar(sheet) }
            <main class="rooms">
                <form class="sheet ask" aria-labelledby="ask" autocomplete="off" novalidate=true
                    onsubmit={|event: SubmitEvent| event.prevent_default()}>
                    <h2 id="ask" class="tab">{ say::RIG }</h2>
                    if state.is_example() {
                        <p class="example"><b>{ say::EXAMPLE_TAG }</b>{ " " }{ say::EXAMPLE }</p>
                    }
                    { drivers::groups(sheet) }
                    { amplifier::amplifier(sheet) }
                    { troubles::removed(sheet) }
                </form>
                <section class="list" aria-labelledby="answer">
                    { answer::answer(sheet) }
                </section>
                { chosen::panel(sheet) }
            </main>
            <footer class="foot">
                <p>{ cautions::SCOPE }</p>
                <p>{ cautions::text(cautions::Caution::ManualsFirst) }</p>
            </footer>
            { strip::strip(sheet) }
        </div>
    }
}
