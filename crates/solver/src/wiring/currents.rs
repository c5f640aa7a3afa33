//! The current at every terminal, with wire of no resistance: once the level is set, and
//! where the amplifier gives the most that it might.

use super::amps::Amps;
use super::sets::Set;
use super::{Post, Sign};
use crate::answer::Configuration;
use crate::given::ohms;
use crate::network::Coil;
use crate::rig::Rig;

/// Fills in the currents of all members.
pub(super) fn flow(rig: &Rig, configuration: &Configuration, sets: &mut [Set]) {
    let mut coils: Vec<(Coil, Amps)> = Vec::new();
    for output in &configuration.outputs {
        let ohms = |coil: Coil| ohms(rig, coil);
        for (coil, share) in output.network.shares_near(&ohms) {
            let most = output.available.map(|available| available.high);
            let watts = Amps { target: output.target_watts, most };
            coils.push((coil, watts.map(|watts| libm::sqrt(share * watts / ohms(coil)))));
        }
    }
    for set in sets.iter_mut() {
        for member in &mut set.members {
            if let Post::Coil(coil) = member.terminal.post {
                let known = coils.iter().find(|(one, _)| *one == coil);
                member.amps = known.map_or(Amps::default(), |(_, amps)| *amps);
            }
        }
    }
    // What goes through a cup goes into the coils behind it.
    let mut cups: Vec<(u8, Amps)> = Vec::new();
    for set in sets.iter() {
        if let [source] = set.sources.as_slice()
            && let (Post::CupInside(cup), Sign::Plus) = (source.post, source.sign)
        {
            let all = set.members.iter().map(|member| member.amps);
            cups.push((cup, all.fold(Amps::NONE, |sum, amps| sum.with(amps, |a, b| a + b))));
        }
    }
    for set in sets {
        for member in &mut set.members {
            if let Post::CupOutside(cup) = member.terminal.post {
                let known = cups.iter().find(|(one, _)| *one == cup);
                member.amps = known.map_or(Amps::default(), |(_, amps)| *amps);
            }
        }
    }
}
