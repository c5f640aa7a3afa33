//! The page as a whole: its state, its effects upon the browser, its rooms.
//!
//! One component with one kind of message: what a visitor downloads for it is a fraction
//! of what hooks of as many kinds take.

use crate::browser::listing::Listing;
use crate::browser::{address, choose, go_to, hand, is_wide, kept, show_lit};
use crate::state::link::{self, Saved};
use crate::state::opening::{self, Found};
use crate::state::{Action, Asking, Room, State, list};
use crate::views::{self, pen::Memory};
use coilwright_solver::answer::Request;
use gloo_events::EventListener;
use gloo_timers::callback::Timeout;
use std::cell::RefCell;
use std::rc::Rc;
use yew::html::Scope;
use yew::prelude::*;

/// What the page is told.
#[derive(Debug)]
pub enum Message {
    /// Something happened.
    Act(Action),
    /// The next slice of the listing is due.
    Slice,
    /// The address has lagged long enough.
    Flush,
    /// The drawing is to be saved, as a picture of points or as it is.
    Save(bool),
    /// The steps are to be copied.
    Copy,
    /// The page is about to be printed: the job sheet, where there is a plan.
    Print,
}

/// Does an action.
#[derive(Clone)]
pub struct Do(Scope<App>);

impl std::fmt::Debug for Do {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str("Do")
    }
}

impl Do {
    /// Does it now.
    #[inline(never)]
    pub fn now(&self, action: Action) {
        self.tell(Message::Act(action));
    }

    #[inline(never)]
    fn tell(&self, message: Message) {
        self.0.send_message(message);
    }

    /// Saves the drawing of the plan: as a picture of points, or as it is.
    pub fn save_drawing(&self, points: bool) {
        self.tell(Message::Save(points));
    }

    /// Copies the steps of the plan as text.
    pub fn copy_steps(&self) {
        self.tell(Message::Copy);
    }

    /// Works on the listing after so many milliseconds.
    pub fn slice_later(&self, milliseconds: u32) -> Timeout {
        self.later(milliseconds, Message::Slice)
    }

    #[inline(never)]
    fn later(&self, milliseconds: u32, message: Message) -> Timeout {
        let act = self.clone();
        Timeout::new(milliseconds, move || act.tell(message))
    }
}

/// What the page opens with.
#[derive(Clone, Debug, PartialEq, Properties)]
pub struct AppProps {
    /// What lay ready.
    pub found: Found,
}

/// The whole page.
#[derive(Debug)]
pub struct App {
    state: State,
    memory: RefCell<Memory>,
    pending: Rc<RefCell<Pending>>,
    before: Before,
    listing: Option<Listing>,
    finding: Option<Timeout>,
    /// Never read: dropped with the page, they stop listening.
    _listeners: Vec<EventListener>,
}

/// What the effects saw last.
#[derive(Debug, Default)]
struct Before {
    /// The links of what is kept, of what was there before it.
    links: (String, Option<String>),
    /// The room, and whether something was chosen.
    place: (Room, bool),
    /// The room and the key of what is shown as chosen.
    followed: (Room, Option<String>),
    /// The request that was last answered, or is being.
    request: Option<Request>,
    /// Whether the page is drawn for the sun, once it is.
    sun: Option<bool>,
    /// The step that is read aloud.
    spoken: Option<u16>,
    /// The run that is lit.
    lit: Option<usize>,
    /// Whether somebody works.
    working: bool,
}

/// What is still to be written to the address and the shared storage.
#[derive(Debug, Default)]
struct Pending {
    link: Option<String>,
    timer: Option<Timeout>,
}

/// What a saved drawing is called.
const DRAWING_SVG: &str = "wiring.svg";
const DRAWING_PNG: &str = "wiring.png";

/// How long the address lags behind, in milliseconds.
const LAG: u32 = 400;

impl Component for App {
    type Message = Message;
    type Properties = AppProps;

