//! The same readings as [`Built::felt`], many times over: a fault's network is numbered once
//! for every point, and only the ohms of coils are put in anew.

use super::built::Built;
use super::circuit::{LEAST, numbered};
use super::fault::Fault;
use super::plan::{Plan, Point};
use std::collections::BTreeMap;

/// Where a resistor's siemens come from.
#[derive(Clone, Copy, Debug)]
enum Of {
    Fixed(f64),
    /// The ohms of a coil, by its place in the order of names, times this.
    Coil(usize, f64),
}

/// What lies between the probes of a point.
#[derive(Clone, Debug)]
enum Net {
    Open,
    Nothing,
    /// How many places beside that of the − probe, that of the + probe the last of them, and
    /// the resistors; the place of the − probe is `usize::MAX`.
    Links(usize, Vec<(usize, usize, Of)>),
}

/// A fault at a list of points.
#[derive(Clone, Debug)]
pub struct Quick {
    nets: Vec<Net>,
    more: f64,
    gain: f64,
}

impl Quick {
    /// Of a fault in a plan; any coils do, as what a fault makes of them is found out.
    pub fn of(plan: &Plan, fault: &Fault, coils: &BTreeMap<String, f64>, points: &[Point]) -> Self {
        let built = fault.built(plan, coils, 0.0);
        // What stays as it is when the coils are twice as many ohms is fixed.
        let twice = coils.iter().map(|(name, ohms)| (name.clone(), ohms * 2.0)).collect();
        let doubled = fault.built(plan, &twice, 0.0);
        let of = |name: &str, ohms: f64| {
            let fixed = doubled.coils.get(name) == Some(&Some(ohms));
            match coils.iter().position(|(other, _)| other == name) {
                Some(place) if !fixed => Of::Coil(place, ohms / coils[name]),
                _ => Of::Fixed(ohms),
            }
        };
        let sources: Vec<Of> =
            built.coils.iter().filter_map(|(name, ohms)| ohms.map(|ohms| of(name, ohms))).collect();
        let nets = points.iter().map(|point| net(&built, plan, point, &sources)).collect();
        Self { nets, more: built.leads_more, gain: built.gain }
    }

    /// What a meter without error shows at each point, of these coils in the order of names.
    pub fn felt(&self, coils: &[f64], leads: f64) -> Vec<Option<f64>> {
        let mut room = Vec::new();
        let of = |ohms: f64| Some((ohms + leads + self.more) * self.gain);
        let felt = |net: &Net| match net {
            Net::Open => None,
            Net::Nothing => of(0.0),
            Net::Links(many, links) => of(solved(*many, links, coils, &mut room)),
        };
        self.nets.iter().map(felt).collect()
    }
}

fn net(built: &Built, plan: &Plan, point: &Point, sources: &[Of]) -> Net {
    if point.place == "basket" {
        return Net::Open;
    }
    let Some((plus, minus)) = &point.probes else { return Net::Nothing };
    if plus == minus {
        return Net::Nothing;
    }
    let Some(links) = built.links(plan, point) else { return Net::Open };
    let number = numbered(&links, plus);
    let Some(ground) = number.get(minus.as_str()).copied() else { return Net::Open };
    let many = number.len() - 1;
    // Numbered from the far end, so that the + probe comes last.
    let row = |place: usize| match place.cmp(&ground) {
        std::cmp::Ordering::Less => many - 1 - place,
        std::cmp::Ordering::Equal => usize::MAX,
        std::cmp::Ordering::Greater => many - place,
    };
    let wires = links.len() - sources.len();
    let of = |(place, link): (usize, &super::circuit::Link)| {
        let a = row(*number.get(link.a.as_str())?);
        let b = row(*number.get(link.b.as_str())?);
        let source = match place.checked_sub(wires) {
            Some(coil) => sources[coil],
            None => Of::Fixed(link.ohms),
        };
        (a != b).then_some((a, b, source))
    };
    Net::Links(many, links.iter().enumerate().filter_map(of).collect())
}

/// Every place but that of the + probe eliminated: what is left there is the siemens between
/// the probes. No pivots are chosen, as none of a grounded network of resistors is 0.
fn solved(many: usize, links: &[(usize, usize, Of)], coils: &[f64], room: &mut Vec<f64>) -> f64 {
    room.clear();
    room.resize(many * many, 0.0);
    for (a, b, of) in links {
        let ohms = match of {
            Of::Fixed(ohms) => *ohms,
            Of::Coil(place, times) => coils[*place] * times,
        };
        let siemens = ohms.max(LEAST).recip();
        for end in [*a, *b] {
            if end != usize::MAX {
                room[end * many + end] += siemens;
            }
        }
        if *a != usize::MAX && *b != usize::MAX {
            room[a * many + b] -= siemens;
            room[b * many + a] -= siemens;
        }
    }
    for pivot in 0..many - 1 {
        for row in pivot + 1..many {
            let under = room[row * many + pivot];
            if under == 0.0 {
                continue;
            }
            let times = under / room[pivot * many + pivot];
            for column in pivot + 1..many {
                room[row * many + column] -= times * room[pivot * many + column];
            }
        }
    }
    room[many * many - 1].recip()
}
