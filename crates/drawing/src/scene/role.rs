//! What marks stand for, and the classes they are drawn by.

/// What a mark stands for; the style sheet draws it by its class.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Role {
    /// Wire between coils.
    Wire,
    /// Wire that is one with the positive terminal.
    WirePlus,
    /// Wire that is one with the negative terminal.
    WireMinus,
    /// The windings of a coil.
    Coil,
    /// The + at the positive end of a coil.
    CoilPlus,
    /// The name of a coil.
    CoilLabel,
    /// A joint of three or more wires (filled).
    Dot,
    /// Outline behind the coils of one driver.
    Driver,
    /// Outline of an output of the amplifier.
    Output,
    /// A terminal of the amplifier (filled with the ground, stroked).
    Terminal,
    /// What stands at a terminal.
    TerminalLabel,
    /// Wire of a thumbnail.
    ThumbWire,
    /// Coil of a thumbnail (filled).
    ThumbCoil,
    /// An upright of the ladder.
    Stile,
    /// Tick on the axis.
    Tick,
    /// Number at a tick.
    TickLabel,
    /// The unit of the axis.
    Unit,
    /// A rung.
    Rung,
    /// A rung whose configurations are uneven.
    RungUneven,
    /// A rung below the least load.
    RungLow,
    /// A rung that is both.
    RungLowUneven,
    /// The chosen rung, over its plain one.
    RungChosen,
    /// Several loads gathered (filled).
    Band,
    /// Uneven loads gathered.
    BandUneven,
    /// Too low loads gathered.
    BandLow,
    /// Gathered loads that are both.
    BandLowUneven,
    /// The chosen band.
    BandChosen,
    /// From a rung to its row.
    Leader,
    /// From the chosen rung to its row.
    LeaderChosen,
    /// The region below the least load (filled).
    Shade,
    /// Hatch over it.
    Hatch,
    /// The line of the least load.
    Least,
    /// The label of the least load.
    LeastLabel,
    /// A rated point on the axis (filled).
    Rated,
    /// Its label.
    RatedLabel,
    /// From a label to its point, where it had to move.
    Pointer,
    /// To a point beyond the end of the axis (filled).
    Arrow,
    /// Name of a driver beside its bars.
    RowLabel,
    /// The ground of a bar, as long as all of a rating (filled).
    Track,
    /// What a coil gets (filled).
    Bar,
    /// What a coil gets, beyond the limit (filled).
    BarOver,
    /// Figure at a bar.
    Figure,
    /// The line of "all of its rating".
    Limit,
    /// Its label.
    LimitLabel,
    /// Outline of the box round what stands in it.
    Box,
    /// A driver with its terminals (filled).
    Body,
    /// A cup, or an output of the amplifier, with its terminals (filled).
    Post,
    /// The sign of a loudspeaker on a driver.
    Cone,
    /// The name of a driver, a cup or an output.
    BodyLabel,
    /// What a person calls a driver.
    Name,
    /// The name of a coil between its terminals.
    CoilName,
    /// A terminal.
    Tab,
    /// A terminal of a bridged channel, which may be one of the pair or not.
    TabPale,
    /// What stands at such terminals.
    PaleLabel,
    /// The + or − at a terminal.
    Sign,
    /// A cap on a terminal that stays open.
    Cap,
    /// A splice: the bar between its clamps.
    Splice,
    /// A clamp of a splice, which conductors go into.
    Clamp,
    /// The name of a splice.
    SpliceLabel,
    /// A run that is one with the positive terminal.
    RunPlus,
    /// A run that is one with the negative terminal.
    RunMinus,
    /// A run between parts in series.
    RunBetween,
    /// The same three, lit.
    RunPlusLit,
    /// See [`Self::RunPlusLit`].
    RunMinusLit,
    /// See [`Self::RunPlusLit`].
    RunBetweenLit,
    /// A run that is probably missing.
    RunMissing,
    /// The same, lit.
    RunMissingLit,
    /// Around a conductor that is lit.
    Halo,
    /// The conductor of a run.
    Conductor,
    /// The stripe along it.
    Tracer,
    /// The ground under a hop, which what is crossed goes beneath.
    Gap,
    /// What the look of runs means.
    LegendLabel,
    /// What can be touched of a run: broader than its conductor, and unseen.
    Hit,
    /// The ground of a run's number.
    Badge,
    /// The number of a run.
    BadgeLabel,
    /// Around a conductor that may be wrong.
    SuspectRun,
    /// Around what else may be wrong (filled).
    SuspectPlace,
    /// The ring beside what may be wrong (filled).
    Suspect,
    /// What stands in the ring.
    SuspectSign,
    /// Dark modules of a code.
    Code,
    /// The ground of a code (filled).
    CodeGround,
}

