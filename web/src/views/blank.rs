//! A value of the sentence to fill in: a field on a line, its name under the line, and
//! what is wrong with it right below.

use crate::app::use_do;
use crate::state::form::Place;
use crate::state::read::{Trouble, What};
use crate::state::{Action, State};
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

/// What a field for text shows.
#[derive(Debug, PartialEq, Properties)]
pub struct BlankProps {
    /// The value it holds.
    pub place: Place,
    /// The text in it.
    pub raw: AttrValue,
    /// Its name, under the line.
    pub label: AttrValue,
    /// Its unit.
    #[prop_or_default]
    pub unit: &'static str,
    /// Whether it offers the usual ohms.
    #[prop_or_default]
    pub offers_ohms: bool,
    /// The element that says more about it.
    #[prop_or_default]
    pub more: Option<&'static str>,
    /// How it stands.
    pub standing: Standing,
}

/// A field for text.
#[component]
pub fn Blank(props: &BlankProps) -> Html {
    let Some(act) = use_do() else {
        return Html::default();
    };
    let place = props.place;
    let oninput = Callback::from(move |event: InputEvent| {
        let input = event.target().and_then(|target| target.dyn_into::<HtmlInputElement>().ok());
        if let Some(input) = input {
            act.now(Action::Set(place, input.value()));
        }
    });
    let id = id_of(place.path().as_str());
    let trouble = format!("{id}-trouble");
    let wrong = match &props.standing {
        Standing::Wrong(message) => Some(message.clone()),
        _ => None,
    };
    let mut described: Vec<&str> = Vec::new();
    if wrong.is_some() {
        described.push(&trouble);
    }
    described.extend(props.more);
    let described = (!described.is_empty()).then(|| described.join(" "));
    let class = classes!(
        "blank",
        match props.standing {
            Standing::Good => None,
            Standing::Wanted => Some("blank-wanted"),
            Standing::Wrong(_) => Some("blank-wrong"),
        },
        match props.unit {
            "W" => Some("blank-watts"),
            "Ω" => Some("blank-ohms"),
            _ => None,
        },
    );
    html! {
        <span {class}>
            <span class="blank-line">
                <input id={id.clone()} type="text" inputmode="decimal" autocomplete="off"
                    autocapitalize="off" spellcheck="false" enterkeyhint="next"
                    value={props.raw.clone()} {oninput}
                    list={props.offers_ohms.then_some("usual-ohms")}
                    aria-invalid={wrong.is_some().then_some("true")}
                    aria-describedby={described} />
                if !props.unit.is_empty() {
                    <span class="unit" aria-hidden="true">{ props.unit }</span>
                }
            </span>
            <label for={id}>{ &props.label }</label>
            if let Some(message) = wrong {
                <span class="trouble" id={trouble}>{ message }</span>
            }
        </span>
    }
}

/// What a choice of a few shows.
#[derive(Debug, PartialEq, Properties)]
pub struct ChoiceProps {
    /// The value it holds.
    pub place: Place,
    /// The choice made.
    pub raw: AttrValue,
    /// Its name, under the line.
    pub label: &'static str,
    /// Values and what they are called.
    pub choices: Vec<(&'static str, &'static str)>,
}

/// A choice of a few.
#[component]
pub fn Choice(props: &ChoiceProps) -> Html {
    let Some(act) = use_do() else {
        return Html::default();
    };
    let place = props.place;
    let onchange = Callback::from(move |event: Event| {
        let select = event.target().and_then(|target| target.dyn_into::<HtmlSelectElement>().ok());
        if let Some(select) = select {
            act.now(Action::Set(place, select.value()));
        }
    });
    // The attribute says what is chosen at first; a choice that comes from elsewhere
    // (an undo, a link) has to be made in the element itself.
    let select = use_node_ref();
    let element = select.clone();
    use_effect_with(props.raw.clone(), move |raw| {
        if let Some(element) = element.cast::<HtmlSelectElement>() {
            element.set_value(raw);
        }
    });
    let id = id_of(place.path().as_str());
    html! {
        <span class="blank blank-choice">
            <span class="blank-line">
                <select id={id.clone()} ref={select} {onchange}>
                    { for props.choices.iter().map(|(value, text)| html! {
                        <option value={*value} selected={*value == props.raw.as_str()}>
                            { *text }
                        </option>
                    }) }
                </select>
            </span>
            <label for={id}>{ props.label }</label>
        </span>
    }
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
