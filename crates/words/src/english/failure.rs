//! What one failed coil does to the others, in words.

use super::judged::{Limit, reason};
use super::rig::{self as rig_words, load};
use super::{MARKS, counts::counted, listed, sentence, watts};
use coilwright_solver::answer::Configuration;
use coilwright_solver::failure::{After, Failed, Fault, Hot, Worst};
use coilwright_solver::network::Coil;
use coilwright_solver::outputs::figures;
use coilwright_solver::rig::Rig;

/// Over the column.
pub const IF_A_COIL_OPENS: &str = "if a coil opens";

/// Under the details: what they rest on.
pub const AT_THE_SAME_VOLTAGE: &str = "Worked out at the voltage that the amplifier gave before; \
    a protection circuit may end it sooner.";

/// Under the details where no target power is known.
pub const AT_ANY_VOLTAGE: &str = "No power is known, so each coil is compared with what it got \
    before, at the same voltage.";

/// The worst opened coil as a phrase beside [`IF_A_COIL_OPENS`]: `4 Ω, nothing overloads`,
/// `3 Ω, coil 1b gets 1.78 times its rating`, `all of it falls silent`.
#[must_use]
pub fn opens(rig: &Rig, one: &Configuration, worst: &Worst) -> String {
    let silent = worst.open.after == After::Open;
    let what = heat(rig, worst.open.hottest.as_ref(), false).unwrap_or_else(|| {
        match (worst.overloads, worst.raises) {
            (Some(_), _) => "nothing overloads",
            (None, false) => "no other coil gets more",
            // Some powers are known, some not.
            (None, true) => "nothing is known to overload",
        }
        .to_owned()
    });
    let stands = match worst.open.after {
        After::Load(ohms) => load(ohms),
        After::Open => silenced(one, &worst.open),
        After::Short => "a dead short".to_owned(),
        After::NoFraction => "another load".to_owned(),
    };
    // An output that is silent overloads nothing; others go on as before.
    if silent { stands } else { format!("{stands}, {what}") }
}

/// The worst open and the worst short in sentences, and what they rest on.
#[must_use]
pub fn detail(rig: &Rig, one: &Configuration, worst: &Worst) -> String {
    let (open, short) = (&worst.open, &worst.short);
    let known = one.outputs.get(open.output).is_some_and(|output| output.target_watts.is_some());
    let rests = if known { AT_THE_SAME_VOLTAGE } else { AT_ANY_VOLTAGE };
    format!(
        "{} {} {rests}",
        failed(rig, one, open, Fault::Open),
        failed(rig, one, short, Fault::Shorted)
    )
}

/// What one fault comes to, in one sentence or two: load, silence, the coil that gets the
/// most, and for a short how the load stands with the output.
#[must_use]
pub fn failed(rig: &Rig, one: &Configuration, failed: &Failed, fault: Fault) -> String {
    let mut items = vec![match failed.after {
        After::Open => silenced(one, failed),
        After::Short => format!("{} is a dead short and nothing on it plays", whole(one, failed)),
        After::Load(ohms) => format!("{} becomes {}", the_load(one, failed), load(ohms)),
        After::NoFraction => format!("{} becomes another", the_load(one, failed)),
    }];
    if !matches!(failed.after, After::Open | After::Short) {
        if failed.silent > 0 {
            let fall = if failed.silent == 1 { "falls" } else { "fall" };
            let coils = counted(u128::from(failed.silent), "other coil", "other coils");
            items.push(format!("{coils} {fall} silent"));
        }
        let hot = failed.hottest.as_ref();
        let cold = if hot.is_some_and(|hot| hot.of_rating) {
            "nothing overloads"
        } else {
            "no other coil gets more"
        };
        items.push(heat(rig, hot, true).unwrap_or_else(|| cold.to_owned()));
    }
    let fails = match fault {
        Fault::Open => "opens",
        Fault::Shorted => "shorts",
    };
    let text = format!("If {} {fails}, {}.", name(rig, failed.coil), listed(&items, "and"));
    match stands(rig, one, failed) {
        Some(stands) if fault == Fault::Shorted => format!("{text} {stands}"),
        _ => text,
    }
}

/// How the load afterwards stands with its output, where there is an amplifier.
fn stands(rig: &Rig, one: &Configuration, failed: &Failed) -> Option<String> {
    let After::Load(ohms) = failed.after else { return None };
    let output = one.outputs.get(failed.output)?;
    let figures = figures(rig.amplifier()?, &output.channels)?;
    Some(format!("{}.", sentence(&reason(ohms, Limit::of(Some(&figures))))))
}

/// The coil that gets more than it takes, or more than it got; nothing if none does.
fn heat(rig: &Rig, hot: Option<&Hot>, with_watts: bool) -> Option<String> {
    let hot = hot?;
    if !hot.gets_more() {
        return None;
    }
    let what = if hot.of_rating { "its rating" } else { "what it got" };
    let times = MARKS.short(hot.times);
    let much = if times != "1" {
        format!("{times} times {what}")
    } else if hot.of_rating {
        format!("a little over {what}")
    } else {
        return None;
    };
    let name = name(rig, hot.coil);
    Some(match hot.watts {
        Some(power) if with_watts => format!("{name} gets {}, {much}", watts(power)),
        _ => format!("{name} gets {much}"),
    })
}

fn name(rig: &Rig, coil: Coil) -> String {
    rig_words::coil(coil, rig.group_of(coil.driver).map_or(1, |group| group.coils))
}

