//! From the value of a file to rigs, all of them or none.

use super::written::path;
use crate::aside::Compared;
use crate::job::against::Against;
use crate::job::work::Work;
use crate::link::Saved;
use crate::question::fields::{
    AmplifierForm, BridgeForm, BuildForm, GroupForm, OutputForm, Part, PointForm, Row, Shape, Slot,
    TakesForm,
};
use crate::question::form::Form;
use crate::question::place::{At, Place};
use crate::question::text;
use crate::rooms::RoomsKept;
use crate::rooms::closed::state::Shown;
use coilwright_module::reader::{self, Entry, RequestDraft, SavedRig};
use coilwright_module::value::Value;
use coilwright_solver::bounds::{Default as Left, Field};
use coilwright_solver::meter::{Point, Reading};
use coilwright_solver::problem::Problem;
use coilwright_solver::rig::{
    AmplifierDraft, BridgeDraft, BuildDraft, ChannelDraft, GroupDraft, JoinedAt, PointDraft,
};

/// Reads a file: the name of each rig, which may be empty, and what is kept of it.
///
/// # Errors
/// Every problem with the file.
pub fn read(value: &Value) -> Result<Vec<(String, Saved)>, Vec<Problem>> {
    Ok(reader::file(value)?.into_iter().map(rig).collect())
}

fn rig(of: SavedRig) -> (String, Saved) {
    let name = of.name.unwrap_or_default();
    let mut form = form(&of.request, &of.typed);
    for (at, text) in &of.typed {
        write(&mut form, at, text);
    }
    let mut work = Work {
        at: step(of.step),
        done: of.done.into_iter().map(step).collect(),
        ..Work::default()
    };
    work.done.sort_unstable();
    for entry in of.readings {
        match entry {
            Entry::Read(read) => work.note(read.point, &shown(read.reading)),
            Entry::Answer(question, answer) => work.say(question, answer),
        }
    }
    let typed_against = of.typed.iter().find(|(at, _)| at == Field::Against.spec().name);
    work.against = match (&of.against, typed_against) {
        (Some(words), _) => Against::said(words),
        (None, Some((_, words))) => Against::typed(words),
        (None, None) => Against::default(),
    };
    let mut cup = Shown::default();
    if let Some(found) = of.closed_box {
        cup.cup = found.reading.map_or_else(String::new, shown);
        cup.leads = found.leads.map_or_else(String::new, text::decimal);
    }
    for (at, text) in &of.typed {
        let of_readings = path(Field::SavedReadings, "");
        if let Some(point) = at.strip_prefix(&of_readings).and_then(Point::named) {
            work.note(point, text);
        }
        for (field, into) in
            [(Field::CupReading, &mut cup.cup), (Field::LeadsReading, &mut cup.leads)]
        {
            if *at == path(Field::SavedBox, field.spec().name) && into.is_empty() {
                into.clone_from(text);
            }
        }
    }
    let compared = of.compared.into_iter().map(|one| Compared {
        form: match &one.request {
            Some(request) => self::form(request, &[]),
            None => form.clone(),
        },
        key: one.key,
    });
    let compared = compared.collect();
    let rooms = RoomsKept { closed: cup, ..RoomsKept::default() };
    (name, Saved { key: of.key, compared, work, rooms, ..Saved::of(form) })
}

/// A step, counted from 0.
fn step(counted_from_1: u32) -> u16 {
    u16::try_from(counted_from_1.saturating_sub(1)).unwrap_or(u16::MAX)
}

/// A reading as it stood on the meter: its last place is the count.
fn shown(reading: Reading) -> String {
    let Reading::Ohms { ohms, count } = reading else { return "OL".to_owned() };
    let mut text = text::decimal(ohms);
    let places = text.split_once('.').map_or(0, |(_, places)| places.len());
    let mut wanted = 0;
    let mut unit = 1.0;
    while unit > count * 1.5 && wanted < 4 {
        unit /= 10.0;
        wanted += 1;
    }
    if places == 0 && wanted > 0 {
        text.push('.');
    }
    for _ in places..wanted {
        text.push('0');
    }
    text
}

fn form(of: &RequestDraft, typed: &[(String, String)]) -> Form {
    let mut form = Form {
        groups: of.draft.groups.iter().zip(&of.names).map(group).collect(),
        amplifier: of.draft.amplifier.as_ref().map(|of| amplifier(of, typed)),
        build: build(&of.build),
        joined_only: of.joined_only,
        even_only: of.even_only,
    };
    if form.groups.is_empty() {
        form.groups = Form::default().groups;
    }
    form
}

