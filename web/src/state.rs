//! The state of the page and the one function that changes it.
//!
//! Nothing here touches the browser: what happens is an [`Action`], and [`State::after`]
//! says what the page is then. Storage, address and the running of a listing are
//! effects of the page upon the state, in `browser` and `app`.

pub mod action;
pub mod asking;
pub mod example;
pub mod form;
pub mod link;
pub mod list;
pub mod opening;
pub mod read;
pub mod text;

pub use action::{Action, Asking, Notice, Removed};
use asking::Answered;
use coilwright_solver::answer::{Answer, Configuration, Progress};
use coilwright_solver::bounds::Field;
use form::{BridgeForm, Form, GroupForm, most};
use link::Saved;
use list::Order;
use read::Read;
use std::rc::Rc;

/// Everything the page shows.
#[derive(Clone, Debug, PartialEq)]
pub struct State {
    /// What stands in the fields.
    pub form: Form,
    /// What came of reading it.
    pub read: Rc<Read>,
    /// The last good answer, with the request it belongs to.
    pub answered: Option<Rc<Answered>>,
    /// How the answering of the present request stands.
    pub asking: Asking,
    /// The order of the list, where the visitor chose one.
    pub order: Option<Order>,
    /// The page of the list, counted from 0.
    pub page: usize,
    /// The key of the chosen configuration.
    pub key: Option<String>,
    /// What was removed last.
    pub removed: Option<Removed>,
    /// What stood in the fields before they were replaced as a whole.
    pub previous: Option<Form>,
    /// What the visitor should know.
    pub notices: Vec<Notice>,
    /// Whether anything was done on this page yet: before, there is nothing to save.
    pub touched: bool,
}

impl State {
    /// A page with these fields.
    #[must_use]
    pub fn with(saved: Saved) -> Self {
        let mut state = Self {
            read: Rc::default(),
            answered: None,
            asking: Asking::Idle,
            order: saved.order,
            page: 0,
            key: saved.key,
            removed: None,
            previous: None,
            notices: Vec::new(),
            touched: false,
            form: saved.form,
        };
        state.ask();
        state
    }

    /// What a link or a draft holds of this page.
    #[must_use]
    pub fn saved(&self) -> Saved {
        Saved { form: self.form.clone(), order: self.order, key: self.key.clone() }
    }

    /// Whether the fields hold the example as it came.
    #[must_use]
    pub fn is_example(&self) -> bool {
        self.form == example::marigold()
    }

    /// Whether the answer belongs to what stands in the fields now.
    #[must_use]
    pub fn is_current(&self) -> bool {
        match (&self.answered, &self.read.request) {
            (Some(answered), Some(request)) => answered.request == *request,
            _ => false,
        }
    }

    /// The answer that is shown: the last good one.
    #[must_use]
    pub fn answer(&self) -> Option<&Answer> {
        self.answered.as_deref().map(Answered::shown)
    }

    /// The chosen configuration, where it is in the answer shown.
    #[must_use]
    pub fn chosen(&self) -> Option<&Configuration> {
        list::find(self.answer()?, self.key.as_deref()?)
    }

    /// What the page is after something happened.
    #[must_use]
    pub fn after(&self, action: Action) -> Self {
        let mut next = self.clone();
        next.apply(action);
        next
    }

    fn apply(&mut self, action: Action) {
        match action {
            Action::Progress(progress) => {
                if matches!(self.asking, Asking::Working(_)) {
                    self.asking = Asking::Working(progress);
                }
            }
            Action::Answered(answered) => self.answer_with(answered),
            Action::NotKept => {
                if !self.notices.contains(&Notice::NotKept) {
                    self.notices.push(Notice::NotKept);
                }
            }
            Action::Dismiss(i) => {
                if i < self.notices.len() {
                    self.notices.remove(i);
                }
            }
            Action::Stop => self.asking = Asking::Stopped,
            Action::GoOn => self.asking = Asking::Working(Progress { done: 0, of: 0 }),
            action => {
                self.touched = true;
                self.act(action);
            }
        }
    }

    /// What the visitor did.
    fn act(&mut self, action: Action) {
        match action {
            Action::Order(order) => {
                self.order = Some(order);
                self.page = 0;
            }
            Action::Page(page) => self.page = page,
            Action::Choose(key) => {
                self.key = key;
                self.notices.retain(|notice| *notice != Notice::KeyUnknown);
            }
            Action::Open(opened) => {
                self.keep_as_previous();
                self.notices.clear();
                if !opened.left_out.is_empty() {
                    self.notices.push(Notice::LeftOut(opened.left_out));
                }
                self.order = opened.saved.order;
                self.key = opened.saved.key;
                self.replace(opened.saved.form);
            }
            Action::StartEmpty => {
                self.keep_as_previous();
                self.replace_unchosen(Form::default());
            }
            Action::ShowExample => {
                self.keep_as_previous();
                self.replace_unchosen(example::marigold());
            }
            Action::Previous => {
                if let Some(previous) = self.previous.take() {
                    self.keep_as_previous();
                    self.replace_unchosen(previous);
                }
            }
            action => {
                self.edit(action);
                self.page = 0;
                self.ask();
            }
        }
    }

