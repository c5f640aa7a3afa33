//! From rigs that are kept to the text of a file.
//!
//! What a field holds and can be read stands in the request as a number, as it was typed
//! but for units and commas; what cannot be read yet stands among what is `typed`, by its
//! path, so that nothing is lost on the way.

use super::super::form::{
    AmplifierForm, At, BuildForm, Form, OutputForm, Place, most, watts_per_name,
};
use super::super::link;
use super::super::rigs::Record;
use super::super::text;
use super::super::wired::Work;
use super::json::Json;
use coilwright_solver::bounds::{Field, Kind, OPEN};
use coilwright_solver::meter::Reading;
use coilwright_solver::rig::{Cups, DISTANCES, TERMINALS};
use core::ops::RangeInclusive;

/// The closed box, as a file has it.
pub(super) const CLOSED_BOX: &str = "closed_box";

/// The steps that a file may name.
const STEPS: RangeInclusive<u32> = match Field::StepAtHand.spec().kind {
    Kind::Whole { least, most } => least..=most,
    _ => 1..=1,
};

/// What is typed and no value yet: where, and what.
type Typed = Vec<(String, String)>;

/// Writes a file of rigs.
#[must_use]
pub fn write(records: &[Record]) -> String {
    let mut json = Json::default();
    json.object("", |json| {
        json.plain("contract_version", "1");
        json.list("rigs", |json| {
            for record in records {
                json.object("", |json| rig(json, record));
            }
        });
    });
    json.done()
}

fn rig(json: &mut Json, record: &Record) {
    let Some(opened) = link::open(&record.link) else { return };
    let saved = opened.saved;
    let mut typed = Typed::new();
    json.text("name", &record.name);
    json.object("request", |json| request(json, &mut typed, &saved.form));
    if let Some(key) = saved.key.as_deref().filter(|key| is_key(key)) {
        json.text("key", key);
    }
    work(json, &saved.work);
    let shown = &saved.shown;
    if !shown.cup.is_empty() || !shown.leads.is_empty() {
        json.object(CLOSED_BOX, |json| {
            let cup = read(&shown.cup);
            reading(json, Field::CupReading, &cup);
            // Leads that are open, or read more than leads do, are no value of the contract.
            let leads = read(&shown.leads).filter(|leads| match leads {
                Reading::Ohms { ohms, .. } => Field::LeadsReading.number(*ohms).is_ok(),
                Reading::Open => false,
            });
            reading(json, Field::LeadsReading, &leads);
            if let Some(Reading::Ohms { count, .. }) = cup {
                step(json, Field::ReadingStep, count);
            }
            let places =
                [(Field::CupReading, cup, &shown.cup), (Field::LeadsReading, leads, &shown.leads)];
            for (field, read, raw) in places {
                if read.is_none() && !raw.is_empty() {
                    typed.push((path(CLOSED_BOX, field.spec().name), raw.clone()));
                }
            }
        });
    }
    if !saved.compared.is_empty() {
        json.list("compared", |json| {
            for one in saved.compared.iter().filter(|one| is_key(&one.key)) {
                json.object("", |json| {
                    json.text("key", &one.key);
                    if one.form != saved.form {
                        // It was read when it was put aside: nothing of it is no value yet.
                        json.object("request", |json| {
                            request(json, &mut Typed::new(), &one.form);
                        });
                    }
                });
            }
        });
    }
    for (point, raw) in &saved.work.read {
        if read(raw).is_none() {
            typed.push((path(Field::Readings.spec().name, &point.name()), raw.clone()));
        }
    }
    if !typed.is_empty() {
        json.list("typed", |json| {
            for (path, text) in typed.iter().take(most(Field::TypedTexts)) {
                json.object("", |json| {
                    json.text("path", path);
                    // Something longer was put there by mistake, and is no value in the making.
                    let cut: String = text.chars().take(longest(Field::TypedText)).collect();
                    json.text("text", &cut);
                });
            }
        });
    }
}

/// Whether a text from a link may be a key at all.
fn is_key(text: &str) -> bool {
    text.len() <= longest(Field::ChosenKey) && !text.chars().any(char::is_control)
}

/// The most characters of a text of the contract.
fn longest(text: Field) -> usize {
    match text.spec().kind {
        Kind::Text { most } | Kind::AnyText { most } => usize::try_from(most).unwrap_or(usize::MAX),
        _ => 0,
    }
}

/// Where something stands that is no value yet.
pub(super) fn path(of: &str, name: &str) -> String {
    [of, ".", name].concat()
}

