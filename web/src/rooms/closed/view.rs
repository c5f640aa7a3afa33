//! What is in a closed box: two fields, the lowest load large, what amplifier, and what may
//! be in it.

use crate::state::State;
use crate::words::page::room as room_words;
use crate::parts::blank::hints;
use crate::parts::verdict::verdict;
use crate::parts::load::big;
use crate::pen::{Pen, What};
use crate::parts::reading::{self, Alone, misread};
use crate::words::cautions::{self, Caution};
use crate::words::closed_box as say;
use crate::words::gate::OL;
use crate::words::judged::{self, Limit};
use crate::words::page;
use crate::words::rig as rig_words;
use crate::parts::tied::tied;
use crate::parts::top::top;
use super::state::Action;
use crate::rooms::closed::state::{Entered, Probes, Unled};
use crate::question::text;
use coilwright_solver::closed_box::{self, ClosedBox, Filling, Hint, Possible};
use coilwright_solver::judge::Verdict;
use coilwright_solver::ohms::Ohms;

/// The class of the page.
pub const PAGE: &str = "page page-closed";
/// What leads past the fields, and where.
pub const SKIP: (&str, &str) = (room_words::TO_CLOSED, "room");

/// The title of the window.
#[must_use]
pub fn title(_state: &State) -> String {
    room_words::title(say::TITLE, &[])
}

/// The room.
pub fn show(pen: &mut Pen) {
    // Short, and written anew with every letter.
    pen.open("section.sheet wide-room closed");
    room(pen);
    pen.close();
}

fn room(pen: &mut Pen) {
    let shown = &pen.state.rooms.closed;
    let cup = text::reading(&shown.cup).err().map(misread);
    let leads = shown.read_leads().err().map(|unled| match unled {
        Unled::Misread(why) => misread(why),
        Unled::Open => say::LEADS_NOT_OPEN,
    });
    let found = shown.found();
    pen.open("");
    top(pen, "h2.tab|id=room|tabindex=-1", say::TITLE, "quiet");
    pen.line("p.closed-about", say::ABOUT);
    pen.line("p.closed-caution", cautions::text(Caution::CablesOff));
    hints(pen, "ul.hints|id=closed-how", &say::HOW.map(Some));
    pen.open("div.closed-ask");
    field(pen, Probes::Cup, "cup-reading", say::AT_THE_CUP, cup);
    field(pen, Probes::Touching, "leads-reading", say::LEADS, leads);
    pen.close();
    pen.open("div.closed-says|role=status");
    match &found {
        Some(found) => says(pen, found),
        None if cup.or(leads).is_none() => pen.line("p.note", say::EMPTY),
        None => pen.nothing(),
    }
    pen.close();
    pen.open("");
    if let Some(found) = &found {
        if let Some(lowest) = found.lowest {
            amplifier(pen, lowest);
        }
        loads(pen, found);
    }
    pen.close();
    pen.line("p.hints", say::NEVER_TOLD);
    pen.close();
}

/// A field for a reading, and what is wrong with it.
fn field(
    pen: &mut Pen,
    probes: Probes,
    id: &'static str,
    label: &'static str,
    trouble: Option<&'static str>,
) {
    let ol = (probes == Probes::Cup).then(|| Action::Shown(probes, OL.to_owned()).into());
    let (raw, what) = (pen.state.rooms.closed.at(probes), What::Shown(probes));
    reading::alone(pen, Alone { id, label, raw, trouble, how: "closed-how", what, ol });
}

/// The answer: the lowest load, what amplifier, what it amounts to.
fn says(pen: &mut Pen, found: &ClosedBox) {
    let Some(lowest) = found.lowest else {
        let spec = match found.hint {
            Hint::Short => "p.note note-wrong",
            _ => "p.note note-stale",
        };
        return pen.line(spec, say::hint(found.hint));
    };
    pen.open("p.closed-lowest");
    big(pen, lowest);
    pen.line("span.closed-of", say::LOWEST);
    pen.close();
    pen.line_of("p.target", tied(&say::amplifier(lowest, found.least)));
    pen.line_of("p", tied(&say::amounts_to(found)));
}

/// Whether it may hang on the amplifier of the form.
fn amplifier(pen: &mut Pen, lowest: Ohms) {
    let entered = Entered::of(&pen.state.question);
    pen.open("div.closed-amplifier");
    pen.line("h3", say::YOUR_AMPLIFIER);
    match entered {
        Entered::Unread => pen.line("p", say::AMPLIFIER_UNREAD),
        Entered::Amplifier(amplifier) => {
            let hangs = closed_box::hangs(&amplifier, lowest);
            if hangs.iter().all(|one| one.verdict == Verdict::NotStated) {
                pen.line("p", say::NO_AMPLIFIER);
                return pen.close();
            }
            pen.open("ul.closed-outputs");
            for one in &hangs {
                let because = judged::reason(lowest, Limit::of(Some(&one.figures)));
                pen.open("li");
                pen.line_of("b", page::heading(&say::outputs(&amplifier, one)));
                verdict(pen, one.verdict);
                pen.line_of("span.because", tied(&page::alone(&because)));
                pen.close();
            }
            pen.close();
        }
        Entered::None => pen.line("p", say::NO_AMPLIFIER),
    }
    pen.close();
}

/// The loads that are possible, each with what makes it.
fn loads(pen: &mut Pen, found: &ClosedBox) {
    if found.lowest.is_none() {
        return pen.nothing();
    }
    let (likely, hardly): (Vec<&Possible>, Vec<&Possible>) =
        found.loads.iter().partition(|one| one.likely >= say::HARDLY);
    pen.open("div.closed-loads");
    pen.line("h3", say::LOADS);
    pen.open("ol.closed-list");
    for one in likely {
        pen.open("li.closed-load");
        pen.open("p.closed-load-top");
        pen.line_of("b", tied(&rig_words::load(one.load)));
        pen.line("span", say::likely(one.likely));
        pen.close();
        pen.open("ul");
        for (at, filling) in one.fillings.iter().enumerate() {
            if at == 0 || filling.likely >= say::HARDLY {
                inside(pen, filling);
            }
        }
        pen.close();
        pen.close();
    }
    pen.close();
    if hardly.is_empty() {
        pen.nothing();
    } else {
        pen.line_of("p.hints", tied(&say::not_ruled_out(&hardly)));
    }
    pen.close();
}

/// What may be in the box, and the way to plan with it.
fn inside(pen: &mut Pen, filling: &Filling) {
    pen.open("li.closed-inside");
    pen.line_of("span", tied(&say::filling(filling)));
    pen.named("quiet", say::PLAN, say::plan_with(filling), Action::PlanWith(*filling));
    pen.close();
}
