//! The rooms of the page. Each is a folder: what it remembers and can do (`state`), what it
//! shows (`view`), its part of a link, its tests. No room knows another: it is given the
//! question and what is published ([`Given`]), and what it wants of the page it says
//! ([`Wish`]).
//!
//! A room more is a folder and a line of `all_rooms!`.

use crate::answer::Answer;
use crate::question::Question;
use crate::question::form::Form;
use crate::tracked::Tracked;
use coilwright_solver::ohms::Ohms;

/// Calls a macro with every room: its variant of [`Room`], and its folder. Links hold the
/// parts of rooms in this order.
#[macro_export]
macro_rules! all_rooms {
    ($what:ident) => {
        $what! {
            /// What may be in a closed box.
            Closed closed;
            /// A rig that is wired already.
            Already already;
            /// The ladder and the list.
            List list;
            /// Configurations side by side.
            Compare compare;
            /// The plan of the chosen configuration.
            Wire wire;
            /// The same, one step at a time.
            Work work;
            /// The job sheet.
            Sheet sheet;
            /// The rigs that are kept by name.
            Rigs rigs;
            /// Help.
            Help help;
        }
    };
}

// Beside the list, and no room of its own.
pub mod chosen;

/// What rooms are given.
#[derive(Clone, Copy, Debug)]
pub struct Given<'a> {
    /// What stands in the fields.
    pub question: &'a Question,
    /// What was answered.
    pub answer: &'a Answer,
}

/// What a room wants of the page.
#[derive(Clone, Debug, PartialEq)]
pub enum Wish {
    /// Nothing.
    Nothing,
    /// To begin anew with another form, and to look at a load of it.
    Begin(Box<Form>, Option<Ohms>),
    /// That what is kept of the page is another.
    Touch,
}

/// What a room remembers, and its part of a link.
pub trait Remembers: Default {
    /// What can be done in it.
    type Action;
    /// What of it a link holds.
    type Kept: Kept;

    /// Does what is wanted.
    fn act(&mut self, action: Self::Action, given: Given<'_>) -> Wish;

    /// Whether an action is the visitor's own, and not what came of an earlier one.
    fn is_done(_action: &Self::Action) -> bool {
        true
    }

    /// What a link holds of it; nothing, as a rule.
    fn kept(&self) -> Self::Kept {
        Self::Kept::default()
    }

    /// Begins with what a link held.
    fn begin(&mut self, _kept: Self::Kept) {}
}

/// A room's part of a link.
pub trait Kept: Default {
    /// Writes parts: each has a name and a value.
    fn write(&self, part: &mut dyn FnMut(&str, &str));

    /// Reads a part. `None` where no part has that name here, `Some(None)` where its value
    /// cannot be.
    fn read(&mut self, name: &str, value: &str) -> Option<Option<()>>;
}

/// Of rooms of which links hold nothing.
impl Kept for () {
    fn write(&self, _part: &mut dyn FnMut(&str, &str)) {}

    fn read(&mut self, _name: &str, _value: &str) -> Option<Option<()>> {
        None
    }
}

/// What nobody can do.
#[derive(Clone, Copy, Debug)]
pub enum Never {}

/// Of rooms that remember nothing.
#[derive(Clone, Copy, Debug, Default)]
pub struct Plain;

impl Remembers for Plain {
    type Action = Never;
    type Kept = ();

    fn act(&mut self, action: Never, _given: Given<'_>) -> Wish {
        match action {}
    }
}

macro_rules! make {
    ($($(#[$about:meta])* $room:ident $folder:ident;)*) => {
        $(pub mod $folder;)*

        /// What fills the page beside the fields.
        #[derive(Clone, Copy, Debug, PartialEq, Eq)]
        pub enum Room {
            $($(#[$about])* $room,)*
        }

        impl Room {
            /// All of them.
            pub const ALL: &[Self] = &[$(Self::$room),*];

            /// Its name in links.
            #[must_use]
            pub const fn name(self) -> &'static str {
                match self {
                    $(Self::$room => $folder::NAME,)*
                }
            }

            /// Whether it is about the plan.
            #[must_use]
            pub const fn is_on_plan(self) -> bool {
                match self {
                    $(Self::$room => $folder::ON_PLAN,)*
                }
            }
        }

        /// What is done in a room.
        #[derive(Clone, Debug)]
        pub enum Doing {
            $($(#[$about])* $room(<$folder::State as Remembers>::Action),)*
        }

        impl Doing {
            /// Whether it is the visitor's own, and not what came of something earlier.
            #[must_use]
            pub fn is_done(&self) -> bool {
                match self {
                    $(Self::$room(action) => $folder::State::is_done(action),)*
                }
            }
        }

        /// What every room remembers.
        #[derive(Clone, Debug, Default)]
        pub struct Rooms {
            $($(#[$about])* pub $folder: Tracked<$folder::State>,)*
        }

        impl Rooms {
            /// Does what is wanted in a room.
            pub fn act(&mut self, doing: Doing, given: Given<'_>) -> Wish {
                match doing {
                    $(Doing::$room(action) => self.$folder.act(action, given),)*
                }
            }

            /// What a link holds of them.
            #[must_use]
            pub fn kept(&self) -> RoomsKept {
                RoomsKept { $($folder: self.$folder.kept(),)* }
            }

            /// Begins with what a link held.
            pub fn begin(&mut self, kept: RoomsKept) {
                $(self.$folder.begin(kept.$folder);)*
            }
        }

        /// What a link holds of the rooms.
        #[derive(Clone, Debug, Default, PartialEq, Eq)]
        #[allow(clippy::struct_field_names, reason = "they are the rooms")]
        pub struct RoomsKept {
            $($(#[$about])* pub $folder: <$folder::State as Remembers>::Kept,)*
        }

        impl Kept for RoomsKept {
            fn write(&self, part: &mut dyn FnMut(&str, &str)) {
                $(self.$folder.write(part);)*
            }

            fn read(&mut self, name: &str, value: &str) -> Option<Option<()>> {
                $(
                    let read = self.$folder.read(name, value);
                    if read.is_some() {
                        return read;
                    }
                )*
                None
            }
        }
    };
}

all_rooms!(make);

impl Default for Room {
    fn default() -> Self {
        Self::List
    }
}
