//! The one undo: whatever erases or replaces something leaves behind what stood in the page
//! before, as text, and one and the same way brings that back, over a refresh too.
//!
//! ```text
//! undo  = *( left LF ) [ "-" *( LF left ) ]     what was left behind; what undoing left
//! left  = letter SP draft                       the page
//!       | letter SP id SP text SP at SP text    a rig that is kept: what stood in its place
//! ```
//! What was read since is never lost by it: a reading belongs to what it was read of.

mod left;

use super::State;
use super::draft::{draft, open_draft};
use crate::aside;
use crate::job::{self, Job};
use crate::link::{self, Saved};
use crate::question::Edit;
use crate::question::place::Place;
use crate::rooms::closed::state::Probes;
use crate::rooms::rigs::Mine;
use crate::rooms::sheet::state::Line;
use crate::rooms::{Doing, Room, already, closed, rigs, sheet};
use crate::state::{Action, page};
pub use crate::words::page::undo::Erased;
use coilwright_solver::meter::Point;
pub use left::{Left, Shelved};

/// How many are left behind at the most.
pub const DEEP: usize = 32;

/// Before what undoing left.
const AHEAD: &str = "-";

/// What was typed into, so that typing on is one change.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Site {
    Field(Place),
    Reading(Point),
    Against,
    Shown(Probes),
    Cup,
    Name,
    Head(Line),
}

/// What was done last, as far as the way back from it is to be at hand.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Last {
    /// Something else.
    #[default]
    Other,
    /// Something was erased at a blow.
    Erased,
    /// Something was undone.
    Undone,
}

impl Last {
    const fn of(erased: Erased) -> Self {
        match erased {
            // What is typed or chosen is seen where it stands; of what was kept over another it
            // is said where it was kept.
            Erased::Value | Erased::Reading | Erased::Box | Erased::Kept => Self::Other,
            _ => Self::Erased,
        }
    }
}

/// What can be undone.
#[derive(Clone, Debug, Default)]
pub struct Undo {
    /// What was left behind, the last of it last.
    behind: Vec<Left>,
    /// What undoing left.
    ahead: Vec<Left>,
    site: Option<Site>,
    /// What was done last.
    pub last: Last,
    /// Counts what was left behind and brought back.
    pub changes: u32,
}

impl Undo {
    /// What comes back next: what was left behind, or what undoing left.
    #[must_use]
    pub fn next(&self, on: bool) -> Option<&Left> {
        if on { &self.ahead } else { &self.behind }.last()
    }

    /// As text, to be kept with the draft.
    #[must_use]
    pub fn written(&self) -> String {
        let mut lines: Vec<String> = self.behind.iter().map(Left::written).collect();
        if !self.ahead.is_empty() {
            lines.push(AHEAD.to_owned());
            lines.extend(self.ahead.iter().map(Left::written));
        }
        lines.join("\n")
    }

    /// Reads such a text; a line that cannot be is left out.
    #[must_use]
    pub fn read(text: &str) -> Self {
        let (mut behind, mut ahead) = (Vec::new(), Vec::new());
        let mut to = &mut behind;
        for line in text.split('\n') {
            if line == AHEAD {
                to = &mut ahead;
            } else {
                to.extend(Left::read(line));
            }
        }
        Self { behind, ahead, ..Self::default() }
    }

    /// The page that comes back next.
    #[cfg(test)]
    pub(crate) fn page(&self) -> Option<(Saved, Mine)> {
        match self.next(false)? {
            Left::Page(_, text) => open_draft(text).map(|(opened, mine)| (opened.saved, mine)),
            Left::Rig(..) => None,
        }
    }

    /// Another rig took the place of one in the page.
    pub fn replaced(&mut self, saved: &Saved, mine: &Mine) {
        self.leave(Left::Page(Erased::Rig, draft(&link::write(saved), mine)));
        // On opening, nobody did anything yet.
        self.last = Last::Other;
    }

