//! What is wrong: the easy causes, what would explain the readings, and what to read next.

use super::reading;
use crate::job::Action;
use crate::job::work::is_closer;
use crate::parts::plan::as_built;
use crate::parts::tied::tied;
use crate::pen::{Pen, What, When};
use crate::words::defects;
use crate::words::doubt;
use crate::words::finding as say;
use crate::words::wiring::Wording;
use coilwright_solver::meter::{Diagnosis, Explanation, Fault, Point, Question};

/// The panel, once something reads wrong or is in doubt.
pub fn panel(pen: &mut Pen, wording: &Wording<'_>) {
    if let Some(defect) = pen.state.job.defect() {
        return pen.line_of("p.note note-wrong", defects::defect(defect));
    }
    let job = &pen.state.job;
    let Some(found) = job.found() else {
        return match job.answering {
            Some(point) => over(pen, wording, point),
            None => pen.nothing(),
        };
    };
    let wrong = job.is_wrong();
    pen.open(if wrong {
        "section.finding|aria-labelledby=finding"
    } else {
        "section.finding finding-doubt|aria-labelledby=finding"
    });
    pen.line("h3|id=finding", if wrong { say::TITLE } else { doubt::TITLE });
    questions(pen, found);
    likeliest(pen, wording, found);
    next(pen, wording, found);
    others(pen, wording, found);
    so_far(pen, wording, found.next);
    pen.line("p.hints", say::A_HINT);
    pen.line("p.hints", say::DRIFTS);
    pen.close();
}

/// Where what is being answered left nothing wrong: its field stays, at its place among what
/// stood beside it.
fn over(pen: &mut Pen, wording: &Wording<'_>, point: Point) {
    pen.open("section.finding finding-over|aria-labelledby=finding");
    pen.line("h3|id=finding", say::OVER);
    pen.nothing();
    pen.nothing();
    pen.open("div.finding-asked");
    ask(pen, wording, point, "div.finding-next finding-just", say::JUST_READ);
    pen.close();
    for _ in 0..4 {
        pen.nothing();
    }
    pen.close();
}

/// The easy causes, asked in words.
fn questions(pen: &mut Pen, found: &Diagnosis) {
    pen.open("div.finding-first");
    pen.line("h4", say::FIRST);
    for question in Question::ALL {
        let said = pen.state.job.work.said(question);
        if said.is_none() && !found.questions.contains(&question) {
            continue;
        }
        pen.open("fieldset.finding-ask");
        pen.key(question.name().to_owned());
        pen.line("legend", say::question(question));
        pen.open("span.finding-answers");
        for (answer, word) in [(true, say::YES), (false, say::NO)] {
            pen.open("label.tick");
            pen.open("input|type=radio");
            pen.fixed("name", question.name());
            pen.ticked(said == Some(answer));
            pen.on(When::Chosen, What::act(Action::Say(question, answer)));
            pen.close();
            pen.line("span", word);
            pen.close();
        }
        pen.close();
        pen.line_if(said == Some(false), "p.note note-wrong", say::put_right(question));
        pen.close();
    }
    pen.close();
}

/// The likeliest explanation, said when it changes.
fn likeliest(pen: &mut Pen, wording: &Wording<'_>, found: &Diagnosis) {
    pen.open("div.finding-says|role=status");
    pen.line("h4", say::LIKELIEST);
    pen.open("div.finding-list");
    if let Some(one) = found.explanations.first() {
        pen.open("div.finding-one");
        explanation(pen, wording, found, 0, one);
        pen.close();
    }
    pen.close();
    pen.close();
}

/// The others, where they are worth a line.
fn others(pen: &mut Pen, wording: &Wording<'_>, found: &Diagnosis) {
    let worth = |one: &&Explanation| one.share >= 0.01;
    let count = found.explanations.iter().skip(1).take_while(worth).count();
    if count == 0 {
        return pen.nothing();
    }
    pen.open("details.more finding-others");
    pen.line_of("summary", say::others(count));
    pen.open("ol.finding-list");
    for (number, one) in (0_u8..).zip(&found.explanations).skip(1).take(count) {
        pen.open("li.finding-one");
        explanation(pen, wording, found, number, one);
        pen.close();
    }
    pen.close();
    pen.close();
}

