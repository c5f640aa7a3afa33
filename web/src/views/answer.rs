//! The answer: how many there are, the filters, what stands in the way, the ladder, the
//! list.

use super::tag::{
    self, Tag, button, el, fixed, line, made, nothing, press, row, said, text, tick, told,
};
use super::words::{counts, nearest, page as say, problems};
use super::{Sheet, ladder, list, tied, troubles};
use crate::state::asking::Answered;
use crate::state::read::Trouble;
use crate::state::{Action, Asking, State};
use yew::prelude::*;

/// What stands over the answer, and changes while somebody types.
pub fn head(sheet: Sheet) -> Html {
    let Sheet { state, act } = sheet;
    let (joined_only, even_only) = (state.form.joined_only, state.form.even_only);
    let filters = Tag::new("fieldset").with(&["class"], vec![fixed("filters")]).kids(vec![
        line("legend", "unseen", say::FILTERS),
        tick(
            act,
            say::JOINED_ONLY,
            say::JOINED_ONLY_MEANS,
            joined_only,
            Action::JoinedOnly(!joined_only),
        ),
        tick(act, say::EVEN_ONLY, say::EVEN_ONLY_MEANS, even_only, Action::EvenOnly(!even_only)),
    ]);
    let heading = Tag::new("h2")
        .with(&["id", "class", "tabindex"], vec![fixed("answer"), fixed("tab"), fixed("-1")])
        .kids(vec![text(say::LIST)]);
    let spoken = Tag::new("p")
        .with(
            &["class", "role", "aria-live"],
            vec![fixed("unseen"), fixed("status"), fixed("polite")],
        )
        .kids(vec![said(spoken(state))]);
    let count = state.answered.as_deref().map_or_else(nothing, count);
    let missing = state.answered.is_none()
        && state.read.request.is_none()
        && state.read.troubles.iter().all(Trouble::is_missing);
    let stale = state.is_stale() && !matches!(state.asking, Asking::Working(_));
    row(vec![
        el(
            "div",
            "head",
            vec![heading, filters, el("div", "count-slot", vec![count, progress(sheet)])],
        ),
        spoken,
        troubles::list(sheet),
        if stale { line("p", "note note-stale", say::EARLIER) } else { nothing() },
        if missing { line("p", "note", say::EMPTY) } else { nothing() },
    ])
}

/// The answer itself.
pub fn answer(sheet: Sheet) -> Html {
    let Some(answered) = sheet.state.answered.as_deref() else {
        return nothing();
    };
    row(vec![notes(sheet, answered), ladder::ladder(sheet, answered), list::list(sheet, answered)])
}

fn count(answered: &Answered) -> Html {
    let answer = &answered.answer;
    let Some(total) = answer.total else {
        return nothing();
    };
    el(
        "p",
        "count",
        vec![
            told("b", "", say::count(total, answer.before_filters)),
            text(" "),
            said(say::count_of(answer.loads.len())),
        ],
    )
}

/// What is read out when it changes: the count, or that it is being worked on.
fn spoken(state: &State) -> String {
    if state.slow && matches!(state.asking, Asking::Working(_)) {
        return counts::listing(0, 0);
    }
    let answered = state.answered.as_deref().filter(|_| state.is_current());
    match answered.and_then(|answered| Some((answered, answered.answer.total?))) {
        Some((answered, total)) => {
            let mut text = say::count(total, answered.answer.before_filters);
            text.push(' ');
            text.push_str(&say::count_of(answered.answer.loads.len()));
            text
        }
        None => String::new(),
    }
}

fn progress(Sheet { state, act }: Sheet) -> Html {
    let (class, role, words, way_on, action) = match state.asking {
        Asking::Idle => return nothing(),
        Asking::Working(_) if !state.slow => return nothing(),
        Asking::Working(progress) => {
            let bar = Tag::new("progress")
                .with(
                    &["max", "value", "aria-label"],
                    vec![
                        made(progress.of.max(1).to_string()),
                        made(progress.done.to_string()),
                        made(counts::listing(0, 0)),
                    ],
                )
                .bare();
            return el(
                "div",
                "work",
                vec![
                    told("p", "", counts::listing(progress.done, progress.of)),
                    bar,
                    button(act, "quiet", say::STOP, Action::Stop),
                ],
            );
        }
        Asking::Stopped => ("note", "status", say::STOPPED, say::GO_ON, Action::GoOn),
        Asking::Waiting => ("note", "alert", say::WAITING, say::TRY_AGAIN, Action::GoOn),
    };
    Tag::new("div")
        .with(&["class", "role"], vec![fixed(class), fixed(role)])
        .kids(vec![line("p", "", words), button(act, "quiet", way_on, action)])
}

fn notes(sheet: Sheet, answered: &Answered) -> Html {
    let mut kids = Vec::new();
    let uneven = answered.uneven.as_ref();
    for problem in
        answered.answer.problems.iter().chain(uneven.iter().flat_map(|uneven| &uneven.problems))
    {
        kids.push(told("p", "note note-wrong", problems::message(problem)));
    }
    if uneven.is_some() {
        kids.push(line("p", "note", say::UNEVEN_SHOWN));
    }
    if answered.none_fits() {
        kids.push(ways_out(sheet, answered));
    }
    if !answered.request.rig.every_rating_known() {
        kids.push(line("p", "note", counts::RATED_ALIKE));
    }
    row(kids)
}

/// That nothing fits, and the nearest things that would, each one tap away.
fn ways_out(Sheet { state, act }: Sheet, answered: &Answered) -> Html {
    let mut kids = vec![line("h3", "", say::NONE_FITS)];
    let rig = &answered.request.rig;
    match state.nearest.as_deref().map(Vec::as_slice) {
        None => kids.push(line("p", "", nearest::TRYING)),
        Some([]) => kids.push(line("p", "", nearest::NOTHING_NEAR)),
        Some(found) => {
            kids.push(line("p", "", nearest::WHAT_WOULD_FIT));
            for found in found {
                let words = vec![
                    told("b", "", say::heading(&nearest::change(rig, &found.change))),
                    told("span", "", tied(&nearest::found(found))),
                ];
                let what = tag::act(Action::Change(found.change));
                kids.push(press(act, "way-out", None, what, words));
            }
        }
    }
    el("div", "ways-out", kids)
}
