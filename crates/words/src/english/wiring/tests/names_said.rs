//! What drivers are called, in the steps and in what is copied.

use super::*;

/// Two drivers with two coils each, called something.
fn called<T>(name: &str, build: &Build, look: impl Fn(Wording<'_>) -> T) -> T {
    let names = [name.to_owned()];
    let key = "1:(1a+1b)||(2a+2b)";
    told(drivers(2, 2, 0), plain(MONO), build, key, |wording| {
        look(Wording { names: &names, ..wording })
    })
}

fn titles(wording: Wording<'_>) -> Vec<String> {
    (0..wording.plan.acts.len()).map(|at| wording.act(at).title).collect()
}

#[test]
fn a_step_at_a_driver_says_what_it_is_called() {
    let named = called("Rear doors", &cups(Cups::One), titles);
    for title in [
        "Read each coil of driver 1 (Rear doors)",
        "Polarity of driver 2 (Rear doors)",
        "Check driver 2 (Rear doors)",
    ] {
        assert!(named.iter().any(|one| one == title), "{title} is none of {named:?}");
    }
    // Nothing else changes by it.
    let plain: Vec<String> = named.iter().map(|title| title.replace(" (Rear doors)", "")).collect();
    for nobody in ["", "  ", "\u{202e}"] {
        assert_eq!(called(nobody, &cups(Cups::One), titles), plain, "{nobody:?}");
    }
    let text = |wording: Wording<'_>| wording.act(1).text;
    assert_eq!(
        called("Rear doors", &Build::default(), text),
        called("", &Build::default(), text),
        "the sentences stay short"
    );
}

#[test]
fn what_is_copied_says_once_what_drivers_are_called_in_full() {
    let long = "Rear doors, both sides, behind the grilles";
    let text = called(long, &Build::default(), |wording| wording.text());
    let lines: Vec<&str> = text.lines().collect();
    assert!(lines[0].starts_with("Rig: "), "{text}");
    assert_eq!(lines[1], format!("Drivers 1 and 2: {long}"));
    assert_eq!(text.matches(long).count(), 1);
    assert!(text.contains("\n2. Driver 1 (Rear doors, both sides,…) by itself\n"), "{text}");
    let turned = called("\u{202e}\u{5d0}", &Build::default(), |wording| wording.text());
    assert!(!turned.contains('\u{202e}'), "{turned}");
    assert!(turned.contains("Drivers 1 and 2: \u{2068}\u{5d0}\u{2069}\n"), "{turned}");
}

#[test]
fn drivers_in_the_drawing_have_their_groups_names_and_none_too_many() {
    let names = called(" Rear ", &Build::default(), |wording| wording.driver_names());
    assert_eq!(names, ["Rear", "Rear"]);
    let few = told(drivers(2, 1, 0), plain(MONO), &Build::default(), "1:1a||2a", |wording| {
        wording.driver_names()
    });
    assert_eq!(few, ["", ""]);
}
