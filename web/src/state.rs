//! The state of the page and the one function that changes it.
//!
//! Nothing here touches the browser: what happens is an [`Action`], and [`State::after`]
//! says what the page is then. Storage, address and the running of a listing are
//! effects of the page upon the state, in `browser` and `app`.

pub mod action;
pub mod asking;
mod chosen;
pub mod closed;
pub mod compared;
mod doubt;
mod editing;
pub mod example;
pub mod file;
pub mod form;
pub mod gate;
pub mod link;
pub mod list;
pub mod meter;
mod names;
pub mod opening;
pub mod read;
pub mod rigs;
mod standing;
pub mod text;
pub mod wired;

pub use action::{Action, Asking, Handed, Notice, Removed};
use asking::Answered;
use closed::Shown;
use coilwright_solver::answer::{Configuration, Progress, View};
use coilwright_solver::meter::Point;
use coilwright_solver::nearest::Found;
use compared::Compared;
use form::{Form, Place};
use link::Saved;
use list::Look;
use meter::Metered;
use read::Read;
use rigs::{Mine, Previous, Rigs};
use std::rc::Rc;
use wired::{Wired, Work, Zoom};

/// What fills the page beside the fields.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Room {
    /// The ladder and the list.
    #[default]
    List,
    /// Configurations side by side.
    Compare,
    /// Help.
    Help,
    /// What may be in a closed box.
    Closed,
    /// The rigs that are kept by name.
    Rigs,
    /// The plan of the chosen configuration.
    Wire,
    /// The same, one step at a time.
    Work,
    /// The job sheet.
    Sheet,
}

/// Everything the page shows.
#[derive(Clone, Debug)]
pub struct State {
    /// What stands in the fields.
    pub form: Form,
    /// What came of reading it.
    pub read: Rc<Read>,
    /// The last good answer, with the request it belongs to.
    pub answered: Option<Rc<Answered>>,
    /// What stood in the fields when that answer came.
    pub asked: Form,
    /// How the answering of the present request stands.
    pub asking: Asking,
    /// What of the answer is looked at.
    pub look: Look,
    /// The list as it is looked at.
    pub view: Option<Rc<View>>,
    /// The key of the chosen configuration.
    pub key: Option<String>,
    /// The chosen configuration, where it is one of the answered rig.
    pub chosen: Option<Rc<Configuration>>,
    /// What would fit where nothing does, once that is known.
    pub nearest: Option<Rc<Vec<Found>>>,
    /// The plan of what is shown at large, once one was asked for.
    pub wired: Option<Rc<Wired>>,
    /// How far its work is.
    pub work: Work,
    /// What its readings say.
    pub metered: Metered,
    /// The point whose field was gone to last, and how many were.
    pub reached: (u32, Option<Point>),
    /// The explanation that is drawn as built.
    pub explained: Option<u8>,
    /// How large its drawing is.
    pub zoom: Zoom,
    /// Whether steps are read aloud.
    pub aloud: bool,
    /// Whether the steps were copied.
    pub copied: bool,
    /// What came of giving the link away.
    pub handed: Handed,
    /// What a meter showed at a closed box.
    pub shown_by_meter: Shown,
    /// What was put aside to compare.
    pub compared: Vec<Compared>,
    /// What fills the page.
    pub room: Room,
    /// Whether the page is drawn for the sun.
    pub sun: bool,
    /// What was removed last.
    pub removed: Option<Removed>,
    /// What stood in the page before it was replaced as a whole.
    pub previous: Option<Box<Previous>>,
    /// The rig that the fields belong to.
    pub mine: Mine,
    /// The rigs that are kept.
    pub rigs: Rigs,
    /// What the visitor should know.
    pub notices: Vec<Notice>,
    /// Whether the page is kept on this device.
    pub kept: bool,
    /// Whether a newer version of it is.
    pub newer: bool,
    /// Whether anything was done on this page yet: before, there is nothing to save.
    pub touched: bool,
    /// Counts whatever changes what is shown beside the fields.
    pub stamp: u32,
    /// Counts what drivers were called: it changes less of what is shown.
    pub named: u32,
    /// Whether the answer is taking longer than a moment.
    pub slow: bool,
    /// Counts the answers that came late: what they show is drawn from nothing, so that
    /// nothing moves under a finger long after the last key.
    pub renewed: u32,
}

