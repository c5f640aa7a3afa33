//! The whole state as text: the link's fragment and the stored draft.
//!
//! ```text
//! link    = "v=1" *( "&" part )              fixed order when written, any when read
//! part    = "key=" key                       the chosen configuration
//!         | "view=" room                     what fills the page, but the list: compare,
//!                                            help, wire, work, sheet, closed, rigs,
//!                                            already
//!         | "job=" step "~" hex              the step at hand; a bit for each that is done
//!         | "meter=" point "~" text *( "~" point "~" text )   what the meter showed
//!         | "asked=" question ( "0" / "1" ) *( "~" … )      easy causes, asked in words
//!         | "against=" ( "0" / "1" ) "~" text    why somebody goes on against the meter, as
//!                                            typed, or as it was said
//!         | "waits=" link                     work on another plan, to come back with it
//!         | "work=", "read="                 the first two by the numbers that steps had
//!                                            before leads were read first; not written again
//!         | "reads=" text                     what the cup of a rig that is wired already reads
//!         | "cup=" text "~" text                what the meter showed at a closed box, and
//!                                            with its leads touching
//!         | ( "customer=" / "vehicle=" / "done_by=" ) text    the head of the job sheet, where
//!                                            typed
//!         | "order=" order                   best, load, power, runs; where chosen
//!         | "load=" ohms                     the rung that was tapped: `4` or `8/3`
//!         | "compare=" ( key | link )        once for each put aside; of another rig its link
//!         | "joined_only=0" | "even_only=0"  filters that are off
//!         | "names=" text *( "~" text )      what the groups are called, where any is
//!         | "measured=" text *( "~" text ) measured ohms of the groups, where any are
//!         | "drivers=" group                 once for each group
//!         | "amplifier=" amp                 where there is one; then its outputs:
//!         | "channel=" output                once for each channel with fields of its own
//!         | "bridge=" channel "~" channel "~" output
//!         | "box=" cups "~" count "~" joined "~" fed [ "~room" ]
//!         | "reversed=" driver *( "~" driver )              mounted facing in
//!         | "wire=" mm2 5*( "~" metres )
//!         | "terminals=" takes "~" takes "~" takes          of driver, cup, amplifier
//! group   = count "~" coils "~" ohms "~" watts [ "~coil" ] [ "~unused" n ]
//! takes   = conductors ":" mm2 [ ":tab" ]
//! amp     = count "~" channels [ "~unlike" ]
//! output  = least *( "~" ohms ":" watts ) [ "~tied" ]       two pairs of terminals, tied
//! ```
//! An empty end of `takes` or of a point may be left out with its colon, and is where a link
//! would hold `:~:` else, at which browsers cut what a page sees of its address.
//! Values are the raw texts of the fields. In them everything but ASCII letters,
//! digits and `.` `-` `_` `/` is percent-encoded; keys keep `:` `+` `(` `)` too.
//! The form comes last, so that a link ends in a letter or digit nearly always and
//! survives programs that cut punctuation off the end of an address.

mod build;
pub mod escape;
mod reader;
mod texts;

use crate::aside::Compared;
use crate::job::begun::Begun;
use crate::job::work::Work;
use crate::question::example;
use crate::question::fields::OutputForm;
use crate::question::form::Form;
use crate::rooms::{Kept, Room, RoomsKept};
use coilwright_solver::bounds::Field;
use escape::{escaped, unescaped};
use reader::Reader;

/// The end of an output with two pairs of terminals.
const TIED: &str = "~tied";

/// From here on browsers keep an address to themselves (WICG, URL Fragment Text Directives):
/// what a page sees of its fragment ends before it.
const DIRECTIVE: &str = ":~:";

/// Values whose last parts are empty without these: none ends in a colon then.
fn without_empty_ends(value: &str) -> String {
    let values: Vec<&str> = value.split('~').map(|value| value.trim_end_matches(':')).collect();
    values.join("~")
}

/// The version that is written.
const VERSION: &str = "1";

/// Everything that a link holds.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Saved {
    /// What stands in the fields.
    pub form: Form,
    /// The chosen configuration.
    pub key: Option<String>,
    /// What was put aside to compare.
    pub compared: Vec<Compared>,
    /// What fills the page.
    pub room: Room,
    /// How far the work on the plan is.
    pub work: Work,
    /// Work on other plans than that of the fields, until they are planned again.
    pub waits: Vec<Begun>,
    /// What rooms hold of their own.
    pub rooms: RoomsKept,
}

impl Saved {
    /// Whether both hold the same as far as somebody entered it.
    #[must_use]
    pub fn is_same(&self, other: &Self) -> bool {
        self.form == other.form
            && self.work == other.work
            && self.waits == other.waits
            && self.rooms.closed == other.rooms.closed
            && self.rooms.already == other.rooms.already
            && self.rooms.sheet == other.rooms.sheet
    }

