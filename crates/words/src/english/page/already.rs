//! A rig that is wired already: what it is believed to be, what its cup reads, what that says.

/// The title of the room, and the way to it.
pub const TITLE: &str = "It is wired already";
/// Skips to it.
pub const TO_ALREADY: &str = "Go to the rig that is wired already";
/// What it is for.
pub const ABOUT: &str = "Say what you believe it is and what its cup reads, or where the cable ends \
if there is no cup. Nothing needs to be ticked for that.";
/// While the drivers are not known.
pub const FIRST: &str = "First fill in the drivers in it. If nobody knows them, one reading at the \
cup still tells something: see “What is in my box?”.";
/// While the page shows the example.
pub const EXAMPLE: &str = "The fields hold the example. Start empty and fill in the drivers in it.";
/// The choice of what it is believed to be.
pub const BELIEVED: &str = "I believe it is";
/// That nobody knows.
pub const UNKNOWN: &str = "I don't know";
/// Over what its cup reads.
pub const CUP: &str = "the cup reads";
/// Over the configurations that read like that.
pub const READS_LIKE: &str = "These read like that";
/// Where no listed one does.
pub const NONE_READS: &str = "No listed way to wire these drivers reads like that. It may be wired \
in an uneven way, with a coil left out, or with a fault: choose what it was meant to be.";
/// Where it reads right.
pub const READS_RIGHT: &str = "It reads as that does. Other ways with the same load read the same; \
what a right reading cannot exclude stands beside it.";
/// To the plan.
pub const SEE: &str = "See how that is wired";
