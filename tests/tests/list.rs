//! Looking at a list: pages, orders, loads, groups, and single configurations.

use coilwright_solver::answer::{
    Answer, Configuration, Configurations, Grouping, Order, Pages, Request, Row, Step, Wanted,
    answer, one,
};
use coilwright_solver::bounds::Field;
use coilwright_solver::ohms::Ohms;
use coilwright_solver::problem::Code;
use coilwright_solver::rig::AmplifierDraft;
use proof::campaign::compared;
use proof::generate::{cases, rigs};
use proof::rigs::{Drivers, Filters, Stated, drivers, group_of, ohms, request, written};
use proof::tree::{Exact, Tree};
use proof::ways::{Outlet, Outlets, amplifier, amplifiers, several};
use proptest::prelude::*;
use proptest::sample::select;
use std::cmp::Ordering;
use std::collections::{BTreeMap, BTreeSet};

const ORDERS: [Order; 4] = [Order::Rank, Order::Load, Order::Power, Order::Runs];
const WEAK: Stated = Stated { least: Some("2"), rated: &[("4", 150.0), ("2", 250.0)] };
const STRONG: Stated =
    Stated { least: Some("1"), rated: &[("4", 300.0), ("2", 500.0), ("1", 800.0)] };
const SILENT: Stated = Stated { least: None, rated: &[] };

/// Output by output: its kind, its load, and of each driver its group and what its coils get.
type Standing = Vec<(usize, Exact, Vec<(usize, Vec<Exact>)>)>;

/// A finished question, and the answer to the same question with no limit.
struct Asked {
    rig: Vec<Drivers>,
    on: Option<AmplifierDraft>,
    request: Request,
    list: Configurations,
    all: Answer,
}

impl Asked {
    fn new(rig: &[Drivers], on: Option<AmplifierDraft>, filters: Filters) -> Self {
        let request = request(rig, on.clone(), filters);
        let all = answer(request.clone());
        assert_eq!(all.problems, [], "{} {filters:?}", written(rig));
        let mut list = Configurations::new(Request { limit: 0, ..request.clone() });
        while let Step::More(_) = list.step(10_000) {}
        Self { rig: rig.to_vec(), on, request, list, all }
    }

    /// All rows that are wanted, page by page.
    fn rows(&self, wanted: &Wanted, page: u32) -> Vec<Row> {
        let view = self.list.view(wanted);
        let mut rows = Vec::new();
        while (rows.len() as u64) < view.rows {
            let next = self.list.rows(&view, rows.len() as u64, page);
            assert!(!next.is_empty() && next.len() <= page as usize);
            rows.extend(next);
        }
        assert_eq!(rows.len() as u64, view.rows);
        assert_eq!(self.list.rows(&view, view.rows, page), [], "nothing after the last");
        assert_eq!(self.list.rows(&view, u64::MAX, page), []);
        rows
    }

    /// What a configuration is gathered by, from its key alone: of each output its kind,
    /// the load, and what the coils of each driver get of it, whichever driver of its group
    /// and whichever coil that is.
    fn standing(&self, configuration: &Configuration) -> Standing {
        let hung = Outlets::of(self.on.as_ref()).read(&configuration.key());
        let output = |(outlet, tree): &(Outlet, Tree)| {
            let mut drivers: BTreeMap<u8, Vec<Exact>> = BTreeMap::new();
            for (leaf, share) in tree.shares(&ohms(&self.rig)) {
                drivers.entry(leaf.driver).or_default().push(share);
            }
            let mut gets = Vec::new();
            for (driver, mut coils) in drivers {
                coils.sort();
                let group = group_of(&self.rig, driver);
                let number = self.rig.iter().position(|one| std::ptr::eq(one, group));
                gets.push((number.unwrap(), coils));
            }
            gets.sort();
            (outlet.kind, tree.load(&ohms(&self.rig)), gets)
        };
        let mut standing: Vec<_> = hung.iter().map(output).collect();
        standing.sort();
        standing
    }
}

fn configurations(rows: Vec<Row>) -> Vec<Configuration> {
    rows.into_iter().map(|row| row.configuration).collect()
}

fn lowest_load(one: &Configuration) -> Ohms {
    one.outputs.iter().map(|output| output.load).min().unwrap()
}

/// The power of the whole; what differs by rounding alone is the same.
fn power(one: &Configuration) -> Option<f64> {
    one.outputs.iter().map(|output| output.target_watts).sum()
}

