//! A step of the work as whoever has it in hand reads it: a heading, a few short lines, what
//! can hurt. What each of its acts says at length stands behind that.

use super::{MARKS, Said, Wording};
use crate::english::{add, listed, meter, rig as rig_words, sentence};
use coilwright_solver::meter::Foretold;
use coilwright_solver::wiring::{Act, Check, Post, Role, Site, Stage};

/// A step in words.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Step {
    /// What it is, in a phrase: `Runs 1 and 2: driver 1 to driver 2`.
    pub title: String,
    /// The runs that it places, a line each.
    pub runs: Vec<String>,
    /// What else is done, a short sentence each.
    pub lines: Vec<String>,
    /// What can hurt at it.
    pub caution: Option<String>,
    /// How it is done: what its acts say, where that is more than the lines.
    pub how: Vec<String>,
}

impl Step {
    /// Its lines as one text.
    #[must_use]
    pub fn text(&self) -> String {
        [self.runs.as_slice(), &self.lines].concat().join(" ")
    }
}

const LEADS: &str = "0.0 to 0.5 Ω is right; it is in every reading that follows.";
/// Before anything is landed, where pairs are said to be tied.
const FUSE_OUT: &str = "Fuse out or battery negative off, until the last step.";
const PLUG_OUT: &str = "Amplifier off and its mains plug out, until the last step.";
const TIED: &str = "With nothing on its terminals: + to + and − to − of its tied pairs must read as little as the probes together.";
/// Of a cable that is laid.
const OPEN_ENDS: &str = "Their other ends stay open, insulated.";
/// Polarity, once drivers are joined.
const CONES: &str = "With the cell every cone moves as it did alone.";