impl State {
    /// A page with these fields.
    #[must_use]
    pub fn with(saved: Saved) -> Self {
        let mut state = Self {
            read: Rc::default(),
            answered: None,
            asked: Form::default(),
            asking: Asking::Idle,
            look: Look { order: saved.order, load: saved.load, ..Look::default() },
            view: None,
            key: saved.key,
            chosen: None,
            nearest: None,
            wired: None,
            work: saved.work,
            metered: Metered::default(),
            reached: (0, None),
            explained: None,
            zoom: Zoom::default(),
            aloud: false,
            copied: false,
            handed: Handed::No,
            shown_by_meter: saved.shown,
            compared: saved.compared,
            room: saved.room,
            sun: false,
            removed: None,
            previous: None,
            mine: Mine::default(),
            rigs: Rigs::default(),
            notices: Vec::new(),
            kept: false,
            newer: false,
            touched: false,
            stamp: 0,
            named: 0,
            slow: false,
            renewed: 0,
            form: saved.form,
        };
        state.keep_what_can_be_compared();
        state.ask();
        state
    }

    /// Tells that a part of the link was left out.
    fn left_out(&mut self, part: &str) {
        let part = link::LeftOut::Impossible(part.to_owned());
        for notice in &mut self.notices {
            if let Notice::LeftOut(parts) = notice {
                if !parts.contains(&part) {
                    parts.push(part);
                }
                return;
            }
        }
        self.notices.push(Notice::LeftOut(vec![part]));
    }

    /// What the page is after something happened.
    #[must_use]
    pub fn after(&self, action: Action) -> Self {
        let mut next = self.clone();
        next.apply(action);
        next
    }

    /// Lets something happen.
    pub fn apply(&mut self, action: Action) {
        // A plan is written anew whenever its box changes.
        let typed = matches!(action, Action::Set(..)) && !self.room.is_wiring()
            || matches!(action, Action::Shown(..) | Action::Name(_));
        if !typed && !matches!(action, Action::Progress(_) | Action::Kept { .. }) {
            self.stamp = self.stamp.wrapping_add(1);
        }
        match action {
            Action::Progress(progress) => {
                if matches!(self.asking, Asking::Working(_)) {
                    self.asking = Asking::Working(progress);
                    self.slow = true;
                }
            }
            Action::Answered(answered) => self.answer_with(answered),
            Action::Nearest(found) => self.nearest = Some(found),
            Action::Sun => self.sun = !self.sun,
            Action::NotKept(why) => {
                if !self.notices.contains(&why) {
                    self.notices.push(why);
                }
            }
            Action::Rigs(told) => self.told(told),
            Action::Kept { newer: false } => self.kept = true,
            Action::Kept { newer: true } => self.newer = true,
            Action::Later => self.newer = false,
            Action::Dismiss(i) => {
                if i < self.notices.len() {
                    self.notices.remove(i);
                }
            }
            Action::Handed(handed) => self.handed = handed,
            Action::Stop => self.asking = Asking::Stopped,
            Action::GoOn => self.asking = Asking::Working(Progress { done: 0, of: 0 }),
            action => {
                self.touched = true;
                // What was said of the rigs is of what stood there before.
                self.rigs.said = None;
                self.handed = Handed::No;
                self.act(action);
            }
        }
        self.rewire();
        self.leave_open();
    }

