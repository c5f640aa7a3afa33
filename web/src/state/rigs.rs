//! Rigs that are kept by name, and which of them the fields belong to.
//!
//! Where they are kept is the browser's affair: what is wanted is a [`Wish`], and what
//! came of it is [`Told`] to the page.

mod record;

use super::action::Notice;
use super::form::{longest, most};
use super::link::{self, Opened, Saved};
use super::{Form, Room, State, example};
use coilwright_solver::bounds::Field;
use coilwright_solver::problem::Problem;
pub use record::{Mine, Record, draft, open_draft};
use std::rc::Rc;

/// The most rigs that are kept: as many as go into one file.
pub const MOST: usize = most(Field::Rigs);
/// The longest name, in characters: that of the contract.
pub const LONGEST: usize = longest(Field::RigName);

/// A rig that is kept.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Entry {
    /// What it is found by.
    pub id: String,
    /// What is kept, as text.
    pub text: String,
    /// When it was kept, as people of the place write it.
    pub when: String,
    /// The same read; `None` where it is damaged.
    pub record: Option<Record>,
    /// What it is a rig of, in a line.
    pub about: String,
    /// Why power went on against the meter, where it did.
    pub against: Option<String>,
}

/// How the storage of the browser stands.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Storage {
    /// It can be used.
    #[default]
    Ready,
    /// The browser keeps it from the page.
    Refused,
    /// A later version of the page arranged it in a way that this one does not know.
    Newer,
}

/// What is known of the rigs that are kept.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Rigs {
    /// How the storage stands.
    pub storage: Storage,
    /// Those that are kept, the last one first.
    pub entries: Rc<Vec<Rc<Entry>>>,
    /// Whether it is known which there are.
    pub listed: bool,
    /// What came of the last wish.
    pub said: Option<Said>,
    /// What was deleted last.
    pub gone: Option<Rc<Entry>>,
    /// Whether the browser has promised to keep them when it runs short of space.
    pub lasting: Option<bool>,
}

/// What came of a wish.
#[derive(Clone, Debug, PartialEq)]
pub enum Said {
    /// It is kept under this name.
    Kept(String),
    /// Another tab kept its own meanwhile, so this one is kept beside it, under this name.
    Beside(String),
    /// There is a copy of this name.
    Doubled(String),
    /// So many were taken from a file.
    Taken(usize),
    /// There is no space left.
    Full,
    /// The browser keeps the storage from the page.
    Refused,
    /// As many are kept as can be.
    TooMany,
    /// The storage is a later version's.
    Newer,
    /// It is not there any more.
    Missing,
    /// The file is larger than one of rigs can be.
    FileTooLarge,
    /// The file could not be read.
    FileUnread,
    /// The file is not JSON from a line and a place in it on, where that is known.
    NotJson(Option<(u32, u32)>),
    /// The file is none of rigs, and why.
    FileWrong(Rc<Vec<Problem>>),
}

/// What somebody wants of the storage.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Wish {
    /// To see what there is.
    Look,
    /// To keep what stands in the fields, in place of what was opened or kept last.
    Keep,
    /// To keep it beside that.
    KeepBeside,
    /// To open one.
    Open(String),
    /// To have one twice.
    Double(String),
    /// To delete one.
    Delete(String),
    /// To have back what was deleted last.
    PutBack,
    /// To have one as a file, or all.
    Save(Option<String>),
    /// To have what stands in the fields as a file, kept or not.
    SaveThis,
}

/// What came of it.
#[derive(Clone, Debug, PartialEq)]
pub enum Told {
    /// The rigs as they are kept now.
    Listed(Storage, Rc<Vec<Rc<Entry>>>),
    /// The fields are kept as this rig, or were opened from it.
    Mine(Mine),
    /// In words.
    Said(Said),
    /// This one was deleted, or is no longer to be brought back.
    Gone(Option<Rc<Entry>>),
    /// Whether the browser promised to keep them.
    Lasting(bool),
}

