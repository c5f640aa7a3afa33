use super::code::{self, Holds, LEAST, PRINTED, UNITS};
use super::lies::{How, Lies, Set};
use super::paper;
use super::state::{About, Line};
use crate::parts::plan::wording_of;
use crate::state::State;
use crate::state::action::acts::*;
use crate::state::draft::{draft, open_draft};
use crate::state::opening::{self, Found};
use coilwright_solver::meter::at_act;

const MONO: &str = "&amplifier=1~1&channel=1~4:540~2:900~1:1300";
const ADDRESS: &str = "https://plans.example.org/coilwright/#";

fn opened(link: &str) -> State {
    let state = opening::open(&Found { fragment: format!("#{link}"), ..Found::default() });
    assert_eq!(state.page.notices, [], "{link}");
    assert!(state.job.plan().is_some(), "{link}");
    state
}

/// So many duals of 4 Ω, the coils of each in series and all of them in parallel.
fn duals(count: usize) -> State {
    let all: Vec<String> = (1..=count).map(|n| format!("({n}a+{n}b)")).collect();
    let key = all.join("%7C%7C");
    opened(&format!(
        "v=1&key=1:{key}&view=sheet&customer=Marigold&names=Rear&box=one~~~chain&drivers={count}~2~4~300{MONO}"
    ))
}

/// The same with a reading of everything that the steps ask for.
fn read(mut state: State) -> State {
    let acts = state.job.plan().unwrap().acts.len();
    for act in 0..u16::try_from(acts).unwrap() {
        for point in at_act(state.job.plan().unwrap(), act) {
            let text = state.job.foretold(point).map_or("OL".into(), |of| format!("{:.1}", of.expected));
            state = state.after(OnJob::Read(point, text));
        }
    }
    state
}

#[test]
fn the_head_is_kept_as_typed_and_comes_back_with_link_and_draft() {
    let mut state = duals(2);
    for (line, text) in Line::ALL.into_iter().zip(["  Ann & Ben ", "\u{5d3}\u{5dc}\u{5ea} 2", ""]) {
        state = state.after(InSheet::Write(line, text.into()));
    }
    let due = About::of(["  Ann & Ben ", "\u{5d3}\u{5dc}\u{5ea} 2", ""]);
    assert_eq!(*state.rooms.sheet, due);
    assert_eq!(*State::with(state.saved()).rooms.sheet, due);
    let text = draft(&crate::link::write(&state.saved()), &state.rooms.rigs.mine);
    assert_eq!(open_draft(&text).unwrap().0.saved.rooms.sheet, due);
}

/// Another rig has another customer.
#[test]
fn a_new_rig_begins_with_an_empty_head_and_the_old_one_comes_back_with_its_own() {
    let state = duals(2).after(OnPage::StartEmpty);
    assert_eq!(*state.rooms.sheet, About::default());
    let state = state.after(OnPage::Undo(false));
    assert_eq!(state.rooms.sheet.line(Line::Customer), "Marigold");
}

#[test]
fn whoever_types_a_name_waits_for_no_drawing() {
    let write = |state: &State, text: &str| state.after(InSheet::Write(Line::Vehicle, text.into()));
    let state = write(&duals(4), "F");
    let before = paper::given(&state);
    assert_eq!(paper::given(&write(&state, "Fl")), before);
}

/// The code is seen by whoever opens the boot; whose it is stands in ink beside it.
#[test]
fn no_code_holds_what_people_wrote_at_the_head() {
    let state = duals(2).after(InSheet::Write(Line::DoneBy, "Ben".into()));
    for holds in Holds::ALL {
        let link = code::link(&state, holds);
        assert!(!link.contains("Marigold") && !link.contains("Ben"), "{link}");
        assert!(link.contains("&drivers=2~2~4~300&"), "{link}");
    }
}

#[test]
fn a_code_does_without_names_then_without_readings_and_last_without_the_box() {
    let state = read(duals(2));
    let holds = |holds| {
        let link = code::link(&state, holds);
        ["names=", "meter=", "box=", "key="].map(|part| link.contains(part))
    };
    assert_eq!(holds(Holds::All), [true, true, true, true]);
    assert_eq!(holds(Holds::Readings), [false, true, true, true]);
    assert_eq!(holds(Holds::Plan), [false, false, true, true]);
    assert_eq!(holds(Holds::Rig), [false, false, false, true]);
}

/// What a code holds opens as the same job: its readings are right there too.
#[test]
fn the_code_of_a_rig_that_was_read_opens_with_its_readings() {
    let state = read(duals(2));
    let again = opened(&code::link(&state, Holds::Readings));
    assert_eq!(again.job.work.read.len(), state.job.work.read.len());
    assert!(again.job.stops().is_empty() && !again.job.work.read.is_empty());
}

/// On one page up to four drivers and on the first of two up to sixteen, with every reading.
#[test]
fn codes_carry_every_reading_at_modules_that_a_phone_can_read() {
    for (count, printed) in [(2, PRINTED[0]), (4, PRINTED[0]), (8, PRINTED[1]), (16, PRINTED[1])] {
        for state in [duals(count), read(duals(count))] {
            let whole = |link: &str| format!("{ADDRESS}{link}");
            let (holds, scene) = code::of(&state, whole, printed).unwrap();
            let modules = scene.width / UNITS;
            assert!(modules * LEAST <= printed * 10, "{count} drivers: {modules} modules");
            assert_eq!(holds, Holds::All, "{count} drivers: {modules} modules");
        }
    }
}

/// The smaller it is printed, the less it holds, and never a module too fine.
#[test]
fn what_a_small_code_does_without_is_what_was_asked_for_last() {
    let link = crate::link::write(&duals(8).saved());
    let built = "box=one~~~chain&reversed=1~2~3~4~5~6~7~8&wire=2.5~1.25~1.25~1.25~1.25~1.25&drivers";
    let link = link.replace("box=one~~~chain&drivers", built).replace("Rear", &"W".repeat(60));
    let state = read(opened(&link));
    let mut told = Vec::new();
    for printed in (15..=60).rev() {
        let whole = |link: &str| format!("{ADDRESS}{link}");
        let Some((holds, scene)) = code::of(&state, whole, printed) else { continue };
        assert!(scene.width / UNITS * LEAST <= printed * 10, "{printed} mm");
        told.push(holds);
    }
    told.dedup();
    assert_eq!(told, Holds::ALL);
}

#[test]
fn a_drawing_has_the_way_that_makes_it_largest() {
    let lies = |state: &State, size| {
        let wired = state.job.wired.clone().unwrap();
        Lies::of(size, &wording_of(&wired).unwrap(), 12, 0)
    };
    // Tall and slim, as wide as tall, and far wider than tall.
    let four = duals(4);
    assert_eq!(lies(&four, (400, 620)).how, How::Slim);
    assert_eq!(lies(&four, (900, 300)), Lies { columns: 1, how: How::Across, set: Set::Close });
    // A small one leaves room to write.
    assert_eq!(lies(&duals(1), (300, 200)).set, Set::Roomy);
    // A column of sixteen drivers is cut.
    let many = lies(&duals(16), (460, 2640));
    assert!(many.columns > 1 && many.how == How::Across, "{many:?}");
}
