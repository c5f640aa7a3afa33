//! Laws of a diagnosis, whatever was built and whatever was read.

use super::{faulted, near, spread};
use coilwright_solver::meter::{
    self, Diagnosis, Explanation, Fault, Kind, LEADS, Other, Place, Point, Read, Reading, Shown,
};
use coilwright_solver::wiring::Act;
use proof::faulted::{Way, deck};
use proof::generate;
use proof::tree::Leaf;
use proof::wired::Case;
use proptest::prelude::*;
use proptest::sample::Index;
use std::sync::OnceLock;

/// The likely resistance of a coil over its nominal impedance, and how far from it a sound
/// one may be, as a part (`physics`: 0.7 to 1.05 of nominal).
const LIKELY: f64 = 0.875;
const EITHER_WAY: f64 = 0.2;
/// What is so much less likely than the likeliest is not told.
const FAINT: f64 = 1e-4;

pub(super) fn cases() -> &'static [Case] {
    static CASES: OnceLock<Vec<Case>> = OnceLock::new();
    CASES.get_or_init(|| spread().into_iter().step_by(11).chain(faulted::six()).collect())
}

/// What may be wrong with a case, and where it may be read.
struct Known {
    faults: Vec<(Fault, f64)>,
    others: Vec<Other>,
    coils: Vec<(Leaf, f64)>,
    points: Vec<Point>,
}

impl Known {
    fn of(case: &Case) -> Self {
        let (faults, others) = meter::catalogue(&case.job()).unwrap();
        let coils = near(&case.drivers).into_iter().map(|(leaf, ohms)| (leaf, LIKELY * ohms));
        Self { faults, others, coils: coils.collect(), points: meter::points(&case.plan) }
    }
}

const TOUCHING: Point = Point { act: 0, place: Place::Step };

/// What a meter of tenths shows, `wrong` ohms beside what it should.
fn showing(case: &Case, known: &Known, fault: &Fault, value: f64, at: Point, off: f64) -> Reading {
    let deck = deck(&case.plan, &known.coils, fault, value, &known.others, &at);
    let ohms = deck.map_or(0.0, |deck| deck.ohms());
    if ohms > 1e6 {
        return Reading::Open;
    }
    let shown = ohms + 0.2 + off;
    Reading::Ohms { ohms: (shown * 10.0).round() / 10.0, count: 0.1 }
}

/// A case and readings of it: of one fault, each with an error, and some at random.
#[derive(Clone, Debug)]
struct Story {
    case: Index,
    fault: Index,
    value: f64,
    reads: Vec<(Index, f64, Option<Option<f64>>)>,
    leads: Option<f64>,
    order: Vec<Index>,
}

fn reads() -> impl Strategy<Value = (Index, f64, Option<Option<f64>>)> {
    let odd = prop_oneof![
        8 => Just(None),
        1 => Just(Some(None)),
        1 => prop_oneof![Just(0.0), 0.0..40.0, Just(1e6), Just(1e300)].prop_map(|ohms| Some(Some(ohms))),
    ];
    (any::<Index>(), -0.2..0.2, odd)
}

prop_compose! {
    fn stories()(
        case in any::<Index>(),
        fault in any::<Index>(),
        value in prop_oneof![Just(0.55), Just(1.6), Just(6.4)],
        reads in prop::collection::vec(reads(), 1..5),
        leads in prop::option::weighted(0.8, 0.0..0.5),
        order in prop::collection::vec(any::<Index>(), 6),
    ) -> Story {
        Story { case, fault, value, reads, leads, order }
    }
}

