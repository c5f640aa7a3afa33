//! Where a value of the form stands: in the page, and in a request.

use coilwright_solver::bounds::Field;
use coilwright_solver::problem::Path;
use coilwright_solver::rig::{DISTANCES, TERMINALS};

/// A channel or a bridge of the amplifier, counted from 0.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum At {
    /// A channel.
    Channel(usize),
    /// A bridge.
    Bridge(usize),
}

/// One value of the form.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Place {
    /// What a group is called.
    Name(usize),
    /// How many drivers a group has.
    Count(usize),
    /// Coils on each driver of a group.
    Coils(usize),
    /// Ohms of one coil of a group.
    Ohms(usize),
    /// Watts of a group.
    Watts(usize),
    /// Whose watts these are.
    WattsPer(usize),
    /// Coils of each driver of a group left out on purpose.
    Unused(usize),
    /// Measured ohms of the coils of a group.
    Measured(usize),
    /// How many amplifiers.
    AmplifierCount,
    /// How many channels.
    ChannelCount,
    /// The least load of an output.
    Least(At),
    /// The load of a rated point.
    PointOhms(At, usize),
    /// The watts of a rated point.
    PointWatts(At, usize),
    /// The first channel of a bridge.
    First(usize),
    /// The second channel of a bridge.
    Second(usize),
    /// What has a cup of its own.
    Cups,
    /// How many cups there are.
    CupCount,
    /// Where separate cups are joined.
    JoinedAt,
    /// How drivers are fed.
    Fed,
    /// Area of a conductor.
    Area,
    /// One of the distances.
    Metres(usize),
    /// Conductors that a terminal of one sort takes.
    Conductors(usize),
    /// The largest conductor that it takes.
    Largest(usize),
}

fn entry(parent: &Path, list: Field, index: usize) -> Path {
    parent.field(list.spec().name).entry(index)
}

fn build() -> Path {
    Path::root().field(Field::Build.spec().name)
}

fn amplifier() -> Path {
    Path::root().field(Field::Amplifier.spec().name)
}

impl At {
    /// Where the output stands in a request.
    #[must_use]
    pub fn path(self) -> Path {
        match self {
            Self::Channel(i) => entry(&amplifier(), Field::Channels, i),
            Self::Bridge(i) => entry(&amplifier(), Field::Bridges, i),
        }
    }

    /// The field of its rated points.
    #[must_use]
    pub fn rated(self) -> Field {
        match self {
            Self::Channel(_) => Field::ChannelRated,
            Self::Bridge(_) => Field::BridgeRated,
        }
    }
}

impl Place {
    /// The row of the table of fields that bounds the value. The count of channels
    /// has no field of its own: it is the length of the list.
    #[must_use]
    pub fn field(self) -> Field {
        match self {
            Self::Name(_) => Field::Name,
            Self::Count(_) => Field::Count,
            Self::Coils(_) => Field::Coils,
            Self::Ohms(_) => Field::CoilOhms,
            Self::Watts(_) => Field::Watts,
            Self::WattsPer(_) => Field::WattsPer,
            Self::AmplifierCount => Field::AmplifierCount,
            Self::ChannelCount => Field::Channels,
            Self::Least(At::Channel(_)) => Field::ChannelLeast,
            Self::Least(At::Bridge(_)) => Field::BridgeLeast,
            Self::PointOhms(..) => Field::PointOhms,
            Self::PointWatts(..) => Field::PointWatts,
            Self::First(_) | Self::Second(_) => Field::BridgeChannels,
            Self::Unused(_) => Field::UnusedCoils,
            Self::Measured(_) => Field::DcOhms,
            Self::Cups => Field::Cups,
            Self::CupCount => Field::CupCount,
            Self::JoinedAt => Field::JoinedAt,
            Self::Fed => Field::Fed,
            Self::Area => Field::ConductorArea,
            Self::Metres(i) => DISTANCES.get(i).copied().unwrap_or(Field::ToAmplifier),
            Self::Conductors(_) => Field::Conductors,
            Self::Largest(_) => Field::LargestArea,
        }
    }

    /// Where the value stands in a request: names the field in problems and in the page.
    #[must_use]
    pub fn path(self) -> Path {
        let name = self.field().spec().name;
        match self {
            Self::Name(i)
            | Self::Count(i)
            | Self::Coils(i)
            | Self::Ohms(i)
            | Self::Watts(i)
            | Self::WattsPer(i)
            | Self::Unused(i)
            | Self::Measured(i) => entry(&Path::root(), Field::Drivers, i).field(name),
            Self::AmplifierCount | Self::ChannelCount => amplifier().field(name),
            Self::Least(at) => at.path().field(name),
            Self::PointOhms(at, i) | Self::PointWatts(at, i) => {
                entry(&at.path(), at.rated(), i).field(name)
            }
            Self::First(i) => At::Bridge(i).path().field(name).entry(0),
            Self::Second(i) => At::Bridge(i).path().field(name).entry(1),
            Self::Conductors(i) | Self::Largest(i) => {
                let of = TERMINALS.get(i).copied().unwrap_or(Field::AmplifierTerminals);
                build().field(of.spec().name).field(name)
            }
            Self::Cups
            | Self::CupCount
            | Self::JoinedAt
            | Self::Fed
            | Self::Area
            | Self::Metres(_) => build().field(name),
        }
    }
}