fn explanation(
    pen: &mut Pen,
    wording: &Wording<'_>,
    found: &Diagnosis,
    number: u8,
    one: &Explanation,
) {
    pen.open("p.finding-likely");
    pen.line_of("b", say::likely(one.share));
    pen.text(", ");
    pen.text(say::fit(one.fit));
    pen.close();
    if let [only] = one.faults.as_slice() {
        pen.line_of("p.finding-what", tied(&wording.fault(only, &found.others)));
    } else {
        pen.line("p.hints", say::ALIKE);
        pen.open("ul.finding-alike");
        for fault in one.faults.iter().take(ALIKE) {
            pen.line_of("li", tied(&wording.fault(fault, &found.others)));
        }
        if one.faults.len() > ALIKE {
            pen.line("li", "…");
        }
        pen.close();
    }
    let drawn = pen.state.job.explained == Some(number);
    if one.faults.first().is_some_and(changes_runs) {
        let action = Action::Explain((!drawn).then_some(number));
        pen.button("quiet", if drawn { say::DRAW_PLAN } else { say::DRAW }, action);
    } else {
        pen.nothing();
    }
    if drawn { as_built(pen, wording) } else { pen.nothing() }
}

/// More alike faults than these are not told one by one.
const ALIKE: usize = 6;

/// Whether a fault is in the runs, so that it can be drawn as built.
const fn changes_runs(fault: &Fault) -> bool {
    matches!(
        fault,
        Fault::Missing { .. }
            | Fault::WrongEnd { .. }
            | Fault::Extra { .. }
            | Fault::Otherwise(_)
            | Fault::Crossed { .. }
    )
}

/// What to read next, below what was asked for before while that is being typed.
fn next(pen: &mut Pen, wording: &Wording<'_>, found: &Diagnosis) {
    let answering = pen.state.job.answering.filter(|point| found.next != Some(*point));
    pen.open("div.finding-asked");
    if let Some(point) = answering {
        ask(pen, wording, point, "div.finding-next finding-just", say::JUST_READ);
    }
    if let Some(point) = found.next {
        ask(pen, wording, point, "div.finding-next", say::NEXT);
    } else {
        // With a key like its neighbour: else that would be drawn anew under the fingers.
        pen.open("p.note");
        pen.key("end".to_owned());
        pen.text(if found.polarity {
            say::POLARITY
        } else if found.explanations.first().is_some_and(|one| one.faults.len() == 1) {
            say::FOUND
        } else {
            say::NO_MORE
        });
        pen.close();
    }
    pen.close();
}

fn ask(pen: &mut Pen, wording: &Wording<'_>, point: Point, spec: &'static str, over: &'static str) {
    pen.open(spec);
    pen.key(point.name());
    pen.line("h4", over);
    let (title, how) = wording.point_again(&point);
    pen.line_of("p.finding-point", tied(&title));
    pen.line_of("p", tied(&how));
    pen.line("p.hints", say::effort(point.effort(wording.plan)));
    reading::field(pen, wording, point);
    pen.close();
}

/// What was read in search of the fault, to be looked at or read again.
fn so_far(pen: &mut Pen, wording: &Wording<'_>, next: Option<Point>) {
    let state = pen.state;
    let asked = [next, state.job.answering];
    if !state.job.work.is_searched() {
        return pen.nothing();
    }
    pen.open("div.finding-far");
    let mut closer: Vec<Point> = Vec::new();
    for (point, _) in &state.job.work.read {
        if is_closer(*point) && !asked.contains(&Some(*point)) {
            closer.push(*point);
        }
    }
    pen.line_if(!closer.is_empty(), "h4", say::READ_SO_FAR);
    for point in closer {
        pen.open("div.finding-read");
        pen.key(point.name());
        pen.line_of("p.finding-point", tied(&wording.point(&point).0));
        reading::field(pen, wording, point);
        pen.close();
    }
    pen.button("quiet", say::FORGET, Action::Forget);
    pen.close();
}
