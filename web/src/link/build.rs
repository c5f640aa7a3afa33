//! The parts of a link about the box and the work.

use super::escape::{escaped, joined, unescaped};
use super::texts;
use crate::job::against::Against;
use crate::job::work::Work;
use crate::question::fields::{BuildForm, TakesForm};
use coilwright_solver::meter::{Place, Point, Question};

const ROOM: &str = "room";
const TAB: &str = "tab";

/// Writes what is not as usual.
pub(super) fn write(build: &BuildForm, part: &mut dyn FnMut(&str, &str)) {
    if !texts::is_usual(build, "box") || build.not_in_vehicle {
        let mut value = String::new();
        texts::write(build, "box", '~', &mut value);
        if build.not_in_vehicle {
            value.push('~');
            value.push_str(ROOM);
        }
        part("box", &value);
    }
    if !build.reversed.is_empty() {
        let numbers: Vec<String> = build.reversed.iter().map(u32::to_string).collect();
        part("reversed", &joined(&numbers.iter().collect::<Vec<_>>()));
    }
    if !texts::is_usual(build, "wire") {
        let mut value = String::new();
        texts::write(build, "wire", '~', &mut value);
        part("wire", &value);
    }
    if build.takes != BuildForm::default().takes {
        let mut value = String::new();
        for (i, takes) in build.takes.iter().enumerate() {
            if i > 0 {
                value.push('~');
            }
            texts::write(takes, "terminals", ':', &mut value);
            if takes.push_on {
                value.push(':');
                value.push_str(TAB);
            }
        }
        part("terminals", &value);
    }
}

/// The step at hand, and a bit for each that is done, four to a digit.
pub(super) fn work(work: &Work) -> String {
    let mut value = work.at.to_string();
    value.push('~');
    let last = work.done.last().map_or(0, |last| usize::from(*last) / 4 + 1);
    let mut digits = vec![0_u8; last];
    for step in &work.done {
        if let Some(digit) = digits.get_mut(usize::from(step / 4)) {
            *digit |= 1 << (step % 4);
        }
    }
    for digit in digits {
        value.push(char::from_digit(digit.into(), 16).unwrap_or('0'));
    }
    value
}

/// What the meter showed, point by point; of old work by the number of the step.
pub(super) fn readings(work: &Work) -> String {
    let mut value = String::new();
    for (point, text) in &work.read {
        if !value.is_empty() {
            value.push('~');
        }
        let name = if work.old { point.act.to_string() } else { point.name() };
        value.push_str(&name);
        value.push('~');
        value.push_str(&escaped(text, b""));
    }
    value
}

/// What was answered to the questions.
pub(super) fn asked(work: &Work) -> String {
    let mut value = String::new();
    for (question, answer) in &work.asked {
        if !value.is_empty() {
            value.push('~');
        }
        value.push_str(question.name());
        value.push(if *answer { '1' } else { '0' });
    }
    value
}

/// Reads them.
pub(super) fn read_asked(value: &str) -> Option<Vec<(Question, bool)>> {
    let mut asked: Vec<(Question, bool)> = Vec::new();
    for text in value.split('~') {
        let (name, answer) = match text.strip_suffix('1') {
            Some(name) => (name, true),
            None => (text.strip_suffix('0')?, false),
        };
        let question = Question::named(name)?;
        if asked.last().is_some_and(|(last, _)| *last >= question) {
            return None;
        }
        asked.push((question, answer));
    }
    Some(asked)
}

/// Writes why somebody goes on against the meter.
pub(super) fn against(against: &Against) -> String {
    let mut value = String::from(if against.went { "1~" } else { "0~" });
    value.push_str(&escaped(&against.words, b""));
    value
}

/// Reads that; nobody went on with words that say nothing.
pub(super) fn read_against(value: &str) -> Option<Against> {
    let (went, words) = value.split_once('~')?;
    let words = unescaped(words)?;
    let against = match went {
        "0" => Against::typed(&words),
        "1" => Against::said(&words),
        _ => return None,
    };
    let whole = against.words == words && !words.is_empty();
    (whole && against.went == (went == "1")).then_some(against)
}

/// Reads what the meter showed, in the order taken; of old work by the number of the step.
pub(super) fn read_readings(value: &str, old: bool) -> Option<Vec<(Point, String)>> {
    let mut texts = value.split('~');
    let mut read: Vec<(Point, String)> = Vec::new();
    while let Some(name) = texts.next() {
        let point = if old {
            Point { act: name.parse().ok()?, place: Place::Step }
        } else {
            Point::named(name)?
        };
        let text = unescaped(texts.next()?).filter(|text| !text.is_empty())?;
        if read.len() >= MOST_STEPS || read.iter().any(|(before, _)| *before == point) {
            return None;
        }
        read.push((point, text));
    }
    Some(read)
}

/// More steps than any plan has.
const MOST_STEPS: usize = 1_000;

/// Reads the work.
pub(super) fn read_work(value: &str) -> Option<Work> {
    let (at, digits) = value.split_once('~')?;
    let mut work = Work { at: at.parse().ok()?, ..Work::default() };
    if digits.len() > MOST_STEPS / 4 {
        return None;
    }
    for (i, digit) in (0_u16..).zip(digits.chars()) {
        let bits = digit.to_digit(16)?;
        work.done.extend((0..4).filter(|bit| bits >> bit & 1 == 1).map(|bit| 4 * i + bit));
    }
    Some(work)
}

/// Reads how the box is built.
pub(super) fn read_box(value: &str, build: &mut BuildForm) -> Option<()> {
    let mut values = value.split('~').peekable();
    let mut read = build.clone();
    texts::read(&mut read, "box", &mut values)?;
    read.not_in_vehicle = match values.next() {
        None => false,
        Some(ROOM) => true,
        Some(_) => return None,
    };
    values.next().is_none().then(|| *build = read)
}

/// Reads the drivers that are mounted facing in.
pub(super) fn read_reversed(value: &str, build: &mut BuildForm) -> Option<()> {
    for number in value.split('~') {
        let driver = number.parse().ok().filter(|driver| (1..=16).contains(driver))?;
        build.mount(driver, true);
    }
    Some(())
}

/// Reads area and distances.
pub(super) fn read_wire(value: &str, build: &mut BuildForm) -> Option<()> {
    let mut values = value.split('~').peekable();
    texts::read(build, "wire", &mut values)?;
    values.next().is_none().then_some(())
}

/// Reads what terminals take.
pub(super) fn read_terminals(value: &str, build: &mut BuildForm) -> Option<()> {
    let mut all: [TakesForm; 3] = Default::default();
    let mut texts = value.split('~');
    for takes in &mut all {
        let mut values = texts.next()?.split(':').peekable();
        super::texts::read_entry(takes, "terminals", &mut values)?;
        takes.push_on = match values.next() {
            None => false,
            Some(TAB) => true,
            Some(_) => return None,
        };
    }
    build.takes = all;
    texts.next().is_none().then_some(())
}
