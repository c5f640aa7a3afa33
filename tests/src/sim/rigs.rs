//! Rigs of a seed: drivers, boxes and amplifiers as people have them, one of the module's own
//! configurations, and coils as they are.

use super::ask;
use super::dice::Dice;
use super::meter::{Shown, show};
use super::plan::Plan;
use serde_json::{Value, json};
use std::collections::BTreeMap;

/// What is known of the coils.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Known {
    /// What is printed on them.
    Nominal,
    /// `dc_ohms`, as the drivers were when they were sound.
    Measured,
    /// Each is read alone at its act.
    Read,
}

impl Known {
    /// All of them.
    pub const ALL: [Self; 3] = [Self::Nominal, Self::Measured, Self::Read];

    /// As printed.
    pub fn name(self) -> &'static str {
        match self {
            Self::Nominal => "nominal",
            Self::Measured => "measured",
            Self::Read => "read",
        }
    }
}

/// A rig, as it is.
#[derive(Clone, Debug)]
pub struct Rig {
    /// What the module is asked.
    pub request: Value,
    /// The configuration.
    pub key: String,
    /// Its plan.
    pub plan: Plan,
    /// DC ohms of every coil.
    pub coils: BTreeMap<String, f64>,
    /// Of the meter's leads.
    pub leads: f64,
    /// What is known of the coils.
    pub known: Known,
    /// Whether the probes are touched first.
    pub leads_read: bool,
    /// Of its noise.
    pub seed: u64,
}

/// The rig of a seed.
///
/// # Panics
/// If no rig can be made in a thousand attempts.
pub fn rig(seed: u64, known: Known) -> Rig {
    let mut dice = Dice::of(seed, "rig");
    for _ in 0..1000 {
        if let Some(rig) = attempt(seed, known, &mut dice) {
            return rig;
        }
    }
    panic!("no rig for {seed}");
}

fn attempt(seed: u64, known: Known, dice: &mut Dice) -> Option<Rig> {
    let mut request = drivers(dice)?;
    around(&mut request, dice)?;
    // One in four lists what is uneven or joined across drivers as well.
    if dice.chance(0.25) {
        request["even_only"] = json!(false);
        request["joined_only"] = json!(dice.chance(0.5));
    }
    request["limit"] = json!(300);
    let listed = ask::configurations(&request);
    let keys: Vec<String> = listed["configurations"].as_array()?.iter().filter_map(key).collect();
    let key = dice.pick(&keys)?;
    let bare = ask::plan(&request, &key)?;
    let coils = values(&bare, dice);
    if known == Known::Measured {
        measured(&mut request, &bare, &coils, dice);
    }
    Some(Rig {
        plan: ask::plan(&request, &key)?,
        leads: dice.between(0.0, 0.5),
        leads_read: dice.chance(0.7),
        request,
        key,
        coils,
        known,
        seed,
    })
}

/// A key of a load that an amplifier can be had for.
fn key(row: &Value) -> Option<String> {
    let ohms = row["outputs"][0]["ohms"].as_f64()?;
    ((0.4..=40.0).contains(&ohms)).then(|| row["key"].as_str().map(str::to_owned))?
}

/// One to four drivers of one kind or two, at most eight coils.
fn drivers(dice: &mut Dice) -> Option<Value> {
    let kinds = if dice.chance(0.25) { 2 } else { 1 };
    let mut groups = Vec::new();
    let (mut drivers, mut coils) = (0, 0);
    for _ in 0..kinds {
        let count = dice.pick(&[1, 2, 2, 3, 4])?;
        let each = dice.pick(&[1, 1, 2, 2, 2, 4])?;
        let ohms = dice.pick(&[1, 2, 4, 8])?;
        drivers += count;
        coils += count * each;
        groups.push(json!({"count": count, "coils": each, "ohms": ohms}));
    }
    (drivers <= 4 && (2..=8).contains(&coils)).then(|| json!({"drivers": groups}))
}

/// No box, one cup, a cup for each driver with tied pairs, or a cup for each group.
fn around(request: &mut Value, dice: &mut Dice) -> Option<()> {
    match dice.pick(&["none", "one", "driver", "group"])? {
        "none" => {}
        "driver" => {
            request["box"] = json!({"cups": "driver", "joined_at": "amplifier"});
            let channel = json!({"least_ohms": 0.5, "terminal_pairs": 2});
            request["amplifier"] = json!({"channels": [channel]});
        }
        cups => request["box"] = json!({"cups": cups}),
    }
    Some(())
}

/// Nominal × k × (1 ± 0.04), k one value for each group.
pub(super) fn values(plan: &Plan, dice: &mut Dice) -> BTreeMap<String, f64> {
    let groups = plan.coils.iter().map(|coil| coil.group).max().unwrap_or(0);
    let k: Vec<f64> = (0..groups).map(|_| dice.between(0.7, 1.05)).collect();
    let of = |coil: &super::plan::Coil, dice: &mut Dice| {
        coil.ohms * k[coil.group - 1] * (1.0 + dice.between(-0.04, 0.04))
    };
    plan.coils.iter().map(|coil| (coil.name.clone(), of(coil, dice))).collect()
}

/// States what a meter showed of every coil, the leads taken off.
fn measured(request: &mut Value, plan: &Plan, coils: &BTreeMap<String, f64>, dice: &mut Dice) {
    let Some(groups) = request["drivers"].as_array_mut() else { return };
    for (group, drivers) in groups.iter_mut().enumerate() {
        let own = plan.coils.iter().filter(|coil| coil.group == group + 1);
        let read: Vec<f64> = own
            .map(|coil| match show(coils.get(&coil.name).copied(), dice) {
                Shown::Ohms(ohms) => ohms.max(0.1),
                Shown::Open => coil.ohms,
            })
            .collect();
        drivers["dc_ohms"] = json!(read);
    }
}
