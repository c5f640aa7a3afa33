//! How a reading is taken at a point, in words.

use super::{MARKS, Wording};
use crate::english::add;
use crate::english::rig as rig_words;
use coilwright_solver::meter::{Place, Point};
use coilwright_solver::network::Coil;
use coilwright_solver::wiring::Act;

/// After something was lifted for a reading.
const PUT_BACK: &str = " Put it back afterwards.";
/// Nothing is changed for a reading.
const AS_IT_IS: &str = " Leave everything joined as it is.";

impl Wording<'_> {
    /// A point in a phrase, such as `Across coil 1a, in place`, and how its reading is taken.
    ///
    /// # Example
    /// ```
    /// # use coilwright_solver::{answer::one, bounds::Field, rig::*, wiring::Plan};
    /// # let two = GroupDraft { count: Some(2), coils: Some(1), ohms: Field::CoilOhms.ohms_text("2").ok(), ..Default::default() };
    /// # let rig = Draft { groups: vec![two], amplifier: None }.check(Vec::new()).unwrap();
    /// use coilwright_solver::meter::Point;
    /// use coilwright_words::english::wiring::Wording;
    /// # let build = Build::default();
    /// # let configuration = one(&rig, "1a+2a").unwrap();
    /// # let plan = Plan::of(&rig, &build, &configuration).unwrap();
    /// let told = Wording { rig: &rig, build: &build, configuration: &configuration, plan: &plan, foretold: &[], names: &[] };
    /// let (title, how) = told.point(&Point::named("7.across.2a").unwrap());
    /// assert_eq!(title, "Across the coil of driver 2, in place");
    /// assert_eq!(how, "Probes to driver 2 + and driver 2 −. Leave everything joined as it is.");
    /// ```
    #[must_use]
    pub fn point(&self, point: &Point) -> (String, String) {
        let mut how = String::new();
        if let Some([plus, minus]) = point.probes(self.plan) {
            how.push_str("Probes to ");
            add(&mut how, "", &self.named(plus));
            add(&mut how, " and ", &self.named(minus));
            how.push('.');
        }
        let mut title = String::new();
        match point.place {
            Place::Step => {
                let act = self.act(usize::from(point.act));
                return (act.title, act.text);
            }
            Place::Coil(of) => {
                title = crate::english::sentence(&self.coil_named(of));
                title.push_str(" alone, before it is joined");
            }
            Place::Lifted(of) => {
                title = crate::english::sentence(&self.coil_named(of));
                title.push_str(" alone, lifted");
                how.insert_str(0, &self.lift(&[of]));
                how.push_str(PUT_BACK);
            }
            Place::Basket(driver) => {
                title = crate::english::sentence(&rig_words::driver(driver));
                title.push_str(" to its basket");
                how.push_str("One probe on bare metal of the basket, or of the cup's plate, the other on each terminal in turn: it must be open.");
            }
            Place::Tied(output, sign) => {
                title = crate::english::sentence(&self.output(output));
                title.push_str(": tied pairs, ");
                title.push_str(crate::english::finding::tied(sign));
                how.push_str(" Power off, nothing on its terminals: no more than the leads.");
            }
            Place::Across(into, out) if into == out => {
                title.push_str("Across ");
                title.push_str(&self.coil_named(into));
                title.push_str(", in place");
                how.push_str(AS_IT_IS);
            }
            Place::Across(..) => {
                title.push_str("In place, across ");
                if let Some([plus, minus]) = point.probes(self.plan) {
                    add(&mut title, "", &self.named(plus));
                    add(&mut title, " and ", &self.named(minus));
                }
                how.push_str(AS_IT_IS);
            }
            Place::Along(run) => {
                title.push_str("Along ");
                title.push_str(&self.run_named(run));
                how.push_str(
                    " These are the two ends of one wire. Leave everything joined as it is.",
                );
            }
            Place::CableOpen(run) | Place::CableJoined(run) => {
                title.push_str("The cable of ");
                title.push_str(&self.run_named(run));
                title.push_str(", far ends lifted");
                let joined = matches!(point.place, Place::CableJoined(_));
                how.insert_str(
                    0,
                    if joined {
                        "Lift both far ends of the cable and hold them together. "
                    } else {
                        "Lift both far ends of the cable and keep them apart. "
                    },
                );
                how.push_str(if joined {
                    " It must read as the leads do."
                } else {
                    " It must be open."
                });
                how.push_str(PUT_BACK);
            }
            Place::Apart(driver) => {
                title = crate::english::sentence(&rig_words::driver(driver));
                title.push_str(" alone, lifted");
                how.insert_str(
                    0,
                    "Lift every wire that comes to it from outside; its own joins stay. ",
                );
                how.push_str(PUT_BACK);
            }
        }
        (title, how)
    }

    /// A point in a table, in short: `Coil 1a`, `Driver 1, basket`, `Cup 2`.
    ///
    /// # Example
    /// ```
    /// # use coilwright_solver::{answer::one, bounds::Field, rig::*, wiring::Plan};
    /// # let two = GroupDraft { count: Some(2), coils: Some(1), ohms: Field::CoilOhms.ohms_text("2").ok(), ..Default::default() };
    /// # let rig = Draft { groups: vec![two], amplifier: None }.check(Vec::new()).unwrap();
    /// use coilwright_solver::meter::Point;
    /// use coilwright_words::english::wiring::Wording;
    /// # let build = Build::default();
    /// # let configuration = one(&rig, "1a||2a").unwrap();
    /// # let plan = Plan::of(&rig, &build, &configuration).unwrap();
    /// let told = Wording { rig: &rig, build: &build, configuration: &configuration, plan: &plan, foretold: &[], names: &[] };
    /// let short = |name: &str| told.point_short(&Point::named(name).unwrap());
    /// assert_eq!(short("1"), "Probes touching");
    /// assert_eq!(short("2.basket.1"), "Driver 1, basket");
    /// assert_eq!(short("2.coil.1a"), "The coil of driver 1");
    /// ```
    #[must_use]
    pub fn point_short(&self, point: &Point) -> String {
        use crate::english::{finding, sentence};
        match point.place {
            Place::Step => match self.plan.acts.get(usize::from(point.act)) {
                Some(Act::Leads) => sentence(finding::LEADS),
                _ => {
                    let title = self.act(usize::from(point.act)).title;
                    sentence(title.strip_prefix("Check ").unwrap_or(&title))
                }
            },
            Place::Coil(coil) => sentence(&self.coil_named(coil)),
            Place::Tied(output, sign) => {
                let mut title = String::from("Tied pairs, ");
                title.push_str(&self.tied_named(output, sign));
                title
            }
            Place::Basket(driver) => {
                let mut title = sentence(&rig_words::driver(driver));
                title.push_str(", basket");
                title
            }
            _ => self.point(point).0,
        }
    }

    /// The same of a point that is read in search of a fault: what an act reads is read
    /// again as everything now is.
    #[must_use]
    pub fn point_again(&self, point: &Point) -> (String, String) {
        let (title, how) = self.point(point);
        match (point.place, point.probes(self.plan), self.plan.acts.get(usize::from(point.act))) {
            (Place::Step, Some([plus, minus]), Some(Act::Check(check))) if check.ends == 1 => {
                let mut how = String::from("Probes to ");
                add(&mut how, "", &self.named(plus));
                add(&mut how, " and ", &self.named(minus));
                how.push('.');
                how.push_str(AS_IT_IS);
                (title, how)
            }
            _ => (title, how),
        }
    }

    fn lift(&self, coils: &[Coil]) -> String {
        let mut text = String::from("Lift everything from ");
        for coil in coils {
            text.push_str(&self.coil(*coil));
            text.push_str(" +. ");
        }
        text
    }

    /// A run by its number, counted from 0: `run 3`.
    pub(super) fn run_named(&self, run: u16) -> String {
        let mut text = String::from("run ");
        text.push_str(&MARKS.whole(u128::from(run) + 1));
        text
    }
}
