//! What a step says of the acts that it takes together.

use super::*;
use crate::english::meter;
use coilwright_solver::wiring::Act;

/// Jobs of every kind of act and of every stage.
fn jobs() -> Vec<(GroupDraft, AmplifierDraft, Build, &'static str)> {
    let mut jobs = Vec::new();
    for (group, amplifier, key) in [
        (drivers(1, 1, 0), plain(MONO), "1:1a"),
        (drivers(2, 1, 0), plain(MONO), "1:1a||2a"),
        (drivers(2, 2, 0), plain(MONO), "1:(1a||1b)+(2a||2b)"),
        (drivers(2, 2, 0), plain((1, 2, 2)), "1:1a+1b;2:2a+2b"),
        (drivers(2, 4, 2), plain((1, 1, 2)), "1:(1a+1b)||(2a+2b)"),
    ] {
        for cups in [Cups::None, Cups::One, Cups::Driver] {
            for joined_at in [None, Some(JoinedAt::Box)] {
                for mounted_reversed in [Vec::new(), vec![0]] {
                    let build = Build { cups, joined_at, mounted_reversed, ..Build::default() };
                    jobs.push((group.clone(), amplifier.clone(), build, key));
                }
            }
        }
    }
    jobs
}

/// Every step of every job, with what its acts say.
fn every(look: impl Fn(&Wording<'_>, usize, Vec<Said>)) {
    let mut steps = 0;
    for (group, amplifier, build, key) in jobs() {
        // Not every box takes every configuration.
        told_where_possible(group, amplifier, &build, key, |wording| {
            for (at, step) in wording.plan.steps.iter().enumerate() {
                look(&wording, at, step.acts().map(|act| wording.act(act)).collect());
                steps += 1;
            }
        });
    }
    assert!(steps > 300, "{steps} steps");
}

#[test]
fn a_step_is_a_heading_and_few_short_lines() {
    every(|wording, at, _| {
        let step = wording.step(at);
        assert!(step.title.starts_with(char::is_uppercase), "{step:?}");
        assert!(!step.title.ends_with('.') && step.title.chars().count() <= 60, "{step:?}");
        let lines: Vec<&String> = step.runs.iter().chain(&step.lines).collect();
        assert!((1..=4).contains(&lines.len()), "{step:?}");
        for line in lines {
            assert!(line.ends_with('.') && !line.contains("  "), "{step:?}");
            // What the page says where nothing more can be said in fewer: power, tied pairs.
            assert!(line.chars().count() <= 400, "{step:?}");
        }
        let text = [step.runs.as_slice(), &step.lines].concat().join(" ");
        assert_eq!(step.text(), text);
    });
}

#[test]
fn each_run_of_a_step_has_its_line_and_is_in_its_heading() {
    every(|wording, at, _| {
        let step = wording.step(at);
        let runs = wording.plan.steps[at].runs(wording.plan);
        assert_eq!(step.runs.len(), runs.len(), "{step:?}");
        for (line, run) in step.runs.iter().zip(&runs) {
            assert!(line.starts_with(&format!("{}: ", run + 1)), "{step:?}");
            assert!(step.title.contains(&(run + 1).to_string()), "{step:?}");
            // Both ends, as they are marked.
            let run = &wording.plan.runs[*run];
            for end in [run.from, run.to] {
                assert!(line.contains(&wording.named(end)), "{step:?}");
            }
        }
    });
}

#[test]
fn nothing_that_can_hurt_is_left_out_or_said_twice() {
    every(|wording, at, said| {
        let caution = wording.step(at).caution.unwrap_or_default();
        let mut told = String::new();
        for one in said.into_iter().filter_map(|said| said.caution) {
            assert_eq!(caution.matches(one.as_str()).count(), 1, "{one}: {caution}");
            if !told.contains(&one) {
                told.push_str(&one);
            }
        }
        assert_eq!(caution.replace(' ', ""), told.replace(' ', ""), "and nothing more");
    });
}

#[test]
fn what_acts_say_at_length_stands_behind_the_lines() {
    let mut behind = [0, 0];
    let counted = std::cell::RefCell::new(&mut behind);
    every(|wording, at, said| {
        let step = wording.step(at);
        let leads = wording.plan.steps[at].first == 0;
        for Said { text, .. } in said {
            let in_lines = step.lines.contains(&text);
            assert!(in_lines || step.how.contains(&text) || leads, "{text}: {step:?}");
            assert!(!(in_lines && step.how.contains(&text)), "{text} twice: {step:?}");
            counted.borrow_mut()[usize::from(in_lines)] += 1;
        }
    });
    assert!(behind.iter().all(|times| *times > 50), "{behind:?}");
}

/// What a meter should show stands in the line of every step that reads something.
#[test]
fn what_is_right_is_in_the_lines_of_every_reading() {
    every(|wording, at, _| {
        let step = wording.step(at);
        let of = wording.plan.steps[at];
        for act in of.acts() {
            let is_check = matches!(wording.plan.acts[act], Act::Check(_) | Act::Coils { .. });
            if let (true, Some(foretold)) = (is_check, wording.foretold[act]) {
                let right = meter::range(&foretold);
                assert!(step.lines.iter().any(|line| line.contains(&right)), "{right}: {step:?}");
            }
        }
    });
}

#[test]
fn a_step_that_is_not_there_says_nothing() {
    told(drivers(1, 1, 0), plain(MONO), &Build::default(), "1:1a", |wording| {
        assert_eq!(wording.step(wording.plan.steps.len()), Step::default());
    });
}

#[test]
fn a_driver_that_faces_in_is_told_once_a_run() {
    let mut told = 0;
    let counted = std::cell::RefCell::new(&mut told);
    every(|wording, at, _| {
        for line in wording.step(at).runs {
            let times = line.matches("faces in").count();
            assert!(times <= 1, "{line}");
            **counted.borrow_mut() += times;
        }
    });
    assert!(told > 50, "{told}");
}
