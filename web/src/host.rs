//! The port to what is around the page: its element, storage, address, clock, speech, files.
//!
//! The page in a document of its own, the page in a frame of somebody else's and the single
//! file are three hosts, and two pages may live in one document, each with a host of its own.
//! Nothing else of the page knows a window or a document. Every call can fail (storage is
//! refused in some frames, history is rationed), and no failure may take the page with it.

pub mod browser;
pub mod pace;
pub mod shelf;

use shelf::{NotKept, Shelf};
use std::any::Any;
use std::rc::Rc;
use wasm_bindgen::JsValue;

/// Why what a file holds cannot be told.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Unread {
    /// It is larger than it may be.
    TooLarge,
    /// It is not JSON from a line and a place in it on, where that is known.
    NotJson(Option<(u32, u32)>),
    /// It could not be read.
    Failed,
}

/// What a file that was chosen holds, or why it cannot be told.
pub type Chosen = Result<JsValue, Unread>;

/// What is heard of what is around the page.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Heard {
    /// The page is hidden, or left for good.
    Left {
        /// Whether it is left.
        gone: bool,
    },
    /// The browser went back or forth.
    Went,
    /// The page is about to be printed.
    Print,
    /// The keys were pressed that undo, or those that undo that, and no field is typed in.
    Undo {
        /// Whether what was undone is wanted once more.
        on: bool,
    },
    /// Another tab changed what is kept under a name, or everything.
    Elsewhere(Option<String>),
    /// The page is kept on this device, or a newer version of it is.
    Kept {
        /// Whether it is a newer one.
        newer: bool,
    },
}

/// Whether what was wanted was done, once that is known.
pub type Done = Box<dyn FnOnce(bool)>;

/// The port.
pub trait Host {
    /// The end of the address that the page is about, with its `#`, or nothing.
    fn fragment(&self) -> String;
    /// Whether the present entry of the history was written by this page.
    fn is_ours(&self) -> bool;
    /// Whether the present entry was made for a choice: one step back lies the list.
    fn is_choice(&self) -> bool;
    /// Writes a link over the present entry of the history.
    fn replace(&self, link: &str);
    /// Makes an entry of the history: for a choice or a room that was gone to from the list,
    /// or from room to room.
    fn push(&self, link: &str, from_list: bool);
    /// Goes back one entry.
    fn back(&self);
    /// Begins with the visit that the tab noted last, or with the one after it where the
    /// present entry is from elsewhere; gives the visit and whether it is the same. A reload
    /// of the address that the visit wrote over last is of that visit.
    fn begin_visit(&self, noted: Option<u32>, before: Option<&str>) -> (u32, bool);
    /// The page's own address, without what this visit asked of it; none where no address
    /// opens it again.
    fn page(&self) -> Option<String>;

    /// The storage of this tab.
    ///
    /// # Errors
    /// [`NotKept::Refused`].
    fn tab(&self) -> Result<Box<dyn Shelf>, NotKept>;
    /// The storage that tabs share.
    ///
    /// # Errors
    /// [`NotKept::Refused`].
    fn shared(&self) -> Result<Box<dyn Shelf>, NotKept>;

    /// This moment, in milliseconds since 1970.
    fn now(&self) -> u64;
    /// A moment, in milliseconds since 1970, as people of the place write it.
    fn when(&self, at: u64) -> String;
    /// Milliseconds since some moment, to tell how long something takes.
    fn ticks(&self) -> f64;

    /// Hears of what is around the page for as long as what is given back lives.
    fn listen(&self, hears: Rc<dyn Fn(Heard)>) -> Box<dyn Any>;
    /// Opens the newer version of the page in place of this one.
    fn take_newer(&self);

    /// Whether list and chosen configuration stand side by side.
    fn is_wide(&self) -> bool;
    /// Whether the keyboard is nowhere: what had it is no longer there.
    fn is_nowhere(&self) -> bool;
    /// Moves the keyboard to an element and shows it: a heading with what follows it, a field
    /// with what is around it.
    fn go_to(&self, id: &str);
    /// Shows an element, where it cannot be seen already.
    fn show(&self, id: &str);
    /// Goes to a field and selects all that stands in it.
    fn select(&self, id: &str);
    /// Chooses a value in a select.
    fn choose(&self, id: &str, value: &str);
    /// Moves a drawing aside within its frame until the run that is lit can be seen.
    fn show_lit(&self);
    /// Names the window.
    fn entitle(&self, title: &str);
    /// Draws the page for the sun, or no longer.
    fn draw_for_sun(&self, sun: bool);
    /// Before the ids of its elements and the names of its drafts, so that no two pages of a
    /// document have the same.
    fn prefix(&self) -> &str;

    /// Keeps the screen on, or no longer.
    fn hold(&self, on: bool);
    /// Whether steps can be read aloud.
    fn speaks(&self) -> bool;
    /// Reads a text aloud in place of what is being read; an empty one ends that.
    fn say(&self, text: &str);
    /// Copies a text.
    fn copy(&self, text: &str, done: Done);
    /// Whether the browser gives an address to other programs.
    fn shares(&self, address: &str) -> bool;
    /// Gives an address to another program.
    fn share(&self, title: &str, address: &str, done: Done);
    /// Saves a text as a file of JSON.
    fn save_text(&self, name: &str, text: &str);
    /// Saves a drawing as it is.
    fn save_as_drawn(&self, name: &str, svg: &str);
    /// Saves a drawing as points.
    fn save_as_points(&self, name: &str, svg: &str, size: (i32, i32));
    /// Reads the file chosen in a field, of at most so many bytes. Where there is none,
    /// nothing happens.
    fn read_file(&self, id: &str, most: u32, done: Box<dyn FnOnce(Chosen)>);
    /// Tells whether the browser has promised to keep what is kept; where `ask` is set it is
    /// asked to. Where it knows no such promise, nothing happens.
    fn ask_to_last(&self, ask: bool, done: Done);
    /// Prints the page.
    fn print(&self);
    /// Loads what comes later into this wasm.
    fn bring(&self, done: Done);
}

/// A link as it is given away: the page's own address with this fragment; the end of an
/// address alone where the page has none.
#[must_use]
pub fn whole(host: &dyn Host, link: &str) -> String {
    let mut text = host.page().unwrap_or_default();
    text.push('#');
    text.push_str(link);
    text
}
