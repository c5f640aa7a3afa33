//! From rigs that are kept to the text of a file.
//!
//! What a field holds and can be read stands in the request as a number, as it was typed
//! but for units and commas; what cannot be read yet stands among what is `typed`, by its
//! path, so that nothing is lost on the way.

use super::json::{ENTRY, Json};
use crate::job::work::Work;
use crate::link;
use crate::question::fields::{
    Amplifier, AmplifierForm, Bridge, BuildForm, Built, Group, Output, OutputForm, Part, Rated,
    Shape, Takes,
};
use crate::question::form::{Form, longest, most};
use crate::question::place::{At, Place};
use crate::question::text;
use crate::rooms::rigs::Record;
use coilwright_solver::bounds::{Field, Kind, OPEN};
use coilwright_solver::meter::Reading;
use coilwright_solver::rig::{Cups, TERMINALS};

/// What is typed and no value yet: where, and what.
type Typed = Vec<(String, String)>;

/// Writes a file of rigs.
#[must_use]
pub fn write(records: &[Record]) -> String {
    let mut json = Json::default();
    json.object(ENTRY, |json| {
        json.plain(Field::FileVersion, "1");
        json.list(Field::Rigs, |json| {
            for record in records {
                json.object(ENTRY, |json| rig(json, record));
            }
        });
    });
    json.done()
}

fn rig(json: &mut Json, record: &Record) {
    let Some(opened) = link::open(&record.link) else { return };
    let saved = opened.saved;
    let mut typed = Typed::new();
    json.text(Field::RigName, &record.name);
    json.object(Field::Asked, |json| request(json, &mut typed, &saved.form));
    if let Some(key) = saved.key.as_deref().filter(|key| is_key(key)) {
        json.text(Field::ChosenKey, key);
    }
    work(json, &saved.work);
    let against = &saved.work.against;
    if against.went {
        json.text(Field::Against, &against.words);
    } else if !against.words.is_empty() {
        typed.push((Field::Against.spec().name.to_owned(), against.words.clone()));
    }
    let shown = &saved.rooms.closed;
    if !shown.cup.is_empty() || !shown.leads.is_empty() {
        json.object(Field::SavedBox, |json| {
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
                    typed.push((path(Field::SavedBox, field.spec().name), raw.clone()));
                }
            }
        });
    }
    if !saved.compared.is_empty() {
        json.list(Field::PutAside, |json| {
            for one in saved.compared.iter().filter(|one| is_key(&one.key)) {
                json.object(ENTRY, |json| {
                    json.text(Field::ComparedKey, &one.key);
                    if one.form != saved.form {
                        // It was read when it was put aside: nothing of it is no value yet.
                        json.object(Field::ComparedRequest, |json| {
                            request(json, &mut Typed::new(), &one.form);
                        });
                    }
                });
            }
        });
    }
    for (point, raw) in &saved.work.read {
        if read(raw).is_none() {
            typed.push((path(Field::SavedReadings, &point.name()), raw.clone()));
        }
    }
    if !typed.is_empty() {
        json.list(Field::TypedTexts, |json| {
            for (path, text) in typed.iter().take(most(Field::TypedTexts)) {
                json.object(ENTRY, |json| {
                    json.text(Field::TypedPath, path);
                    // Something longer was put there by mistake, and is no value in the making.
                    let cut: String = text.chars().take(longest(Field::TypedText)).collect();
                    json.text(Field::TypedText, &cut);
                });
            }
        });
    }
}

/// Whether a text from a link may be a key at all.
fn is_key(text: &str) -> bool {
    Field::ChosenKey.text(text).is_ok()
}

/// Where something stands that is no value yet.
pub(super) fn path(of: Field, name: &str) -> String {
    [of.spec().name, ".", name].concat()
}

fn read(raw: &str) -> Option<Reading> {
    text::reading(raw).ok().flatten()
}

