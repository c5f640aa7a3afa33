//! Values that a request may be, right and wrong.

use coilwright_module::value::Value;
use coilwright_solver::bounds::{Default, Field, Kind, OPEN, Object};
use proptest::prelude::*;
use proptest::strategy::ValueTree;
use proptest::test_runner::{FileFailurePersistence, TestRunner};

/// How often a law is tried, and where what broke it is remembered.
pub(crate) fn often() -> ProptestConfig {
    ProptestConfig {
        failure_persistence: Some(Box::new(FileFailurePersistence::WithSource("regressions"))),
        ..ProptestConfig::with_cases(1000)
    }
}

/// Asserts that of 200 likely values some are fine and some are not: else they are not
/// worth their name.
#[expect(clippy::expect_used, reason = "a proof stops at the first surprise")]
pub(crate) fn are_of_both_kinds(
    likely: &impl Strategy<Value = Value>,
    is_fine: impl Fn(&Value) -> bool,
) {
    let mut runner = TestRunner::deterministic();
    let one = |_: &u32| is_fine(&likely.new_tree(&mut runner).expect("a value").current());
    let fine = (0..200).filter(one).count();
    assert!((10..=190).contains(&fine), "{fine} of 200 are fine");
}

/// Any value at all.
pub(crate) fn anything() -> impl Strategy<Value = Value> {
    let leaf = prop_oneof![
        Just(Value::Null),
        Just(Value::Unreadable),
        any::<bool>().prop_map(Value::Bool),
        any::<f64>().prop_map(Value::Number),
        (-3..70_i32).prop_map(|n| Value::Number(f64::from(n))),
        ".{0,8}".prop_map(Value::Text),
    ];
    let names = prop_oneof![
        (0..Field::ALL.len()).prop_map(|i| Field::ALL[i].spec().name.to_owned()),
        ".{0,4}",
    ];
    leaf.prop_recursive(5, 40, 5, move |inner| {
        prop_oneof![
            prop::collection::vec(inner.clone(), 0..5).prop_map(Value::List),
            prop::collection::vec((names.clone(), inner), 0..6).prop_map(Value::Object),
        ]
    })
}

/// Mostly what a field takes, once in `rarely` anything.
fn for_field(field: Field, rarely: u32) -> BoxedStrategy<Value> {
    let number = |n: u32| Value::Number(f64::from(n));
    let right: BoxedStrategy<Value> = match field.spec().kind {
        // Points of the plan that is asked about, and one that it does not have.
        Kind::Text { .. } if field == Field::CheckPoint => {
            let names =
                ["1", "2.coil.1a", "3.basket.2", "5", "9", "9.across.2a", "9.along.3", "40"];
            prop::sample::select(names.to_vec())
                .prop_map(|name| Value::Text(name.to_owned()))
                .boxed()
        }
        Kind::Text { .. } | Kind::AnyText { .. } => {
            prop_oneof![30 => "[ -~à-ÿΩ]{0,60}", 1 => ".{0,62}"].prop_map(Value::Text).boxed()
        }
        // Small rigs: what is tried here is the reading, not the listing.
        Kind::Whole { least, .. } => (least..least + 2).prop_map(number).boxed(),
        Kind::OneOfNumbers(list) => prop::sample::select(list.to_vec()).prop_map(number).boxed(),
        Kind::OneOfWords(list) => prop::sample::select(list.to_vec())
            .prop_map(|word| Value::Text(word.to_owned()))
            .boxed(),
        Kind::Ohms { .. } => prop_oneof![
            (1..9_u32).prop_map(number),
            (1..9_u32, 1..9_u32).prop_map(|(p, q)| Value::Text(format!("{p}/{q}"))),
        ]
        .boxed(),
        Kind::Number { least, most } => (least..most).prop_map(Value::Number).boxed(),
        Kind::Reading { most } => prop_oneof![
            (0.0..40.0_f64).prop_map(Value::Number),
            (0.0..=most).prop_map(Value::Number),
            Just(Value::Text(OPEN.to_owned())),
        ]
        .boxed(),
        Kind::Boolean => any::<bool>().prop_map(Value::Bool).boxed(),
        Kind::Object(object) => for_object(object, rarely),
        Kind::Objects { of, .. } => {
            let entries = prop::collection::vec(for_object(of, rarely), 1..3);
            entries.prop_map(Value::List).boxed()
        }
        Kind::Numbers { least, most } => {
            let entries = (least..most).prop_map(Value::Number);
            prop::collection::vec(entries, 0..5).prop_map(Value::List).boxed()
        }
        Kind::Different { least, .. } => prop::collection::vec(least..least + 3, 0..3)
            .prop_map(move |list| Value::List(list.into_iter().map(number).collect()))
            .boxed(),
        Kind::TwoChannels => prop::collection::vec(1..4_u32, 2)
            .prop_map(move |pair| Value::List(pair.into_iter().map(number).collect()))
            .boxed(),
    };
    prop_oneof![rarely => right, 1 => anything()].boxed()
}

