use crate::answer::asking::Question;
use crate::job::plan::Zoom;
use crate::link::{self, Saved};
use crate::question::example;
use crate::question::fields::Built;
use crate::question::place::Place;
use crate::question::text::Misread;
use crate::rooms::Room;
use crate::state::State;
use crate::state::action::acts::*;
use coilwright_solver::defect::Defect;
use coilwright_solver::meter::{self, Agreement, Fault, Job, Place as Where, Point};
use coilwright_solver::problem::Code;
use coilwright_solver::wiring::{Act, Post, Sign, Stage, Terminal};
use std::rc::Rc;

fn answer(state: &State) -> State {
    let request = state.question.read.request.clone().unwrap();
    state.after(OnAnswer::Answered(Question::answer(request)))
}

/// Two single 2 Ω in parallel behind one cup, on the way to be wired.
fn pair() -> State {
    let link = "v=1&key=1:1a||2a&view=wire&box=one~~~chain&drivers=2~1~2~500&amplifier=1~1&channel=1~1:1000";
    answer(&State::with(link::open(link).unwrap().saved))
}

/// The last check of its plan.
fn last(state: &State) -> Point {
    Point { act: meter::last_check(state.job.plan().unwrap()).unwrap(), place: Where::Step }
}

const LEADS: Point = Point { act: 0, place: Where::Step };

/// What is wrong is worked out to the end, a few steps at a time.
fn settled(state: State) -> State {
    let Some(mut diagnosing) = state.job.diagnosing() else { return state };
    loop {
        if let Some(found) = diagnosing.step(100) {
            return state.after(OnJob::Found(Rc::new(found)));
        }
    }
}

/// What is typed anew drops what was begun; until more is known, what was found stands.
#[test]
fn what_is_wrong_is_worked_out_after_what_was_typed() {
    let state = pair();
    let last = last(&state);
    let read = |state: &State, text: &str| state.after(OnJob::Read(last, text.into()));
    let state = state.after(OnJob::Read(LEADS, "0.2".into()));
    let wrong = read(&state, "2.2");
    assert_eq!((wrong.job.found(), wrong.job.metered.due.is_some()), (None, true));
    let found = settled(wrong);
    assert!(found.job.found().is_some() && found.job.metered.due.is_none());
    let again = read(&found, "4.2");
    assert_eq!(again.job.found(), found.job.found(), "until more is known");
    assert_ne!(settled(again.clone()).job.found(), found.job.found());
    let right = settled(read(&again, "1.1"));
    assert_eq!((right.job.found(), right.job.diagnosing().is_some()), (None, false));
    let late = Rc::new(found.job.found().unwrap().clone());
    assert_eq!(right.after(OnJob::Found(late)).job.found(), None, "what comes late is dropped");
}

/// The example's first configuration on the way to be wired.
fn wiring() -> State {
    let state = answer(&State::with(Saved::of(example::marigold())));
    let key = state.shown().unwrap().key();
    state.after(OnPage::Wire(key))
}

#[test]
fn whoever_wires_a_configuration_has_chosen_it_and_sees_its_plan() {
    let state = wiring();
    assert_eq!(state.page.room, Room::Wire);
    assert!(state.answer.chosen.is_some());
    let plan = state.job.plan().unwrap();
    assert!(plan.acts.len() > plan.runs.len());
    assert!(state.job.lit().is_empty(), "the first step reads the leads");
}

#[test]
fn a_run_that_is_touched_shows_its_step_and_a_step_lights_its_run() {
    let state = wiring();
    for run in 0..state.job.plan().unwrap().runs.len() {
        let touched = state.after(OnJob::Run(run));
        assert!(touched.job.lit().contains(&run));
        let act = touched.job.plan().unwrap().acts[usize::from(touched.job.work.at)];
        assert!(!matches!(act, Act::Land { .. }), "the first step of the run");
    }
    let first = state.after(OnJob::NextRun(true));
    assert_eq!(first.job.lit().first(), Some(&0));
    let last = first.after(OnJob::NextRun(false)).job.lit();
    assert_eq!(last.last().copied(), Some(state.job.plan().unwrap().runs.len() - 1));
}

