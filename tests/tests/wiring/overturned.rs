//! What a reading by itself seems to exclude, and a later one shows: worked by hand from the
//! circuits.

use coilwright_solver::answer::one;
use coilwright_solver::bounds::Field;
use coilwright_solver::meter::{self, Diagnosis, Fault, Job, Point, Read, Reading};
use coilwright_solver::network::Coil;
use coilwright_solver::rig::{
    AmplifierDraft, Build, BuildDraft, ChannelDraft, Cups, Draft, GroupDraft,
};
use coilwright_solver::wiring::{Plan, Post, Terminal};

/// So many drivers of so many coils at so many ohms; tied pairs where there are several.
struct Rig(u32, u32, &'static str, Cups, u32);

fn found(rig: &Rig, key: &str, reads: &[(&str, f64)]) -> Diagnosis {
    let Rig(count, coils, ohms, cups, pairs) = *rig;
    let group = GroupDraft {
        count: Some(count),
        coils: Some(coils),
        ohms: Field::CoilOhms.ohms_text(ohms).ok(),
        ..GroupDraft::default()
    };
    let channel = ChannelDraft { terminal_pairs: Some(pairs), ..ChannelDraft::default() };
    let amplifier = (pairs > 1)
        .then(|| AmplifierDraft { channels: vec![channel], ..AmplifierDraft::default() });
    let rig = Draft { groups: vec![group], amplifier }.check(Vec::new()).unwrap();
    let build: Build = BuildDraft { cups, ..BuildDraft::default() }.check(&rig).unwrap();
    let configuration = one(&rig, key).unwrap();
    let plan = Plan::of(&rig, &build, &configuration).unwrap();
    let job = Job { rig: &rig, build: &build, configuration: &configuration, plan: &plan };
    let reads: Vec<Read> = reads
        .iter()
        .map(|(name, ohms)| {
            let point = Point::named(name).unwrap();
            assert!(point.is_of(&plan), "{name} is no point of {key}");
            let reading = match ohms.is_finite() {
                true => Reading::Ohms { ohms: *ohms, count: 0.1 },
                false => Reading::Open,
            };
            Read { point, reading }
        })
        .collect();
    meter::diagnose(&job, &reads, &[])
}

/// A coil's own terminals.
fn on_coil(terminal: Terminal, driver: u8, coil: u8) -> bool {
    terminal.post == Post::Coil(Coil { driver, coil })
}

/// A wire, or a strand, over one coil.
fn is_over(fault: &Fault, driver: u8, coil: u8) -> bool {
    match *fault {
        Fault::Extra { from: a, to: b } | Fault::Strand { a, b } => {
            let ends = [a, b].map(|end| on_coil(end, driver, coil));
            // The − of the coil before it is one with its +.
            ends == [true; 2]
                || (coil == 1
                    && ends.contains(&true)
                    && [a, b].iter().any(|end| on_coil(*end, driver, 0)))
        }
        _ => false,
    }
}

/// One dual 2 Ω driver, 1a + 1b, a wire from 1a − to 1b −. It came with the cables, so that
/// the check before them was right; read again it shows what touches now.
#[test]
fn an_earlier_check_that_is_read_again_sees_what_touches_now() {
    let rig = Rig(1, 2, "2", Cups::None, 1);
    let before = [("1", 0.2), ("5", 4.0), ("8", 2.1), ("8.across.1b", 0.2)];
    let named = found(&rig, "1a+1b", &before);
    let over =
        |found: &Diagnosis| found.explanations[0].faults.iter().any(|fault| is_over(fault, 0, 1));
    assert!(over(&named), "{:?}", named.explanations);
    // Read again, 5 stands behind 8.
    let again = [("1", 0.2), ("8", 2.1), ("8.across.1b", 0.2), ("5", 2.1)];
    let named = found(&rig, "1a+1b", &again);
    assert!(over(&named), "{:?}", named.explanations);
}

/// Two single 8 Ω in parallel; strands over the second came with the cable. Nothing is certain
/// before what tells strands at the driver from those at the cable's end is read.
#[test]
fn a_strand_that_came_with_the_cable_is_not_ruled_out_by_the_check_before() {
    let rig = Rig(2, 1, "8", Cups::None, 1);
    let first = found(&rig, "1a||2a", &[("1", 0.2), ("8", 3.7), ("11", 0.3)]);
    assert!(first.explanations[0].share < meter::SURE, "{:?}", first.explanations);
    assert!(first.next.is_some());
    let held = |driver: u8| {
        let strand = move |fault: &Fault| is_over(fault, driver, 0);
        first.explanations.iter().any(|one| one.faults.iter().any(strand))
    };
    assert!(held(0), "{:?}", first.explanations);
}

/// Two dual 2 Ω drivers on tied pairs without cups, run 4 broken: one pair reads open, all
/// together read as one driver, both drivers read right across their coils.
#[test]
fn a_broken_run_of_one_of_two_tied_pairs_is_named() {
    let rig = Rig(2, 2, "2", Cups::None, 2);
    let reads = [
        ("1", 0.2),
        ("14", f64::INFINITY),
        ("15", 3.8),
        ("16", 3.8),
        ("16.across.1a", 2.0),
        ("16.across.1b", 2.0),
    ];
    let named = found(&rig, "1:(1a+1b)||(2a+2b)", &reads);
    let broken = |fault: &Fault| matches!(fault, Fault::Missing { run: 2 | 3 });
    assert!(named.explanations[0].faults.iter().any(broken), "{:?}", named.explanations);
    let other = |fault: &Fault| matches!(fault, Fault::Missing { run: 0 | 1 });
    assert!(!named.explanations[0].faults.iter().any(other), "{:?}", named.explanations);
}

/// Four 8 Ω coils, pairs of both drivers in parallel, joined as two rows in series instead:
/// (1a + 2a) ∥ … reads 16 + 4 at the ends.
#[test]
fn series_parts_that_are_joined_in_another_order_are_named() {
    let rig = Rig(2, 2, "8", Cups::One, 1);
    let reads = [("1", 0.2), ("11", 20.1), ("11.across.1a", 8.5), ("11.along.3", 8.6)];
    let named = found(&rig, "(1a||2a)+(1b||2b)", &reads);
    assert!(
        matches!(named.explanations[0].faults[0], Fault::Otherwise(_)),
        "{:?}",
        named.explanations
    );
}

/// A joint meant for one driver made at its neighbour.
#[test]
fn an_end_on_a_neighbouring_driver_is_known() {
    let group = GroupDraft {
        count: Some(2),
        coils: Some(1),
        ohms: Field::CoilOhms.ohms_text("4").ok(),
        ..GroupDraft::default()
    };
    let rig = Draft { groups: vec![group], amplifier: None }.check(Vec::new()).unwrap();
    let build = Build::default();
    let configuration = one(&rig, "1a+2a").unwrap();
    let plan = Plan::of(&rig, &build, &configuration).unwrap();
    let job = Job { rig: &rig, build: &build, configuration: &configuration, plan: &plan };
    let (faults, _) = meter::catalogue(&job).unwrap();
    let moved = |fault: &Fault| match *fault {
        Fault::WrongEnd { run, start, on } => {
            let run = &plan.runs[usize::from(run)];
            let planned = if start { run.from } else { run.to };
            matches!((planned.post, on.post), (Post::Coil(a), Post::Coil(b)) if a.driver != b.driver)
        }
        _ => false,
    };
    assert!(faults.iter().any(|(fault, _)| moved(fault)));
}
