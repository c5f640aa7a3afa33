//! Rigs that are kept by name, in the storage that tabs share.
//!
//! | layout | what it added |
//! |---|---|
//! | 1, which wrote no number | the draft in two slots, `sun` |
//! | 2 | `coilwright.layout`; a text for each rig; what a draft belongs to |
//! | 3 | in links, why somebody goes on against the meter, and readings in the order taken |
//! | 4 | in links, work on other plans that waits for them, the head of the job sheet, what a cup reads |
//!
//! Every rig has a name of its own in the storage, so that tabs that keep different rigs
//! never write over each other, and a write either happens or leaves what was there.
//! A page that finds the layout of a later version leaves all rigs alone.

use super::record::{LONGEST, Mine, Record};
use super::state::{Entry, MOST, Said, Storage};
use crate::host::shelf::{NotKept, Shelf};
use crate::link;
use std::rc::Rc;

const LAYOUT: &str = "coilwright.layout";
const NOW: u32 = 4;
const RIG: &str = "coilwright.rig.";

fn place(id: &str) -> String {
    let mut place = String::from(RIG);
    place.push_str(id);
    place
}

/// Whether what stands under a name is a rig, or how rigs are arranged.
#[must_use]
pub fn is_about_rigs(name: &str) -> bool {
    name.starts_with(RIG) || name == LAYOUT
}

/// How a shelf stands.
#[must_use]
pub fn storage(shelf: &dyn Shelf) -> Storage {
    let layout = shelf.read(LAYOUT).and_then(|text| text.parse::<u32>().ok());
    if layout.is_some_and(|layout| layout > NOW) { Storage::Newer } else { Storage::Ready }
}

/// Makes sure that rigs may be written: an earlier layout becomes the present one.
///
/// What layouts 1 to 3 kept, layout 4 reads as it is.
fn settle(shelf: &dyn Shelf) -> Result<(), Said> {
    if storage(shelf) == Storage::Newer {
        return Err(Said::Newer);
    }
    let now = NOW.to_string();
    if shelf.read(LAYOUT).as_deref() != Some(&now) {
        shelf.write(LAYOUT, &now).map_err(why)?;
    }
    Ok(())
}

/// What is said where something is not kept.
#[must_use]
pub fn why(not_kept: NotKept) -> Said {
    match not_kept {
        NotKept::Refused => Said::Refused,
        NotKept::Full => Said::Full,
    }
}

/// Every text of a rig, by what it is found, in no order.
fn texts(shelf: &dyn Shelf) -> Vec<(String, String)> {
    if storage(shelf) == Storage::Newer {
        return Vec::new();
    }
    let text = |name: String| Some((name.strip_prefix(RIG)?.to_owned(), shelf.read(&name)?));
    shelf.names().into_iter().filter_map(text).collect()
}

/// What is kept, the last one first and what is damaged last. What is known already is not
/// read again: `read` reads the rest.
#[must_use]
pub fn all(
    shelf: &dyn Shelf,
    known: &[Rc<Entry>],
    read: impl Fn(String, String) -> Entry,
) -> Vec<Rc<Entry>> {
    let entry = |(id, text): (String, String)| {
        let same = known.iter().find(|entry| entry.id == id && entry.text == text);
        same.map_or_else(|| Rc::new(read(id, text)), Rc::clone)
    };
    let mut all: Vec<Rc<Entry>> = texts(shelf).into_iter().map(entry).collect();
    let order = |entry: &Entry| entry.record.as_ref().map(|record| record.at);
    all.sort_by(|a, b| order(b).cmp(&order(a)).then_with(|| b.id.cmp(&a.id)));
    all
}

/// One that is kept.
#[must_use]
pub fn one(shelf: &dyn Shelf, id: &str) -> Option<Record> {
    read(&shelf.read(&place(id))?)
}

/// Reads the text of a rig; `None` where it or its link is damaged.
#[must_use]
pub fn read(text: &str) -> Option<Record> {
    let record = Record::read(text)?;
    let opened = link::open(&record.link)?;
    opened.left_out.is_empty().then_some(record)
}

/// What stands on a shelf already.
struct Taken {
    names: Vec<String>,
    count: usize,
}

impl Taken {
    /// The name is the third line; to see that no rig needs to be read.
    fn on(shelf: &dyn Shelf) -> Self {
        let texts = texts(shelf);
        let names = texts.iter().filter_map(|(_, text)| text.split('\n').nth(2));
        Self { names: names.map(str::to_owned).collect(), count: texts.len() }
    }
}

/// A name that no other has: `Rear`, `Rear (2)`, and of that in turn `Rear (3)`.
fn free_name(name: &str, taken: &[String]) -> String {
    let mut number = 1_u32;
    let mut free = name.to_owned();
    let numbered = name.strip_suffix(')').and_then(|name| name.rsplit_once(" ("));
    let name = match numbered {
        Some((before, number)) if number.parse::<u8>().is_ok() && !before.is_empty() => before,
        _ => name,
    };
    while taken.contains(&free) {
        number = number.saturating_add(1);
        let end = format!(" ({number})");
        let room = LONGEST.saturating_sub(end.len());
        free = name.chars().take(room).collect();
        free.push_str(&end);
    }
    free
}

