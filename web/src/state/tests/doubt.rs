use crate::answer::asking::Question;
use crate::link;
use crate::rooms::Room;
use crate::state::State;
use crate::state::action::acts::*;
use coilwright_solver::meter::Place;
use coilwright_solver::meter::{self, Agreement, Fault, Foretold, Point};
use coilwright_solver::network::Coil;
use coilwright_solver::wiring::Act;
use coilwright_words::english::meter::range;
use coilwright_words::english::wiring::Wording;
use std::rc::Rc;

const FOUR: &str = "v=1&key=1:1a||2a||3a||4a&view=wire&box=one~~~chain&drivers=4~1~4~500&amplifier=1~1&channel=1~1:1000";

fn opened(link: &str) -> State {
    let state = State::with(link::open(link).unwrap().saved);
    let request = state.question.read.request.clone().unwrap();
    state.after(OnAnswer::Answered(Question::answer(request)))
}

/// What was typed, and what is found of it.
fn read(state: &State, point: Point, text: &str) -> State {
    let state = state.after(OnJob::Read(point, text.into()));
    let Some(mut diagnosing) = state.job.diagnosing() else { return state };
    loop {
        if let Some(found) = diagnosing.step(1000) {
            return state.after(OnJob::Found(Rc::new(found)));
        }
    }
}

fn last(state: &State) -> Point {
    Point { act: meter::last_check(state.job.plan().unwrap()).unwrap(), place: Place::Step }
}

const LEADS: Point = Point { act: 0, place: Place::Step };

fn foretold_of(state: &State) -> &[Option<Foretold>] {
    &state.job.wired.as_deref().unwrap().foretold
}

fn wording(state: &State) -> Wording<'_> {
    let wired = state.job.wired.as_deref().unwrap();
    Wording {
        rig: &wired.rig,
        build: &wired.build,
        configuration: &wired.configuration,
        plan: wired.plan.as_ref().unwrap(),
        foretold: &wired.foretold,
        names: &wired.names,
    }
}

/// One of four drivers missing reads within the range: it is doubtful, what may be wrong is
/// shown with what to read next, and both are gone once what is read is likely.
#[test]
fn what_is_in_doubt_is_explained_and_the_next_reading_asked_for() {
    let state = read(&opened(FOUR), LEADS, "0.2");
    let last = last(&state);
    let typed = state.after(OnJob::Read(last, "1.4".into()));
    assert_eq!((typed.job.agreement(last), typed.job.found()), (Some(Ok(Agreement::Right)), None));
    let doubted = read(&state, last, "1.4");
    assert_eq!(doubted.job.agreement(last), Some(Ok(Agreement::Doubtful)));
    let found = doubted.job.found().unwrap();
    assert!(found.next.is_some() && found.sound < 0.5 && !doubted.job.is_wrong());
    assert!(!doubted.job.suspects().is_empty());
    // Until more is known what was doubtful stays so; another reading there is another thing.
    let coil = Point { act: 1, place: Place::Coil(Coil { driver: 0, coil: 0 }) };
    let more = doubted.after(OnJob::Read(coil, "3.4".into()));
    assert_eq!(more.job.agreement(last), Some(Ok(Agreement::Doubtful)));
    assert!(more.job.found().is_some());
    let other = doubted.after(OnJob::Read(last, "1.1".into()));
    assert_eq!(other.job.agreement(last), Some(Ok(Agreement::Right)));
    let right = read(&doubted, last, "1.1");
    assert_eq!((right.job.agreement(last), right.job.found()), (Some(Ok(Agreement::Right)), None));
}

/// The step, its field, the sheet and the verdict tell one range, before leads and coils are
/// read and after.
#[test]
fn step_field_and_sheet_tell_one_range() {
    let mut state = opened(FOUR);
    let mut ranges = Vec::new();
    for round in 0..3 {
        if round == 1 {
            state = read(&state, LEADS, "0.4");
        }
        if round == 2 {
            for point in meter::points(state.job.plan().unwrap()) {
                if matches!(point.place, Place::Coil(_)) {
                    state = read(&state, point, "3.6");
                }
            }
        }
        let plan = state.job.plan().unwrap();
        for act in 0..u16::try_from(plan.acts.len()).unwrap() {
            for point in meter::at_act(plan, act) {
                let Some(foretold) = state.job.foretold(point) else { continue };
                // The field and the blank on the sheet take this, coils of a driver that.
                assert_eq!(
                    foretold_of(&state)[usize::from(act)],
                    Some(foretold),
                    "{}",
                    point.name()
                );
                let text = wording(&state).act(usize::from(act)).text;
                assert!(text.contains(&range(&foretold)), "{round}: {text} {foretold:?}");
                let step = wording(&state).step(plan.step_of(act).unwrap());
                let said = matches!(plan.acts[usize::from(act)], Act::Leads)
                    || step.text().contains(&range(&foretold));
                assert!(said, "{round}: {step:?} {foretold:?}");
            }
        }
        ranges.push(range(&state.job.foretold(last(&state)).unwrap()));
    }
    assert_eq!(ranges, ["0.7 to 1.6", "1.0 to 1.5", "1.0 to 1.4"]);
    // A plan without what was read tells what it told at first.
    let over = state.after(OnJob::StartOver);
    assert_eq!(range(&over.job.foretold(last(&over)).unwrap()), ranges[0]);
    assert_eq!(
        foretold_of(&over)[usize::from(last(&over).act)].map(|one| range(&one)),
        Some(ranges[0].clone())
    );
}

/// A right reading of a third of an ohm says what it does not exclude once what is wrong was
/// looked for, and on the sheet before anything is read.
#[test]
fn what_right_does_not_exclude_is_told() {
    let link = "v=1&key=1:1a||2a||3a&view=wire&box=one~~~chain&drivers=3~1~1~500&amplifier=1~1&channel=1~1:1000";
    let state = opened(link);
    let last = last(&state);
    assert!(state.after(OnPage::Room(Room::Sheet)).job.left_open(last).unwrap().finer.is_some());
    let state = read(&state.after(OnJob::GoTo(last)), LEADS, "0.2");
    assert_eq!(state.job.left_open(last), None, "nothing is read there");
    let typed = state.after(OnJob::Read(last, "0.5".into()));
    assert_eq!(typed.job.left_open(last), None, "what is wrong is looked for first");
    let right = read(&state, last, "0.5");
    let open = right.job.left_open(last).unwrap();
    assert!(open.finer.is_some());
    let faults = right.job.not_excluded(&wording(&right), open);
    assert!(faults.iter().any(|fault| fault.contains("touch")), "{faults:?}");
    assert!(open.faults.contains(&Fault::Reversed) && faults.len() + 1 == open.faults.len());
    let wrong = read(&state, last, "3.5");
    assert_eq!(wrong.job.left_open(last), None, "what is wrong leaves nothing to be excluded");
}