fn read(raw: &str) -> Option<Reading> {
    text::reading(raw).ok().flatten()
}

fn request(json: &mut Json, typed: &mut Typed, form: &Form) {
    json.list(Field::Drivers.spec().name, |json| {
        for (i, group) in form.groups.iter().enumerate() {
            json.object("", |json| {
                name(json, typed, Place::Name(i), &group.name);
                value(json, typed, Place::Count(i), &group.count);
                value(json, typed, Place::Coils(i), &group.coils);
                value(json, typed, Place::Ohms(i), &group.ohms);
                value(json, typed, Place::Watts(i), &group.watts);
                json.text(Field::WattsPer.spec().name, watts_per_name(group.watts_per));
                value(json, typed, Place::Unused(i), &group.unused);
                measured(json, typed, Place::Measured(i), &group.measured);
            });
        }
    });
    if let Some(of) = &form.amplifier {
        json.object(Field::Amplifier.spec().name, |json| amplifier(json, typed, of));
    }
    if form.build != BuildForm::default() {
        json.object(Field::Build.spec().name, |json| build(json, typed, &form.build));
    }
    boolean(json, Field::JoinedOnly, form.joined_only);
    boolean(json, Field::EvenOnly, form.even_only);
}

fn boolean(json: &mut Json, field: Field, value: bool) {
    json.plain(field.spec().name, if value { "true" } else { "false" });
}

fn amplifier(json: &mut Json, typed: &mut Typed, of: &AmplifierForm) {
    value(json, typed, Place::AmplifierCount, &of.count);
    if of.channels_read().to_string() != of.channel_count.trim() {
        typed.push((Place::ChannelCount.path().to_string(), of.channel_count.clone()));
    }
    let shown = of.channels_shown();
    json.list(Field::Channels.spec().name, |json| {
        for i in 0..of.channels_read() {
            // Channels that are alike have one entry of the form between them.
            let (channel, mut copy) = (if i < shown { i } else { 0 }, Typed::new());
            let typed = if i < shown { &mut *typed } else { &mut copy };
            let figures = of.channels.get(channel).cloned().unwrap_or_default();
            json.object("", |json| output(json, typed, At::Channel(i), &figures));
        }
    });
    if !of.bridges.is_empty() {
        json.list(Field::Bridges.spec().name, |json| {
            for (i, bridge) in of.bridges.iter().enumerate() {
                json.object("", |json| {
                    let both =
                        [(Place::First(i), &bridge.first), (Place::Second(i), &bridge.second)];
                    let read = both.map(|(_, raw)| number(raw));
                    if let [Some(first), Some(second)] = &read {
                        json.list(Field::BridgeChannels.spec().name, |json| {
                            json.plain("", first);
                            json.plain("", second);
                        });
                    } else {
                        for (place, raw) in both {
                            typed.push((place.path().to_string(), raw.clone()));
                        }
                    }
                    output(json, typed, At::Bridge(i), &bridge.output);
                });
            }
        });
    }
}

/// A channel's number, where it may be one.
fn number(raw: &str) -> Option<String> {
    let number = raw.trim().parse::<u8>().ok()?;
    Some(number.to_string())
}

fn output(json: &mut Json, typed: &mut Typed, at: At, figures: &OutputForm) {
    value(json, typed, Place::Least(at), &figures.least);
    if figures.tied && matches!(at, At::Channel(_)) {
        json.plain(Field::TerminalPairs.spec().name, "2");
    }
    let rated = figures.rated.iter().filter(|point| !point.is_blank());
    json.list(at.rated().spec().name, |json| {
        for (i, point) in rated.enumerate() {
            json.object("", |json| {
                value(json, typed, Place::PointOhms(at, i), &point.ohms);
                value(json, typed, Place::PointWatts(at, i), &point.watts);
            });
        }
    });
}

fn build(json: &mut Json, typed: &mut Typed, form: &BuildForm) {
    json.text(Field::Cups.spec().name, &form.cups);
    // Elsewhere it is kept in the form and not read.
    if matches!(Cups::named(&form.cups), Some(Cups::Group(_))) {
        value(json, typed, Place::CupCount, &form.cup_count);
    }
    if !form.joined_at.is_empty() {
        json.text(Field::JoinedAt.spec().name, &form.joined_at);
    }
    json.text(Field::Fed.spec().name, &form.fed);
    if !form.reversed.is_empty() {
        json.list(Field::MountedReversed.spec().name, |json| {
            for driver in &form.reversed {
                json.plain("", &driver.to_string());
            }
        });
    }
    boolean(json, Field::Vehicle, !form.not_in_vehicle);
    value(json, typed, Place::Area, &form.area);
    for i in 0..DISTANCES.len() {
        let raw = form.metres.get(i).map_or("", String::as_str);
        value(json, typed, Place::Metres(i), raw);
    }
    for (i, (of, takes)) in TERMINALS.iter().zip(&form.takes).enumerate() {
        if *takes != Default::default() {
            json.object(of.spec().name, |json| {
                value(json, typed, Place::Conductors(i), &takes.conductors);
                boolean(json, Field::PushOn, takes.push_on);
                value(json, typed, Place::Largest(i), &takes.largest);
            });
        }
    }
}

