//! What can happen to the page, and the states that come of it.

use super::Room;
use super::asking::Answered;
use super::closed::Probes;
use super::form::{AmplifierForm, At, BridgeForm, GroupForm, Place, PointForm};
use super::link::{self, LeftOut};
use super::rigs::{Mine, Told};
use super::wired::Zoom;
use coilwright_solver::answer::{Order, Progress};
use coilwright_solver::closed_box::Filling;
use coilwright_solver::meter::{Diagnosis, Point, Question};
use coilwright_solver::nearest::{Change, Found};
use coilwright_solver::ohms::Ohms;
use core::ops::Range;
use std::rc::Rc;

/// How the answering of the present request stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Asking {
    /// There is nothing to answer, or it is answered.
    Idle,
    /// It is being worked on.
    Working(Progress),
    /// The visitor stopped it.
    Stopped,
    /// It was being worked on when the page stopped last time; it waits for a tap.
    Waiting,
}

/// What was removed, to be put back with one tap.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Removed {
    /// A driver group, from this place.
    Group(usize, GroupForm),
    /// The amplifier.
    Amplifier(AmplifierForm),
    /// A bridge, from this place.
    Bridge(usize, BridgeForm),
    /// A rated point, from this place.
    Point(At, usize, PointForm),
}

/// What came of giving the link away.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Handed {
    /// Nothing that is to be told: it was passed on, or something was done since.
    #[default]
    No,
    /// It was copied.
    Copied,
    /// The browser did neither: it stands in a field, to be copied by hand.
    Shown,
}

/// Something the visitor should know.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Notice {
    /// Parts of a link were left out.
    LeftOut(Vec<LeftOut>),
    /// What is typed cannot be kept on this device: the browser refuses.
    NotKept,
    /// Nor can it where there is no space left.
    Full,
    /// The chosen configuration is not among those of the rig.
    KeyUnknown,
}

/// What can happen.
#[derive(Clone, Debug)]
pub enum Action {
    /// A field was typed into.
    Set(Place, String),
    /// A driver group is wanted.
    AddGroup,
    /// A driver group goes.
    RemoveGroup(usize),
    /// An amplifier is wanted.
    AddAmplifier,
    /// The amplifier goes.
    RemoveAmplifier,
    /// All channels are alike, or not.
    Alike(bool),
    /// A bridge is wanted.
    AddBridge,
    /// A channel has two pairs of terminals, or one.
    Tied(usize, bool),
    /// A bridge goes.
    RemoveBridge(usize),
    /// A rated point goes.
    RemovePoint(At, usize),
    /// What was removed last comes back.
    PutBack,
    /// The filter on joining is on, or off.
    JoinedOnly(bool),
    /// The filter on evenness is on, or off.
    EvenOnly(bool),
    /// An order is chosen.
    Order(Order),
    /// Only configurations with a load are wanted, or all.
    Load(Option<Ohms>),
    /// A band of the ladder is opened, or the last one closed.
    Band(Option<Range<usize>>),
    /// A group of the list is opened, or closed.
    Group(Option<u32>),
    /// A page of the list is turned to.
    Page(u32),
    /// A configuration is chosen, or none.
    Choose(Option<String>),
    /// The browser went back or forth to a choice and a room.
    Return(Option<String>, Room),
    /// Back to the list: from a room, or from the chosen configuration.
    Leave,
    /// What the meter showed at a closed box is typed.
    Shown(Probes, String),
    /// What may be in a closed box is taken into the rig.
    PlanWith(Filling),
    /// Another room is wanted.
    Room(Room),
    /// The plan of a configuration is wanted.
    Wire(String),
    /// A step of the plan is looked at, counted from 0.
    Step(u16),
    /// A run is touched: the step that places it is looked at.
    Run(usize),
    /// The run after the one lit is lit, or the one before.
    NextRun(bool),
    /// A step is done, or not.
    Done(u16, bool),
    /// The step at hand is done; the next is looked at.
    DoneNext,
    /// What the meter showed at a point is typed.
    Read(Point, String),
    /// The field of a point is wanted, at its step.
    GoTo(Point),
    /// Why somebody goes on against the meter is typed.
    Against(String),
    /// Somebody goes on against it, with what was typed.
    GoAgainst,
    /// A question about an easy cause is answered.
    Say(Question, bool),
    /// What was read and said in search of a fault is forgotten.
    Forget,
    /// What is wrong was worked out.
    Found(Rc<Diagnosis>),
    /// An explanation by its number is drawn as built, or the plan again.
    Explain(Option<u8>),
    /// Nothing is done yet.
    StartOver,
    /// The drawing is larger or smaller.
    Zoom(Zoom),
    /// Steps are read aloud, or no longer.
    Aloud(bool),
    /// The steps were copied, or what they were has changed.
    Copied(bool),
    /// Something came of giving the link away.
    Handed(Handed),
    /// A driver, counted from 1, is mounted facing in, or not.
    Reversed(u32, bool),
    /// The amplifier is in a vehicle, or not.
    Vehicle(bool),
    /// Terminals of a sort are push-on tabs, or not.
    PushOn(usize, bool),
    /// A configuration of the rig is put aside to compare, or taken back.
    Compare(String),
    /// One of those put aside goes.
    LeaveOut(usize),
    /// A change to the rig that would make something fit is made.
    Change(Change),
    /// The page is drawn for the sun, or no longer.
    Sun,
    /// An empty form is wanted.
    StartEmpty,
    /// The example is wanted.
    ShowExample,
    /// What stood in the fields before is wanted.
    Previous,
    /// A link was opened while the page was running, or a rig that is kept.
    Open(Box<link::Opened>, Mine),
    /// The listing is this far.
    Progress(Progress),
    /// A request is answered.
    Answered(Rc<Answered>),
    /// It is known what would fit where nothing does.
    Nearest(Rc<Vec<Found>>),
    /// The listing is to stop.
    Stop,
    /// The listing is to go on after all.
    GoOn,
    /// What is typed could not be kept, because of this.
    NotKept(Notice),
    /// The name of the rig is typed.
    Name(String),
    /// What came of a wish about the rigs that are kept.
    Rigs(Told),
    /// The page is kept on this device, or a newer version of it is.
    Kept {
        /// Whether it is a newer one.
        newer: bool,
    },
    /// The newer version can wait.
    Later,
    /// A notice was read.
    Dismiss(usize),
}