fn request(json: &mut Json, typed: &mut Typed, form: &Form) {
    json.list(Field::Drivers, |json| {
        for (i, group) in form.groups.iter().enumerate() {
            json.object(ENTRY, |json| {
                texts(json, typed, group, Group::ALL, |row| Place::Group(i, row));
            });
        }
    });
    if let Some(of) = &form.amplifier {
        json.object(Field::Amplifier, |json| amplifier(json, typed, of));
    }
    if form.build != BuildForm::default() {
        json.object(Field::Build, |json| build(json, typed, &form.build));
    }
    boolean(json, Field::JoinedOnly, form.joined_only);
    boolean(json, Field::EvenOnly, form.even_only);
}

/// The texts of a part of the form.
fn texts<R: Copy>(
    json: &mut Json,
    typed: &mut Typed,
    part: &impl Part,
    rows: &[R],
    place: impl Fn(R) -> Place,
) {
    for (raw, row) in part.texts().into_iter().zip(rows) {
        text(json, typed, place(*row), raw);
    }
}

/// A text of the form as its field takes it; noted as typed where it is no value yet.
fn text(json: &mut Json, typed: &mut Typed, place: Place, raw: &str) {
    let words = matches!(place.field().spec().kind, Kind::OneOfWords(_));
    match place.shape() {
        Shape::Text => name(json, typed, place, raw),
        Shape::Numbers => measured(json, typed, place, raw),
        Shape::Choice if words && raw.is_empty() => {}
        Shape::Choice if words => json.text(place.field(), raw),
        Shape::Choice | Shape::Number => value(json, typed, place, raw),
    }
}

fn boolean(json: &mut Json, field: Field, value: bool) {
    json.plain(field, if value { "true" } else { "false" });
}

