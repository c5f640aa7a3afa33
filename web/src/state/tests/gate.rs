use crate::answer::asking::Question;
use crate::job::against::Against;
use crate::job::work::Work;
use crate::job::work::is_closer;
use crate::job::{Stop, Why};
use crate::link;
use crate::question::text::Misread;
use crate::rooms::Room;
use crate::state::State;
use crate::state::action::acts::*;
use coilwright_solver::meter::{self, Place};
use coilwright_solver::meter::{Agreement, Point};

/// Two single 2 Ω in parallel behind one cup, in working mode.
const PAIR: &str =
    "v=1&key=1:1a||2a&view=work&box=one~~~chain&drivers=2~1~2~500&amplifier=1~1&channel=1~1:1000";

fn answer(state: &State) -> State {
    let request = state.question.read.request.clone().unwrap();
    state.after(OnAnswer::Answered(Question::answer(request)))
}

fn opened(link: &str) -> State {
    answer(&State::with(link::open(link).unwrap().saved))
}

fn last(state: &State) -> usize {
    state.job.plan().unwrap().steps.len() - 1
}

/// Every prescribed reading of a sound rig, as typed.
fn sound(state: &State) -> State {
    let mut state = state.after(OnJob::Read(Point { act: 0, place: Place::Step }, "0.2".into()));
    for point in meter::points(state.job.plan().unwrap()) {
        if point.act == 0 || is_closer(point) {
            continue;
        }
        let text = match (point.place, state.job.foretold(point)) {
            (Place::Tied(..), _) => "0.2".into(),
            (_, Some(foretold)) => format!("{:.1}", foretold.expected),
            (_, None) => "OL".into(),
        };
        state = state.after(OnJob::Read(point, text));
    }
    state
}

fn cable(state: &State) -> Point {
    Point { act: meter::last_check(state.job.plan().unwrap()).unwrap(), place: Place::Step }
}

#[test]
fn a_wrong_reading_shuts_the_gate_before_landing_and_before_power() {
    let state = sound(&opened(PAIR));
    assert_eq!(state.job.stops(), []);
    let behind: Vec<usize> = (0..=last(&state)).filter(|step| state.job.is_behind(*step)).collect();
    assert_eq!(behind.len(), 2, "the cable, and the power");
    let wrong = state.after(OnJob::Read(cable(&state), "0.2".into()));
    let why = Why::Reads(Agreement::TooLow);
    assert_eq!(wrong.job.stops(), [Stop { point: cable(&state), why, text: "0.2".into() }]);
    assert!(behind.iter().all(|step| wrong.job.is_shut(*step)));
    assert!(!wrong.job.is_shut(behind[0] - 1), "the power may go off");
    // No tick opens it.
    let step = last(&wrong);
    let ticked = wrong.after(OnJob::Done(step, true));
    assert!(!ticked.job.is_done(step));
    let next = wrong.after(OnJob::Step(step)).after(OnJob::DoneNext);
    assert!(!next.job.is_done(step));
    let mended = wrong.after(OnJob::Read(cable(&state), "1.1".into()));
    assert!(!mended.job.is_shut(step) && mended.after(OnJob::Done(step, true)).job.is_done(step));
}

#[test]
fn whatever_was_not_taken_is_in_doubt_or_cannot_be_read_is_named() {
    let state = opened(PAIR);
    let last = last(&state);
    // Ticked off is not taken.
    let mut ticked = state.clone();
    for step in 0..last {
        ticked = ticked.after(OnJob::Done(step, true));
    }
    let all: Vec<Point> = ticked.job.stops().iter().map(|stop| stop.point).collect();
    let prescribed = meter::points(state.job.plan().unwrap());
    let prescribed: Vec<Point> = prescribed.into_iter().filter(|one| !is_closer(*one)).collect();
    assert_eq!(all, prescribed);
    assert!(
        ticked.job.stops().iter().all(|stop| stop.why == Why::NotTaken) && ticked.job.is_shut(last)
    );
    let basket = *prescribed.iter().find(|one| matches!(one.place, Place::Basket(_))).unwrap();
    let sound = sound(&state);
    for (point, text, why) in [
        (basket, "2.0", Why::Reads(Agreement::TooLow)),
        (basket, "1", Why::Misread(Misread::LoneOne)),
        (cable(&state), "about one", Why::Misread(Misread::NotOne)),
        (cable(&state), "1", Why::Reads(Agreement::Coarse)),
        (cable(&state), "", Why::NotTaken),
    ] {
        let read = sound.after(OnJob::Read(point, text.into()));
        assert_eq!(read.job.stops(), [Stop { point, why, text: text.into() }], "{text}");
    }
    // What is wrong stands before what was not taken.
    let both = ticked.after(OnJob::Read(cable(&state), "about one".into()));
    assert_eq!(both.job.stops()[0].point, cable(&state));
    // In search of a fault.
    let closer = meter::points(state.job.plan().unwrap()).into_iter().find(|one| is_closer(*one));
    let searched = sound.after(OnJob::Read(closer.unwrap(), "77.0".into()));
    assert_eq!(searched.job.stops()[0].point, closer.unwrap());
}

