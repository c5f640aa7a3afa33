//! Laws of the contract on requests that nobody would write by hand.

mod values;

use coilwright_module::answer::{self, ClosedBox, Diagnosis, Readings, Wiring};
use coilwright_module::contract::{
    answer_schema, closed_box_schema, diagnosis_schema, pretty, readings_schema, wiring_schema,
};
use coilwright_module::value::Value;
use coilwright_module::{closed_box, configurations, diagnose, readings, wiring};
use coilwright_solver::bounds::Object;
use proptest::prelude::*;
use values::{anything, distinct, for_object, leads_somewhere};

/// Whether a value is what a schema says: just the words that our schema uses.
fn satisfies(root: &Value, schema: &Value, value: &Value) -> Result<(), String> {
    let no = |why: &str| Err(format!("{why}: {} against {}", pretty(value), pretty(schema)));
    if let Some(Value::Text(name)) = schema.get("$ref") {
        let name = name.trim_start_matches("#/$defs/");
        let defs = root.get("$defs").ok_or("no $defs")?;
        return satisfies(root, defs.get(name).ok_or(name)?, value);
    }
    if let Some(Value::List(any)) = schema.get("anyOf") {
        let met = any.iter().any(|one| satisfies(root, one, value).is_ok());
        return if met { Ok(()) } else { no("none of the choices") };
    }
    if let Some(Value::List(words)) = schema.get("enum") {
        return if words.contains(value) { Ok(()) } else { no("not one of the words") };
    }
    let Some(Value::Text(kind)) = schema.get("type") else {
        return no("a schema without a type");
    };
    match (kind.as_str(), value) {
        ("null", Value::Null)
        | ("boolean", Value::Bool(_))
        | ("string", Value::Text(_))
        | ("number", Value::Number(_)) => Ok(()),
        ("integer", Value::Number(number)) if number.fract() == 0.0 && *number >= 0.0 => Ok(()),
        ("array", Value::List(entries)) => {
            let items = schema.get("items").ok_or("a list of nothing")?;
            entries.iter().try_for_each(|entry| satisfies(root, items, entry))
        }
        ("object", Value::Object(fields)) => {
            let Some(Value::Object(known)) = schema.get("properties") else {
                return no("an object of nothing");
            };
            if fields.iter().map(|(name, _)| name).ne(known.iter().map(|(name, _)| name)) {
                return no("other fields, or in another order");
            }
            let mut both = fields.iter().zip(known);
            both.try_for_each(|((_, value), (_, schema))| satisfies(root, schema, value))
        }
        _ => no("another type"),
    }
}

fn as_value(answer: &impl serde::Serialize) -> Result<Value, TestCaseError> {
    let text = serde_json::to_string(answer);
    let value = text.and_then(|text| serde_json::from_str(&text));
    value.map_err(|error| TestCaseError::fail(error.to_string()))
}

fn check(request: &Value) -> Result<(), TestCaseError> {
    let answer = configurations(request);
    let schema = answer_schema();
    satisfies(&schema, &schema, &as_value(&answer)?).map_err(TestCaseError::fail)?;
    let key = answer.configurations.first().map(|one| one.key.as_str());
    check_wiring(request, &Value::Text(key.unwrap_or("1a").to_owned()), key.is_some())?;
    if answer.problems.is_empty() {
        prop_assert!(answer.total.is_some());
        return Ok(());
    }
    prop_assert_eq!(answer.total, None);
    prop_assert!(answer.loads.is_empty() && answer.configurations.is_empty());
    for problem in &answer.problems {
        prop_assert!(leads_somewhere(request, &problem.path), "{:?}", problem);
        prop_assert!(problem.message.ends_with('.'), "{:?}", problem);
    }
    let mut told: Vec<_> = answer.problems.iter().map(|p| (&p.path, p.code.name())).collect();
    told.sort_unstable();
    told.dedup();
    prop_assert_eq!(told.len(), answer.problems.len(), "told twice: {:?}", answer.problems);
    Ok(())
}

/// A key of the list is wired, or the box does not allow it; no other problem is left.
fn check_wiring(request: &Value, key: &Value, listed: bool) -> Result<(), TestCaseError> {
    let wired = wiring(request, Some(key));
    check_readings(request, key, &wired.problems)?;
    let schema = wiring_schema();
    satisfies(&schema, &schema, &as_value(&wired)?).map_err(TestCaseError::fail)?;
    if wired.problems.is_empty() {
        prop_assert!(!wired.runs.is_empty() && wired.parts.is_some());
        return Ok(());
    }
    for problem in &wired.problems {
        let of_box = problem.path.starts_with("box.");
        prop_assert!(!listed || of_box, "{:?}", problem);
        let leads = problem.path == "key" || leads_somewhere(request, &problem.path);
        prop_assert!(leads, "{:?}", problem);
    }
    let nothing = Wiring { problems: wired.problems.clone(), ..Wiring::of_problems(&[]) };
    prop_assert_eq!(wired, nothing);
    Ok(())
}

