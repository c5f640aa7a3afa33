//! From a request to its answer: every configuration, judged and ranked.
//!
//! [`Configurations`] is a resumable value: [`Configurations::step`] does a counted
//! amount of work and tells how far it is, so that a page stays alive and a new
//! question ends an old one by dropping it.

mod alike;
mod allotment;
mod arrange;
mod combine;
mod entry;
mod gathering;
pub mod key;
mod list;
mod listed;
mod one;
pub mod outline;
mod pages;
mod power;
mod ranking;
mod shares;
mod tallies;
mod tiers;
mod working;
mod writing;

use crate::judge::{Available, Overheats, Verdict};
use crate::network::Network;
use crate::ohms::Ohms;
pub use crate::outputs::Way;
use crate::problem::Problem;
use crate::rig::Rig;
pub use alike::Grouping;
pub use list::{Order, Row, View, Wanted};
pub use one::one;
pub use pages::Pages;
pub use working::{Configurations, answer};

/// What is asked: a rig and which of its configurations to return.
#[derive(Clone, Debug, PartialEq)]
pub struct Request {
    /// Drivers and amplifier.
    pub rig: Rig,
    /// Only configurations in which each driver's coils are joined at the driver first.
    pub joined_only: bool,
    /// Only configurations in which every coil gets the same fraction of its rating.
    pub even_only: bool,
    /// The most configurations to return.
    pub limit: u32,
}

/// One output of a configuration: what hangs on it and how it stands.
#[derive(Clone, Debug, PartialEq)]
pub struct Output {
    /// How it uses the channels; `None` without an amplifier.
    pub way: Option<Way>,
    /// The channels, counted from 1; empty without an amplifier.
    pub channels: Vec<u32>,
    /// The network on it, in canonical writing.
    pub network: Network,
    /// Its load.
    pub load: Ohms,
    /// Whether the output may drive it.
    pub verdict: Verdict,
    /// What the output can give into it.
    pub available: Option<Available>,
    /// The most power before the first coil passes its rating, in watts.
    pub usable_watts: Option<f64>,
    /// What the rig gives once the level is set, in watts.
    pub target_watts: Option<f64>,
    /// Whether the amplifier can overheat a coil.
    pub overheats: Option<Overheats>,
}

/// One distinct way to join all the coils to the amplifier's outputs.
#[derive(Clone, Debug, PartialEq)]
pub struct Configuration {
    /// 1, 2, 3 … without gaps or ties; 0 outside a list.
    pub rank: u32,
    /// Its outputs.
    pub outputs: Vec<Output>,
    /// The worst verdict of its outputs.
    pub verdict: Verdict,
    /// Whether every coil gets the same fraction of its rating.
    pub even: bool,
    /// Whether each driver's own coils are joined to each other first.
    pub joined_at_driver: bool,
    /// The driver, counted from 0, whose coils hang on two outputs: both must carry the
    /// same signal with gains matched by meter, and neither may play with the other off.
    pub split_driver: Option<u32>,
    /// Each driver's share of the whole power, with the same voltage on every output.
    pub driver_shares: Vec<f64>,
    /// Each coil's share: driver by driver, coil by coil.
    pub coil_shares: Vec<f64>,
    /// Runs of wire without a box.
    pub runs: u32,
    /// Whether some series node has parts made of different groups of drivers.
    pub unlike_in_series: bool,
}

impl Configuration {
    /// The configuration written in ASCII: outputs joined by `;`, each with its channels.
    #[must_use]
    pub fn key(&self) -> String {
        let mut text = String::new();
        for output in &self.outputs {
            key::write(&mut text, &output.channels, &output.network);
        }
        text
    }

    /// What its outputs give together once the level is set, in watts; `None` as soon as
    /// one output's is not known.
    #[must_use]
    pub fn target_watts(&self) -> Option<f64> {
        let mut sum = 0.0;
        for output in &self.outputs {
            sum += output.target_watts?;
        }
        Some(sum)
    }

    /// The worst that can happen to a coil on any output. Where that is not known of one,
    /// `None`, unless it happens at any time on another: nothing is worse.
    #[must_use]
    pub fn overheats(&self) -> Option<Overheats> {
        let worst = self.outputs.iter().filter_map(|output| output.overheats).max();
        let known = self.outputs.iter().all(|output| output.overheats.is_some());
        worst.filter(|worst| known || *worst == Overheats::AnyTime)
    }
}

/// A load that some output of some configuration has.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LoadTally {
    /// The load.
    pub load: Ohms,
    /// How many configurations have an output with it.
    pub configurations: u64,
    /// The best verdict it gets on any output.
    pub verdict: Verdict,
    /// Whether any of them is even.
    pub even: bool,
    /// The greatest that any of them gives as a whole once the level is set, in watts;
    /// `None` where that is known of none.
    pub target: Option<f64>,
}

/// Everything that was asked.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Answer {
    /// How many configurations pass the filters; `None` where there are too many.
    pub total: Option<u64>,
    /// The count where there are too many to list and the counting formula gives it.
    pub total_exact: Option<u128>,
    /// How many there are with both filters off; `None` above the most that are listed.
    pub before_filters: Option<u64>,
    /// Every distinct load of an output, rising.
    pub loads: Vec<LoadTally>,
    /// The configurations in rank order, as many as the limit lets through.
    pub configurations: Vec<Configuration>,
    /// What stood in the way.
    pub problems: Vec<Problem>,
}

/// How far a listing is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Progress {
    /// Shapes dealt with.
    pub done: u64,
    /// Shapes in all; 0 while they are being counted.
    pub of: u64,
}

/// What a step came to.
#[derive(Clone, Debug, PartialEq)]
pub enum Step {
    /// There is more to do.
    More(Progress),
    /// The answer. Further steps give it again.
    Done(Box<Answer>),
}
