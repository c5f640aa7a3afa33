//! What somebody wants of the rigs that are kept, done in the storage and told to the state.

use super::App;
use crate::act::{Do, Errand};
use crate::host::shelf::Shelf;
use crate::host::{Chosen, Host, Unread};
use crate::link::Saved;
use crate::parts::about;
use crate::rooms::Room;
use crate::rooms::rigs::Action;
use crate::rooms::rigs::kept as shelf;
use crate::rooms::rigs::state::{Entry, Said, Storage, Told, Wish};
use crate::rooms::rigs::view as views;
use crate::rooms::rigs::{Mine, Record};
use crate::shell::bar;
use crate::state::page;
use crate::state::undo::{Erased, Left, Shelved};
use crate::{file, link};
use coilwright_module::plain;
use coilwright_solver::bounds::{Kind, Object};
use std::rc::Rc;

/// What a file of several rigs is called.
const ALL: &str = "rigs";
/// How long to wait for more of what another tab keeps, in milliseconds.
const SOON: u32 = 60;

impl App {
    /// Does what is wanted and tells what came of it.
    pub(super) fn grant(&mut self, wish: Wish, act: &Do) {
        if wish == Wish::Look {
            self.before.due = None;
            return self.list_rigs(act);
        }
        self.before.pressed = true;
        if wish == Wish::SaveThis {
            // Where nothing can be kept, this is what is left.
            return self.save_this();
        }
        let outcome = match self.host.shared() {
            Ok(shelf) => self.granted(&*shelf, wish, act),
            Err(why) => Err(shelf::why(why)),
        };
        if let Err(said) = outcome {
            tell(act, Told::Said(said));
        }
        self.list_rigs(act);
    }

    fn granted(&mut self, on: &dyn Shelf, wish: Wish, act: &Do) -> Result<(), Said> {
        let state = &self.state;
        match wish {
            Wish::Look | Wish::SaveThis => {}
            Wish::Keep | Wish::KeepBeside => {
                let (name, link) = (
                    about::name_of(&state.rooms.rigs.mine, &state.question.form),
                    state.link_to_keep(),
                );
                let beside = wish == Wish::KeepBeside;
                let was = &state.rooms.rigs.mine;
                let before = was.of.as_ref().map(|(id, at)| Shelved {
                    text: shelf::text(on, id),
                    id: id.clone(),
                    at: *at,
                });
                let (mine, said) = shelf::keep(on, was, &name, &link, self.host.now(), beside)?;
                let over = mine.of.as_ref().map(|(id, _)| id);
                if let Some(before) = before.filter(|it| Some(&it.id) == over && it.text.is_some())
                {
                    act.now(page::Action::Erased(Left::Rig(Erased::Kept, before)));
                }
                tell(act, Told::Mine(mine));
                tell(act, Told::Said(said));
                self.ask_to_last(act);
            }
            Wish::Open(id) => {
                let Record { at, name, link } = shelf::one(on, &id).ok_or(Said::Missing)?;
                let opened = link::open(&link).ok_or(Said::Missing)?;
                let mine = Mine { name, of: Some((id, at)) };
                act.now(page::Action::Open(Box::new(opened), mine));
            }
            Wish::Double(id) => {
                tell(act, Told::Said(shelf::double(on, &id, self.host.now())?));
                self.ask_to_last(act);
            }
            Wish::Delete(id) => {
                // As it is now, which may be later than it was listed.
                let entries = self.entries(on);
                let gone = entries.iter().find(|entry| entry.id == id).ok_or(Said::Missing)?;
                shelf::delete(on, &id);
                let at = gone.record.as_ref().map_or(0, |record| record.at);
                let before = Shelved { id, text: Some(gone.text.clone()), at };
                act.now(page::Action::Erased(Left::Rig(Erased::Deleted, before)));
                tell(act, Told::Said(Said::Deleted(Rc::clone(gone))));
            }
            Wish::Exchange(undone) => {
                if let Some(Left::Rig(_, Shelved { id, text, .. })) = state.undo.next(undone) {
                    let there = shelf::exchange(on, id, text.as_deref())?;
                    act.now(page::Action::Exchanged(undone, there));
                }
            }
            Wish::Save(id) => {
                let all = self.entries(on);
                let wanted =
                    all.iter().filter(|entry| id.as_ref().is_none_or(|id| *id == entry.id));
                let records: Vec<Record> =
                    wanted.filter_map(|entry| entry.record.clone()).collect();
                let name = match (&id, &records[..]) {
                    (_, []) => return Err(Said::Missing),
                    (Some(_), [only]) => file::name(&only.name),
                    _ => file::name(ALL),
                };
                let files = file::files(&records);
                for (number, text) in files.iter().enumerate() {
                    let numbered = file::name(&format!("{ALL} {}", number + 1));
                    self.host.save_text(if files.len() > 1 { &numbered } else { &name }, text);
                }
            }
        }
        Ok(())
    }