/// The text of a value as one would type it; `None` where there is none.
fn typed_as(slot: Slot<'_>) -> Option<String> {
    match slot {
        Slot::Whole(of) => Some((*of)?.to_string()),
        Slot::Ohms(of) => of.map(text::ohms_given),
        Slot::Watts(of) => of.map(|watts| text::decimal(watts.to_f64())),
        Slot::Number(of) => of.map(text::decimal),
        Slot::Numbers(of) => {
            let texts: Vec<String> = of.iter().flatten().copied().map(text::decimal).collect();
            Some(texts.join(" "))
        }
        Slot::Per(of) => Some(of.name().to_owned()),
        Slot::Cups(of) => Some(of.name().to_owned()),
        Slot::Joined(of) => Some(of.map_or("", JoinedAt::name).to_owned()),
        Slot::Fed(of) => Some(of.name().to_owned()),
        Slot::Nowhere => None,
    }
}

/// A part of the form with the values that were read. What was left out is as usual where the
/// contract says what that is, and else blank.
fn texts<P: Part + Default>(draft: &mut P::Draft) -> P {
    let mut part = P::default();
    for (at, (row, into)) in P::ROWS.iter().zip(part.texts_mut()).enumerate() {
        put(row, typed_as(P::slot(draft, at)), into);
    }
    part
}

fn put(row: &Row, text: Option<String>, into: &mut String) {
    let usual = row.shape == Shape::Choice || row.field.spec().default != Left::Required;
    match text {
        Some(text) => *into = text,
        None if usual => {}
        None => into.clear(),
    }
}

fn group((of, name): (&GroupDraft, &Option<String>)) -> GroupForm {
    GroupForm { name: name.clone().unwrap_or_default(), ..texts(&mut of.clone()) }
}

fn points(of: &[PointDraft]) -> Vec<PointForm> {
    of.iter().map(|point| texts(&mut point.clone())).collect()
}

fn channel(of: &ChannelDraft) -> OutputForm {
    let tied = of.terminal_pairs == Some(2);
    OutputForm { rated: points(&of.rated), tied, ..texts(&mut of.clone()) }
}

fn amplifier(of: &AmplifierDraft, typed: &[(String, String)]) -> AmplifierForm {
    let mut form: AmplifierForm = texts(&mut of.clone());
    let mut channels: Vec<OutputForm> = of.channels.iter().map(channel).collect();
    let count = channels.len();
    // Something typed for another than the first makes them unlike.
    let of_others = typed
        .iter()
        .any(|(path, _)| (1..count).any(|i| path.starts_with(At::Channel(i).path().as_str())));
    form.alike = !of_others && channels.iter().all(|one| Some(one) == channels.first());
    form.channel_count = count.max(1).to_string();
    if form.alike {
        channels.truncate(1);
    }
    if !channels.is_empty() {
        form.channels = channels;
    }
    form.bridges = of.bridges.iter().map(bridge).collect();
    form
}

fn bridge(of: &BridgeDraft) -> BridgeForm {
    let both = of.channels.map(|both| both.map(|channel| channel.to_string()));
    let [first, second] = both.unwrap_or_default();
    let figures = ChannelDraft { least: of.least, rated: of.rated.clone(), terminal_pairs: None };
    BridgeForm { first, second, output: channel(&figures) }
}

fn build(of: &BuildDraft) -> BuildForm {
    let mut form: BuildForm = texts(&mut of.clone());
    form.reversed.clone_from(&of.mounted_reversed);
    form.reversed.sort_unstable();
    form.not_in_vehicle = of.not_in_vehicle;
    for (into, takes) in form.takes.iter_mut().zip(&of.takes) {
        *into = TakesForm { push_on: takes.push_on, ..texts(&mut takes.clone()) };
    }
    form
}

/// Writes what is no value yet to its place; what is chosen of a few always is one.
fn write(form: &mut Form, path: &str, text: &str) {
    let typed = |place: &Place| place.shape() != Shape::Choice && place.path().as_str() == path;
    let mut places = form.places().into_iter().map(|(place, _)| place);
    if let Some(place) = places.find(typed) {
        form.set(place, text.to_owned());
    }
}
