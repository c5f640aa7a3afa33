//! What the meter shows at a point: the field, and in a word whether it is right.

use crate::job::Action;
use crate::job::work::is_closer;
use crate::parts::tied::tied;
use crate::pen::{Pen, What, When};
use crate::question::text::Misread;
use crate::rooms::Room;
use crate::state::Action as Anything;
use crate::words::doubt;
use crate::words::meter as words;
use crate::words::page::wire as say;
use crate::words::wiring::Wording;
use crate::words::{finding, gate};
use coilwright_solver::meter::{Agreement, Place, Point, at_act};
use coilwright_solver::wiring::Act;

/// The fields of the step at hand, where it takes readings.
pub fn fields(pen: &mut Pen, wording: &Wording<'_>) {
    let points = pen.state.job.points(pen.state.job.at());
    let few = points.len() == 1;
    pen.open(if few { "div.readings" } else { "div.readings readings-many" });
    for point in points {
        field(pen, wording, point);
    }
    pen.close();
    let state = pen.state;
    if state.job.found().is_some() {
        // They stand among what was read so far.
        return pen.nothing();
    }
    // What was read more closely and is still in doubt.
    pen.open("div.readings");
    for stop in state.job.stops() {
        if is_closer(stop.point) && state.job.is_at_hand(stop.point) {
            pen.line_of("p.finding-point", tied(&wording.point(&stop.point).0));
            field(pen, wording, stop.point);
        }
    }
    pen.close();
}

/// The id of the field of a point.
pub fn id_of(point: Point) -> String {
    let mut id = String::from("reading-");
    id.push_str(&point.name());
    id
}

/// What a field of several is called.
fn label(pen: &Pen, wording: &Wording<'_>, point: Point) -> String {
    match point.place {
        Place::Coil(coil) => wording.coil_named(coil),
        Place::Basket(_) => finding::BASKET.to_owned(),
        Place::Tied(output, sign) => wording.tied_named(output, sign),
        Place::Step if wording.plan.acts.get(usize::from(point.act)) == Some(&Act::Leads) => {
            finding::LEADS.to_owned()
        }
        // In search of a fault there is a field beside that of the step.
        _ if !pen.state.job.is_at_hand(point) || is_closer(point) => finding::THERE.to_owned(),
        _ => say::IT_READS.to_owned(),
    }
}

/// The field of a point, and whether what stands in it is right.
pub fn field(pen: &mut Pen, wording: &Wording<'_>, point: Point) {
    entry(pen, wording, point, id_of(point), |pen, agreement| said(pen, wording, point, agreement));
}

/// The key that puts OL into a field, which the keys of most phones have no letters for.
pub fn ol(pen: &mut Pen, field: &str, action: impl Into<Anything>) {
    pen.press("quiet ol", What::Do(action.into()));
    pen.made("aria-label", gate::ol_for(field));
    pen.text(gate::OL);
    pen.close();
}

/// A field for ohms with what was typed, described by what has the id `described`. The
/// element around it is left open for the label.
pub fn ohms(pen: &mut Pen, id: String, described: String, raw: &str, wrong: bool, what: What) {
    pen.open(if wrong { "span.blank blank-unit blank-wrong" } else { "span.blank blank-unit" });
    pen.open("span.blank-line");
    pen.open(
        "input|type=text|inputmode=decimal|autocomplete=off|autocapitalize=off|spellcheck=false",
    );
    pen.made("id", id);
    if wrong {
        pen.fixed("aria-invalid", "true");
    }
    pen.made("aria-describedby", described);
    pen.holds(raw);
    pen.on(When::Typed, what);
    pen.close();
    pen.line("span.unit|aria-hidden=true", "Ω");
    pen.close();
}

/// Why what was typed is no reading.
pub const fn misread(why: Misread) -> &'static str {
    match why {
        Misread::Negative => say::NEGATIVE,
        // Where nothing is foretold, a 1 is 1 Ω.
        Misread::NotOne | Misread::LoneOne => say::NOT_A_READING,
    }
}

