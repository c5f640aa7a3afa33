//! What is done, one act after the other.

use super::{MARKS, Wording, amps, role};
use crate::english::cautions::{Caution, text as caution};
use crate::english::{add, meter, rig as rig_words, sentence};
use coilwright_solver::meter::Foretold;
use coilwright_solver::network::Coil;
use coilwright_solver::wiring::{Act, Check, Post, Run, Sign, Stage, Terminal};

/// An act in words.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Said {
    /// What it is, in a phrase: `Run 3: 1a + to 2a +`.
    pub title: String,
    /// What is done, in one to three sentences.
    pub text: String,
    /// What can hurt at it.
    pub caution: Option<String>,
}

/// Before the cables of an amplifier that mains feed.
pub(super) const PLUG_LAST: &str = "The amplifier end of a cable is landed last and lifted first. The mains plug goes in last, after the meter agrees.";
/// The rest of the caution on power, where the act itself says the first of it.
pub(super) const BATTERIES: &str = "Two batteries: both negatives. Hybrid or electric vehicle: 12 V side only, never orange cables.";
const KEEP_CLOSED: &str = "Leave the amplifier's case closed: it stays charged inside.";
const NOT_ON: &str = "Never on a tweeter or through a capacitor.";
const LIFT_FIRST: &str =
    "If a cable is on the amplifier now, its power goes off before you lift it.";
const NO_MOVEMENT: &str = "No movement may be a flat cell or a bad contact, else it is a reversed coil: do not power it before that is known.";

/// Whether pairs that are said to be tied are one output: some are switched, and − is common to
/// all outputs of many amplifiers (common practice, no source).
const TIED_PAIRS: &str = " With nothing on its terminals, and a switch between the pairs set to both: read + to + and − to − of the tied pairs. Both must read as little as the probes held together, or this plan is not for them; − to − alone proves nothing, as − is often common to several outputs.";

const LEADS: &str =
    "0.0 to 0.5 Ω is right. What they read is in every reading that follows: write it down.";

/// What must be open.
const BARE: &str = "Then one probe on bare metal of the basket, or of the cup's plate, and the other on every terminal: open.";

/// Title, text and caution.
type Parts = (String, String, Option<String>);

/// Polarity once more, driver by driver, where several are joined.
const CONES_ALIKE: &str = " Then touch the cell to the same two, + to +: every cone must move the same way as alone, in series less.";

