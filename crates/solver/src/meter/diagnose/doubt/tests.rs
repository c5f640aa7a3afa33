use crate::meter::tried::{Tried, read};
use crate::meter::{Agreement, Diagnosis, Question, diagnose};
use crate::rig::Cups;

fn last_reads(tried: &Tried, ohms: f64) -> Diagnosis {
    diagnose(&tried.job(), &[read(tried.leads(), 0.2), read(tried.last(), ohms)], &[])
}

/// Common practice, no source: what is right by its range and still, most likely, wrong.
#[test]
fn what_is_probably_wrong_is_doubtful_though_it_is_in_range() {
    // One of four missing; a coil of 4 Ω has 3.5 Ω, so that three are 1.17 Ω.
    let four = Tried::of(4, 1, "4", "1a||2a||3a||4a", Cups::One);
    // Two 1 Ω where 2 Ω were meant.
    let two = Tried::of(2, 1, "2", "1a||2a", Cups::One);
    for (tried, ohms) in [(&four, 1.4), (&two, 0.7)] {
        let found = last_reads(tried, ohms);
        assert_eq!(found.agreements, [Agreement::Right, Agreement::Doubtful], "{ohms}");
        assert!(found.sound < 0.5 && found.sound > 0.0, "{ohms}: {}", found.sound);
        assert!(found.next.is_some(), "{ohms}: what would settle it");
        assert_eq!(found.questions, Question::ALL, "{ohms}: the easy causes come first");
    }
    for (tried, ohms) in [(&four, 1.1), (&two, 1.1)] {
        let found = last_reads(tried, ohms);
        assert_eq!(found.agreements, [Agreement::Right; 2], "{ohms}");
        assert!(found.sound > 0.5 && found.questions.is_empty(), "{ohms}: {}", found.sound);
    }
}

/// What is wrong by its range stays so, and what says nothing of the rig is in no doubt.
#[test]
fn only_what_would_be_right_is_doubtful() {
    let four = Tried::of(4, 1, "4", "1a||2a||3a||4a", Cups::One);
    assert_eq!(last_reads(&four, 2.0).agreements, [Agreement::Right, Agreement::TooHigh]);
    let alone = diagnose(&four.job(), &[read(four.leads(), 0.2)], &[]);
    assert_eq!(alone.agreements, [Agreement::Right]);
}
