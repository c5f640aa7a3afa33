//! The current at every terminal once the level is set, with wire of no resistance.

use super::sets::Set;
use super::{Post, Sign};
use crate::answer::Configuration;
use crate::given::ohms;
use crate::network::Coil;
use crate::rig::Rig;

/// Fills in the currents of all members.
pub(super) fn flow(rig: &Rig, configuration: &Configuration, sets: &mut [Set]) {
    let mut coils: Vec<(Coil, Option<f64>)> = Vec::new();
    for output in &configuration.outputs {
        let ohms = |coil: Coil| ohms(rig, coil);
        for (coil, share) in output.network.shares_near(&ohms) {
            let amps = output.target_watts.map(|watts| libm::sqrt(share * watts / ohms(coil)));
            coils.push((coil, amps));
        }
    }
    for set in sets.iter_mut() {
        for member in &mut set.members {
            if let Post::Coil(coil) = member.terminal.post {
                let known = coils.iter().find(|(one, _)| *one == coil);
                member.amps = known.and_then(|(_, amps)| *amps);
            }
        }
    }
    // What goes through a cup goes into the coils behind it.
    let mut cups: Vec<(u8, Option<f64>)> = Vec::new();
    for set in sets.iter() {
        if let [source] = set.sources.as_slice()
            && let (Post::CupInside(cup), Sign::Plus) = (source.post, source.sign)
        {
            cups.push((cup, set.members.iter().map(|member| member.amps).sum()));
        }
    }
    for set in sets {
        for member in &mut set.members {
            if let Post::CupOutside(cup) = member.terminal.post {
                let known = cups.iter().find(|(one, _)| *one == cup);
                member.amps = known.and_then(|(_, amps)| *amps);
            }
        }
    }
}
