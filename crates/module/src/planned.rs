//! One configuration of a rig in its box, read from a request and a key.

use crate::reader;
use crate::value::Value;
use coilwright_solver::answer::{Configuration, one};
use coilwright_solver::meter::{Foretold, Known, foretell};
use coilwright_solver::problem::{Code, Detail, Path, Problem};
use coilwright_solver::rig::{Build, Rig};
use coilwright_solver::wiring::Plan;
use coilwright_words::english::wiring::Wording;

/// What `wiring`, `readings` and `diagnose` are asked about.
pub(crate) struct Planned {
    rig: Rig,
    build: Build,
    configuration: Configuration,
    plan: Plan,
    /// What the meter should read, step by step.
    foretold: Vec<Option<Foretold>>,
    /// Of every driver group.
    names: Vec<String>,
}

impl Planned {
    /// Reads a request and a key and lays out the plan.
    ///
    /// # Errors
    /// Every problem with both; where there is none, the key that is no configuration of
    /// the rig, or the box that does not allow it.
    pub(crate) fn of(request: &Value, key: Option<&Value>) -> Result<Self, Vec<Problem>> {
        let of_key = |code| Problem::new(Path::root().field("key"), code, Detail::None);
        let key = match key {
            Some(Value::Text(key)) => Ok(key),
            Some(_) => Err(of_key(Code::WrongType)),
            None => Err(of_key(Code::Missing)),
        };
        let (request, build, names, key) = match (reader::named(request), key) {
            (Ok((request, build, names)), Ok(key)) => (request, build, names, key),
            (Ok(_), Err(problem)) => return Err(vec![problem]),
            (Err(mut problems), key) => {
                problems.extend(key.err());
                return Err(problems);
            }
        };
        let rig = request.rig;
        let laid = one(&rig, key).and_then(|configuration| {
            let plan = Plan::of(&rig, &build, &configuration)?;
            Ok((configuration, plan))
        });
        let (configuration, plan) = laid.map_err(|problem| vec![problem])?;
        let foretold = foretell(&rig, &plan, &Known::default());
        let foretold = foretold.map_err(|defect| vec![defect.into()])?;
        Ok(Self { rig, build, configuration, plan, foretold, names })
    }

    /// All of it, to be put into words.
    pub(crate) const fn wording(&self) -> Wording<'_> {
        let Self { rig, build, configuration, plan, foretold, names } = self;
        let (foretold, names) = (foretold.as_slice(), names.as_slice());
        Wording { rig, build, configuration, plan, foretold, names }
    }
}
