//! How unequally the resistance of the wire feeds the drivers: nodal analysis of the runs
//! (Kirchhoff's laws, any textbook of circuits; from memory).

use super::circuit::Circuit;
use super::{Post, Run, Sign};
use crate::answer::{Configuration, Output};
use crate::defect::Defect;
use crate::given::ohms;
use crate::network::Coil;
use crate::rig::{Build, Rig};

/// The drivers that get most and least of what they would without resistance in the wire.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Imbalance {
    /// The power of the least over that of the most, as shares of what is theirs.
    pub ratio: f64,
    /// The same in decibels, not negative.
    pub decibels: f64,
    /// The driver that gets least, counted from 0.
    pub least: u8,
}

/// How much an imbalance matters.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Size {
    /// Nothing but what rounding makes.
    None,
    /// Below a tenth of a decibel: no source, far less than drivers of one kind differ.
    Small,
    /// Worth its figure.
    Marked,
}

impl Imbalance {
    /// How much it matters.
    #[must_use]
    pub fn size(&self) -> Size {
        match self.decibels {
            decibels if decibels < 0.000_1 => Size::None,
            decibels if decibels < 0.1 => Size::Small,
            _ => Size::Marked,
        }
    }
}

/// Copper at 20 °C in Ω·mm²/m (IEC 60028).
const RESISTIVITY: f64 = 1.0 / 58.0;

/// The greatest imbalance on any output; `None` where no output has several drivers.
pub(super) fn imbalance(
    rig: &Rig,
    build: &Build,
    configuration: &Configuration,
    runs: &[Run],
) -> Result<Option<Imbalance>, Defect> {
    let mut worst: Option<Imbalance> = None;
    for (number, output) in (0_u8..).zip(&configuration.outputs) {
        let own: Vec<&Run> = runs.iter().filter(|run| run.output == number).collect();
        let Some(found) = of_output(rig, build, output, &own)? else { continue };
        if worst.is_none_or(|worst| found.decibels > worst.decibels) {
            worst = Some(found);
        }
    }
    Ok(worst)
}

fn of_output(
    rig: &Rig,
    build: &Build,
    output: &Output,
    runs: &[&Run],
) -> Result<Option<Imbalance>, Defect> {
    let ohms = |coil: Coil| ohms(rig, coil);
    let mut circuit = Circuit::default();
    for run in runs {
        circuit.join(run.from, run.to, build.conductor_mm2 / (RESISTIVITY * run.metres));
    }
    let shares = output.network.shares_near(&ohms);
    let mut coils = Vec::new();
    for (coil, share) in shares {
        let [plus, minus] = Post::Coil(coil).ends();
        coils.push((coil, circuit.join(plus, minus, 1.0 / ohms(coil)), share));
    }
    let volts = circuit.volts(|_, terminal| match (terminal.post, terminal.sign) {
        (Post::Amplifier { .. }, Sign::Plus) => Some(1.0),
        (Post::Amplifier { .. }, Sign::Minus) => Some(0.0),
        _ => None,
    })?;
    let at = |node: usize| volts.get(node).copied().ok_or(Defect::Node);
    // Driver by driver: what it gets, and what it would.
    let mut drivers: Vec<(u8, f64, f64)> = Vec::new();
    for (coil, [plus, minus], share) in coils {
        let across = at(plus)? - at(minus)?;
        let gets = across * across / ohms(coil);
        match drivers.iter_mut().find(|(driver, ..)| *driver == coil.driver) {
            Some((_, sum, own)) => (*sum, *own) = (*sum + gets, *own + share),
            None => drivers.push((coil.driver, gets, share)),
        }
    }
    let of_own = |(driver, gets, own): &(u8, f64, f64)| (*driver, gets / own);
    let least = drivers.iter().map(of_own).min_by(|a, b| a.1.total_cmp(&b.1));
    let most = drivers.iter().map(of_own).max_by(|a, b| a.1.total_cmp(&b.1));
    let (Some(least), Some(most)) = (least, most) else { return Ok(None) };
    if drivers.len() < 2 || most.1 <= 0.0 {
        return Ok(None);
    }
    let ratio = least.1 / most.1;
    // Plus nothing, since no imbalance is 0 and not −0 on every machine.
    let decibels = (-10.0 * libm::log10(ratio)).max(0.0) + 0.0;
    Ok(Some(Imbalance { ratio, decibels, least: least.0 }))
}