impl Story {
    fn case(&self) -> &'static Case {
        self.case.get(cases())
    }

    /// Readings at different points, most of them at the last step.
    fn told(&self, case: &Case, known: &Known) -> Vec<Read> {
        let (fault, _) = self.fault.get(&known.faults);
        let last = meter::last_check(&case.plan).unwrap();
        let late: Vec<Point> =
            known.points.iter().copied().filter(|point| point.act == last).collect();
        let mut all = Vec::new();
        if let Some(ohms) = self.leads {
            all.push(Read { point: TOUCHING, reading: Reading::Ohms { ohms, count: 0.1 } });
        }
        for (number, (at, off, odd)) in self.reads.iter().enumerate() {
            let point = if number % 3 == 2 { *at.get(&known.points) } else { *at.get(&late) };
            if all.iter().any(|read: &Read| read.point == point) {
                continue;
            }
            let reading = match odd {
                None => showing(case, known, fault, self.value, point, *off),
                Some(None) => Reading::Open,
                Some(Some(ohms)) => Reading::Ohms { ohms: *ohms, count: 0.1 },
            };
            all.push(Read { point, reading });
        }
        all
    }

    /// The same in another order.
    fn turned(&self, reads: &[Read]) -> (Vec<usize>, Vec<Read>) {
        let mut left: Vec<usize> = (0..reads.len()).collect();
        let mut order = Vec::new();
        for index in &self.order {
            if !left.is_empty() {
                order.push(left.remove(index.index(left.len())));
            }
        }
        order.extend(left);
        // What is read goes on with the work.
        order.sort_by_key(|at| reads[*at].point.act);
        let turned = order.iter().map(|at| reads[*at]).collect();
        (order, turned)
    }
}

