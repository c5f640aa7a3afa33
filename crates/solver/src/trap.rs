//! A rig that stops whoever asks about it, where the feature `trap` is on: so that proofs
//! see what happens to a visitor's work when the solver stops after all. Never shipped.

use crate::ohms::Ratio;
use crate::rig::Rig;

/// Stops at a coil of 13.13 Ω.
#[expect(clippy::panic, reason = "this is what it is for")]
pub(crate) fn spring(rig: &Rig) {
    let is_it = |ohms: Ratio| Some(ohms) == Ratio::new(1313, 100);
    if rig.groups().iter().any(|group| is_it(group.ohms.ratio())) {
        panic!("a coil of 13.13 Ω stops the solver here");
    }
}
