//! Rigs that are kept by name, and which of them the fields belong to.
//!
//! Where they are kept is the browser's affair: what is wanted is a [`Wish`], and what
//! came of it is [`Told`] to the page.

use super::record::{Mine, Record};
use crate::question::form::most;
use crate::rooms::{Given, Remembers, Wish as Outcome};
use coilwright_solver::bounds::Field;
use coilwright_solver::problem::Problem;
use std::rc::Rc;

/// The most rigs that are kept: as many as go into one file.
pub const MOST: usize = most(Field::Rigs);

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
    /// The one that the fields belong to.
    pub mine: Mine,
    /// Counts whatever changes the list of them: a name that is typed does not.
    pub changes: u32,
    /// How the storage stands.
    pub storage: Storage,
    /// Those that are kept, the last one first.
    pub entries: Rc<Vec<Rc<Entry>>>,
    /// Whether it is known which there are.
    pub listed: bool,
    /// What came of the last wish.
    pub said: Option<Said>,
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
    /// This one was deleted.
    Deleted(Rc<Entry>),
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
    /// To have back what was erased last, or what undoing that left.
    Exchange(bool),
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
    /// Whether the browser promised to keep them.
    Lasting(bool),
}

/// What can be done in the room.
#[derive(Clone, Debug)]
pub enum Action {
    /// The name of the rig is typed.
    Name(String),
    /// What came of a wish.
    Told(Told),
}

impl Rigs {
    /// Whether fields and name are as they were kept, by the link that they would be kept as;
    /// `None` where they are no rig that is kept.
    #[must_use]
    pub fn is_as_kept(&self, link: &str) -> Option<bool> {
        let (id, _) = self.mine.of.as_ref()?;
        let entry = self.entries.iter().find(|entry| entry.id == *id)?;
        let record = entry.record.as_ref()?;
        Some(record.name == self.mine.named() && record.link == link)
    }

    /// The fields are of another rig, or of none that is kept.
    pub fn is_of(&mut self, mine: Mine) {
        self.changes = self.changes.wrapping_add(1);
        self.mine = mine;
    }

    /// Takes in what came of a wish.
    fn told(&mut self, told: Told) -> Outcome {
        self.changes = self.changes.wrapping_add(1);
        match told {
            Told::Listed(storage, entries) => {
                self.listed = true;
                self.storage = storage;
                self.entries = entries;
            }
            Told::Mine(mine) => {
                self.mine = mine;
                // Which rig the fields belong to is a part of the draft.
                return Outcome::Touch;
            }
            Told::Said(said) => self.said = Some(said),
            Told::Lasting(lasting) => self.lasting = Some(lasting),
        }
        Outcome::Nothing
    }
}

impl Remembers for Rigs {
    type Action = Action;
    type Kept = ();

    fn act(&mut self, action: Action, _given: Given<'_>) -> Outcome {
        match action {
            Action::Name(name) => {
                self.mine.name = name;
                Outcome::Nothing
            }
            Action::Told(told) => self.told(told),
        }
    }

    fn is_done(action: &Action) -> bool {
        matches!(action, Action::Name(_))
    }
}