/// What stood in the page before it was replaced as a whole.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Previous {
    /// Everything a link holds.
    pub saved: Saved,
    /// Which rig it was.
    pub mine: Mine,
}

impl State {
    /// What a rig is kept as.
    #[must_use]
    pub fn link_to_keep(&self) -> String {
        link::write(&Saved { room: Room::List, ..self.saved() })
    }

    /// Whether fields and name are as they were kept; `None` where they are no rig that is
    /// kept.
    #[must_use]
    pub fn is_as_kept(&self) -> Option<bool> {
        let (id, _) = self.mine.of.as_ref()?;
        let entry = self.rigs.entries.iter().find(|entry| entry.id == *id)?;
        let record = entry.record.as_ref()?;
        Some(record.name == self.mine.named() && record.link == self.link_to_keep())
    }

    /// Takes in what came of a wish.
    pub(super) fn told(&mut self, told: Told) {
        match told {
            Told::Listed(storage, entries) => {
                self.rigs.listed = true;
                self.rigs.storage = storage;
                self.rigs.entries = entries;
            }
            Told::Mine(mine) => {
                // Which rig the fields belong to is a part of the draft.
                self.touched = true;
                self.mine = mine;
            }
            Told::Said(said) => self.rigs.said = Some(said),
            Told::Gone(gone) => {
                self.rigs.said = None;
                self.rigs.gone = gone;
            }
            Told::Lasting(lasting) => self.rigs.lasting = Some(lasting),
        }
    }

    /// Opens what a link holds over what stands in the fields.
    pub(super) fn open(&mut self, opened: Opened, mine: Mine) {
        self.keep_as_previous();
        self.notices.clear();
        if !opened.left_out.is_empty() {
            self.notices.push(Notice::LeftOut(opened.left_out));
        }
        self.take(opened.saved, mine);
    }

    fn take(&mut self, saved: Saved, mine: Mine) {
        self.replace(saved.form);
        self.look.order = saved.order;
        self.look.load = saved.load;
        self.key = saved.key;
        self.compared = saved.compared;
        self.room = saved.room;
        self.work = saved.work;
        self.shown_by_meter = saved.shown;
        self.mine = mine;
        self.keep_what_can_be_compared();
    }

    /// Brings back what stood in the page before it was replaced as a whole; what stands
    /// there now can be brought back in turn.
    pub(super) fn back_to_previous(&mut self) {
        if let Some(previous) = self.previous.take() {
            self.keep_as_previous();
            self.notices.clear();
            let Previous { saved, mine } = *previous;
            self.take(saved, mine);
        }
    }

    /// Keeps what stands in the page one tap away, unless nobody typed it. Whoever wants
    /// it back wants to see it, not the room in which another one was opened.
    pub(super) fn keep_as_previous(&mut self) {
        let mut previous = Previous { saved: self.saved(), mine: self.mine.clone() };
        if self.room == Room::Rigs {
            previous.saved.room = Room::List;
        }
        if previous.saved.is_worth_keeping() {
            self.previous = Some(Box::new(previous));
        }
    }

    /// Begins anew with these fields.
    pub(super) fn start_with(&mut self, form: Form) {
        self.keep_as_previous();
        self.notices.clear();
        self.mine = Mine::default();
        self.replace(form);
    }
}

impl Saved {
    /// Whether both hold the same as far as somebody entered it.
    #[must_use]
    pub fn is_same(&self, other: &Self) -> bool {
        self.form == other.form && self.work == other.work && self.shown == other.shown
    }

    /// Whether somebody entered something.
    #[must_use]
    pub fn is_worth_keeping(&self) -> bool {
        let typed = self.form != example::marigold() && self.form != Form::default();
        typed || self.work != Default::default() || self.shown != Default::default()
    }
}

#[cfg(test)]
mod tests;
