//! The page as a whole: its state, its effects upon the browser, its rooms.

use crate::browser::listing::{self, Told};
use crate::browser::{address, choose, go_to, is_wide, kept};
use crate::state::link::{self, Saved};
use crate::state::opening::{self, Found};
use crate::state::{Action, Asking, State};
use crate::views;
use gloo_events::EventListener;
use gloo_timers::callback::Timeout;
use std::cell::RefCell;
use std::rc::Rc;
use yew::prelude::*;

impl Reducible for State {
    type Action = Action;

    fn reduce(self: Rc<Self>, action: Action) -> Rc<Self> {
        Rc::new(self.after(action))
    }
}

/// Does an action.
#[derive(Clone, PartialEq)]
pub struct Do(UseReducerDispatcher<State>);

impl std::fmt::Debug for Do {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str("Do")
    }
}

impl Do {
    /// Does it now.
    pub fn now(&self, action: Action) {
        self.0.dispatch(action);
    }

    /// Does it when something is pressed or chosen.
    pub fn on<E>(&self, action: Action) -> Callback<E> {
        let this = self.clone();
        Callback::from(move |_| this.now(action.clone()))
    }
}

/// What the page opens with.
#[derive(Clone, Debug, PartialEq, Properties)]
pub struct AppProps {
    /// What lay ready.
    pub found: Found,
}

/// The whole page.
#[component]
pub fn App(props: &AppProps) -> Html {
    let found = props.found.clone();
    let state = use_reducer(move || opening::open(&found));
    let act = Do(state.dispatcher());
    use_keeping(&state, &act);
    use_going_back(&act);
    use_listing(&state, &act);
    use_following(&state);
    use_choices(&state);
    views::page(views::Sheet { state: &state, act: &act })
}

/// Makes the choices of the form in the elements that show them.
#[hook]
fn use_choices(state: &State) {
    use_effect_with(state.form.groups.clone(), {
        let form = state.form.clone();
        move |_| {
            for (id, value) in views::blank::made(&form) {
                choose(&id, value);
            }
        }
    });
}

/// Moves the keyboard to the configuration that was chosen, and back to its entry
/// when it is left; side by side it stays in the list.
#[hook]
fn use_following(state: &State) {
    let rank = state.chosen().map(|one| one.rank);
    let before = use_mut_ref(|| rank);
    use_effect_with(rank, move |rank| {
        let before = before.replace(*rank);
        match (*rank, before) {
            _ if is_wide() || *rank == before => {}
            (Some(_), _) => go_to("chosen"),
            (None, Some(before)) => go_to(&views::entry::id_of(before)),
            (None, None) => {}
        }
    });
}

/// Answers the present request, in slices.
#[hook]
fn use_listing(state: &State, act: &Do) {
    let working = matches!(state.asking, Asking::Working(_));
    let request = state.read.request.clone().filter(|_| working);
    let act = act.clone();
    use_effect_with(request, move |request| {
        let listing = request.clone().map(|request| {
            listing::start(request, move |told| {
                act.now(match told {
                    Told::Progress(progress) => Action::Progress(progress),
                    Told::Answered(answered) => Action::Answered(Rc::from(answered)),
                });
            })
        });
        move || {
            kept::note_working(false);
            drop(listing);
        }
    });
}

/// What is still to be written to the address and the shared storage.
#[derive(Debug, Default)]
struct Pending {
    link: Option<String>,
    timer: Option<Timeout>,
}

/// How long the address lags behind, in milliseconds.
const LAG: u32 = 400;

fn flush(pending: &RefCell<Pending>, act: &Do) {
    let link = {
        let mut pending = pending.borrow_mut();
        pending.timer = None;
        pending.link.take()
    };
    if let Some(link) = link {
        address::replace(&link);
        if kept::share(&link).is_err() {
            act.now(Action::NotKept);
        }
    }
}

/// Keeps what is typed: in the tab at once, in the address and for other tabs soon.
#[hook]
fn use_keeping(state: &State, act: &Do) {
    let pending = use_mut_ref(Pending::default);
    let key_before = use_mut_ref(|| state.key.clone());
    let saved = state.saved();
    let previous = state.previous.clone();
    let (touched, act_now) = (state.touched, act.clone());
    let pending_now = Rc::clone(&pending);
    use_effect_with((saved, previous, touched), move |(saved, previous, touched)| {
        if !touched {
            return;
        }
        let link = link::write(saved);
        let previous = previous
            .as_ref()
            .map(|form| link::write(&Saved { form: form.clone(), order: None, key: None }));
        if kept::keep(&link, previous.as_deref()).is_err() {
            act_now.now(Action::NotKept);
        }
        let key_was = key_before.replace(saved.key.clone());
        let opened_one = key_was.is_none() && saved.key.is_some();
        // The entry left behind keeps the list, the new one holds the choice.
        if opened_one && !holds_key(&address::fragment()) {
            flush(&pending_now, &act_now);
            if !address::is_ours() {
                address::replace(&link::write(&Saved { key: None, ..saved.clone() }));
            }
            address::push(&link);
        }
        let mut pending = pending_now.borrow_mut();
        pending.link = Some(link);
        if pending.timer.is_none() {
            let (later, act) = (Rc::clone(&pending_now), act_now.clone());
            pending.timer = Some(Timeout::new(LAG, move || flush(&later, &act)));
        }
    });
    let act = act.clone();
    use_effect_with((), move |()| {
        let listeners = web_sys::window().map(|window| {
            let hide = (Rc::clone(&pending), act.clone());
            let leave = (Rc::clone(&pending), act);
            let leaving = EventListener::new(&window, "pagehide", move |_| {
                flush(&leave.0, &leave.1);
            });
            let hiding = window.document().map(|document| {
                EventListener::new(&document, "visibilitychange", move |_| {
                    flush(&hide.0, &hide.1);
                })
            });
            (leaving, hiding)
        });
        move || drop(listeners)
    });
}

fn holds_key(fragment: &str) -> bool {
    link::open(fragment).is_some_and(|opened| opened.saved.key.is_some())
}

/// Follows the browser's back and forward buttons and links typed into the address.
#[hook]
fn use_going_back(act: &Do) {
    let act = act.clone();
    use_effect_with((), move |()| {
        let listener = web_sys::window().map(|window| {
            EventListener::new(&window, "popstate", move |_| {
                let Some(opened) = link::open(&address::fragment()) else {
                    return;
                };
                act.now(if address::is_ours() {
                    Action::Choose(opened.saved.key)
                } else {
                    Action::Open(opened)
                });
            })
        });
        move || drop(listener)
    });
}
