//! Where a value of the form stands: in the page, and in a request.

use super::fields::{
    Amplifier, AmplifierForm, Bridge, BridgeForm, BuildForm, Built, Group, GroupForm, Output,
    OutputForm, PointForm, Rated, Row, Shape, Takes, TakesForm,
};
use coilwright_solver::bounds::Field;
use coilwright_solver::problem::Path;
use coilwright_solver::rig::TERMINALS;

/// A channel or a bridge of the amplifier, counted from 0.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum At {
    /// A channel.
    Channel(usize),
    /// A bridge.
    Bridge(usize),
}

/// One text of the form: of which part, the how many-th of them, and its row.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Place {
    /// Of a driver group.
    Group(usize, Group),
    /// Of the amplifier.
    Amplifier(Amplifier),
    /// Of a channel or a bridge.
    Output(At, Output),
    /// Of a rated point.
    Rated(At, usize, Rated),
    /// Of a bridge.
    Bridge(usize, Bridge),
    /// About the box.
    Box(Built),
    /// About a terminal of one sort.
    Takes(usize, Takes),
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
    pub const fn rated(self) -> Field {
        match self {
            Self::Channel(_) => Field::ChannelRated,
            Self::Bridge(_) => Field::BridgeRated,
        }
    }
}

impl Place {
    const fn row(self) -> &'static Row {
        match self {
            Self::Group(_, row) => GroupForm::row(row),
            Self::Amplifier(row) => AmplifierForm::row(row),
            Self::Output(_, row) => OutputForm::row(row),
            Self::Rated(_, _, row) => PointForm::row(row),
            Self::Bridge(_, row) => BridgeForm::row(row),
            Self::Box(row) => BuildForm::row(row),
            Self::Takes(_, row) => TakesForm::row(row),
        }
    }

    /// The field of the contract that bounds the value. The count of channels has none of
    /// its own: it is the length of the list.
    #[must_use]
    pub const fn field(self) -> Field {
        match self {
            // A bridge's figures are a channel's, by names of their own in the contract.
            Self::Output(At::Bridge(_), Output::Least) => Field::BridgeLeast,
            place => place.row().field,
        }
    }

    /// How it is entered.
    #[must_use]
    pub const fn shape(self) -> Shape {
        self.row().shape
    }

    /// Whether it does not decide, so that it may be folded away.
    #[must_use]
    pub const fn is_folded(self) -> bool {
        match self {
            Self::Group(_, row) => !matches!(row, Group::Count | Group::Coils | Group::Ohms),
            Self::Output(At::Channel(_), _) | Self::Box(_) | Self::Takes(..) => false,
            Self::Amplifier(_) | Self::Output(..) | Self::Rated(..) | Self::Bridge(..) => true,
        }
    }

    /// Where the value stands in a request: names the field in problems and in the page.
    #[must_use]
    pub fn path(self) -> Path {
        let name = self.field().spec().name;
        match self {
            Self::Group(i, _) => entry(&Path::root(), Field::Drivers, i).field(name),
            Self::Amplifier(_) => amplifier().field(name),
            Self::Output(at, _) => at.path().field(name),
            Self::Rated(at, i, _) => entry(&at.path(), at.rated(), i).field(name),
            Self::Bridge(i, Bridge::First) => At::Bridge(i).path().field(name).entry(0),
            Self::Bridge(i, Bridge::Second) => At::Bridge(i).path().field(name).entry(1),
            Self::Box(_) => build().field(name),
            Self::Takes(i, _) => match TERMINALS.get(i) {
                Some(of) => build().field(of.spec().name).field(name),
                None => build(),
            },
        }
    }
}
