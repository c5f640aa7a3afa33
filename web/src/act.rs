//! What the page is told, and the way to tell it: what is pressed, timers that ring, and what
//! the browser says all come in here.

use crate::host::{Chosen, Host};
use crate::rooms::rigs::state::Wish;
use crate::state::Action;
use gloo_timers::callback::Timeout;
use std::rc::Rc;

/// What the page is told.
#[derive(Debug)]
pub enum Message {
    /// Something happened.
    Act(Action),
    /// The next slice of the listing is due.
    Slice,
    /// The address has lagged long enough.
    Flush,
    /// The link is to be copied, or given to another program.
    Hand {
        /// Whether it is given to another program.
        on: bool,
    },
    /// What was left behind last is wanted, or what undoing left.
    Undo(bool),
    /// Something is wanted that what comes later does.
    Errand(Errand),
    /// Another tab kept or deleted a rig.
    KeptElsewhere,
    /// The page is about to be printed: the job sheet, where there is a plan.
    Print,
    /// The newer version of the page is to take the place of this one.
    Renew,
    /// What comes later is wanted.
    Bring,
    /// It came, or did not.
    Came(bool),
}

/// What only what comes later can do.
#[derive(Debug)]
pub enum Errand {
    /// The next slice of looking for a fault is due.
    Find,
    /// The drawing is to be saved, as a picture of points or as it is.
    Save(bool),
    /// The steps are to be copied.
    Copy,
    /// Something is wanted of the rigs that are kept.
    Wish(Wish),
    /// The rigs of a file are to be kept.
    Take(Chosen),
}

impl From<Errand> for Message {
    fn from(errand: Errand) -> Self {
        Self::Errand(errand)
    }
}

/// Tells the page, and knows what is around it.
#[derive(Clone)]
pub struct Do {
    hears: Rc<dyn Fn(Message)>,
    host: Rc<dyn Host>,
}

impl std::fmt::Debug for Do {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str("Do")
    }
}

impl Do {
    /// Tells whoever hears it.
    #[must_use]
    pub fn of(host: Rc<dyn Host>, hears: impl Fn(Message) + 'static) -> Self {
        Self { hears: Rc::new(hears), host }
    }

    /// What is around the page.
    #[must_use]
    pub fn host(&self) -> &dyn Host {
        &*self.host
    }

    /// Does it now.
    pub fn now(&self, action: impl Into<Action>) {
        self.tell(Message::Act(action.into()));
    }

    /// Tells it.
    #[inline(never)]
    pub fn tell(&self, message: Message) {
        (self.hears)(message);
    }

    /// Sends on an errand.
    pub fn run(&self, errand: Errand) {
        self.tell(errand.into());
    }

    /// Tells it after so many milliseconds.
    #[inline(never)]
    pub fn later(&self, milliseconds: u32, message: Message) -> Timeout {
        let act = self.clone();
        Timeout::new(milliseconds, move || act.tell(message))
    }
}