    /// Leaves something behind.
    pub(super) fn leave(&mut self, left: Left) {
        self.last = Last::of(left.erased());
        // What undoing left is not lost for something new.
        let ahead = core::mem::take(&mut self.ahead);
        self.behind.extend(ahead.into_iter().rev());
        self.behind.push(left);
        let over = self.behind.len().saturating_sub(DEEP);
        self.behind.drain(..over);
        self.changes = self.changes.wrapping_add(1);
    }

    /// Takes what comes back next, and leaves what gives way to it.
    fn exchange(&mut self, on: bool, instead: Left) {
        let Self { behind, ahead, .. } = self;
        let (from, to) = if on { (ahead, behind) } else { (behind, ahead) };
        from.pop();
        to.push(instead);
        self.last = if on { Last::Other } else { Last::Undone };
        self.site = None;
        self.changes = self.changes.wrapping_add(1);
    }
}

impl State {
    /// Leaves behind what an action erases or replaces, before it is done.
    pub(super) fn leave_behind(&mut self, action: &Action) {
        let site = site(action);
        if action.is_done() {
            self.undo.last = Last::Other;
            if core::mem::replace(&mut self.undo.site, site) == site && site.is_some() {
                return;
            }
        }
        let Some(erased) = self.erases(action) else { return };
        let saved = self.saved();
        if erased != Erased::Rig || saved.is_worth_keeping() {
            let left = self.left(erased, saved);
            self.undo.leave(left);
        }
    }

    fn left(&self, erased: Erased, mut saved: Saved) -> Left {
        // Whoever wants it back wants to see it, not the room in which another was opened.
        if saved.room == Room::Rigs {
            saved.room = Room::List;
        }
        Left::Page(erased, draft(&link::write(&saved), &self.rooms.rigs.mine))
    }

    /// What an action erases or replaces.
    fn erases(&self, action: &Action) -> Option<Erased> {
        let typed_over = |before: &str, text: &str| !before.is_empty() && before != text;
        let work = &self.job.work;
        match action {
            Action::Edit(edit) => self.erased_by(edit),
            Action::Aside(aside::Action::LeaveOut(_)) => Some(Erased::Compared),
            Action::Aside(aside::Action::Compare(key)) => {
                self.is_compared(key).then_some(Erased::Compared)
            }
            Action::Job(action) => match action {
                job::Action::Read(point, text) => {
                    typed_over(work.reading(*point), text).then_some(Erased::Reading)
                }
                job::Action::Against(words) => {
                    typed_over(&work.against.words, words).then_some(Erased::Value)
                }
                job::Action::Forget => work.is_searched().then_some(Erased::Search),
                job::Action::StartOver => Some(Erased::Work),
                job::Action::Stage(_, false) => Some(Erased::Ticks),
                _ => None,
            },
            Action::Room(Doing::Closed(action)) => match action {
                closed::Action::Shown(probes, text) => {
                    typed_over(self.rooms.closed.at(*probes), text).then_some(Erased::Reading)
                }
                closed::Action::PlanWith(_) => Some(Erased::Rig),
            },
            Action::Room(Doing::Already(already::Action::Reads(text))) => {
                typed_over(&self.rooms.already.reads, text).then_some(Erased::Reading)
            }
            Action::Room(Doing::Sheet(sheet::Action::Write(line, text))) => {
                typed_over(self.rooms.sheet.line(*line), text).then_some(Erased::Value)
            }
            Action::Room(Doing::Rigs(rigs::Action::Name(name))) => {
                typed_over(&self.rooms.rigs.mine.name, name).then_some(Erased::Value)
            }
            Action::Page(
                page::Action::StartEmpty | page::Action::ShowExample | page::Action::Open(..),
            ) => Some(Erased::Rig),
            _ => None,
        }
    }

