//! The page: the bar, the fields, the room, the foot, the strip.

use super::{amplifier, bar, drivers, strip};
use crate::act::Do;
use crate::all_rooms;
use crate::later::{self, comes_later};
use crate::parts::coming::coming;
use crate::pen::{Memory, Pen, What, When};
use crate::question::form::Form;
use crate::rooms::{self, Room};
use crate::state::State;
use crate::words::cautions;
use crate::words::closed_box;
use crate::words::page as say;
use std::cell::RefCell;
use yew::prelude::Html;

macro_rules! shown {
    ($($(#[$about:meta])* $room:ident $folder:ident;)*) => {
        /// Writes the room that fills the page.
        fn any_room(pen: &mut Pen) {
            match pen.state.page.room {
                $(Room::$room => rooms::$folder::view::show(pen),)*
            }
        }

        /// The class of the page.
        const fn class(room: Room) -> &'static str {
            match room {
                $(Room::$room => rooms::$folder::view::PAGE,)*
            }
        }

        /// What leads past the bar and the fields, and where.
        const fn skip(room: Room) -> (&'static str, &'static str) {
            match room {
                $(Room::$room => rooms::$folder::view::SKIP,)*
            }
        }

        /// The title of the window: the room, and what it is about.
        #[must_use]
        pub fn title(state: &State) -> String {
            match state.page.room {
                $(Room::$room => rooms::$folder::view::title(state),)*
            }
        }
    };
}

all_rooms!(shown);

comes_later! {
    "00000000000000000000000000000001"
    /// Writes a room that is not the list.
    fn other_room(pen: &mut Pen<'_>) {
        any_room(pen);
    }
}

/// Writes what fills the page.
fn room(pen: &mut Pen) {
    match (pen.state.page.room, later::there()) {
        (Room::List, _) => rooms::list::view::show(pen),
        (_, Some(there)) => other_room(there, pen),
        (_, None) => {
            pen.open("section.sheet wide-room");
            coming(pen, "h2.tab|id=room|tabindex=-1");
            pen.close();
        }
    }
}

/// Whether the chosen configuration is what the list is left for on a small screen.
fn is_chosen(state: &State) -> bool {
    state.page.room == Room::List && state.answer.chosen.is_some()
}

/// The page.
pub fn page(state: &State, act: &Do, memory: &RefCell<Memory>) -> Html {
    let mut sheet = Pen::new(state, act, memory);
    let pen = &mut sheet;
    let chosen = is_chosen(state);
    pen.open("div");
    pen.fixed("class", if chosen { rooms::chosen::view::PAGE } else { class(state.page.room) });
    bar::bar(pen, if chosen { rooms::chosen::view::SKIP } else { skip(state.page.room) });
    pen.open("main.rooms");
    rig(pen);
    if state.page.room == Room::List {
        pen.open("");
        room(pen);
        rooms::chosen::view::show(pen);
        pen.close();
    } else {
        room(pen);
    }
    pen.close();
    pen.open(if pen.state.is_coming() { "footer.foot foot-later" } else { "footer.foot" });
    pen.line("p", cautions::SCOPE);
    pen.line("p", cautions::text(cautions::Caution::ManualsFirst));
    pen.line_if(pen.state.page.kept, "p", say::KEPT);
    pen.close();
    strip::strip(pen);
    pen.close();
    sheet.written()
}

fn rig(pen: &mut Pen) {
    pen.open("form.sheet ask|aria-labelledby=ask|autocomplete=off|novalidate");
    pen.on(When::Sent, What::Stay);
    pen.open("div.chosen-top ask-top");
    pen.line("h2.tab|id=ask", say::RIG);
    bar::turn(pen, Room::Closed, closed_box::TITLE.to_owned());
    bar::turn(pen, Room::Already, say::already::TITLE.to_owned());
    pen.close();
    let example = pen.state.is_example();
    // Whoever has filled in something knows what it is for.
    pen.line_if(example || pen.state.question.form == Form::default(), "p.lead", say::LEAD);
    if example {
        pen.open("p.example");
        pen.line("b", say::EXAMPLE_TAG);
        pen.text(" ");
        pen.text(say::EXAMPLE);
        pen.close();
    } else {
        pen.nothing();
    }
    drivers::groups(pen);
    amplifier::amplifier(pen);
    pen.close();
}

#[cfg(test)]
mod tests;
