//! The worked example of a first visit: the sound rig of the carnival float *Marigold*.
//! Float, drivers and amplifier are invented.

use super::fields::{AmplifierForm, GroupForm, OutputForm, PointForm};
use super::form::Form;

/// Three dual 4 Ω drivers on a mono amplifier.
#[must_use]
pub fn marigold() -> Form {
    let point = |ohms: &str, watts: &str| PointForm { ohms: ohms.into(), watts: watts.into() };
    Form {
        groups: vec![GroupForm {
            count: "3".into(),
            coils: "2".into(),
            ohms: "4".into(),
            watts: "400".into(),
            ..GroupForm::default()
        }],
        amplifier: Some(AmplifierForm {
            channels: vec![OutputForm {
                least: "1".into(),
                rated: vec![point("4", "540"), point("2", "900"), point("1", "1300")],
                ..OutputForm::default()
            }],
            ..AmplifierForm::default()
        }),
        ..Form::default()
    }
}
