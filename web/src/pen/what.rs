//! What happens when something is pressed, typed into or chosen.

use crate::act::{Do, Errand, Message};
use crate::file::{FILE_FIELD, LARGEST as LARGEST_FILE};
use crate::job;
use crate::question::Edit;
use crate::question::place::Place;
use crate::rooms::closed::state::Probes;
use crate::rooms::rigs::state::Wish;
use crate::rooms::sheet::state::Line;
use crate::rooms::{already, closed, list, rigs, sheet};
use crate::state::{Action, page};
use coilwright_solver::meter::Point;
use coilwright_solver::ohms::Ohms;
use wasm_bindgen::JsCast;
use web_sys::{Element, Event, HtmlInputElement, HtmlSelectElement, MouseEvent};
use yew::virtual_dom::{Listener, ListenerKind};

/// What happens when something is pressed, typed into or chosen.
#[derive(Clone, Debug)]
pub enum What {
    /// An action.
    Do(Action),
    /// What was typed or chosen is written to a place.
    Write(Place),
    /// A usual value is written to a place; the list of them then stands for all again.
    Usual(Place),
    /// The load of a rung is looked at: the rung's number is the value of what was chosen.
    Rung(Vec<Ohms>),
    /// An order is chosen by its name.
    Order,
    /// What a rig that is wired already is believed to be is chosen by its key.
    Believe,
    /// The keyboard goes to an element.
    GoTo(String),
    /// What the meter showed at a point is written down.
    Read(Point),
    /// Why somebody goes on against the meter is written down.
    Against,
    /// Somebody goes on against it: where a form would be sent.
    GoAgainst,
    /// What the cup of a rig that is wired already reads is written down.
    Cup,
    /// What the meter showed at a closed box is written down.
    Shown(Probes),
    /// A line at the head of the job sheet is written down.
    Head(Line),
    /// The run that was touched is lit.
    Run,
    /// The steps are copied as text.
    Copy,
    /// The link is copied, or given to another program.
    Hand {
        /// Whether it is given to another program.
        on: bool,
    },
    /// The drawing is saved: as a picture of points, or as it is.
    SaveDrawing(bool),
    /// The page is printed.
    Print,
    /// The name of the rig is written down.
    Name,
    /// The rig is kept: where a form would be sent.
    Keep,
    /// Something is wanted of the rigs that are kept.
    Wish(Wish),
    /// The rigs of the file that was chosen are taken.
    TakeFile,
    /// The newer version of the page takes the place of this one.
    Renew,
    /// What comes later is wanted, once more.
    Bring,
    /// Back to the list.
    Back,
    /// To the list, whatever of it is chosen: beside it, where there is room, that stays.
    All,
    /// What was left behind last is wanted, or what undoing left.
    Undo(bool),
    /// Nothing: the page sends no form.
    Stay,
}

impl What {
    /// An action.
    pub fn act(action: impl Into<Action>) -> Self {
        Self::Do(action.into())
    }
}

/// When it happens.
#[derive(Clone, Copy, Debug)]
pub enum When {
    /// On a click, or what stands for one.
    Pressed,
    /// On a double click, or a double tap.
    Twice,
    /// The same on a link, unless the browser is asked to open it elsewhere.
    Followed,
    /// On each letter.
    Typed,
    /// On a choice.
    Chosen,
    /// When a form would be sent.
    Sent,
}

/// What is typed or chosen in the element that an event is about.
fn value(event: &Event) -> Option<String> {
    let target = event.target()?;
    if let Some(input) = target.dyn_ref::<HtmlInputElement>() {
        return Some(input.value());
    }
    target.dyn_ref::<HtmlSelectElement>().map(HtmlSelectElement::value)
}

/// The run that an event in a drawing is about.
fn run(event: &Event) -> Option<usize> {
    let target = event.target()?.dyn_into::<Element>().ok()?;
    target.closest("[data-run]").ok()??.get_attribute("data-run")?.parse().ok()
}

/// Whether a click asks for another tab or window, or to save what it leads to.
fn leads_elsewhere(event: &Event) -> bool {
    let click = event.dyn_ref::<MouseEvent>();
    click.is_some_and(|click| {
        click.ctrl_key() || click.meta_key() || click.shift_key() || click.alt_key()
    })
}