    fn save_this(&self) {
        let state = &self.state;
        let (name, link) =
            (about::name_of(&state.rooms.rigs.mine, &state.question.form), state.link_to_keep());
        let file = file::name(&name);
        self.host.save_text(&file, &file::write(&[Record { at: 0, name, link }]));
    }

    /// Asks the browser to keep what is kept, once a visit: some ask the visitor in turn.
    fn ask_to_last(&mut self, act: &Do) {
        if !core::mem::replace(&mut self.before.asked_to_last, true) {
            let act = act.clone();
            let done = move |lasting| tell(&act, Told::Lasting(lasting));
            self.host.ask_to_last(true, Box::new(done));
        }
    }

    /// Takes the rigs of a file, all or none.
    pub(super) fn take(&mut self, chosen: Chosen, act: &Do) {
        self.before.pressed = true;
        let taken = taken(&*self.host, chosen);
        if taken.is_ok() {
            self.ask_to_last(act);
        }
        tell(act, Told::Said(taken.unwrap_or_else(|said| said)));
        self.list_rigs(act);
    }

    /// Looks what is kept when the room of it is entered.
    pub(super) fn look(&mut self, act: &Do) {
        let there = self.state.page.room == Room::Rigs;
        let pressed = core::mem::take(&mut self.before.pressed);
        let entered = there && !self.before.there;
        self.before.there = there;
        if entered {
            self.list_rigs(act);
            let act = act.clone();
            let done = move |lasting| tell(&act, Told::Lasting(lasting));
            self.host.ask_to_last(false, Box::new(done));
        }
        // Where what was pressed is no longer there, the keyboard goes to what undoes it, or
        // to the heading. What another tab deleted takes no keyboard along.
        if there && !entered {
            let said = self.state.rooms.rigs.said.as_ref();
            if pressed && matches!(said, Some(Said::Deleted(_))) {
                self.host.go_to(bar::UNDO);
            } else if pressed && self.host.is_nowhere() {
                self.host.go_to("room");
            } else if pressed && said.is_some() {
                // What was pressed may be far down a long list.
                self.host.show(views::SAID);
            }
        }
    }

    /// Looks in a moment what another tab kept or deleted: from a file it keeps many at once.
    pub(super) fn look_soon(&mut self, act: &Do) {
        if self.before.there && self.before.due.is_none() {
            self.before.due = Some(act.later(SOON, Errand::Wish(Wish::Look).into()));
        }
    }

    /// Tells what is kept.
    fn list_rigs(&self, act: &Do) {
        let (storage, entries) = match self.host.shared() {
            Err(_) => (Storage::Refused, Vec::new()),
            Ok(on) => (shelf::storage(&*on), self.entries(&*on)),
        };
        tell(act, Told::Listed(storage, Rc::new(entries)));
    }

    fn entries(&self, on: &dyn Shelf) -> Vec<Rc<Entry>> {
        let read = |id, text| entry(&*self.host, id, text);
        shelf::all(on, &self.state.rooms.rigs.entries, read)
    }
}

fn taken(host: &dyn Host, chosen: Chosen) -> Result<Said, Said> {
    let value = chosen.map_err(|why| match why {
        Unread::TooLarge => Said::FileTooLarge,
        Unread::NotJson(place) => Said::NotJson(place),
        Unread::Failed => Said::FileUnread,
    })?;
    let value = plain::value(&value, Kind::Object(Object::File));
    let rigs = file::read(&value).map_err(|problems| Said::FileWrong(Rc::new(problems)))?;
    let named = |(name, saved): (String, Saved)| {
        let mine = Mine { name, of: None };
        (about::name_of(&mine, &saved.form), link::write(&saved))
    };
    let rigs: Vec<(String, String)> = rigs.into_iter().map(named).collect();
    shelf::take(&*host.shared().map_err(shelf::why)?, &rigs, host.now())
}

fn entry(host: &dyn Host, id: String, text: String) -> Entry {
    let record = shelf::read(&text);
    let when = record.as_ref().map_or_else(String::new, |record| host.when(record.at));
    let opened = record.as_ref().and_then(|record| link::open(&record.link));
    let against = opened.as_ref().map(|opened| &opened.saved.work.against);
    let against = against.filter(|said| said.went).map(|said| said.words.clone());
    let about = opened.map_or_else(String::new, |opened| about::about_or_not(&opened.saved.form));
    Entry { id, text, when, record, about, against }
}

fn tell(act: &Do, told: Told) {
    act.now(Action::Told(told));
}
