//! The worked example of a first visit: the sound rig of the carnival float *Marigold*.
//! Float, drivers and amplifier are invented.

use super::form::{AmplifierForm, Form, GroupForm, OutputForm, PointForm};

/// Two dual 2 Ω drivers on a mono amplifier.
#[must_use]
pub fn marigold() -> Form {
    let point = |ohms: &str, watts: &str| PointForm { ohms: ohms.into(), watts: watts.into() };
    Form {
        groups: vec![GroupForm {
            count: "2".into(),
            coils: "2".into(),
            ohms: "2".into(),
            watts: "500".into(),
            ..GroupForm::default()
        }],
        amplifier: Some(AmplifierForm {
            channels: vec![OutputForm {
                least: "1".into(),
                rated: vec![point("4", "420"), point("2", "760"), point("1", "1200")],
                ..OutputForm::default()
            }],
            ..AmplifierForm::default()
        }),
        ..Form::default()
    }
}
