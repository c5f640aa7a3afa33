//! The bench of readings against ngspice.

use proof::sim::circuit::{Link, between};
use proof::sim::dice::Dice;
use std::fmt::Write as _;
use std::process::Command;

/// Resistors between five places at random, most of them neither series nor parallel.
fn drawn(dice: &mut Dice) -> Vec<Link> {
    let mut links = Vec::new();
    for one in 1..5 {
        links.push(Link::new("n0", &format!("n{one}"), dice.between(0.2, 20.0)));
        for two in one + 1..5 {
            if dice.chance(0.6) {
                let ends = [format!("n{one}"), format!("n{two}")];
                links.push(Link::new(&ends[0], &ends[1], dice.between(0.2, 20.0)));
            }
        }
    }
    links
}

#[test]
fn the_bench_solves_as_ngspice_does() {
    let folder = std::env::temp_dir().join(format!("coilwright-sim-{}", std::process::id()));
    std::fs::create_dir_all(&folder).unwrap();
    let mut dice = Dice::of(5, "bridges");
    for case in 0..20 {
        let links = drawn(&mut dice);
        let mut deck = String::from("* a bench\nI1 0 n1 1\n");
        for (place, link) in links.iter().enumerate() {
            let name = |end: &str| if end == "n0" { "0".to_owned() } else { end.to_owned() };
            writeln!(deck, "R{place} {} {} {}", name(&link.a), name(&link.b), link.ohms).unwrap();
        }
        deck.push_str(".control\nset numdgt=10\nop\nprint v(n1)\nquit\n.endc\n.end\n");
        let file = folder.join(format!("{case}.cir"));
        std::fs::write(&file, deck).unwrap();
        let told = Command::new("ngspice").arg("-b").arg(&file).output().expect("ngspice runs");
        let told = String::from_utf8_lossy(&told.stdout).into_owned();
        let volts = told.lines().find_map(|line| line.trim().strip_prefix("v(n1) = "));
        let volts: f64 = volts.unwrap_or_else(|| panic!("{told}")).trim().parse().unwrap();
        let ours = between(&links, "n1", "n0").unwrap();
        assert!((ours / volts - 1.0).abs() < 1e-6, "case {case}: {ours}, {volts}");
    }
    std::fs::remove_dir_all(&folder).unwrap();
}
