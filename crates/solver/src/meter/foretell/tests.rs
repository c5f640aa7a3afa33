use super::{Known, foretell, foretold};
use crate::answer::one;
use crate::bounds::Field;
use crate::meter::tried::{Tried, read};
use crate::meter::{Agreement, Job, Place, Point, Read, Reading, at_act, judge, points};
use crate::rig::{AmplifierDraft, Build, ChannelDraft, Cups, Draft, GroupDraft};
use crate::wiring::{Act, Plan, Sign};

fn coils(tried: &Tried, mut of: impl FnMut(usize) -> f64) -> Vec<Read> {
    let all = points(&tried.plan).into_iter();
    let all = all.filter(|point| matches!(point.place, Place::Coil(_)));
    all.enumerate().map(|(number, point)| read(point, of(number))).collect()
}

/// Three coils of 1 Ω in series have 2.1 Ω at least, and 0.2 Ω of leads are in the reading:
/// reading the coils tells more, never less.
#[test]
fn coils_that_were_read_make_nothing_right_that_was_not() {
    let three = Tried::of(3, 1, "1", "1a+2a+3a", Cups::One);
    let mut reads = vec![read(three.leads(), 0.2)];
    let last = read(three.last(), 2.0);
    let verdict = |reads: &[Read]| judge(&three.job(), reads).unwrap().pop();
    assert_eq!(verdict(&[reads[0], last]), Some(Agreement::TooLow));
    reads.extend(coils(&three, |_| 1.1));
    reads.push(last);
    assert_eq!(judge(&three.job(), &reads).unwrap()[1..4], [Agreement::Right; 3]);
    assert_eq!(verdict(&reads), Some(Agreement::TooLow));
    // What agrees with both stays right.
    reads.pop();
    reads.push(read(three.last(), 2.9));
    assert_eq!(verdict(&reads), Some(Agreement::Right));
}

/// A number from 0 to 1 that looks drawn.
fn drawn(seed: &mut u64) -> f64 {
    *seed = seed.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
    f64::from(u32::try_from(*seed >> 33).unwrap()) / f64::from(u32::MAX >> 1)
}

/// The range of every point with coils read lies within that without, whatever they read;
/// and it is never empty.
#[test]
fn coils_that_are_read_never_widen_a_range() {
    let plans = [
        (3, 1, "1a+2a+3a", Cups::One),
        (4, 1, "1a||2a||3a||4a", Cups::One),
        (2, 2, "(1a+1b)||(2a+2b)", Cups::Driver),
        (2, 2, "1a+((1b+2a)||2b)", Cups::None),
        (2, 4, "((1a||1b)+(1c||1d))||(2a+2b+2c+2d)", Cups::One),
    ];
    let mut seed = 7;
    let (mut narrower, mut cases) = (0, 0);
    for (count, each, key, cups) in plans {
        for ohms in ["1", "2", "4", "8"] {
            for stated in [false, true] {
                let nominal: f64 = ohms.parse().unwrap();
                let dc = (0..count * each).map(|_| nominal * (0.75 + 0.25 * drawn(&mut seed)));
                let group = GroupDraft {
                    count: Some(count),
                    coils: Some(each),
                    ohms: Field::CoilOhms.ohms_text(ohms).ok(),
                    dc_ohms: stated.then(|| dc.collect()),
                    ..GroupDraft::default()
                };
                let tried = Tried::of_group(group, key, cups);
                for _ in 0..8 {
                    let leads = read(tried.leads(), (drawn(&mut seed) * 5.0).round() / 10.0);
                    let scale = 0.6 + 0.6 * drawn(&mut seed);
                    let read_all = coils(&tried, |_| {
                        let ohms = nominal * scale * (0.9 + 0.2 * drawn(&mut seed)) + 0.25;
                        (ohms * 10.0).round() / 10.0
                    });
                    let without = Known::of(&tried.job(), &[leads]).unwrap();
                    let all: Vec<Read> = read_all.into_iter().chain([leads]).collect();
                    let with = Known::of(&tried.job(), &all).unwrap();
                    let points = points(&tried.plan);
                    let ranges = |known| foretold(&tried.rig, &tried.plan, known, &points).unwrap();
                    for (one, other) in ranges(&without).into_iter().zip(ranges(&with)) {
                        let (Some(one), Some(other)) = (one, other) else {
                            assert_eq!(one, other);
                            continue;
                        };
                        let inside = other.low >= one.low - 1e-9 && other.high <= one.high + 1e-9;
                        assert!(inside && other.low <= other.high, "{key}: {other:?} in {one:?}");
                        narrower += usize::from(other.high - other.low < one.high - one.low - 1e-9);
                        cases += 1;
                    }
                }
            }
        }
    }
    assert!(narrower * 5 > cases, "{narrower} of {cases}");
}

