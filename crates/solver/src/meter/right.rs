//! What is right at a point: what a sound rig reads there, and whether a reading is that.

use super::built::{Built, Posts, Winding};
use super::model::{LEADS, LEADS_READ};
use super::points::{Place, Point};
use super::reading;
use super::setting::Setting;
use super::{Agreement, Foretold, Reading};
use crate::defect::Defect;
use crate::given;
use crate::wiring::Act;

/// What is read at a point; `None` where nothing joins the probes, and at a point of other coils
/// than the plan has.
pub(super) fn at(
    posts: &Posts<'_>,
    leads: Option<f64>,
    point: &Point,
) -> Result<Option<Foretold>, Defect> {
    let plan = posts.plan;
    if !posts.has(point) {
        return Ok(None);
    }
    let touching =
        point.place == Place::Step && plan.acts.get(usize::from(point.act)) == Some(&Act::Leads);
    let [least, most] = match leads.filter(|_| !touching) {
        Some(leads) => [leads - LEADS_READ, leads + LEADS_READ],
        None => LEADS,
    };
    // Terminals that the amplifier ties show the leads alone, as the probes do.
    let alone = touching || matches!(point.place, Place::Tied(..));
    let bare = if alone { Some((0.0, [0.0; 2])) } else { bare(posts, point)? };
    Ok(bare.map(|(nominal, [low, high])| {
        let (low, high) = (low + least, high + most);
        Foretold { nominal, expected: (low + high) / 2.0, low, high }
    }))
}

/// What lies between the probes of a point without leads: by nominal impedances, and from
/// the least to the most; `None` where nothing does.
pub(super) fn bare(posts: &Posts<'_>, point: &Point) -> Result<Option<(f64, [f64; 2])>, Defect> {
    let plan = posts.plan;
    let (built, setting) = (Built::sound(plan), Setting::of(plan, point));
    let with = |ohms: &dyn Fn(&Winding) -> f64| {
        let coils = posts.coils.iter().map(|of| Winding { ohms: ohms(of), ..*of });
        let coils: Vec<Winding> = coils.collect();
        Ok(reading::at(&Posts::of(posts.rig, plan, &coils), &built, &setting, point)?.ohms)
    };
    let nominal = with(&|of| given::ohms(posts.rig, of.coil))?;
    if !nominal.is_finite() {
        return Ok(None);
    }
    // What a coil by itself should read is not told by its own reading.
    let alone = matches!(point.place, Place::Coil(_));
    let range = |of: &Winding| if alone { of.stated } else { of.range };
    let least = with(&|of| {
        let [least, _] = range(of);
        least
    })?;
    let most = with(&|of| {
        let [_, most] = range(of);
        most
    })?;
    Ok(Some((nominal, [least, most])))
}

/// Whether a reading is right; `None` is foretold where it must be open.
pub(super) fn agree(foretold: Option<Foretold>, reading: Reading, leads: bool) -> Agreement {
    match (foretold, reading) {
        (Some(foretold), reading) => foretold.judge(reading, leads),
        (None, Reading::Open) => Agreement::Right,
        (None, Reading::Ohms { .. }) => Agreement::TooLow,
    }
}
