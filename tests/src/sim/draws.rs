//! Rigs as they may be by what is known of one: other coils, other leads.

use super::dice::Dice;
use super::likely;
use super::meter::Shown;
use super::rigs::{Known, Rig, values};

/// Of k: from 0.7 to 1.05.
const GRID: usize = 141;

/// Coils of a group of which a meter's readings are stated.
#[derive(Clone, Debug)]
struct Group {
    /// Place in the order of names, ohms as labelled, as stated.
    coils: Vec<(usize, f64, f64)>,
    /// Of each k, and those before it.
    weights: Vec<f64>,
}

/// What other rigs may be drawn.
#[derive(Debug)]
pub struct Draws<'a> {
    rig: &'a Rig,
    leads: [f64; 2],
    stated: Vec<Group>,
}

impl<'a> Draws<'a> {
    /// By what is known of a rig, with what the probes showed when they were touched.
    pub fn of(rig: &'a Rig, touched: Option<f64>) -> Self {
        let leads =
            touched.map_or([0.0, 0.5], |read| [(read - 0.05).max(0.0), (read + 0.05).min(0.5)]);
        let stated = if rig.known == Known::Measured { stated(rig) } else { Vec::new() };
        Self { rig, leads, stated }
    }

    /// Coils in the order of names, and leads.
    pub fn draw(&self, dice: &mut Dice) -> (Vec<f64>, f64) {
        let leads = dice.between(self.leads[0], self.leads[1]);
        let mut coils: Vec<f64> = values(&self.rig.plan, dice).into_values().collect();
        for group in &self.stated {
            let whole = group.weights.last().copied().unwrap_or(0.0);
            let at = dice.unit() * whole;
            let place = group.weights.partition_point(|weight| *weight <= at).min(GRID - 1);
            for (coil, nominal, read) in &group.coils {
                coils[*coil] = as_stated(nominal * k(place), *read, dice);
            }
        }
        (coils, leads)
    }
}

#[allow(clippy::cast_precision_loss, reason = "a grid is short")]
fn k(place: usize) -> f64 {
    0.7 + 0.35 * place as f64 / (GRID - 1) as f64
}

/// A coil near so many ohms that a meter showed as stated: drawn until the meter would.
fn as_stated(near: f64, read: f64, dice: &mut Dice) -> f64 {
    let mut ohms = near;
    for _ in 0..2000 {
        ohms = near * dice.between(0.96, 1.04);
        // No reading is likelier than a third: tenths of ± 1½ counts.
        if dice.chance(3.0 * likely::shown(Shown::Ohms(read), Some(ohms))) {
            break;
        }
    }
    ohms
}

fn stated(rig: &Rig) -> Vec<Group> {
    let names: Vec<&String> = rig.coils.keys().collect();
    let groups = rig.request["drivers"].as_array().into_iter().flatten().enumerate();
    let of = |(group, drivers): (usize, &serde_json::Value)| {
        let own = rig.plan.coils.iter().filter(|coil| coil.group == group + 1);
        let read = drivers["dc_ohms"].as_array().into_iter().flatten();
        let coils = own.zip(read).filter_map(|(coil, read)| {
            let place = names.iter().position(|name| **name == coil.name)?;
            Some((place, coil.ohms, read.as_f64()?))
        });
        let coils: Vec<_> = coils.collect();
        let mut sum = 0.0;
        let weights = (0..GRID).map(|place| {
            let each = coils.iter().map(|(_, ohms, read)| chance(ohms * k(place), *read));
            sum += each.product::<f64>();
            sum
        });
        Group { weights: weights.collect(), coils }
    };
    groups.map(of).collect()
}

/// Of a reading, over a coil's ± 4 %.
fn chance(near: f64, read: f64) -> f64 {
    let at = |place: i32| near * (1.0 + 0.04 * f64::from(place) / 16.0);
    (-16..=16).map(|place| likely::shown(Shown::Ohms(read), Some(at(place)))).sum::<f64>() / 33.0
}