#[test]
fn what_is_done_outlives_a_refresh_and_a_change_of_the_plan() {
    let state = wiring().after(OnJob::DoneNext).after(OnJob::Done(3, true));
    let ticked = |state: &State| {
        let steps = 0..state.job.steps().len();
        steps.filter(|step| state.job.is_done(*step)).collect::<Vec<_>>()
    };
    assert_eq!((state.job.at(), ticked(&state).as_slice()), (1, &[0, 3][..]));
    let link = link::write(&state.saved());
    let again = answer(&State::with(link::open(&link).unwrap().saved));
    assert_eq!(again.job.work, state.job.work);
    assert_eq!(again.page.room, Room::Wire);
    // Lengths do not change what is done.
    let longer = again.after(Edit::Set(Place::Box(Built::ToAmplifier), "5".into()));
    assert_eq!(longer.job.work, state.job.work);
    let boxed = longer.after(Edit::Set(Place::Box(Built::Cups), "one".into()));
    assert_eq!(ticked(&boxed), [0, 3], "leads, and the third driver, are the same");
    let back = boxed.after(Edit::Set(Place::Box(Built::Cups), "none".into()));
    assert_eq!(back.job.work, state.job.work);
}

/// Nothing that was done or read is lost by a slip.
#[test]
fn what_is_started_over_can_be_brought_back() {
    let state = wiring().after(OnJob::DoneNext).after(OnJob::Read(LEADS, "0.2".into()));
    let over = state.after(OnJob::StartOver);
    assert!(!over.job.is_begun() && over.undo.last == crate::state::undo::Last::Erased);
    let back = over.after(OnPage::Undo(false));
    assert_eq!(back.job.work, state.job.work);
    assert!(back.undo.next(false).is_none());
    // Also where the box was changed meanwhile: what is in both plans is there again.
    let boxed = over.after(Edit::Set(Place::Box(Built::Cups), "one".into()));
    let back = boxed.after(OnPage::Undo(false)).after(OnPage::Undo(false));
    assert_eq!(back.job.work, state.job.work);
    // And what was read since stays.
    let other = meter::points(state.job.plan().unwrap())[1];
    let since = over.after(OnJob::Read(other, "1.9".into())).after(OnPage::Undo(false));
    assert_eq!((since.job.work.reading(LEADS), since.job.work.reading(other)), ("0.2", "1.9"));
}

#[test]
fn a_box_that_does_not_allow_the_configuration_is_told_at_its_field() {
    let state = wiring().after(Edit::Set(Place::Box(Built::Cups), "group".into()));
    let state = state.after(Edit::Set(Place::Box(Built::CupCount), "9".into()));
    assert_eq!(
        state.question.read.at(Place::Box(Built::CupCount)).map(|trouble| trouble.is_missing()),
        Some(false)
    );
    assert_eq!(state.question.form.build.cup_count, "9");
    let state = state.after(Edit::Set(Place::Box(Built::CupCount), "2".into()));
    assert!(state.question.read.at(Place::Box(Built::CupCount)).is_none());
    let planned = &state.job.wired.as_ref().unwrap().plan;
    if let Err(problem) = planned {
        assert_eq!(problem.code, Code::NotPossibleHere);
        assert_eq!(problem.path, Place::Box(Built::Cups).path());
    }
}

/// Common practice, no source: two single 2 Ω drivers in parallel at one cup read 1.0 to
/// 1.1 Ω; 2 Ω there is a driver or a lead missing.
#[test]
fn a_reading_is_judged_beside_what_the_leads_read() {
    let state = pair();
    let plan = state.job.plan().unwrap();
    let at = |wanted: fn(&Act) -> bool| plan.acts.iter().position(wanted).unwrap() as u16;
    let leads = at(|step| *step == Act::Leads);
    let cup = at(|step| matches!(step, Act::Check(check) if check.stage == Stage::Cups));
    let point = |step| Point { act: step, place: Where::Step };
    let read =
        |state: &State, step: u16, text: &str| state.after(OnJob::Read(point(step), text.into()));
    let judged = |state: &State| state.job.agreement(point(cup)).map(|told| told.unwrap());
    assert_eq!(state.job.agreement(point(cup)), None);
    assert_eq!(judged(&read(&state, cup, "1.1")), Some(Agreement::LeadsFirst));
    let known = read(&state, leads, "0,1");
    assert_eq!(known.job.metered.known.leads, Some(0.1));
    for (text, want) in [
        ("1.0", Agreement::Right),
        ("1,1", Agreement::Right),
        ("2.0", Agreement::TooHigh),
        // Whole ohms may be off by two.
        ("2", Agreement::Coarse),
        ("0", Agreement::Coarse),
        ("4", Agreement::TooHigh),
        (".1", Agreement::TooLow),
        ("OL", Agreement::Open),
    ] {
        assert_eq!(judged(&read(&known, cup, text)), Some(want), "{text}");
    }
    let wrong = read(&known, cup, "about one");
    assert_eq!(wrong.job.agreement(point(cup)), Some(Err(Misread::NotOne)));
    assert_eq!(wrong.job.work.reading(point(cup)), "about one", "what was typed is kept");
    // Kept over a refresh, and put aside where a plan has no such cup.
    let again = answer(&State::with(link::open(&link::write(&known.saved())).unwrap().saved));
    assert_eq!(again.job.work.reading(point(leads)), "0,1");
    let other = again.after(Edit::Set(Place::Box(Built::Cups), "driver".into()));
    assert_eq!(other.job.work.reading(point(leads)), "0,1");
    assert_eq!(other.job.aside.readings().count(), 0);
}

