//! What becomes of the others when a coil opens or shorts.
//!
//! The amplifier goes on giving the voltage it gave the healthy rig, sqrt(target × load)
//! of each output. Where no target is known any voltage will do, and what a coil gets is
//! told against what it got before.
//!
//! What this room does not do: it knows no protection circuit. Of an output that is a
//! dead short it says that nothing plays, not what the amplifier does about it.

mod broken;

use crate::answer::{Configuration, Output};
use crate::judge::{Figures, Verdict};
use crate::network::Coil;
use crate::ohms::Ohms;
use crate::outputs::Outputs;
use crate::rig::Rig;
use broken::Broken;

/// How a coil fails.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Fault {
    /// No current passes it.
    Open,
    /// It passes any current and takes no power.
    Shorted,
}

/// What an output carries afterwards.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum After {
    /// No current passes any more.
    Open,
    /// A dead short.
    Short,
    /// This load.
    Load(Ohms),
    /// A load that no exact fraction holds.
    NoFraction,
}

/// The surviving coil that is worst off.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Hot {
    /// The coil.
    pub coil: Coil,
    /// What it gets, in multiples of its rating or of what it got before.
    pub times: f64,
    /// Multiples of its rating; else of what it got in the healthy rig.
    pub of_rating: bool,
    /// What it gets in watts, where the target power of its output is known.
    pub watts: Option<f64>,
}

impl Hot {
    /// Whether it is known or feared to get more than it takes, or than it got.
    #[must_use]
    pub fn gets_more(&self) -> bool {
        self.overloads() != Some(false) && self.times >= 1.0
    }

    /// Whether it gets more than its rating, beyond rounding; `None` where that is not
    /// known.
    #[must_use]
    pub fn overloads(&self) -> Option<bool> {
        self.of_rating.then_some(self.times > 1.0 + ROUNDING)
    }
}

/// What one fault comes to on the output of its coil. Other outputs do not notice.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Failed {
    /// The coil that failed.
    pub coil: Coil,
    /// Its output, as a place in the configuration's list.
    pub output: usize,
    /// What that output carries afterwards.
    pub after: After,
    /// How the load afterwards stands with the output; a dead short is too low for any.
    /// `None` where nothing is loaded any more, or where no exact fraction can be compared.
    pub verdict: Option<Verdict>,
    /// The surviving coil of the output that gets the most; `None` if none gets any.
    pub hottest: Option<Hot>,
    /// Surviving coils of the output without current.
    pub silent: u32,
}

/// The worst that one coil can do to a configuration.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Worst {
    /// The coil that is worst to lose to an open: the one that overloads another the
    /// most; then, where ratings or target are not known, the one that raises another's
    /// power the most; then the one that silences the most. Of equals the first.
    pub open: Failed,
    /// Whether any coil that opens takes another above its rating, beyond rounding;
    /// `None` where some power is not known and none known does.
    pub overloads: Option<bool>,
    /// Whether any coil that opens gives another more power than it got.
    pub raises: bool,
    /// The coil that is worst to lose to a short: the worst verdict, then the lowest
    /// load. Of equals the first.
    pub short: Failed,
    /// Whether a short takes any output below what it may drive that was not so before.
    pub short_too_low: bool,
}

/// Fractions of a power closer than this are one.
const ROUNDING: f64 = 1e-9;

/// What every coil of a configuration comes to with a fault, output by output, in the
/// order of writing.
///
/// # Example
/// ```
/// # use coilwright_solver::{answer::*, bounds::Field, rig::{Draft, GroupDraft}};
/// use coilwright_solver::failure::{After, Fault, each};
/// # let two = GroupDraft { count: Some(2), coils: Some(1), ohms: Field::CoilOhms.ohms_text("4").ok(), ..Default::default() };
/// # let rig = Draft { groups: vec![two], amplifier: None }.check(Vec::new()).unwrap();
/// let request = Request { rig: rig.clone(), joined_only: true, even_only: true, limit: 1 };
/// let series = &answer(request).configurations[0];
/// assert_eq!(series.key(), "1a+2a");
/// let opened = each(&rig, series, Fault::Open);
/// assert_eq!((opened[0].after, opened[0].silent), (After::Open, 1));
/// // Alone at the same voltage, the other gets four times what it got.
/// let shorted = each(&rig, series, Fault::Shorted);
/// assert_eq!(shorted[0].hottest.map(|hot| hot.times), Some(4.0));
/// ```
#[must_use]
pub fn each(rig: &Rig, one: &Configuration, fault: Fault) -> Vec<Failed> {
    let outputs = Outputs::of(rig.amplifier());
    let mut all = Vec::new();
    for (at, output) in one.outputs.iter().enumerate() {
        let figures = figures(&outputs, output);
        let mut broken = Broken::new(rig, output);
        for coil in output.network.coils() {
            let mut failed = broken.failed(at, coil, fault);
            exactly(&mut failed, &broken, fault, figures);
            all.push(failed);
        }
    }
    all
}

