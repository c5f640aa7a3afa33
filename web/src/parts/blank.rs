//! A value of the sentence to fill in: a field on a line, its name under the line, and
//! what is wrong with it right below.

use crate::pen::{Pen, What, When};
use crate::question::fields::{Amplifier, Group, Output, Shape};
use crate::question::form::{Form, longest};
use crate::question::place::Place;
use crate::question::trouble::{Trouble, What as Wrong};
use crate::state::State;
use crate::words::{page as say, problems};
use coilwright_solver::problem::Code;

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
    let channels = Place::Amplifier(Amplifier::Channels).path();
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
    match state.question.read.at(place) {
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
pub fn blank(pen: &mut Pen, it: Blank) {
    let id = id_of(it.place.path().as_str());
    let mut trouble = id.clone();
    trouble.push_str("-trouble");
    let standing = standing(pen.state, it.place);
    let wrong = matches!(standing, Standing::Wrong(_));
    let mut described = String::new();
    if wrong {
        described.push_str(&trouble);
        described.push(' ');
    }
    described.push_str(it.more.unwrap_or_default());
    pen.open(match (&standing, it.unit) {
        (Standing::Wrong(_), "") => "span.blank blank-wrong",
        (Standing::Wrong(_), _) => "span.blank blank-unit blank-wrong",
        (Standing::Wanted, "") => "span.blank blank-wanted",
        (Standing::Wanted, _) => "span.blank blank-unit blank-wanted",
        (Standing::Good, "") => "span.blank",
        (Standing::Good, _) => "span.blank blank-unit",
    });
    pen.open("span.blank-line");
    pen.open(if matches!(it.place, Place::Group(_, Group::Name)) {
        "input|type=text|autocomplete=off|spellcheck=false|enterkeyhint=next|dir=auto"
    } else {
        "input|type=text|inputmode=decimal|autocomplete=off|autocapitalize=off\
         |spellcheck=false|enterkeyhint=next"
    });
    pen.made("id", id.clone());
    if matches!(it.place, Place::Group(_, Group::Name)) {
        pen.made("maxlength", longest(it.place.field()).to_string());
    }
    if wrong {
        pen.fixed("aria-invalid", "true");
    }
    if !described.is_empty() {
        pen.made("aria-describedby", described);
    }
    pen.holds(it.raw);
    pen.on(When::Typed, What::Write(it.place));
    pen.close();
    if !it.unit.is_empty() {
        pen.line("span.unit|aria-hidden=true", it.unit);
    }
    if matches!(it.place, Place::Group(_, Group::Ohms) | Place::Output(_, Output::Least)) {
        usual(pen, it);
    }
    pen.close();
    label(pen, id, it.label);
    match standing {
        Standing::Wrong(message) => {
            pen.open("span.trouble");
            pen.made("id", trouble);
            pen.said(message);
            pen.close();
        }
        _ => pen.nothing(),
    }
    pen.close();
}

fn label(pen: &mut Pen, id: String, words: &str) {
    pen.open("label");
    pen.made("for", id);
    pen.said(words.to_owned());
    pen.close();
}

/// The ohms that labels usually have, to choose from beside free entry.
fn usual(pen: &mut Pen, it: Blank) {
    const USUAL: [(&str, &str); 10] = [
        ("0.7", "0.7 Ω"),
        ("1", "1 Ω"),
        ("1.4", "1.4 Ω"),
        ("1.5", "1.5 Ω"),
        ("2", "2 Ω"),
        ("3", "3 Ω"),
        ("4", "4 Ω"),
        ("6", "6 Ω"),
        ("8", "8 Ω"),
        ("16", "16 Ω"),
    ];
    pen.open("select.usual");
    let mut name = String::from(say::USUAL);
    name.push_str(": ");
    name.push_str(it.label);
    pen.made("aria-label", name);
    pen.on(When::Chosen, What::Usual(it.place));
    // Options are put in from the last to the first, and a select keeps its first comer.
    pen.option("", true, say::USUAL);
    for (ohms, words) in USUAL {
        pen.option(ohms, false, words);
    }
    pen.close();
}

/// A field for a line of words, of at most so many characters, by its id and what it is called.
pub fn words(
    pen: &mut Pen,
    (id, label): (&'static str, &'static str),
    most: usize,
    raw: &str,
    described: Option<&'static str>,
    what: What,
) {
    pen.open("span.blank blank-wide");
    pen.open("span.blank-line");
    pen.open("input|type=text|autocomplete=off|enterkeyhint=done");
    pen.fixed("id", id);
    if let Some(described) = described {
        pen.fixed("aria-describedby", described);
    }
    pen.made("maxlength", most.to_string());
    pen.holds(raw);
    pen.on(When::Typed, what);
    pen.close();
    pen.close();
    self::label(pen, id.to_owned(), label);
    pen.close();
}

/// A choice of a few: values and what they are called. The attribute says only what is
/// chosen at first; a choice that comes from elsewhere is made by [`chosen`].
pub fn choice(
    pen: &mut Pen,
    place: Place,
    raw: &str,
    words: &'static str,
    choices: &[(&'static str, &'static str)],
) {
    let id = id_of(place.path().as_str());
    pen.open("span.blank blank-choice");
    pen.open("span.blank-line");
    pen.open("select");
    pen.made("id", id.clone());
    pen.on(When::Chosen, What::Write(place));
    for (value, words) in choices {
        pen.option(value, *value == raw, words);
    }
    pen.close();
    pen.close();
    label(pen, id, words);
    pen.close();
}

/// The choices of the form, each by its element: what an undo or a link has chosen is
/// to be chosen in the elements too.
pub fn chosen(form: &Form) -> Vec<(String, &str)> {
    let choices = form.places().into_iter().filter(|(place, _)| place.shape() == Shape::Choice);
    choices.map(|(place, text)| (id_of(place.path().as_str()), text)).collect()
}

/// A word between fields.
pub fn word(pen: &mut Pen, words: &'static str) {
    pen.line("span.word", words);
}

/// Hints under the fields.
pub fn hints(pen: &mut Pen, spec: &'static str, all: &[Option<&'static str>]) {
    pen.open(spec);
    for hint in all.iter().flatten() {
        pen.line("li", hint);
    }
    pen.close();
}
