//! What comes once the page is up: every room but the list, with what plans, finds faults,
//! keeps rigs and writes files. A first visit does not wait for it.
//!
//! `cargo xtask build` cuts it out of the wasm along the functions of [`There`] into a file of
//! its own (cargo feature `split`). A call into a file that is not there would be a trap, so
//! every way in is a method of a value that exists only once it is there. Built without that
//! feature all of it is there from the start.

use crate::act::{Do, Message};
use crate::job;
use crate::pen::Pen;
use crate::rooms::{self, Doing, Room, Wish};
use crate::shell::app::App;
use crate::state::State;
use std::cell::Cell;

/// How it stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Later {
    /// Nobody asked for it yet.
    Waiting,
    /// It is on its way.
    Coming,
    /// It is there.
    There,
    /// It did not come.
    Missing,
}

impl Default for Later {
    fn default() -> Self {
        if there().is_some() { Self::There } else { Self::Waiting }
    }
}

thread_local! {
    /// Whether the file is there. Of one wasm, however many pages it shows.
    static ARRIVED: Cell<bool> = const { Cell::new(!cfg!(feature = "split")) };
}

/// That it is there.
#[derive(Clone, Copy, Debug)]
pub struct There(());

/// The way in, once it is there.
#[must_use]
pub fn there() -> Option<There> {
    ARRIVED.get().then_some(There(()))
}

/// Its file was loaded into this wasm.
pub(crate) fn has_arrived() {
    ARRIVED.set(true);
}

/// It is not there, for what a test does: as on a first visit.
#[cfg(test)]
pub(crate) fn without<T>(does: impl FnOnce() -> T) -> T {
    ARRIVED.set(false);
    let done = does();
    ARRIVED.set(true);
    done
}

/// A function whose body comes later, by a number of its own: the name under which the body is
/// cut out, and that under which it is called.
macro_rules! later {
    ($($number:literal fn $name:ident($($given:ident: $of:ty),* $(,)?) $body:block)*) => {
        $(
            #[inline(never)]
            #[cfg_attr(feature = "split", allow(unsafe_code, improper_ctypes, improper_ctypes_definitions))]
            fn $name($($given: $of),*) {
                #[cfg(feature = "split")]
                {
                    #[link(wasm_import_module = "__wasm_split_placeholder__")]
                    unsafe extern "C" {
                        #[link_name = concat!("__wasm_split_00later00_import_", $number)]
                        safe fn import($($given: $of),*);
                    }
                    #[unsafe(export_name = concat!("__wasm_split_00later00_export_", $number))]
                    extern "C" fn export($($given: $of),*) $body
                    import($($given),*);
                }
                #[cfg(not(feature = "split"))]
                $body
            }
        )*
    };
}

later! {
    "00000000000000000000000000000001" fn room(pen: &mut Pen<'_>) {
        shown(pen);
    }
    "00000000000000000000000000000002" fn chosen(pen: &mut Pen<'_>) {
        rooms::chosen::view::panel(pen);
    }
    "00000000000000000000000000000003" fn plan(state: &mut State) {
        state.plan_anew();
    }
    "00000000000000000000000000000004" fn act_on_job(job: &mut job::Job, action: &mut Option<job::Action>) {
        if let Some(action) = action.take() {
            job.act(action);
        }
    }
    "00000000000000000000000000000005" fn act_in_room(
        state: &mut State,
        doing: &mut Option<Doing>,
        wish: &mut Wish,
    ) {
        if let Some(doing) = doing.take() {
            *wish = state.do_in_room(doing);
        }
    }
    "00000000000000000000000000000006" fn hear(app: &mut App, message: &mut Option<Message>, act: &Do) {
        if let Some(message) = message.take() {
            app.hear_later(message, act);
        }
    }
    "00000000000000000000000000000007" fn attend(app: &mut App, act: &Do) {
        app.attend(act);
    }
}

macro_rules! drawn {
    ($($(#[$about:meta])* $room:ident $folder:ident;)*) => {
        /// Writes the room that fills the page.
        fn shown(pen: &mut Pen) {
            match pen.state.page.room {
                $(Room::$room => rooms::$folder::view::show(pen),)*
            }
        }
    };
}

crate::all_rooms!(drawn);

impl There {
    /// Writes the room that fills the page.
    pub fn room(self, pen: &mut Pen) {
        room(pen);
    }

    /// Writes the panel of the chosen configuration.
    pub fn chosen(self, pen: &mut Pen) {
        chosen(pen);
    }

    /// Plans anew where what is planned has changed, and works out what right readings leave
    /// open where that is shown.
    pub fn plan(self, state: &mut State) {
        plan(state);
    }

    /// Goes on with a job.
    pub fn act_on_job(self, job: &mut job::Job, action: job::Action) {
        act_on_job(job, &mut Some(action));
    }

    /// Does something in a room.
    pub fn act_in_room(self, state: &mut State, doing: Doing) -> Wish {
        let mut wish = Wish::Nothing;
        act_in_room(state, &mut Some(doing), &mut wish);
        wish
    }

    /// Does what the page is told.
    pub fn hear(self, app: &mut App, message: Message, act: &Do) {
        hear(app, &mut Some(message), act);
    }

    /// What the rooms do to the browser around the page, after they were drawn.
    pub fn attend(self, app: &mut App, act: &Do) {
        attend(app, act);
    }
}
