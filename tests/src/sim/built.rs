//! What was built, and what lies between two probes held to it.

use super::circuit::{Link, between};
use super::plan::{Plan, Point, driver_of};
use std::collections::BTreeMap;

/// What a wire is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum What {
    /// A run, by its number.
    Run(usize),
    /// A wire too many.
    Extra,
    /// A strand of the wire on the first terminal that touches the second.
    Strand,
}

/// A wire as it was placed.
#[derive(Clone, Debug)]
pub struct Wire {
    /// What it is.
    pub what: What,
    /// Its stage, of a run.
    pub stage: String,
    /// Its ends.
    pub ends: [String; 2],
    /// Along it.
    pub ohms: f64,
    /// Of the joint at each end.
    pub joints: [f64; 2],
    /// The act that places it.
    pub act: usize,
}

/// What was built.
#[derive(Clone, Debug)]
pub struct Built {
    /// Ohms of each coil; nothing of one that is open.
    pub coils: BTreeMap<String, Option<f64>>,
    /// In the order of the plan.
    pub wires: Vec<Wire>,
    /// Of the meter's leads when the probes were touched.
    pub leads: f64,
    /// What the leads have got more since then.
    pub leads_more: f64,
    /// What the meter shows, over what is there.
    pub gain: f64,
}

impl Built {
    /// The plan as it is meant, of these coils.
    pub fn sound(plan: &Plan, coils: &BTreeMap<String, f64>, leads: f64) -> Self {
        let wires = plan.runs.iter().map(|run| Wire {
            what: What::Run(run.number),
            stage: run.stage.clone(),
            ends: [run.from.clone(), run.to.clone()],
            ohms: run.ohms,
            joints: [0.0; 2],
            act: run.act,
        });
        Self {
            coils: coils.iter().map(|(name, ohms)| (name.clone(), Some(*ohms))).collect(),
            wires: wires.collect(),
            leads,
            leads_more: 0.0,
            gain: 1.0,
        }
    }

    /// What a meter without error shows at a point: nothing where it is open.
    pub fn felt(&self, plan: &Plan, point: &Point) -> Option<f64> {
        if point.place == "basket" {
            // No fault here touches a basket.
            return None;
        }
        let network = match &point.probes {
            None => 0.0,
            Some((plus, minus)) => between(&self.links(plan, point)?, plus, minus)?,
        };
        Some((network + self.leads + self.leads_more) * self.gain)
    }

    /// The resistors at a point: what is placed by its act, less what it lifts.
    pub(super) fn links(&self, plan: &Plan, point: &Point) -> Option<Vec<Link>> {
        let (plus, minus) = point.probes.as_ref()?;
        let mut wires: Vec<Wire> =
            self.wires.iter().filter(|wire| wire.act <= point.act).cloned().collect();
        let mut links = Vec::new();
        match point.place.as_str() {
            // Everything is lifted from the first terminal: strands with the wire they are of.
            "lifted" => wires.retain(|wire| match wire.what {
                What::Strand => wire.ends[0] != *plus,
                _ => !wire.ends.contains(plus),
            }),
            "apart" => {
                let driver = driver_of(plus);
                wires.retain(|wire| wire.ends.iter().all(|end| driver_of(end) == driver));
            }
            "open" | "joined" => {
                let run: usize = point.name.rsplit('.').next()?.parse().ok()?;
                let stage = &plan.run(run)?.stage;
                let mut far = 0;
                for wire in &mut wires {
                    let near = wire.ends[0] == *plus || wire.ends[0] == *minus;
                    if matches!(wire.what, What::Run(_)) && wire.stage == *stage && near {
                        far += 1;
                        wire.ends[1] = format!("far{far}");
                        wire.joints[1] = 0.0;
                    }
                }
                // A wire that is missing has no far end to hold.
                if point.place == "joined" && far == 2 {
                    links.push(Link::new("far1", "far2", 0.0));
                }
            }
            "step" if point.ends > 1 => links.extend(held(plan, plus, minus)),
            _ => {}
        }
        links.extend(wires.iter().map(|wire| {
            let ohms = wire.ohms + wire.joints[0] + wire.joints[1];
            Link::new(&wire.ends[0], &wire.ends[1], ohms)
        }));
        for (name, ohms) in &self.coils {
            if let Some(ohms) = ohms {
                links.push(Link::new(&format!("{name}+"), &format!("{name}-"), *ohms));
            }
        }
        Some(links)
    }
}

/// The + ends of all cables of an output held together by hand, and the − ends.
fn held(plan: &Plan, plus: &str, minus: &str) -> Vec<Link> {
    let mut links = Vec::new();
    for probe in [plus, minus] {
        let Some((output, _)) = probe.split_once('.') else { continue };
        let Some(sign) = probe.chars().last() else { continue };
        for end in plan.runs.iter().flat_map(|run| [&run.from, &run.to]) {
            let same = end.split_once('.').is_some_and(|(other, _)| other == output);
            if same && end.ends_with(sign) && end != probe {
                links.push(Link::new(probe, end, 0.0));
            }
        }
    }
    links
}
