//! The one table of what people type: a row for each field, in the order of the contract.
//!
//! A row says where its text stands in the form, which field of the contract it is (and so
//! its path, its bounds, its unit and what is usual), how it is entered, where it goes to be
//! checked, and how a link holds it. Reading, links, files, the elements of the page and what
//! a choice shows all go through the rows; whoever adds a field adds a row here and shows it
//! somewhere.

use coilwright_solver::bounds::Field;
use coilwright_solver::ohms::{Ohms, Watts};
use coilwright_solver::rig::{
    AmplifierDraft, BuildDraft, ChannelDraft, Cups, Fed, GroupDraft, JoinedAt, PointDraft,
    TakesDraft, WattsPer,
};

/// How a text is entered, and so what it may hold.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Shape {
    /// Any text.
    Text,
    /// A number.
    Number,
    /// Numbers, one after the other.
    Numbers,
    /// One of a few that the page offers.
    Choice,
}

/// How a link holds a text.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Linked {
    /// At its place in a part of this name.
    In(&'static str),
    /// Behind these, with this before it, where it is not as usual.
    Behind(&'static str),
    /// In a part of its own, which holds it of every entry, where one is not as usual.
    Apart(&'static str),
}

/// Where a value goes to be checked with the others.
#[derive(Debug)]
pub enum Slot<'a> {
    /// A whole number.
    Whole(&'a mut Option<u32>),
    /// Exact ohms.
    Ohms(&'a mut Option<Ohms>),
    /// Watts.
    Watts(&'a mut Option<Watts>),
    /// A length or an area.
    Number(&'a mut Option<f64>),
    /// Numbers.
    Numbers(&'a mut Option<Vec<f64>>),
    /// Whose watts are meant.
    Per(&'a mut WattsPer),
    /// What has a cup of its own.
    Cups(&'a mut Cups),
    /// Where separate cups are joined.
    Joined(&'a mut Option<JoinedAt>),
    /// How drivers are fed.
    Fed(&'a mut Fed),
    /// It is no part of what is checked.
    Nowhere,
}

/// A row: one text of a part of the form.
#[derive(Clone, Copy, Debug)]
pub struct Row {
    /// The field of the contract.
    pub field: Field,
    /// What stands in it at first.
    pub usual: &'static str,
    /// How it is entered.
    pub shape: Shape,
    /// How a link holds it.
    pub linked: Linked,
}

/// A part of the form whose texts have rows.
pub trait Part {
    /// What its values go into.
    type Draft;
    /// Its rows.
    const ROWS: &'static [Row];
    /// Its texts, row by row.
    fn texts(&self) -> Vec<&String>;
    /// Its texts, row by row, to be written to.
    fn texts_mut(&mut self) -> Vec<&mut String>;
    /// Where the value of a row goes.
    fn slot(draft: &mut Self::Draft, row: usize) -> Slot<'_>;
}

/// A part of the form: what is typed in it, its rows, and what else it holds.
macro_rules! part {
    (
        $(#[$about:meta])* $form:ident, $(#[$of:meta])* $row:ident, $draft:ty;
        $($(#[$doc:meta])* $member:ident $variant:ident, $field:ident, $usual:expr, $shape:ident,
            $linked:expr, |$into:ident| $slot:expr;)*
        + $($(#[$else_doc:meta])* $else:ident: $type:ty = $begin:expr;)*
    ) => {
        $(#[$about])*
        #[derive(Clone, Debug, PartialEq, Eq)]
        pub struct $form {
            $($(#[$doc])* pub $member: String,)*
            $($(#[$else_doc])* pub $else: $type,)*
        }

        $(#[$of])*
        #[derive(Clone, Copy, Debug, PartialEq, Eq)]
        pub enum $row { $($(#[$doc])* $variant,)* }

        impl $row {
            /// All of them, in the order of the rows.
            pub const ALL: &'static [Self] = &[$(Self::$variant),*];
        }

        impl Default for $form {
            fn default() -> Self {
                Self { $($member: String::from($usual),)* $($else: $begin,)* }
            }
        }

        impl Part for $form {
            type Draft = $draft;
            const ROWS: &'static [Row] = &[$(Row {
                field: Field::$field,
                usual: $usual,
                shape: Shape::$shape,
                linked: $linked,
            },)*];

            fn texts(&self) -> Vec<&String> {
                vec![$(&self.$member),*]
            }

            fn texts_mut(&mut self) -> Vec<&mut String> {
                vec![$(&mut self.$member),*]
            }

            fn slot(draft: &mut $draft, row: usize) -> Slot<'_> {
                match row {
                    $(row if row == $row::$variant as usize => {
                        let $into = draft;
                        $slot
                    })*
                    _ => Slot::Nowhere,
                }
            }
        }

        impl $form {
            /// A row of it.
            #[must_use]
            #[expect(clippy::indexing_slicing, reason = "every variant has its row")]
            pub const fn row(row: $row) -> &'static Row {
                &Self::ROWS[row as usize]
            }
        }
    };
}

use Linked::{Apart, Behind, In};

part! {
    /// A driver group as typed.
    GroupForm,
    /// A text of a driver group.
    Group, GroupDraft;
    /// What they are called: no part of the question.
    name Name, Name, "", Text, Apart("names"), |_of| Slot::Nowhere;
    /// How many drivers.
    count Count, Count, "1", Number, In("drivers"), |of| Slot::Whole(&mut of.count);
    /// Coils on each: `1`, `2` or `4`.
    coils Coils, Coils, "1", Choice, In("drivers"), |of| Slot::Whole(&mut of.coils);
    /// Ohms of one coil.
    ohms Ohms, CoilOhms, "", Number, In("drivers"), |of| Slot::Ohms(&mut of.ohms);
    /// Continuous watts.
    watts Watts, Watts, "", Number, In("drivers"), |of| Slot::Watts(&mut of.watts);
    /// Whose watts these are: `driver` or `coil`.
    watts_per WattsPer, WattsPer, "driver", Choice, Behind(""), |of| Slot::Per(&mut of.watts_per);
    /// Coils of each driver left out on purpose.
    unused Unused, UnusedCoils, "0", Choice, Behind("unused"), |of| Slot::Whole(&mut of.unused);
    /// Measured ohms, coil by coil, where they were.
    measured Measured, DcOhms, "", Numbers, Apart("measured"), |of| Slot::Numbers(&mut of.dc_ohms);
    +
}

part! {
    /// An amplifier as typed.
    AmplifierForm,
    /// A text of the amplifier.
    Amplifier, AmplifierDraft;
    /// How many of this kind.
    count Count, AmplifierCount, "1", Number, In("amplifier"), |of| Slot::Whole(&mut of.count);
    /// How many channels: in the contract the length of a list.
    channel_count Channels, Channels, "1", Number, In("amplifier"), |_of| Slot::Nowhere;
    +
    /// Whether the first channel's figures are every channel's.
    alike: bool = true;
    /// The channels, at least one; those beyond the count are kept but not read.
    channels: Vec<OutputForm> = vec![OutputForm::default()];
    /// The bridges its maker names.
    bridges: Vec<BridgeForm> = Vec::new();
}

part! {
    /// The figures of a channel or a bridge as typed.
    OutputForm,
    /// A text of a channel or a bridge.
    Output, ChannelDraft;
    /// The least load.
    least Least, ChannelLeast, "", Number, In("channel"), |of| Slot::Ohms(&mut of.least);
    +
    /// Rated points.
    rated: Vec<PointForm> = Vec::new();
    /// Whether it has two pairs of terminals, tied inside.
    tied: bool = false;
}

part! {
    /// A rated point as typed.
    PointForm,
    /// A text of a rated point.
    Rated, PointDraft;
    /// The load.
    ohms Ohms, PointOhms, "", Number, In("channel"), |of| Slot::Ohms(&mut of.ohms);
    /// The power.
    watts Watts, PointWatts, "", Number, In("channel"), |of| Slot::Watts(&mut of.watts);
    +
}

part! {
    /// A bridge as typed.
    BridgeForm,
    /// A text of a bridge: in the contract the two are a list.
    Bridge, ();
    /// The lower channel.
    first First, BridgeChannels, "", Number, In("bridge"), |_of| Slot::Nowhere;
    /// The other channel.
    second Second, BridgeChannels, "", Number, In("bridge"), |_of| Slot::Nowhere;
    +
    /// Its own figures, where stated.
    output: OutputForm = OutputForm::default();
}

part! {
    /// How the box is built, as typed. What is left empty is as usual.
    BuildForm,
    /// A text about the box.
    Built, BuildDraft;
    /// What has a cup of its own, by its name in the contract.
    cups Cups, Cups, "none", Choice, In("box"), |of| Slot::Cups(&mut of.cups);
    /// How many cups there are, where drivers go to them in groups.
    cup_count CupCount, CupCount, "", Number, In("box"), |of| Slot::Whole(&mut of.cup_count);
    /// Where separate cups are joined; empty: where it can be.
    joined_at JoinedAt, JoinedAt, "", Choice, In("box"), |of| Slot::Joined(&mut of.joined_at);
    /// How drivers are fed.
    fed Fed, Fed, "chain", Choice, In("box"), |of| Slot::Fed(&mut of.fed);
    /// Area of a conductor.
    area Area, ConductorArea, "2.5", Number, In("wire"), |of| Slot::Number(&mut of.conductor_mm2);
    /// Between the coils of one driver.
    between_coils BetweenCoils, BetweenCoils, "0.1", Number, In("wire"), |of| metres(of, 0);
    /// Between neighbouring drivers.
    between_drivers BetweenDrivers, BetweenDrivers, "0.5", Number, In("wire"), |of| metres(of, 1);
    /// From a driver to its cup.
    to_cup ToCup, ToCup, "0.5", Number, In("wire"), |of| metres(of, 2);
    /// Between neighbouring cups.
    between_cups BetweenCups, BetweenCups, "1", Number, In("wire"), |of| metres(of, 3);
    /// From the box to the amplifier.
    to_amplifier ToAmplifier, ToAmplifier, "2", Number, In("wire"), |of| metres(of, 4);
    +
    /// Drivers mounted facing in, counted from 1, rising.
    reversed: Vec<u32> = Vec::new();
    /// Whether no vehicle's battery feeds the amplifier.
    not_in_vehicle: bool = false;
    /// What terminals take: of a driver, of a cup, of the amplifier.
    takes: [TakesForm; 3] = Default::default();
}

part! {
    /// What a terminal takes, as typed.
    TakesForm,
    /// A text about a terminal of one sort.
    Takes, TakesDraft;
    /// Conductors.
    conductors Conductors, Conductors, "", Number, In("terminals"), |of| Slot::Whole(&mut of.conductors);
    /// The largest conductor.
    largest Largest, LargestArea, "", Number, In("terminals"), |of| Slot::Number(&mut of.largest_mm2);
    +
    /// Whether it is a push-on tab.
    push_on: bool = false;
}

/// One of the distances.
fn metres(of: &mut BuildDraft, distance: usize) -> Slot<'_> {
    match of.metres.get_mut(distance) {
        Some(metres) => Slot::Number(metres),
        None => Slot::Nowhere,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use coilwright_solver::bounds::Default as Usual;

    fn usual_as_in_the_contract<P: Part>() {
        for row in P::ROWS {
            let contract = match row.field.spec().default {
                Usual::Whole(number) => number.to_string(),
                Usual::Word(word) => word.to_owned(),
                Usual::Hundredths(n) => (f64::from(n) / 100.0).to_string(),
                // A number of drivers and of coils has no default there; one is offered here.
                Usual::Required => continue,
                _ => String::new(),
            };
            assert_eq!(row.usual, contract, "{:?}", row.field);
        }
    }

    /// What the page begins with is what the contract takes where nothing is stated.
    #[test]
    fn what_is_usual_is_the_default_of_the_contract() {
        usual_as_in_the_contract::<GroupForm>();
        usual_as_in_the_contract::<AmplifierForm>();
        usual_as_in_the_contract::<OutputForm>();
        usual_as_in_the_contract::<PointForm>();
        usual_as_in_the_contract::<BuildForm>();
        usual_as_in_the_contract::<TakesForm>();
    }

    fn in_their_order<P: Part>() {
        assert!(P::ROWS.is_sorted_by_key(|row| row.field), "as the contract has them");
    }

    #[test]
    fn rows_stand_in_the_order_of_the_contract() {
        in_their_order::<GroupForm>();
        in_their_order::<AmplifierForm>();
        in_their_order::<PointForm>();
        in_their_order::<BuildForm>();
        in_their_order::<TakesForm>();
    }

    /// Each row reads and writes its own text.
    fn apart<P: Part + Default>() {
        for at in 0..P::ROWS.len() {
            let mut part = P::default();
            *part.texts_mut()[at] = "typed".into();
            let typed: Vec<bool> = part.texts().iter().map(|text| *text == "typed").collect();
            let only = (0..P::ROWS.len()).map(|other| other == at);
            assert_eq!(typed, only.collect::<Vec<_>>(), "{:?}", P::ROWS[at].field);
        }
    }

    #[test]
    fn no_text_has_two_rows() {
        apart::<GroupForm>();
        apart::<AmplifierForm>();
        apart::<OutputForm>();
        apart::<PointForm>();
        apart::<BridgeForm>();
        apart::<BuildForm>();
        apart::<TakesForm>();
    }
}
