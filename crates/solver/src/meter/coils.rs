//! Coils read one by one: what each has, and whether it is what its label and its group
//! let expect.

use super::built::{Posts, Winding};
use super::job::{Job, Read, leads};
use super::measured::Measured;
use super::model::{METER, OF_COIL, OF_NOMINAL};
use super::points::Place;
use super::right::{agree, at};
use super::{Agreement, Reading, stated};
use crate::defect::Defect;
use crate::given;
use crate::network::Coil;
use crate::short;

/// Coils of one group are no farther than this part from the middle of them: what two of
/// them may differ by (common practice, no source).
const WITHIN_GROUP: f64 = 2.0 * OF_COIL;

/// Coils that were read alone before they were joined and are sound: what they have
/// without the leads.
///
/// # Errors
/// A defect of the solver.
pub fn measured(job: &Job<'_>, reads: &[Read]) -> Result<Vec<Measured>, Defect> {
    let mut found = Vec::new();
    for (one, agreement) in read_alone(job, reads)? {
        if let (Some(one), Agreement::Right) = (one, agreement) {
            found.push(one);
        }
    }
    Ok(found)
}

/// Every coil whose resistance is known, by a reading or as stated with the rig, and
/// whether it is right by its label and like the others of its group.
///
/// # Example
/// ```
/// # use coilwright_solver::{answer::one, bounds::Field, rig::*, wiring::Plan};
/// use coilwright_solver::meter::{Agreement, Job, coils};
/// # let group = GroupDraft { count: Some(3), coils: Some(1), ohms: Field::CoilOhms.ohms_text("4").ok(), dc_ohms: Some(vec![3.4, 3.4, 4.1]), ..Default::default() };
/// # let rig = Draft { groups: vec![group], amplifier: None }.check(Vec::new()).unwrap();
/// # let build = Build::default();
/// # let configuration = one(&rig, "1a||2a||3a").unwrap();
/// # let plan = Plan::of(&rig, &build, &configuration).unwrap();
/// // Three 4 Ω coils that measure 3.4, 3.4 and 4.1 Ω.
/// let job = Job { rig: &rig, build: &build, configuration: &configuration, plan: &plan };
/// let found: Vec<Agreement> = coils(&job, &[]).unwrap().into_iter().map(|(_, agreement)| agreement).collect();
/// assert_eq!(found, [Agreement::Right, Agreement::Right, Agreement::Unlike]);
/// ```
///
/// # Errors
/// A defect of the solver.
pub fn coils(job: &Job<'_>, reads: &[Read]) -> Result<Vec<(Coil, Agreement)>, Defect> {
    let mut known: Vec<(Coil, Option<Measured>, Agreement)> = Vec::new();
    for (of, (one, agreement)) in coils_read(job, reads).into_iter().zip(read_alone(job, reads)?) {
        known.push((of, one, agreement));
    }
    for coil in super::points::coils(job.plan) {
        if let Some(ohms) = stated(job.rig, coil)
            && !known.iter().any(|(of, ..)| *of == coil)
        {
            let [low, high] = OF_NOMINAL;
            let nominal = given::ohms(job.rig, coil);
            let agreement = match ohms / nominal {
                part if part < low * (1.0 - 2.0 * OF_COIL) => Agreement::TooLow,
                part if part > high * (1.0 + 2.0 * OF_COIL) => Agreement::TooHigh,
                _ => Agreement::Right,
            };
            known.push((coil, Some(Measured { coil, ohms, off: OF_COIL }), agreement));
        }
    }
    short::insertion_sort(&mut known, |a, b| a.0.cmp(&b.0));
    let mut found = Vec::new();
    for (coil, one, agreement) in &known {
        let group = job.rig.group_number_of(coil.driver);
        let mut ohms: Vec<f64> = Vec::new();
        for (other, of, agreement) in &known {
            // What is wrong by its label says nothing about the others.
            let counts = *agreement == Agreement::Right;
            if counts && job.rig.group_number_of(other.driver) == group {
                ohms.extend(of.map(|of| of.ohms));
            }
        }
        let unlike = one.zip(middle(&mut ohms)).is_some_and(|(one, middle)| {
            (one.ohms - middle).abs() > (WITHIN_GROUP + one.off) * middle
        });
        let agreement = match agreement {
            Agreement::Right if unlike => Agreement::Unlike,
            agreement => *agreement,
        };
        found.push((*coil, agreement));
    }
    Ok(found)
}

/// The middle one of some figures; of two the mean; of none nothing.
fn middle(ohms: &mut [f64]) -> Option<f64> {
    short::insertion_sort(ohms, f64::total_cmp);
    let last = ohms.len().checked_sub(1)?;
    Some((ohms.get(last / 2)? + ohms.get(ohms.len() / 2)?) / 2.0)
}

/// The coils that were read, each once, in the order of [`read_alone`].
fn coils_read(job: &Job<'_>, reads: &[Read]) -> Vec<Coil> {
    let mut coils: Vec<Coil> = Vec::new();
    for read in reads {
        if let Place::Coil(coil) = read.point.place
            && !coils.contains(&coil)
            && read.point.is_of(job.plan)
        {
            coils.push(coil);
        }
    }
    coils
}

/// What each coil that was read has, and whether that is right by its label: the last
/// reading of each.
fn read_alone(job: &Job<'_>, reads: &[Read]) -> Result<Vec<(Option<Measured>, Agreement)>, Defect> {
    let windings = Winding::all(job.rig, job.plan, &[])?;
    let posts = Posts::of(job.rig, job.plan, &windings);
    let leads = leads(job.plan, reads);
    let mut found = Vec::new();
    for coil in coils_read(job, reads) {
        let of = |read: &&Read| read.point.place == Place::Coil(coil);
        let Some(read) = reads.iter().rev().find(of) else { continue };
        let foretold = at(&posts, leads, &read.point)?;
        let agreement = agree(foretold, read.reading, leads.is_some());
        let measured = match (read.reading, leads) {
            (Reading::Ohms { ohms, count }, Some(leads)) => {
                let ohms = (ohms - leads).max(0.01);
                let (part, counts) = METER;
                Some(Measured { coil, ohms, off: part + count * counts / ohms })
            }
            _ => None,
        };
        found.push((measured, agreement));
    }
    Ok(found)
}
