//! The page as a whole: its state, its effects upon the browser, its rooms.

use crate::browser::listing::{self, Told};
use crate::browser::{address, choose, go_to, is_wide, kept};
use crate::state::link::{self, Saved};
use crate::state::opening::{self, Found};
use crate::state::{Action, Asking, Room, State, list};
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

    /// The way to act on a state.
    #[must_use]
    pub fn of(state: &UseReducerHandle<State>) -> Self {
        Self(state.dispatcher())
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
    let act = Do::of(&state);
    use_keeping(&state, &act);
    use_going_back(&act);
    use_listing(&state, &act);
    use_following(&state);
    use_choices(&state);
    views::page(&state)
}

/// Makes the choices of the form in the elements that show them, and the choice of how
/// the page is drawn.
#[hook]
fn use_choices(state: &State) {
    let wanted = (state.form.groups.clone(), state.look.order, state.sun);
    use_effect_with(wanted, {
        let form = state.form.clone();
        let filtered = form.joined_only && form.even_only;
        let total = state.answered.as_deref().and_then(|answered| answered.shown().total);
        let order = state.look.wanted(total.unwrap_or(0), filtered).order;
        move |(_, _, sun)| {
            for (id, value) in views::blank::chosen(&form) {
                choose(&id, value);
            }
            choose("order", list::order_name(order));
            kept::draw_for_sun(*sun);
        }
    });
}

/// Moves the keyboard to the configuration that was chosen, and back to its entry
/// when it is left; side by side it stays in the list. To another room it goes too.
#[hook]
fn use_following(state: &State) {
    let now = (state.room, state.chosen.as_ref().and(state.key.clone()));
    let before = use_mut_ref(|| now.clone());
    use_effect_with(now, move |now| {
        let before = before.replace(now.clone());
        if before == *now {
            return;
        }
        match now {
            (Room::List, _) if is_wide() => {}
            (Room::List, Some(_)) => go_to("chosen"),
            (Room::List, None) => match before.1 {
                Some(key) => go_to(&views::entry::id_of(&key)),
                None => go_to("answer"),
            },
            _ => go_to("room"),
        }
    });
}

/// Answers the present request, in slices.
#[hook]
fn use_listing(state: &State, act: &Do) {
    let stopped = matches!(state.asking, Asking::Stopped | Asking::Waiting);
    let request = state.read.request.clone().filter(|_| !stopped);
    let act = act.clone();
    // An answer that came stays, unless it was left before it was known what would fit.
    let searching = state.nearest.is_none()
        && state.answered.as_deref().is_some_and(|answered| answered.none_fits());
    let answered = state.is_current() && state.asking == Asking::Idle && !searching;
    let typing = state.answered.is_some();
    use_effect_with(request, move |request| {
        if answered {
            return Box::new(|| {}) as Box<dyn FnOnce()>;
        }
        let listing = request.clone().map(|request| {
            listing::start(request, typing, move |told| {
                act.now(match told {
                    Told::Progress(progress) => Action::Progress(progress),
                    Told::Answered(answered) => Action::Answered(Rc::from(answered)),
                    Told::Nearest(found) => Action::Nearest(Rc::new(found)),
                });
            })
        });
        Box::new(move || {
            kept::note_working(false);
            drop(listing);
        })
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
    let before = use_mut_ref(|| (state.room, state.key.is_some()));
    let saved = state.saved();
    let previous = state.previous.clone();
    let (touched, act_now) = (state.touched, act.clone());
    let pending_now = Rc::clone(&pending);
    use_effect_with((saved, previous, touched), move |(saved, previous, touched)| {
        if !touched {
            return;
        }
        let link = link::write(saved);
        let previous = previous.as_ref().map(|form| link::write(&Saved::of(form.clone())));
        if kept::keep(&link, previous.as_deref()).is_err() {
            act_now.now(Action::NotKept);
        }
        let now = (saved.room, saved.key.is_some());
        let was = before.replace(now);
        // From the list to a choice or a room: the entry left behind keeps the list.
        let left_list = (was == (Room::List, false) || was.0 == Room::List && now.0 != Room::List)
            && now != was;
        if left_list && place(&address::fragment()) != now {
            flush(&pending_now, &act_now);
            if link::open(&address::fragment()).is_none() {
                let list = Saved { key: None, room: Room::List, ..saved.clone() };
                address::replace(&link::write(&list));
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

/// The room that an address is about, and whether it holds a choice.
fn place(fragment: &str) -> (Room, bool) {
    let saved = link::open(fragment).map(|opened| opened.saved);
    saved.map_or((Room::List, false), |saved| (saved.room, saved.key.is_some()))
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
                    Action::Return(opened.saved.key, opened.saved.room)
                } else {
                    Action::Open(Box::new(opened))
                });
            })
        });
        move || drop(listener)
    });
}
