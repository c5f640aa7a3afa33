//! How a drawing as wired looks in a file: as on the page in the light.

use crate::scene::Role;

/// The attributes of a mark, by its role and that of the run it is part of.
#[must_use]
pub const fn look(role: Role, run: Option<Role>) -> &'static str {
    use Role::{RunBetween, RunBetweenLit, RunMissing, RunMissingLit, RunPlus, RunPlusLit};
    match role {
        Role::Body | Role::Post => "fill:#fdfbf5;stroke:#1b1f29;stroke-width:1.5",
        Role::Box => "fill:none;stroke:#857c68;stroke-width:1.5;stroke-dasharray:6 4",
        Role::Cone => "fill:none;stroke:#857c68;stroke-width:1.5",
        Role::BodyLabel | Role::CoilName | Role::BadgeLabel => "font-weight:700",
        Role::Tab | Role::Splice | Role::Clamp => "fill:#fff;stroke:#1b1f29;stroke-width:1.5",
        Role::TabPale => "fill:#fff;stroke:#857c68",
        Role::PaleLabel | Role::LegendLabel => "fill:#555a66",
        Role::Gap => "fill:none;stroke:#fff;stroke-width:8",
        Role::Hit | Role::Halo => "fill:none",
        Role::Conductor => match run {
            Some(RunPlus | RunPlusLit) => {
                "fill:none;stroke:#9a4312;stroke-width:4;stroke-linejoin:round"
            }
            Some(RunMissing | RunMissingLit) => {
                "fill:none;stroke:#1b1f29;stroke-width:1.5;stroke-linejoin:round;stroke-dasharray:4 4"
            }
            Some(RunBetween | RunBetweenLit) => {
                "fill:none;stroke:#1b1f29;stroke-width:2;stroke-linejoin:round"
            }
            _ => "fill:none;stroke:#1b1f29;stroke-width:4;stroke-linejoin:round",
        },
        Role::Tracer => {
            "fill:none;stroke:#fff;stroke-width:1.75;stroke-linejoin:round;stroke-dasharray:7 5"
        }
        Role::Badge => match run {
            Some(RunMissing | RunMissingLit) => "fill:#fff;stroke:#1b1f29;stroke-dasharray:3 2",
            _ => "fill:#fff;stroke:#1b1f29",
        },
        Role::SuspectRun => "fill:none;stroke:#f3cfcd;stroke-width:13;stroke-linejoin:round",
        Role::SuspectPlace => "fill:#fae4e3;stroke:#961b26;stroke-width:2",
        Role::Suspect => "fill:#fff;stroke:#961b26;stroke-width:3",
        Role::SuspectSign => "fill:#961b26;font-weight:800",
        // In ink, as the picture as a whole: letters, dots and caps, and the runs as groups.
        _ => "",
    }
}
