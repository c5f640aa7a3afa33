//! What the meter shows at a step: the field, and in a word whether it is right.

use super::pen::{Pen, What, When};
use super::tied;
use super::words::meter as words;
use super::words::page::wire as say;
use super::words::wiring::Told;
use crate::state::text::Misread;
use coilwright_solver::meter::Agreement;

const ID: &str = "reading";
const TROUBLE: &str = "reading-trouble";

/// The field of the step at hand, where it takes a reading.
pub fn field(pen: &mut Pen, told: &Told<'_>) {
    let state = pen.state;
    let step = state.work.at;
    let foretold = told.plan.foretold.get(usize::from(step)).copied().flatten();
    let Some(foretold) = foretold else { return pen.nothing() };
    let agreement = state.agreement(step);
    let wrong = matches!(agreement, Some(Err(_)));
    pen.open("div.reading");
    pen.open(if wrong { "span.blank blank-unit blank-wrong" } else { "span.blank blank-unit" });
    pen.open("span.blank-line");
    pen.open(
        "input|type=text|inputmode=decimal|autocomplete=off|autocapitalize=off|spellcheck=false",
    );
    pen.fixed("id", ID);
    if wrong {
        pen.fixed("aria-invalid", "true");
    }
    pen.fixed("aria-describedby", TROUBLE);
    pen.holds(state.work.reading(step));
    pen.on(When::Typed, What::Read(step));
    pen.close();
    pen.line("span.unit|aria-hidden=true", "Ω");
    pen.close();
    pen.open("label");
    pen.fixed("for", ID);
    pen.text(say::IT_READS);
    pen.close();
    pen.close();
    pen.open("div.reading-said|role=status");
    pen.fixed("id", TROUBLE);
    match agreement {
        None => pen.line("p.hints", say::READ_HELP),
        Some(Err(Misread::Negative)) => pen.line("p.trouble", say::NEGATIVE),
        Some(Err(Misread::NotOne)) => pen.line("p.trouble", say::NOT_A_READING),
        Some(Ok(agreement)) => {
            verdict(pen, agreement);
            let leads = state.leads().filter(|_| foretold.nominal > 0.0);
            let mut right = String::from(if leads.is_some() { say::WITH_LEADS } else { "" });
            right.push_str(&words::between(foretold.with_leads(leads)));
            right.push_str(" Ω");
            pen.told("span.reading-range", tied(&right));
            let may_mean = words::may_mean(agreement);
            pen.line_if(!may_mean.is_empty(), "p.hints", may_mean);
        }
    }
    pen.close();
    pen.close();
}

/// Whether a reading is right, in a word.
pub fn verdict(pen: &mut Pen, agreement: Agreement) {
    let (spec, sign) = match agreement {
        Agreement::Right => ("span.verdict verdict-fits", "✓"),
        Agreement::LeadsFirst => ("span.verdict verdict-unstated", "?"),
        _ => ("span.verdict verdict-low", "✕"),
    };
    pen.open(spec);
    pen.line("span.sign|aria-hidden=true", sign);
    pen.line("span", words::agreement(agreement));
    pen.close();
}
