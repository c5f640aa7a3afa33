//! What somebody wants of the rigs that are kept, done in the storage and told to the state.

use super::{App, Do};
use crate::browser::go_to;
use crate::browser::hand::{self, Chosen};
use crate::browser::rigs as shelf;
use crate::browser::shelf::{Shelf, shared};
use crate::state::link::Saved;
use crate::state::rigs::{Entry, Mine, Record, Said, Storage, Told, Wish};
use crate::state::{Action, Room, file, link};
use crate::views::rigs as views;
use coilwright_module::plain;
use coilwright_solver::bounds::{Kind, Object};
use std::rc::Rc;

/// What a file of several rigs is called.
const FILE: &str = "rigs.json";

impl App {
    /// Does what is wanted and tells what came of it.
    pub(super) fn grant(&mut self, wish: Wish, act: &Do) {
        if wish == Wish::Look {
            return list(act);
        }
        let outcome = match shared() {
            Ok(shelf) => self.granted(&shelf, wish, act),
            Err(why) => Err(shelf::why(why)),
        };
        if let Err(said) = outcome {
            tell(act, Told::Said(said));
        }
        list(act);
    }

    fn granted(&self, on: &impl Shelf, wish: Wish, act: &Do) -> Result<(), Said> {
        let state = &self.state;
        match wish {
            Wish::Look => {}
            Wish::Keep | Wish::KeepBeside => {
                let (name, link) = (views::name_of(&state.mine, &state.form), state.link_to_keep());
                let beside = wish == Wish::KeepBeside;
                let (mine, said) = shelf::keep(on, &state.mine, &name, &link, hand::now(), beside)?;
                tell(act, Told::Mine(mine));
                tell(act, Told::Said(said));
                let act = act.clone();
                hand::ask_to_last(true, move |lasting| tell(&act, Told::Lasting(lasting)));
            }
            Wish::Open(id) => {
                let Record { at, name, link } = shelf::one(on, &id).ok_or(Said::Missing)?;
                let opened = link::open(&link).ok_or(Said::Missing)?;
                let mine = Mine { name, of: Some((id, at)) };
                act.now(Action::OpenKept(Box::new(opened), mine));
            }
            Wish::Double(id) => tell(act, Told::Said(shelf::double(on, &id, hand::now())?)),
            Wish::Delete(id) => {
                let gone = state.rigs.entries.iter().find(|entry| entry.id == id);
                shelf::delete(on, &id);
                tell(act, Told::Gone(gone.cloned()));
            }
            Wish::PutBack => {
                if let Some(Entry { id, text, .. }) = &state.rigs.gone {
                    shelf::put_back(on, id, text)?;
                    tell(act, Told::Gone(None));
                }
            }
            Wish::Save(id) => {
                let all = shelf::all(on).into_iter();
                let wanted = all.filter(|(of, _)| id.as_ref().is_none_or(|id| id == of));
                let records: Vec<Record> =
                    wanted.filter_map(|(_, text)| Record::read(&text)).collect();
                let name = match (&id, &records[..]) {
                    (_, []) => return Err(Said::Missing),
                    (Some(_), [only]) => file::name(&only.name),
                    _ => FILE.to_owned(),
                };
                hand::save_text(&name, &file::write(&records));
            }
        }
        Ok(())
    }

    /// Takes the rigs of a file, all or none.
    pub(super) fn take(&mut self, chosen: Chosen, act: &Do) {
        tell(act, Told::Said(taken(chosen).unwrap_or_else(|said| said)));
        list(act);
    }

    /// Looks what is kept when the room of it is entered.
    pub(super) fn look(&mut self, act: &Do) {
        let there = self.state.room == Room::Rigs;
        if there && !self.before.there {
            list(act);
            let act = act.clone();
            hand::ask_to_last(false, move |lasting| tell(&act, Told::Lasting(lasting)));
        }
        self.before.there = there;
        // What was pressed is no longer there: the keyboard goes to what undoes it, or back.
        let gone = there && self.state.rigs.gone.is_some();
        if there && gone != self.before.gone {
            go_to(if gone { views::PUT_BACK } else { "room" });
        }
        self.before.gone = gone;
    }
}

fn taken(chosen: Chosen) -> Result<Said, Said> {
    let value = chosen?;
    let value = plain::value(&value, Kind::Object(Object::File));
    let rigs = file::read(&value).map_err(|problems| Said::FileWrong(Rc::new(problems)))?;
    let named = |(name, saved): (String, Saved)| {
        let mine = Mine { name, of: None };
        (views::name_of(&mine, &saved.form), link::write(&saved))
    };
    let rigs: Vec<(String, String)> = rigs.into_iter().map(named).collect();
    shelf::take(&shared().map_err(shelf::why)?, &rigs, hand::now())
}

/// Tells what is kept.
fn list(act: &Do) {
    let (storage, entries) = match shared() {
        Err(_) => (Storage::Refused, Vec::new()),
        Ok(on) => (shelf::storage(&on), shelf::all(&on).into_iter().map(entry).collect()),
    };
    tell(act, Told::Listed(storage, Rc::new(entries)));
}

fn entry((id, text): (String, String)) -> Entry {
    let record = Record::read(&text);
    let when = record.as_ref().map_or_else(String::new, |record| hand::when(record.at));
    let opened = record.as_ref().and_then(|record| link::open(&record.link));
    let about = opened.map_or_else(String::new, |opened| views::about_or_not(&opened.saved.form));
    Entry { id, text, when, record, about }
}

fn tell(act: &Do, told: Told) {
    act.now(Action::Rigs(told));
}