fn amplifier(json: &mut Json, typed: &mut Typed, of: &AmplifierForm) {
    value(json, typed, Place::Amplifier(Amplifier::Count), &of.count);
    if of.channels_read().to_string() != of.channel_count.trim() {
        typed.push((
            Place::Amplifier(Amplifier::Channels).path().to_string(),
            of.channel_count.clone(),
        ));
    }
    let shown = of.channels_shown();
    json.list(Field::Channels, |json| {
        for i in 0..of.channels_read() {
            // Channels that are alike have one entry of the form between them.
            let (channel, mut copy) = (if i < shown { i } else { 0 }, Typed::new());
            let typed = if i < shown { &mut *typed } else { &mut copy };
            let figures = of.channels.get(channel).cloned().unwrap_or_default();
            json.object(ENTRY, |json| output(json, typed, At::Channel(i), &figures));
        }
    });
    if !of.bridges.is_empty() {
        json.list(Field::Bridges, |json| {
            for (i, bridge) in of.bridges.iter().enumerate() {
                json.object(ENTRY, |json| {
                    let both = [
                        (Place::Bridge(i, Bridge::First), &bridge.first),
                        (Place::Bridge(i, Bridge::Second), &bridge.second),
                    ];
                    let read = both.map(|(_, raw)| number(raw));
                    if let [Some(first), Some(second)] = &read {
                        json.list(Field::BridgeChannels, |json| {
                            json.plain(ENTRY, first);
                            json.plain(ENTRY, second);
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
    texts(json, typed, figures, Output::ALL, |row| Place::Output(at, row));
    if figures.tied && matches!(at, At::Channel(_)) {
        json.plain(Field::TerminalPairs, "2");
    }
    let rated = figures.rated.iter().filter(|point| !point.is_blank());
    json.list(at.rated(), |json| {
        for (i, point) in rated.enumerate() {
            json.object(ENTRY, |json| {
                texts(json, typed, point, Rated::ALL, |row| Place::Rated(at, i, row));
            });
        }
    });
}

fn build(json: &mut Json, typed: &mut Typed, form: &BuildForm) {
    let groups = matches!(Cups::named(&form.cups), Some(Cups::Group(_)));
    for (raw, of) in form.texts().into_iter().zip(Built::ALL) {
        // What is no text stands where the contract has it.
        if *of == Built::Area {
            lists(json, form);
        }
        // Without groups the count is kept in the form and not read.
        if *of != Built::CupCount || groups {
            text(json, typed, Place::Box(*of), raw);
        }
    }
    for (i, (of, takes)) in TERMINALS.iter().zip(&form.takes).enumerate() {
        if *takes != Default::default() {
            json.object(*of, |json| {
                value(json, typed, Place::Takes(i, Takes::Conductors), &takes.conductors);
                boolean(json, Field::PushOn, takes.push_on);
                value(json, typed, Place::Takes(i, Takes::Largest), &takes.largest);
            });
        }
    }
}

fn lists(json: &mut Json, form: &BuildForm) {
    if !form.reversed.is_empty() {
        json.list(Field::MountedReversed, |json| {
            for driver in &form.reversed {
                json.plain(ENTRY, &driver.to_string());
            }
        });
    }
    boolean(json, Field::Vehicle, !form.not_in_vehicle);
}

/// What a group is called, where it is.
fn name(json: &mut Json, typed: &mut Typed, place: Place, raw: &str) {
    match place.field().text(raw) {
        Ok("") => {}
        Ok(name) => json.text(place.field(), name),
        Err(_) => typed.push((place.path().to_string(), raw.to_owned())),
    }
}

/// Measured ohms, where there are some.
fn measured(json: &mut Json, typed: &mut Typed, place: Place, raw: &str) {
    match text::list(place.field(), raw) {
        Ok(None) if raw.trim().is_empty() => {}
        Ok(Some(list)) => json.list(place.field(), |json| {
            for ohms in list {
                json.plain(ENTRY, &text::decimal(ohms));
            }
        }),
        Ok(None) | Err(_) => typed.push((place.path().to_string(), raw.to_owned())),
    }
}

/// A value of the form: a number where it can be read, else noted as it was typed.
fn value(json: &mut Json, typed: &mut Typed, place: Place, raw: &str) {
    let field = place.field();
    let of_ohms = matches!(field.spec().kind, Kind::Ohms { .. });
    match text::as_number(field, raw) {
        // A unit alone is no value either.
        Ok(None) if raw.trim().is_empty() => {}
        Ok(Some(plain)) => match token(&plain) {
            Some(number) if !(of_ohms && padded(&number)) => json.plain(field, &number),
            // A fraction, or ohms whose last decimal a number would lose.
            _ => json.text(field, &plain),
        },
        Ok(None) | Err(_) => typed.push((place.path().to_string(), raw.to_owned())),
    }
}

/// Whether a number ends in a decimal that adds nothing to it.
fn padded(number: &str) -> bool {
    number.contains('.') && number.ends_with('0')
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
    let numbered = |from_0: u16| Field::StepAtHand.whole(f64::from(from_0) + 1.0).ok();
    if let Some(at) = numbered(work.at).filter(|at| *at > 1) {
        json.plain(Field::StepAtHand, &at.to_string());
    }
    if !work.done.is_empty() {
        json.list(Field::StepsDone, |json| {
            for done in work.done.iter().filter_map(|done| numbered(*done)) {
                json.plain(ENTRY, &done.to_string());
            }
        });
    }
    if work.read.is_empty() && work.asked.is_empty() {
        return;
    }
    json.list(Field::SavedReadings, |json| {
        // As many as are taken back: more than that nobody reads on one plan.
        let room = most(Field::SavedReadings).saturating_sub(work.asked.len());
        let shown = work.read.iter().filter_map(|(point, raw)| Some((point, read(raw)?)));
        for (point, shown) in shown.take(room) {
            json.object(ENTRY, |json| {
                json.text(Field::CheckPoint, &point.name());
                reading(json, Field::Reads, &Some(shown));
                if let Reading::Ohms { count, .. } = shown {
                    step(json, Field::ReadsStep, count);
                }
            });
        }
        for (question, answer) in &work.asked {
            json.object(ENTRY, |json| {
                json.text(Field::Question, question.name());
                boolean(json, Field::Answered, *answer);
            });
        }
    });
}

fn reading(json: &mut Json, field: Field, read: &Option<Reading>) {
    match read {
        None => {}
        Some(Reading::Open) => json.text(field, OPEN),
        Some(Reading::Ohms { ohms, .. }) => {
            json.plain(field, &text::decimal(*ohms));
        }
    }
}

/// The smallest step that the meter shows.
fn step(json: &mut Json, field: Field, count: f64) {
    json.plain(field, &text::decimal(count));
}