/// A plan that can be wired is told with its check points, and nothing else is.
fn check_readings(
    request: &Value,
    key: &Value,
    problems: &[answer::Problem],
) -> Result<(), TestCaseError> {
    let found = readings(request, Some(key));
    let schema = readings_schema();
    satisfies(&schema, &schema, &as_value(&found)?).map_err(TestCaseError::fail)?;
    prop_assert_eq!(&found.problems, problems);
    let nothing = Readings { problems: problems.to_vec(), ..Readings::of_problems(&[]) };
    prop_assert_eq!(found == nothing, !problems.is_empty());
    Ok(())
}

/// Readings are explained, or all that is wrong with them is told.
fn check_diagnosis(asked: &Value) -> Result<bool, TestCaseError> {
    let drivers = [("count", 2.0), ("coils", 1.0), ("ohms", 2.0)];
    let drivers = Value::object(drivers.map(|(name, value)| (name, Value::Number(value))));
    let request = Value::object([
        ("drivers", Value::List(vec![drivers])),
        ("box", Value::object([("cups", Value::Text("one".to_owned()))])),
    ]);
    let list = asked.get("readings");
    let found = diagnose(&request, Some(&Value::Text("1a||2a".to_owned())), list);
    let schema = diagnosis_schema();
    satisfies(&schema, &schema, &as_value(&found)?).map_err(TestCaseError::fail)?;
    if found.problems.is_empty() {
        let Some(Value::List(list)) = list else {
            return Err(TestCaseError::fail("no list was answered"));
        };
        prop_assert_eq!(found.agreements.len(), list.len());
        // What reads wrong is explained.
        let wrong = found.agreements.iter().flatten().any(|word| word.0.is_wrong());
        prop_assert!(!(wrong && found.explanations.is_empty()));
        return Ok(true);
    }
    for problem in &found.problems {
        prop_assert!(leads_somewhere(asked, &problem.path), "{:?}", problem);
        prop_assert!(problem.message.ends_with('.'), "{:?}", problem);
    }
    let nothing = Diagnosis { problems: found.problems.clone(), ..Diagnosis::of_problems(&[]) };
    prop_assert_eq!(found, nothing);
    Ok(false)
}

/// A reading hints at something, or all that is wrong with it is told.
fn check_closed_box(asked: &Value) -> Result<bool, TestCaseError> {
    let found = closed_box(asked);
    let schema = closed_box_schema();
    satisfies(&schema, &schema, &as_value(&found)?).map_err(TestCaseError::fail)?;
    if found.problems.is_empty() {
        prop_assert!(found.hint.is_some() && found.text.is_some());
        return Ok(true);
    }
    for problem in &found.problems {
        prop_assert!(leads_somewhere(asked, &problem.path), "{:?}", problem);
        prop_assert!(problem.message.ends_with('.'), "{:?}", problem);
    }
    let nothing = ClosedBox { problems: found.problems.clone(), ..ClosedBox::of_problems(&[]) };
    prop_assert_eq!(found, nothing);
    Ok(false)
}

/// Of so many fields one is wrong.
const RARELY: u32 = 200;

proptest! {
    #![proptest_config(values::often())]

    #[test]
    fn any_value_is_answered_or_told_what_is_wrong(request in anything().prop_map(distinct)) {
        check(&request)?;
        check_closed_box(&request)?;
        check_diagnosis(&Value::object([("readings", request)]))?;
    }

    #[test]
    fn any_likely_reading_hints_at_something_or_is_told_what_is_wrong(
        asked in for_object(Object::ClosedBox, RARELY).prop_map(distinct)
    ) {
        check_closed_box(&asked)?;
    }

    #[test]
    fn any_likely_readings_are_explained_or_told_what_is_wrong(
        asked in for_object(Object::Diagnose, RARELY).prop_map(distinct)
    ) {
        check_diagnosis(&asked)?;
    }

    #[test]
    fn any_likely_request_is_answered_or_told_what_is_wrong(
        request in for_object(Object::Request, RARELY).prop_map(distinct)
    ) {
        check(&request)?;
    }
}

/// So are the likely readings.
#[test]
fn likely_readings_are_of_both_kinds() {
    values::are_of_both_kinds(&for_object(Object::Diagnose, RARELY), |asked| {
        check_diagnosis(asked).expect("a law holds")
    });
}

/// The likely requests are worth their name: some are answered, some are not.
#[test]
fn likely_requests_are_of_both_kinds() {
    values::are_of_both_kinds(&for_object(Object::Request, RARELY), |request| {
        configurations(request).problems.is_empty()
    });
}