/// Common practice, no source: 2 Ω at the single cup of a parallel plan of two 2 Ω drivers
/// is a driver or a lead missing. Readings at the points that are asked for find which.
#[test]
fn a_wrong_reading_is_explained_and_the_next_one_asked_for() {
    let state = pair();
    let last = last(&state);
    let state = state.after(OnJob::Read(LEADS, "0.2".into()));
    assert_eq!(state.job.found(), None, "nothing reads wrong");
    let mut state = settled(state.after(OnJob::Read(last, "2.2".into())));
    assert_eq!(state.job.found().unwrap().questions.len(), 3);
    for question in meter::Question::ALL {
        state = settled(state.after(OnJob::Say(question, true)));
    }
    assert_eq!(state.job.found().unwrap().questions, []);
    // What somebody reads who forgot the run from driver 1 − to driver 2 −.
    let missing = state.job.plan().unwrap().runs.iter().position(|run| {
        let of = |end: Terminal| matches!(end.post, Post::Coil(_)) && end.sign == Sign::Minus;
        of(run.from) && of(run.to)
    });
    let fault = Fault::Missing { run: missing.unwrap() as u16 };
    let mut readings = 0;
    while let Some(next) = state.job.found().unwrap().next {
        let wired = state.job.wired.clone().unwrap();
        let job = Job {
            rig: &wired.rig,
            build: &wired.build,
            configuration: &wired.configuration,
            plan: wired.plan.as_ref().unwrap(),
        };
        let ohms = meter::shown(&job, &fault, &[], &next).unwrap()[0].ohms * 1.14 + 0.2;
        let text = if ohms.is_finite() { format!("{ohms:.1}") } else { "OL".to_owned() };
        state = settled(state.after(OnJob::Read(next, text)));
        readings += 1;
        assert!(readings < 12);
    }
    assert_eq!(state.job.suspects().first(), Some(&fault), "{:?}", state.job.found());
    // Kept over a refresh; forgotten when that is wanted.
    let again =
        settled(answer(&State::with(link::open(&link::write(&state.saved())).unwrap().saved)));
    assert_eq!(again.job.suspects(), state.job.suspects());
    assert!(again.job.work.is_searched());
    let forgotten = again.after(OnJob::Forget);
    assert!(!forgotten.job.work.is_searched() && forgotten.job.work.reading(last) == "2.2");
}

/// A coil that touches its basket is the driver's own fault: it is told at its field, and
/// no fault of the wiring is looked for.
#[test]
fn a_touched_basket_is_told_and_explained_by_no_fault() {
    let state = pair();
    let plan = state.job.plan().unwrap();
    let last = Point { act: meter::last_check(plan).unwrap(), place: Where::Step };
    let basket = meter::points(plan).into_iter().find(|point| !point.place.tells_faults()).unwrap();
    let state = state.after(OnJob::Read(Point { act: 0, place: Where::Step }, "0.2".into()));
    let touched = state.after(OnJob::Read(basket, "0.4".into()));
    assert_eq!(touched.job.agreement(basket), Some(Ok(Agreement::TooLow)));
    assert_eq!((touched.job.found(), touched.job.metered.due.as_ref()), (None, None));
    assert_eq!(touched.job.suspects(), []);
    // What else reads wrong is explained as if the basket had not been read.
    let of = |state: &State| settled(state.after(OnJob::Read(last, "2.2".into())));
    let (both, without) = (of(&touched), of(&state));
    assert_eq!(both.job.found().unwrap().explanations, without.job.found().unwrap().explanations);
    // Open is right.
    let open = state.after(OnJob::Read(basket, "OL".into()));
    assert_eq!((open.job.agreement(basket), open.job.found()), (Some(Ok(Agreement::Right)), None));
}