impl Wording<'_> {
    /// An act by its number, counted from 0.
    ///
    /// # Example
    /// ```
    /// # use coilwright_solver::{answer::one, bounds::Field, rig::*, wiring::Plan};
    /// # let two = GroupDraft { count: Some(2), coils: Some(1), ohms: Field::CoilOhms.ohms_text("2").ok(), ..Default::default() };
    /// # let rig = Draft { groups: vec![two], amplifier: None }.check(Vec::new()).unwrap();
    /// use coilwright_words::english::wiring::Wording;
    /// let build = Build::default();
    /// let configuration = one(&rig, "1a+2a").unwrap();
    /// let plan = Plan::of(&rig, &build, &configuration).unwrap();
    /// let told = Wording { rig: &rig, build: &build, configuration: &configuration, plan: &plan, foretold: &[], names: &[] };
    /// assert_eq!(told.act(5).title, "Run 1: driver 1 − to driver 2 +");
    /// assert_eq!(told.act(5).text, "Between parts in series: join driver 1 − to driver 2 + with 0.5 m of wire.");
    /// ```
    #[must_use]
    pub fn act(&self, at: usize) -> Said {
        let Some(act) = self.plan.acts.get(at).copied() else {
            return Said { title: String::new(), text: String::new(), caution: None };
        };
        let of = |run: u16| self.plan.runs.get(usize::from(run));
        let (title, text, caution) = match act {
            Act::Coils { driver } => self.coils(driver, self.foretold_at(at)),
            Act::Polarity { driver } => (
                format!("Polarity of {}", self.driver(driver)),
                self.polarity(driver),
                Some(NOT_ON.to_owned()),
            ),
            Act::Insulate { coil } => (format!("Insulate coil {coil}"), self.insulate(coil), None),
            Act::Join { run } => (
                self.run_title(usize::from(run)),
                of(run).map_or_else(String::new, |run| self.join(run)),
                None,
            ),
            Act::Lay { run } => {
                let first =
                    !self.plan.acts.iter().take(at).any(|act| matches!(act, Act::Lay { .. }));
                let last =
                    if self.build.vehicle { caution(Caution::LandedLast) } else { PLUG_LAST };
                (
                    self.cable_title("Lay", run),
                    of(run).map_or_else(String::new, |run| self.lay(run)),
                    first.then(|| last.to_owned()),
                )
            }
            Act::Leads => (
                "Touch the probes together".to_owned(),
                LEADS.to_owned(),
                Some(LIFT_FIRST.to_owned()),
            ),
            Act::Check(check) => self.check(check, self.foretold_at(at)),
            Act::PowerOff => self.power_off(),
            Act::Land { run } => (
                self.cable_title("Land", run),
                of(run).map_or_else(String::new, |run| self.land(run)),
                Some(caution(Caution::LooseStrands).to_owned()),
            ),
            Act::PowerOn => self.power_on(),
        };
        Said { title, text, caution }
    }

    /// What is done with a cable, and between which terminals: `Lay run 5: 1a + to
    /// amplifier +`.
    fn cable_title(&self, what: &str, number: u16) -> String {
        let mut title = format!("{what} run {}", u32::from(number) + 1);
        if let Some(run) = self.plan.runs.get(usize::from(number)) {
            let [from, to] = [run.from, run.to].map(|terminal| self.named(terminal));
            add(&mut title, ": ", &format!("{to} to {from}"));
        }
        title
    }

    fn coils(&self, driver: u8, foretold: Option<Foretold>) -> Parts {
        let (name, called) = (rig_words::driver(driver), self.driver(driver));
        let coils = self.rig.group_of(driver).map_or(1, |group| group.coils);
        let (title, which) = match coils {
            1 => (format!("Read the coil of {called}"), "its two terminals"),
            _ => (format!("Read each coil of {called}"), "the two terminals of each coil"),
        };
        let text = format!(
            "With nothing joined to {name}: probes to {which}. {} {BARE}",
            meter::should_read(foretold)
        );
        (title, text, None)
    }

    fn polarity(&self, driver: u8) -> String {
        let coils = self.rig.group_of(driver).map_or(1, |group| group.coils);
        let mut names = String::new();
        for coil in 0..u8::try_from(coils).unwrap_or(1) {
            add(&mut names, ", then to ", &self.coil(Coil { driver, coil }));
        }
        let facing_in = self.plan.mounted_reversed.contains(&driver);
        let each = if coils > 1 { " each" } else { "" };
        let moves = match (coils > 1, self.rig.drivers() > 1, facing_in) {
            (_, false, true) => {
                "Seen from outside the box the cone must move in, since the driver faces in on purpose."
            }
            (true, true, true) => {
                "Each must move the cone the same way; seen from outside the box that is the other way than a driver facing out, on purpose."
            }
            (false, true, true) => {
                "Seen from outside the box the cone must move the other way than one facing out: this driver faces in on purpose."
            }
            (true, true, false) => {
                "Each must move the cone the same way, which is that of every driver facing out."
            }
            (true, false, false) => "Each must move the cone the same way.",
            (false, true, false) => {
                "The cone must move the same way as that of every driver facing out."
            }
            (false, false, false) => "The cone must jump, as a rule outwards.",
        };
        let every = if coils > 1 {
            "every coil must swing to the same sign"
        } else {
            "the sign must be that of every other coil"
        };
        let alone = coils == 1 && self.rig.drivers() == 1;
        let mut text = format!(
            "Amplifier cables off: touch a 1.5 V cell to {names}, + to + and − to −, for under a second{each}. {moves}"
        );
        if !alone {
            add(
                &mut text,
                " ",
                &format!(
                    "Without a cell: meter on DC millivolts, push the cone in gently, and {every}."
                ),
            );
        }
        text
    }

    fn insulate(&self, coil: Coil) -> String {
        let [plus, minus] = [Sign::Plus, Sign::Minus]
            .map(|sign| self.named(Terminal { post: Post::Coil(coil), sign }));
        format!(
            "This coil is left out on purpose. Put a cap on each end by itself, {plus} and {minus}, and never short them."
        )
    }

    fn join(&self, run: &Run) -> String {
        let [from, to] = [run.from, run.to].map(|terminal| self.named(terminal));
        let mut text = format!(
            "{}: join {from} to {to} with {} m of wire",
            sentence(role(run.role)),
            MARKS.short(run.metres)
        );
        if let Some(most) = run.most_amps {
            text.push_str(&format!(", which carries up to {}", amps(most)));
        }
        text.push('.');
        self.facing_in(&mut text, run);
        text
    }

    fn lay(&self, run: &Run) -> String {
        let [from, to] = [run.from, run.to].map(|terminal| self.named(terminal));
        let mut text = format!(
            "{}: join one end to {to}. Leave the other end, meant for {from}, open and insulated.",
            sentence(role(run.role))
        );
        self.facing_in(&mut text, run);
        text
    }

    fn land(&self, run: &Run) -> String {
        let [from, to] = [run.from, run.to].map(|terminal| self.named(terminal));
        let mut text = format!(
            "{}: land the open end of this run, which comes from {to}, on {from}.",
            sentence(role(run.role))
        );
        if let Post::Amplifier { output, .. } = run.from.post
            && self.is_bridged(output)
        {
            text.push_str(" The marks on the amplifier say which terminal that is.");
        }
        self.facing_in(&mut text, run);
        text
    }

    /// That a mark which looks wrong is on purpose.
    pub(super) fn facing_in(&self, text: &mut String, run: &Run) {
        let mut told = None;
        for terminal in [run.from, run.to] {
            if let Post::Coil(coil) = terminal.post
                && self.plan.mounted_reversed.contains(&coil.driver)
                && told != Some(coil.driver)
            {
                text.push_str(&format!(
                    " {} faces in, so its + and − are exchanged on purpose.",
                    sentence(&rig_words::driver(coil.driver))
                ));
                told = Some(coil.driver);
            }
        }
    }

    fn check(&self, check: Check, foretold: Option<Foretold>) -> Parts {
        let read = meter::should_read(foretold);
        let [plus, minus] = [check.plus, check.minus].map(|terminal| self.named(terminal));
        let probes = format!("+ probe to {plus}, − probe to {minus}");
        let (title, text, caution) = match (check.stage, check.plus.post) {
            (Stage::Coils, Post::Coil(coil)) => {
                let driver = rig_words::driver(coil.driver);
                (
                    format!("Check {}", self.driver(coil.driver)),
                    format!(
                        "{probes}, with nothing else joined to {driver}. {read} Then touch the cell to the same two, its + to {plus}: the cone must jump at least as clearly as before."
                    ),
                    Some(NO_MOVEMENT.to_owned()),
                )
            }
            (Stage::Cups, Post::CupOutside(cup)) => (
                match self.plan.cups.len() {
                    1 => "Check the cup".to_owned(),
                    _ => format!("Check {}", self.cup(cup)),
                },
                format!("Outside the box: {probes}, with nothing joined there yet. {read}"),
                None,
            ),
            (Stage::Cable, Post::Amplifier { .. }) if check.tied => (
                "Check the cables together".to_owned(),
                format!(
                    "At the amplifier's end, nothing landed: hold the + ends of all {} cables together by hand, and the − ends. + probe to the first, − probe to the second. {read} Then part them.",
                    MARKS.whole(u128::from(check.ends))
                ),
                None,
            ),
            (Stage::Cable, Post::Amplifier { output, pair }) => {
                let where_to = if check.ends > 1 {
                    format!(
                        "hold the ends meant for {plus} together, and those meant for {minus} together. + probe to the first, − probe to the second."
                    )
                } else {
                    format!(
                        "+ probe to the end meant for {plus}, − probe to the end meant for {minus}."
                    )
                };
                let the = if self.output(output) == "amplifier" { "the " } else { "" };
                let mut title = format!("Check the cable of {the}{}", self.output(output));
                let pair = self.pair(output, pair);
                add(&mut title, if pair.is_empty() { "" } else { ", " }, pair);
                (
                    title,
                    format!(
                        "At the amplifier's end, nothing landed: {where_to} {read}{}",
                        if self.rig.drivers() > 1 { CONES_ALIKE } else { "" }
                    ),
                    Some(caution(Caution::CablesOff).to_owned()),
                )
            }
            (stage, _) => {
                let (what, loose) = match stage {
                    Stage::Drivers => ("drivers", "no cup and no cable"),
                    _ => ("cups", "no cable"),
                };
                (
                    format!("Check the {what} from {plus} to {minus}"),
                    format!(
                        "{probes}, with {loose} joined to either. {read}{}",
                        if stage == Stage::Drivers { CONES_ALIKE } else { "" }
                    ),
                    None,
                )
            }
        };
        (title, text, caution)
    }

    fn power_off(&self) -> Parts {
        let (text, beside) = if self.build.vehicle {
            (
                "Fuse out or battery negative off, as the vehicle's manual says. It stays so until the last step.",
                format!("{BATTERIES} {}", caution(Caution::Capacitor)),
            )
        } else {
            (
                "Amplifier off and its mains plug out. It stays out until the last step.",
                KEEP_CLOSED.to_owned(),
            )
        };
        let mut text = text.to_owned();
        if self.plan.joined_at_amplifier {
            text.push_str(TIED_PAIRS);
        }
        ("Power off".to_owned(), text, Some(beside))
    }

    fn power_on(&self) -> Parts {
        let on =
            if self.build.vehicle { "fuse in or battery negative on" } else { "mains plug in" };
        let text = format!(
            "Only when every reading agreed: {on}, then raise the level from nothing. To change anything later, power off first."
        );
        let beside =
            format!("{} {}", caution(Caution::LiveOutputs), caution(Caution::SilentAndWarm));
        ("Power on".to_owned(), text, Some(beside))
    }
}
