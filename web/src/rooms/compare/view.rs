//! Configurations side by side, also of different rigs: one table, rows that differ marked.

use crate::state::State;
use crate::words::page::room;
use crate::parts::circuit::{SMALL_ROOM, picture};
use crate::parts::verdict::verdict;
use crate::pen::Pen;
use crate::words::page::{self as say, compare as words};
use crate::words::{
    counts, failure as fail, judged, level, percent, rig as rig_words, watts, ways,
};
use crate::parts::tied::tied;
use crate::parts::top::top;
use crate::aside::Action;
use crate::aside;
use coilwright_solver::answer::Configuration;
use coilwright_solver::given::driver_watts;
use coilwright_solver::rig::Rig;
use coilwright_solver::{failure, level as levels};

type Column = (Rig, Configuration, Vec<String>);

/// The class of the page.
pub const PAGE: &str = "page page-compare";
/// What leads past the fields, and where.
pub const SKIP: (&str, &str) = (room::TO_COMPARE, "room");

/// The title of the window.
#[must_use]
pub fn title(state: &State) -> String {
    let count = state.aside.compared.len();
    let count = if count > 0 { room::compared(count) } else { String::new() };
    room::title(words::HEADING, &[&count])
}

/// The room.
pub fn show(pen: &mut Pen) {
    pen.room("section.sheet wide-room", "compare", 0, room);
}

fn room(pen: &mut Pen) {
    let state = pen.state;
    pen.open("");
    top(pen, "h2.tab|id=room|tabindex=-1", words::HEADING, "quiet");
    if state.aside.compared.is_empty() {
        pen.line("p", words::EMPTY);
        return pen.close();
    }
    pen.line("p.hints", words::READ);
    pen.open("div.compare-scroll|tabindex=0|role=region");
    pen.fixed("aria-label", words::HEADING);
    table(pen);
    pen.close();
    pen.line("p.hints", level::CLOSE_TOGETHER);
    let full = state.aside.compared.len() >= aside::MOST;
    pen.line("p.hints", if full { words::FULL } else { words::MORE });
    pen.open("p.chosen-acts");
    pen.to_room("quiet", words::BACK_FOR_MORE, crate::rooms::Room::List);
    pen.close();
    pen.close();
}

fn table(pen: &mut Pen) {
    // What cannot be read was left out before it got here.
    let mut columns: Vec<Column> = Vec::new();
    for aside in &pen.state.aside.compared {
        if let Some((rig, one)) = aside.read() {
            columns.push((rig, one, aside.form.names()));
        }
    }
    pen.open("table.compare|role=table");
    pen.open("thead|role=rowgroup");
    pen.open("tr|role=row");
    pen.open("td|role=cell");
    pen.close();
    for (i, (_, one, _)) in columns.iter().enumerate() {
        let mut remove = String::from(words::REMOVE);
        remove.push(' ');
        remove.push_str(&network(one));
        pen.open("th|scope=col|role=columnheader");
        pen.line_of("b", words::number(i + 1));
        pen.named("quiet", words::REMOVE, remove, Action::LeaveOut(i));
        pen.close();
    }
    pen.close();
    pen.close();
    pen.open("tbody|role=rowgroup");
    pictures(pen, &columns);
    for (name, tell) in ROWS {
        told_row(pen, name, &columns, tell);
        if name == words::RIG {
            called(pen, &columns);
        }
    }
    louder(pen, &columns);
    pen.close();
    pen.close();
}

/// A row of the table: its name and what it says of each.
type Tell = fn(&Rig, &Configuration) -> String;

const ROWS: [(&str, Tell); 12] = [
    (words::RIG, |rig, _| rig_words::summary(rig)),
    (words::LOAD, |_, one| {
        let mut text = String::new();
        for output in &one.outputs {
            add(&mut text, &rig_words::load(output.load));
        }
        text
    }),
    (words::VERDICT, |_, one| judged::verdict(one.verdict).to_owned()),
    (words::NETWORK, |_, one| network(one)),
    (words::USE, |rig, one| ways::describe(rig, &one.outputs)),
    (words::TARGET, |_, one| one.target_watts().map_or_else(|| words::UNKNOWN.to_owned(), watts)),
    (words::EACH, |rig, one| {
        let each = driver_watts(rig, one, |output| output.target_watts);
        each.map_or_else(|| shares(one), |each| say::watts_each(&each))
    }),
    (words::GIVES, |_, one| {
        let mut text = String::new();
        for output in &one.outputs {
            match &output.available {
                Some(given) => add(&mut text, &judged::available(given)),
                None => add(&mut text, words::UNKNOWN),
            }
        }
        text
    }),
    (words::HEAT, |_, one| {
        let heat = one.overheats().map(|heat| judged::heat_beside(one.verdict, heat));
        heat.unwrap_or_else(|| words::UNKNOWN.to_owned())
    }),
    (words::EVEN, |_, one| words::even(one.even).to_owned()),
    (words::RUNS, |_, one| {
        let joined = words::joined(one.joined_at_driver);
        format!("{}, {joined}", counts::runs(one.runs))
    }),
    (words::FAILS, |rig, one| {
        failure::worst(rig, one).map_or_else(String::new, |worst| fail::opens(rig, one, &worst))
    }),
];