    /// What the visitor did.
    fn act(&mut self, action: Action) {
        match action {
            Action::Order(order) => {
                self.look.order = Some(order);
                self.look.start_over();
                self.arrange();
            }
            Action::Load(load) => {
                self.look.load = load;
                self.look.start_over();
                self.arrange();
            }
            Action::Group(group) => {
                self.look.start_over();
                self.look.group = group;
                self.arrange();
            }
            Action::Band(band) => match band {
                Some(band) => self.look.bands.push(band),
                None => {
                    self.look.bands.pop();
                }
            },
            Action::Page(page) => self.look.page = page,
            Action::Choose(key) => self.choose(key),
            Action::Return(key, room) => {
                self.room = room;
                self.choose(key);
            }
            Action::Leave if self.room == Room::List => self.choose(None),
            Action::Leave => self.room = Room::List,
            Action::Room(room) => self.room = room,
            Action::Wire(key) => {
                self.choose(Some(key));
                self.room = Room::Wire;
            }
            action @ (Action::Step(_)
            | Action::Run(_)
            | Action::NextRun(_)
            | Action::Done(..)
            | Action::DoneNext
            | Action::Read(..)
            | Action::Say(..)
            | Action::Forget
            | Action::GoTo(_)
            | Action::Against(_)
            | Action::GoAgainst
            | Action::Found(_)
            | Action::Explain(_)
            | Action::StartOver
            | Action::Zoom(_)
            | Action::Aloud(_)
            | Action::Copied(_)) => self.work(&action),
            Action::Shown(probes, text) => self.shown_by_meter.set(probes, text),
            Action::PlanWith(filling) => self.plan_with(&filling),
            Action::Compare(key) => self.compare(key),
            Action::LeaveOut(i) => {
                if i < self.compared.len() {
                    self.compared.remove(i);
                }
            }
            Action::Open(opened, mine) => self.open(*opened, mine),
            Action::Name(name) => self.mine.name = name,
            Action::StartEmpty => self.start_with(Form::default()),
            Action::ShowExample => self.start_with(example::marigold()),
            Action::Previous => self.back_to_previous(),
            Action::Change(change) => {
                self.keep_as_previous();
                self.form.change(&change);
                self.ask();
            }
            action => {
                let named = matches!(action, Action::Set(Place::Name(_), _));
                self.edit(action);
                if named {
                    self.rename();
                } else {
                    self.look.start_over();
                    self.ask();
                }
            }
        }
    }

    fn replace(&mut self, form: Form) {
        self.form = form;
        // An answer to an earlier state of these values is of use; one to another rig is not.
        self.answered = None;
        self.view = None;
        self.key = None;
        self.chosen = None;
        self.removed = None;
        self.look = Look::default();
        self.wired = None;
        self.work = Work::default();
        self.metered = Metered::default();
        self.room = Room::List;
        self.ask();
    }

    /// Reads the form; a new question ends an old one.
    fn ask(&mut self) {
        self.slow = false;
        self.read = Rc::new(read::read(&self.form));
        self.asking = if self.read.request.is_none() || self.is_current() {
            Asking::Idle
        } else {
            Asking::Working(Progress { done: 0, of: 0 })
        };
        self.spread_names();
    }

    fn answer_with(&mut self, answered: Rc<Answered>) {
        if self.read.request.as_ref() != Some(&answered.request) {
            return;
        }
        let first = self.answered.is_none();
        if core::mem::take(&mut self.slow) {
            self.renewed = self.renewed.wrapping_add(1);
        }
        self.answered = Some(answered);
        self.asked = self.form.clone();
        self.asking = Asking::Idle;
        self.nearest = None;
        self.look.bands.clear();
        let gone = !self.has_load(self.look.load) && self.look.load.take().is_some();
        if gone && first {
            self.left_out("load");
        }
        self.arrange();
        let key = self.key.take();
        // What was said of a key on opening still holds when the first answer comes.
        if !first || key.is_some() {
            self.choose(key);
        }
    }
}

#[cfg(test)]
mod tests;
