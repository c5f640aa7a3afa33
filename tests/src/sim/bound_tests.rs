//! What anybody could doubt, held to tables of the normal distribution, to the bench itself
//! and to what everybody or nobody could.

use super::bound::{Sample, doubt, verdict};
use super::dice::Dice;
use super::draw::{FURTHER, PRINCIPAL};
use super::draws::Draws;
use super::fault::Fault;
use super::likely::{Cloud, Normal, Vector, shown};
use super::meter::{Shown, show};
use super::quick::Quick;
use super::rigs::{Known, rig};
use super::session::{held, job};
use super::tally::Case;

#[test]
fn quick_readings_are_those_of_the_bench() {
    let mut compared = 0;
    for kind in PRINCIPAL.into_iter().chain(FURTHER) {
        for index in 0..6 {
            let case = Case { seed: 5, known: Known::Nominal, kind, index };
            let (rig, fault) = case.drawn().unwrap();
            let quick = Quick::of(&rig.plan, &fault, &rig.coils, &rig.plan.points);
            // Other coils than those it was made of.
            let mut dice = Dice::of(index, kind);
            let (ohms, leads) = Draws::of(&rig, None).draw(&mut dice);
            let coils = rig.coils.keys().cloned().zip(ohms.iter().copied()).collect();
            let built = fault.built(&rig.plan, &coils, leads);
            for (point, quick) in rig.plan.points.iter().zip(quick.felt(&ohms, leads)) {
                let felt = built.felt(&rig.plan, point);
                let near = felt.zip(quick).is_some_and(|(a, b)| (a - b).abs() < 1e-4);
                assert!(near || felt == quick, "{fault:?}, {}: {felt:?}, {quick:?}", point.name);
                compared += usize::from(near);
            }
        }
    }
    assert!(compared > 1000, "{compared}");
}

#[test]
#[allow(clippy::cast_precision_loss, reason = "counts are small")]
fn chances_are_how_often_a_meter_shows_it() {
    for felt in [0.0, 0.07, 1.234, 7.95, 60.0, 199.5] {
        let mut dice = Dice::of(1, "meter");
        let many = 40_000;
        let mut counts = std::collections::BTreeMap::new();
        for _ in 0..many {
            let key = match show(Some(felt), &mut dice) {
                Shown::Ohms(ohms) => format!("{ohms:.1}"),
                Shown::Open => "open".to_owned(),
            };
            *counts.entry(key).or_insert(0) += 1;
        }
        let mut sum = 0.0;
        for (key, count) in counts {
            let read = key.parse().map_or(Shown::Open, Shown::Ohms);
            let chance = shown(read, Some(felt));
            sum += chance;
            let share = f64::from(count) / many as f64;
            // Four standard deviations of a count.
            let within = 4.0 * (chance * (1.0 - chance) / many as f64).sqrt() + 1e-9;
            assert!((share - chance).abs() < within, "{felt} as {key}: {share}, {chance}");
        }
        assert!(sum > 0.999 && sum < 1.0 + 1e-9, "{felt}: {sum}");
    }
    assert_eq!(shown(Shown::Open, None), 1.0);
    assert_eq!(shown(Shown::Ohms(1.0), None), 0.0);
}

/// Two numbers of the normal distribution (Box and Muller, 1958).
fn normal(dice: &mut Dice) -> f64 {
    let far = (-2.0 * libm::log(1.0 - dice.unit())).sqrt();
    far * libm::cos(std::f64::consts::TAU * dice.unit())
}

fn sample(many: usize, moved: f64, dice: &mut Dice) -> Sample {
    let read: Vec<Vector> = (0..many).map(|_| vec![moved + normal(dice)]).collect();
    Sample { felt: read.clone(), right: vec![true; many], read }
}

#[test]
fn a_score_finds_what_tables_say_it_can() {
    // NIST/SEMATECH e-Handbook, 1.3.6.7.1, cumulative distribution of the standard normal:
    // 0.99 at 2.326; so of what is moved by so many deviations 0.01, 0.251 and 0.75 are found.
    let mut dice = Dice::of(1, "tables");
    let sound = sample(4000, 0.0, &mut dice);
    let judged = sample(20_000, 0.0, &mut dice);
    let base = Normal::of(&sound.read.iter().collect::<Vec<_>>()).unwrap();
    for (moved, power) in [(0.0, 0.01), (1.656, 0.2515), (3.0, 0.7498)] {
        let fitted = sample(4000, moved, &mut dice);
        let fresh = sample(20_000, moved, &mut dice);
        let of = Normal::of(&fitted.read.iter().collect::<Vec<_>>()).unwrap();
        let score = |read: &[f64]| of.log(read) - base.log(read);
        let found = doubt(&score, &judged, &fresh.read, &[moved + 5.0]).power;
        assert!((found - power).abs() < 0.03, "{moved}: {found}, {power}");
        // Moved by nothing else than what is told: the same as fitted to it.
        let score = |read: &[f64]| base.log_mean(read, &[vec![moved]]) - base.log(read);
        let found = doubt(&score, &judged, &fresh.read, &[moved + 5.0]).power;
        assert!(moved == 0.0 || (found - power).abs() < 0.03, "{moved}: {found}, {power}");
    }
}

