//! A heading, and beside it the way back to the list.

use crate::link::Saved;
use crate::pen::{Pen, What};
use crate::rooms::Room;
use crate::words::page as say;

/// A heading, and beside it the way back to the list.
pub fn top(pen: &mut Pen, spec: &'static str, title: &'static str, back: &'static str) {
    pen.open("div.chosen-top");
    pen.line(spec, title);
    let to = Saved { key: None, room: Room::List, ..pen.state.saved() };
    // What is chosen of the list is one step back; a room may lie further from it.
    let way = if pen.state.page.room == Room::List { What::Back } else { What::All };
    pen.lead(back, &to, way);
    pen.text(say::chosen::BACK);
    pen.close();
    pen.close();
}