/// What a group is called, where it is.
fn name(json: &mut Json, typed: &mut Typed, place: Place, raw: &str) {
    match place.field().text(raw) {
        Ok("") => {}
        Ok(name) => json.text(place.field().spec().name, name),
        Err(_) => typed.push((place.path().to_string(), raw.to_owned())),
    }
}

/// Measured ohms, where there are some.
fn measured(json: &mut Json, typed: &mut Typed, place: Place, raw: &str) {
    match text::list(place.field(), raw) {
        Ok(None) if raw.trim().is_empty() => {}
        Ok(Some(list)) => json.list(place.field().spec().name, |json| {
            for ohms in list {
                json.plain("", &text::decimal(ohms));
            }
        }),
        Ok(None) | Err(_) => typed.push((place.path().to_string(), raw.to_owned())),
    }
}

/// A value of the form: a number where it can be read, else noted as it was typed.
fn value(json: &mut Json, typed: &mut Typed, place: Place, raw: &str) {
    let field = place.field();
    match text::as_number(field, raw) {
        // A unit alone is no value either.
        Ok(None) if raw.trim().is_empty() => {}
        Ok(Some(plain)) => match token(&plain) {
            Some(number) => json.plain(field.spec().name, &number),
            // A fraction.
            None => json.text(field.spec().name, &plain),
        },
        Ok(None) | Err(_) => typed.push((place.path().to_string(), raw.to_owned())),
    }
}

/// Digits with at most one point as JSON writes a number: no zeros before it that say
/// nothing.
fn token(plain: &str) -> Option<String> {
    if !plain.bytes().all(|b| b.is_ascii_digit() || b == b'.') {
        return None;
    }
    let (whole, places) = plain.split_once('.').unwrap_or((plain, ""));
    let whole = whole.trim_start_matches('0');
    let mut number = String::from(if whole.is_empty() { "0" } else { whole });
    if !places.is_empty() {
        number.push('.');
        number.push_str(places);
    }
    Some(number)
}

/// How far the work is.
fn work(json: &mut Json, work: &Work) {
    // A link may name steps that no plan has.
    let numbered = |from_0: u16| Some(u32::from(from_0) + 1).filter(|step| STEPS.contains(step));
    if let Some(at) = numbered(work.at).filter(|at| *at > 1) {
        json.plain("step", &at.to_string());
    }
    if !work.done.is_empty() {
        json.list("done", |json| {
            for done in work.done.iter().filter_map(|done| numbered(*done)) {
                json.plain("", &done.to_string());
            }
        });
    }
    if work.read.is_empty() && work.asked.is_empty() {
        return;
    }
    json.list(Field::Readings.spec().name, |json| {
        // As many as are taken back: more than that nobody reads on one plan.
        let room = most(Field::SavedReadings).saturating_sub(work.asked.len());
        for (point, raw) in work.read.iter().filter(|(_, raw)| read(raw).is_some()).take(room) {
            let Some(shown) = read(raw) else { continue };
            json.object("", |json| {
                json.text(Field::CheckPoint.spec().name, &point.name());
                reading(json, Field::Reads, &Some(shown));
                if let Reading::Ohms { count, .. } = shown {
                    step(json, Field::ReadsStep, count);
                }
            });
        }
        for (question, answer) in &work.asked {
            json.object("", |json| {
                json.text(Field::Question.spec().name, question.name());
                boolean(json, Field::Answered, *answer);
            });
        }
    });
}

fn reading(json: &mut Json, field: Field, read: &Option<Reading>) {
    match read {
        None => {}
        Some(Reading::Open) => json.text(field.spec().name, OPEN),
        Some(Reading::Ohms { ohms, .. }) => {
            json.plain(field.spec().name, &text::decimal(*ohms));
        }
    }
}

/// The smallest step that the meter shows.
fn step(json: &mut Json, field: Field, count: f64) {
    json.plain(field.spec().name, &text::decimal(count));
}
