//! How the box is built: a sentence to fill in, and what else a plan needs to know.

use crate::question::fields::{Built, Takes};
use crate::parts::blank::{Blank, blank, choice, hints, id_of, message, word};
use crate::pen::Pen;
use crate::words::names::{of_driver, with};
use crate::words::page::wire as say;
use crate::words::{fields, problems};
use crate::question::Edit;
use crate::question::fields::{BuildForm};
use crate::question::place::{Place};
use coilwright_solver::bounds::Field;
use coilwright_solver::rig::{Cups, Fed, JoinedAt};

/// The form of the box.
pub(super) fn form(pen: &mut Pen) {
    let state = pen.state;
    let form = &state.question.form.build;
    pen.open("fieldset.part box");
    pen.line("legend", say::BOX);
    pen.open("div.say");
    pen.open("span.phrase phrase-lead");
    word(pen, say::IT_HAS);
    let cups = [Cups::None, Cups::One, Cups::Group(None), Cups::Driver, Cups::Coil];
    let cups = cups.map(|cups| (cups.name(), say::cups(cups)));
    choice(pen, Place::Box(Built::Cups), &form.cups, fields::label(Field::Cups), &cups);
    pen.close();
    if Cups::named(&form.cups) == Some(Cups::Group(None)) {
        pen.open("span.phrase");
        blank(pen, plain(Place::Box(Built::CupCount), &form.cup_count, ""));
        pen.close();
    } else {
        pen.nothing();
    }
    let fed = [(Fed::Chain.name(), say::CHAIN), (Fed::Star.name(), say::STAR)];
    pen.open("span.phrase");
    choice(pen, Place::Box(Built::Fed), &form.fed, fields::label(Field::Fed), &fed);
    pen.close();
    if has_tied_pairs(pen) {
        let at = [None, Some(JoinedAt::Amplifier), Some(JoinedAt::Box)];
        let at = at.map(|at| (at.map_or("", JoinedAt::name), say::joined_at(at)));
        pen.open("span.phrase");
        choice(pen, Place::Box(Built::JoinedAt), &form.joined_at, fields::label(Field::JoinedAt), &at);
        pen.close();
    } else {
        pen.nothing();
    }
    pen.close();
    hints(pen, "ul.hints", &[fields::hint(Field::Fed)]);
    for place in [Place::Box(Built::Cups), Place::Box(Built::JoinedAt), Place::Box(Built::Fed)] {
        wrong(pen, place);
    }
    pen.tick(fields::label(Field::Vehicle), "", !form.not_in_vehicle, {
        Edit::Vehicle(form.not_in_vehicle)
    });
    lengths(pen);
    terminals(pen, form);
    facing_in(pen, form);
    pen.close();
}

fn plain<'a>(place: Place, raw: &'a str, unit: &'static str) -> Blank<'a> {
    Blank { place, raw, label: fields::label(place.field()), unit, more: None }
}

/// What stands in the way of a plan, at the choice that is its cause.
fn wrong(pen: &mut Pen, place: Place) {
    let path = place.path();
    let read = pen.state.question.read.at(place).map(message);
    let wired = pen.state.job.wired.as_deref().and_then(|wired| wired.plan.as_ref().err());
    let planned = wired.filter(|problem| problem.path == path).map(problems::message);
    pen.open("");
    if let Some(words) = read.or(planned) {
        pen.open("p.trouble|role=alert");
        pen.made("id", {
            let mut id = id_of(path.as_str());
            id.push_str("-trouble");
            id
        });
        pen.said(words);
        pen.close();
    }
    pen.close();
}

fn has_tied_pairs(pen: &Pen) -> bool {
    let form = &pen.state.question.form;
    let channels = form.amplifier.as_ref().map_or(&[][..], |amplifier| &amplifier.channels);
    !form.build.joined_at.is_empty() || channels.iter().any(|channel| channel.tied)
}

/// The conductor's area and the distances.
fn lengths(pen: &mut Pen) {
    pen.open("details.more");
    pen.line("summary", say::LENGTHS);
    pen.open("div.say");
    for (place, text) in pen.state.question.form.places() {
        let unit = place.field().spec().unit;
        if matches!(place, Place::Box(_)) && !unit.is_empty() {
            pen.open("span.phrase");
            blank(pen, plain(place, text, unit));
            pen.close();
        }
    }
    pen.close();
    pen.close();
}

fn terminals(pen: &mut Pen, form: &BuildForm) {
    pen.open("details.more");
    pen.line("summary", say::TERMINALS);
    let of = [Field::DriverTerminals, Field::CupTerminals, Field::AmplifierTerminals];
    for ((i, takes), of) in form.takes.iter().enumerate().zip(of) {
        pen.open("fieldset.part takes");
        pen.line("legend", fields::label(of));
        pen.tick(fields::label(Field::PushOn), "", takes.push_on, {
            Edit::PushOn(i, !takes.push_on)
        });
        pen.open("div.say");
        if takes.push_on {
            pen.nothing();
        } else {
            pen.open("span.phrase");
            blank(pen, plain(Place::Takes(i, Takes::Conductors), &takes.conductors, ""));
            pen.close();
        }
        pen.open("span.phrase");
        blank(pen, plain(Place::Takes(i, Takes::Largest), &takes.largest, "mm²"));
        pen.close();
        pen.close();
        pen.close();
    }
    hints(pen, "ul.hints", &[fields::hint(Field::PushOn)]);
    pen.close();
}

fn facing_in(pen: &mut Pen, form: &BuildForm) {
    let names = pen.state.names();
    let rig = pen.state.rig();
    let drivers = rig.map_or(0, |rig| rig.drivers());
    pen.open("details.more");
    pen.line("summary", say::FACING_IN);
    pen.open("div.ticks");
    for driver in 1..=drivers {
        let reversed = form.reversed.contains(&driver);
        pen.open("label.tick");
        pen.open("input|type=checkbox");
        pen.ticked(reversed);
        pen.on(crate::pen::When::Chosen, {
            crate::pen::What::act(Edit::Reversed(driver, !reversed))
        });
        pen.close();
        let place = rig.zip(u8::try_from(driver - 1).ok());
        let name = place.map_or("", |(rig, driver)| of_driver(rig, &names, driver));
        pen.line_of("span", with(say::driver(driver), name));
        pen.close();
    }
    pen.close();
    hints(pen, "ul.hints", &[fields::hint(Field::MountedReversed)]);
    pen.close();
}