fn by(order: Order, a: &Configuration, b: &Configuration) -> Ordering {
    match order {
        Order::Rank => Ordering::Equal,
        Order::Load => lowest_load(b).cmp(&lowest_load(a)),
        Order::Power => match (power(a), power(b)) {
            (Some(a), Some(b)) if (a - b).abs() <= 1e-9 * a => Ordering::Equal,
            (Some(a), Some(b)) => b.total_cmp(&a),
            (a, b) => b.is_some().cmp(&a.is_some()),
        },
        Order::Runs => a.runs.cmp(&b.runs),
    }
    .then(a.rank.cmp(&b.rank))
}

fn pages_are_the_list(asked: &Asked, page: u32) {
    // Page after page takes up its walk; some from the last back find their place anew.
    let firsts: Vec<usize> = (0..=asked.all.configurations.len()).step_by(page as usize).collect();
    let mut pages = Pages::default();
    let some = firsts.iter().rev().step_by((firsts.len() / 12).max(1));
    for from in firsts.iter().chain(some).copied() {
        let found = asked.list.page(&mut pages, from as u64, page);
        let end = asked.all.configurations.len().min(from + page as usize);
        assert_eq!(found, asked.all.configurations[from..end], "{} {from}", written(&asked.rig));
    }
    let rows = asked.rows(&Wanted::default(), page);
    assert!(rows.iter().all(|row| row.alike == 1));
    assert_eq!(configurations(rows), asked.all.configurations, "{}", written(&asked.rig));
    // The list without a limit is written by the same hand: it is at least complete.
    let keys: BTreeSet<String> = asked.all.configurations.iter().map(Configuration::key).collect();
    assert_eq!(Some(keys.len() as u64), asked.all.total, "{}", written(&asked.rig));
    let ranks = asked.all.configurations.iter().map(|one| one.rank);
    assert!(ranks.eq(1..=keys.len() as u32));
}

fn orders_are_sorted_lists(asked: &Asked, page: u32) {
    for order in ORDERS {
        let rows = asked.rows(&Wanted { order, ..Wanted::default() }, page);
        let mut sorted = asked.all.configurations.clone();
        sorted.sort_by(|a, b| by(order, a, b));
        assert_eq!(configurations(rows), sorted, "{} {order:?}", written(&asked.rig));
    }
}

fn loads_are_filters(asked: &Asked, order: Order) {
    for tally in &asked.all.loads {
        let wanted = Wanted { at_load: Some(tally.load), order, ..Wanted::default() };
        let has = |one: &&Configuration| one.outputs.iter().any(|out| out.load == tally.load);
        let mut with: Vec<_> = asked.all.configurations.iter().filter(has).cloned().collect();
        let most = with.iter().filter_map(power).max_by(f64::total_cmp);
        let (told, found) = (tally.target.unwrap_or(0.0), most.unwrap_or(0.0));
        assert!((told - found).abs() <= 1e-9 * found, "{told} against {found} W");
        assert_eq!(tally.target.is_some(), most.is_some());
        with.sort_by(|a, b| by(order, a, b));
        assert_eq!(configurations(asked.rows(&wanted, 50)), with, "{}", written(&asked.rig));
    }
    let lowest = asked.all.loads.first().unwrap().load;
    let none = lowest.parallel(lowest);
    assert_eq!(asked.list.view(&Wanted { at_load: none, ..Wanted::default() }).rows, 0);
}

fn groups_stand_alike(asked: &Asked, order: Order, at_load: Option<Ohms>) {
    let mut groups: BTreeMap<Standing, Vec<&Configuration>> = BTreeMap::new();
    for one in &asked.all.configurations {
        if at_load.is_none_or(|load| one.outputs.iter().any(|output| output.load == load)) {
            groups.entry(asked.standing(one)).or_default().push(one);
        }
    }
    let mut firsts: Vec<_> = groups.values().map(|all| (all[0].clone(), all.len())).collect();
    firsts.sort_by(|(a, _), (b, _)| by(order, a, b));
    let wanted = Wanted { gathered: true, order, at_load, ..Wanted::default() };
    let rows = asked.rows(&wanted, 7);
    let found: Vec<_> =
        rows.iter().map(|row| (row.configuration.clone(), row.alike as usize)).collect();
    assert_eq!(found, firsts, "{} {order:?}", written(&asked.rig));
    for row in rows {
        let wanted = Wanted { group: Some(row.group), ..wanted };
        let members = asked.rows(&wanted, 50);
        assert!(members.iter().all(|member| member.group == row.group && member.alike == 1));
        let judged = |one: &Configuration| (one.verdict, one.overheats());
        let same = |member: &Row| judged(&member.configuration) == judged(&row.configuration);
        assert!(members.iter().all(same), "one row, one verdict: {}", written(&asked.rig));
        let mut own: Vec<Configuration> =
            groups[&asked.standing(&row.configuration)].iter().map(|one| (*one).clone()).collect();
        own.sort_by(|a, b| by(order, a, b));
        assert_eq!(configurations(members), own, "{}", written(&asked.rig));
    }
}

