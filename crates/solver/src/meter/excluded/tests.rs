use super::{counted, left_open};
use crate::meter::tried::{Tried, read};
use crate::meter::{Fault, Foretold, Kind, Known, Place, others, points};
use crate::rig::Cups;

fn kinds(faults: &[Fault]) -> Vec<Kind> {
    faults.iter().map(Fault::kind).collect()
}

/// Common practice, no source: below 0.35 Ω tenths take a dead short for right, four wires
/// do not.
#[test]
fn a_dead_short_is_not_excluded_where_little_is_planned_and_finer_excludes_it() {
    let third = Tried::of(3, 1, "1", "1a||2a||3a", Cups::One);
    let known = Known { leads: Some(0.2), ..Known::default() };
    let joined = others(&third.job());
    let open = left_open(&third.job(), &known, &[third.last()], &joined).unwrap();
    assert!(kinds(&open[0].faults).contains(&Kind::Strand), "{:?}", open[0].faults);
    let finer = open[0].finer.unwrap();
    assert!((finer.low - 0.7 / 3.0).abs() < 1e-9 && (finer.high - 0.35).abs() < 1e-9, "{finer:?}");
    // Twelve times as much is told from a short by any meter.
    let twelve = Tried::of(3, 1, "4", "1a+2a+3a", Cups::One);
    let joined = others(&twelve.job());
    let open = left_open(&twelve.job(), &known, &[twelve.last()], &joined).unwrap();
    assert!(!kinds(&open[0].faults).contains(&Kind::Strand), "{:?}", open[0].faults);
    assert_eq!(open[0].finer, None);
}

#[test]
fn a_missing_one_of_four_is_not_excluded_before_the_coils_are_read() {
    let four = Tried::of(4, 1, "4", "1a||2a||3a||4a", Cups::One);
    let leads = read(four.leads(), 0.2);
    let known = Known::of(&four.job(), &[leads]).unwrap();
    let joined = others(&four.job());
    let open = left_open(&four.job(), &known, &[four.last()], &joined).unwrap();
    let found = kinds(&open[0].faults);
    assert!(found.contains(&Kind::Missing) && found.contains(&Kind::CoilOpen), "{found:?}");
    assert!(open[0].finer.is_some());
}

/// Every fault that is named reads right, one of each kind, and is in what is read.
#[test]
fn what_is_not_excluded_reads_right_and_lies_in_what_is_read() {
    let tried = Tried::of(2, 2, "4", "(1a+1b)||(2a+2b)", Cups::Driver);
    let all = points(&tried.plan);
    let joined = others(&tried.job());
    let open = left_open(&tried.job(), &Known::default(), &all, &joined).unwrap();
    let foretold =
        crate::meter::foretold(&tried.rig, &tried.plan, &Known::default(), &all).unwrap();
    let mut named = 0;
    for ((point, open), foretold) in all.iter().zip(&open).zip(foretold) {
        let found = kinds(&open.faults);
        let mut once = found.clone();
        once.sort_unstable();
        once.dedup();
        assert_eq!(once.len(), found.len(), "{}: {found:?}", point.name());
        assert!(!found.contains(&Kind::Nothing) && !found.contains(&Kind::Leads));
        if matches!(point.place, Place::Basket(_)) || *point == tried.leads() {
            assert_eq!(found, [], "{}", point.name());
        }
        for fault in &open.faults {
            let Foretold { low, high, .. } = foretold.unwrap();
            let shown = crate::meter::shown(&tried.job(), fault, &joined, point).unwrap();
            let off = |ohms: f64| 0.2 + 0.01 * ohms;
            let right = shown.iter().map(|one| one.ohms + 0.25);
            let right = right.filter(|ohms| (low - off(*ohms)..=high + off(*ohms)).contains(ohms));
            assert!(right.count() > 0, "{}: {fault:?} {shown:?}", point.name());
            named += 1;
        }
    }
    assert!(named > 30, "{named}");
}

/// A run that is not placed yet can neither be missing nor loose in what is read.
#[test]
fn what_is_not_placed_is_not_named() {
    let tried = Tried::of(2, 2, "4", "(1a+1b)||(2a+2b)", Cups::Driver);
    let first = points(&tried.plan)
        .into_iter()
        .find(|point| point.place == Place::Step && *point != tried.leads())
        .unwrap();
    let placed = super::super::points::placed(&tried.plan, first.act);
    let joined = others(&tried.job());
    let open = left_open(&tried.job(), &Known::default(), &[first], &joined).unwrap();
    assert!(!open[0].faults.is_empty());
    for fault in &open[0].faults {
        if let Fault::Missing { run } | Fault::Loose { run } = *fault {
            assert!(placed[usize::from(run)], "{fault:?}");
        }
    }
}

/// At the bounds of a rig every point takes at most so many counted steps: some 150 ms.
#[test]
fn it_is_bounded() {
    let coils: Vec<String> = (1..=8)
        .flat_map(|driver| "abcd".chars().map(move |coil| format!("{driver}{coil}")))
        .collect();
    for (key, cups) in [(coils.join("||"), Cups::Coil), (coils.join("+"), Cups::None)] {
        let tried = Tried::of(8, 4, "4", &key, cups);
        let joined = others(&tried.job());
        let (open, steps) =
            counted(&tried.job(), &Known::default(), &points(&tried.plan), &joined).unwrap();
        println!("{} points, {steps} steps", open.len());
        assert!(steps < 8_000_000, "{steps}");
    }
}