pub(super) fn whole(found: &Diagnosis) -> Result<(), TestCaseError> {
    // Before the first check there is nothing to explain where nothing reads wrong.
    if found.explanations.is_empty() {
        let wrong = found.agreements.iter().any(|one| one.is_wrong());
        prop_assert!(!wrong && !found.polarity, "{found:?}");
        return Ok(());
    }
    let shares: Vec<f64> = found.explanations.iter().map(|one| one.share).collect();
    let sum: f64 = shares.iter().sum();
    prop_assert!(sum <= 1.0 + 1e-9 && sum > 0.0, "{shares:?}");
    prop_assert!(shares.iter().all(|share| (0.0..=1.0 + 1e-9).contains(share)), "{shares:?}");
    prop_assert!(shares.windows(2).all(|pair| pair[0] >= pair[1]), "{shares:?}");
    prop_assert!(shares.len() <= meter::MOST);
    for one in &found.explanations {
        prop_assert!(!one.faults.is_empty());
    }
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig { max_global_rejects: 20_000, ..generate::cases(120) })]

    /// Readings say the same in whatever order those of a step were taken, and twice the same.
    /// One that is taken again after a later step sees what touches by then.
    #[test]
    fn the_order_of_readings_never_matters(story in stories()) {
        let case = story.case();
        let known = Known::of(case);
        let mut reads = story.told(case, &known);
        reads.sort_by_key(|read| read.point.act);
        let found = meter::diagnose(&case.job(), &reads, &[]);
        whole(&found)?;
        prop_assert_eq!(&found, &meter::diagnose(&case.job(), &reads, &[]));
        let (order, turned) = story.turned(&reads);
        let mut again = meter::diagnose(&case.job(), &turned, &[]);
        let agreements: Vec<_> = order.iter().map(|at| found.agreements[*at]).collect();
        prop_assert_eq!(&again.agreements, &agreements);
        again.agreements.clone_from(&found.agreements);
        prop_assert_eq!(again, found, "{}: {:?}", case.name(), turned);
    }

    /// In whatever slices it is worked out, a diagnosis is the same, and no slice is much
    /// longer than it was meant to be.
    #[test]
    fn sliced_or_whole_a_diagnosis_is_the_same(story in stories(), budgets in prop::collection::vec(0_u64..5_000, 1..4)) {
        let case = story.case();
        let reads = story.told(case, &Known::of(case));
        let mut diagnosing = meter::Diagnosing::new(&case.job(), &reads, &[]);
        let mut slices = 0;
        let found = loop {
            let budget = budgets[slices % budgets.len()];
            let before = diagnosing.spent();
            let found = diagnosing.step(budget);
            let spent = diagnosing.spent() - before;
            prop_assert!(spent <= budget + 4_000, "{spent} steps where {budget} were meant");
            slices += 1;
            if let Some(found) = found {
                break found;
            }
        };
        prop_assert!(slices > 1);
        prop_assert_eq!(found, meter::diagnose(&case.job(), &reads, &[]));
        prop_assert_eq!(diagnosing.step(u64::MAX), None, "the answer is given once");
    }

    /// No two explanations hold faults that no reading at hand tells apart.
    #[test]
    fn what_no_reading_tells_apart_is_one_explanation(story in stories()) {
        let case = story.case();
        let known = Known::of(case);
        let reads = story.told(case, &known);
        let found = meter::diagnose(&case.job(), &reads, &[]);
        apart(case, &known, &reads, &found)?;
    }

    /// What fits one fault and contradicts another never speaks for the other.
    #[test]
    fn a_reading_speaks_for_what_it_fits(story in stories(), pair in any::<[Index; 2]>()) {
        let case = story.case();
        let known = Known::of(case);
        let mut reads = story.told(case, &known);
        prop_assume!(reads.len() > 1);
        let last = reads.pop().unwrap();
        let before = meter::diagnose(&case.job(), &reads, &[]);
        reads.push(last);
        let after = meter::diagnose(&case.job(), &reads, &[]);
        let agree = |one: &Explanation| {
            one.faults.iter().all(|fault| stands(case, &known, fault, &last, story.leads, 1.0))
        };
        // A coil that was sound before it was joined may have failed since.
        let since = |fault: &Fault| match *fault {
            Fault::CoilOpen(coil) | Fault::CoilShort(coil) | Fault::Turns(coil) => {
                last.point.place == Place::Coil(coil)
            }
            _ => false,
        };
        let contradict = |one: &Explanation| {
            one.faults.iter().all(|fault| {
                !since(fault) && !stands(case, &known, fault, &last, story.leads, 3.0)
            })
        };
        let fitting: Vec<&Explanation> =
            before.explanations.iter().filter(|one| agree(one)).collect();
        let others: Vec<&Explanation> =
            before.explanations.iter().filter(|one| contradict(one)).collect();
        prop_assume!(!fitting.is_empty() && !others.is_empty());
        let (one, other) = (pair[0].get(&fitting), pair[1].get(&others));
        // What is not told any more has at most as much as the last that is, or is faint.
        let least = match after.explanations.last() {
            Some(last) if after.explanations.len() == meter::MOST => last.share,
            _ => FAINT,
        };
        let share = |of: &Explanation, untold: f64| {
            let hold = |now: &&Explanation| now.faults.iter().any(|f| of.faults.contains(f));
            let now: Vec<f64> = after.explanations.iter().filter(hold).map(|one| one.share).collect();
            if now.is_empty() { untold } else { now.iter().sum() }
        };
        // Groups may fall apart or merge at a later step; a merged one tells nothing.
        let merged = |of: &Explanation| after.explanations.iter().any(|now| {
            now.faults.iter().any(|f| of.faults.contains(f))
                && now.faults.iter().any(|f| !of.faults.contains(f))
        });
        prop_assume!(!merged(other));
        let (fits, contradicts) = (share(one, least), share(other, 0.0));
        prop_assert!(
            fits / one.share >= contradicts / other.share * (1.0 - 1e-9),
            "{}: {reads:?}: {:?} from {} to {fits}, {:?} from {} to {contradicts}",
            case.name(), one.faults, one.share, other.faults, other.share
        );
    }
}

