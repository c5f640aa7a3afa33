//! The page as a whole: its state, its effects upon the browser, its rooms.
//!
//! One component with one kind of message: what a visitor downloads for it is a fraction
//! of what hooks of as many kinds take.

mod effects;
mod keeping;
mod rigs;

use crate::browser::finding::Finding;
use crate::browser::hand::{self, Chosen};
use crate::browser::listing::Listing;
use crate::browser::offline;
use crate::state::opening::{self, Found};
use crate::state::rigs::Wish;
use crate::state::{Action, Handed, Room, State};
use crate::views::{self, pen::Memory};
use coilwright_solver::answer::Request;
use gloo_events::EventListener;
use gloo_timers::callback::Timeout;
use keeping::{Pending, flush, listen};
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
    /// The next slice of looking for a fault is due.
    Find,
    /// The address has lagged long enough.
    Flush,
    /// The drawing is to be saved, as a picture of points or as it is.
    Save(bool),
    /// The steps are to be copied.
    Copy,
    /// The link is to be copied, or given to another program.
    Hand {
        /// Whether it is given to another program.
        on: bool,
    },
    /// Something is wanted of the rigs that are kept.
    Wish(Wish),
    /// Another tab kept or deleted a rig.
    KeptElsewhere,
    /// The rigs of a file are to be kept.
    Take(Chosen),
    /// The page is about to be printed: the job sheet, where there is a plan.
    Print,
    /// The newer version of the page is to take the place of this one.
    Renew,
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

    /// Copies the link, or gives it to another program.
    pub fn hand_link(&self, on: bool) {
        self.tell(Message::Hand { on });
    }

    /// Wants something of the rigs that are kept.
    pub fn wish(&self, wish: Wish) {
        self.tell(Message::Wish(wish));
    }

    /// Takes the rigs of a file that was chosen.
    pub fn take(&self, file: Chosen) {
        self.tell(Message::Take(file));
    }

    /// Opens the newer version of the page.
    pub fn renew(&self) {
        self.tell(Message::Renew);
    }

    /// Works on the listing after so many milliseconds.
    pub fn slice_later(&self, milliseconds: u32) -> Timeout {
        self.later(milliseconds, Message::Slice)
    }

    /// Works on what is wrong after so many milliseconds.
    pub fn find_later(&self, milliseconds: u32) -> Timeout {
        self.later(milliseconds, Message::Find)
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
    finding: Option<Finding>,
    /// Never read: dropped with the page, they stop listening.
    _listeners: Vec<EventListener>,
}

/// What the effects saw last.
#[derive(Debug, Default)]
struct Before {
    /// The draft of what is kept, and of what was there before it.
    texts: (String, Option<String>),
    /// What was there before it as the tab keeps it, once that is known.
    previous: Option<Option<String>>,
    /// The room, and whether something was chosen.
    place: (Room, bool),
    /// The room and the key of what is shown as chosen.
    followed: (Room, Option<String>),
    /// The request that was last answered, or is being.
    request: Option<Request>,
    /// Whether the page is drawn for the sun, once it is.
    sun: Option<bool>,
    /// The title of the window.
    title: String,
    /// Whether the link is shown, to be copied by hand.
    handing: bool,
    /// The step that is read aloud.
    spoken: Option<u16>,
    /// The run that is lit.
    lit: Option<usize>,
    /// How many fields of points were gone to.
    reached: u32,
    /// Whether somebody works.
    working: bool,
    /// Whether the rigs that are kept are looked at.
    there: bool,
    /// Which of them can be brought back.
    gone: Option<String>,
    /// Whether something was wanted of them, so that what was pressed may be gone.
    pressed: bool,
    /// Whether the browser was asked to keep them.
    asked_to_last: bool,
    /// When it is due to look at what another tab kept.
    due: Option<Timeout>,
}

/// What a saved drawing is called.
const DRAWING_SVG: &str = "wiring.svg";
const DRAWING_PNG: &str = "wiring.png";

impl Component for App {
    type Message = Message;
    type Properties = AppProps;

    fn create(ctx: &Context<Self>) -> Self {
        let state = opening::open(&ctx.props().found);
        let act = Do(ctx.link().clone());
        let pending = Rc::default();
        let listeners = listen(&act, &pending);
        offline::hear(&act);
        let before = Before {
            place: (state.room, state.key.is_some()),
            followed: effects::followed(&state),
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
            Message::Find => {
                if let Some(finding) = &mut self.finding {
                    finding.slice(&self.state, &Do(ctx.link().clone()));
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
            Message::Hand { on } => self.hand_link(on, &Do(ctx.link().clone())),
            Message::Print => {
                let state = &self.state;
                if state.room != Room::Sheet && state.room.is_wiring() {
                    self.state.apply(Action::Room(Room::Sheet));
                    return true;
                }
            }
            Message::KeptElsewhere => self.look_soon(&Do(ctx.link().clone())),
            Message::Wish(wish) => self.grant(wish, &Do(ctx.link().clone())),
            Message::Take(file) => self.take(file, &Do(ctx.link().clone())),
            Message::Flush => flush(&self.pending, &Do(ctx.link().clone())),
            Message::Renew => {
                flush(&self.pending, &Do(ctx.link().clone()));
                offline::take();
            }
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
        self.entitle();
        self.look(&act);
        Finding::follow(&mut self.finding, &self.state, &act);
    }
}

impl App {
    /// Copies the link, or gives it to another program; where the browser does neither, the
    /// link is shown.
    fn hand_link(&self, on: bool, act: &Do) {
        let (link, act) = (views::handing::link(&self.state), act.clone());
        let done = move |done, handed| {
            act.now(Action::Handed(if done { handed } else { Handed::Shown }));
            // Where it is shown already; else it is gone to once it is there.
            hand::select(views::handing::FIELD);
        };
        if on {
            let title = views::title::title(&self.state);
            hand::share(&title, &link, move |shared| done(shared, Handed::No));
        } else {
            hand::copy(&link, move |copied| done(copied, Handed::Copied));
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
}
