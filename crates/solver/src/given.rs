//! What each driver gets of the power that the outputs give.

use crate::answer::{Configuration, Output};
use crate::count::index;
use crate::network::Coil;
use crate::rig::Rig;

/// The watts of each driver, in order, where every output gives what `power` says of
/// it; `None` where that is not known for one of them.
///
/// With [`Output::target_watts`] this is what each driver gets once the level is set.
#[must_use]
pub fn driver_watts(
    rig: &Rig,
    configuration: &Configuration,
    power: impl Fn(&Output) -> Option<f64>,
) -> Option<Vec<f64>> {
    let mut watts = vec![0.0; index(rig.drivers())];
    for output in &configuration.outputs {
        let power = power(output)?;
        for (coil, share) in output.network.shares_near(&|coil| ohms(rig, coil)) {
            if let Some(watts) = watts.get_mut(usize::from(coil.driver)) {
                *watts += share * power;
            }
        }
    }
    Some(watts)
}

/// Nominal ohms of a coil: no number, nor whatever follows from it, where the rig has no such
/// driver.
pub(crate) fn ohms(rig: &Rig, coil: Coil) -> f64 {
    rig.group_of(coil.driver).map_or(f64::NAN, |group| group.ohms.to_f64())
}

/// What each coil gets, side by side.
#[derive(Clone, Debug, PartialEq)]
pub struct Loading {
    /// Coil by coil: the fraction of its rating, or of the hardest-worked coil's load.
    pub coils: Vec<(Coil, f64)>,
    /// Whether the fractions are of ratings: these and the power must be known.
    pub of_rating: bool,
}

/// How hard each coil works once the level is set; where that is not known, how hard
/// beside the hardest-worked one with the same voltage on every output.
#[must_use]
pub fn coil_loading(rig: &Rig, configuration: &Configuration) -> Loading {
    let mut coils = Vec::new();
    let targets = configuration.outputs.iter().all(|output| output.target_watts.is_some());
    let of_rating = rig.every_rating_known() && targets;
    for output in &configuration.outputs {
        let power = match output.target_watts {
            Some(target) if of_rating => target,
            _ => 1.0 / output.load.to_f64(),
        };
        for (coil, share) in output.network.shares_near(&|coil| ohms(rig, coil)) {
            let Some(group) = rig.group_of(coil.driver) else { continue };
            coils.push((coil, share * power / rig.coil_rating(group).to_f64()));
        }
    }
    crate::short::insertion_sort(&mut coils, |(a, _), (b, _)| a.cmp(b));
    if !of_rating {
        let most = coils.iter().fold(0.0, |most: f64, (_, works)| most.max(*works));
        for (_, works) in &mut coils {
            *works /= most;
        }
    }
    Loading { coils, of_rating }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::bounds::Field;
    use crate::judge::Verdict;
    use crate::rig::{Draft, GroupDraft};

    fn rig(count: u32, coils: u32, ohms: &str) -> Rig {
        let group = GroupDraft {
            count: Some(count),
            coils: Some(coils),
            ohms: Field::CoilOhms.ohms_text(ohms).ok(),
            ..GroupDraft::default()
        };
        let draft = Draft { groups: vec![group], amplifier: None };
        draft.check(Vec::new()).unwrap()
    }

    fn configuration(rig: &Rig, networks: &[(&str, Option<f64>)]) -> Configuration {
        let ohms = rig.groups()[0].ohms;
        let outputs = networks.iter().map(|(text, target)| {
            let network: crate::network::Network = text.parse().unwrap();
            Output {
                way: None,
                channels: Vec::new(),
                load: network.load(&|_| ohms).unwrap(),
                network,
                verdict: Verdict::Fits,
                available: None,
                usable_watts: None,
                target_watts: *target,
                overheats: None,
            }
        });
        Configuration {
            rank: 1,
            outputs: outputs.collect(),
            verdict: Verdict::Fits,
            even: true,
            joined_at_driver: true,
            split_driver: None,
            driver_shares: Vec::new(),
            coil_shares: Vec::new(),
            runs: 0,
            unlike_in_series: false,
        }
    }

    #[track_caller]
    fn gets(rig: &Rig, networks: &[(&str, Option<f64>)], want: Option<&[f64]>) {
        let configuration = configuration(rig, networks);
        let found = driver_watts(rig, &configuration, |output| output.target_watts);
        let (Some(found), Some(want)) = (&found, want) else {
            assert_eq!(found.as_deref(), want);
            return;
        };
        for (a, b) in found.iter().zip(want) {
            assert!((a - b).abs() < 1e-9, "{found:?} against {want:?}");
        }
        assert_eq!(found.len(), want.len());
    }

    #[test]
    fn drivers_get_what_their_coils_get() {
        let two = rig(2, 2, "2");
        gets(&two, &[("(1a + 1b) ∥ (2a + 2b)", Some(760.0))], Some(&[380.0, 380.0]));
        // Three 4 Ω drivers, a + (b ∥ c): shares 2/3, 1/6, 1/6.
        let three = rig(3, 1, "4");
        gets(&three, &[("1a + (2a ∥ 3a)", Some(450.0))], Some(&[300.0, 75.0, 75.0]));
    }

    #[test]
    fn coils_are_loaded_by_their_share_of_the_power() {
        // Three 4 Ω drivers without a rating, a + (b ∥ c): the first works four times as hard.
        let three = rig(3, 1, "4");
        let one = configuration(&three, &[("1a + (2a ∥ 3a)", Some(450.0))]);
        let loading = coil_loading(&three, &one);
        assert!(!loading.of_rating);
        let works: Vec<f64> = loading.coils.iter().map(|(_, works)| *works).collect();
        assert_eq!(works, [1.0, 0.25, 0.25]);
    }

    #[test]
    fn a_driver_on_two_outputs_gets_the_sum_and_an_unknown_power_is_unknown() {
        let one = rig(1, 2, "4");
        gets(&one, &[("1a", Some(100.0)), ("1b", Some(100.0))], Some(&[200.0]));
        gets(&one, &[("1a", Some(100.0)), ("1b", None)], None);
    }
}