#[test]
fn normal_distributions_are_those_of_their_samples() {
    // By hand: −1 and 1 have the mean 0 and the variance 2; the ridge is 1/1200.
    let two = [vec![-1.0], vec![1.0]];
    let of = Normal::of(&[&two[0], &two[1]]).unwrap();
    let variance = 2.0 + 1.0 / 1200.0;
    let expected = -0.5 * libm::log(variance) - 0.5 * 9.0 / variance;
    assert!((of.log(&[3.0]) - expected).abs() < 1e-9);
    // The mean of two moved ones is between them.
    let mean = of.log_mean(&[3.0], &[vec![0.0], vec![3.0]]);
    let by_hand =
        libm::log(f64::midpoint(libm::exp(expected), libm::exp(-0.5 * libm::log(variance))));
    assert!((mean - by_hand).abs() < 1e-9, "{mean}, {by_hand}");
    // Rigs that are felt where it is read say so rather than those that are not.
    let near = Cloud(vec![vec![4.02], vec![8.0]]);
    let far = Cloud(vec![vec![4.5], vec![8.0]]);
    assert!(near.log(&[4.0]) > far.log(&[4.0]) + 1.0);
}

#[test]
fn coils_are_drawn_as_they_are_stated() {
    for index in 0..4 {
        let rig = rig(index, Known::Measured);
        let draws = Draws::of(&rig, Some(0.2));
        let mut dice = Dice::of(index, "draws");
        for _ in 0..50 {
            let (coils, leads) = draws.draw(&mut dice);
            assert!((0.15..=0.25).contains(&leads), "{leads}");
            for (coil, ohms) in rig.coils.keys().zip(coils) {
                let coil = rig.plan.coil(coil).unwrap();
                let own = rig.plan.coils.iter().filter(|other| other.group == coil.group);
                let place = own.map(|other| &other.name).position(|name| *name == coil.name);
                let stated = &rig.request["drivers"][coil.group - 1]["dc_ohms"][place.unwrap()];
                let chance = shown(Shown::Ohms(stated.as_f64().unwrap()), Some(ohms));
                assert!(chance > 0.0, "{}: {ohms} read as {stated}", coil.name);
            }
        }
    }
}

#[test]
fn all_at_once_is_said_what_the_job_says() {
    for known in Known::ALL {
        for kind in ["nothing", "loose", "turns", "strand"] {
            for index in 0..4 {
                let case = Case { seed: 2, known, kind, index };
                let (rig, fault) = case.drawn().unwrap();
                let (held, job) = (held(&rig, &fault), job(&rig, &fault));
                assert_eq!((held.wrong, held.doubted), (job.wrong, job.doubted), "{case:?}");
            }
        }
    }
}

/// Of sound rigs, how many are doubted where a fault of a kind is looked for: over all sound
/// ones by normal distributions, by the better score, and with the fault not known.
fn alarms(kind: &str, many: u64) -> [usize; 3] {
    let mut found = [0; 3];
    for index in 0..many {
        let known = Known::ALL[(index % 3) as usize];
        let case = Case { seed: 4, known, kind, index };
        let (rig, fault) = case.drawn().unwrap();
        let sound = held(&rig, &Fault::Nothing);
        let said = verdict(&rig, &fault, &sound, index % 5 == 0).unwrap();
        let unknown = said.unknown.is_some_and(|unknown| unknown.better.all);
        let said = [said.known.normal.all, said.known.better.all, unknown];
        found.iter_mut().zip(said).for_each(|(count, said)| *count += usize::from(said));
    }
    found
}

#[test]
fn of_sound_rigs_about_one_in_a_hundred_is_doubted() {
    // More than three of 45 at a chance of 0.01: 1 in 900 (binomial). A threshold that is not
    // of fresh rigs, or of the wrong ones, doubts more.
    for kind in ["nothing", "loose"] {
        let found = alarms(kind, 45);
        assert!(found.iter().all(|found| *found <= 3), "{kind}: {found:?}");
    }
}

#[test]
fn nothing_is_not_found_and_twice_the_load_always() {
    let mut power = 0.0;
    let mut doubled = 0;
    for index in 0..9 {
        let known = Known::ALL[(index % 3) as usize];
        let rig = rig(index, known);
        let read = held(&rig, &Fault::Nothing);
        let sound = verdict(&rig, &Fault::Nothing, &read, false).unwrap();
        // What reads right in all does so at every point, and few sound rigs do not.
        assert!(sound.right || read.wrong, "{index}: {read:?}");
        assert!(sound.sound_right > 0.9, "{index}: {}", sound.sound_right);
        power += sound.known.better.power / 9.0;
        if rig.request["drivers"].as_array().unwrap().len() > 1 {
            continue;
        }
        // Every coil twice what is printed on it: no sound one is more than 1.1 times it.
        let fault = Fault::OtherGroup(1, 2.0, 1.0);
        let said = verdict(&rig, &fault, &held(&rig, &fault), false).unwrap().known;
        assert!(said.normal.all && said.better.all, "{index}: {said:?}");
        doubled += 1;
    }
    assert!(doubled >= 3, "{doubled}");
    // 9 × 150 draws at a chance of 0.01 under thresholds that are themselves drawn.
    assert!(power < 0.03, "{power}");
}