#[test]
fn somebody_may_go_on_against_it_in_words_alone_and_they_cover_no_more() {
    let state = sound(&opened(PAIR));
    let (point, step) = (cable(&state), last(&state));
    let wrong = state.after(OnJob::Read(point, "0.2".into()));
    for few in ["", "  ", "x", "...", "a b c"] {
        let said = wrong.after(OnJob::Against(few.into())).after(OnJob::GoAgainst);
        assert!(said.job.is_shut(step) && said.job.against().is_none(), "{few:?}");
    }
    let typed = wrong.after(OnJob::Against(" Ann answers for it ".into()));
    assert!(typed.job.is_shut(step), "typed is not said");
    let said = typed.after(OnJob::GoAgainst);
    assert_eq!((said.job.against(), said.job.is_shut(step)), (Some("Ann answers for it"), false));
    assert!(said.after(OnJob::Done(step, true)).job.is_done(step));
    // Taken back, the words stand in the field.
    let back = said.after(OnJob::Against("Ann answers for it".into()));
    assert!(back.job.is_shut(step) && back.job.saying() == "Ann answers for it");
    // Another reading that is wrong, or the same one otherwise, was not spoken of.
    let leads = Point { act: 0, place: Place::Step };
    for (point, text) in [(leads, "4.0"), (leads, ""), (point, "9.0"), (point, "0.1")] {
        let other = said.after(OnJob::Read(point, text.into()));
        assert!(other.job.is_shut(step) && other.job.against().is_none(), "{text:?}");
        assert_eq!(other.job.saying(), "", "words that no longer hold are not offered again");
        assert_eq!(other.saved().work.against, Against::default());
    }
    let agrees = said.after(OnJob::Read(point, "1.1".into()));
    assert_eq!((agrees.job.against(), agrees.job.is_shut(step)), (None, false));
}

#[test]
fn what_was_said_is_kept_in_the_link_and_covers_what_it_opened_with() {
    let state = sound(&opened(PAIR));
    let (point, step) = (cable(&state), last(&state));
    let typed = state
        .after(OnJob::Read(point, "0.2".into()))
        .after(OnJob::Against("Ann: 50 % ~ & so on".into()));
    let again = opened(&link::write(&typed.saved()));
    assert_eq!(again.job.work, typed.job.work);
    assert!(again.job.is_shut(step));
    let said = typed.after(OnJob::GoAgainst);
    let again = opened(&link::write(&said.saved()));
    assert_eq!((again.job.work.clone(), again.job.is_shut(step)), (said.job.work.clone(), false));
    let worse = again.after(OnJob::Read(Point { act: 0, place: Place::Step }, "4.0".into()));
    assert!(worse.job.is_shut(step));
    let worse = opened(&link::write(&worse.saved()));
    assert!(worse.job.is_shut(step) && worse.job.work.against == Against::default());
    // The golden link, and such as nobody wrote.
    let read = |part: &str| link::open(&format!("v=1&{part}&drivers=2~1~2~500")).unwrap();
    let golden = read("against=1~Ann%20answers");
    assert_eq!(golden.saved.work.against, Against { words: "Ann answers".into(), went: true });
    let whole = Work { against: Against::typed("An"), ..Work::default() };
    assert_eq!(read("against=0~An").saved.work, whole);
    for bad in ["against=1~An", "against=2~Ann%20answers", "against=Ann", "against=0~"] {
        let opened = read(bad);
        assert_eq!(opened.saved.work, Work::default(), "{bad}");
        assert_eq!(opened.left_out.len(), 1, "{bad}");
    }
}

#[test]
fn a_stop_is_one_tap_away_also_from_the_sheet() {
    let state = sound(&opened(PAIR)).after(OnPage::Room(Room::Sheet));
    let went = state.after(OnJob::GoTo(cable(&state)));
    let step = went.job.plan().unwrap().step_of(cable(&state).act);
    assert_eq!((went.page.room, Some(went.job.at())), (Room::Work, step));
    assert_eq!(went.job.reached, (1, Some(cable(&state))));
    let plan = state.after(OnPage::Room(Room::Wire)).after(OnJob::GoTo(cable(&state)));
    assert_eq!(plan.page.room, Room::Wire);
}

#[test]
fn readings_stand_in_the_order_taken_and_what_is_read_again_is_read_last() {
    let state = opened(PAIR);
    let leads = Point { act: 0, place: Place::Step };
    let read = |state: &State, point, text: &str| state.after(OnJob::Read(point, text.into()));
    let state = read(&read(&state, cable(&state), "1.1"), leads, "0.2");
    let order = |state: &State| state.job.work.read.iter().map(|(of, _)| *of).collect::<Vec<_>>();
    assert_eq!(order(&state), [cable(&state), leads]);
    assert_eq!(opened(&link::write(&state.saved())).job.work.read, state.job.work.read);
    let again = read(&state, cable(&state), "1.2");
    assert_eq!(order(&again), [leads, cable(&state)]);
    assert_eq!(again.job.work.reading(cable(&state)), "1.2");
    let twice = link::open("v=1&meter=2~1.0~2~1.1&drivers=2~1~2~500").unwrap();
    assert!(twice.saved.work.read.is_empty() && twice.left_out.len() == 1);
}

#[test]
fn a_lone_1_is_asked_about_only_where_1_ohm_would_be_wrong() {
    let state = sound(&opened(PAIR));
    let plan = state.job.plan().unwrap();
    let coil = meter::points(plan).into_iter().find(|one| matches!(one.place, Place::Coil(_)));
    let coil = coil.unwrap();
    let judged =
        |point, text: &str| state.after(OnJob::Read(point, text.into())).job.agreement(point);
    // A coil of 2 Ω reads 1.4 at least.
    assert_eq!(judged(coil, "1"), Some(Err(Misread::LoneOne)));
    assert_eq!(judged(coil, " 1 Ω"), Some(Err(Misread::LoneOne)));
    assert_eq!(judged(coil, "1.0"), Some(Ok(Agreement::TooLow)));
    assert_eq!(judged(coil, "OL"), Some(Ok(Agreement::Open)));
    // Two in parallel may well read 1 Ω.
    assert!(matches!(judged(cable(&state), "1"), Some(Ok(_))));
    // Until it is answered it is no reading.
    assert_eq!(state.after(OnJob::Read(coil, "1".into())).job.found(), None);
}