/// What the steps say, what a point says and what is judged is one range, before leads and
/// coils are read and after.
#[test]
fn steps_points_and_verdicts_tell_one_range() {
    let tried = Tried::of(4, 1, "4", "1a||2a||3a||4a", Cups::One);
    let mut all = vec![read(tried.leads(), 0.4)];
    all.extend(coils(&tried, |_| 3.6));
    let mut told = Vec::new();
    for reads in [&all[..0], &all[..1], &all[..]] {
        let known = Known::of(&tried.job(), reads).unwrap();
        let steps = foretell(&tried.rig, &tried.plan, &known).unwrap();
        for point in points(&tried.plan).into_iter().filter(|point| point.place == Place::Step) {
            let one = foretold(&tried.rig, &tried.plan, &known, &[point]).unwrap()[0];
            assert_eq!(steps[usize::from(point.act)], one, "{}", point.name());
        }
        let last: Point = tried.last();
        let range = steps[usize::from(last.act)].unwrap();
        told.push((range.low, range.high));
        if reads.is_empty() {
            continue;
        }
        // Off by a hundredth and two counts a reading is still right, and not by more.
        let verdict = |ohms: f64| {
            let count = 0.001;
            let reading = Reading::Ohms { ohms, count };
            let mut reads = reads.to_vec();
            reads.push(Read { point: last, reading });
            judge(&tried.job(), &reads).unwrap().pop().unwrap()
        };
        assert_eq!(verdict((range.high + 0.001) / 0.99), Agreement::Right);
        assert_eq!(verdict((range.high + 0.003) / 0.99), Agreement::TooHigh);
        assert_eq!(verdict((range.low - 0.001) / 1.01), Agreement::Right);
        assert_eq!(verdict((range.low - 0.003) / 1.01), Agreement::TooLow);
    }
    let width = |(low, high): (f64, f64)| high - low;
    assert!(width(told[0]) > width(told[1]) && width(told[1]) > width(told[2]), "{told:?}");
}

/// Pairs that may be two outputs are read + to + and − to − before a cable is landed on
/// them, and show no more than the leads where they are tied.
#[test]
fn tied_pairs_are_read_on_both_sides_once_the_power_is_off() {
    let ohms = Field::CoilOhms.ohms_text("4").ok();
    let two = GroupDraft { count: Some(2), coils: Some(1), ohms, ..GroupDraft::default() };
    let channel = ChannelDraft { terminal_pairs: Some(2), ..ChannelDraft::default() };
    let amplifier = AmplifierDraft { count: Some(1), channels: vec![channel], bridges: vec![] };
    let rig = Draft { groups: vec![two], amplifier: Some(amplifier) }.check(vec![]).unwrap();
    let (build, both) = (Build::default(), one(&rig, "1:1a||2a").unwrap());
    let plan = Plan::of(&rig, &build, &both).unwrap();
    assert!(plan.joined_at_amplifier);
    let off = plan.acts.iter().position(|step| *step == Act::PowerOff).unwrap();
    let points = at_act(&plan, u16::try_from(off).unwrap());
    let names: Vec<String> = points.iter().map(Point::name).collect();
    let step = off + 1;
    assert_eq!(names, [format!("{step}.plus.1"), format!("{step}.minus.1")]);
    for point in &points {
        assert_eq!(Point::named(&point.name()), Some(*point));
        assert!(point.is_of(&plan));
        let [from, to] = point.probes(&plan).unwrap();
        assert!(from != to && from.sign == to.sign, "{}", point.name());
    }
    let job = Job { rig: &rig, build: &build, configuration: &both, plan: &plan };
    let ohms = |point, ohms| Read { point, reading: Reading::Ohms { ohms, count: 0.1 } };
    let leads = ohms(super::points::touching(&plan).unwrap(), 0.2);
    let [plus, minus] = points.as_slice() else { panic!("two points") };
    let reads = [leads, ohms(*plus, 0.2), Read { point: *minus, reading: Reading::Open }];
    let judged = judge(&job, &reads).unwrap();
    assert_eq!(judged.get(1..).unwrap(), [Agreement::Right, Agreement::Open]);
    assert_eq!(judge(&job, &[leads, ohms(*plus, 1.0)]).unwrap().pop(), Some(Agreement::TooHigh));
    assert_eq!(judge(&job, &[ohms(*plus, 0.2)]).unwrap().pop(), Some(Agreement::LeadsFirst));
    // What is the amplifier's own is no fault of the wiring.
    assert!(!Place::Tied(0, Sign::Plus).tells_faults());
}