/// Groups are the same in whatever slices they are found, and no slice goes on for long.
fn groups_are_found_in_any_slices(asked: &Asked, budget: u64) {
    let mut list = Configurations::new(Request { limit: 0, ..asked.request.clone() });
    let mut early = Grouping::default();
    assert!(!list.find_groups(&mut early, u64::MAX), "nothing is known before the list is done");
    while let Step::More(_) = list.step(u64::MAX) {}
    let mut grouping = Grouping::default();
    let mut before = 0;
    while !list.find_groups(&mut grouping, budget) {
        let taken = grouping.work() - before;
        assert!(taken <= budget + LONGEST, "{}: {taken} of {budget}", written(&asked.rig));
        before = grouping.work();
    }
    for order in ORDERS {
        let wanted = Wanted { gathered: true, order, ..Wanted::default() };
        assert_eq!(list.view(&wanted), asked.list.view(&wanted), "{}", written(&asked.rig));
    }
}

/// What cannot be cut short when groups are found, in counted steps: some 0.1 ms.
const LONGEST: u64 = 2_000;

fn keys_lead_to_their_configurations(asked: &Asked) {
    for listed in &asked.all.configurations {
        let found = one(&asked.request.rig, &listed.key()).unwrap();
        assert_eq!(found.rank, 0);
        let ranked = Configuration { rank: listed.rank, ..found };
        assert_eq!(&ranked, listed, "{}", written(&asked.rig));
    }
}

fn everything_holds(asked: &Asked, page: u32) {
    pages_are_the_list(asked, page);
    orders_are_sorted_lists(asked, page.max(5));
    for order in ORDERS {
        groups_stand_alike(asked, order, None);
    }
    if !asked.all.loads.is_empty() {
        loads_are_filters(asked, Order::Rank);
        loads_are_filters(asked, Order::Power);
        let middle = asked.all.loads[asked.all.loads.len() / 2].load;
        groups_stand_alike(asked, Order::Rank, Some(middle));
    }
    groups_are_found_in_any_slices(asked, 100 * u64::from(page));
    keys_lead_to_their_configurations(asked);
}

proptest! {
    #![proptest_config(cases(48))]

    #[test]
    fn a_list_is_what_its_views_show(
        rig in rigs(5), on in proptest::option::of(amplifiers(3)),
        filters in select(Filters::ALL.to_vec()), page in 1_u32..40
    ) {
        everything_holds(&Asked::new(&rig, on, filters), page);
    }
}

#[test]
fn views_show_several_outputs_and_split_drivers() {
    let two = amplifier(&[WEAK, WEAK], &[([1, 2], SILENT)]);
    let cases = [
        (vec![drivers(3, 2, "4").rated(200.0)], two.clone()),
        (vec![drivers(2, 2, "2"), drivers(1, 1, "8")], two.clone()),
        (vec![drivers(2, 2, "2").rated(100.0), drivers(1, 1, "8").rated(300.0)], several(2, two)),
        (vec![drivers(5, 1, "4").rated(50.0)], amplifier(&[WEAK, STRONG, WEAK], &[])),
        // Two on either output: both choose among several networks of one shape.
        (vec![drivers(4, 2, "2")], amplifier(&[WEAK, WEAK], &[])),
        (vec![drivers(1, 4, "1").rated(400.0), drivers(1, 2, "4").rated(400.0)], STRONG.mono()),
    ];
    for (number, (rig, on)) in cases.into_iter().enumerate() {
        for (setting, filters) in Filters::ALL.into_iter().enumerate() {
            if !compared(number, setting) {
                continue;
            }
            let asked = Asked::new(&rig, Some(on.clone()), filters);
            if filters == Filters::OFF && on.channels.len() > 1 {
                let several = |one: &Configuration| one.outputs.len() > 1;
                assert!(asked.all.configurations.iter().any(several));
            }
            everything_holds(&asked, 13);
        }
    }
    let split = Asked::new(&[drivers(3, 2, "4")], Some(amplifier(&[WEAK; 2], &[])), Filters::OFF);
    assert!(split.all.configurations.iter().any(|one| one.split_driver.is_some()));
}

/// By hand: at 10 Ω two of the four 4 Ω coils stand in series with the other two side by
/// side, so they get 0.4, 0.4, 0.1 and 0.1. Either the first two are one driver's, which
/// then gets 0.8 and the other 0.2, or they are not, and each driver gets a half.
#[test]
fn two_dual_drivers_at_ten_ohms_stand_in_a_row_for_each_way_to_share() {
    let rig = [drivers(2, 2, "4").rated(500.0)];
    let asked = Asked::new(&rig, Some(STRONG.mono()), Filters::OFF);
    let ten = Field::CoilOhms.ohms_text("10").ok();
    let wanted = Wanted { gathered: true, at_load: ten, ..Wanted::default() };
    let mut found = Vec::new();
    for row in asked.rows(&wanted, 50) {
        found.push((row.configuration.key(), row.alike, row.configuration.driver_shares));
    }
    let want = [
        ("1:1a+1b+(2a||2b)".to_owned(), 1, vec![0.8, 0.2]),
        ("1:1a+2a+(1b||2b)".to_owned(), 1, vec![0.5, 0.5]),
    ];
    assert_eq!(found, want);
}

