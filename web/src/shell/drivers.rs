//! The driver groups as a sentence with values to fill in.

use crate::parts::blank::{Blank, blank, choice, hints, word};
use crate::parts::tied::tied;
use crate::pen::Pen;
use crate::question::Edit;
use crate::question::fields::Group;
use crate::question::fields::GroupForm;
use crate::question::form::most;
use crate::question::place::Place;
use crate::words::page::drivers as say;
use crate::words::{fields, page, rig};
use coilwright_solver::bounds::{Field, Kind};
use coilwright_solver::rig::WattsPer;

/// All groups, and the button that adds one.
pub(super) fn groups(pen: &mut Pen) {
    let groups = &pen.state.question.form.groups;
    pen.open("");
    for (at, form) in groups.iter().enumerate() {
        group(pen, at, form);
    }
    crate::parts::troubles::at_path(pen, Field::Drivers.spec().name);
    pen.close();
}

fn coil_choices() -> Vec<(&'static str, &'static str)> {
    let Kind::OneOfNumbers(numbers) = Field::Coils.spec().kind else {
        return Vec::new();
    };
    let names = ["1", "2", "4"];
    let of = |n: &u32| names.into_iter().find(|name| name.parse() == Ok(*n));
    numbers.iter().filter_map(|n| Some((of(n)?, say::coils(*n)))).collect()
}

fn group(pen: &mut Pen, at: usize, form: &GroupForm) {
    let state = pen.state;
    let title = page::numbered(state.question.read.numbers.get(at).copied().flatten(), at + 1);
    let one_driver =
        rig::one_driver(state.question.read.one_driver.get(at).map_or(&[], |loads| loads));
    let more = (at == 0).then_some("hints-drivers");
    pen.open("fieldset.part part-named");
    pen.key(at.to_string());
    pen.line_of("legend", title.clone());
    if state.question.form.groups.len() > 1 {
        let mut name = String::from(say::REMOVE);
        name.push_str(": ");
        name.push_str(&title);
        pen.named("quiet part-remove", say::REMOVE, name, Edit::RemoveGroup(at));
    } else {
        pen.nothing();
    }
    let per = |per: WattsPer| (per.name(), say::per(per == WattsPer::Coil));
    let field = |place: Place, raw, label, unit| Blank { place, raw, label, unit, more };
    pen.open("div.say");
    pen.open("span.phrase phrase-lead");
    word(pen, if at == 0 { say::I_HAVE } else { say::AND });
    blank(
        pen,
        Blank { more: None, ..field(Place::Group(at, Group::Count), &form.count, say::COUNT, "") },
    );
    pen.close();
    pen.open("span.phrase");
    word(pen, say::WITH);
    choice(pen, Place::Group(at, Group::Coils), &form.coils, say::COILS, &coil_choices());
    pen.close();
    pen.open("span.phrase phrase-lead");
    word(pen, say::OF);
    blank(pen, field(Place::Group(at, Group::Ohms), &form.ohms, say::OHMS, "Ω"));
    pen.close();
    pen.close();
    if one_driver.is_empty() {
        pen.nothing();
    } else {
        pen.line_of("p.echo", tied(&page::alone(&one_driver)));
    }
    // What decides stands above; the rest is a tap away where there is no room for it.
    pen.open("details.fold");
    if pen.state.question.unfolded {
        pen.fixed("open", "");
    }
    pen.line_of("summary", say::more(&form.watts, form.watts_per == WattsPer::Coil.name()));
    pen.open("div.fold-in");
    pen.open("div.say");
    pen.open("span.phrase phrase-lead");
    word(pen, say::RATED);
    blank(pen, field(Place::Group(at, Group::Watts), &form.watts, say::WATTS, "W"));
    let whose = [per(WattsPer::Driver), per(WattsPer::Coil)];
    choice(pen, Place::Group(at, Group::WattsPer), &form.watts_per, say::PER, &whose);
    pen.close();
    pen.close();
    if at == 0 {
        let all = [Field::CoilOhms, Field::Watts].map(fields::hint);
        hints(pen, "ul.hints|id=hints-drivers", &all);
    } else {
        pen.nothing();
    }
    pen.open("div.name");
    let label = fields::label(Field::Name);
    blank(pen, Blank { more: None, ..field(Place::Group(at, Group::Name), &form.name, label, "") });
    pen.close();
    left_out(pen, at, form);
    pen.open("details.more");
    pen.line("summary", say::MEASURED);
    pen.open("div.measured");
    blank(
        pen,
        Blank {
            more: None,
            ..field(Place::Group(at, Group::Measured), &form.measured, say::EACH, "Ω")
        },
    );
    pen.close();
    hints(pen, "ul.hints", &[Some(say::MEASURED_HELP)]);
    pen.close();
    let count = state.question.form.groups.len();
    if at + 1 == count && count < most(Field::Drivers) {
        pen.button("add", say::ADD, Edit::AddGroup);
    } else {
        pen.nothing();
    }
    pen.close();
    pen.close();
    pen.close();
}

/// Coils left out on purpose: a way out, and so behind a word.
fn left_out(pen: &mut Pen, at: usize, form: &GroupForm) {
    let unused: &[&str] = match form.coils.as_str() {
        "1" => return pen.nothing(),
        "2" => &["0", "1"],
        _ => &["0", "1", "2", "3"],
    };
    let mut choices = Vec::new();
    for (count, name) in unused.iter().enumerate() {
        choices.push((*name, say::unused(count)));
    }
    pen.open("details.more");
    pen.line("summary", say::LEAVE_OUT);
    choice(
        pen,
        Place::Group(at, Group::Unused),
        &form.unused,
        fields::label(Field::UnusedCoils),
        &choices,
    );
    hints(pen, "ul.hints", &[fields::hint(Field::UnusedCoils)]);
    pen.close();
}
