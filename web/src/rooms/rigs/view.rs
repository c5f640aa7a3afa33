//! Rigs that are kept by name: the one at hand, the list, and files of them.

use crate::state::State;
use crate::words::names;
use crate::words::page::room as room_words;
use crate::pen::{Pen, What, When};
use crate::words::page::rigs as say;
use crate::words::{gate, problems};
use super::record::LONGEST;
use super::state::{Entry, MOST, Said, Storage, Wish};
use crate::parts::handing;
use crate::parts::top::top;
use coilwright_solver::problem::Problem;

/// Where it is said what came of a wish.
pub const SAID: &str = "rigs-said";

/// The class of the page.
pub const PAGE: &str = "page page-rigs";
/// What leads past the fields, and where.
pub const SKIP: (&str, &str) = (room_words::TO_RIGS, "room");

/// The title of the window.
#[must_use]
pub fn title(state: &State) -> String {
    let name = names::plain(&state.rooms.rigs.mine.name);
    room_words::title(say::HEADING, &[&name])
}

/// The room.
pub fn show(pen: &mut Pen) {
    pen.open(if pen.state.rooms.rigs.listed {
        "section.sheet wide-room rigs"
    } else {
        "section.sheet wide-room rigs rigs-later"
    });
    room(pen);
    pen.close();
}

fn room(pen: &mut Pen) {
    pen.open("");
    top(pen, "h2.tab|id=room|tabindex=-1", say::HEADING, "quiet");
    pen.line("p.hints", say::ABOUT);
    let usable = pen.state.rooms.rigs.storage == Storage::Ready;
    if usable {
        at_hand(pen);
    } else {
        pen.nothing();
    }
    said(pen);
    pen.open("div.rigs-link");
    handing::about(pen);
    pen.open("div.rigs-acts");
    handing::buttons(pen);
    pen.close();
    handing::outcome(pen);
    pen.close();
    if usable {
        let rigs = &pen.state.rooms.rigs;
        // By what is listed, and which of it is at hand: not by a name that is typed.
        pen.kept("rigs", [rigs.changes, 0, 0, 0, 0, 0, 0], list);
    } else {
        pen.nothing();
    }
    files(pen);
    pen.close();
}

/// The rig at hand: its name, and how to keep it.
fn at_hand(pen: &mut Pen) {
    let state = pen.state;
    pen.open("form.rigs-keep|autocomplete=off|novalidate");
    pen.on(When::Sent, What::Keep);
    pen.open("span.blank blank-wide");
    pen.open("span.blank-line");
    pen.open("input|type=text|id=rig-name|autocomplete=off|enterkeyhint=done");
    pen.made("maxlength", LONGEST.to_string());
    pen.holds(&state.rooms.rigs.mine.name);
    pen.on(When::Typed, What::Name);
    pen.close();
    pen.close();
    pen.open("label");
    pen.fixed("for", "rig-name");
    pen.text(say::NAME);
    pen.close();
    pen.close();
    pen.open("div.rigs-acts");
    let as_kept = state.rooms.rigs.is_as_kept(&state.link_to_keep());
    pen.open(if as_kept == Some(true) {
        "button.quiet|type=submit"
    } else {
        "button.act|type=submit"
    });
    pen.text(if as_kept.is_some() { say::KEEP_AGAIN } else { say::KEEP });
    pen.close();
    if as_kept.is_some() {
        wish(pen, say::KEEP_BESIDE, Wish::KeepBeside);
    } else {
        pen.nothing();
    }
    match as_kept {
        Some(true) => pen.line("span.hints", say::AS_KEPT),
        Some(false) => pen.line("span.hints", say::CHANGED),
        None => pen.nothing(),
    }
    pen.close();
    pen.close();
}

fn wish(pen: &mut Pen, words: &'static str, wish: Wish) {
    pen.press("quiet", What::Wish(wish));
    pen.text(words);
    pen.close();
}

/// What came of the last wish.
fn said(pen: &mut Pen) {
    let rigs = &pen.state.rooms.rigs;
    pen.open("div.rigs-said|role=status|id=rigs-said");
    match rigs.storage {
        Storage::Ready => {}
        Storage::Refused => pen.line("p.note note-wrong", say::REFUSED),
        Storage::Newer => pen.line("p.note note-wrong", say::NEWER),
    }
    match &rigs.said {
        None => {}
        Some(Said::Kept(name)) => pen.line_of("p.note", say::kept(name)),
        Some(Said::Beside(name)) => pen.line_of("p.note note-stale", say::beside(name)),
        Some(Said::Deleted(entry)) => pen.line_of("p.note", say::deleted(called(entry))),
        Some(Said::Doubled(name)) => pen.line_of("p.note", say::doubled(name)),
        Some(Said::Taken(count)) => pen.line_of("p.note", say::taken(*count)),
        Some(Said::TooMany) => pen.line_of("p.note note-wrong", say::too_many(MOST)),
        Some(Said::NotJson(place)) => pen.line_of("p.note note-wrong", say::not_json(*place)),
        Some(Said::FileWrong(problems)) => wrong(pen, problems),
        // Said above.
        Some(Said::Refused | Said::Newer) if rigs.storage != Storage::Ready => {}
        Some(said) => pen.line(
            "p.note note-wrong",
            match said {
                Said::Refused => say::REFUSED,
                Said::Newer => say::NEWER,
                Said::Missing => say::MISSING,
                Said::FileTooLarge => say::FILE_TOO_LARGE,
                Said::FileUnread => say::FILE_UNREAD,
                _ => say::FULL,
            },
        ),
    }
    pen.close();
}