/// Links that were given away when leads were read before the first check only.
#[test]
fn old_numbers_of_steps_mean_the_same_steps() {
    let link = "v=1&key=1:1a||2a&view=wire&work=8~21&read=4~0.2&box=one~~~chain&drivers=2~1~2~500&amplifier=1~1&channel=1~1:1000";
    let state = answer(&State::with(link::open(link).unwrap().saved));
    // Then: polarity twice, two runs between drivers, leads, drivers, two to the cup, cup.
    let acts = &state.job.plan().unwrap().acts;
    let done: Vec<Act> = state.job.work.done.iter().map(|act| acts[usize::from(*act)]).collect();
    assert_eq!(done, [Act::Leads, Act::Polarity { driver: 1 }]);
    assert_eq!(state.job.metered.known.leads, Some(0.2));
    assert!(
        matches!(acts[usize::from(state.job.work.at)], Act::Check(check) if check.stage == Stage::Cups)
    );
    assert!(link::write(&state.saved()).contains("&job="));
}

#[test]
fn the_drawing_grows_and_shrinks_within_bounds() {
    let (mut zoom, mut sizes) = (Zoom::Whole, Vec::new());
    for _ in 0..9 {
        zoom = zoom.turned(true);
        sizes.push(zoom);
    }
    assert_eq!(sizes[0], Zoom::Quarters(6));
    assert_eq!(sizes[8], Zoom::Quarters(12));
    assert_eq!(Zoom::Quarters(2).turned(false), Zoom::Quarters(2));
}

/// What the solver could not tell is no verdict: it is said, and the gate stays shut.
#[test]
fn where_the_solver_finds_itself_wrong_that_is_said_and_nothing_else() {
    let state = pair();
    let last = last(&state);
    let state = state.after(OnJob::Read(LEADS, "0.2".into()));
    let wrong = state.after(OnJob::Read(last, "2.2".into()));
    assert_eq!(settled(wrong.clone()).job.defect(), None);
    let mut found = settled(wrong.clone()).job.found().unwrap().clone();
    found.defect = Some(Defect::Node);
    let stopped = wrong.after(OnJob::Found(Rc::new(found)));
    assert_eq!(stopped.job.defect(), Some(Defect::Node));
    let power = stopped.job.plan().unwrap().steps.len() - 1;
    assert!(stopped.job.is_shut(power));
    // Another reading is looked at anew.
    let again = settled(stopped.after(OnJob::Read(last, "1.1".into())));
    assert_eq!(again.job.defect(), None);
}

/// Whoever stands before a finished rig ticks nothing: one reading at its cup, and what it is
/// believed to be, are enough to look for what is wrong.
#[test]
fn a_rig_that_is_wired_already_is_judged_by_one_reading() {
    let link = "v=1&view=already&drivers=2~1~4~&amplifier=1~1&channel=2";
    let state = answer(&State::with(link::open(link).unwrap().saved));
    let state = state.after(InAlready::Reads("6.2".into()));
    assert_eq!(link::open(&link::write(&state.saved())).unwrap().saved, state.saved());
    assert!(state.job.work.read.is_empty(), "of what, nobody has said");
    // What was read before is read by what it is believed to be.
    let series = state.after(OnPage::Believe(Some("1:1a+2a".into())));
    assert_eq!(series.page.room, Room::Already);
    assert_eq!(series.job.agreement(last(&series)), Some(Ok(Agreement::Right)));
    let parallel = settled(state.after(OnPage::Believe(Some("1:1a||2a".into()))));
    assert!(parallel.job.agreement(last(&parallel)).unwrap().unwrap().is_wrong());
    assert!(parallel.job.found().is_some_and(|found| !found.explanations.is_empty()));
    assert!(parallel.job.work.done.is_empty());
}
