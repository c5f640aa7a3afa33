//! How a configuration is wired, in words: terminals, runs, steps, notes and parts.

mod acts;
mod drawing;
mod faults;
mod notes;
mod parts;
mod points;
mod steps;

use super::{MARKS, names, rig as rig_words, sentence, ways};
use crate::english::cautions::{Caution, text as caution};
pub use acts::Said;
use coilwright_solver::answer::{Configuration, Output, Way};
use coilwright_solver::meter::{Foretold, Job};
use coilwright_solver::network::Coil;
use coilwright_solver::rig::{Build, Rig};
use coilwright_solver::wiring::{Plan, Post, Role, Sign, Stage, Terminal};
pub use steps::Step;

/// A plan with what it was made of.
#[derive(Clone, Copy, Debug)]
pub struct Wording<'a> {
    /// Drivers and amplifier.
    pub rig: &'a Rig,
    /// How the box is built.
    pub build: &'a Build,
    /// What is wired.
    pub configuration: &'a Configuration,
    /// How.
    pub plan: &'a Plan,
    /// What the meter should read, act by act; `None` where no reading is taken.
    pub foretold: &'a [Option<Foretold>],
    /// What the driver groups are called, as written; blank or absent where they are not.
    pub names: &'a [String],
}

/// The mark of a terminal as it is printed beside it.
#[must_use]
pub const fn sign(sign: Sign) -> &'static str {
    match sign {
        Sign::Plus => "+",
        Sign::Minus => "−",
    }
}

/// What a conductor is one with.
#[must_use]
pub const fn role(role: Role) -> &'static str {
    match role {
        Role::Positive => "positive",
        Role::Negative => "negative",
        Role::Between => "between parts in series",
    }
}

/// Where the runs of a stage go.
#[must_use]
pub const fn stage(stage: Stage) -> &'static str {
    match stage {
        Stage::Coils => "between coils of a driver",
        Stage::Drivers => "between drivers",
        Stage::Cups => "from cups to drivers",
        Stage::Outside => "between cups, outside the box",
        Stage::Cable => "to the amplifier",
    }
}

impl<'a> Wording<'a> {
    /// The same for whoever asks what is wrong with it.
    #[must_use]
    pub const fn job(&self) -> Job<'a> {
        let Self { rig, build, configuration, plan, .. } = *self;
        Job { rig, build, configuration, plan }
    }
}

