//! What may be wrong with a plan as it was built, in words. A hint where to look, no
//! verdict on a product.

use super::{Wording, numbered};
use crate::english::{add, sentence};
use coilwright_solver::meter::{Fault, Other};
use coilwright_solver::network::Coil;
use coilwright_solver::wiring::Post;

impl Wording<'_> {
    /// A fault in a sentence, and where to look.
    ///
    /// # Example
    /// ```
    /// # use coilwright_solver::{answer::one, bounds::Field, rig::*, wiring::Plan};
    /// # let two = GroupDraft { count: Some(2), coils: Some(1), ohms: Field::CoilOhms.ohms_text("2").ok(), ..Default::default() };
    /// # let rig = Draft { groups: vec![two], amplifier: None }.check(Vec::new()).unwrap();
    /// use coilwright_solver::meter::Fault;
    /// use coilwright_words::english::wiring::Wording;
    /// # let build = Build::default();
    /// # let configuration = one(&rig, "1a+2a").unwrap();
    /// # let plan = Plan::of(&rig, &build, &configuration).unwrap();
    /// let told = Wording { rig: &rig, build: &build, configuration: &configuration, plan: &plan, foretold: &[], names: &[] };
    /// assert_eq!(told.fault(&Fault::Missing { run: 0 }, &[]), "Run 1, from driver 1 − to driver 2 +, is missing or broken.");
    /// ```
    #[must_use]
    pub fn fault(&self, fault: &Fault, others: &[Other]) -> String {
        match *fault {
            Fault::Nothing => "Nothing that ohms can show is wrong.".to_owned(),
            Fault::Missing { run } => self.of_run(run, "is missing or broken."),
            Fault::Loose { run } => {
                self.of_run(run, "has a loose or corroded joint at one of its ends.")
            }
            Fault::WrongEnd { run, start, on } => {
                let mut text = self.of_run(run, "has an end on the wrong terminal: on ");
                text.push_str(&self.named(on));
                if let Some(run) = self.plan.runs.get(usize::from(run)) {
                    add(&mut text, " instead of ", &self.named(if start { run.from } else { run.to }));
                }
                text.push('.');
                text
            }
            Fault::Extra { from, to } => {
                let mut text = String::from("There is a wire too many, from ");
                text.push_str(&self.named(from));
                add(&mut text, " to ", &self.named(to));
                text.push('.');
                text
            }
            Fault::Otherwise(at) => {
                let mut text = String::from("The coils are joined otherwise than planned");
                if let Some(other) = others.get(usize::from(at)) {
                    add(&mut text, ": ", &other.network.to_string());
                }
                text.push('.');
                text
            }
            Fault::Strand { a, b } => {
                let mut text = String::from(if matches!(a.post, Post::Amplifier { .. }) {
                    "The cable is squashed, or strands touch between "
                } else {
                    "Strands touch between "
                });
                text.push_str(&self.named(a));
                add(&mut text, " and ", &self.named(b));
                text.push('.');
                text
            }
            Fault::Leads => "The leads or their contact add too much: clean the tips, press harder, try other leads.".to_owned(),
            Fault::Meter => "The meter shows too little or too much: try its battery, or a resistor that you know.".to_owned(),
            Fault::OtherDriver { driver, times } => {
                let mut text = sentence(&self.driver(driver));
                text.push_str(" has coils of ");
                text.push_str(times_stated(times));
                text
            }
            Fault::OtherGroup { group, times } => {
                let mut text = if self.rig.groups().len() > 1 {
                    numbered("All drivers of group", group)
                } else {
                    "All drivers".to_owned()
                };
                text.push_str(" have coils of ");
                text.push_str(times_stated(times));
                text
            }
            Fault::CoilOpen(coil) => self.of_coil(coil, " is open."),
            Fault::CoilShort(coil) => self.of_coil(coil, " is shorted."),
            Fault::Turns(coil) => self.of_coil(coil, " has shorted turns."),
            Fault::Reversed => "A driver or a coil is joined the wrong way round.".to_owned(),
            Fault::Crossed { a, b } => {
                let mut text = String::from("The cables of ");
                text.push_str(&self.run_named(a));
                add(&mut text, " and ", &self.run_named(b));
                text.push_str(" are exchanged, or a conductor of each.");
                text
            }
            Fault::Amplifier => "The amplifier is still connected.".to_owned(),
            Fault::Capacitor { run } => {
                self.of_run(run, "is open to a meter: a capacitor or a crossover lies in its way.")
            }
        }
    }

    /// `Run 3, from 1a + to 2a +, …`
    fn of_run(&self, run: u16, what: &str) -> String {
        let mut text = sentence(&self.run_named(run));
        if let Some(run) = self.plan.runs.get(usize::from(run)) {
            add(&mut text, ", from ", &self.named(run.from));
            add(&mut text, " to ", &self.named(run.to));
            text.push(',');
        }
        add(&mut text, " ", what);
        text
    }

    fn of_coil(&self, coil: Coil, what: &str) -> String {
        let mut text = sentence(&self.coil_named(coil));
        text.push_str(what);
        text
    }
}

/// Ohms of a coil beside those stated.
const fn times_stated(times: (u8, u8)) -> &'static str {
    match times {
        (1, 2) => "half the ohms stated.",
        (2, 1) => "twice the ohms stated.",
        (1, 4) => "a quarter of the ohms stated.",
        _ => "four times the ohms stated.",
    }
}