/// A reading of which nothing is foretold.
#[derive(Debug)]
pub struct Alone<'a> {
    /// The id of its field.
    pub id: &'static str,
    /// What that is called.
    pub label: &'static str,
    /// What was typed.
    pub raw: &'a str,
    /// Why that is none.
    pub trouble: Option<&'static str>,
    /// The element that says how to read it, or nothing.
    pub how: &'static str,
    /// What is typed goes there.
    pub what: What,
    /// What its key for OL does, where it has one.
    pub ol: Option<Anything>,
}

/// Its field, and what is wrong with it.
pub fn alone(pen: &mut Pen, it: Alone<'_>) {
    let mut about = String::from(it.id);
    about.push_str("-trouble");
    let mut described = about.clone();
    described.push(' ');
    described.push_str(it.how);
    ohms(pen, it.id.to_owned(), described, it.raw, it.trouble.is_some(), it.what);
    pen.open("label");
    pen.fixed("for", it.id);
    pen.text(it.label);
    pen.close();
    pen.open("span");
    pen.made("id", about);
    if let Some(trouble) = it.trouble {
        pen.fixed("class", "trouble");
        pen.text(trouble);
    }
    pen.close();
    if let Some(action) = it.ol {
        ol(pen, it.label, action);
    }
    pen.close();
}

type Judged = Option<Result<Agreement, Misread>>;

/// A field with what is said of it beside.
fn entry(
    pen: &mut Pen,
    wording: &Wording<'_>,
    point: Point,
    id: String,
    beside: impl FnOnce(&mut Pen, Judged),
) {
    let agreement = pen.state.job.agreement(point);
    let wrong = matches!(agreement, Some(Err(_)));
    let mut trouble = id.clone();
    trouble.push_str("-said");
    pen.open("div.reading");
    pen.key(id.clone());
    let raw = pen.state.job.work.reading(point);
    ohms(pen, id.clone(), trouble.clone(), raw, wrong, What::Read(point));
    let called = label(pen, wording, point);
    pen.open("label");
    pen.made("for", id);
    pen.said(called.clone());
    pen.close();
    pen.close();
    ol(pen, &called, Action::Read(point, gate::OL.to_owned()));
    pen.open("div.reading-said|role=status");
    pen.made("id", trouble);
    beside(pen, agreement);
    pen.close();
    // Buttons are no part of what is said of a field.
    if agreement == Some(Err(Misread::LoneOne)) {
        pen.open("div.reading-one");
        pen.button("quiet", gate::IS_ONE, Action::Read(point, "1.0".to_owned()));
        pen.button("quiet", gate::IS_OPEN, Action::Read(point, gate::OL.to_owned()));
        pen.close();
    } else {
        pen.nothing();
    }
    pen.close();
}

fn said(pen: &mut Pen, wording: &Wording<'_>, point: Point, agreement: Judged) {
    let state = pen.state;
    let foretold = state.job.foretold(point);
    match agreement {
        None if foretold.is_none() => pen.line("p.hints reading-help", finding::MUST_BE_OPEN),
        None => pen.line("p.hints reading-help", say::READ_HELP),
        Some(Err(Misread::LoneOne)) => pen.line("p.trouble", gate::ASK_ONE),
        Some(Err(why)) => pen.line("p.trouble", misread(why)),
        Some(Ok(agreement)) => {
            let Some(foretold) = foretold else {
                return if agreement == Agreement::Right {
                    verdict(pen, agreement);
                } else {
                    sign(pen, "span.verdict verdict-low", "✕", finding::NOT_OPEN);
                };
            };
            verdict(pen, agreement);
            // Leads are not among what they read themselves.
            let touching = foretold.nominal <= 0.0 && point.place == Place::Step;
            let leads = state.job.metered.known.leads.is_some() && !touching;
            let mut right = String::from(if leads { say::WITH_LEADS } else { "" });
            right.push_str(&words::range(&foretold));
            right.push_str(" Ω");
            pen.line_of("span.reading-range", tied(&right));
            let may_mean = match point.place {
                Place::Tied(..) if agreement.is_wrong() => finding::NOT_TIED,
                _ => words::may_mean(agreement),
            };
            pen.line_if(!may_mean.is_empty(), "p.hints", may_mean);
            left_open(pen, wording, point, agreement);
        }
    }
}

