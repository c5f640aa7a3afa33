//! A value of the sentence to fill in: a field on a line, its name under the line, and
//! what is wrong with it right below.

use crate::state::State;
use crate::state::form::{Form, Place, watts_per_name};
use crate::state::read::{Trouble, What as Wrong};
use crate::views::Sheet;
use crate::views::tag::{Tag, What, el, fixed, line, made, nothing, on, said, text};
use crate::views::words::{page as say, problems};
use coilwright_solver::problem::Code;
use yew::prelude::*;
use yew::virtual_dom::ListenerKind;

/// The element of the field at a path: ids hold no brackets.
pub fn id_of(path: &str) -> String {
    let mut id = String::with_capacity(path.len());
    for c in path.chars() {
        match c {
            ']' => {}
            '.' | '[' => id.push('-'),
            c => id.push(c),
        }
    }
    id
}

/// What is wrong, as text.
pub fn message(trouble: &Trouble) -> String {
    let channels = Place::ChannelCount.path();
    match &trouble.what {
        Wrong::CommaOrThousands => say::COMMA.into(),
        Wrong::Problem(problem) if trouble.path == channels.as_str() => match problem.code {
            Code::Missing => say::amplifier::CHANNELS_MISSING.into(),
            _ => say::amplifier::CHANNELS_BOUND.into(),
        },
        Wrong::Problem(problem) => problems::message(problem),
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
    Wrong(String),
}

/// How the field at a place stands.
pub fn standing(state: &State, place: Place) -> Standing {
    match state.read.at(place) {
        None => Standing::Good,
        Some(trouble) if trouble.is_missing() => Standing::Wanted,
        Some(trouble) => Standing::Wrong(message(trouble)),
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

/// A field for text.
pub fn blank(sheet: Sheet, it: Blank) -> Html {
    let Sheet { state, act } = sheet;
    let id = id_of(it.place.path().as_str());
    let trouble = format!("{id}-trouble");
    let standing = standing(state, it.place);
    let wrong = matches!(standing, Standing::Wrong(_));
    let mut described = String::new();
    if wrong {
        described.push_str(&trouble);
        described.push(' ');
    }
    described.push_str(it.more.unwrap_or_default());
    let class = match (&standing, it.unit) {
        (Standing::Wrong(_), "") => "blank blank-wrong",
        (Standing::Wrong(_), _) => "blank blank-unit blank-wrong",
        (Standing::Wanted, "") => "blank blank-wanted",
        (Standing::Wanted, _) => "blank blank-unit blank-wanted",
        (Standing::Good, "") => "blank",
        (Standing::Good, _) => "blank blank-unit",
    };
    let described = if described.is_empty() { None } else { made(described) };
    let input = Tag::new("input")
        .with(
            &[
                "id",
                "type",
                "inputmode",
                "autocomplete",
                "autocapitalize",
                "spellcheck",
                "enterkeyhint",
                "aria-invalid",
                "aria-describedby",
            ],
            vec![
                made(id.clone()),
                fixed("text"),
                fixed("decimal"),
                fixed("off"),
                fixed("off"),
                fixed("false"),
                fixed("next"),
                on(wrong, "true"),
                described,
            ],
        )
        .holds(it.raw.to_owned())
        .on(ListenerKind::oninput, act, What::Write(it.place))
        .bare();
    let mut kids = vec![input];
    if !it.unit.is_empty() {
        kids.push(
            Tag::new("span")
                .with(&["class", "aria-hidden"], vec![fixed("unit"), fixed("true")])
                .kids(vec![text(it.unit)]),
        );
    }
    if matches!(it.place, Place::Ohms(_) | Place::Least(_)) {
        kids.push(usual(sheet, it));
    }
    let label =
        Tag::new("label").with(&["for"], vec![made(id)]).kids(vec![said(it.label.to_owned())]);
    let message = match standing {
        Standing::Wrong(message) => Tag::new("span")
            .with(&["class", "id"], vec![fixed("trouble"), made(trouble)])
            .kids(vec![said(message)]),
        _ => nothing(),
    };
    el("span", class, vec![el("span", "blank-line", kids), label, message])
}

/// The ohms that labels usually have, to choose from beside free entry.
fn usual(Sheet { act, .. }: Sheet, it: Blank) -> Html {
    const USUAL: [&str; 10] = ["0.7", "1", "1.4", "1.5", "2", "3", "4", "6", "8", "16"];
    // Options are put in from the last to the first, and a select keeps its first comer.
    let mut kids = vec![
        Tag::new("option")
            .with(&["value", "selected"], vec![fixed(""), fixed("")])
            .kids(vec![text(say::USUAL)]),
    ];
    for ohms in USUAL {
        kids.push(
            Tag::new("option")
                .with(&["value"], vec![fixed(ohms)])
                .kids(vec![said(format!("{ohms} Ω"))]),
        );
    }
    Tag::new("select")
        .with(
            &["class", "aria-label"],
            vec![fixed("usual"), made(format!("{}: {}", say::USUAL, it.label))],
        )
        .on(ListenerKind::onchange, act, What::Usual(it.place))
        .kids(kids)
}

/// A choice of a few: values and what they are called. The attribute says only what is
/// chosen at first; a choice that comes from elsewhere is made by [`chosen`].
pub fn choice(
    Sheet { act, .. }: Sheet,
    place: Place,
    raw: &str,
    label: &'static str,
    choices: &[(&'static str, &'static str)],
) -> Html {
    let id = id_of(place.path().as_str());
    let mut kids = Vec::new();
    for (value, words) in choices {
        kids.push(
            Tag::new("option")
                .with(&["value", "selected"], vec![fixed(value), on(*value == raw, "")])
                .kids(vec![text(words)]),
        );
    }
    let select = Tag::new("select")
        .with(&["id"], vec![made(id.clone())])
        .on(ListenerKind::onchange, act, What::Write(place))
        .kids(kids);
    el(
        "span",
        "blank blank-choice",
        vec![
            el("span", "blank-line", vec![select]),
            Tag::new("label").with(&["for"], vec![made(id)]).kids(vec![text(label)]),
        ],
    )
}

/// The choices of the form, each by its element: what an undo or a link has chosen is
/// to be chosen in the elements too.
pub fn chosen(form: &Form) -> Vec<(String, &str)> {
    let mut all = Vec::new();
    for (i, group) in form.groups.iter().enumerate() {
        all.push((id_of(Place::Coils(i).path().as_str()), group.coils.as_str()));
        all.push((id_of(Place::WattsPer(i).path().as_str()), watts_per_name(group.watts_per)));
    }
    all
}

/// A word between fields.
pub fn word(words: &'static str) -> Html {
    line("span", "word", words)
}

/// Hints under the fields.
pub fn hints(id: &'static str, all: &[Option<&'static str>]) -> Html {
    let mut kids = Vec::new();
    for hint in all.iter().flatten() {
        kids.push(line("li", "", hint));
    }
    Tag::new("ul").with(&["class", "id"], vec![fixed("hints"), fixed(id)]).kids(kids)
}