    fn create(ctx: &Context<Self>) -> Self {
        let state = opening::open(&ctx.props().found);
        let act = Do(ctx.link().clone());
        let pending = Rc::default();
        let listeners = listen(&act, &pending);
        let before = Before {
            place: (state.room, state.key.is_some()),
            followed: followed(&state),
            ..Before::default()
        };
        let memory = RefCell::default();
        Self { state, memory, pending, before, listing: None, finding: None, _listeners: listeners }
    }

    fn update(&mut self, ctx: &Context<Self>, message: Message) -> bool {
        match message {
            Message::Act(action) => {
                self.state.apply(action);
                return true;
            }
            Message::Slice => {
                if let Some(listing) = &mut self.listing {
                    listing.slice(&Do(ctx.link().clone()));
                }
            }
            Message::Save(points) => self.save_drawing(points),
            Message::Copy => {
                let told = self.state.wired.as_deref().and_then(views::wire::told_of);
                if let Some(told) = told {
                    let act = Do(ctx.link().clone());
                    hand::copy(&told.text(), move |copied| act.now(Action::Copied(copied)));
                }
            }
            Message::Print => {
                let state = &self.state;
                if state.room != Room::Sheet && state.room.is_wiring() {
                    self.state.apply(Action::Room(Room::Sheet));
                    return true;
                }
            }
            Message::Flush => flush(&self.pending, &Do(ctx.link().clone())),
        }
        false
    }

    fn view(&self, ctx: &Context<Self>) -> Html {
        views::page(&self.state, &Do(ctx.link().clone()), &self.memory)
    }

    fn rendered(&mut self, ctx: &Context<Self>, _first: bool) {
        let act = Do(ctx.link().clone());
        self.keep(&act);
        self.list(&act);
        self.follow();
        self.choose();
        self.attend();
        self.finding = self.state.metered.due.then(|| act.later(LAG, Message::Act(Action::Find)));
    }
}

impl App {
    /// Makes the choices of the form in the elements that show them, and the choice of
    /// how the page is drawn.
    fn choose(&mut self) {
        let state = &self.state;
        let form = &state.form;
        for (id, value) in views::blank::chosen(form) {
            choose(&id, value);
        }
        choose("order", list::order_name(state.wanted().order));
        if self.before.sun != Some(state.sun) {
            self.before.sun = Some(state.sun);
            kept::draw_for_sun(state.sun);
        }
    }

    /// Keeps the screen on while somebody works, and reads the step at hand aloud where
    /// that is wanted.
    fn attend(&mut self) {
        let state = &self.state;
        let working = state.room == Room::Work;
        if working != self.before.working {
            self.before.working = working;
            hand::hold(working);
        }
        let lit = state.lit();
        if lit != self.before.lit {
            self.before.lit = lit;
            show_lit();
        }
        let spoken = (working && state.aloud).then_some(state.work.at);
        if spoken != self.before.spoken {
            self.before.spoken = spoken;
            match (spoken, state.wired.as_deref()) {
                (Some(step), Some(wired)) => hand::say(&views::work::spoken(wired, step)),
                _ => hand::say(""),
            }
        }
    }

    fn save_drawing(&self, points: bool) {
        let file = self.state.wired.as_deref().and_then(views::wire::file);
        let Some((svg, size)) = file else { return };
        if points {
            hand::save_as_points(DRAWING_PNG, &svg, size);
        } else {
            hand::save_as_drawn(DRAWING_SVG, &svg);
        }
    }

    /// Moves the keyboard to the configuration that was chosen, and back to its entry
    /// when it is left; side by side it stays in the list. To another room it goes too.
    fn follow(&mut self) {
        let now = followed(&self.state);
        if now == self.before.followed {
            return;
        }
        match (now.0, &now.1, &self.before.followed.1) {
            (Room::List, ..) if is_wide() => {}
            (Room::List, Some(_), _) => go_to("chosen"),
            (Room::List, None, Some(key)) => go_to(&views::entry::id_of(key)),
            (Room::List, None, None) => go_to("answer"),
            _ => go_to("room"),
        }
        self.before.followed = now;
    }