/// Puts a rig under a name of its own.
fn add(
    shelf: &dyn Shelf,
    taken: &mut Taken,
    (name, link): (&str, &str),
    now: u64,
) -> Result<Mine, Said> {
    settle(shelf)?;
    if taken.count >= MOST {
        return Err(Said::TooMany);
    }
    let mut id = now;
    while shelf.read(&place(&id.to_string())).is_some() {
        id = id.saturating_add(1);
    }
    let (id, name) = (id.to_string(), free_name(name, &taken.names));
    let record = Record { at: now, name: name.clone(), link: link.to_owned() };
    shelf.write(&place(&id), &record.written()).map_err(why)?;
    taken.count = taken.count.saturating_add(1);
    taken.names.push(name.clone());
    Ok(Mine { name, of: Some((id, now)) })
}

/// Keeps a rig: in place of what it was opened from or kept as last, or beside that, also
/// where another tab kept its own there meanwhile.
///
/// # Errors
/// What is to be said; then nothing has changed.
pub fn keep(
    shelf: &dyn Shelf,
    mine: &Mine,
    name: &str,
    link: &str,
    now: u64,
    beside: bool,
) -> Result<(Mine, Said), Said> {
    settle(shelf)?;
    let here = mine.of.as_ref().filter(|_| !beside);
    let before = here.and_then(|(id, at)| Some((id, *at, one(shelf, id)?)));
    let mut taken = Taken::on(shelf);
    let Some((id, at, before)) = before else {
        let mine = add(shelf, &mut taken, (name, link), now)?;
        let said = Said::Kept(mine.name.clone());
        return Ok((mine, said));
    };
    if before.at != at {
        let mine = add(shelf, &mut taken, (name, link), now)?;
        let said = Said::Beside(mine.name.clone());
        return Ok((mine, said));
    }
    taken.names.retain(|one| *one != before.name);
    let name = free_name(name, &taken.names);
    // Later than before, whatever the clock says.
    let at = now.max(before.at.saturating_add(1));
    let record = Record { at, name: name.clone(), link: link.to_owned() };
    shelf.write(&place(id), &record.written()).map_err(why)?;
    Ok((Mine { name: name.clone(), of: Some((id.clone(), at)) }, Said::Kept(name)))
}

/// Keeps one once more.
///
/// # Errors
/// What is to be said; then nothing has changed.
pub fn double(shelf: &dyn Shelf, id: &str, now: u64) -> Result<Said, Said> {
    let record = one(shelf, id).ok_or(Said::Missing)?;
    let copy = add(shelf, &mut Taken::on(shelf), (&record.name, &record.link), now)?;
    Ok(Said::Doubled(copy.name))
}

/// Deletes one.
pub fn delete(shelf: &dyn Shelf, id: &str) {
    shelf.erase(&place(id));
}

/// Puts what stood in a place there once more, and tells what gave way to it.
///
/// # Errors
/// What is to be said; then nothing has changed.
pub fn exchange(shelf: &dyn Shelf, id: &str, text: Option<&str>) -> Result<Option<String>, Said> {
    settle(shelf)?;
    let there = shelf.read(&place(id));
    match text {
        Some(_) if there.is_none() && Taken::on(shelf).count >= MOST => Err(Said::TooMany),
        Some(text) => shelf.write(&place(id), text).map_err(why).map(|()| there),
        None => {
            delete(shelf, id);
            Ok(there)
        }
    }
}

/// What is kept in a place, as it is.
#[must_use]
pub fn text(shelf: &dyn Shelf, id: &str) -> Option<String> {
    shelf.read(&place(id))
}

/// Keeps every rig of a file, by their names and links, or none.
///
/// # Errors
/// What is to be said; then nothing has changed.
pub fn take(shelf: &dyn Shelf, rigs: &[(String, String)], now: u64) -> Result<Said, Said> {
    let mut taken = Taken::on(shelf);
    if taken.count.saturating_add(rigs.len()) > MOST {
        return Err(Said::TooMany);
    }
    let mut written: Vec<String> = Vec::new();
    // The first of the file is to stand first, so it is kept last.
    for ((name, link), now) in rigs.iter().rev().zip(now..) {
        match add(shelf, &mut taken, (name, link), now) {
            Ok(mine) => written.extend(mine.of.map(|(id, _)| id)),
            Err(said) => {
                for id in &written {
                    delete(shelf, id);
                }
                return Err(said);
            }
        }
    }
    Ok(Said::Taken(rigs.len()))
}

#[cfg(test)]
mod tests;
