//! The driver groups as a sentence with values to fill in.

use super::act::Act;
use super::blank::{Blank, Choice, Standing, standing, usual_ohms};
use super::tied;
use super::words::page::drivers as say;
use super::words::{fields, page, rig};
use crate::state::form::{GroupForm, Place, most, watts_per_name};
use crate::state::{Action, State};
use coilwright_solver::bounds::{Field, Kind};
use coilwright_solver::rig::WattsPer;
use yew::prelude::*;

/// All groups, and the button that adds one.
pub fn groups(state: &State) -> Html {
    let groups = &state.form.groups;
    let only = groups.len() == 1;
    html! {
        <>
            { for groups.iter().enumerate().map(|(at, group)| {
                let loads = state.read.one_driver.get(at).map_or(&[][..], |loads| loads);
                let numbers = state.read.numbers.get(at).copied().flatten();
                html! {
                    <Group key={at} {at} {only}
                        form={group.clone()}
                        title={page::numbered(numbers, at + 1)}
                        one_driver={rig::one_driver(loads)}
                        count={standing(state, Place::Count(at))}
                        ohms={standing(state, Place::Ohms(at))}
                        watts={standing(state, Place::Watts(at))}
                    />
                }
            }) }
            { super::troubles::at_path(state, Field::Drivers.spec().name) }
            if groups.len() < most(Field::Drivers) {
                <Act class="add" text={say::ADD} action={Action::AddGroup} />
            }
            { usual_ohms() }
        </>
    }
}

#[derive(Debug, PartialEq, Properties)]
struct GroupProps {
    at: usize,
    only: bool,
    form: GroupForm,
    title: AttrValue,
    one_driver: AttrValue,
    count: Standing,
    ohms: Standing,
    watts: Standing,
}

fn coil_choices() -> Vec<(&'static str, &'static str)> {
    let Kind::OneOfNumbers(numbers) = Field::Coils.spec().kind else {
        return Vec::new();
    };
    let names = ["1", "2", "4"];
    let of = |n: &u32| names.into_iter().find(|name| name.parse() == Ok(*n));
    numbers.iter().filter_map(|n| Some((of(n)?, say::coils(*n)))).collect()
}

#[component]
fn Group(props: &GroupProps) -> Html {
    let at = props.at;
    let form = &props.form;
    let hints = (at == 0).then_some("hints-drivers");
    let per = |per| (watts_per_name(per), say::per(per == WattsPer::Coil));
    html! {
        <fieldset class="part">
            <legend>{ &props.title }</legend>
            if !props.only {
                <Act class="quiet part-remove" text={say::REMOVE}
                    name={format!("{}: {}", say::REMOVE, props.title)}
                    action={Action::RemoveGroup(at)} />
            }
            <div class="say">
                <span class="phrase phrase-lead">
                    <span class="word">{ if at == 0 { say::I_HAVE } else { say::AND } }</span>
                    <Blank place={Place::Count(at)} raw={form.count.clone()} label={say::COUNT}
                        standing={props.count.clone()} />
                </span>
                <span class="phrase">
                    <span class="word">{ say::WITH }</span>
                    <Choice place={Place::Coils(at)} raw={form.coils.clone()} label={say::COILS}
                        choices={coil_choices()} />
                </span>
                <span class="phrase phrase-lead">
                    <span class="word">{ say::OF }</span>
                    <Blank place={Place::Ohms(at)} raw={form.ohms.clone()} label={say::OHMS}
                        unit="Ω" offers_ohms=true more={hints} standing={props.ohms.clone()} />
                </span>
                <span class="phrase phrase-lead">
                    <span class="word">{ say::RATED }</span>
                    <Blank place={Place::Watts(at)} raw={form.watts.clone()} label={say::WATTS}
                        unit="W" more={hints} standing={props.watts.clone()} />
                    <Choice place={Place::WattsPer(at)} raw={watts_per_name(form.watts_per)}
                        label={say::PER} choices={vec![per(WattsPer::Driver), per(WattsPer::Coil)]} />
                </span>
            </div>
            if let Some(hints) = hints {
                <ul class="hints" id={hints}>
                    { for [Field::CoilOhms, Field::Watts].into_iter().filter_map(fields::hint).map(|hint| html! {
                        <li>{ hint }</li>
                    }) }
                </ul>
            }
            if !props.one_driver.is_empty() {
                <p class="echo">{ tied(&page::alone(&props.one_driver)) }</p>
            }
        </fieldset>
    }
}