/// Hears it.
pub(super) struct On {
    pub(super) when: When,
    pub(super) act: Do,
    pub(super) what: What,
}

impl Listener for On {
    fn kind(&self) -> ListenerKind {
        match self.when {
            When::Pressed | When::Followed => ListenerKind::onclick,
            When::Twice => ListenerKind::ondblclick,
            When::Typed => ListenerKind::oninput,
            When::Chosen => ListenerKind::onchange,
            When::Sent => ListenerKind::onsubmit,
        }
    }

    fn passive(&self) -> bool {
        false
    }

    fn handle(&self, event: Event) {
        let act = &self.act;
        if matches!(self.when, When::Followed) {
            if leads_elsewhere(&event) {
                return;
            }
            event.prevent_default();
        }
        match &self.what {
            What::Do(action) => act.now(action.clone()),
            What::Write(place) => {
                if let Some(text) = value(&event) {
                    act.now(Edit::Set(*place, text));
                }
            }
            What::Usual(place) => {
                if let Some(text) = value(&event).filter(|text| !text.is_empty()) {
                    act.now(Edit::Set(*place, text));
                }
                let target = event.target();
                if let Some(select) = target.as_ref().and_then(JsCast::dyn_ref::<HtmlSelectElement>)
                {
                    select.set_value("");
                }
            }
            What::Rung(loads) => {
                let number = value(&event).and_then(|text| text.parse::<usize>().ok());
                act.now(list::Action::Load(number.and_then(|number| loads.get(number)).copied()));
            }
            What::Order => {
                let name = value(&event).unwrap_or_default();
                if let Some(order) = list::state::order_named(&name) {
                    act.now(list::Action::Order(order));
                }
            }
            What::Believe => {
                let key = value(&event).filter(|key| !key.is_empty());
                act.now(page::Action::Believe(key));
            }
            What::Read(point) => {
                if let Some(text) = value(&event) {
                    act.now(job::Action::Read(*point, text));
                }
            }
            What::Against => {
                if let Some(text) = value(&event) {
                    act.now(job::Action::Against(text));
                }
            }
            What::GoAgainst => {
                event.prevent_default();
                act.now(job::Action::GoAgainst);
            }
            What::Cup => {
                if let Some(text) = value(&event) {
                    act.now(already::Action::Reads(text));
                }
            }
            What::Shown(probes) => {
                if let Some(text) = value(&event) {
                    act.now(closed::Action::Shown(*probes, text));
                }
            }
            What::Head(line) => {
                if let Some(text) = value(&event) {
                    act.now(sheet::Action::Write(*line, text));
                }
            }
            What::Run => {
                if let Some(run) = run(&event) {
                    act.now(job::Action::Run(run));
                }
            }
            What::Name => {
                if let Some(text) = value(&event) {
                    act.now(rigs::Action::Name(text));
                }
            }
            What::Keep => {
                event.prevent_default();
                act.run(Errand::Wish(Wish::Keep));
            }
            What::Wish(wish) => act.run(Errand::Wish(wish.clone())),
            What::TakeFile => {
                let tell = act.clone();
                let done = move |chosen| tell.run(Errand::Take(chosen));
                act.host().read_file(FILE_FIELD, LARGEST_FILE, Box::new(done));
            }
            What::Copy => act.run(Errand::Copy),
            What::Hand { on } => act.tell(Message::Hand { on: *on }),
            What::SaveDrawing(points) => act.run(Errand::Save(*points)),
            What::Print => act.host().print(),
            What::Renew => act.tell(Message::Renew),
            What::Bring => act.tell(Message::Bring),
            What::GoTo(id) => act.host().go_to(id),
            What::All if act.host().is_wide() => act.now(page::Action::Leave),
            What::All => act.now(page::Action::All),
            What::Undo(on) => act.tell(Message::Undo(*on)),
            What::Back if act.host().is_choice() => act.host().back(),
            What::Back => act.now(page::Action::Leave),
            What::Stay => event.prevent_default(),
        }
    }
}
