//! The answer: how many there are, the filters, what stands in the way, the ladder, the
//! list.

use super::{ladder, rows};
use crate::answer::asking::Answered;
use crate::answer::{Action, Asking};
use crate::later::Later;
use crate::parts::coming::coming;
use crate::parts::tied::tied;
use crate::parts::troubles;
use crate::pen::{Pen, What};
use crate::question::Edit;
use crate::question::trouble::Trouble;
use crate::state::State;
use crate::words::{counts, defects, nearest, page as say, problems};

/// What stands over the answer, and changes while somebody types.
pub(super) fn head(pen: &mut Pen) {
    let state = pen.state;
    let (joined, even) = (state.question.form.joined_only, state.question.form.even_only);
    pen.open("");
    pen.open("div.head");
    pen.line("h2.tab|id=answer|tabindex=-1", say::LIST);
    pen.open("fieldset.filters");
    pen.line("legend.unseen", say::FILTERS);
    pen.tick(say::JOINED_ONLY, say::JOINED_ONLY_MEANS, joined, Edit::JoinedOnly(!joined));
    pen.tick(say::EVEN_ONLY, say::EVEN_ONLY_MEANS, even, Edit::EvenOnly(!even));
    pen.close();
    pen.open("div.count-slot");
    count(pen);
    progress(pen);
    pen.close();
    pen.close();
    pen.line_of("p.unseen|role=status|aria-live=polite", spoken(state));
    troubles::list(pen);
    let stale = state.is_stale() && !matches!(state.under_way.asking, Asking::Working(_));
    pen.line_if(stale, "p.note note-stale", say::EARLIER);
    let missing = state.answer.answered.is_none()
        && state.question.read.request.is_none()
        && state.question.read.troubles.iter().all(Trouble::is_missing);
    pen.line_if(missing, "p.note", say::EMPTY);
    pen.close();
}

/// The answer itself.
pub(super) fn answer(pen: &mut Pen) {
    let Some(answered) = pen.state.answer.answered.as_deref() else {
        return pen.nothing();
    };
    pen.open("");
    notes(pen, answered);
    ladder::ladder(pen, answered);
    rows::list(pen, answered);
    pen.close();
}

fn count(pen: &mut Pen) {
    let answer = pen.state.answer.answered.as_deref().map(|answered| &answered.answer);
    let Some((answer, total)) = answer.and_then(|answer| Some((answer, answer.total?))) else {
        return pen.nothing();
    };
    pen.open("p.count");
    pen.line_of("b", say::count(total, answer.before_filters));
    pen.text(" ");
    pen.said(say::count_of(answer.loads.len()));
    pen.close();
}

/// What is read out when it changes: the count, or that it is being worked on.
fn spoken(state: &State) -> String {
    if state.under_way.slow && matches!(state.under_way.asking, Asking::Working(_)) {
        return counts::listing(0, 0);
    }
    let answered = state.answer.answered.as_deref().filter(|_| state.is_current());
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

fn progress(pen: &mut Pen) {
    let (spec, words, way_on) = match pen.state.under_way.asking {
        Asking::Idle => return pen.nothing(),
        Asking::Working(_) if !pen.state.under_way.slow => return pen.nothing(),
        Asking::Working(progress) => {
            pen.open("div.work");
            pen.line_of("p", counts::listing(progress.done, progress.of));
            pen.open("progress");
            pen.made("max", progress.of.max(1).to_string());
            pen.made("value", progress.done.to_string());
            pen.made("aria-label", counts::listing(0, 0));
            pen.close();
            pen.button("quiet", say::STOP, Action::Stop);
            return pen.close();
        }
        Asking::Stopped => ("div.note|role=status", say::STOPPED, say::GO_ON),
        Asking::Waiting => ("div.note|role=alert", say::WAITING, say::TRY_AGAIN),
    };
    pen.open(spec);
    pen.line("p", words);
    pen.button("quiet", way_on, Action::GoOn);
    pen.close();
}

fn notes(pen: &mut Pen, answered: &Answered) {
    pen.open("");
    for answer in [Some(&answered.answer), answered.uneven.as_ref()].into_iter().flatten() {
        for problem in &answer.problems {
            pen.line_of("p.note note-wrong", problems::message(problem));
        }
    }
    if let Some(defect) = answered.defect() {
        pen.line_of("p.note note-wrong", defects::defect(defect));
    }
    if answered.uneven.is_some() {
        pen.line("p.note", say::UNEVEN_SHOWN);
    }
    if answered.none_fits() {
        ways_out(pen, answered);
    }
    if !answered.request.rig.every_rating_known() {
        pen.line("p.note", counts::RATED_ALIKE);
    }
    pen.close();
}

/// How many are found as a rule.
const USUAL: usize = 3;

/// That nothing fits, and the nearest things that would, each one tap away.
fn ways_out(pen: &mut Pen, answered: &Answered) {
    pen.open("div.ways-out");
    pen.line("h3", say::NONE_FITS);
    let rig = &answered.request.rig;
    match pen.state.answer.nearest.as_deref().map(Vec::as_slice) {
        // It is sought by what comes later.
        None if pen.state.page.later == Later::Missing => coming(pen, "b"),
        None => {
            pen.line("p", nearest::TRYING);
            // The place of what is found, so that nothing below it moves.
            for _ in 0..USUAL {
                pen.open("div.way-out way-out-later|aria-hidden=true");
                pen.line("b", "\u{a0}");
                pen.line("span", "\u{a0}");
                pen.close();
            }
        }
        Some([]) => pen.line("p", nearest::NOTHING_NEAR),
        Some(found) => {
            pen.line("p", nearest::WHAT_WOULD_FIT);
            for found in found {
                pen.press("way-out", What::act(Edit::Change(found.change)));
                pen.line_of("b", say::heading(&nearest::change(rig, &found.change)));
                pen.line_of("span", tied(&nearest::found(found)));
                pen.close();
            }
        }
    }
    pen.close();
}