impl Wording<'_> {
    /// What the meter should read at an act, counted from 0; `None` where no reading is taken.
    #[must_use]
    pub fn foretold_at(&self, act: usize) -> Option<Foretold> {
        self.foretold.get(act).copied().flatten()
    }

    /// A terminal: `1a +`, `driver 1 +` where a driver has one coil, `cup 2 −`, `cup 2 −, inside`, `channel 2 +`, `splice 1`.
    #[must_use]
    pub fn terminal(&self, terminal: Terminal) -> String {
        let (mut text, which) = self.parted(terminal);
        super::add(&mut text, if which.is_empty() { "" } else { ", " }, which);
        text
    }

    /// A terminal within a sentence, where a comma would break it: `cup 2 − (inside)`.
    fn named(&self, terminal: Terminal) -> String {
        let (text, which) = self.parted(terminal);
        if which.is_empty() { text } else { format!("{text} ({which})") }
    }

    /// A terminal, and which of two of one name.
    fn parted(&self, terminal: Terminal) -> (String, &'static str) {
        let (body, which) = match terminal.post {
            Post::Splice(splice) => return (numbered("splice", splice), ""),
            Post::Coil(coil) => (self.coil(coil), ""),
            Post::CupOutside(cup) => (self.cup(cup), ""),
            Post::CupInside(cup) => (self.cup(cup), "inside"),
            Post::Amplifier { output, pair } => (self.output(output), self.pair(output, pair)),
        };
        (format!("{body} {}", sign(terminal.sign)), which)
    }

    /// A run in a line: `Run 3: 1a + to 2a +, positive, 0.5 m, 15.8 A`, and what it may
    /// carry before the level is set, where that is more: `, up to 22.4 A`. Nothing for a
    /// number, counted from 0, that no run has.
    #[must_use]
    pub fn run(&self, run: usize) -> String {
        let Some(one) = self.plan.runs.get(run) else { return String::new() };
        let mut text = self.run_title(run);
        text.push_str(", ");
        text.push_str(role(one.role));
        text.push_str(&format!(", {} m", MARKS.short(one.metres)));
        let target = one.amps.map(amps);
        if let Some(target) = &target {
            super::add(&mut text, ", ", target);
        }
        // More flows where the level is not set.
        if let Some(most) = one.most_amps.map(amps).filter(|most| Some(most) != target.as_ref()) {
            super::add(&mut text, ", up to ", &most);
        }
        text
    }

    /// Names of all drivers, in their order: `driver 1`.
    #[must_use]
    pub fn driver_labels(&self) -> Vec<String> {
        let drivers = u8::try_from(self.rig.drivers()).unwrap_or(u8::MAX);
        let mut labels = Vec::new();
        for driver in 0..drivers {
            labels.push(rig_words::driver(driver));
        }
        labels
    }

    /// What all drivers are called, in their order; blank where they are not.
    #[must_use]
    pub fn driver_names(&self) -> Vec<String> {
        let drivers = u8::try_from(self.rig.drivers()).unwrap_or(u8::MAX);
        let mut called = Vec::new();
        for driver in 0..drivers {
            called.push(names::plain(self.name(driver)));
        }
        called
    }

    /// A coil beside its terminals: of a driver with one coil the driver, as nobody looks for an
    /// `a` on it.
    fn coil(&self, coil: Coil) -> String {
        match self.rig.group_of(coil.driver) {
            Some(group) if group.coils_on_each() == 1 => rig_words::driver(coil.driver),
            _ => coil.to_string(),
        }
    }

    /// A coil in a phrase: `coil 1b`, or `the coil of driver 1`.
    #[must_use]
    pub fn coil_named(&self, coil: Coil) -> String {
        let alone = self.rig.group_of(coil.driver).is_some_and(|group| group.coils_on_each() == 1);
        format!("{}{}", if alone { "the coil of " } else { "coil " }, self.coil(coil))
    }

    /// What is read between tied pairs of an output: `from + to +`, with the output where
    /// several have such pairs.
    #[must_use]
    pub fn tied_named(&self, output: u8, sign: Sign) -> String {
        let pairs = super::finding::tied(sign);
        match self.plan.pairs.iter().filter(|pairs| **pairs > 1).count() {
            0 | 1 => pairs.to_owned(),
            _ => format!("{}, {pairs}", self.output(output)),
        }
    }

    fn name(&self, driver: u8) -> &str {
        names::of_driver(self.rig, self.names, driver)
    }

    /// A driver with what it is called: `driver 1 (Rear doors)`.
    fn driver(&self, driver: u8) -> String {
        names::with(rig_words::driver(driver), self.name(driver))
    }

    /// Names of all cups, in their order: `cup 1`, or `cup` where there is one.
    #[must_use]
    pub fn cup_labels(&self) -> Vec<String> {
        let mut labels = Vec::new();
        for (cup, _) in (0_u8..).zip(&self.plan.cups) {
            labels.push(self.cup(cup));
        }
        labels
    }

    /// Names of all outputs, in their order: `amplifier`, `channel 1`, `channels 1+2
    /// bridged`.
    #[must_use]
    pub fn output_labels(&self) -> Vec<String> {
        let mut labels = Vec::new();
        for (output, _) in (0_u8..).zip(&self.configuration.outputs) {
            labels.push(self.output(output));
        }
        labels
    }

    /// Everything as plain text to be copied: rig, networks with their loads, notes,
    /// parts, and the numbered steps with their cautions.
    #[must_use]
    pub fn text(&self) -> String {
        let mut text = format!("Rig: {}\n", rig_words::summary(self.rig));
        for (drivers, name) in names::groups(self.rig, self.names) {
            let mut before = drivers;
            before.push_str(": ");
            line(&mut text, &before, &names::within(&name));
        }
        for (output, label) in self.configuration.outputs.iter().zip(self.output_labels()) {
            let load = rig_words::load(output.load);
            text.push_str(&format!("{}: {}, {load}\n", sentence(&label), output.network));
        }
        let bridged = |output: &Output| output.way == Some(Way::Bridged);
        if self.configuration.outputs.iter().any(bridged) {
            line(&mut text, "", ways::SAME_SIGNAL);
        }
        if let Some(driver) = self.configuration.split_driver {
            line(&mut text, "", &ways::split(driver));
        }
        for note in self.notes() {
            line(&mut text, "", &note);
        }
        line(&mut text, "", caution(Caution::LeastLoad));
        line(&mut text, "", caution(Caution::ManualsFirst));
        text.push_str("\nParts\n");
        for part in self.parts() {
            line(&mut text, "- ", &part);
        }
        text.push_str("\nSteps\n");
        for (number, step) in (1..).zip(&self.plan.steps) {
            line(&mut text, &format!("{number}. "), &self.step(number - 1).title);
            for at in step.acts() {
                let act = self.act(at);
                line(&mut text, "   - ", &act.text);
                if let Some(caution) = act.caution {
                    line(&mut text, "     Caution: ", &caution);
                }
            }
        }
        text
    }

    fn run_title(&self, run: usize) -> String {
        let ends = self.plan.runs.get(run).map(|run| [run.from, run.to]);
        let [from, to] = ends.map_or_else(Default::default, |ends| ends.map(|end| self.named(end)));
        format!("Run {}: {from} to {to}", run + 1)
    }

    fn cup(&self, cup: u8) -> String {
        if self.plan.cups.len() == 1 { "cup".to_owned() } else { numbered("cup", cup) }
    }

    fn output(&self, output: u8) -> String {
        let only = "amplifier".to_owned();
        let Some(amplifier) = self.rig.amplifier() else { return only };
        let Some(output) = self.configuration.outputs.get(usize::from(output)) else { return only };
        let each = u32::try_from(amplifier.channels.len()).unwrap_or(1).max(1);
        let first = output.channels.first().copied().unwrap_or(1).max(1) - 1;
        let mut channels = String::new();
        for number in &output.channels {
            super::add(&mut channels, "+", &((number.max(&1) - 1) % each + 1).to_string());
        }
        let channels = match output.way {
            Some(Way::Bridged) => format!("channels {channels} bridged"),
            _ => format!("channel {channels}"),
        };
        match (amplifier.count > 1, each > 1) {
            (false, false) => only,
            (false, true) => channels,
            (true, false) => format!("amplifier {}", first / each + 1),
            (true, true) => format!("amplifier {}, {channels}", first / each + 1),
        }
    }

    /// Which of the tied pairs of an output, where several are in use.
    fn pair(&self, output: u8, pair: u8) -> &'static str {
        let tied = self.plan.pairs.get(usize::from(output)).is_some_and(|pairs| *pairs > 1);
        match (tied, pair) {
            (false, _) => "",
            (true, 0) => "first pair",
            (true, _) => "second pair",
        }
    }

    fn is_bridged(&self, output: u8) -> bool {
        let output = self.configuration.outputs.get(usize::from(output));
        output.is_some_and(|output| output.way == Some(Way::Bridged))
    }
}

fn numbered(what: &str, number: u8) -> String {
    format!("{what} {}", u16::from(number) + 1)
}

fn amps(amps: f64) -> String {
    format!("{} A", MARKS.short(amps))
}

fn line(text: &mut String, before: &str, more: &str) {
    for part in [before, more, "\n"] {
        text.push_str(part);
    }
}

#[cfg(test)]
mod tests;
