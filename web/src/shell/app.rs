//! The page as a whole: its state, its effects upon the browser, its rooms.
//!
//! One component with one kind of message: what a visitor downloads for it is a fraction
//! of what hooks of as many kinds take.

mod effects;
mod granting;
mod keeping;

use super::drafts::{self, AtWork};
use super::finding::Finding;
use super::listing::Listing;
use super::page;
use crate::act::{Do, Errand, Message};
use crate::host::Host;
use crate::later::{self, Later, comes_later};
use crate::parts::{handing, plan};
use crate::pen::Memory;
use crate::rooms::rigs::state::Wish;
use crate::rooms::{Room, wire};
use crate::state::opening;
use crate::state::page::Action;
use crate::state::undo::Left;
use crate::state::{Handed, State};
use coilwright_solver::answer::Request;
use gloo_timers::callback::Timeout;
use keeping::{Pending, flush, hears};
use std::any::Any;
use std::cell::RefCell;
use std::rc::Rc;
use yew::prelude::*;

/// What the page opens with.
#[derive(Clone, Properties)]
pub struct AppProps {
    /// What is around the page.
    pub host: Rc<dyn Host>,
}

impl std::fmt::Debug for AppProps {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str("AppProps")
    }
}

impl PartialEq for AppProps {
    fn eq(&self, other: &Self) -> bool {
        Rc::ptr_eq(&self.host, &other.host)
    }
}

/// The whole page.
pub struct App {
    state: State,
    host: Rc<dyn Host>,
    memory: RefCell<Memory>,
    pending: Rc<RefCell<Pending>>,
    at_work: AtWork,
    before: Before,
    listing: Option<Listing>,
    finding: Option<Finding>,
    /// Never read: dropped with the page, it stops listening.
    _listening: Box<dyn Any>,
}

impl std::fmt::Debug for App {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        self.state.fmt(f)
    }
}

/// What the effects saw last.
#[derive(Debug, Default)]
struct Before {
    /// The draft of what is kept.
    draft: String,
    /// How often what can be undone had changed when that was kept.
    undone: u32,
    /// The room, and whether something was chosen.
    place: (Room, bool),
    /// The room and the key of what is shown as chosen.
    followed: (Room, Option<String>),
    /// How many milliseconds the last answer took until it was drawn.
    took: f64,
    /// The request that was last answered, or is being.
    request: Option<Request>,
    /// Whether the page is drawn for the sun, once it is.
    sun: Option<bool>,
    /// The title of the window.
    title: String,
    /// Whether the link is shown, to be copied by hand.
    handing: bool,
    /// The step that is worked at, and whether the work is over.
    at: Option<(usize, bool)>,
    /// The step that is read aloud.
    spoken: Option<usize>,
    /// The run that is lit.
    lit: Option<usize>,
    /// How many fields of points were gone to.
    reached: u32,
    /// Whether somebody works.
    working: bool,
    /// Whether the rigs that are kept are looked at.
    there: bool,
    /// Whether something was wanted of them, so that what was pressed may be gone.
    pressed: bool,
    /// Whether the browser was asked to keep them.
    asked_to_last: bool,
    /// When it is due to look at what another tab kept.
    due: Option<Timeout>,
    /// How long what comes later was to wait, and when it is brought.
    bringing: Option<(u32, Timeout)>,
    /// Whether the keyboard went to what is on its way, and whether that came, or did not.
    waited: bool,
    came: bool,
}

/// How long what comes later is left alone once the list stands, in milliseconds: pictures and
/// letters come first.
const SOON: u32 = 200;
/// And where the list takes long.
const AT_THE_LATEST: u32 = 1500;

/// What a saved drawing is called.
const DRAWING_SVG: &str = "wiring.svg";
const DRAWING_PNG: &str = "wiring.png";

impl Component for App {
    type Message = Message;
    type Properties = AppProps;

    fn create(ctx: &Context<Self>) -> Self {
        let host = Rc::clone(&ctx.props().host);
        let state = opening::open(&drafts::found(&*host));
        let (pending, at_work) = (Rc::default(), AtWork::default());
        let listening = host.listen(hears(&act(ctx), &pending, &at_work));
        let before = Before {
            place: (state.page.room, state.answer.key.is_some()),
            followed: effects::followed(&state),
            ..Before::default()
        };
        Self {
            state,
            host,
            memory: RefCell::default(),
            pending,
            at_work,
            before,
            listing: None,
            finding: None,
            _listening: listening,
        }
    }

