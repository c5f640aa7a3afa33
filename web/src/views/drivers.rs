//! The driver groups as a sentence with values to fill in.

use super::blank::{Blank, blank, choice, hints, word};
use super::tag::{Tag, button, el, fixed, named, nothing, row, said, told};
use super::words::page::drivers as say;
use super::words::{fields, page, rig};
use super::{Sheet, tied};
use crate::state::Action;
use crate::state::form::{GroupForm, Place, most, watts_per_name};
use coilwright_solver::bounds::Field;
use coilwright_solver::rig::WattsPer;
use yew::prelude::*;

/// All groups, and the button that adds one.
pub fn groups(sheet: Sheet) -> Html {
    let groups = &sheet.state.form.groups;
    let mut kids = Vec::new();
    for (at, form) in groups.iter().enumerate() {
        kids.push(group(sheet, at, form));
    }
    kids.push(super::troubles::at_path(sheet.state, Field::Drivers.spec().name));
    if groups.len() < most(Field::Drivers) {
        kids.push(button(sheet.act, "add", say::ADD, Action::AddGroup));
    }
    row(kids)
}

fn group(sheet: Sheet, at: usize, form: &GroupForm) -> Html {
    let Sheet { state, act } = sheet;
    let title = page::numbered(state.read.numbers.get(at).copied().flatten(), at + 1);
    let one_driver = rig::one_driver(state.read.one_driver.get(at).map_or(&[], |loads| loads));
    let more = (at == 0).then_some("hints-drivers");
    let remove = if state.form.groups.len() > 1 {
        let name = format!("{}: {title}", say::REMOVE);
        named(act, "quiet part-remove", say::REMOVE, name, Action::RemoveGroup(at))
    } else {
        nothing()
    };
    let per = |per| (watts_per_name(per), say::per(per == WattsPer::Coil));
    let field = |place: Place, raw: &str, label: &str, unit: &'static str| {
        blank(sheet, Blank { place, raw, label, unit, more: more.filter(|_| !unit.is_empty()) })
    };
    let coils = [("1", say::coils(1)), ("2", say::coils(2)), ("4", say::coils(4))];
    let sentence = vec![
        el(
            "span",
            "phrase phrase-lead",
            vec![
                word(if at == 0 { say::I_HAVE } else { say::AND }),
                field(Place::Count(at), &form.count, say::COUNT, ""),
            ],
        ),
        el(
            "span",
            "phrase",
            vec![word(say::WITH), choice(sheet, Place::Coils(at), &form.coils, say::COILS, &coils)],
        ),
        el(
            "span",
            "phrase phrase-lead",
            vec![word(say::OF), field(Place::Ohms(at), &form.ohms, say::OHMS, "Ω")],
        ),
        el(
            "span",
            "phrase phrase-lead",
            vec![
                word(say::RATED),
                field(Place::Watts(at), &form.watts, say::WATTS, "W"),
                choice(
                    sheet,
                    Place::WattsPer(at),
                    watts_per_name(form.watts_per),
                    say::PER,
                    &[per(WattsPer::Driver), per(WattsPer::Coil)],
                ),
            ],
        ),
    ];
    let hint = match more {
        Some(id) => hints(id, &[Field::CoilOhms, Field::Watts].map(fields::hint)),
        None => nothing(),
    };
    let echo = if one_driver.is_empty() {
        nothing()
    } else {
        told("p", "echo", tied(&page::alone(&one_driver)))
    };
    Tag::new("fieldset").with(&["class"], vec![fixed("part")]).key(at.to_string()).kids(vec![
        el("legend", "", vec![said(title)]),
        remove,
        el("div", "say", sentence),
        hint,
        echo,
    ])
}