/// The output of a fault by its channels, where there are several outputs.
fn place(one: &Configuration, failed: &Failed) -> Option<String> {
    let output = one.outputs.get(failed.output).filter(|_| one.outputs.len() > 1)?;
    Some(rig_words::channels(output.way, &output.channels))
}

fn silenced(one: &Configuration, failed: &Failed) -> String {
    match place(one, failed) {
        Some(place) => format!("all of {place} falls silent"),
        None => "all of it falls silent".to_owned(),
    }
}

fn whole(one: &Configuration, failed: &Failed) -> String {
    place(one, failed).unwrap_or_else(|| "the whole".to_owned())
}

fn the_load(one: &Configuration, failed: &Failed) -> String {
    match place(one, failed) {
        Some(place) => format!("the load on {place}"),
        None => "the load".to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use coilwright_solver::answer::{Request, answer};
    use coilwright_solver::bounds::Field;
    use coilwright_solver::failure::worst;
    use coilwright_solver::rig::{AmplifierDraft, ChannelDraft, Draft, GroupDraft, PointDraft};

    /// Equal drivers, their watts, and channels safe from 2 Ω on that give 1000 W into it.
    fn rig(drivers: (u32, u32, &str), watts: Option<f64>, channels: usize) -> Rig {
        let (count, coils, ohms) = drivers;
        let group = GroupDraft {
            count: Some(count),
            coils: Some(coils),
            ohms: Field::CoilOhms.ohms_text(ohms).ok(),
            watts: watts.map(|watts| Field::Watts.watts(watts).unwrap()),
            ..GroupDraft::default()
        };
        let point = PointDraft {
            ohms: Field::PointOhms.ohms_text("2").ok(),
            watts: Field::PointWatts.watts(1000.0).ok(),
        };
        let channel = ChannelDraft {
            least: Field::ChannelLeast.ohms_text("2").ok(),
            rated: vec![point],
            terminal_pairs: None,
        };
        let amplifier = AmplifierDraft { channels: vec![channel; channels], ..Default::default() };
        let amplifier = (channels > 0).then_some(amplifier);
        Draft { groups: vec![group], amplifier }.check(Vec::new()).unwrap()
    }

    #[track_caller]
    fn says(rig: &Rig, key: &str, column: &str, told: &str) {
        let request =
            Request { rig: rig.clone(), joined_only: false, even_only: false, limit: 300_000 };
        let list = answer(request).configurations;
        let one = list.iter().find(|one| one.key() == key).unwrap();
        let worst = worst(rig, one).unwrap();
        assert_eq!(opens(rig, one, &worst), column, "{key}");
        assert_eq!(detail(rig, one, &worst), told, "{key}");
    }

    const SAME: &str = " Worked out at the voltage that the amplifier gave before; a protection \
        circuit may end it sooner.";

    #[test]
    fn the_column_and_the_detail_tell_the_worst_coil() {
        let two = rig((2, 2, "2"), Some(500.0), 1);
        let told = "If coil 1a opens, the load becomes 3 Ω and coil 1b gets 444 W, 1.78 times its \
            rating. If coil 1a shorts, the load becomes 1 Ω, 1 other coil falls silent and coil \
            2a gets 1000 W, 4 times its rating. 1 Ω is below the least load of 2 Ω.";
        says(
            &two,
            "1:(1a||1b)+(2a||2b)",
            "3 Ω, coil 1b gets 1.78 times its rating",
            &format!("{told}{SAME}"),
        );
        let told = "If coil 1a opens, the load becomes 4 Ω, 1 other coil falls silent and nothing \
            overloads. If coil 1a shorts, the load becomes 4/3 Ω ≈ 1.33 Ω and coil 1b gets 1000 W, \
            4 times its rating. 4/3 Ω ≈ 1.33 Ω is below the least load of 2 Ω.";
        says(&two, "1:(1a+1b)||(2a+2b)", "4 Ω, nothing overloads", &format!("{told}{SAME}"));
    }

    #[test]
    fn silence_is_told_of_its_output() {
        let single = rig((2, 1, "4"), Some(500.0), 2);
        let told = "If driver 1 opens, all of it falls silent. If driver 1 shorts, the load becomes \
            4 Ω and nothing overloads. 4 Ω is above the least load of 2 Ω.";
        says(&single, "1:1a+2a", "all of it falls silent", &format!("{told}{SAME}"));
        let told = "If driver 1 opens, all of channel 1 falls silent. If driver 1 shorts, channel 1 \
            is a dead short and nothing on it plays.";
        says(&single, "1:1a;2:2a", "all of channel 1 falls silent", &format!("{told}{SAME}"));
    }

    #[test]
    fn without_known_power_coils_are_compared_with_what_they_got() {
        let any = " No power is known, so each coil is compared with what it got before, at the \
            same voltage.";
        let three = rig((3, 1, "4"), None, 0);
        let told = "If driver 2 opens, the load becomes 8 Ω and driver 3 gets 2.25 times what it \
            got. If driver 1 shorts, the load becomes 2 Ω and driver 2 gets 9 times what it got.";
        says(
            &three,
            "1a+(2a||3a)",
            "8 Ω, driver 3 gets 2.25 times what it got",
            &format!("{told}{any}"),
        );
        let told = "If driver 1 opens, the load becomes 2 Ω and no other coil gets more. If driver \
            1 shorts, the whole is a dead short and nothing on it plays.";
        says(&three, "1a||2a||3a", "2 Ω, no other coil gets more", &format!("{told}{any}"));
    }
}