impl Wording<'_> {
    /// Where the hands are: `Driver 1`, `Drivers together`.
    #[must_use]
    pub fn site(&self, site: Site) -> String {
        match site {
            Site::Driver(driver) => sentence(&self.driver(driver)),
            Site::Together => "Drivers together".to_owned(),
            Site::Box => "Box".to_owned(),
            Site::Cable => "Cable".to_owned(),
            Site::Amplifier => "Amplifier".to_owned(),
        }
    }

    /// A step by its number, counted from 0; nothing where there is none.
    ///
    /// # Example
    /// ```
    /// # use coilwright_solver::{answer::one, bounds::Field, rig::*, wiring::Plan};
    /// # let two = GroupDraft { count: Some(2), coils: Some(1), ohms: Field::CoilOhms.ohms_text("2").ok(), ..Default::default() };
    /// # let rig = Draft { groups: vec![two], amplifier: None }.check(Vec::new()).unwrap();
    /// use coilwright_words::english::wiring::Wording;
    /// let build = Build::default();
    /// let configuration = one(&rig, "1a||2a").unwrap();
    /// let plan = Plan::of(&rig, &build, &configuration).unwrap();
    /// let told = Wording { rig: &rig, build: &build, configuration: &configuration, plan: &plan, foretold: &[], names: &[] };
    /// let step = told.step(3);
    /// assert_eq!(step.title, "Runs 1 and 2: driver 1 to driver 2");
    /// assert_eq!(step.runs, ["1: driver 1 + to driver 2 +, 0.5 m.", "2: driver 1 − to driver 2 −, 0.5 m."]);
    /// ```
    #[must_use]
    pub fn step(&self, step: usize) -> Step {
        let Some(of) = self.plan.steps.get(step) else { return Step::default() };
        let acts: Vec<(usize, Act)> =
            of.acts().filter_map(|at| Some((at, *self.plan.acts.get(at)?))).collect();
        let Some((at, first)) = acts.first().copied() else { return Step::default() };
        let said: Vec<Said> = acts.iter().map(|(at, _)| self.act(*at)).collect();
        let (mut runs, mut lines) = (Vec::new(), Vec::new());
        let mut how: Vec<String> = said.iter().map(|said| said.text.clone()).collect();
        let mut title = said.first().map_or_else(String::new, |said| said.title.clone());
        match first {
            Act::Leads => {
                lines.push(LEADS.to_owned());
                how.clear();
            }
            Act::Coils { driver } => {
                title = sentence(&self.driver(driver));
                title.push_str(" by itself");
                self.alone(driver, at, &mut lines);
                for (_, act) in &acts {
                    if let Act::Insulate { coil } = act {
                        lines.push(format!(
                            "Left out on purpose: a cap on each end of {}.",
                            self.coil_named(*coil)
                        ));
                    }
                }
            }
            Act::Join { .. } | Act::Lay { .. } | Act::Land { .. } => {
                title = self.runs_title(&acts);
                if let Act::Lay { .. } = first {
                    lines.push(OPEN_ENDS.to_owned());
                }
                self.placed(&acts, &mut runs, &mut lines);
            }
            Act::Check(check) => {
                lines.push(self.reads("Read ", check, at));
            }
            Act::PowerOff if self.plan.joined_at_amplifier => {
                lines.push(if self.build.vehicle { FUSE_OUT } else { PLUG_OUT }.to_owned());
                lines.push(TIED.to_owned());
            }
            // What these say is short.
            Act::Polarity { .. } | Act::Insulate { .. } | Act::PowerOff | Act::PowerOn => {
                lines.append(&mut how);
            }
        }
        let mut cautions: Vec<String> = Vec::new();
        for caution in said.into_iter().filter_map(|said| said.caution) {
            if !cautions.contains(&caution) {
                cautions.push(caution);
            }
        }
        let caution = Some(cautions.join(" ")).filter(|text| !text.is_empty());
        Step { title, runs, lines, caution, how }
    }

    /// A step on paper, counted from 0: its heading, whether a run goes on in its line, and its
    /// runs or, where it places none, what else is done. Where it is brief, the heading says
    /// which runs, and the drawing the rest.
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
    /// let (title, on, lines) = told.step_on_paper(3, false);
    /// assert_eq!((title.as_str(), on), ("4. Run ", true));
    /// assert_eq!(lines, ["1: driver 1 − to driver 2 +, 0.5 m, in series."]);
    /// assert_eq!(told.step_on_paper(3, true).0, "4. Run 1: driver 1 to driver 2");
    /// ```
    #[must_use]
    pub fn step_on_paper(&self, step: usize, brief: bool) -> (String, bool, Vec<String>) {
        let Step { title: of, runs, lines, .. } = self.step(step);
        let mut title = MARKS.whole(u128::try_from(step).unwrap_or(0) + 1);
        title.push_str(". ");
        let first = self.plan.steps.get(step).map(|of| usize::from(of.first));
        let join = matches!(first.and_then(|at| self.plan.acts.get(at)), Some(Act::Join { .. }));
        let alone = join && runs.len() == 1 && !brief;
        title.push_str(if alone { "Run " } else { &of });
        let told = match (runs.is_empty(), brief) {
            (true, _) => lines,
            (false, true) => Vec::new(),
            (false, false) => runs,
        };
        (title, alone, told)
    }

    /// What a driver by itself is asked.
    fn alone(&self, driver: u8, at: usize, lines: &mut Vec<String>) {
        let coils = self.rig.group_of(driver).map_or(1, |group| group.coils);
        let mut text = String::from(if coils > 1 {
            "With nothing joined, each coil"
        } else {
            "With nothing joined, its coil"
        });
        match self.foretold_at(at) {
            Some(foretold) => add(&mut text, " reads ", &range(foretold)),
            None => text.push_str(" is read"),
        }
        text.push_str(", and to the basket it is open.");
        lines.push(text);
        let facing_in = self.plan.mounted_reversed.contains(&driver);
        let alone = coils == 1 && self.rig.drivers() == 1;
        lines.push(
            match (facing_in, alone) {
                (true, _) => "A 1.5 V cell, + to +: seen from outside its cone moves the other way, on purpose.",
                (false, true) => "A 1.5 V cell, + to +: its cone jumps, as a rule outwards.",
                (false, false) => "A 1.5 V cell, + to +: its cone moves as that of every driver does.",
            }
            .to_owned(),
        );
    }

    /// `Runs 1 and 2: driver 1 to driver 2`; of one run its ends.
    fn runs_title(&self, acts: &[(usize, Act)]) -> String {
        let mut numbers = Vec::new();
        let mut ends = None;
        for (_, act) in acts {
            if let Some(run) = act.run() {
                numbers.push((run + 1).to_string());
                ends = ends.or(self.plan.runs.get(run).map(|run| (run.from.post, run.to.post)));
            }
        }
        let what = match acts.first() {
            Some((_, Act::Lay { .. })) => "Lay run",
            Some((_, Act::Land { .. })) => "Land run",
            _ => "Run",
        };
        let towards = !matches!(acts.first(), Some((_, Act::Join { .. })));
        let mut title = String::from(what);
        title.push_str(if numbers.len() > 1 { "s " } else { " " });
        title.push_str(&listed(&numbers, "and"));
        if let Some((from, to)) = ends {
            let (from, to) = if towards { (to, from) } else { (from, to) };
            add(&mut title, ": ", &self.place(from, to));
            add(&mut title, " to ", &self.place(to, from));
        }
        title
    }

    /// A place without its terminals: `driver 1`, `cup 2`, `amplifier`; a coil beside another
    /// of its driver.
    fn place(&self, post: Post, beside: Post) -> String {
        match post {
            Post::Coil(coil) if beside.driver() == Some(coil.driver) => self.coil(coil),
            Post::Coil(coil) => rig_words::driver(coil.driver),
            Post::CupInside(cup) | Post::CupOutside(cup) => self.cup(cup),
            Post::Splice(splice) => super::numbered("splice", splice),
            Post::Amplifier { output, pair } => {
                let mut text = self.output(output);
                let pair = self.pair(output, pair);
                add(&mut text, if pair.is_empty() { "" } else { ", " }, pair);
                text
            }
        }
    }

    /// Runs line by line, and what is read once they are placed.
    fn placed(&self, acts: &[(usize, Act)], runs: &mut Vec<String>, lines: &mut Vec<String>) {
        for (at, act) in acts {
            let run = act.run().and_then(|number| Some((number, self.plan.runs.get(number)?)));
            let Some((number, run)) = run else {
                if let Act::Check(check) = act {
                    lines.push(self.reads("Then read ", *check, *at));
                }
                continue;
            };
            let [from, to] = [run.from, run.to].map(|terminal| self.named(terminal));
            let mut text = format!("{}: ", number + 1);
            match act {
                Act::Lay { .. } => {
                    text.push_str(&format!("on {to}, meant for {from}"));
                }
                Act::Land { .. } => text.push_str(&format!("the end from {to} on {from}")),
                _ => text.push_str(&format!("{from} to {to}, {} m", MARKS.short(run.metres))),
            }
            if run.role == Role::Between {
                text.push_str(", in series");
            }
            text.push('.');
            self.facing_in(&mut text, run);
            runs.push(text);
        }
    }

    /// Where the probes go, and what is right.
    fn reads(&self, first: &str, check: Check, at: usize) -> String {
        let [plus, minus] = [check.plus, check.minus];
        let mut text = match (plus.post, check.tied) {
            (Post::Amplifier { .. }, true) => "all + ends held together to all − ends".to_owned(),
            (Post::Amplifier { output, .. }, false) => {
                let mut text = String::from("the open ends");
                if self.plan.pairs.len() > 1 {
                    add(&mut text, " for ", &self.output(output));
                }
                text.push_str(", + to −");
                text
            }
            _ => {
                let mut text = self.named(plus);
                add(&mut text, " to ", &self.named(minus));
                text
            }
        };
        text.insert_str(0, first);
        if let Some(foretold) = self.foretold_at(at) {
            add(&mut text, ": ", &range(foretold));
            text.push_str(" is right");
        }
        text.push('.');
        let stages = matches!(check.stage, Stage::Drivers | Stage::Cable) && !check.tied;
        if stages && self.rig.drivers() > 1 {
            add(&mut text, " ", CONES);
        }
        text
    }
}

/// `1.4 to 2.6 Ω`
fn range(foretold: Foretold) -> String {
    let mut text = meter::range(&foretold);
    text.push_str(" Ω");
    text
}