/// An object with most of its fields, one in `rarely` of them wrong.
pub(crate) fn for_object(object: Object, rarely: u32) -> BoxedStrategy<Value> {
    // An entry is mostly one thing or the other.
    if object == Object::Reading {
        let of =
            |fields: [Field; 2]| fields.map(|field| (field.spec().name, for_field(field, rarely)));
        let both = |[(a, x), (b, y)]: [(&'static str, BoxedStrategy<Value>); 2]| {
            (x, y).prop_map(move |(x, y)| Value::object([(a, x), (b, y)])).boxed()
        };
        return prop_oneof![
            6 => both(of([Field::CheckPoint, Field::Reads])),
            2 => both(of([Field::Question, Field::Answered])),
            1 => with_most(object, rarely),
        ]
        .boxed();
    }
    with_most(object, rarely)
}

fn with_most(object: Object, rarely: u32) -> BoxedStrategy<Value> {
    let mut fields = Just(Vec::new()).boxed();
    for field in object.fields() {
        // A list of readings or of bridges is seldom right for the rest of the rig.
        let likely = match (field, field.spec().default) {
            (_, Default::Required) => 0.99,
            (Field::DcOhms | Field::Bridges, _) => 0.1,
            _ => 0.6,
        };
        let one = prop::option::weighted(likely, for_field(field, rarely));
        fields = (fields, one)
            .prop_map(move |(mut fields, value)| {
                let name = field.spec().name.to_owned();
                fields.extend(value.map(|value| (name, value)));
                fields
            })
            .boxed();
    }
    let stray = prop::option::weighted(4.0 / f64::from(rarely), (".{0,6}", anything()));
    (fields, stray)
        .prop_map(|(mut fields, stray)| {
            fields.extend(stray);
            Value::Object(fields)
        })
        .boxed()
}

/// Names of an object are all different: JavaScript knows no other objects.
pub(crate) fn distinct(value: Value) -> Value {
    match value {
        Value::List(entries) => Value::List(entries.into_iter().map(distinct).collect()),
        Value::Object(fields) => {
            let mut kept: Vec<(String, Value)> = Vec::new();
            for (name, value) in fields {
                if kept.iter().all(|(own, _)| *own != name) {
                    kept.push((name, distinct(value)));
                }
            }
            Value::Object(kept)
        }
        value => value,
    }
}

/// Whether a path leads to a value of the request, or to a field that its object lacks.
pub(crate) fn leads_somewhere(request: &Value, path: &str) -> bool {
    let mut here = request;
    let mut rest = path;
    while !rest.is_empty() {
        if let Some(after) = rest.strip_prefix("[\"") {
            // A quoted name is a field that nobody knows: the last step.
            let Some(name) = after.strip_suffix("\"]") else {
                return false;
            };
            let name = name.replace("\\\"", "\"").replace("\\\\", "\\");
            return here.get(&name).is_some();
        }
        if let Some(after) = rest.strip_prefix('[') {
            let Some((index, after)) = after.split_once(']') else {
                return false;
            };
            let (Value::List(entries), Ok(index)) = (here, index.parse::<usize>()) else {
                return false;
            };
            let Some(entry) = entries.get(index) else {
                return false;
            };
            (here, rest) = (entry, after);
            continue;
        }
        let after = rest.strip_prefix('.').unwrap_or(rest);
        let end = after.find(['.', '[']).unwrap_or(after.len());
        let (name, after) = after.split_at(end);
        match here.get(name) {
            Some(value) => (here, rest) = (value, after),
            None => return after.is_empty() && matches!(here, Value::Object(_)),
        }
    }
    true
}
