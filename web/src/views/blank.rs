//! A value of the sentence to fill in: a field on a line, its name under the line, and
//! what is wrong with it right below.

use crate::app::Do;
use crate::state::form::{Form, Place, watts_per_name};
use crate::state::read::{Trouble, What};
use crate::state::{Action, State};
use crate::views::Sheet;
use crate::views::words::{page as say, problems};
use coilwright_solver::problem::Code;
use wasm_bindgen::JsCast;
use web_sys::{HtmlInputElement, HtmlSelectElement};
use yew::prelude::*;

/// The element of the field at a path: ids hold no brackets.
pub fn id_of(path: &str) -> String {
    path.chars()
        .filter(|c| *c != ']')
        .map(|c| if matches!(c, '.' | '[') { '-' } else { c })
        .collect()
}

/// What is wrong, as text.
pub fn message(trouble: &Trouble) -> String {
    let channels = Place::ChannelCount.path();
    match &trouble.what {
        What::CommaOrThousands => say::COMMA.into(),
        What::Problem(problem) if trouble.path == channels.as_str() => match problem.code {
            Code::Missing => say::amplifier::CHANNELS_MISSING.into(),
            _ => say::amplifier::CHANNELS_BOUND.into(),
        },
        What::Problem(problem) => problems::message(problem),
    }
}

/// How a field stands.
#[derive(Clone, Debug, PartialEq)]
pub enum Standing {
    /// It can be read.
    Good,
    /// It is still to be filled in.
    Wanted,
    /// It cannot be read, and why.
    Wrong(AttrValue),
}

/// How the field at a place stands.
pub fn standing(state: &State, place: Place) -> Standing {
    match state.read.at(place) {
        None => Standing::Good,
        Some(trouble) if trouble.is_missing() => Standing::Wanted,
        Some(trouble) => Standing::Wrong(message(trouble).into()),
    }
}

/// What a field for text is.
#[derive(Clone, Copy, Debug)]
pub struct Blank<'a> {
    /// The value it holds.
    pub place: Place,
    /// The text in it.
    pub raw: &'a str,
    /// Its name, under the line.
    pub label: &'a str,
    /// Its unit.
    pub unit: &'static str,
    /// The element that says more about it.
    pub more: Option<&'static str>,
}

/// The text in the input or select that an event is about.
fn text_of(event: &Event) -> Option<String> {
    let target = event.target()?;
    if let Some(input) = target.dyn_ref::<HtmlInputElement>() {
        return Some(input.value());
    }
    target.dyn_ref::<HtmlSelectElement>().map(HtmlSelectElement::value)
}

/// Writes what is typed or chosen to a place.
fn written(act: &Do, place: Place, event: &Event) {
    if let Some(text) = text_of(event) {
        act.now(Action::Set(place, text));
    }
}

/// A field for text.
pub fn blank(Sheet { state, act }: Sheet, it: Blank) -> Html {
    let place = it.place;
    let act = act.clone();
    let oninput = Callback::from(move |event: InputEvent| written(&act, place, &event));
    let id = id_of(place.path().as_str());
    let trouble = format!("{id}-trouble");
    let standing = standing(state, place);
    let wrong = match &standing {
        Standing::Wrong(message) => Some(message.clone()),
        _ => None,
    };
    let described = match (&wrong, it.more) {
        (Some(_), Some(more)) => Some(format!("{trouble} {more}")),
        (Some(_), None) => Some(trouble.clone()),
        (None, more) => more.map(str::to_string),
    };
    let class = match (standing, it.unit) {
        (Standing::Wrong(_), "") => "blank blank-wrong",
        (Standing::Wrong(_), _) => "blank blank-unit blank-wrong",
        (Standing::Wanted, "") => "blank blank-wanted",
        (Standing::Wanted, _) => "blank blank-unit blank-wanted",
        (Standing::Good, "") => "blank",
        (Standing::Good, _) => "blank blank-unit",
    };
    html! {
        <span {class}>
            <span class="blank-line">
                <input id={id.clone()} type="text" inputmode="decimal" autocomplete="off"
                    autocapitalize="off" spellcheck="false" enterkeyhint="next"
                    value={it.raw.to_string()} {oninput}
                    list={(it.unit == "Ω").then_some("usual-ohms")}
                    aria-invalid={wrong.is_some().then_some("true")}
                    aria-describedby={described} />
                if !it.unit.is_empty() {
                    <span class="unit" aria-hidden="true">{ it.unit }</span>
                }
            </span>
            <label for={id}>{ it.label }</label>
            if let Some(message) = wrong {
                <span class="trouble" id={trouble}>{ message }</span>
            }
        </span>
    }
}

/// A choice of a few: values and what they are called. The attribute says only what is
/// chosen at first; a choice that comes from elsewhere is made by [`made`].
pub fn choice(
    Sheet { act, .. }: Sheet,
    place: Place,
    raw: &str,
    label: &'static str,
    choices: &[(&'static str, &'static str)],
) -> Html {
    let act = act.clone();
    let onchange = Callback::from(move |event: Event| written(&act, place, &event));
    let id = id_of(place.path().as_str());
    html! {
        <span class="blank blank-choice">
            <span class="blank-line">
                <select id={id.clone()} {onchange}>
                    { for choices.iter().map(|(value, text)| html! {
                        <option value={*value} selected={*value == raw}>{ *text }</option>
                    }) }
                </select>
            </span>
            <label for={id}>{ label }</label>
        </span>
    }
}

/// The choices of the form, each by its element: what an undo or a link has chosen is
/// to be chosen in the elements too.
pub fn made(form: &Form) -> Vec<(String, &str)> {
    let groups = form.groups.iter().enumerate();
    groups
        .flat_map(|(i, group)| {
            let id = |place: Place| id_of(place.path().as_str());
            [
                (id(Place::Coils(i)), group.coils.as_str()),
                (id(Place::WattsPer(i)), watts_per_name(group.watts_per)),
            ]
        })
        .collect()
}

/// The ohms that labels usually have, offered while typing.
pub fn usual_ohms() -> Html {
    const USUAL: [&str; 10] = ["0.7", "1", "1.4", "1.5", "2", "3", "4", "6", "8", "16"];
    html! {
        <datalist id="usual-ohms">
            { for USUAL.iter().map(|ohms| html! { <option value={*ohms}></option> }) }
        </datalist>
    }
}