/// What a right reading does not exclude: the likeliest two in words, and how many more; and
/// a finer way to read, where there is one.
fn left_open(pen: &mut Pen, wording: &Wording<'_>, point: Point, agreement: Agreement) {
    let right = matches!(agreement, Agreement::Right | Agreement::Doubtful);
    let open = pen.state.job.left_open(point).filter(|_| right);
    let finer = open.and_then(|open| open.finer.as_ref());
    let Some((open, finer)) = open.zip(finer) else { return pen.nothing() };
    pen.open("div.reading-open");
    let mut text = String::from(doubt::NOT_EXCLUDED);
    let faults = pen.state.job.not_excluded(wording, open);
    for fault in faults.iter().take(TOLD) {
        text.push(' ');
        text.push_str(fault);
    }
    if let Some(more @ 1..) = faults.len().checked_sub(TOLD) {
        text.push(' ');
        text.push_str(&doubt::more(more));
    }
    // Where a step is one screen there is room for one line of it.
    let folded = pen.state.page.room == Room::Work;
    if !folded {
        pen.line_of("p.hints", tied(&text));
    }
    pen.open("details.more");
    pen.line("summary", if folded { doubt::LEFT_OPEN } else { doubt::FINER });
    if folded {
        pen.line_of("p.hints", tied(&text));
    }
    pen.line_of("p.hints", tied(&doubt::finer(finer)));
    pen.close();
    pen.close();
}

/// So many faults that are not excluded are told one by one.
const TOLD: usize = 2;

/// Whether a reading is right, in a word.
pub fn verdict(pen: &mut Pen, agreement: Agreement) {
    let (spec, mark) = match agreement {
        Agreement::Right => ("span.verdict verdict-fits", "✓"),
        Agreement::LeadsFirst | Agreement::Coarse | Agreement::Doubtful => {
            ("span.verdict verdict-unstated", "?")
        }
        _ => ("span.verdict verdict-low", "✕"),
    };
    sign(pen, spec, mark, words::agreement(agreement));
}

fn sign(pen: &mut Pen, spec: &'static str, mark: &'static str, word: &'static str) {
    pen.open(spec);
    pen.line("span.sign|aria-hidden=true", mark);
    pen.line("span", word);
    pen.close();
}

/// The form for the leads and for every coil by itself.
pub fn coils(pen: &mut Pen, wording: &Wording<'_>) {
    pen.open("details.more coils");
    pen.line("summary", finding::COILS);
    pen.line("p.hints", finding::COILS_HELP);
    pen.open("div.readings readings-many");
    for (at, act) in (0_u16..).zip(&wording.plan.acts) {
        if matches!(act, Act::Leads | Act::Coils { .. }) {
            for point in at_act(wording.plan, at) {
                short(pen, wording, point);
            }
        }
    }
    pen.close();
    pen.line("p.hints", finding::DRIFTS);
    pen.close();
}

/// A field with what is right, or how its reading stands.
fn short(pen: &mut Pen, wording: &Wording<'_>, point: Point) {
    if matches!(point.place, Place::Basket(_)) {
        return;
    }
    let mut id = String::from("short-");
    id.push_str(&point.name());
    entry(pen, wording, point, id, |pen, agreement| {
        if agreement.is_some() {
            said(pen, wording, point, agreement);
        } else if let Some(foretold) = pen.state.job.foretold(point) {
            let mut range = words::range(&foretold);
            range.push_str(" Ω");
            pen.line_of("span.reading-range", tied(&range));
        }
    });
}
