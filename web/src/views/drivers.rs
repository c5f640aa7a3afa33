//! The driver groups as a sentence with values to fill in.

use super::act::{button, named};
use super::blank::{Blank, blank, choice, usual_ohms};
use super::words::page::drivers as say;
use super::words::{fields, page, rig};
use super::{Sheet, tied};
use crate::state::Action;
use crate::state::form::{GroupForm, Place, most, watts_per_name};
use coilwright_solver::bounds::{Field, Kind};
use coilwright_solver::rig::WattsPer;
use yew::prelude::*;

/// All groups, and the button that adds one.
pub fn groups(sheet: Sheet) -> Html {
    let groups = &sheet.state.form.groups;
    html! {
        <>
            { for groups.iter().enumerate().map(|(at, form)| group(sheet, at, form)) }
            { super::troubles::at_path(sheet.state, Field::Drivers.spec().name) }
            if groups.len() < most(Field::Drivers) {
                { button(sheet.act, "add", say::ADD, Action::AddGroup) }
            }
            { usual_ohms() }
        </>
    }
}

fn coil_choices() -> Vec<(&'static str, &'static str)> {
    let Kind::OneOfNumbers(numbers) = Field::Coils.spec().kind else {
        return Vec::new();
    };
    let names = ["1", "2", "4"];
    let of = |n: &u32| names.into_iter().find(|name| name.parse() == Ok(*n));
    numbers.iter().filter_map(|n| Some((of(n)?, say::coils(*n)))).collect()
}

fn group(sheet: Sheet, at: usize, form: &GroupForm) -> Html {
    let Sheet { state, act } = sheet;
    let title = page::numbered(state.read.numbers.get(at).copied().flatten(), at + 1);
    let one_driver = rig::one_driver(state.read.one_driver.get(at).map_or(&[], |loads| loads));
    let hints = (at == 0).then_some("hints-drivers");
    let per = |per| (watts_per_name(per), say::per(per == WattsPer::Coil));
    let field = |place: Place, raw: &str, label: &str, unit: &'static str| {
        let more = hints.filter(|_| !unit.is_empty());
        blank(sheet, Blank { place, raw, label, unit, more })
    };
    html! {
        <fieldset class="part" key={at}>
            <legend>{ &title }</legend>
            if state.form.groups.len() > 1 {
                { named(act, "quiet part-remove", say::REMOVE, format!("{}: {title}", say::REMOVE),
                    Action::RemoveGroup(at)) }
            }
            <div class="say">
                <span class="phrase phrase-lead">
                    <span class="word">{ if at == 0 { say::I_HAVE } else { say::AND } }</span>
                    { field(Place::Count(at), &form.count, say::COUNT, "") }
                </span>
                <span class="phrase">
                    <span class="word">{ say::WITH }</span>
                    { choice(sheet, Place::Coils(at), &form.coils, say::COILS, &coil_choices()) }
                </span>
                <span class="phrase phrase-lead">
                    <span class="word">{ say::OF }</span>
                    { field(Place::Ohms(at), &form.ohms, say::OHMS, "Ω") }
                </span>
                <span class="phrase phrase-lead">
                    <span class="word">{ say::RATED }</span>
                    { field(Place::Watts(at), &form.watts, say::WATTS, "W") }
                    { choice(sheet, Place::WattsPer(at), watts_per_name(form.watts_per), say::PER,
                        &[per(WattsPer::Driver), per(WattsPer::Coil)]) }
                </span>
            </div>
            if let Some(hints) = hints {
                <ul class="hints" id={hints}>
                    { for [Field::CoilOhms, Field::Watts].into_iter().filter_map(fields::hint).map(|hint| html! {
                        <li>{ hint }</li>
                    }) }
                </ul>
            }
            if !one_driver.is_empty() {
                <p class="echo">{ tied(&page::alone(&one_driver)) }</p>
            }
        </fieldset>
    }
}