    /// Answers the present request, in slices.
    fn list(&mut self, act: &Do) {
        let state = &self.state;
        let stopped = matches!(state.asking, Asking::Stopped | Asking::Waiting);
        let request = state.read.request.as_ref().filter(|_| !stopped);
        if request == self.before.request.as_ref() {
            return;
        }
        if self.listing.take().is_some() {
            kept::note_working(false);
        }
        self.before.request = request.cloned();
        // An answer that came stays, unless it was left before it was known what would fit.
        let searching = state.nearest.is_none()
            && state.answered.as_deref().is_some_and(|answered| answered.none_fits());
        if state.is_current() && state.asking == Asking::Idle && !searching {
            return;
        }
        if let Some(request) = request {
            let mut listing = Listing::new(request);
            if state.answered.is_some() {
                listing.wait(act);
            } else {
                listing.slice(act);
            }
            self.listing = Some(listing);
        }
    }

    /// Keeps what is typed: in the tab at once, in the address and for other tabs soon.
    fn keep(&mut self, act: &Do) {
        let state = &self.state;
        if !state.touched {
            return;
        }
        let saved = state.saved();
        let link = link::write(&saved);
        let previous = state.previous.as_ref().map(|form| link::write(&Saved::of(form.clone())));
        let links = (link, previous);
        if links == self.before.links {
            return;
        }
        if kept::keep(&links.0, links.1.as_deref()).is_err() {
            act.now(Action::NotKept);
        }
        let now = (saved.room, saved.key.is_some());
        let was = std::mem::replace(&mut self.before.place, now);
        // From the list to a choice or a room: the entry left behind keeps the list.
        let left_list = (was == (Room::List, false) || was.0 == Room::List && now.0 != Room::List)
            && now != was;
        if left_list && place(&address::fragment()) != now {
            flush(&self.pending, act);
            if link::open(&address::fragment()).is_none() {
                let list = Saved { key: None, room: Room::List, ..saved };
                address::replace(&link::write(&list));
            }
            address::push(&links.0);
        }
        let mut pending = self.pending.borrow_mut();
        pending.link = Some(links.0.clone());
        self.before.links = links;
        if pending.timer.is_none() {
            pending.timer = Some(act.later(LAG, Message::Flush));
        }
    }
}

/// What the keyboard follows: the room, and the key of what is shown as chosen.
fn followed(state: &State) -> (Room, Option<String>) {
    (state.room, state.chosen.as_ref().and(state.key.clone()))
}

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

/// The room that an address is about, and whether it holds a choice.
fn place(fragment: &str) -> (Room, bool) {
    let saved = link::open(fragment).map(|opened| opened.saved);
    saved.map_or((Room::List, false), |saved| (saved.room, saved.key.is_some()))
}

/// Listens for the page being left or hidden, and for the browser's back and forward
/// buttons and links typed into the address.
fn listen(act: &Do, pending: &Rc<RefCell<Pending>>) -> Vec<EventListener> {
    let Some(window) = web_sys::window() else { return Vec::new() };
    let mut listeners = Vec::new();
    let mut hear = |target: &web_sys::EventTarget, name: &'static str| {
        let (act, pending) = (act.clone(), Rc::clone(pending));
        listeners.push(EventListener::new(target, name, move |_| {
            if name == "popstate" {
                went(&act);
            } else if name == "beforeprint" {
                act.tell(Message::Print);
            } else {
                flush(&pending, &act);
                if name == "pagehide" {
                    // A page that can still hear that it is left was not stopped by its work.
                    kept::note_working(false);
                }
            }
        }));
    };
    hear(&window, "pagehide");
    if let Some(document) = window.document() {
        hear(&document, "visibilitychange");
    }
    hear(&window, "popstate");
    hear(&window, "beforeprint");
    listeners
}

/// Follows the address to where the browser went.
fn went(act: &Do) {
    let Some(opened) = link::open(&address::fragment()) else {
        return;
    };
    act.now(if address::is_ours() {
        Action::Return(opened.saved.key, opened.saved.room)
    } else {
        Action::Open(Box::new(opened))
    });
}
