//! From the value of a file to rigs, all of them or none.

use super::written::path;
use crate::aside::Compared;
use crate::job::against::Against;
use crate::job::work::Work;
use crate::link::Saved;
use crate::question::form::{
    AmplifierForm, At, BridgeForm, BuildForm, Form, GroupForm, OutputForm, Place, PointForm,
};
use crate::question::text;
use crate::rooms::RoomsKept;
use crate::rooms::closed::state::Shown;
use coilwright_module::reader::{self, Entry, RequestDraft, SavedRig};
use coilwright_module::value::Value;
use coilwright_solver::bounds::Field;
use coilwright_solver::meter::{Point, Reading};
use coilwright_solver::ohms::{Ohms, Watts};
use coilwright_solver::problem::Problem;
use coilwright_solver::rig::{AmplifierDraft, BuildDraft, ChannelDraft, GroupDraft, PointDraft};

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

fn whole(number: Option<u32>) -> String {
    number.map_or_else(String::new, |number| number.to_string())
}

fn watts(watts: Option<Watts>) -> String {
    watts.map_or_else(String::new, |watts| text::decimal(watts.to_f64()))
}

fn ohms(ohms: Option<Ohms>) -> String {
    ohms.map_or_else(String::new, text::ohms_given)
}

fn group((of, name): (&GroupDraft, &Option<String>)) -> GroupForm {
    let empty = GroupForm::default();
    GroupForm {
        name: name.clone().unwrap_or_default(),
        count: whole(of.count),
        coils: of.coils.map_or(empty.coils, |coils| coils.to_string()),
        ohms: ohms(of.ohms),
        watts: watts(of.watts),
        watts_per: of.watts_per,
        unused: of.unused.map_or(empty.unused, |unused| unused.to_string()),
        measured: measured(of.dc_ohms.as_deref().unwrap_or_default()),
    }
}

fn measured(ohms: &[f64]) -> String {
    let mut text = String::new();
    for ohms in ohms {
        if !text.is_empty() {
            text.push(' ');
        }
        text.push_str(&text::decimal(*ohms));
    }
    text
}

fn points(of: &[PointDraft]) -> Vec<PointForm> {
    let point =
        |point: &PointDraft| PointForm { ohms: ohms(point.ohms), watts: watts(point.watts) };
    of.iter().map(point).collect()
}

fn channel(of: &ChannelDraft) -> OutputForm {
    let tied = of.terminal_pairs == Some(2);
    OutputForm { least: ohms(of.least), rated: points(&of.rated), tied }
}

fn amplifier(of: &AmplifierDraft, typed: &[(String, String)]) -> AmplifierForm {
    let empty = AmplifierForm::default();
    let mut channels: Vec<OutputForm> = of.channels.iter().map(channel).collect();
    let count = channels.len();
    // Something typed for another than the first makes them unlike.
    let of_others = typed
        .iter()
        .any(|(path, _)| (1..count).any(|i| path.starts_with(At::Channel(i).path().as_str())));
    let alike = !of_others && channels.iter().all(|one| Some(one) == channels.first());
    if alike {
        channels.truncate(1);
    }
    if channels.is_empty() {
        channels = empty.channels;
    }
    let bridge = |of: &coilwright_solver::rig::BridgeDraft| {
        let [first, second] = of
            .channels
            .map_or_else(Default::default, |both| both.map(|channel| channel.to_string()));
        let (least, rated) = (ohms(of.least), points(&of.rated));
        BridgeForm { first, second, output: OutputForm { least, rated, tied: false } }
    };
    AmplifierForm {
        count: of.count.map_or(empty.count, |count| count.to_string()),
        channel_count: if count == 0 { empty.channel_count } else { count.to_string() },
        alike,
        channels,
        bridges: of.bridges.iter().map(bridge).collect(),
    }
}

fn build(of: &BuildDraft) -> BuildForm {
    let mut form = BuildForm {
        cups: of.cups.name().to_owned(),
        cup_count: whole(of.cup_count),
        joined_at: of.joined_at.map_or("", |at| at.name()).to_owned(),
        fed: of.fed.name().to_owned(),
        reversed: of.mounted_reversed.clone(),
        not_in_vehicle: of.not_in_vehicle,
        ..BuildForm::default()
    };
    form.reversed.sort_unstable();
    if let Some(area) = of.conductor_mm2 {
        form.area = text::decimal(area);
    }
    for (into, metres) in form.metres.iter_mut().zip(of.metres) {
        if let Some(metres) = metres {
            *into = text::decimal(metres);
        }
    }
    for (into, takes) in form.takes.iter_mut().zip(&of.takes) {
        into.conductors = whole(takes.conductors);
        into.push_on = takes.push_on;
        into.largest = takes.largest_mm2.map_or_else(String::new, text::decimal);
    }
    form
}

/// Writes what is no value yet to its place.
fn write(form: &mut Form, path: &str, text: &str) {
    let place = places(form).into_iter().find(|place| place.path().as_str() == path);
    if let Some(place) = place {
        form.set(place, text.to_owned());
    }
}

/// Every field of a form that people type into.
fn places(form: &Form) -> Vec<Place> {
    let mut places = vec![Place::AmplifierCount, Place::ChannelCount, Place::CupCount, Place::Area];
    for i in 0..form.groups.len() {
        places.extend([Place::Name(i), Place::Count(i), Place::Ohms(i), Place::Watts(i)]);
        places.extend([Place::Unused(i), Place::Measured(i)]);
    }
    if let Some(amplifier) = &form.amplifier {
        let channels = (0..amplifier.channels.len()).map(At::Channel);
        for at in channels.chain((0..amplifier.bridges.len()).map(At::Bridge)) {
            places.push(Place::Least(at));
            let rated = form.output(at).map_or(0, |output| output.rated.len());
            for i in 0..rated {
                places.extend([Place::PointOhms(at, i), Place::PointWatts(at, i)]);
            }
        }
        for i in 0..amplifier.bridges.len() {
            places.extend([Place::First(i), Place::Second(i)]);
        }
    }
    places.extend((0..form.build.metres.len()).map(Place::Metres));
    for i in 0..form.build.takes.len() {
        places.extend([Place::Conductors(i), Place::Largest(i)]);
    }
    places
}