    fn erased_by(&self, edit: &Edit) -> Option<Erased> {
        let form = &self.question.form;
        match edit {
            Edit::Set(place, text) => {
                let over = form.text(*place).is_some_and(|is| !is.is_empty() && is != text);
                let of_box = matches!(place, Place::Box(_) | Place::Takes(..));
                over.then_some(if of_box { Erased::Box } else { Erased::Value })
            }
            Edit::RemoveGroup(_) => (form.groups.len() > 1).then_some(Erased::Drivers),
            Edit::RemoveAmplifier => Some(Erased::Amplifier),
            Edit::RemoveBridge(_) => Some(Erased::Bridge),
            Edit::RemovePoint(..) => Some(Erased::Point),
            Edit::Reversed(..) | Edit::Vehicle(_) | Edit::PushOn(..) => Some(Erased::Box),
            Edit::Change(_) => Some(Erased::Change),
            Edit::AddGroup
            | Edit::AddAmplifier
            | Edit::AddBridge
            | Edit::Alike(_)
            | Edit::Tied(..)
            | Edit::JoinedOnly(_)
            | Edit::EvenOnly(_) => None,
        }
    }

    /// Brings back what was left behind last, or what undoing left; a rig that is kept is
    /// brought back where it is kept.
    pub(super) fn undo(&mut self, on: bool) {
        let Some(Left::Page(erased, text)) = self.undo.next(on).cloned() else { return };
        let instead = self.left(erased, self.saved());
        self.undo.exchange(on, instead);
        let Some((opened, mine)) = open_draft(&text) else { return };
        self.page.notices.clear();
        if erased == Erased::Rig {
            return self.take(opened.saved, mine);
        }
        let mut saved = opened.saved;
        if !on {
            // What was read and done since holds of what it is of, but where it stands there.
            let mut all = self.all_begun();
            all.append(&mut saved.waits);
            saved.waits = all;
        }
        self.take_back(saved, mine);
    }

    /// Takes back what is in the page, and stays where one is.
    fn take_back(&mut self, saved: Saved, mine: Mine) {
        let Saved { form, key, compared, work, waits, rooms, .. } = saved;
        let (zoom, reached) = (self.job.zoom, self.job.reached);
        *self.job = Job { zoom, reached, ..Job::of(work, &form, key.as_ref(), waits) };
        let same = self.question.form == form;
        self.question.form = form;
        self.rooms.begin(rooms);
        self.rooms.rigs.is_of(mine);
        self.aside.compared = compared;
        self.keep_what_can_be_compared();
        self.answer.key = key;
        if !same {
            self.ask();
        }
        if self.is_current() {
            self.rooms.list.look_anew(&self.answer);
            let key = self.answer.key.take();
            self.choose(key);
        }
    }

    /// A rig that is kept was exchanged for what stood in its place before.
    pub(super) fn exchanged(&mut self, on: bool, text: Option<String>) {
        let Some(Left::Rig(erased, Shelved { id, at, .. })) = self.undo.next(on).cloned() else {
            return;
        };
        let now = match &mut self.rooms.rigs.mine.of {
            Some((of, now)) if *of == id => core::mem::replace(now, at),
            _ => at,
        };
        self.rooms.rigs.said = None;
        self.undo.exchange(on, Left::Rig(erased, Shelved { id, text, at: now }));
    }
}

/// What an action types into.
fn site(action: &Action) -> Option<Site> {
    Some(match action {
        Action::Edit(Edit::Set(place, _)) => Site::Field(*place),
        Action::Job(job::Action::Read(point, _)) => Site::Reading(*point),
        Action::Job(job::Action::Against(_)) => Site::Against,
        Action::Room(Doing::Closed(closed::Action::Shown(probes, _))) => Site::Shown(*probes),
        Action::Room(Doing::Already(_)) => Site::Cup,
        Action::Room(Doing::Rigs(rigs::Action::Name(_))) => Site::Name,
        Action::Room(Doing::Sheet(sheet::Action::Write(line, _))) => Site::Head(*line),
        _ => return None,
    })
}