/// More problems of a file than these are counted, not told.
const TOLD: usize = 5;

fn wrong(pen: &mut Pen, problems: &[Problem]) {
    pen.open("div.note note-wrong");
    pen.line("p", say::FILE_WRONG);
    pen.open("ul.rigs-problems");
    for problem in problems.iter().take(TOLD) {
        pen.open("li");
        let path = problem.path.to_string();
        // Of the file as a whole there is no path.
        if !path.is_empty() {
            pen.open("bdi");
            pen.line_of("code", path);
            pen.close();
            pen.text(" ");
        }
        pen.line_of("span", problems::message(problem));
        pen.close();
    }
    if problems.len() > TOLD {
        pen.line_of("li", say::more_problems(problems.len() - TOLD));
    }
    pen.close();
    pen.close();
}

/// What an entry is called.
fn called(entry: &Entry) -> &str {
    entry.record.as_ref().map_or(say::DAMAGED, |record| &record.name)
}

fn list(pen: &mut Pen) {
    let rigs = &pen.state.rooms.rigs;
    if rigs.entries.is_empty() {
        pen.line("p.note", say::NONE);
        return;
    }
    pen.open("ul.rigs-list");
    for entry in rigs.entries.iter() {
        one(pen, entry);
    }
    pen.close();
}

fn one(pen: &mut Pen, entry: &Entry) {
    let name = called(entry);
    let here = pen.state.rooms.rigs.mine.of.as_ref().is_some_and(|(id, _)| *id == entry.id);
    pen.open(if here { "li.rigs-one rigs-here" } else { "li.rigs-one" });
    pen.key(entry.id.clone());
    pen.open("div.rigs-what");
    pen.open("bdi");
    pen.line_of("b", name.to_owned());
    pen.close();
    pen.line_if(here, "span.rigs-mark", say::AT_HAND);
    pen.close();
    if entry.record.is_some() {
        pen.line_of("p.rigs-about", crate::parts::tied::tied(&entry.about));
        pen.line_of("p.hints", say::when(&entry.when));
        if let Some(words) = &entry.against {
            pen.open("p.note note-wrong gate-went");
            pen.line_of("bdi", gate::went(words));
            pen.close();
        } else {
            pen.nothing();
        }
    } else {
        pen.line("p.rigs-about", say::DAMAGED_ABOUT);
        pen.nothing();
        pen.nothing();
    }
    pen.open("div.rigs-acts");
    let id = || entry.id.clone();
    if entry.record.is_some() {
        act(pen, say::OPEN, name, Wish::Open(id()));
        act(pen, say::DOUBLE, name, Wish::Double(id()));
        act(pen, say::SAVE, name, Wish::Save(Some(id())));
    }
    act(pen, say::DELETE, name, Wish::Delete(id()));
    pen.close();
    pen.close();
}

fn act(pen: &mut Pen, words: &'static str, name: &str, wish: Wish) {
    pen.press("quiet", What::Wish(wish));
    pen.made("aria-label", say::about(words, name));
    pen.text(words);
    pen.close();
}

fn files(pen: &mut Pen) {
    let rigs = &pen.state.rooms.rigs;
    let some = rigs.entries.iter().any(|entry| entry.record.is_some());
    pen.open("div.rigs-files");
    pen.line("p.hints", say::FILES);
    match rigs.lasting {
        Some(true) if some => pen.line("p.hints", say::LASTING),
        Some(false) if some => pen.line("p.hints", say::NOT_LASTING),
        _ => pen.nothing(),
    }
    pen.open("div.rigs-acts");
    wish(pen, say::SAVE_THIS, Wish::SaveThis);
    if some {
        wish(pen, say::SAVE_ALL, Wish::Save(None));
    } else {
        pen.nothing();
    }
    if rigs.storage == Storage::Ready {
        pen.open("label.quiet rigs-file");
        pen.open("input.unseen|type=file|id=rigs-file|accept=.json,application/json");
        pen.on(When::Chosen, What::TakeFile);
        pen.close();
        pen.line("span", say::TAKE);
        pen.close();
    }
    pen.close();
    pen.close();
}