/// Adds one of several, unless it says the same.
fn add(text: &mut String, more: &str) {
    if text.is_empty() {
        text.push_str(more);
    } else if !text.split(';').any(|part| part.strip_prefix(' ').unwrap_or(part) == more) {
        text.push_str("; ");
        text.push_str(more);
    }
}

fn network(one: &Configuration) -> String {
    let mut text = String::new();
    for output in &one.outputs {
        add(&mut text, &output.network.to_string());
    }
    text
}

/// What each driver gets of the whole, where watts are not known.
fn shares(one: &Configuration) -> String {
    let mut text = String::new();
    for share in &one.driver_shares {
        add(&mut text, &percent(*share));
    }
    text
}

fn told_row(pen: &mut Pen, name: &'static str, columns: &[Column], tell: Tell) {
    let mut cells = Vec::new();
    for (rig, one, _) in columns {
        cells.push(tied(&tell(rig, one)));
    }
    let differs = cells.iter().any(|cell| Some(cell) != cells.first());
    pen.open(row_of(differs));
    head(pen, name, differs);
    for (cell, (_, one, _)) in cells.into_iter().zip(columns) {
        if name == words::VERDICT {
            pen.open("td|role=cell");
            verdict(pen, one.verdict);
            pen.close();
        } else {
            pen.line_of("td|role=cell", cell);
        }
    }
    pen.close();
}

/// What the drivers are called, where any are.
fn called(pen: &mut Pen, columns: &[Column]) {
    let Some((_, _, first)) = columns.first() else { return };
    if columns.iter().all(|(_, _, names)| names.iter().all(String::is_empty)) {
        return pen.nothing();
    }
    let differs = columns.iter().any(|(_, _, names)| names != first);
    pen.open(row_of(differs));
    head(pen, words::NAMES, differs);
    for (rig, _, names) in columns {
        pen.open("td|role=cell");
        crate::parts::named::listed(pen, rig, names);
        pen.close();
    }
    pen.close();
}

/// A row, marked where what stands in it differs. It says that it is one, since on a small
/// screen it is laid out as none.
const fn row_of(differs: bool) -> &'static str {
    if differs { "tr.differs|role=row" } else { "tr|role=row" }
}

fn head(pen: &mut Pen, name: &'static str, differs: bool) {
    pen.open("th|scope=row|role=rowheader");
    pen.text(name);
    if differs {
        pen.line("span.differs-mark", words::DIFFERS);
    }
    pen.close();
}

fn pictures(pen: &mut Pen, columns: &[Column]) {
    let first = columns.first().map(|(_, one, _)| network(one));
    let differs = columns.iter().any(|(_, one, _)| Some(network(one)) != first);
    pen.open(row_of(differs));
    head(pen, words::CIRCUIT, differs);
    for (_, one, _) in columns {
        pen.open("td|role=cell");
        picture(pen, one, SMALL_ROOM);
        pen.close();
    }
    pen.close();
}

/// How much louder each is than the first, or why that cannot be told.
fn louder(pen: &mut Pen, columns: &[Column]) {
    let Some(((rig, first, _), others)) = columns.split_first() else { return };
    let mut told = Vec::new();
    for (other, one, _) in others {
        told.push(match levels::difference((rig, first), (other, one)) {
            Ok(decibels) => level::difference(decibels),
            Err(why) => level::why_not(why).to_owned(),
        });
    }
    let differs = told.iter().any(|words| *words != level::difference(0.0));
    pen.open(row_of(differs));
    head(pen, words::LEVEL, differs);
    pen.line("td|role=cell", words::FIRST);
    for words in told {
        pen.line_of("td|role=cell", words);
    }
    pen.close();
}