#[test]
fn unlike_drivers_in_series_are_told() {
    let rig = [drivers(1, 1, "4"), drivers(2, 1, "8")];
    let asked = request(&rig, None, Filters::OFF).rig;
    // Groups alone decide: drivers that are alike in all but their group are unlike too.
    let table = [
        ("1a||2a||3a", false),
        ("1a||(2a+3a)", false),
        ("1a+(2a||3a)", true),
        ("(1a+2a)||3a", true),
        ("1a+2a+3a", true),
    ];
    for (key, unlike) in table {
        let found = one(&asked, key).unwrap();
        assert_eq!(found.unlike_in_series, unlike, "{key}");
    }
    // 2a and 3a in series are alike, whatever else their parts hold.
    let pairs = request(&[drivers(2, 1, "4"), drivers(2, 1, "8")], None, Filters::OFF).rig;
    assert!(!one(&pairs, "(1a||3a)+(2a||4a)").unwrap().unlike_in_series);
}

#[test]
fn what_is_no_configuration_is_not_found_by_its_key() {
    let asked = request(&[drivers(2, 2, "2")], Some(WEAK.mono()), Filters::OFF).rig;
    for key in ["", "1a+1b", "1:1a+1b", "2:1a+1b+2a+2b", "1a+1b+2a+2b", "1:1a+1b+2a+3b"] {
        assert_eq!(one(&asked, key).unwrap_err().code, Code::UnknownConfiguration, "{key:?}");
    }
}

#[test]
fn a_list_that_is_not_done_or_too_long_shows_no_rows() {
    let asked = request(&[drivers(3, 2, "2")], None, Filters::OFF);
    let mut list = Configurations::new(asked.clone());
    let mut seen_empty = 0;
    while let Step::More(_) = list.step(50) {
        let view = list.view(&Wanted::default());
        assert_eq!((view.rows, list.rows(&view, 0, 9).len()), (0, 0));
        seen_empty += 1;
    }
    assert!(seen_empty > 3);
    assert_eq!(Some(list.view(&Wanted::default()).rows), answer(asked).total);
    let mut long = Configurations::new(request(&[drivers(14, 1, "2")], None, Filters::OFF));
    while let Step::More(_) = long.step(u64::MAX) {}
    assert_eq!(long.view(&Wanted::default()).rows, 0);
}

/// Any row of a long list is there at once, in the order of the whole.
#[test]
fn a_long_list_is_shown_from_anywhere() {
    let asked = Asked::new(&[drivers(9, 1, "4").rated(100.0)], Some(STRONG.mono()), Filters::OFF);
    assert_eq!(asked.all.total, Some(1532));
    for order in ORDERS {
        let view = asked.list.view(&Wanted { order, ..Wanted::default() });
        let mut sorted = asked.all.configurations.clone();
        sorted.sort_by(|a, b| by(order, a, b));
        for from in [0, 1, 500, 1000, 1500, 1531] {
            let found = configurations(asked.list.rows(&view, from, 40));
            let end = (from as usize + 40).min(1532);
            assert_eq!(found, sorted[from as usize..end], "{order:?} from {from}");
        }
    }
}

/// The longest list of all, gathered: finding its groups blocked for a second and a half.
#[test]
fn the_groups_of_the_longest_list_are_found_in_slices() {
    let asked = request(&[drivers(5, 2, "4").rated(500.0)], Some(STRONG.mono()), Filters::OFF);
    let mut list = Configurations::new(Request { limit: 0, ..asked });
    assert_eq!(list.finish().total, Some(281_964));
    let (mut grouping, mut slices, mut before) = (Grouping::default(), 1, 0);
    while !list.find_groups(&mut grouping, 10_000) {
        let taken = grouping.work() - before;
        assert!(taken <= 10_000 + LONGEST, "{taken} steps");
        (slices, before) = (slices + 1, grouping.work());
    }
    println!("{} steps in {slices} slices", grouping.work());
    assert!(slices > 100 && grouping.work() < 10_000_000, "{} steps", grouping.work());
    // As counted when all dealings were walked in one go.
    let view = list.view(&Wanted { gathered: true, ..Wanted::default() });
    assert_eq!(view.rows, 214_733);
}