    /// Whether somebody entered something.
    #[must_use]
    pub fn is_worth_keeping(&self) -> bool {
        let typed = self.form != example::marigold() && self.form != Form::default();
        typed
            || self.work != Default::default()
            || !self.waits.is_empty()
            || self.rooms.closed != Default::default()
            || self.rooms.already != Default::default()
            || self.rooms.sheet != Default::default()
    }

    /// A form alone.
    #[must_use]
    pub fn of(form: Form) -> Self {
        Self {
            form,
            key: None,
            compared: Vec::new(),
            room: Room::List,
            work: Work::default(),
            waits: Vec::new(),
            rooms: RoomsKept::default(),
        }
    }
}

/// What a link was opened as.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Opened {
    /// What could be opened.
    pub saved: Saved,
    /// What was left out, part by part.
    pub left_out: Vec<LeftOut>,
}

/// A part of a link that was left out.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum LeftOut {
    /// The link is of a version this page does not know; it was read as far as possible.
    Version(String),
    /// A part that nobody knows, by its name.
    Unknown(String),
    /// A part whose value cannot be, by its name.
    Impossible(String),
    /// One part too many of a kind, by its name.
    TooMany(&'static str),
}

/// Writes the state.
#[must_use]
pub fn write(saved: &Saved) -> String {
    let mut link = String::from("v=");
    link.push_str(VERSION);
    let mut part = |name: &str, value: &str| {
        link.push('&');
        link.push_str(name);
        link.push('=');
        if value.contains(DIRECTIVE) {
            link.push_str(&without_empty_ends(value));
        } else {
            link.push_str(value);
        }
    };
    if let Some(key) = &saved.key {
        part("key", &escaped(key, b":+()"));
    }
    if saved.room != Room::List {
        part("view", saved.room.name());
    }
    let Work { at, done, read, asked, against, old } = &saved.work;
    if *at > 0 || !done.is_empty() {
        part(if *old { "work" } else { "job" }, &build::work(&saved.work));
    }
    if !read.is_empty() {
        part(if *old { "read" } else { "meter" }, &build::readings(&saved.work));
    }
    if !asked.is_empty() {
        part("asked", &build::asked(&saved.work));
    }
    if !against.words.is_empty() {
        part("against", &build::against(against));
    }
    for Begun { origin, work } in &saved.waits {
        let (key, work) = (origin.key.clone(), work.clone());
        let of = Saved { key, work, ..Saved::of(origin.form.clone()) };
        part("waits", &escaped(&write(&of), b":+()"));
    }
    saved.rooms.write(&mut part);
    for one in &saved.compared {
        let value = if one.same_rig(&saved.form) {
            escaped(&one.key, b":+()")
        } else {
            let key = Some(one.key.clone());
            escaped(&write(&Saved { key, ..Saved::of(one.form.clone()) }), b":+()")
        };
        part("compare", &value);
    }
    if !saved.form.joined_only {
        part(Field::JoinedOnly.spec().name, "0");
    }
    if !saved.form.even_only {
        part(Field::EvenOnly.spec().name, "0");
    }
    build::write(&saved.form.build, &mut part);
    texts::write_apart(&saved.form.groups, &mut part);
    for group in &saved.form.groups {
        let mut value = String::new();
        texts::write(group, "drivers", '~', &mut value);
        texts::write_behind(group, &mut value);
        part("drivers", &value);
    }
    if let Some(amplifier) = &saved.form.amplifier {
        let mut value = String::new();
        texts::write(amplifier, "amplifier", '~', &mut value);
        if !amplifier.alike {
            value.push_str("~unlike");
        }
        part("amplifier", &value);
        for channel in &amplifier.channels {
            let mut value = String::new();
            output(channel, &mut value);
            part("channel", &value);
        }
        for bridge in &amplifier.bridges {
            let mut value = String::new();
            texts::write(bridge, "bridge", '~', &mut value);
            value.push('~');
            output(&bridge.output, &mut value);
            part("bridge", &value);
        }
    }
    link
}

fn output(output: &OutputForm, value: &mut String) {
    texts::write(output, "channel", '~', value);
    for point in &output.rated {
        value.push('~');
        texts::write(point, "channel", ':', value);
    }
    if output.tied {
        value.push_str(TIED);
    }
}

/// Opens a fragment, with or without its `#`. `None` if it is no link of ours.
#[must_use]
pub fn open(fragment: &str) -> Option<Opened> {
    let text = fragment.strip_prefix('#').unwrap_or(fragment);
    let mut parts = text.split('&');
    let version = parts.next()?.strip_prefix("v=")?;
    let mut reader = Reader::default();
    if version != VERSION {
        let version = unescaped(version).unwrap_or_default();
        reader.left_out.push(LeftOut::Version(version));
    }
    for part in parts {
        let (name, value) = part.split_once('=').unwrap_or((part, ""));
        let name_text = unescaped(name).unwrap_or_else(|| name.to_string());
        if reader.part(name, value).is_none() {
            reader.left_out.push(LeftOut::Impossible(name_text));
        }
    }
    Some(reader.finish())
}

#[cfg(test)]
pub(crate) mod tests;