    fn update(&mut self, ctx: &Context<Self>, message: Message) -> bool {
        match message {
            Message::Act(action) => {
                self.state.apply(action);
                return true;
            }
            Message::Slice => {
                if let Some(listing) = &mut self.listing {
                    listing.slice(&act(ctx));
                }
            }
            Message::Hand { on } => self.hand_link(on, &act(ctx)),
            Message::Print => {
                let state = &self.state;
                if state.page.room != Room::Sheet && state.page.room.is_on_plan() {
                    self.state.apply(Action::Room(Room::Sheet));
                    return true;
                }
            }
            Message::KeptElsewhere => self.look_soon(&act(ctx)),
            Message::Errand(errand) => {
                if let Some(there) = later::there() {
                    run(there, self, &mut Some(errand), &act(ctx));
                }
            }
            Message::Bring => self.bring(&act(ctx)),
            Message::Undo(on) => match self.state.undo.next(on) {
                Some(Left::Rig(..)) => act(ctx).run(Errand::Wish(Wish::Exchange(on))),
                Some(Left::Page(..)) => {
                    self.state.apply(Action::Undo(on));
                    return true;
                }
                None => {}
            },
            Message::Came(there) => {
                if there {
                    later::has_arrived();
                }
                self.state.apply(Action::Later(if there { Later::There } else { Later::Missing }));
                self.before.came = self.before.waited;
                if let Some(listing) = &mut self.listing {
                    listing.go_on(&act(ctx));
                }
                return true;
            }
            Message::Flush => flush(&self.pending, &act(ctx)),
            Message::Renew => {
                flush(&self.pending, &act(ctx));
                self.host.take_newer();
            }
        }
        false
    }

    fn view(&self, ctx: &Context<Self>) -> Html {
        page::page(&self.state, &act(ctx), &self.memory)
    }

    fn rendered(&mut self, ctx: &Context<Self>, _first: bool) {
        let act = act(ctx);
        self.keep(&act);
        if let Some(took) = self.listing.as_mut().and_then(|listing| listing.took(&act)) {
            self.before.took = took;
        }
        self.list(&act);
        self.follow();
        self.choose();
        self.entitle();
        match later::there() {
            Some(there) => {
                // Another page of the document may have brought it.
                if self.state.page.later != Later::There {
                    act.now(Action::Later(Later::There));
                }
                attend(there, self, &act);
            }
            None => self.await_later(&act),
        }
    }
}

comes_later! {
    "00000000000000000000000000000006"
    /// Runs an errand.
    fn run(app: &mut App, errand: &mut Option<Errand>, act: &Do) {
        if let Some(errand) = errand.take() {
            app.run(errand, act);
        }
    }
}

comes_later! {
    "00000000000000000000000000000007"
    /// What the rooms do to the browser around the page, after they were drawn.
    fn attend(app: &mut App, act: &Do) {
        app.work_goes_on();
        app.look(act);
        Finding::follow(&mut app.finding, &app.state, act);
    }
}

/// The way to tell the page.
fn act(ctx: &Context<App>) -> Do {
    let page = ctx.link().clone();
    Do::of(Rc::clone(&ctx.props().host), move |message| page.send_message(message))
}

impl App {
    /// Copies the link, or gives it to another program; where the browser does neither, the
    /// link is shown.
    fn hand_link(&self, on: bool, act: &Do) {
        let (link, act) = (handing::link(&*self.host, &self.state), act.clone());
        let host = Rc::clone(&self.host);
        let done = move |done, handed| {
            act.now(Action::Handed(if done { handed } else { Handed::Shown }));
            // Where it is shown already; else it is gone to once it is there.
            host.select(handing::FIELD);
        };
        if on {
            let title = page::title(&self.state);
            self.host.share(&title, &link, Box::new(move |shared| done(shared, Handed::No)));
        } else {
            self.host.copy(&link, Box::new(move |copied| done(copied, Handed::Copied)));
        }
    }

    fn run(&mut self, errand: Errand, act: &Do) {
        match errand {
            Errand::Find => {
                if let Some(finding) = &mut self.finding {
                    finding.slice(&self.state, act);
                }
            }
            Errand::Save(points) => self.save_drawing(points),
            Errand::Copy => {
                let told = self.state.job.wired.as_deref().and_then(plan::wording_of);
                if let Some(told) = told {
                    let act = act.clone();
                    let done = move |copied| act.now(wire::Action::Copied(copied));
                    self.host.copy(&told.text(), Box::new(done));
                }
            }
            Errand::Wish(wish) => self.grant(wish, act),
            Errand::Take(file) => self.take(file, act),
        }
    }

    /// Brings what comes later: at once where a room of it is wanted, else when the list stands
    /// and nothing else is to do.
    fn await_later(&mut self, act: &Do) {
        if self.state.page.later != Later::Waiting {
            return;
        }
        if self.state.page.room != Room::List {
            return self.bring(act);
        }
        let wait = if self.state.is_busy() { AT_THE_LATEST } else { SOON };
        if self.before.bringing.as_ref().is_none_or(|(longer, _)| wait < *longer) {
            self.before.bringing = Some((wait, act.later(wait, Message::Bring)));
        }
    }

    fn bring(&mut self, act: &Do) {
        self.before.bringing = None;
        if !matches!(self.state.page.later, Later::Waiting | Later::Missing) {
            return;
        }
        act.now(Action::Later(Later::Coming));
        let tell = act.clone();
        self.host.bring(Box::new(move |there| tell.tell(Message::Came(there))));
    }

    fn save_drawing(&self, points: bool) {
        let file = self.state.job.wired.as_deref().and_then(plan::file);
        let Some((svg, size)) = file else { return };
        if points {
            self.host.save_as_points(DRAWING_PNG, &svg, size);
        } else {
            self.host.save_as_drawn(DRAWING_SVG, &svg);
        }
    }
}