/// Whether a reading is within what the leads, the coils and the meter leave open of what a
/// fault shows, `times` over.
fn stands(
    case: &Case,
    known: &Known,
    fault: &Fault,
    read: &Read,
    leads: Option<f64>,
    times: f64,
) -> bool {
    let shown = meter::shown(&case.job(), fault, &known.others, &read.point).unwrap();
    let Reading::Ohms { ohms, count } = read.reading else {
        return shown.iter().any(|way| way.ohms.is_infinite());
    };
    let [mut least, mut most] = LEADS;
    if let Some(leads) = leads {
        (least, most) = (leads - 0.05, leads + 0.05);
    }
    if *fault == Fault::Leads {
        (least, most) = (0.6, 3.0);
    }
    let within = |way: &Shown| {
        // A meter's factor is on the leads too.
        let factor = if fault.kind() == Kind::Meter { way.value.unwrap() } else { 1.0 };
        // What lies between the values of a fault that has several.
        let unsure = if way.value.is_some() && times > 1.0 { 0.6 } else { 0.0 };
        let middle = way.ohms + factor * (least + most) / 2.0;
        let coil = (EITHER_WAY + 0.04 + unsure) * way.ohms;
        let of_meter = 0.01 * ohms.max(way.ohms) + 2.0 * count + 0.05;
        let off = coil + factor * (most - least) / 2.0 + of_meter + unsure * middle;
        (ohms - middle).abs() <= times * off
    };
    shown.iter().any(within)
}

/// No two explanations are alike throughout.
fn apart(
    case: &Case,
    known: &Known,
    reads: &[Read],
    found: &Diagnosis,
) -> Result<(), TestCaseError> {
    let step = reads
        .iter()
        .map(|read| read.point.act)
        .filter(|step| matches!(case.plan.acts[usize::from(*step)], Act::Check(_)))
        .max();
    let Some(step) = step else { return Ok(()) };
    // More than what is at hand: every reading of an earlier step too.
    let mut points: Vec<Point> = Vec::new();
    for (number, kind) in (0_u16..).zip(&case.plan.acts) {
        if matches!(kind, Act::Check(_)) && number <= step {
            points.push(Point { act: number, place: Place::Step });
        }
    }
    let closer = known.points.iter().map(|point| Point { act: step, place: point.place });
    points.extend(closer.filter(|point| point.is_of(&case.plan)));
    let of = |fault: &Fault| -> Vec<Vec<f64>> {
        let ways = meter::shown(&case.job(), fault, &known.others, &points[0]).unwrap();
        let way = |way: &Shown| {
            let value = way.value.unwrap_or(1.0);
            let coils = faulted::with_group(case, &known.coils, fault);
            let times = if fault.kind() == Kind::Meter { value } else { 1.0 };
            let way = Way { value, came: way.came, only: way.only };
            let ohms = |point: &Point| {
                let deck = deck(&case.plan, &coils, fault, way, &known.others, point);
                deck.map_or(0.0, |deck| deck.ohms()) * times
            };
            points.iter().map(ohms).collect()
        };
        ways.iter().map(way).collect()
    };
    let alike = |a: &[Vec<f64>], b: &[Vec<f64>]| {
        a.len() == b.len()
            && a.iter().flatten().zip(b.iter().flatten()).all(|(a, b)| {
                let open = [*a > 1e6, *b > 1e6];
                // A hair less, so that what is just alike is not called so.
                open == [true; 2]
                    || open == [false; 2]
                        && (a - b).abs() < 0.995 * f64::max(0.15, 0.08 * a.max(*b))
            })
    };
    let told: Vec<(usize, Fault, Vec<Vec<f64>>)> = found
        .explanations
        .iter()
        .enumerate()
        .flat_map(|(at, one)| one.faults.iter().map(move |fault| (at, *fault)))
        // What is wrong with the leads is in every reading; it is told apart by them.
        .filter(|(_, fault)| fault.kind() != Kind::Leads)
        .map(|(at, fault)| (at, fault, of(&fault)))
        .collect();
    // Being alike does not carry over from pair to pair, so one of two explanations may
    // hold what is alike a part of the other; never are all alike all.
    for one in 0..found.explanations.len() {
        for other in 0..one {
            let of = |wanted: usize| told.iter().filter(move |(at, ..)| *at == wanted);
            let all = of(one).all(|(_, _, a)| of(other).all(|(_, _, b)| alike(a, b)));
            prop_assert!(
                !all || of(one).count() == 0 || of(other).count() == 0,
                "{}: {:?} and {:?} after {reads:?}",
                case.name(),
                found.explanations[one].faults,
                found.explanations[other].faults
            );
        }
    }
    Ok(())
}