/// The worst that one coil can do to a configuration; `None` if it has no coil.
///
/// Made for lists: exact loads only for the few coils that may be the worst.
#[must_use]
pub fn worst(rig: &Rig, one: &Configuration) -> Option<Worst> {
    let outputs = Outputs::of(rig.amplifier());
    let (mut open, mut short): (Option<Failed>, Option<Failed>) = (None, None);
    let (mut overloads, mut unknown, mut raises, mut too_low) = (false, false, false, false);
    for (at, output) in one.outputs.iter().enumerate() {
        let figures = figures(&outputs, output);
        let mut broken = Broken::new(rig, output);
        let (mut opened, mut lowest): (Option<Failed>, Option<(f64, Failed)>) = (None, None);
        for coil in output.network.coils() {
            let failed = broken.failed(at, coil, Fault::Open);
            match failed.hottest.as_ref().map(Hot::overloads) {
                Some(Some(more)) => overloads |= more,
                Some(None) => unknown = true,
                None => {}
            }
            raises |= broken.raised;
            if opened.is_none_or(|known| worse(&failed, &known)) {
                opened = Some(failed);
            }
            let failed = broken.failed(at, coil, Fault::Shorted);
            let load = broken.load();
            if lowest.is_none_or(|(known, _)| load < known * (1.0 - ROUNDING)) {
                lowest = Some((load, failed));
            }
        }
        if let Some(mut failed) = opened
            && open.is_none_or(|known| worse(&failed, &known))
        {
            exactly(&mut failed, &broken, Fault::Open, figures);
            open = Some(failed);
        }
        if let Some((_, mut failed)) = lowest {
            exactly(&mut failed, &broken, Fault::Shorted, figures);
            too_low |= failed.verdict.is_some_and(Verdict::is_low) && !output.verdict.is_low();
            if short.is_none_or(|known| lower(&failed, &known)) {
                short = Some(failed);
            }
        }
    }
    let (open, short) = (open?, short?);
    Some(Worst {
        open,
        overloads: if overloads { Some(true) } else { (!unknown).then_some(false) },
        raises,
        short,
        short_too_low: too_low,
    })
}

fn figures<'a>(outputs: &'a Outputs, output: &Output) -> Option<&'a Figures> {
    outputs.place(&output.channels).and_then(|place| outputs.figures(place.kind))
}

/// Fills in what only exact fractions tell.
fn exactly(failed: &mut Failed, broken: &Broken<'_>, fault: Fault, figures: Option<&Figures>) {
    failed.after = broken.exact(failed.coil, fault);
    failed.verdict = match failed.after {
        After::Open | After::NoFraction => None,
        After::Short => Some(Verdict::TooLow),
        After::Load(load) => {
            Some(figures.map_or(Verdict::NotStated, |figures| figures.verdict(load)))
        }
    };
}

/// Whether losing one coil is worse than losing another, beyond rounding.
fn worse(one: &Failed, other: &Failed) -> bool {
    let (a, b) = (heat(one), heat(other));
    let more = |a: f64, b: f64| a > b * (1.0 + ROUNDING);
    if a.0 != b.0 {
        return a.0 > b.0;
    }
    if a.0 > 0 {
        return more(a.1, b.1);
    }
    one.silent > other.silent || (one.silent == other.silent && more(a.1, b.1))
}

/// Above its rating, above what it got, or neither; and by how much.
fn heat(failed: &Failed) -> (u8, f64) {
    let Some(hot) = failed.hottest else { return (0, 0.0) };
    match hot.overloads() {
        Some(true) => (2, hot.times),
        None if hot.times > 1.0 + ROUNDING => (1, hot.times),
        _ => (0, hot.times),
    }
}

/// Whether one short leaves a worse verdict, or with the same one a lower load.
fn lower(one: &Failed, other: &Failed) -> bool {
    if one.verdict != other.verdict {
        return one.verdict > other.verdict;
    }
    match (one.after, other.after) {
        (After::Short, known) => known != After::Short,
        (After::Load(a), After::Load(b)) => a < b,
        _ => false,
    }
}
