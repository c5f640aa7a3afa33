//! One configuration from its key alone, without the list it stands in.

use super::Configuration;
use super::arrange::Hung;
use super::key::Key;
use super::writing::{Facts, configuration};
use crate::count::tally;
use crate::defect::{Defect, number};
use crate::listing::electrics::{Electrics, join};
use crate::network::{Coil, Network};
use crate::ohms::{Ohms, Ratio};
use crate::outputs::deals::Portion;
use crate::outputs::evenness::Hanging;
use crate::outputs::{Outlet, Outputs};
use crate::problem::{Code, Path, Problem, Stop};
use crate::rig::Rig;

/// A configuration of a rig from its key, judged as in the list; its rank is 0, since
/// only a list gives ranks.
///
/// # Errors
/// As [`Key::read`]; and [`Code::TooExact`] where its fractions outgrow exact arithmetic.
///
/// # Example
/// ```
/// # use coilwright_solver::{answer::one, bounds::Field, rig::{Draft, GroupDraft}};
/// # let two = GroupDraft { count: Some(2), coils: Some(2), ohms: Field::CoilOhms.ohms_text("2").ok(), ..Default::default() };
/// # let rig = Draft { groups: vec![two], amplifier: None }.check(Vec::new()).unwrap();
/// let found = one(&rig, "(2b || 2a) + (1a || 1b)").unwrap();
/// assert_eq!((found.key().as_str(), found.rank), ("(1a||1b)+(2a||2b)", 0));
/// assert_eq!(found.outputs[0].load.to_string(), "2");
/// assert!(found.even && found.joined_at_driver);
/// ```
pub fn one(rig: &Rig, key: &str) -> Result<Configuration, Problem> {
    let key = Key::read(rig, key)?;
    found(rig, key).map_err(|stop| stop.problem(Path::root().field("key")))
}

fn found(rig: &Rig, key: Key) -> Result<Configuration, Stop> {
    let (way, networks): (Vec<Outlet>, Vec<Network>) = key.outputs.into_iter().unzip();
    let mut facts = Facts { even: true, joined: true, unlike_in_series: false, runs: 0 };
    let mut met: Vec<Hanging<Ratio, Ratio>> = Vec::new();
    for (at, network) in networks.iter().enumerate() {
        let mut all = Vec::new();
        electrics(rig, network, &mut all)?;
        let here = all.pop().ok_or(Code::TooExact)?;
        facts.even = facts.even && here.even;
        facts.unlike_in_series = facts.unlike_in_series || here.unlike_in_series;
        let coils = network.coils();
        let ends = tally(coils.iter()).saturating_mul(2);
        facts.runs = facts.runs.saturating_add(ends.saturating_sub(here.joints));
        facts.joined = facts.joined && coils.iter().all(|coil| is_joined(rig, network, *coil));
        let kind = way.get(at).ok_or(Defect::Deals)?.kind;
        let here = Hanging { kind, load: here.load, rating: here.rating };
        facts.even = facts.even && met.iter().all(|there| there.is_even_with(&here));
        met.push(here);
    }
    let mut hung = Vec::new();
    for (network, hanging) in networks.into_iter().zip(met) {
        let portion = Portion::default();
        hung.push(Hung { portion, network, load: Ohms::new(hanging.load) });
    }
    let outputs = Outputs::of(rig.amplifier());
    Ok(configuration(rig, &outputs, &way, hung, &facts, 0)?)
}

/// Adds the electrics of a network to the list and gives its number there.
fn electrics(rig: &Rig, network: &Network, all: &mut Vec<Electrics>) -> Result<u32, Stop> {
    let here = match network {
        Network::Coil(coil) => {
            let group = rig.group_number_of(coil.driver).ok_or(Code::UnknownConfiguration)?;
            let kind = rig.groups().get(group).ok_or(Code::UnknownConfiguration)?;
            let rating = rig.coil_rating(kind);
            Electrics::of_coil(kind.ohms.ratio(), rating, rating, group)
        }
        Network::Node(joint, parts) => {
            let mut numbers = Vec::new();
            for part in parts {
                numbers.push(electrics(rig, part, all)?);
            }
            join(*joint, &numbers, all)?
        }
    };
    let number = number(all.len())?;
    all.push(here);
    Ok(number)
}

/// Whether all coils of a coil's driver are one or more whole parts of one node.
fn is_joined(rig: &Rig, network: &Network, coil: Coil) -> bool {
    let Network::Node(_, parts) = network else {
        return rig.group_of(coil.driver).is_some_and(|group| group.coils == 1);
    };
    let mut own = 0_usize;
    for part in parts {
        let coils = part.coils();
        let of_driver = coils.iter().filter(|other| other.driver == coil.driver).count();
        if of_driver > 0 && of_driver < coils.len() {
            // Joined further in, or else mixed with others.
            return is_joined(rig, part, coil);
        }
        own = own.saturating_add(of_driver);
    }
    rig.group_of(coil.driver).is_some_and(|group| usize::try_from(group.coils) == Ok(own))
}