impl Role {
    /// The class or classes of an element of this role.
    #[must_use]
    pub const fn class(self) -> &'static str {
        match self {
            Self::Wire => "d-wire",
            Self::WirePlus => "d-wire d-wire-plus",
            Self::WireMinus => "d-wire d-wire-minus",
            Self::Coil => "d-coil",
            Self::CoilPlus => "d-coil-plus",
            Self::CoilLabel => "d-coil-label",
            Self::Dot => "d-dot",
            Self::Driver => "d-driver",
            Self::Output => "d-output",
            Self::Terminal => "d-terminal",
            Self::TerminalLabel => "d-terminal-label",
            Self::ThumbWire => "d-thumb-wire",
            Self::ThumbCoil => "d-thumb-coil",
            Self::Stile => "d-stile",
            Self::Tick => "d-tick",
            Self::TickLabel => "d-tick-label",
            Self::Unit => "d-unit",
            Self::Rung => "d-rung",
            Self::RungUneven => "d-rung d-uneven",
            Self::RungLow => "d-rung d-low",
            Self::RungLowUneven => "d-rung d-uneven d-low",
            Self::RungChosen => "d-rung d-chosen",
            Self::Band => "d-band",
            Self::BandUneven => "d-band d-uneven",
            Self::BandLow => "d-band d-low",
            Self::BandLowUneven => "d-band d-uneven d-low",
            Self::BandChosen => "d-band d-chosen",
            Self::Leader => "d-leader",
            Self::LeaderChosen => "d-leader d-chosen",
            Self::Shade => "d-shade",
            Self::Hatch => "d-hatch",
            Self::Least => "d-least",
            Self::LeastLabel => "d-least-label",
            Self::Rated => "d-rated",
            Self::RatedLabel => "d-rated-label",
            Self::Pointer => "d-pointer",
            Self::Arrow => "d-arrow",
            Self::RowLabel => "d-row-label",
            Self::Track => "d-track",
            Self::Bar => "d-bar",
            Self::BarOver => "d-bar d-over",
            Self::Figure => "d-figure",
            Self::Limit => "d-limit",
            Self::LimitLabel => "d-limit-label",
            Self::Box => "d-box",
            Self::Body => "d-body",
            Self::Post => "d-body d-post",
            Self::Cone => "d-cone",
            Self::BodyLabel => "d-body-label",
            Self::Name => "d-name",
            Self::CoilName => "d-coil-name",
            Self::Tab => "d-tab",
            Self::TabPale => "d-tab d-pale",
            Self::PaleLabel => "d-pale-label",
            Self::Sign => "d-sign",
            Self::Cap => "d-cap",
            Self::Splice => "d-splice",
            Self::Clamp => "d-splice d-clamp",
            Self::SpliceLabel => "d-splice-label",
            Self::RunPlus => "d-run d-plus",
            Self::RunMinus => "d-run d-minus",
            Self::RunBetween => "d-run d-between",
            Self::RunPlusLit => "d-run d-plus d-lit",
            Self::RunMinusLit => "d-run d-minus d-lit",
            Self::RunBetweenLit => "d-run d-between d-lit",
            Self::RunMissing => "d-run d-missing",
            Self::RunMissingLit => "d-run d-missing d-lit",
            Self::Halo => "d-halo",
            Self::Conductor => "d-conductor",
            Self::Tracer => "d-tracer",
            Self::Gap => "d-gap",
            Self::LegendLabel => "d-legend",
            Self::Hit => "d-hit",
            Self::Badge => "d-badge",
            Self::BadgeLabel => "d-badge-label",
            Self::SuspectRun => "d-suspect-run",
            Self::SuspectPlace => "d-suspect-place",
            Self::Suspect => "d-suspect",
            Self::SuspectSign => "d-suspect-sign",
            Self::Code => "d-code",
            Self::CodeGround => "d-code-ground",
        }
    }
}
