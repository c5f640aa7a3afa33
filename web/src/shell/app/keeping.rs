//! What is typed is kept: in the tab at once, in the address and for other tabs soon.

use super::App;
use crate::act::{Do, Message};
use crate::host::Heard;
use crate::host::shelf::NotKept;
use crate::link::{self, Saved};
use crate::rooms::Room;
use crate::rooms::rigs::Mine;
use crate::rooms::rigs::kept as rigs;
use crate::shell::drafts::{self, AtWork};
use crate::state::Notice;
use crate::state::draft::draft;
use crate::state::page::Action;
use gloo_timers::callback::Timeout;
use std::cell::RefCell;
use std::rc::Rc;

/// What is still to be written to the address and the shared storage.
#[derive(Debug, Default)]
pub(super) struct Pending {
    /// The link, and the draft.
    texts: Option<(String, String)>,
    timer: Option<Timeout>,
}

/// How long the address lags behind, in milliseconds.
const LAG: u32 = 400;

impl App {
    /// Keeps what is typed: in the tab at once, in the address and for other tabs soon.
    pub(super) fn keep(&mut self, act: &Do) {
        let state = &self.state;
        if !state.page.touched {
            return;
        }
        let saved = state.saved();
        let link = link::write(&saved);
        let draft = draft(&link, &state.rooms.rigs.mine);
        let another = self.before.undone != state.undo.changes;
        if draft == self.before.draft && !another {
            return;
        }
        let undo = another.then(|| state.undo.written());
        match drafts::keep(act.host(), &draft, undo.as_deref()) {
            Ok(()) => self.before.undone = state.undo.changes,
            Err(why) => act.now(not_kept(why)),
        }
        let now = (saved.room, saved.key.is_some());
        let was = std::mem::replace(&mut self.before.place, now);
        // From the list to a choice or a room: the entry left behind keeps the list.
        let left_list = (was == (Room::List, false) || was.0 == Room::List && now.0 != Room::List)
            && now != was;
        // From room to room: the one left behind keeps its own. To the list leads no such way.
        let left_room = was.0 != Room::List && now.0 != Room::List && now.0 != was.0;
        if (left_list || left_room) && place(&act.host().fragment()) != now {
            flush(&self.pending, act);
            if link::open(&act.host().fragment()).is_none() {
                let (room, chosen) = was;
                let key = saved.key.clone().filter(|_| chosen);
                act.host().replace(&link::write(&Saved { key, room, ..saved }));
            }
            act.host().push(&link, left_list);
        }
        let mut pending = self.pending.borrow_mut();
        pending.texts = Some((link, draft.clone()));
        self.before.draft = draft;
        if pending.timer.is_none() {
            pending.timer = Some(act.later(LAG, Message::Flush));
        }
    }
}

/// That what is typed is not kept.
fn not_kept(why: NotKept) -> Action {
    Action::NotKept(match why {
        NotKept::Refused => Notice::NotKept,
        NotKept::Full => Notice::Full,
    })
}

/// Writes what is still to be written.
pub(super) fn flush(pending: &RefCell<Pending>, act: &Do) {
    let texts = {
        let mut pending = pending.borrow_mut();
        pending.timer = None;
        pending.texts.take()
    };
    if let Some((link, draft)) = texts {
        drafts::write_address(act.host(), &link);
        if let Err(why) = drafts::share(act.host(), &draft) {
            act.now(not_kept(why));
        }
    }
}

/// Writes for other tabs what is still to be written, while the page is hidden or left: it
/// may not come back. The address is left to the timer, for a browser that is reloading
/// the page at this moment may take the old address and lose the mark beside it, so that a
/// refresh would look like a link from elsewhere. Where nothing else is kept there is only
/// the address.
fn leave(pending: &RefCell<Pending>, act: &Do) {
    let kept = match &pending.borrow().texts {
        Some((_, draft)) => drafts::share(act.host(), draft),
        None => Ok(()),
    };
    if kept.is_err() {
        flush(pending, act);
    }
}

/// The room that an address is about, and whether it holds a choice.
fn place(fragment: &str) -> (Room, bool) {
    let saved = link::open(fragment).map(|opened| opened.saved);
    saved.map_or((Room::List, false), |saved| (saved.room, saved.key.is_some()))
}

/// What to do about what is heard of what is around the page.
pub(super) fn hears(
    act: &Do,
    pending: &Rc<RefCell<Pending>>,
    at_work: &AtWork,
) -> Rc<dyn Fn(Heard)> {
    let (act, pending, at_work) = (act.clone(), Rc::clone(pending), at_work.clone());
    Rc::new(move |heard| match heard {
        Heard::Went => went(&act),
        Heard::Print => act.tell(Message::Print),
        Heard::Undo { on } => act.tell(Message::Undo(on)),
        Heard::Kept { newer } => act.now(Action::Kept { newer }),
        Heard::Elsewhere(changed) => {
            if changed.is_none_or(|name| rigs::is_about_rigs(&name)) {
                act.tell(Message::KeptElsewhere);
            }
        }
        Heard::Left { gone } => {
            leave(&pending, &act);
            if gone {
                // A page that can still hear that it is left was not stopped by its work.
                at_work.note(act.host(), false);
            }
        }
    })
}

/// Follows the address to where the browser went.
fn went(act: &Do) {
    let Some(opened) = link::open(&act.host().fragment()) else {
        return;
    };
    act.now(if act.host().is_ours() {
        Action::Return(opened.saved.key, opened.saved.room)
    } else {
        Action::Open(Box::new(opened), Mine::default())
    });
}
