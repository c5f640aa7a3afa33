//! What a sound rig reads at a point.

use super::built::{Built, LIKELY_OF_NOMINAL, Posts, Winding, read};
use super::coils::Measured;
use super::points::{self, Place, Point};
use super::{Foretold, LEADS, OF_MEASURED, OF_NOMINAL};
use crate::given;
use crate::rig::Rig;
use crate::wiring::{Plan, Step};

/// What is read at each step that takes a reading; `None` at the others. Where a step reads
/// several coils, from the least to the most of any.
#[must_use]
pub(crate) fn foretell(rig: &Rig, plan: &Plan) -> Vec<Option<Foretold>> {
    let posts = Posts::of(rig, plan, &[]);
    let mut foretold = Vec::with_capacity(plan.steps.len());
    for step in 0..u16::try_from(plan.steps.len()).unwrap_or(u16::MAX) {
        let mut all: Option<Foretold> = None;
        for point in points::at_step(plan, step) {
            let Some(one) = at(&posts, &point) else { continue };
            all = Some(match all {
                None => one,
                Some(all) => {
                    Foretold { low: all.low.min(one.low), high: all.high.max(one.high), ..all }
                }
            });
        }
        foretold.push(all);
    }
    foretold
}

/// What is read at every one of some points, with coils that were measured beside those
/// that the rig states; `None` where it is open.
#[must_use]
pub fn foretold(
    rig: &Rig,
    plan: &Plan,
    measured: &[Measured],
    points: &[Point],
) -> Vec<Option<Foretold>> {
    let posts = Posts::of(rig, plan, measured);
    points.iter().map(|point| at(&posts, point)).collect()
}

/// What is read at a point; `None` where nothing joins the probes.
pub(super) fn at(posts: &Posts<'_>, point: &Point) -> Option<Foretold> {
    let plan = posts.plan;
    let touching =
        point.place == Place::Step && plan.steps.get(usize::from(point.step)) == Some(&Step::Leads);
    if touching || matches!(point.place, Place::Tied(..)) {
        let [low, high] = LEADS;
        return Some(Foretold { nominal: 0.0, expected: (low + high) / 2.0, low, high });
    }
    let built = Built::sound(plan);
    let with = |ohms: &dyn Fn(&Winding) -> f64| {
        let coils = posts.coils.iter().map(|of| Winding { ohms: ohms(of), ..*of });
        let posts = Posts { plan, rig: posts.rig, coils: coils.collect() };
        read(&posts, &built, point).ohms
    };
    let nominal = with(&|of| given::ohms(posts.rig, of.coil));
    if !nominal.is_finite() {
        return None;
    }
    let scaled = |place: usize| {
        let of = |range: &[f64; 2]| range.get(place).copied().unwrap_or(1.0);
        with(&|winding| {
            let off = if place == 0 { -winding.off } else { winding.off };
            winding.ohms
                * match winding.measured {
                    true => of(&OF_MEASURED) + off,
                    false => of(&OF_NOMINAL) / LIKELY_OF_NOMINAL,
                }
        })
    };
    let [least, most] = LEADS;
    let (low, high) = (scaled(0), scaled(1));
    Some(Foretold {
        nominal,
        expected: (low + high + least + most) / 2.0,
        low: low + least,
        high: high + most,
    })
}

#[cfg(test)]
mod tests {
    use super::super::{Agreement, Job, Read, Reading, at_step, judge};
    use super::*;
    use crate::answer::one;
    use crate::bounds::Field;
    use crate::rig::{AmplifierDraft, Build, ChannelDraft, Draft, GroupDraft};

    /// Pairs that may be two outputs are read + to + and − to − before a cable is landed on
    /// them, and show no more than the leads where they are tied.
    #[test]
    fn tied_pairs_are_read_on_both_sides_once_the_power_is_off() {
        let ohms = Field::CoilOhms.ohms_text("4").ok();
        let two = GroupDraft { count: Some(2), coils: Some(1), ohms, ..GroupDraft::default() };
        let channel = ChannelDraft { terminal_pairs: Some(2), ..ChannelDraft::default() };
        let amplifier = AmplifierDraft { count: Some(1), channels: vec![channel], bridges: vec![] };
        let rig = Draft { groups: vec![two], amplifier: Some(amplifier) }.check(vec![]).unwrap();
        let (build, both) = (Build::default(), one(&rig, "1:1a||2a").unwrap());
        let plan = Plan::of(&rig, &build, &both).unwrap();
        assert!(plan.joined_at_amplifier);
        let off = plan.steps.iter().position(|step| *step == Step::PowerOff).unwrap();
        let points = at_step(&plan, u16::try_from(off).unwrap());
        let names: Vec<String> = points.iter().map(Point::name).collect();
        let step = off + 1;
        assert_eq!(names, [format!("{step}.plus.1"), format!("{step}.minus.1")]);
        for point in &points {
            assert_eq!(Point::named(&point.name()), Some(*point));
            assert!(point.is_of(&plan));
            let [from, to] = point.probes(&plan).unwrap();
            assert!(from != to && from.sign == to.sign, "{}", point.name());
        }
        let job = Job { rig: &rig, build: &build, configuration: &both, plan: &plan };
        let ohms = |point, ohms| Read { point, reading: Reading::Ohms { ohms, count: 0.1 } };
        let leads = ohms(points::touching(&plan).unwrap(), 0.2);
        let [plus, minus] = points.as_slice() else { panic!("two points") };
        let reads = [leads, ohms(*plus, 0.2), Read { point: *minus, reading: Reading::Open }];
        let judged = judge(&job, &reads);
        assert_eq!(judged.get(1..).unwrap(), [Agreement::Right, Agreement::Open]);
        assert_eq!(judge(&job, &[leads, ohms(*plus, 1.0)]).pop(), Some(Agreement::TooHigh));
        assert_eq!(judge(&job, &[ohms(*plus, 0.2)]).pop(), Some(Agreement::LeadsFirst));
        // What is the amplifier's own is no fault of the wiring.
        assert!(!Place::Tied(0, crate::wiring::Sign::Plus).tells_faults());
    }
}