    /// What changes the form in part.
    fn edit(&mut self, action: Action) {
        match action {
            Action::Set(place, text) => self.form.set(place, text),
            Action::AddGroup => {
                if self.form.groups.len() < most(Field::Drivers) {
                    self.form.groups.push(GroupForm::default());
                }
            }
            Action::RemoveGroup(i) => {
                if self.form.groups.len() > 1 && i < self.form.groups.len() {
                    let group = self.form.groups.remove(i);
                    self.removed = Some(Removed::Group(i, group));
                }
            }
            Action::AddAmplifier => {
                self.form.amplifier.get_or_insert_default();
            }
            Action::RemoveAmplifier => {
                self.removed = self.form.amplifier.take().map(Removed::Amplifier);
            }
            Action::JoinedOnly(on) => self.form.joined_only = on,
            Action::EvenOnly(on) => self.form.even_only = on,
            Action::RemovePoint(at, i) => {
                if let Some(output) = self.form.output_mut(at)
                    && i < output.rated.len()
                {
                    let point = output.rated.remove(i);
                    self.removed = Some(Removed::Point(at, i, point));
                }
            }
            Action::PutBack => self.put_back(),
            action => self.edit_amplifier(action),
        }
    }

    fn edit_amplifier(&mut self, action: Action) {
        let Some(amplifier) = &mut self.form.amplifier else {
            return;
        };
        match action {
            Action::Alike(alike) => {
                amplifier.alike = alike;
                self.form.fill_channels();
            }
            Action::Tied(i, tied) => {
                if let Some(channel) = amplifier.channels.get_mut(i) {
                    channel.tied = tied;
                }
            }
            Action::AddBridge => {
                let bridges = amplifier.bridges.len();
                if bridges < most(Field::Bridges) {
                    // The first pair of neighbours that no bridge has yet.
                    let taken = |n: usize| {
                        let n = n.to_string();
                        amplifier.bridges.iter().any(|b| b.first == n || b.second == n)
                    };
                    let pairs = (0..).map(|pair| 2 * pair + 1);
                    let free = pairs.take(bridges + 1).find(|n| !taken(*n) && !taken(n + 1));
                    let first = free.unwrap_or(2 * bridges + 1);
                    amplifier.bridges.push(BridgeForm {
                        first: first.to_string(),
                        second: (first + 1).to_string(),
                        ..BridgeForm::default()
                    });
                }
            }
            Action::RemoveBridge(i) if i < amplifier.bridges.len() => {
                let bridge = amplifier.bridges.remove(i);
                self.removed = Some(Removed::Bridge(i, bridge));
            }
            _ => {}
        }
    }

    fn put_back(&mut self) {
        match self.removed.take() {
            Some(Removed::Group(i, group)) => {
                let groups = &mut self.form.groups;
                groups.insert(i.min(groups.len()), group);
            }
            Some(Removed::Amplifier(amplifier)) => self.form.amplifier = Some(amplifier),
            Some(Removed::Bridge(i, bridge)) => {
                if let Some(amplifier) = &mut self.form.amplifier {
                    let bridges = &mut amplifier.bridges;
                    bridges.insert(i.min(bridges.len()), bridge);
                }
            }
            Some(Removed::Point(at, i, point)) => {
                if let Some(output) = self.form.output_mut(at) {
                    output.rated.insert(i.min(output.rated.len()), point);
                }
            }
            None => {}
        }
    }

    /// Keeps what stands in the fields one tap away, unless nobody typed it.
    fn keep_as_previous(&mut self) {
        if !self.is_example() && self.form != Form::default() {
            self.previous = Some(self.form.clone());
        }
    }

    fn replace_unchosen(&mut self, form: Form) {
        self.key = None;
        self.order = None;
        self.notices.clear();
        self.replace(form);
    }

    fn replace(&mut self, form: Form) {
        self.form = form;
        // An answer to an earlier state of these values is of use; one to another rig is not.
        self.answered = None;
        self.removed = None;
        self.page = 0;
        self.ask();
    }

    /// Reads the form; a new question ends an old one.
    fn ask(&mut self) {
        self.read = Rc::new(read::read(&self.form));
        self.asking = if self.read.request.is_none() || self.is_current() {
            Asking::Idle
        } else {
            Asking::Working(Progress { done: 0, of: 0 })
        };
    }

    fn answer_with(&mut self, answered: Rc<Answered>) {
        if self.read.request.as_ref() != Some(&answered.request) {
            return;
        }
        self.answered = Some(answered);
        self.asking = Asking::Idle;
        self.notices.retain(|notice| *notice != Notice::KeyUnknown);
        if self.key.is_some() && self.chosen().is_none() {
            self.key = None;
            self.notices.push(Notice::KeyUnknown);
        }
    }
}

#[cfg(test)]
mod tests;
